"""Numbers put right while speaking, fields and places told together, days behind "informo que"."""

from __future__ import annotations

from datetime import date

import pytest

from notes_bot.language.reader import read_note

FIELDS = ("Kestrel", "Dry Creek", "Ridge Top", "La Tranquera", "Bajo Grande", "Santa Rita", "Baixada", "Sede Velha")
SENT = date(2026, 7, 8)


@pytest.mark.parametrize(
    ("text", "plants", "white", "total"),
    [
        ("Kestrel 8 dug, 12 white... no sorry thats 10 white, 3 yellow", 8, 10, 13),
        ("Kestrel 8 dug, 12 white - scratch that, 10 white, 3 yellow", 8, 10, 13),
        ("Kestrel 8 dug, 12 white, make that 10, 3 yellow", 8, 10, 13),
        ("Kestrel 8 dug, 12 white oops my bad, er 10 white, 3 yellow", 8, 10, 13),
        ("Kestrel 8 dug no 9 dug, 12 white, 3 yellow", 9, 12, 15),
        ("Kestrel dug 8, no hang on it was 9, 12 white 3 yellow", 9, 12, 15),
        ("Kestrel 9 dug... shoot, make it 10, 4 white", 10, 4, 4),
        ("La Tranquera: 10 plantas con pala, 3 blancas no, 13 blancas y 4 amarillas", 10, 13, 17),
        ("La Tranquera: 10 plantas con pala, 3 blancas, mejor dicho 13, y 4 amarillas", 10, 13, 17),
        ("La Tranquera 8 plantas, perdón eran 9, con pala, 3 blancas", 9, 3, 3),
        ("Santa Rita: 10 plantas na pá, 3 brancas, não, minto, 13 brancas e 4 amarelas", 10, 13, 17),
        ("Santa Rita 8 plantas com pá, 3 brancas, errei, são 5, 1 marrom", 8, 5, 6),
        ("Santa Rita 8 plantas, opa, 9, com pá, 3 brancas", 9, 3, 3),
        ("Kestrel 8 dug, not 80, 11 white, R5", 8, 11, 11),
        ("La Tranquera 8 plantas, no 80 jaja, 11 blancas", 8, 11, 11),
    ],
)
def test_the_number_put_right_stands(text: str, plants: int, white: int, total: int) -> None:
    reading = read_note(text, sent=SENT, fields=FIELDS)
    note = reading.notes[0]
    assert not reading.problems and not reading.commands
    assert (note.plants, note.females.white, note.females.total) == (plants, white, total)  # type: ignore[union-attr]
    assert reading.remarks  # the answer says how it was read


@pytest.mark.parametrize(
    ("text", "white", "yellow"),
    [
        ("Kestrel 6 dug, 4 white. Sorry no photo, 3 yellow", 4, 3),
        ("Kestrel 6 plants 5 white, actually 3 yellow too", 5, 3),
    ],
)
def test_another_color_puts_nothing_right(text: str, white: int, yellow: int) -> None:
    females = read_note(text, sent=SENT, fields=FIELDS).notes[0].females
    assert females is not None and (females.white, females.yellow) == (white, yellow)


def test_a_list_behind_a_word_for_waiting_stays_a_list() -> None:
    note = read_note("Kestrel 8 plants, wait: 3, 0, 2, 1, 0, 0, 4, 1", sent=SENT, fields=FIELDS).notes[0]
    assert note.plants == 8 and note.per_plant == (3, 0, 2, 1, 0, 0, 4, 1)


@pytest.mark.parametrize("text", ["14 white not 12", "8 plantas no 6", "Kestrel 14 white not 12, 3 yellow not 2"])
def test_a_short_reply_is_still_a_correction(text: str) -> None:
    reading = read_note(text, sent=SENT, fields=FIELDS)
    assert reading.commands and {command.kind for command in reading.commands} == {"correct"}


@pytest.mark.parametrize(
    ("text", "moisture", "texture", "stage"),
    [
        ("Kestrel wet, i mean dry, 8 dug none, R4", "dry", None, "R4"),
        ("Kestrel sandy loam, no sorry silt loam, dry, R4, sorry thats R5, 8 dug none", "dry", "silt_loam", "R5"),
        ("La Tranquera seco, perdón, húmedo, R4, perdón, es R5, 8 plantas con pala, nada", "moist", None, "R5"),
        ("Santa Rita seco, digo, úmido, 8 plantas com pá, nada", "moist", None, None),
    ],
)
def test_soil_and_stage_put_right(text: str, moisture: str, texture: str | None, stage: str | None) -> None:
    note = read_note(text, sent=SENT, fields=FIELDS).notes[0]
    assert (note.soil.moisture, note.soil.texture, note.stage) == (moisture, texture, stage)


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel and Ridge Top: 5 pulled in each, zero females in both, dry",
        "Santa Rita e Baixada: 5 arrancadas em cada, zero fêmeas nos dois, seco",
        "La Tranquera y Bajo Grande: 5 arrancadas en cada uno, cero hembras en los dos, seco",
    ],
)
def test_so_many_in_each_field(text: str) -> None:
    notes = read_note(text, sent=SENT, fields=FIELDS).notes
    assert [(note.plants, note.method, note.outcome) for note in notes] == [(5, "pulled", "none_seen")] * 2


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel, uh dug nine plants all together, five at the gate with um 13 white and four at the pond with 2 white",
        "Kestrel 9 plants total, 5 at the gate with 13 white and 4 at the pond with 2 white",
        "La Tranquera nueve plantas en total, cinco en la loma con 13 blancas y cuatro en el bajo con dos blancas",
        "Santa Rita nove plantas ao todo, cinco no alto com treze brancas e quatro na baixada com duas brancas",
    ],
)
def test_plants_before_each_place_and_its_find(text: str) -> None:
    reading = read_note(text, sent=SENT, fields=FIELDS)
    spots = [(spot.plants, spot.females.white) for spot in reading.notes[0].spots if spot.females is not None]
    assert not reading.problems and reading.notes[0].plants == 9 and spots == [(5, 13), (4, 2)]


