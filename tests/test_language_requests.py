"""Requests, field facts and corrections as people word them when they speak of no visit."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from notes_bot.language import read_note

SENT = date(2026, 7, 20)
CREW = ("Kestrel", "Old Mill East", "North Forty", "Tinkers", "North Dietz", "South Dietz", "La Aguada", "Cabeceira")


def asked(text: str, language: str = "en", fields: tuple[str, ...] = CREW) -> list[dict[str, Any]]:
    """What a message asks or tells of a field, without a question back."""
    reading = read_note(text, sent=SENT, fields=fields, language=language, day_first=language != "en")  # type: ignore[arg-type]

    assert not reading.problems, reading.problems
    assert not reading.notes
    return [{"kind": command.kind, **command.args} for command in reading.commands]


@pytest.mark.parametrize(
    ("text", "language", "field"),
    [
        ("i meant South Dietz", "en", "south dietz"),
        ("sorry i meant old mill", "en", "old mill"),
        ("quise decir la aguada", "es", "la aguada"),
        ("era la aguada, perdón", "es", "la aguada"),
    ],
)
def test_a_name_alone_behind_i_meant_is_the_field(text, language, field):
    """Which field was meant, and nothing else: the note sent last is that field's."""
    assert asked(text, language) == [{"kind": "correct", "what": "field", "value": field}]


@pytest.mark.parametrize(
    ("text", "language", "field", "day"),
    [
        ("Wrong day on the Kestrel visit, we were there on the 12th", "en", "kestrel", date(2026, 7, 12)),
        ("tinkers date is wrong, was there friday", "en", "tinkers", date(2026, 7, 17)),
        ("la fecha está mal en la aguada, fue el 14", "es", "la aguada", date(2026, 7, 14)),
    ],
)
def test_a_wrong_day_owned_up_to_is_put_right(text, language, field, day):
    """A word for a wrong day, a field and the day it was."""
    (command,) = asked(text, language)

    assert (command["kind"], command["what"], command["field"], command["value"]) == ("correct", "date", field, day)


@pytest.mark.parametrize(
    ("text", "language", "field"),
    [
        ("can you take my last kestrel entry out, it was a different field", "en", "kestrel"),
        ("pull my tinkers note out please", "en", "tinkers"),
    ],
)
def test_an_entry_taken_out_is_taken_back(text, language, field):
    """The verb and its "out" may stand on both sides of what was sent."""
    assert asked(text, language) == [{"kind": "take_back", "field": field}]


@pytest.mark.parametrize(
    ("text", "language", "where"),
    [
        ("gps for kestrel is 41.87 north 93.02 west", "en", (41.87, -93.02)),
        ("kestrel is at 42.03 N and 93.6 W", "en", (42.03, -93.6)),
        ("la aguada está en 34.21 sur, 60.5 oeste", "es", (-34.21, -60.5)),
        ("cabeceira fica em 12.55 sul, 55.72 oeste", "pt", (-12.55, -55.72)),
    ],
)
def test_winds_tell_the_signs_of_coordinates(text, language, where):
    """North and east are positive, south and west are not."""
    (command,) = asked(text, language)

    assert (command["kind"], command["latitude"], command["longitude"]) == ("field", *where)


@pytest.mark.parametrize(
    ("text", "language"),
    [
        ("how do you want the counts written when theres more than one color", "en"),
        ("como te tengo que pasar los conteos?", "es"),
        ("como eu passo as contagens pra vocês?", "pt"),
    ],
)
def test_how_counts_are_written_is_a_question_for_help(text, language):
    """How, counts, and a word for writing them."""
    assert asked(text, language) == [{"kind": "help", "topic": "counts"}]


def test_a_number_denied_is_none_of_none_seen():
    """ "2 not 1": the second number is what was written."""
    assert asked("tan at kestrel was 2 not 1") == [
        {"kind": "correct", "field": "kestrel", "what": "tan", "value": 2, "old": 1}
    ]


@pytest.mark.parametrize(
    ("text", "language", "told"),
    [
        ("Quarry Forty is getting renamed, call it Stone Pit from now on", "en", ("quarry forty", "stone pit", None)),
        ("Curva Larga es un lote nuevo, 50 hectáreas", "es", ("curva larga", None, 123.6)),
        ("Baixão da Onça tem 60 ha e fica perto de Ribeirão do Sino", "pt", ("baixão da onça", None, 148.3)),
    ],
)
def test_a_name_no_list_has_is_read_whole(text, language, told):
    """Neither "is a" nor a part of the name is taken for it."""
    (command,) = asked(text, language, ())

    assert (command["name"], command.get("rename_to"), command.get("acres")) == told


def test_a_day_of_the_month_behind_the_word_for_day_is_one_day():
    """ "Dia 20/7": the word belongs to the day."""
    reading = read_note("5 plantas na cabeceira, 11 amarelas. próxima olhada dia 28/7", sent=SENT, fields=CREW)

    assert reading.notes[0].look_again is not None
    assert reading.notes[0].look_again.date == date(2026, 7, 28)


