"""Numbers that count no females, what is found in each field told last, and counts told anew: none is kept wrong."""

from __future__ import annotations

from datetime import date

import pytest

from notes_bot.language import read_note
from notes_bot.model import Note, Reading
from tests.reading_kit import SENT, note_of

CREW = ("Red Barn", "Long Rows", "Media Luna", "Domingo", "Vermelha", "Agua Clara", "Good Luck")


def read(text: str) -> Reading:
    """A message of a crew whose fields are named by common words."""
    return read_note(text, sent=SENT, fields=CREW)


def one(text: str) -> Note:
    """Its one note, and no question."""
    reading = read(text)
    assert reading.problems == (), [problem.kind for problem in reading.problems]
    (note,) = reading.notes
    return note


@pytest.mark.parametrize(
    ("text", "plants", "total"),
    [
        ("Red Barn, gate locked, never got a look. combo used to be 4412", None, None),
        ("Red Barn V5 looks healthy. didnt dig, shovels in truck 3", None, None),
        ("Red Barn dug 6, 3 white. Stand was supposed to be 140 but looks more like 110 to me", 6, 3),
        ("Red Barn. Truck said 101 outside. Dug 6, 3 yellow", 6, 3),
        ("Red Barn planted 5/6 at 140k. R2. pulled 10, 4 yel", 10, 4),
        ("Red Barn estande 280 mil. 5 com pá, 4 marrons", 5, 4),
        ("out at Red Barn since 7, pulled 5, nothing on em", 5, 0),
        ("saí 6h30, Red Barn 6 plantas, nenhuma", 6, 0),
        ("Agua Clara: 4 plantas con pala, 2 blancas, ya eran las 8 de la noche", 4, 2),
        ("good luck - none on the 8 I dug. bad luck at the elevator, beans 9.80", 8, 0),
        ("Red Barn 5 dug none call me 555 0142", 5, 0),
        ("media luna. media docena con pala, 5 blancas y media hora para llegar", 6, 5),
        ("Agua Clara, 3 das 8 que arranquei tinham fêmeas, 5 brancas", 8, 5),
        ("Red Barn 6 pulled, 2 white on each one so 12", 6, 12),
        ("Red Barn 10 pulled, 7 white, on 3 of em", 10, 7),
        ("Red Barn - last yr we had 40 white on 5 plants there. this time 5 pulled, 6 white", 5, 6),
        ("Red Barn: 8 dug, 1 white. uncle found 15 white his side of the fence", 8, 1),
        ("Red Barn, boss counted 14 white in there last week, I dug 8 and got 5 white", 8, 5),
        ("Red Barn, meu cunhado achou 15 na roça dele. eu: 8 com pá, 3 brancas", 8, 3),
    ],
)
def test_a_number_of_something_else_is_no_count(text: str, plants: int | None, total: int | None) -> None:
    note = one(text)
    assert (note.plants, note.females.total) == (plants, total)


@pytest.mark.parametrize(
    "text",
    [
        "Red Barn dug 6, 3 white. managed another 2",
        "Red Barn dug 6, 3 white, 5 on the hill side",
        "Red Barn dug 6 none. hillside 4",
        "Red Barn pulled 6. none. hill end 5 bad spot 7",
        "Red Barn dug 6. got lucky w just 3",
    ],
)
def test_a_number_that_may_count_is_asked_about(text: str) -> None:
    assert read(text).problems


@pytest.mark.parametrize(
    ("text", "listed"),
    [
        ("Red Barn, dug: 3x0, 2 2 5", (0, 0, 0, 2, 2, 5)),
        ("Red Barn 2x1 4x0 six plants dug", (1, 1, 0, 0, 0, 0)),
        ("Red Barn pulled 6: 4x0, 2x3", (0, 0, 0, 0, 3, 3)),
        ("Red Barn 0x4 2x1, dug", (0, 0, 0, 0, 2)),
    ],
)
def test_plants_told_by_times_are_a_list(text: str, listed: tuple[int, ...]) -> None:
    assert one(text).per_plant == listed


@pytest.mark.parametrize(
    "text",
    [
        "Red Barn and Long Rows, dug 5 in each. 4 white in Red Barn, none at all in Long Rows",
        "dug 5 each at Red Barn and Long Rows, 4 white in Red Barn and none at Long Rows",
        "Red Barn and Long Rows, dug 5 in each. 4 white in Red Barn, none at all in Long Rows. recheck both in 10 d",
    ],
)
def test_what_was_found_in_each_field_may_stand_before_its_name(text: str) -> None:
    told = {note.field: (note.plants, note.females.white, note.outcome) for note in read(text).notes}
    assert told == {"red barn": (5, 4, "seen"), "long rows": (5, 0, "none_seen")}


