"""Requests and corrections in words that no phrase of the tables holds, alone and beside a visit's note."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from notes_bot.language import read_note
from notes_bot.model import Reading

SENT = date(2026, 7, 20)
CREW = (
    *("Kestrel", "Old Mill East", "Harrow Ridge 3", "Tinkers", "Dry Creek", "Schoolhouse North", "Schoolhouse South"),
    *("La Loma", "Molino Sur", "Lote 9", "Sede Velha", "Cruz Queimada", "Várzea do Ipê"),
)


def read(text: str, language: str = "en", fields: tuple[str, ...] = CREW) -> Reading:
    """One message of the crew's."""
    return read_note(text, sent=SENT, fields=fields, language=language, day_first=language != "en")  # type: ignore[arg-type]


def asked(text: str, language: str = "en", fields: tuple[str, ...] = CREW) -> list[dict[str, Any]]:
    """What a message asks, without a question back."""
    reading = read(text, language, fields)

    assert not reading.problems, reading.problems
    return [{"kind": command.kind, **command.args} for command in reading.commands]


@pytest.mark.parametrize(
    ("text", "language", "field"),
    [
        ("Undo what I sent on dry creek, I mixed the buckets up.", "en", "dry creek"),
        ("delete harrow", "en", "harrow"),
        ("nvm the tinkers one, that was a test", "en", "tinkers"),
        ("La Loma, sacá la nota de hoy, me confundí de lote", "es", "la loma"),
        ("lo de la loma anulalo", "es", "la loma"),
        ("Retira a nota da Cruz Queimada que mandei ontem", "pt", "cruz queimada"),
    ],
)
def test_a_word_for_deleting_and_one_for_the_note_take_it_back(text: str, language: str, field: str) -> None:
    """What stands behind a comma only says why."""
    assert asked(text, language) == [{"kind": "take_back", "field": field}]


@pytest.mark.parametrize(
    ("text", "language", "kind"),
    [
        ("quit bugging us about kestrel", "en", "mute"),
        ("u can nag me about kestrel again", "en", "resume"),
        ("I wont be doing kestrel any more", "en", "mute"),
        ("não faço mais o kestrel", "pt", "mute"),
        ("silenciá kestrel", "es", "mute"),
        ("ya podés volver a mandarme los avisos de kestrel", "es", "resume"),
        ("Quero voltar a receber os avisos do kestrel, o arrendamento não saiu.", "pt", "resume"),
        ("não precisa mais avisar do kestrel", "pt", "mute"),
    ],
)
def test_reminders_are_stopped_and_started_in_own_words(text: str, language: str, kind: str) -> None:
    """A denial in the reason behind the comma is not one of the request."""
    assert asked(text, language) == [{"kind": kind, "field": "kestrel"}]


@pytest.mark.parametrize(
    ("text", "language", "given"),
    [
        ("Please leave Kestrel out of this round, nobody can get there.", "en", {"skip": True}),
        ("esta vuelta salteá kestrel", "es", {"skip": True}),
        ("deixa passar essa visita do kestrel", "pt", {"skip": True}),
        ("Kindly shift the kestrel reminder to 8/20.", "en", {"date": date(2026, 8, 20)}),
        ("El recordatorio de kestrel pasalo al viernes por favor, mañana no puedo.", "es", {"date": date(2026, 7, 24)}),
        ("kestrel adia 1 semana", "pt", {"days": 7}),
    ],
)
def test_a_visit_is_left_out_or_put_off_in_own_words(text: str, language: str, given: dict[str, Any]) -> None:
    """The day is the one of the clause that asks."""
    assert asked(text, language) == [{"kind": "move", "field": "kestrel", **given}]


@pytest.mark.parametrize(
    ("text", "language", "command"),
    [
        ("dont bug me on it anymore", "en", {"kind": "mute", "field": "old mill e"}),
        ("whats the history there", "en", {"kind": "history", "field": "old mill e"}),
        ("how's schoolhouse n?", "en", {"kind": "state", "field": "schoolhouse n"}),
        ("take back the schoolhouse one", "en", {"kind": "take_back", "field": "schoolhouse"}),
        ("I would also like the summary for the week.", "en", {"kind": "digest"}),
    ],
)
def test_what_is_asked_behind_a_note_is_asked_and_the_note_is_kept(
    text: str, language: str, command: dict[str, Any]
) -> None:
    """Neither is lost, and "it" is the field of the note."""
    reading = read(f"old mill e R4 shovel 5pl 1w 6y, {text}", language)

    assert [note.field for note in reading.notes] == ["old mill e"]
    assert [{"kind": c.kind, **c.args} for c in reading.commands] == [command]


