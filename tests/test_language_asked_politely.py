"""What is asked for politely, with its reason behind it, and a number put right without a word for what it counts."""

from __future__ import annotations

from datetime import date

import pytest

from notes_bot.language.reader import read_note

SENT = date(2026, 7, 14)
FIELDS = ("Kestrel", "Old Mill East", "Route 6", "La Tranquera", "Baixada")


def _asked(text: str) -> list[tuple[str, dict]]:
    reading = read_note(text, sent=SENT, fields=FIELDS)
    assert not reading.notes and not reading.problems, (reading.notes, reading.problems)
    return [(command.kind, dict(command.args)) for command in reading.commands]


@pytest.mark.parametrize(
    ("text", "kind", "args"),
    [
        ("Can you put Kestrel off to Friday?", "move", {"field": "kestrel", "date": date(2026, 7, 17)}),
        (
            "Can you put Kestrel off to Friday? My truck is in the shop",
            "move",
            {"field": "kestrel", "date": date(2026, 7, 17)},
        ),
        (
            "Can you rename Route 6 to Big Oak? Grower hates the old name lol",
            "field",
            {"name": "route 6", "rename_to": "big oak"},
        ),
        (
            "Could you rename Kestrel as Big Oak? The old name is silly.",
            "field",
            {"name": "kestrel", "rename_to": "big oak"},
        ),
        (
            "Pode renomear Baixada pra Ipê Grande? O dono não gosta do nome velho",
            "field",
            {"name": "baixada", "rename_to": "ipê grande"},
        ),
        ("Can you add Mulberry Hill next to Kestrel?", "field", {"name": "mulberry hill", "near": "kestrel"}),
        (
            "Can you add Mulberry Hill next to Kestrel? We just leased it",
            "field",
            {"name": "mulberry hill", "near": "kestrel"},
        ),
        ("add a field called Mulberry Hill near Kestrel", "field", {"name": "mulberry hill", "near": "kestrel"}),
        ("Can you fix my last note? The yellow was 12 not 10", "correct", {"what": "yellow", "value": 12, "old": 10}),
        (
            "can you fix the Kestrel note? yellow was 12 not 10",
            "correct",
            {"field": "kestrel", "what": "yellow", "value": 12, "old": 10},
        ),
        (
            "podés corregir mi última nota? las amarillas eran 12 no 10",
            "correct",
            {"what": "yellow", "value": 12, "old": 10},
        ),
        ("Could you show me the history of Kestrel? The boss wants it tonight", "history", {"field": "kestrel"}),
        ("I need the full history of Kestrel for my report", "history", {"field": "kestrel"}),
        ("Necesito el historial completo de La Tranquera para mi informe", "history", {"field": "la tranquera"}),
        ("preciso do histórico da Baixada pro relatório", "history", {"field": "baixada"}),
        (
            "We took on a new field this year, please add it: Tile Corner, planted May 11",
            "field",
            {"name": "tile corner", "planted": date(2026, 5, 11)},
        ),
        ("Got a new field this year. Please add Tile Corner", "field", {"name": "tile corner"}),
        ("put Mulberry Hill on my list", "field", {"name": "mulberry hill"}),
        ("list my Kestrel notes", "history", {"field": "kestrel"}),
    ],
)
def test_it_is_done_and_the_reason_is_no_part_of_it(text: str, kind: str, args: dict) -> None:
    """The words that ask, and the sentence that says why, change nothing of what is asked."""
    assert _asked(text) == [(kind, args)]


@pytest.mark.parametrize(
    "text",
    [
        *("9 not 6", "sorry, 9 not 6", "it was 9 not 6", "should be 9, not 6", "not 6, 9", "not 6 but 9"),
        *("oops 9 instead of 6", "perdón eran 9 no 6", "no eran 6 sino 9", "era 9 não 6", "desculpa, eram 9 e não 6"),
    ],
)
def test_one_number_for_another_is_a_correction_without_its_word(text: str) -> None:
    """What they count is found in the note that is put right."""
    assert _asked(text) == [("correct", {"value": 9, "old": 6})]


