"""What scouts send, read: the eight scenes in full, the three languages, and the ways a note can go wrong."""

from __future__ import annotations

from dataclasses import fields, replace
from datetime import date
from typing import Any

import pytest

from notes_bot.language import read_note
from notes_bot.language.lexicon.words import table
from notes_bot.language.names.naming import Names
from notes_bot.model import Females, LookAgain, Note, Reading, Soil, Spot, Spray, Variety

SENT = date(2026, 6, 11)


def read(text: str, sent: date = SENT, **given: Any) -> Reading:
    return read_note(text, sent=sent, **given)


def only(text: str, sent: date = SENT, **given: Any) -> Note:
    """The one note of a message that must be understood without a complaint."""
    reading = read(text, sent, **given)
    assert not reading.problems, reading.problems
    assert len(reading.notes) == 1, reading
    return reading.notes[0]


def said(note: Note) -> dict[str, Any]:
    """What a note says, nothing-said left out."""
    blank = Note()
    return {
        f.name: getattr(note, f.name)
        for f in fields(note)
        if f.name != "where" and getattr(note, f.name) != getattr(blank, f.name)
    }


def total(count: int) -> Females:
    return Females(total=count)


NONE = Females(0, 0, 0, 0, 0)
KESTREL = {
    "field": "kestrel btm 40",
    "date": date(2026, 6, 11),
    "plants": 6,
    "method": "shovel",
    "soaked": True,
    "females": Females(17, 0, 0, 0, 17),
    "mostly": ("white",),
    "per_plant": (3, 0, 7, 2, 5, 0),
    "outcome": "seen",
    "soil": Soil("moist"),
    "stage": "V4",
    "tops": ("healthy",),
    "look_again": LookAgain(days=10),
}
IN_OUT = {
    "date": date(2026, 7, 16),
    "plants": 10,
    "method": "shovel",
    "females": total(356),
    "mostly": ("yellow",),
    "per_plant": (57, 61, 43, 79, 43, 17, 11, 22, 11, 12),
    "outcome": "seen",
    "stage": "R2.5",
    "tops": ("patch",),
}
SCENES: dict[str, tuple[str, date, dict[str, Any]]] = {
    "early white": (
        "Kestrel btm 40, 6/11, V4, moist, shovel+bucket, 6 pl: 3 0 7 2 5 0 all wht. no top symptoms. recheck 10 d",
        date(2026, 6, 11),
        KESTREL,
    ),
    "peak yellow": (
        (
            "Old Mill E 7/16 R2.5 sandy lm, dry top moist below. oval by gate 30x90 yd runs w/ rows. in: 57 61 43 79 43 mostly yel. "
            "out: 17 11 22 11 12. shovel. tag says SCN res??"
        ),
        date(2026, 7, 16),
        IN_OUT
        | {
            "field": "old mill e",
            "spots": (
                Spot("in", 5, total(283), (57, 61, 43, 79, 43), mostly=("yellow",)),
                Spot("out", 5, total(73), (17, 11, 22, 11, 12)),
            ),
            "soil": Soil("moist", "sandy_loam"),
            "variety": Variety(resistance="resistant"),
            "text": "by gate 30x90 yd runs w/ rows; tag says",
        },
    ),
    "peak yellow in Spanish": (
        (
            "Old Mill Este 16/7 R2-R3, franco arenoso, manchón junto a la tranquera. adentro 5 pl: 57 61 43 79 43 casi todas amarillas. "
            "afuera 17 11 22 11 12. con pala"
        ),
        date(2026, 7, 16),
        IN_OUT
        | {
            "field": "old mill este",
            "spots": (
                Spot("adentro", 5, total(283), (57, 61, 43, 79, 43), mostly=("yellow",)),
                Spot("afuera", 5, total(73), (17, 11, 22, 11, 12)),
            ),
            "soil": Soil(texture="sandy_loam"),
            "text": "junto a la tranquera",
        },
    ),
    "late tan": (
        (
            "Cedar slough qtr, aug 29, R6, 8 dug. mostly tan + brown, 17 17 19 13 20 17 8 18. coming off in bucket (~20 loose). "
            "early ripe end. pull soil sample after harvest"
        ),
        date(2026, 8, 29),
        {
            "field": "cedar slough qtr",
            "date": date(2026, 8, 29),
            "plants": 8,
            "method": "shovel",
            "soaked": True,
            "females": total(129),
            "mostly": ("tan", "brown"),
            "per_plant": (17, 17, 19, 13, 20, 17, 8, 18),
            "outcome": "seen",
            "stage": "R6",
            "tops": ("early_ripe",),
            "text": "coming off; 20 loose; pull soil sample after harvest",
        },
    ),
    "late tan in Portuguese": (
        (
            "Cedar Slough 29/8 R6, 8 pés com pá, quase tudo bege e marrom: 17 17 19 13 20 17 8 18. soltando no balde. "
            "ponta madurando antes. amostra de solo depois da colheita"
        ),
        date(2026, 8, 29),
        {
            "field": "cedar slough",
            "date": date(2026, 8, 29),
            "plants": 8,
            "method": "shovel",
            "soaked": True,
            "females": total(129),
            "mostly": ("tan", "brown"),
            "per_plant": (17, 17, 19, 13, 20, 17, 8, 18),
            "outcome": "seen",
            "stage": "R6",
            "tops": ("early_ripe",),
            "text": "soltando; amostra de solo depois da colheita",
        },
    ),
    "none seen, hand pulled": (
        "harrow rdg 3, 6/30, V7ish, bone dry, pulled 4, nun seen, roots snapped",
        date(2026, 6, 30),
        {
            "field": "harrow rdg 3",
            "date": date(2026, 6, 30),
            "plants": 4,
            "method": "pulled",
            "females": NONE,
            "outcome": "none_seen",
            "soil": Soil("dry"),
            "stage": "V7",
            "roots": ("snapped",),
        },
    ),
    "resistant variety holding": (
        "larkspur S80 7/8 R2 moist spade. R var 10 pl: 1 2 1 0 6 0 4 1 0 3 w+y. check strip 46 61 38 72 55",
        date(2026, 7, 8),
        {
            "field": "larkspur s80",
            "date": date(2026, 7, 8),
            "plants": 10,
            "method": "shovel",
            "females": total(18),
            "mostly": ("white", "yellow"),
            "per_plant": (1, 2, 1, 0, 6, 0, 4, 1, 0, 3),
            "spots": (Spot("check strip", 5, total(272), (46, 61, 38, 72, 55), check=True),),
            "outcome": "seen",
            "soil": Soil("moist"),
            "stage": "R2",
            "variety": Variety(resistance="resistant"),
        },
    ),
    "iron chlorosis": (
        "pothole flat 6/10 V2-3 yellow ring, new lvs yel grn veins, pH 8.1. dug 6 none yet. recheck 2 wk",
        date(2026, 6, 10),
        {
            "field": "pothole flat",
            "date": date(2026, 6, 10),
            "plants": 6,
            "method": "shovel",
            "females": NONE,
            "outcome": "none_seen",
            "soil": Soil(ph=8.1),
            "stage": "V2.5",
            "tops": ("interveinal_new", "ring"),
            "look_again": LookAgain(days=14),
        },
    ),
    "potassium": (
        "tinkers 7/2 R1, lower lvs edges yel/brn in spreader strips, K test 78. dug 8: 2 0 4 1 0 6 0 1. both?",
        date(2026, 7, 2),
        {
            "field": "tinkers",
            "date": date(2026, 7, 2),
            "plants": 8,
            "method": "shovel",
            "females": total(14),
            "per_plant": (2, 0, 4, 1, 0, 6, 0, 1),
            "outcome": "seen",
            "soil": Soil(k_ppm=78.0),
            "stage": "R1",
            "tops": ("edges_old",),
            "text": "in spreader strips; both?",
        },
    ),
    "yellow flash": (
        "sycamore ln 6/23 V5, 9 d after gly, new lvs yel in straight bands on end rows + overlaps, dug 6 none, nods pink. look again 7/5",
        date(2026, 6, 23),
        {
            "field": "sycamore ln",
            "date": date(2026, 6, 23),
            "plants": 6,
            "method": "shovel",
            "females": NONE,
            "outcome": "none_seen",
            "stage": "V5",
            "roots": ("nodules_pink",),
            "tops": ("flash_bands",),
            "spray": Spray("glyphosate", days_ago=9),
            "look_again": LookAgain(date=date(2026, 7, 5)),
            "text": "end rows",
        },
    ),
}