def test_a_field_not_dug_and_its_reminder_put_off_are_two_things() -> None:
    """ "Too muddy to dig" is a visit, "push it 5 days" is no look again of the note."""
    reading = read("dry creek too muddy to dig, push it 5 days")

    assert [(note.field, note.outcome, note.look_again) for note in reading.notes] == [
        ("dry creek", "not_looked", None)
    ]
    assert [command.args for command in reading.commands] == [{"days": 5, "field": "dry creek"}]


def test_a_field_nobody_got_to_yet_is_no_visit() -> None:
    """ "Cant get to" says why the reminder is put off."""
    reading = read("cant get to tinkers, push that reminder 4 days pls")

    assert not reading.notes
    assert [command.args for command in reading.commands] == [{"days": 4, "field": "tinkers"}]


@pytest.mark.parametrize(
    ("text", "language", "change"),
    [
        ("tan at dry creek 3 not 13", "en", ("dry creek", "tan", 3, 13)),
        ("i recounted dry creek, 14 white", "en", ("dry creek", "white", 14, None)),
        ("total on dry creek comes to 31, i added wrong", "en", ("dry creek", "total", 31, None)),
        ("Sorry, I wrote that we pulled them at Dry Creek, but we dug them with a spade.", "en",
         ("dry creek", "method", "shovel", "pulled")),
        ("roots at dry creek did get soaked, i put no", "en", ("dry creek", "soaked", True, False)),
        ("Corregí por favor: las plantas que miramos en Molino Sur fueron ocho.", "es",
         ("molino sur", "plants", 8, None)),
        ("O solo da Cruz Queimada estava encharcado, eu tinha posto úmido.", "pt",
         ("cruz queimada", "moisture", "wet", "moist")),
    ],
)  # fmt: skip
def test_what_is_so_and_what_was_written_put_a_note_right(
    text: str, language: str, change: tuple[str, str, Any, Any]
) -> None:
    """One value of one field, and what it was before or a word for a mistake."""
    field, what, value, old = change
    (command,) = asked(text, language)

    assert (command["kind"], command["field"], command["what"]) == ("correct", field, what)
    assert (command["value"], command.get("old")) == (value, old)


@pytest.mark.parametrize(
    ("text", "language", "fields", "told"),
    [
        ("Turnpike Thirty is 33 ac by the map", "en", (), {"name": "turnpike thirty", "acres": 33.0}),
        ("We call Kestrel the Chapel Piece from now on.", "en", CREW, {"name": "kestrel", "rename_to": "chapel piece"}),
        ("A partir de ahora al lote 9 le decimos La Manga, cambiale el nombre.", "es", CREW,
         {"name": "lote 9", "rename_to": "la manga"}),
    ],
)  # fmt: skip
def test_a_size_and_a_new_name_are_told_of_the_field(
    text: str, language: str, fields: tuple[str, ...], told: dict[str, Any]
) -> None:
    """No visit is made of them."""
    assert asked(text, language, fields) == [{"kind": "field", **told}]


def test_a_size_told_behind_a_note_is_of_its_field() -> None:
    """ "Its 18 acres" speaks of the field the note is of."""
    reading = read("Badger Flat 6 plants pulled, all clean, planted may 14. its 18 acres", fields=())

    assert [note.field for note in reading.notes] == ["badger flat"]
    assert [command.args for command in reading.commands] == [{"name": "badger flat", "acres": 18.0}]


@pytest.mark.parametrize(
    ("text", "language", "told"),
    [
        ("half inch today finally", "en", {"rain_mm": 12.7, "date": SENT}),
        ("1 1/2 inch of rain", "en", {"rain_mm": 38.1}),
        ("kestrel had .7 last night", "en", {"rain_mm": 17.8, "date": date(2026, 7, 19), "field": "kestrel"}),
        ("got about 3 tenths sat", "en", {"rain_mm": 7.6, "date": date(2026, 7, 18)}),
        ("It got up to 95 F yesterday and only came down to 68.", "en",
         {"tmax_c": 35.0, "tmin_c": 20.0, "date": date(2026, 7, 19)}),
        ("hoy 35 grados de máxima y 19 de mínima", "es", {"tmax_c": 35, "tmin_c": 19, "date": SENT}),
    ],
)  # fmt: skip
def test_rain_and_heat_are_told_in_own_words(text: str, language: str, told: dict[str, Any]) -> None:
    """With a day and an amount no word for rain is needed."""
    assert asked(text, language) == [{"kind": "weather", **told}]