@pytest.mark.parametrize(
    "text", ["Kestrel 5 plants 9 not 6", "9, 6", "no 6", "9", "Kestrel 6 dug, 9 not 6 yards from it"]
)
def test_other_numbers_are_none(text: str) -> None:
    """A number more, or a note around them, and nothing is put right silently."""
    reading = read_note(text, sent=SENT, fields=FIELDS)
    assert not any(command.kind == "correct" for command in reading.commands)


@pytest.mark.parametrize(
    ("text", "kind", "args"),
    [
        ("tkae back the last one", "take_back", {}),
        ("takr back the last one, wrogn field", "take_back", {}),
        ("halp", "help", {}),
        ("stae kestrel", "state", {"field": "kestrel"}),
        ("mtue kestrel", "mute", {"field": "kestrel"}),
        ("skpi kestrel", "move", {"field": "kestrel", "skip": True}),
    ],
)
def test_a_short_word_for_asking_is_mended_where_it_begins(text: str, kind: str, args: dict) -> None:
    """With the word behind it, or alone beside a field of the crew."""
    assert _asked(text) == [(kind, args)]


@pytest.mark.parametrize("text", ["moth 6 dug 3 white", "stat 6 dug 3 white", "help pit: 6 dug 3 white"])
def test_a_name_that_is_near_such_a_word_stays_one(text: str) -> None:
    """What stands before a note is its field."""
    reading = read_note(text, sent=SENT, fields=FIELDS)
    assert not reading.commands and reading.notes[0].plants == 6


def test_the_yellow_count_is_put_right_behind_an_excuse() -> None:
    """A count named by its color is of that color, and not all females."""
    asked = _asked(
        "I misread my own handwriting. In the July 3 note on Kestrel the yellow count should be 27, not 22. The rest stands.\n\nW."
    )
    assert asked == [
        ("correct", {"field": "kestrel", "what": "yellow", "value": 27, "old": 22, "date": date(2026, 7, 3)})
    ]


@pytest.mark.parametrize(
    "text",
    ["I would like Kestrel skipped this time.", "I want Kestrel skipped this week", "please have Kestrel skipped"],
)
def test_what_is_wished_skipped_is_skipped(text: str) -> None:
    """It tells not that nobody looked."""
    assert _asked(text) == [("move", {"field": "kestrel", "skip": True})]


@pytest.mark.parametrize("text", ["we skipped Kestrel", "Kestrel skipped this week, too wet"])
def test_what_was_skipped_was_not_looked_at(text: str) -> None:
    """A note, and no wish."""
    reading = read_note(text, sent=SENT, fields=FIELDS)
    assert not reading.commands and reading.notes[0].outcome == "not_looked"


@pytest.mark.parametrize(
    ("text", "kind", "args"),
    [
        ("Field: Kestrel\nHistory, please", "history", {}),
        ("Field: Kestrel\nSkip", "move", {"skip": True}),
        ("Field: Kestrel\nMove: 3 days later", "move", {"days": 3}),
        ("Kestrel:\nSkip", "move", {"skip": True}),
    ],
)
def test_what_stands_below_a_field_is_asked_of_it(text: str, kind: str, args: dict) -> None:
    """Also where its line has a label."""
    assert _asked(text) == [(kind, {"field": "kestrel", **args})]


@pytest.mark.parametrize(
    "text",
    [
        "anota aí talhão cinco irmãos, seis plantas, com a pá, quatro brancas",
        "anotá lote La Tranquera 6 plantas 4 blancas",
    ],
)
def test_a_note_to_be_put_down_is_no_new_field(text: str) -> None:
    """What is counted belongs to a note, and to no name."""
    reading = read_note(text, sent=SENT, fields=FIELDS)
    assert not reading.commands and (reading.notes[0].plants, reading.notes[0].females.white) == (6, 4)


@pytest.mark.parametrize(
    "text",
    [
        "Please skip Old Mill East. Kestrel 6 plants 12 white.",
        "Can you put Old Mill East off to Friday? Kestrel 6 dug, 12 white.",
        "Could you rename Old Mill East to Big Oak? Also Kestrel was 6 plants, 12 white.",
    ],
)
def test_a_note_behind_a_request_is_not_lost(text: str) -> None:
    """It is read, or asked about."""
    reading = read_note(text, sent=SENT, fields=FIELDS)
    assert any(note.females.white == 12 and note.plants == 6 for note in reading.notes)