@pytest.mark.parametrize("name", SCENES)
def test_a_scene_note_reads_in_full(name: str) -> None:
    """Every datum of the notes as sent is where the contract puts it, and nothing is complained about."""
    text, sent, expected = SCENES[name]

    assert expected == said(only(text, sent))


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (
            "Kestrel 6/11 6 pl shovel 12 white 3 yellow",
            {
                "field": "kestrel",
                "date": SENT,
                "plants": 6,
                "method": "shovel",
                "females": Females(12, 3, 0, 0, 15),
                "outcome": "seen",
            },
        ),
        (
            "old mill e: none seen, 5 pulled, dry",
            {
                "field": "old mill e",
                "plants": 5,
                "method": "pulled",
                "females": NONE,
                "outcome": "none_seen",
                "soil": Soil("dry"),
            },
        ),
        ("tinkers 14 wht 3 yel", {"field": "tinkers", "females": Females(14, 3, 0, 0, 17), "outcome": "seen"}),
        ("cedar slough not looked, too wet", {"field": "cedar slough", "outcome": "not_looked", "soil": Soil("wet")}),
        (
            "kestrel twelve white three yellow on six plants",
            {"field": "kestrel", "plants": 6, "females": Females(12, 3, 0, 0, 15), "outcome": "seen"},
        ),
        (
            "lote 7 ayer 6 plantas 12 blancas 3 amarillas",
            {
                "field": "7",
                "date": date(2026, 6, 10),
                "plants": 6,
                "females": Females(12, 3, 0, 0, 15),
                "outcome": "seen",
            },
        ),
    ],
)
def test_a_short_note_reads_in_full(text: str, expected: dict[str, Any]) -> None:
    """Typical notes of a few words."""
    assert expected == said(only(text))


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("kestrel pulled 4 3 white 2 yellow", (4, Females(3, 2, 0, 0, 5))),
        ("kestrel dug 6 white 12 yellow 3", (6, Females(12, 3, 0, 0, 15))),
        ("kestrel 12w 3y 6pl", (6, Females(12, 3, 0, 0, 15))),
        ("kestrel w12 y3 6 plants", (6, Females(12, 3, 0, 0, 15))),
        ("kestrel white: 12 yellow: 3 plants: 6", (6, Females(12, 3, 0, 0, 15))),
        ("kestrel dug 8 2 0 4 1 0 6 0 1", (8, total(14))),
        ("kestrel 3 0 7 2 5 0 on 6 plants", (6, total(17))),
        ("kestrel dug 6 plants 12 white", (6, Females(12, 0, 0, 0, 12))),
        ("kestrel 6 plants 3 white per plant", (6, Females(18, 0, 0, 0, 18))),
        ("kestrel 6 plants, avg 2.5", (6, total(15))),
        ("kestrel 12/3/0/1 6 pl", (6, Females(12, 3, 0, 1, 16))),
        ("kestrel 6 pl a dozen white", (6, Females(12, 0, 0, 0, 12))),
        ("lote norte 6 pl. 12 bl. 3 am. 2 m.", (6, Females(12, 3, 0, 2, 17))),
        ("talhão norte 6 pés 12 br 3 am 2 m", (6, Females(12, 3, 0, 2, 17))),
        ("kestrel 6 pl 12 b", (6, Females(0, 0, 0, 12, 12))),
    ],
)
def test_each_number_finds_its_noun(text: str, expected: tuple[int, Females]) -> None:
    """Numbers before or behind their nouns, glued, in lists and run on without a comma."""
    note = only(text)

    assert expected == (note.plants, note.females)