@pytest.mark.parametrize(
    "text",
    [
        "La Tranquera\nEstimados: informo que el 6/7 se sacaron con pala 12 plantas. 7 hembras blancas.",
        "La Tranquera: les cuento que el 6/7 saqué 12 plantas con pala, ninguna hembra.",
        "La Tranquera: reporto que el lunes saqué 12 plantas con pala, ninguna hembra.",
        "Santa Rita\nPrezados, comunico que no dia 6/7 tirei 12 plantas com pá. 7 fêmeas brancas.",
    ],
)
def test_the_day_behind_words_for_reporting(text: str) -> None:
    assert read_note(text, sent=SENT, fields=FIELDS).notes[0].date == date(2026, 7, 6)


@pytest.mark.parametrize(
    "text",
    [
        "santa rita ontem 8 com pá, metade das plantas c/ cisto, nao contei",
        "santa rita 8 plantas com pá, mais da metade dos pés com cisto",
        "la tranquera 8 con pala, más de la mitad de las plantas con quistes, no conté",
    ],
)
def test_a_share_of_the_plants_is_seen(text: str) -> None:
    reading = read_note(text, sent=SENT, fields=FIELDS)
    assert not reading.problems and reading.notes[0].outcome == "seen"


@pytest.mark.parametrize(
    "text",
    [
        "no more reminders for kestrel, but start em up again on dry creek",
        "muted kestrel, but start em up again on dry creek",
        "turn kestrel reminders off and dry creek back on",
        "stop bugging me about kestrel and turn dry creek back on",
    ],
)
def test_reminders_stopped_here_and_begun_there(text: str) -> None:
    asked = read_note(text, sent=SENT, fields=FIELDS).commands
    assert [(c.kind, c.args["field"]) for c in asked] == [("mute", "kestrel"), ("resume", "dry creek")]


@pytest.mark.parametrize(
    ("text", "stopped", "begun"),
    [
        ("no me avises más de la tranquera, pero volvé a avisarme de bajo grande", "la tranquera", "bajo grande"),
        ("silencia la tranquera y reactivá bajo grande", "la tranquera", "bajo grande"),
        ("silencia a baixada e reativa a santa rita", "baixada", "santa rita"),
        ("não me avise mais da baixada, mas volta a avisar da santa rita", "baixada", "santa rita"),
    ],
)
def test_reminders_stopped_and_begun_in_other_languages(text: str, stopped: str, begun: str) -> None:
    asked = read_note(text, sent=SENT, fields=FIELDS).commands
    assert [(c.kind, c.args["field"]) for c in asked] == [("mute", stopped), ("resume", begun)]


@pytest.mark.parametrize(
    "text",
    [
        "release 14 and refuse 15 of the held ones",
        "of the held messages let 14 through and toss 15",
        "14 release, 15 refuse",
        "de los mensajes retenidos, el 14 soltalo y el 15 rechazalo",
        "libera la 14 y rechaza la 15",
        "das mensagens que ficaram presas, a 14 pode soltar e a 15 recusa",
    ],
)
def test_held_messages_let_through_and_refused(text: str) -> None:
    asked = read_note(text, sent=SENT, fields=FIELDS).commands
    assert [(c.kind, c.args["number"]) for c in asked] == [("release", 14), ("refuse", 15)]


@pytest.mark.parametrize("text", ["we passed 2 and 3", "release 3 white females", "kestrel dropped 2 plants 3 white"])
def test_other_numbers_are_no_held_messages(text: str) -> None:
    assert not {"release", "refuse"} & {c.kind for c in read_note(text, sent=SENT, fields=FIELDS).commands}


