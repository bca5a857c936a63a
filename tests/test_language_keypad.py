"""Notes as short as a keypad allows: words without their vowels, letters for soils, names of the crew cut to bones."""

from __future__ import annotations

from datetime import date

import pytest

from notes_bot.language import read_note

SENT = date(2026, 7, 20)
CREW = ("Brindle", "Lime Kiln", "Heron Pasture", "Mossback", "Bishop Quarter", "Cart Road", "Eel Ditch", "Plum Thicket")


def _note(text: str):
    reading = read_note(text, sent=SENT, fields=CREW, language="en")
    assert reading.problems == (), reading.problems
    (note,) = reading.notes
    return note


@pytest.mark.parametrize(
    "text",
    [
        "brndl/no lk/2 mddy",
        "brndl no lk",
        "brndl: nt lkd, rain",
        "brndl ddnt lk gate lckd",
        "brndl ddnt stp",
        "brndl cldnt dg 2 wet",
        "brndl ddnt dg",
        "brndl 2 wt 2 dg",
        "brndl 2 dry 2 dg",
        "brndl drv by",
    ],
)
def test_not_looked_without_vowels(text):
    """The word before or behind tells which word of its consonants is meant; a denial is no part of the name."""
    note = _note(text)

    assert (note.field, note.outcome, note.plants, note.females.total) == ("brndl", "not_looked", None, None)


@pytest.mark.parametrize(
    ("text", "plants", "method"),
    [
        ("mssbk pll 6 none sn v4", 6, "pulled"),
        ("mssbk 6p plld, rts snppd, nn fnd", 6, "pulled"),
        ("mssbk dgd 6 0", 6, "shovel"),
        ("mssbk nthng fnd 6p spd", 6, "shovel"),
    ],
)
def test_none_seen_without_vowels(text, plants, method):
    """What fits best is taken: "pll" is pull with both its letters, no pail."""
    note = _note(text)

    assert (note.field, note.plants, note.method, note.outcome) == ("mssbk", plants, method, "none_seen")


@pytest.mark.parametrize(
    "text", ["lm kiln 4p 3w", "lm kln 4p 3w", "4p 3w @lm kiln", "lm kiln: 4p spd 3w", "lm kln/4p/3w"]
)
def test_a_name_without_vowels_is_the_crews(text):
    """Though "lm" is a soil too; it is called as written."""
    note = _note(text)

    assert note.field in ("lm kiln", "lm kln")
    assert (note.plants, note.females.total, note.soil.texture) == (4, 3, None)


@pytest.mark.parametrize(
    "text",
    [
        "brndl/4p/3w/R2/CL mst",
        "brndl 4p 3w CL dry R2",
        "brndl, CL, 4p 3w",
        "brndl 4p 3w, soil: CL",
        "brndl wet cl, 4p 3w",
    ],
)
def test_letters_of_a_soil(text):
    """In capitals a clause of its own, or beside what is said of the soil."""
    assert _note(text).soil.texture == "clay_loam"


@pytest.mark.parametrize("text", ["brndl 4p 3w, cl me", "brndl 4p 3w. cl", "BRNDL 4 P 3 W, CL"])
def test_letters_that_may_be_anything_are_no_soil(text):
    """Small, or all in capitals, and nothing of the soil beside them."""
    reading = read_note(text, sent=SENT, fields=CREW, language="en")

    assert [note.soil.texture for note in reading.notes] == [None]


@pytest.mark.parametrize(
    ("text", "kind"), [("whts due", "due"), ("tk bk brndl", "take_back"), ("scrtch tht", "take_back")]
)
def test_requests_without_vowels(text, kind):
    """Asked in bones."""
    reading = read_note(text, sent=SENT, fields=CREW, language="en")

    assert ([command.kind for command in reading.commands], reading.problems) == ([kind], ())