@pytest.mark.parametrize(
    "text",
    [
        "kestrel 6 white 14 yellow 3",
        "kestrel 6 pl white 12 yellow",
        "kestrel 6 pl 14 zorks",
        "kestrel 6 pl 12-15 white",
        "kestrel 12 yellow plants",
    ],
)
def test_what_could_mean_two_things_is_asked_about(text: str) -> None:
    """A doubtful number is never put anywhere silently."""
    assert read(text).problems


@pytest.mark.parametrize(("word", "spoken"), [("nine", 9), ("ten", 10)])
def test_numbers_are_never_corrected(word: str, spoken: int) -> None:
    """Nine is not none and ten is not tan."""
    note = only(f"kestrel 6 plants {word} white")

    assert Females(spoken, 0, 0, 0, spoken) == note.females


def test_a_near_word_is_read_and_said_so() -> None:
    """A slip is accepted where only one reading is possible, and the answer says how it was read."""
    reading = read("kestrel 6 pl 12 whyte 3 yellow")

    assert Females(12, 3, 0, 0, 15) == reading.notes[0].females
    assert [r.wrong for r in reading.remarks] == ['read "whyte" as white']


def test_three_states_of_nothing_stay_apart() -> None:
    """None seen, not looked and nothing said are three things."""
    texts = ("kestrel dug 6 none", "kestrel not looked", "kestrel moist V4")

    assert [only(text).outcome for text in texts] == ["none_seen", "not_looked", None]