def test_a_name_behind_a_comparison_tells_nothing_of_that_field() -> None:
    reading = read("4 white in Red Barn, but unlike last week none in Long Rows")
    assert [(note.field, note.females.white) for note in reading.notes if note.females.total is not None] == [
        ("red barn", 4)
    ]


@pytest.mark.parametrize(
    ("text", "plants", "colors"),
    [
        ("Kestrel, con pala, 3 plantas 3 blancas... perdón, 3 plantas 2 blancas", 3, (2, 0)),
        ("Kestrel 8 plantas na pá, 7 brancas. quer dizer, 7 no total, 5 brancas e 2 amarelas", 8, (5, 2)),
        ("Kestrel dug 6, 7 white. I mean 7 total, 5 white and 2 yellow", 6, (5, 2)),
        ("Kestrel 5 white no wait 5 was the plants. 5 dug 3 white", 5, (3, 0)),
        ("Kestrel 6 plants 4 white 2 yellow, wait, 5 white 1 yellow", 6, (5, 1)),
        ("Kestrel 6 plants 4 white 2 yellow, sorry 5 white", 6, (5, 2)),
        ("Kestrel 6 plants 4 white 2 yellow, sorry 3 yellow", 6, (4, 3)),
    ],
)
def test_counts_told_anew_stand(text: str, plants: int, colors: tuple[int, int]) -> None:
    note = note_of(text)
    assert (note.plants, (note.females.white, note.females.yellow)) == (plants, colors)


def test_a_count_of_a_check_strip_behind_sorry_takes_nothing_back() -> None:
    note = note_of("Kestrel 6 plants 4 white. sorry, in the check 3 plants 20 white")
    assert (note.plants, note.females.white, note.spots[0].females.white) == (6, 4, 20)


@pytest.mark.parametrize(
    ("text", "look"),
    [
        ("didnt dig Red Barn, will dig 8 thursday", date(2026, 7, 9)),
        ("didnt dig Red Barn, lightning. going back wed to pull 12", date(2026, 7, 15)),
        ("agua clara está todo embarrado, no cavé nada, vuelvo el jueves a sacar 10", date(2026, 7, 9)),
    ],
)
def test_plants_to_be_dug_then_are_none_of_this_visit(text: str, look: date) -> None:
    note = one(text)
    assert (note.outcome, note.plants) == ("not_looked", None)
    assert note.look_again is not None
    assert note.look_again.date == look


def test_a_week_from_a_day_is_a_look_again() -> None:
    note = one("Red Barn 6 plants, 2 white, returning a week from friday")
    assert note.look_again is not None
    assert note.look_again.date == date(2026, 7, 17)


@pytest.mark.parametrize(
    ("text", "field", "day"),
    [
        ("Domingo eu fiz na sexta: 4 com pá, 3 brancas", "domingo", date(2026, 7, 3)),
        ("Domingo: 4 com pá, 3 brancas", "domingo", None),
        ("Domingo fui no Red Barn 4 com pá, 3 brancas", "red barn", date(2026, 7, 5)),
        ("Red Barn i went mon. 4 dug, 3 white", "red barn", date(2026, 7, 6)),
        ("Red Barn went sat. 4 dug, 3 white", "red barn", date(2026, 7, 4)),
    ],
)
def test_a_field_named_like_a_day_and_a_day(text: str, field: str, day: date | None) -> None:
    note = one(text)
    assert (note.field, note.date, note.females.white) == (field, day, 3)


@pytest.mark.parametrize(
    "text",
    [
        "Vermelha, terra vermelha argilosa, 32 graus. 6 plantas com pá e zero fêmea",
        "Vermelha: terra vermelha, 6 plantas, 0",
    ],
)
def test_the_color_of_the_soil_names_no_field(text: str) -> None:
    assert [note.field for note in read(text).notes] == ["vermelha"]


def test_a_barn_is_not_red_and_tells_nothing_of_roots() -> None:
    note = one("Red Barn, pulled 5, nothing on em. barns not even red anymore lol")
    assert (note.roots, note.tops, note.outcome) == ((), (), "none_seen")


@pytest.mark.parametrize(
    ("text", "asked"),
    [
        ("Red Barn dug 7. 11 in all, 8 white and the rest tan", False),
        ("Red Barn dug 6, 5 white and the rest yellow", True),
    ],
)
def test_the_rest_is_counted_only_where_all_are(text: str, asked: bool) -> None:
    reading = read(text)
    assert bool(reading.problems) == asked
    assert asked or (reading.notes[0].females.white, reading.notes[0].females.tan) == (8, 3)