@pytest.mark.parametrize(
    "row",
    [
        "3w1y,0,2w,4y,1b",
        "3w1y, 0, 2w, 4y, 1b",
        "3w+1y, 0, 2w, 4y, 1b",
        "3w1y/0/2w/4y/1b",
        "3w1y;0;2w;4y;1b",
        "3w1y; 0; 2w; 4y; 1b",
        "3w1y+0+2w+4y+1b",
        "3w1y-0-2w-4y-1b",
        "3w1y 0 2w 4y 1b",
        "[3w1y 0 2w 4y 1b]",
        "w3y1,0,w2,y4,b1",
        "3 white 1 yellow, none, 2 white, 4 yellow, 1 brown",
    ],
)
@pytest.mark.parametrize(
    "note",
    [
        "brndl {}",
        "brndl | {} | spd | R3",
        "brndl/{}/spd/R3",
        "brndl spd R3 {}",
        "{}, spd @brndl",
        "brndl ea plt: {}",
        "brndl ea plt {} spd",
        "brndl 5p: {}",
        "brndl 5p {}",
        "brndl, {}, 5p frk",
    ],
)
def test_plants_told_one_by_one_with_their_colors(note, row):
    """Parted by any sign or by blanks, wherever the row begins and ends."""
    note = _note(note.format(row))

    females = note.females
    assert (note.field, note.plants, note.per_plant) == ("brndl", 5, (4, 0, 2, 4, 1))
    assert (females.white, females.yellow, females.tan, females.brown, females.total) == (5, 5, 0, 1, 11)


@pytest.mark.parametrize(
    ("text", "each"),
    [
        ("brndl 1w,0,0,2w,0,1y, shvl", (1, 0, 0, 2, 0, 1)),
        ("brndl 2w,1w,3w,5w spd", (2, 1, 3, 5)),
        ("brndl spd R3 1w/1w/0/2w1y", (1, 1, 0, 3)),
        ("brndl R3, pld, 0 0 1w 0", (0, 0, 1, 0)),
        ("brndl V6/0,0,2w,0/pld/dry", (0, 0, 2, 0)),
        ("brndl soaked: 1, 0, 0, 3 white", (1, 0, 0, 3)),
        ("brndl dug 3 4w 2w 6w", (4, 2, 6)),
    ],
)
def test_rows_of_few_colors(text, each):
    """A stage before a slash and a none is that stage."""
    note = _note(text)

    assert (note.per_plant, note.females.total) == (each, sum(each))
    assert note.stage in (None, "R3", "V6")


@pytest.mark.parametrize(
    "text",
    [
        "brndl 4p 3w1y,0,2w,4y,1b",
        "brndl 3w, 0, 2w, 4 pl",
        "brndl 3w, 0, 2w, 4, 1",
        "brndl 6p 4w 1y 2w",
        "brndl 4w 1y 2w",
        "brndl 3w,0,2y spd",
        "brndl 10 pl 4w,2w,6w",
    ],
)
def test_rows_that_fit_no_plants_are_asked_about(text):
    """As "2w" may be weeks, and a list shorter than the plants a slip."""
    reading = read_note(text, sent=SENT, fields=CREW, language="en")

    assert reading.problems
    assert [note.per_plant for note in reading.notes] == [None]


@pytest.mark.parametrize(
    "text",
    [
        "brndl gate 2w1y,0,4w | hill 0,1w,0 | spd",
        "brndl gate: 2w1y,0,4w, hill: 0,1w,0",
        "brndl gate 2w1y/0/4w; hill 0/1w/0",
    ],
)
def test_rows_of_several_places(text):
    """Each with the place before it."""
    note = _note(text)

    assert [(spot.name, spot.per_plant) for spot in note.spots] == [("gate", (3, 0, 4)), ("hill", (0, 1, 0))]
    assert (note.plants, note.females.white, note.females.yellow) == (6, 7, 1)


def test_rows_of_several_fields():
    """A name before a row begins its note."""
    reading = read_note("brndl 2w1y,0,4w | lm kiln 0,1w,0", sent=SENT, fields=CREW, language="en")

    assert [(note.field, note.per_plant) for note in reading.notes] == [("brndl", (3, 0, 4)), ("lm kiln", (0, 1, 0))]