def test_letters_follow_the_language_of_the_note() -> None:
    """b is brown in English and white in the others; m is moist or brown."""
    english = only("kestrel 6 plants 4 b, m")
    spanish = only("lote kestrel 6 plantas 4 b 2 m, húmedo")

    assert (Females(0, 0, 0, 4, 4), "moist") == (english.females, english.soil.moisture)
    assert (Females(4, 0, 0, 2, 6), "moist") == (spanish.females, spanish.soil.moisture)


def test_several_fields_in_one_message_are_several_notes() -> None:
    """A new field's name starts a new note, on its own line or behind a stop."""
    reading = read(
        "kestrel 6 pl 12 white\nold mill e: none seen, 5 pulled. cedar slough not looked",
        fields=("Kestrel", "Old Mill E", "Cedar Slough"),
    )

    assert [note.field for note in reading.notes] == ["kestrel", "old mill e", "cedar slough"]
    assert [note.outcome for note in reading.notes] == ["seen", "none_seen", "not_looked"]


def test_a_day_on_its_own_line_is_said_of_every_field() -> None:
    """Scouts write the day once, above the fields."""
    reading = read("6/10\nkestrel 6 pl 12 white\nharrow 5 pulled none")

    assert [date(2026, 6, 10)] * 2 == [note.date for note in reading.notes]


@pytest.mark.parametrize(
    ("text", "given", "expected"),
    [
        ("kestrel 6/11 none", {}, date(2026, 6, 11)),
        ("kestrel 11/6 nenhuma", {"language": "pt"}, date(2026, 6, 11)),
        ("kestrel 11/6 none", {"day_first": True}, date(2026, 6, 11)),
        ("kestrel june 9 none", {}, date(2026, 6, 9)),
        ("kestrel 9 june none", {}, date(2026, 6, 9)),
        ("kestrel 9 de junio ninguna", {}, date(2026, 6, 9)),
        ("kestrel yesterday none", {}, date(2026, 6, 10)),
        ("kestrel tue none", {}, date(2026, 6, 9)),
        ("kestrel 2026-06-09 none", {}, date(2026, 6, 9)),
        ("kestrel 3 days ago none", {}, date(2026, 6, 8)),
        ("kestrel hace 3 días ninguna", {}, date(2026, 6, 8)),
        ("kestrel none", {}, None),
    ],
)
def test_days_in_all_usual_forms(text: str, given: dict[str, Any], expected: date | None) -> None:
    """Counted from the day the message was sent."""
    assert expected == only(text, **given).date


def test_two_plausible_days_are_never_a_silent_guess() -> None:
    """8/7 on the tenth of August may be either; the answer says which was taken."""
    reading = read("kestrel 8/7 none", date(2026, 8, 10))

    assert date(2026, 8, 7) == reading.notes[0].date
    assert [r.kind for r in reading.remarks] == ["which_day"]