@pytest.mark.parametrize(
    ("text", "plants", "white"),
    [
        ("Red Barn 6 plants, 4 white on two, none on the rest", 6, 4),
        ("Red Barn 6 plants, 4 white on two plants, none on the other four", 6, 4),
        ("Red Barn 6 dug, 4 white on two of the plants, the other four had nothing", 6, 4),
        ("Red Barn 4 of the 10 i pulled had females, 13 white. other 6 clean", 10, 13),
        ("Agua Clara 6 con pala, 4 blancas en dos, las otras cuatro nada", 6, 4),
        ("Agua Clara 6 com pá, 4 brancas em duas, nada nas outras", 6, 4),
        ("Red Barn. I'd bet on 20 white by august. Right now 6 pulled and 3 white", 6, 3),
        ("Agua Clara: temo que para agosto haya 20 por planta. Por ahora 8 con pala y 2 blancas", 8, 2),
        ("Red Barn gate 3 plants 2 white, hill 3 plants 1 white. thats 6 plants and 3 white", 6, 3),
        ("Red Barn gate 3 plants 2 white, hill 3 plants 1 white. combined 6 plants 3 white", 6, 3),
        ("Red Barn gate 3 plants 2 white, hill 3 plants 1 white. 6 plants 3 white all told", 6, 3),
        ("Agua Clara portón 3 plantas 2 blancas, loma 3 plantas 1 blanca. o sea 6 plantas 3 blancas", 6, 3),
        ("Red Barn dug 3 at gate 2 white, 3 at creek 0, 3 on hill 1 white", 9, 3),
    ],
)
def test_what_is_told_of_all_or_of_the_others_is_counted_once(text: str, plants: int, white: int) -> None:
    note = one(text)
    assert (note.plants, note.females.white) == (plants, white)


@pytest.mark.parametrize(
    "text",
    [
        "Red Barn gate 3 plants 2 white, hill 3 plants 1 white. thats 7 plants and 4 white",
        "Red Barn june visit 3 plants 2 white, this visit 3 plants 1 white",
        "Red Barn 3 plants 2 white. Long Rows 3 plants 1 white, 7 plants",
    ],
)
def test_a_sum_that_is_none_is_asked_about(text: str) -> None:
    assert read(text).problems


@pytest.mark.parametrize(
    "text",
    [
        "Red Barn 3 plants 2 white. Long Rows 3 plants 1 white. thats 6 plants and 3 white",
        "Red Barn 3 plants 2 white\nLong Rows 3 plants 1 white\ntotal for the day 6 plants, 3 females",
    ],
)
def test_a_total_over_fields_is_none_of_the_last(text: str) -> None:
    reading = read(text)
    assert reading.problems == ()
    assert [(note.plants, note.females.white) for note in reading.notes] == [(3, 2), (3, 1)]


@pytest.mark.parametrize(
    ("text", "plants", "total"),
    [
        ("Red Barn: three brown dogs met me at the gate. Eight plants dug, two white females", 8, 2),
        ("Red Barn R1 saw one brown snake and no cysts six plants pulled", 6, 0),
        ("Agua Clara, los 2 perros blancos del vecino otra vez. 6 plantas arrancadas, cero hembras", 6, 0),
        ("Agua Clara: as flores amarelas da cerca já abriram. 6 plantas arrancadas, 1 branca", 6, 1),
        ("Red Barn: 6 dug, 5 yellow 2 tan. school bus was yellow too and nearly took my mirror off", 6, 7),
        ("Agua Clara: 6 plantas com pá, 2 brancas. soja a 128 a saca", 6, 2),
        ("Agua Clara: metade das 12 que arranquei tinha fêmea, 5 brancas", 12, 5),
        ("Red Barn 5 PLANTS DUG. NO FEMALES. 1 IN 3 STUNTED", 5, 0),
        ("Red Barn 2 of every 3 plants had females, dug 9, 20 white", 9, 20),
        ("Red Barn 6 pulled 0 females. neighbor across the road says he counted 22 white on 4 of his", 6, 0),
        ("Agua Clara, fila 14, 5 plantas con pala, 3 blancas 1 marrón", 5, 4),
    ],
)
def test_colors_and_numbers_of_other_things(text: str, plants: int, total: int) -> None:
    note = one(text)
    assert (note.plants, note.females.total, note.mostly) == (plants, total, ())


@pytest.mark.parametrize(
    "text",
    [
        "Agua Clara, todavía no se aplicó el glifosato. 6 arrancadas, 1 amarilla",
        "Red Barn they havent put the glyphosate on yet, dug 5, 3 white",
        "Agua Clara ainda não passaram o glifosato. 5 com pá, 3 brancas",
    ],
)
def test_what_was_not_sprayed_yet_is_no_spray(text: str) -> None:
    assert one(text).spray is None