def test_the_place_ends_where_the_talk_begins():
    """ "By the way" is no part of a state."""
    assert asked("we're in Iowa by the way if that makes a difference") == [{"kind": "place", "place": "iowa"}]


@pytest.mark.parametrize(
    ("text", "language", "topic"),
    [
        ("how do i tell you none were seen", "en", "counts"),
        ("what do i do if the ground is too wet", "en", "method"),
        ("qué hago si está muy mojado para cavar?", "es", "method"),
        ("o que faço se estiver muito molhado pra cavar?", "pt", "method"),
        ("what does R2 mean", "en", "stages"),
        ("qué significa R3", "es", "stages"),
    ],
)
def test_a_question_that_holds_words_of_a_note_is_no_note(text, language, topic):
    """Nothing was seen and nobody was kept out: it is only asked."""
    assert asked(text, language) == [{"kind": "help"} | ({"topic": topic} if topic else {})]


@pytest.mark.parametrize(
    ("text", "language", "day"),
    [
        ("i cant make tinkers thursday, make it saturday", "en", date(2026, 7, 25)),
        ("cant get to kestrel friday, make it monday", "en", date(2026, 7, 27)),
        ("snooze tinkers til thursday", "en", date(2026, 7, 23)),
    ],
)
def test_a_day_that_does_not_suit_is_moved_and_not_corrected(text, language, day):
    """ "I can't make it": the look is still ahead."""
    (command,) = asked(text, language)

    assert (command["kind"], command["date"]) == ("move", day)


@pytest.mark.parametrize(
    ("text", "language", "field"),
    [
        ("no rain at kestrel last night", "en", "kestrel"),
        ("no llovió nada ayer", "es", None),
        ("ontem não choveu na cabeceira", "pt", "cabeceira"),
    ],
)
def test_no_rain_is_none_and_no_females_unseen(text, language, field):
    """ "Nada" of rain is a day's rain of zero."""
    (command,) = asked(text, language)

    assert (command["kind"], command["rain_mm"], command.get("field")) == ("weather", 0.0, field)
    assert command["date"] == date(2026, 7, 19)


def test_each_number_of_a_day_has_its_own_label():
    """ "Low of 48 .., 79 the high": the second label stands behind its number."""
    (command,) = asked("low of 48 this morning, 79 the high yesterday")

    assert (command["tmin_c"], command["tmax_c"]) == (8.9, 26.1)


def test_rain_of_two_fields_is_two_reports():
    """An amount before each field, its unit left unsaid."""
    found = asked("choveu 25 na cabeceira e 10 na aguada ontem", "pt", ("Cabeceira", "Aguada"))

    assert [(command["field"], command["rain_mm"]) for command in found] == [("cabeceira", 25.0), ("aguada", 10.0)]


@pytest.mark.parametrize(
    ("text", "language", "what", "value"),
    [
        ("on the kestrel note make yellow 7", "en", "yellow", 7),
        ("en la nota de ayer de la aguada eran 5 plantas", "es", "plants", 5),
    ],
)
def test_what_is_said_of_a_note_is_put_right(text, language, what, value):
    """A word for what was written leads to the field's name."""
    reading = read_note(text, sent=SENT, fields=CREW, language=language, day_first=language != "en")

    assert [(c.kind, c.args["what"], c.args["value"]) for c in reading.commands] == [("correct", what, value)]


@pytest.mark.parametrize(
    ("text", "language"),
    [
        ("La Aguada 8 plantas, 5 amarillas y 9 marrones, blancas ya no hay", "es"),
        ("Cabeceira 8 plantas, 5 amarelas e 9 marrons, brancas não tem mais", "pt"),
    ],
)
def test_a_color_that_is_gone_counts_none(text, language):
    """ "Blancas ya no hay": of that color none, and no color named without a number."""
    (note,) = read_note(text, sent=SENT, fields=CREW, language=language, day_first=True).notes

    assert (note.females.white, note.females.total, note.mostly) == (0, 14, ())


def test_a_spray_told_twice_is_one_with_its_days():
    """ "Depois do glifosato, 9 dias da aplicação"."""
    text = "Cabeceira com folha nova amarelada em faixas depois do glifosato, 9 dias da aplicação. 4 plantas, 2 brancas"
    (note,) = read_note(text, sent=SENT, fields=CREW, language="pt", day_first=True).notes

    assert note.spray is not None
    assert (note.spray.what, note.spray.days_ago, note.look_again) == ("glyphosate", 9, None)


def test_a_short_name_keeps_its_article():
    """ "La Tranquera" of La Tranquera Vieja."""
    (note,) = read_note("La Tranquera 10 plantas nada", sent=SENT, fields=("La Tranquera Vieja",), language="es").notes

    assert note.field == "la tranquera"


@pytest.mark.parametrize(
    ("text", "command"),
    [
        ("undo thanks", {"kind": "take_back"}),
        ("delete my last note thx", {"kind": "take_back"}),
        ("tomorrow thanks", {"kind": "move", "date": date(2026, 7, 21)}),
        ("help thanks", {"kind": "help"}),
    ],
)
def test_thanks_behind_a_request_are_no_part_of_it(text, command):
    """Neither a field nor a topic is called "thanks"."""
    assert asked(text) == [command]