COMMANDS: list[tuple[str, str, dict[str, Any]]] = [
    ("white 14 not 12", "correct", {"what": "white", "value": 14, "old": 12}),
    ("14 white not 12", "correct", {"what": "white", "value": 14, "old": 12}),
    ("kestrel 8 plants not 6", "correct", {"field": "kestrel", "what": "plants", "value": 8, "old": 6}),
    ("blancas 14 no 12", "correct", {"what": "white", "value": 14, "old": 12}),
    ("brancas 14 não 12", "correct", {"what": "white", "value": 14, "old": 12}),
    ("R2 not R3", "correct", {"what": "stage", "value": "R2", "old": "R3"}),
    ("it was shovel not pulled", "correct", {"what": "method", "value": "shovel", "old": "pulled"}),
    ("should be 14 white", "correct", {"what": "white", "value": 14}),
    ("white should be 14", "correct", {"what": "white", "value": 14}),
    ("undo", "take_back", {}),
    ("borrar", "take_back", {}),
    ("state kestrel", "state", {"field": "kestrel"}),
    ("how is kestrel doing?", "state", {"field": "kestrel"}),
    ("estado kestrel", "state", {"field": "kestrel"}),
    ("kestrel history", "history", {"field": "kestrel"}),
    ("due", "due", {}),
    ("drop it", "move", {"skip": True}),  # of a look; it must not take a note back
    ("scratch that last one", "take_back", {}),
    ("help", "help", {}),
    ("ayuda", "help", {}),
    ("help dates", "help", {"topic": "dates"}),
    ("chart kestrel", "picture", {"field": "kestrel"}),
    ("rename kestrel to kestrel 40", "field", {"name": "kestrel", "rename_to": "kestrel 40"}),
    ("add field home 42.03, -93.62", "field", {"name": "home", "latitude": 42.03, "longitude": -93.62}),
    ("kestrel planted may 6", "field", {"name": "kestrel", "planted": date(2026, 5, 6)}),
    (
        "lab kestrel 1200 eggs per 100 cc",
        "lab",
        {"field": "kestrel", "eggs_per_100cc": 1200.0, "value": 1200.0, "unit": "eggs per 100 cc"},
    ),
    ("mute kestrel", "mute", {"field": "kestrel"}),
    ("resume", "resume", {}),
    ("language spanish", "language", {"language": "es"}),
    ("place iowa", "place", {"place": "iowa"}),
    ("kestrel", "choose", {"name": "kestrel"}),
    ("2", "choose", {"number": 2}),
    ("friday", "move", {"date": date(2026, 6, 12)}),
    ("in 3 days", "move", {"days": 3}),
    ("skip", "move", {"skip": True}),
    ("release 4", "release", {"number": 4}),
    ("refuse 4", "refuse", {"number": 4}),
    ("digest", "digest", {}),
    ("rain 0.4 in", "weather", {"rain_mm": 10.2}),
]


@pytest.mark.parametrize(("text", "kind", "args"), COMMANDS)
def test_what_is_asked_is_a_command_and_nothing_else(text: str, kind: str, args: dict[str, Any]) -> None:
    """A short reply or question is one command, no note and no complaint."""
    reading = read(text)

    assert ((kind, args),) == tuple((c.kind, dict(c.args)) for c in reading.commands)
    assert not reading.notes
    assert not reading.problems


@pytest.mark.parametrize("text", ["thanks", "ok", "Thanks!", "gracias", "obrigado", "👍", "ok thanks"])
def test_courtesies_are_neither_a_note_nor_a_mistake(text: str) -> None:
    """Nobody is scolded for saying thanks."""
    reading = read(text)

    assert not (reading.notes or reading.commands or reading.problems)


@pytest.mark.parametrize("joint", ["o", "u"])
def test_either_of_two_counts_is_asked_about(joint: str) -> None:
    """ "Siete u ocho" is a range as "siete o nueve" is: before "ocho" the Spanish "o" is written "u"."""
    reading = read(f"lote 7: 6 plantas, 7 {joint} 8 blancas")

    assert [problem.kind for problem in reading.problems] == ["which_of_range"]


def test_one_bad_clause_costs_one_clause() -> None:
    """What stands before and behind a doubtful clause is read all the same."""
    reading = read("kestrel 6/11 V4, 6 pl 12-15 white, moist, shovel, recheck 10 d")

    note = reading.notes[0]
    assert [p.kind for p in reading.problems] == ["which_of_range"]
    assert (date(2026, 6, 11), "V4", "moist", "shovel", 10) == (
        note.date,
        note.stage,
        note.soil.moisture,
        note.method,
        note.look_again.days if note.look_again else None,
    )


def test_a_problem_cites_line_column_and_text() -> None:
    """The place of a complaint is where the writer can see it."""
    problem = read("kestrel 6 pl none\nharrow dug 6 2-3 white").problems[0]

    assert (problem.where.line, problem.where.column, problem.where.text) == (2, 14, "2-3 white")


def test_same_as_above_takes_the_way_of_looking_and_not_the_counts() -> None:
    """Ditto copies how it was looked, and says so."""
    reading = read("kestrel 6/11 V4 moist shovel 6 pl 12 white\nold mill same, 3 white")

    note = reading.notes[1]
    assert ("shovel", "moist", "V4", 6, Females(3, 0, 0, 0, 3)) == (
        note.method,
        note.soil.moisture,
        note.stage,
        note.plants,
        note.females,
    )
    assert "same" in [r.kind for r in reading.remarks]