@pytest.mark.parametrize(
    ("text", "language"),
    [
        ("brindle 3b1a,0,2b,4a,1m con pala R3", "es"),
        ("brindle 5 plantas: 3b1a; 0; 2b; 4a; 1m", "es"),
        ("brindle R3 pala 3b 1a, nada, 2b, 4a, 1m", "es"),
        ("brindle 3b1a,0,2b,4a,1m com pá R3", "pt"),
        ("brindle 5 pés: 3b1a; 0; 2b; 4a; 1m", "pt"),
        ("brindle R3 pá 3b 1a, nada, 2b, 4a, 1m", "pt"),
    ],
)
def test_rows_in_other_languages(text, language):
    """The letters of their own colors."""
    reading = read_note(text, sent=SENT, fields=CREW, language=language, day_first=True)

    assert reading.problems == ()
    assert [note.per_plant for note in reading.notes] == [(4, 0, 2, 4, 1)]


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("f=brndl;p=5;m=pull;fem=0;soil=wet cly;st=V6", (5, "pulled", 0, "wet", "clay", "V6")),
        ("f=brndl p=5 m=pld w=3 y=1 st=R2", (5, "pulled", 4, None, None, "R2")),
        ("F=Brindle; P=5; M=Pull; W=3; Y=1; ST=R2; MST=wet", (5, "pulled", 4, "wet", None, "R2")),
        ("m=spd|f=brndl|p=5|w=3|y=1|stage=R2", (5, "shovel", 4, None, None, "R2")),
        ("brndl;p=8;m=frk;w=19;b=4;st=R5;tx=SiCL;mst=dry", (8, "shovel", 23, "dry", "silty_clay_loam", "R5")),
        ("brndl;p=4;mst=wet;tx=cl;w=3", (4, None, 3, "wet", "clay_loam", None)),
        ("brndl;p=4;soil=dry;seen=no", (4, None, 0, "dry", None, None)),
        ("brndl;p=4;w=2/p;moist=dry", (4, None, 8, "dry", None, None)),
        ("brndl;p=4;w/p=3;y/p=1", (4, None, 16, None, None, None)),
        ("brndl;p=4;w=3/p;y=1/p", (4, None, 16, None, None, None)),
        ("brndl, method: pulled, plants: 5, white: 3", (5, "pulled", 3, None, None, None)),
        ("brndl 4p 3w 1y/p spd", (4, "shovel", 16, None, None, None)),
        ("brndl 12w/p 6 spd", (6, "shovel", 12, None, None, None)),
        ("brndl/12w/p 6/spd/R2", (6, "shovel", 12, None, None, "R2")),
    ],
)
def test_keys_and_values(text, told):
    """A key says what its value is of, and is no data itself: "mst=dry" is not moist."""
    note = _note(text)

    females, soil = note.females, note.soil
    assert (note.plants, note.method, females.total, soil.moisture, soil.texture, note.stage) == told


@pytest.mark.parametrize(
    "text",
    [
        "brndl;cys/p=3,0,1,0;m=spd",
        "f=brndl;fem/p=3,0,1,0",
        "brndl cys/p 3,0,1,0 spd",
        "brndl cys/p: 3 0 1 0 spd",
        "brndl/cys/p 3,0,1,0/spd/R2",
        "brndl | per p 3,0,1,0 | spd",
        "brndl c/p 3,0,1,0",
        "brndl | 7/18 | cys/p 3,0,1,0 | dg+wshd",
    ],
)
def test_cysts_a_plant(text):
    """The first of a list behind "cys/p" is a plant's count, no number of plants."""
    note = _note(text)

    assert (note.plants, note.per_plant, note.females.total) == (4, (3, 0, 1, 0), 4)


@pytest.mark.parametrize(
    ("text", "language"),
    [
        ("f=brndl;lookd=no;why=hail", "en"),
        ("brndl;lk=no", "en"),
        ("brndl; looked: no", "en"),
        ("brindle; revisado=no; motivo=barro", "es"),
        ("brindle; vistoriado=não; motivo=barro", "pt"),
    ],
)
def test_a_key_says_not_looked(text, language):
    """Answered with no."""
    reading = read_note(text, sent=SENT, fields=CREW, language=language, day_first=language != "en")

    assert ([note.outcome for note in reading.notes], reading.problems) == (["not_looked"], ())


@pytest.mark.parametrize("text", ["brndl;p=4;dry=no;w=3", "brndl;dry=n;p=4;w=3"])
def test_a_key_answered_with_no_is_not_so(text):
    """ "dry=no" had been dry."""
    assert _note(text).soil.moisture is None


@pytest.mark.parametrize(
    ("text", "mostly"),
    [
        ("brndl;tot=9;p=3;col=w", ("white",)),
        ("brndl clr=w,y tot=9 p=3", ("white", "yellow")),
        ("brndl;tot=9;col=w+y+t;p=3", ("white", "yellow", "tan")),
    ],
)
def test_a_key_for_colors(text, mostly):
    """All of them, beside a total."""
    note = _note(text)

    assert (set(note.mostly), note.females.total, note.plants) == (set(mostly), 9, 3)