def test_what_is_to_be_recorded_of_a_field_is_told_and_not_corrected():
    """ "Please record that it was planted": told for the first time."""
    text = "Please record for Kestrel that it was planted on May 7 to a resistant variety, source Peking"

    assert asked(text) == [
        {
            "kind": "field",
            "name": "kestrel",
            "planted": date(2026, 5, 7),
            "source": "Peking",
            "resistance": "resistant",
        }
    ]


def test_a_field_not_sampled_asks_for_no_plan():
    """ "No se muestreó": nobody looked."""
    reading = read_note("La Aguada: no se muestreó", sent=SENT, fields=CREW, language="es")

    assert (reading.commands, reading.notes[0].outcome) == ((), "not_looked")


@pytest.mark.parametrize(
    ("text", "language", "command"),
    [
        ("tira o cabeceira da minha lista esse ano", "pt", {"kind": "mute", "field": "cabeceira"}),
        ("quais talhões ninguém olhou desde 1 de julho", "pt", {"kind": "due"}),
        ("qué lotes no se miraron desde el 1 de julio", "es", {"kind": "due"}),
        (
            "cabeceira fica do lado da aguada, tem 40 hectares",
            "pt",
            {"kind": "field", "name": "cabeceira", "near": "aguada", "acres": 98.8},
        ),
        ("rain gauge at the barn says 1.75 since friday", "en", {"kind": "weather", "rain_mm": 44.4}),
    ],
)
def test_each_is_read_for_what_it_is(text, language, command):
    """Off the list is no note taken back, nobody looking is a question, hectares are no acres, since is no day."""
    assert asked(text, language) == [command]


def test_a_soil_report_with_eggs_is_a_result():
    """The word for a report asks for none where eggs are told."""
    (command,) = asked("kestrel soil report: 900 eggs per 100 cc")

    assert (command["kind"], command["field"], command["value"]) == ("lab", "kestrel", 900.0)


@pytest.mark.parametrize("text", ["undo. kestrel 6 plants 3 white", "deshacer. kestrel 6 plantas 3 blancas"])
def test_the_last_note_is_taken_back_before_another_is_told(text: str) -> None:
    reading = read_note(text, sent=date(2026, 7, 8), fields=("Kestrel",))

    assert [(command.kind, command.args.get("field")) for command in reading.commands] == [("take_back", None)]
    assert [(note.field, note.plants) for note in reading.notes] == [("kestrel", 6)]


def test_a_field_with_a_letter_is_told_by_a_sign_behind_it() -> None:
    text = "31A: 0 on 6 plants, 31B: 4 white on 5 plants"
    notes = read_note(text, sent=date(2026, 7, 8), fields=("31A", "31B")).notes

    assert [(note.field, note.plants, note.females.total) for note in notes if note.females] == [
        ("31a", 6, 0),
        ("31b", 5, 4),
    ]


@pytest.mark.parametrize(
    ("text", "language"),
    [
        ("My colleague wants his Kestrel note taken back", "en"),
        ("the Kestrel note should be taken back", "en"),
        ("we want the Kestrel note withdrawn", "en"),
        ("Mi compañero quiere anulada su nota de Kestrel", "es"),
        ("O colega quer a nota do Kestrel apagada", "pt"),
        ("tk bck Kestrel", "en"),
    ],
)
def test_a_note_to_be_taken_back(text, language):
    """Whoever wishes it."""
    assert asked(text, language) == [{"kind": "take_back", "field": "kestrel"}]


@pytest.mark.parametrize("text", ["Nobody wants the Kestrel note taken back", "I took back the Kestrel note already"])
def test_a_note_that_need_not_be_taken_back(text):
    assert not read_note(text, sent=SENT, fields=CREW).commands


@pytest.mark.parametrize("text", ["hw mny plnts Kestrel", "Kestrel hw mny plnts", "hw mny plnts fr Kestrel?"])
def test_how_many_without_vowels(text):
    assert asked(text) == [{"kind": "look_plan", "field": "kestrel"}]


@pytest.mark.parametrize(
    "text", ["Kestrel: what did my 10 pulled plants tell me?", "Kestrel what did 10 pulled plants tell me?"]
)
def test_a_field_before_what_is_asked_of_a_look(text):
    assert asked(text) == [{"kind": "look_worth", "field": "kestrel", "plants": 10, "method": "pulled"}]


@pytest.mark.parametrize(
    ("text", "language", "plants"),
    [
        ("Would 5 pulled plants be enough to say Kestrel is clean?", "en", 5),
        ("Are 6 plants enough to call kestrel clean?", "en", 6),
        ("¿Alcanzan 5 plantas arrancadas para decir que Kestrel está limpio?", "es", 5),
        ("5 plantas bastam para dizer que o Kestrel está limpo?", "pt", 5),
    ],
)
def test_what_one_would_like_to_call_clean_was_not_looked_at(text: str, language: str, plants: int) -> None:
    """It had been kept as a note of none seen."""
    (command,) = asked(text, language)
    assert (command["kind"], command["field"], command["plants"]) == ("look_worth", "kestrel", plants)