def test_the_note_keeps_its_text_as_written() -> None:
    """``where`` holds the whole note, for quoting it back."""
    text = "kestrel 6 pl 12 white\nold mill 5 pulled none"

    assert text.split("\n") == [note.where.text for note in read(text).notes]


def test_clause_order_does_not_matter() -> None:
    """Free order: the same clauses in any order give the same note."""
    clauses = ["6/11", "V4", "moist", "shovel", "6 plants", "12 white", "3 yellow", "recheck 10 d"]
    expected = only("kestrel, " + ", ".join(clauses))

    for turn in range(len(clauses)):
        turned = clauses[turn:] + clauses[:turn]
        assert replace(only("kestrel, " + ", ".join(turned)), where=expected.where) == expected


@pytest.mark.parametrize(
    ("text", "language"),
    [
        ("kestrel 5 matas, no vi cosas raras", "es"),
        ("kestrel 5 pés, umas 4 ou 5", "pt"),
        ("kestrel 5 plantas 3b 1m, não sei se a marrom era cisto", "pt"),
        ("quitale 3 blancas a kestrel", "es"),
    ],
)
def test_what_may_be_meant_in_another_way_is_asked_about(text: str, language: str) -> None:
    """None of something else, "and some", either number, a doubt, a verb of changing: never taken in silence."""
    reading = read(text, fields=("Kestrel",), language=language)
    assert reading.problems, reading
    assert all(note.date is None for note in reading.notes)


def test_no_way_into_a_field_is_not_none_seen() -> None:
    """ "No hubo forma de entrar" denies the visit, not the females."""
    note = only(
        "Bajo grande: no hubo forma de entrar, hay agua hasta la rodilla", fields=("Bajo Grande",), language="es"
    )
    assert (note.outcome, note.soil.moisture, note.females.total) == ("not_looked", "wet", None)


def test_dry_edges_of_leaves_are_no_dry_soil() -> None:
    """A word for soil right behind the edges of leaves is said of the leaves."""
    note = only("Santa Rita, folhas de baixo com a beirada seca, 5 plantas nada", fields=("Santa Rita",), language="pt")
    assert (note.soil.moisture, note.tops) == (None, ("edges_old",))


def test_a_form_of_address_is_no_field_where_the_crew_s_own_follows() -> None:
    """A mail opens with a word to its readers; the field named before anything is counted is the field."""
    note = only(
        "Buenas gentes: el martes visitamos Bajo Grande, 6 plantas nada", fields=("Bajo Grande",), language="es"
    )
    assert note.field == "bajo grande"


def test_fields_joined_by_nor_are_each_not_looked_at() -> None:
    """ "Nem a baixada nem o talhão 3" are two fields, though one of the names is also a place."""
    reading = read(
        "hoje não consegui olhar nem a baixada nem o talhão 3", fields=("Baixada", "Talhão 3"), language="pt"
    )
    assert [(note.field, note.outcome) for note in reading.notes] == [("baixada", "not_looked"), ("3", "not_looked")]


@pytest.mark.parametrize("written", ["1,850", "1.850", "1850"])
def test_thousands_of_eggs_are_read_with_either_mark(written: str) -> None:
    """No laboratory counts thousandths of an egg."""
    (command,) = read(f"Kestrel {written} huevos por 100 cc", fields=("Kestrel",), language="es").commands
    assert command.args["eggs_per_100cc"] == 1850.0


def test_what_is_asked_in_winter_may_stand_behind_a_name_with_its_article() -> None:
    """ "La Tranquera plan de muestreo" begins with a field of the crew, article and all."""
    reading = read("la tranquera plan de muestreo", fields=("La Tranquera", "Bajo Grande"), language="es")
    assert [(command.kind, command.args["field"]) for command in reading.commands] == [("sample", "la tranquera")]


def test_a_name_is_as_like_the_crew_s_names_whether_asked_once_or_twice() -> None:
    """What is remembered of one crew's names says nothing of another's."""
    mine, theirs = ("Harrow Ridge 3", "Old Mill East"), ("Old Mill West", "Kestrel")
    for fields_of, told in ((mine, "old mill e"), (theirs, "old mill w"), (mine, "harrow rdg 3")):
        names = Names(told, [], table("en"), fields_of)
        assert names.likeness(0, len(told)) == names.likeness(0, len(told)) == 99.0
    assert Names("old mill e", [], table("en"), theirs).likeness(0, 10) < 99.0