def test_a_letter_as_key_of_a_color():
    """ "a=1" is a yellow one, no little word."""
    reading = read_note(
        "brindle; m=pala; p=5; b=3; a=1; hum=seco; est=R3", sent=SENT, fields=CREW, language="es", day_first=True
    )

    (note,) = reading.notes
    assert reading.problems == ()
    assert (note.females.white, note.females.yellow, note.method, note.soil.moisture) == (3, 1, "shovel", "dry")


@pytest.mark.parametrize(
    "text",
    [
        "brndl 22 all w 4p spd R2",
        "brndl 4p spd R2 22 all w",
        "brndl/R2/4p spd/22 all w",
        "brndl R2 4p spd 22 cys, all w",
        "22 cys, all w, 4p spd R2 @brndl",
        "brndl 4p spd, 22 tot, all w, R2",
    ],
)
def test_a_total_of_one_color(text):
    """ "22 all w" before the plants is no plants."""
    note = _note(text)

    assert (note.field, note.plants, note.females.white, note.females.total) == ("brndl", 4, 22, 22)
    assert (note.stage, note.method) == ("R2", "shovel")


@pytest.mark.parametrize("text", ["brndl/R2-3/4p spd/3w", "R2-3/4p spd 3w @brndl", "brndl|R2-3|4p|spd|3w"])
def test_a_range_of_stages_before_plants(text):
    """ "3/4p" is no day."""
    note = _note(text)

    assert (note.stage, note.plants, note.date, note.females.total) == ("R2.5", 4, None, 3)


@pytest.mark.parametrize("text", ["brndl 16 cys tot 7p", "brndl, 16 cys tot, 7p dug", "brndl 7p dug 16 tot cys"])
def test_so_many_cysts_in_all(text):
    """Said twice that it is all of them."""
    note = _note(text)

    assert (note.plants, note.females.total, note.per_plant) == (7, 16, None)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("5w on 4p spd @cart rd, 0 on 4p spd @eel dtch", [("cart rd", 4, 5), ("eel dtch", 4, 0)]),
        (
            "5w on 4p @cart rd; 0 on 5p @eel dtch; 3y on 2p @lm kiln",
            [("cart rd", 4, 5), ("eel dtch", 5, 0), ("lm kiln", 2, 3)],
        ),
        ("5p 3w @ cart rd\n4p 0 @ eel dtch", [("cart rd", 5, 3), ("eel dtch", 4, 0)]),
        ("cart rd 5w on 4p, eel dtch 0 on 4p", [("cart rd", 4, 5), ("eel dtch", 4, 0)]),
        ("0 on 4p spd @eel dtch", [("eel dtch", 4, 0)]),
        ("eel dtch 0/4p spd", [("eel dtch", 4, 0)]),
        ("@eel dtch 4p 0 spd", [("eel dtch", 4, 0)]),
    ],
)
def test_fields_told_last(text, told):
    """What stands before "@field" is told of it, and not of the one before."""
    reading = read_note(text, sent=SENT, fields=CREW, language="en")

    assert reading.problems == ()
    assert [(note.field, note.plants, note.females.total) for note in reading.notes] == told


@pytest.mark.parametrize(
    "text",
    [
        "edge 3p 12w, ctr 3p 2w1y, spd @brndl",
        "edge 3p 12w; ctr 3p 2w1y; spd @brndl",
        "brndl edge 3p 12w, ctr 3p 2w1y, spd",
        "@brndl edge 3p 12w, ctr 3p 2w1y, spd",
    ],
)
def test_places_before_their_field(text):
    """ "ctr" is no field of its own."""
    note = _note(text)

    assert (note.field, note.plants, note.females.white, note.females.yellow) == ("brndl", 6, 14, 1)
    assert [(spot.name, spot.plants, spot.females.total) for spot in note.spots] == [("edge", 3, 12), ("ctr", 3, 3)]


def test_places_behind_the_sign_are_places():
    """A place of the field is no field."""
    note = _note("brndl 3w 5p @ gate, 2w 5p @ hill")

    assert (note.field, [(spot.name, spot.females.total) for spot in note.spots]) == (
        "brndl",
        [("gate", 3), ("hill", 2)],
    )