@pytest.mark.parametrize(
    "text",
    [
        "kestrel visit went in as 7/7 but i was there 7/6, fix that",
        "kestrel: logged as 7/7, was 7/6",
        "you've got kestrel down for 7/7 but i was there 7/6",
        "la visita a la tranquera figura el 7/7 y fue el 6/7",
        "puse el 7/7 en la tranquera pero fui el 6/7",
        "A visita da Santa Rita ficou com dia 7/7 mas eu fui dia 6/7, acerta pra mim",
        "na sede velha pus dia 7/7 e fui dia 6/7",
    ],
)
def test_the_day_as_noted_and_as_it_was(text: str) -> None:
    (asked,) = read_note(text, sent=SENT, fields=FIELDS).commands
    told = {key: asked.args.get(key) for key in ("what", "value", "old")}
    assert told == {"what": "date", "value": date(2026, 7, 6), "old": date(2026, 7, 7)}


@pytest.mark.parametrize("text", ["kestrel went in on 5/7 but was replanted 5/20", "kestrel dug 7/6, went again 7/7"])
def test_days_of_planting_and_of_two_looks_put_nothing_right(text: str) -> None:
    assert not read_note(text, sent=SENT, fields=FIELDS).commands


def test_no_day_is_put_right_where_a_name_holds_a_weekday() -> None:
    fields = ("Monday Bottom", "Kestrel")
    assert read_note("monday bottom logged 7/7 but was 7/6", sent=SENT, fields=fields) is not None


@pytest.mark.parametrize(
    ("text", "new"),
    [
        ("a Baixada não se chama mais assim não, virou Lagoa Nova. troca aí", "lagoa nova"),
        ("la tranquera ya no se llama así, ahora es la escondida", "la escondida"),
        ("kestrel isn't called that anymore, it's falcon now", "falcon"),
    ],
)
def test_a_name_no_longer_used(text: str, new: str) -> None:
    (asked,) = read_note(text, sent=SENT, fields=FIELDS).commands
    assert (asked.kind, asked.args["rename_to"]) == ("field", new)


@pytest.mark.parametrize(
    ("text", "kinds"),
    [
        ("make that 9 plants. mute kestrel", ["correct", "mute"]),
        ("oops it was 9 plants not 6. and remind me about kestrel monday", ["correct", "move"]),
        ("las plantas fueron 9 y no 6. acordame de la tranquera el lunes", ["correct", "move"]),
        ("me enganei, eram 9 plantas e não 6. e me lembra da santa rita segunda", ["correct", "move"]),
    ],
)
def test_the_last_note_put_right_and_another_field_asked_for(text: str, kinds: list[str]) -> None:
    asked = read_note(text, sent=SENT, fields=FIELDS).commands
    assert [c.kind for c in asked] == kinds
    assert (asked[0].args.get("field"), asked[0].args["what"], asked[0].args["value"]) == (None, "plants", 9)


@pytest.mark.parametrize(
    ("text", "names"),
    [
        ("Kestrel was planted 5/15 and Ridge Top got planted 5/16", ["kestrel", "ridge top"]),
        ("we planted Kestrel 5/15 and Ridge Top 5/16", ["kestrel", "ridge top"]),
        ("la tranquera se sembró el 15/5 y bajo grande se sembró el 16/5", ["la tranquera", "bajo grande"]),
        ("santa rita foi plantada 15/5 e sede velha foi plantada 16/5", ["santa rita", "sede velha"]),
    ],
)
def test_fields_planted_each_on_its_day(text: str, names: list[str]) -> None:
    reading = read_note(text, sent=SENT, fields=FIELDS)
    told = [(c.kind, c.args["name"], c.args["planted"]) for c in reading.commands]
    days = (date(2026, 5, 15), date(2026, 5, 16))
    assert told == [("field", name, day) for name, day in zip(names, days, strict=True)] and not reading.problems


@pytest.mark.parametrize(
    ("text", "language"),
    [
        ("not gonna make it to kestrel friday", "en"),
        ("mañana no voy a kestrel", "es"),
        ("no me esperen mañana en kestrel", "es"),
        ("não vou na kestrel amanhã", "pt"),
    ],
)
def test_a_day_that_is_denied_is_no_day_to_come(text, language):
    """Nobody is reminded on the day he said he cannot go."""
    reading = read_note(text, sent=date(2026, 7, 8), fields=("Kestrel", "Dry Creek"), language=language)

    assert not [command for command in reading.commands if command.kind == "move"]


def test_what_is_denied_before_the_day_denies_no_day():
    """ "No, friday" answers a reminder with a day to come."""
    (command,) = read_note("no, friday", sent=date(2026, 7, 8), fields=("Kestrel", "Dry Creek")).commands

    assert (command.kind, command.args["date"]) == ("move", date(2026, 7, 10))


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("don't remind me of kestrel until friday", ("date", date(2026, 7, 10))),
        ("dont bug me about kestrel till friday", ("date", date(2026, 7, 10))),
        ("stop nagging me about kestrel for 5 days", ("days", 5)),
    ],
)
def test_silence_until_a_day_is_no_end_of_reminders(text, told):
    """Reminders are put off, and not ended."""
    (command,) = read_note(text, sent=date(2026, 7, 8), fields=("Kestrel", "Dry Creek")).commands

    assert (command.kind, command.args[told[0]]) == ("move", told[1])