@pytest.mark.parametrize(
    ("text", "language", "told"),
    [
        ("kestrel and tinkers both got an inch and a half", "en", [("kestrel", 38.1), ("tinkers", 38.1)]),
        ("ayer 30 mm en la loma y 25 en molino sur", "es", [("la loma", 30.0), ("molino sur", 25.0)]),
        ("2 tenths at kestrel, 0.9 at tinkers last nite", "en", [("kestrel", 5.1), ("tinkers", 22.9)]),
    ],
)
def test_rain_on_several_fields_is_a_report_of_each(text: str, language: str, told: list[tuple[str, float]]) -> None:
    """Each with its own amount, or with the one told of both."""
    assert [(command["field"], command["rain_mm"]) for command in asked(text, language)] == told


@pytest.mark.parametrize(
    ("text", "language", "command"),
    [
        ("Can you put Kestrel back on the schedule? The tenant changed his mind.", "en", {"kind": "resume"}),
        ("kestrel is getting sprayed tomorrow so bump it to sunday", "en", {"kind": "move", "date": date(2026, 7, 26)}),
        ("Could I get the reminder for Kestrel on Friday rather than tomorrow?", "en",
         {"kind": "move", "date": date(2026, 7, 24)}),
        ("kestrel, quando foi a última visita?", "pt", {"kind": "history"}),
        ("o kestrel fica pra quarta que vem, hoje não dá", "pt", {"kind": "move", "date": date(2026, 7, 22)}),
        ("cuántas blancas saqué en kestrel la otra vez?", "es", {"kind": "history"}),
    ],
)  # fmt: skip
def test_a_reason_beside_a_request_is_no_note(text: str, language: str, command: dict[str, Any]) -> None:
    """Why it is asked is not kept."""
    assert asked(text, language) == [{**command, "field": "kestrel"}]


def test_rain_that_kept_people_out_leaves_the_note_of_the_field() -> None:
    """ "Choveu 12 mm ontem e por isso não deu pra cavar": a report of rain and a look that was not made."""
    reading = read("Choveu 12 mm ontem e por isso não deu pra cavar na Sede Velha, está tudo encharcado.", "pt")

    assert [(note.field, note.outcome, note.soil.moisture) for note in reading.notes] == [
        ("sede velha", "not_looked", "wet")
    ]
    assert [command.args for command in reading.commands] == [{"rain_mm": 12.0, "date": date(2026, 7, 19)}]


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("what did kestrel look like", "history"),
        ("can u tell me when i was last in kestrel", "history"),
        ("When did we spray kestrel?", "history"),
        ("is kestrel due yet", "state"),
        ("how's kestrel looking", "state"),
    ],
)
def test_what_was_is_history_and_what_is_is_state(text: str, kind: str) -> None:
    """The time of the verb tells."""
    assert asked(text) == [{"kind": kind, "field": "kestrel"}]


def test_what_is_let_be_for_now_is_left_out_not_taken_back() -> None:
    """ "Forget kestrel for now" speaks of the visit, not of the note."""
    assert asked("forget kestrel for now, combine is parked across the road") == [
        {"kind": "move", "skip": True, "field": "kestrel"}
    ]


def test_what_stands_behind_the_verb_says_how_long_a_visit_is_put_off() -> None:
    """ "Today" is when it cannot be done."""
    assert asked("can't make kestrel today, push it 2 days") == [{"kind": "move", "days": 2, "field": "kestrel"}]


def test_an_egg_count_behind_a_note_is_of_its_field() -> None:
    """ "There" is the field of the note."""
    reading = read("Kestrel gate 4 plants 7w, far end 4 pl 1w. lab says 3100 eggs per 100cc there")

    assert [(note.field, note.plants) for note in reading.notes] == [("kestrel", 8)]
    assert [(c.kind, c.args["field"], c.args["value"]) for c in reading.commands] == [("lab", "kestrel", 3100)]


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel R3, 6 plants none, bugs on the leaves, nothing else",
        "kestrel 5 plants 12 white. the farmer wants to look at it again in winter",
        "Kestrel 5 pl 3 white, the last one had a broken root",
        "old mill east 4 pulled none. no message from the landlord",
        "kestrel is now R3, 5 plants none",
        "kestrel to close out the season, R6. 6 plants dug, none",
        "kestrel 6 plants none, beans not doing well, no need to check the roots again",
        "Kestrel: 6 plants, 4 white. I'll send you the picture when I get signal.",
        "kestrel V4 dug 6, 2 white. the field is 80 acres of mud today",
        "kestrel is dry now, dug 4 none",
        "kestrel R2 6 pl 3 white. the county moved the road sign on monday",
    ],
)
def test_words_of_asking_in_a_note_ask_nothing(text: str) -> None:
    """A deed and what it is done to are both needed."""
    assert asked(text) == []