@pytest.mark.parametrize(
    "text", ["no lk, mud @brndl, agn mon", "brndl no lk, mud, agn mon", "nt lkd, 2 wet @brndl, lk agn mon"]
)
def test_not_looked_and_again_before_the_field(text):
    """A note, and no reminder put off."""
    note = _note(text)

    assert (note.field, note.outcome, note.soil.moisture) == ("brndl", "not_looked", "wet")
    assert note.look_again.date == date(2026, 7, 27)


def test_too_many_of_a_color():
    """The letter before the comma is the color of them."""
    note = _note("brndl | w, 2 mny 2 cnt | 5p pld")

    assert (note.too_many, note.mostly, note.outcome) == (True, ("white",), "seen")


@pytest.mark.parametrize(
    "text", ["brndl/spd/3-0-1-6-2 cys/R1", "brndl spd 3/0/1/6/2 fem R1", "brndl 3-0-1-6-2 cys spd R1"]
)
def test_a_list_in_one_and_what_it_counts(text):
    """The word behind it is of all its numbers."""
    note = _note(text)

    assert (note.method, note.stage, note.per_plant) == ("shovel", "R1", (3, 0, 1, 6, 2))


@pytest.mark.parametrize(
    ("text", "mostly", "white"),
    [
        ("brndl/4p/22 all w/lwr lvs edgs yel", ("white",), 22),
        ("brndl/4p/22 all w/bkt", ("white",), 22),
        ("brndl/4p/22 mstly w/lwr lvs edgs yel", ("white",), None),
        ("brndl/4p 22w w/bkt w/spd", (), 22),
    ],
)
def test_a_color_before_a_slash_is_no_with(text, mostly, white):
    """Where it is said of all."""
    note = _note(text)

    assert (note.plants, note.mostly, note.females.white, note.females.total) == (4, mostly, white, 22)


def test_a_short_soil_beside_its_moisture():
    """Whatever stands behind it."""
    assert _note("brndl v4 4p 0 dry lm tps hlthy").soil.texture == "loam"


@pytest.mark.parametrize("text", ["brndl 5w 5p, chk 40w 3p", "brndl 5p 5w chk 3p 40w", "brndl chk 40w 3p, main 5w 5p"])
def test_a_strip_counted_before_its_plants(text):
    """Its white ones are no weeks to the next look."""
    note = _note(text)

    (strip,) = [spot for spot in note.spots if spot.check]
    assert (strip.plants, strip.females.white, note.plants, note.females.white) == (3, 40, 5, 5)
    assert note.look_again is None


def test_weeks_behind_check_are_weeks():
    """Few of them, and no plants behind."""
    assert _note("brndl 5p 3w, chk 2w").look_again.days == 14


@pytest.mark.parametrize("text", ["brndl R3 5p 3w wt", "brndl 5p 3w, wt"])
def test_letters_of_wet_or_white_are_asked_about(text):
    """Where nothing is counted or said to be mostly so."""
    reading = read_note(text, sent=SENT, fields=CREW, language="en")

    assert [problem.kind for problem in reading.problems] == ["unknown_word"]
    assert [(note.mostly, note.soil.moisture) for note in reading.notes] == [((), None)]


@pytest.mark.parametrize("text", ["brndl 5p 3 wt", "brndl 5p wt 3", "brndl R3 p5 w3 spd", "brndl p5/w3/R3"])
def test_letters_before_and_behind_their_count(text):
    """Both ways."""
    note = _note(text)

    assert (note.plants, note.females.white, note.females.total) == (5, 3, 3)


@pytest.mark.parametrize("text", ["brndl 5p 3w/rt", "brndl 5p 3w/p spd", "brndl 5p 3w per p"])
def test_a_count_of_each(text):
    """By a slash."""
    assert _note(text).females.white == 15


def test_a_row_of_plants_may_end_a_sentence_with_a_bare_zero():
    """The stop behind "0" is no decimal point."""
    reading = read_note(
        "kestrel 6 plants dug, 3w1y/0/2w/4y/1b/0. gate was open", sent=date(2026, 7, 8), fields=("Kestrel", "Dry Creek")
    )

    assert not reading.problems
    assert reading.notes[0].per_plant == (4, 0, 2, 4, 1, 0)