def test_a_spray_beside_no_look_is_one() -> None:
    note = one("Red Barn not looked, sprayed glyphosate yesterday")
    assert note.spray is not None


@pytest.mark.parametrize(
    ("text", "texture"),
    [
        ("Red Barn. MAP SAYS SANDY LOAM, MAP IS WRONG, ITS CLAY LOAM. DRY. 5 DUG 2 W 1 Y", "clay_loam"),
        ("Agua Clara no mapa consta areia mas é argila mesmo. 5 com pá, 2 brancas", "clay"),
    ],
)
def test_a_texture_told_against_another_stands(text: str, texture: str) -> None:
    assert one(text).soil.texture == texture


def test_roots_not_washed_this_time_ask_nothing() -> None:
    note = one("Agua Clara: dessa vez não lavei as raízes. 5 plantas com pá, 2 amarelas")
    assert (note.plants, note.females.yellow) == (5, 2)


def test_fear_of_hundreds_is_no_hundreds() -> None:
    note = one("Agua Clara: tenía miedo de encontrar cientos. en las 5 plantas que arranqué hubo 1 blanca")
    assert (note.too_many, note.females.white) == (False, 1)


def test_a_code_of_seed_holds_no_potassium() -> None:
    assert read("Red Barn tag in the drill says 31K20, susceptible. Dug 6, 17 white.").notes[0].soil.k_ppm is None


@pytest.mark.parametrize(
    ("text", "white"),
    [
        ("Red Barn 6 plantas con pala 9 blancas, no, conté dos veces la misma raíz: 7 blancas", 7),
        ("Red Barn, dug 6, 4 white so far, two still in the bucket. ok done, 9 white all told", 9),
    ],
)
def test_a_color_counted_anew_is_amended(text: str, white: int) -> None:
    reading = read(text)
    assert reading.problems == ()
    assert reading.notes[0].females.white == white
    assert "amended" in [remark.kind for remark in reading.remarks]


def test_a_color_told_twice_is_asked_about() -> None:
    assert [problem.kind for problem in read("Red Barn dug 6 4 white, bill got 9 white").problems] == ["twice"]


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("Red Barn: dug 5, none.\nWho has the good bucket?", "unanswered"),
        ("Agua Clara: 5 con pala, ninguna.\n¿Quién tiene la llave del galpón?", "unanswered"),
        ("Red Barn: dug 5, none.\nLong Rows I leave for whoever comes after me.", "only_named"),
    ],
)
def test_talk_beside_a_note_is_named_and_not_asked_about(text: str, kind: str) -> None:
    reading = read(text)
    assert (len(reading.notes), reading.problems) == (1, ())
    assert [remark.kind for remark in reading.remarks] == [kind]


@pytest.mark.parametrize(
    "text",
    [
        "Red Barn 6 matas... o eran de los nogales? 5 blancas",
        "Red Barn: dug 5, none.\nLong Rows looked awful, half of it gone",
        "Red Barn: dug 5, none.\nLong Rows 4 something on it",
    ],
)
def test_what_may_be_told_of_a_visit_is_asked_about(text: str) -> None:
    assert read(text).problems


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("Red Barn: 6 plants dug, 4 white.\nLong Rows 5 dug none.\nSorry, at Red Barn it was 7 plants", (7, 4)),
        ("Red Barn: 6 plants dug, 4 white.\nLong Rows 5 dug none.\nNow a fix. Red Barn was 8 white.", (6, 8)),
        ("Red Barn: 6 plants dug, 4 white.\nLong Rows 5 dug none.\nSlip up there, Red Barn was 7 plants.", (7, 4)),
        (
            "Red Barn: 6 plantas con pala, 3 blancas.\nLong Rows: 6 con pala, 0.\nPerdón, en Red Barn fueron 4 blancas.",
            (6, 4),
        ),
    ],
)
def test_a_mail_puts_its_own_notes_right(text: str, told: tuple[int, int]) -> None:
    reading = read(text)
    assert reading.problems == ()
    assert reading.commands == ()
    assert [note.field for note in reading.notes] == ["red barn", "long rows"]
    assert (reading.notes[0].plants, reading.notes[0].females.white) == told


def test_what_is_put_right_of_an_earlier_note_stays_a_correction() -> None:
    reading = read("Red Barn: 6 plants dug, 4 white.\nIn my last note on Red Barn it should be 8 white, not 9")
    assert [command.kind for command in reading.commands] == ["correct"]
    assert reading.notes[0].females.white == 4
