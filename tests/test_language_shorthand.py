"""Very terse notes: signs of the writer's own for stops, chains without blanks, lists a place, labels a plant."""

from __future__ import annotations

from datetime import date

import pytest

from notes_bot.language.reader import read_note

FIELDS = ("Kestrel", "Dry Creek", "Tinker's", "Ridge Top", "Molino Viejo", "Santa Rita")
SENT = date(2026, 7, 8)


def _read(text):
    return read_note(text, sent=SENT, fields=FIELDS)


def _plain(text):
    """What a message holds but for its own wording: notes without places in the text."""
    reading = _read(text)
    told = [
        (n.field, n.date, n.plants, n.method, n.soaked, n.females, n.per_plant, n.outcome, n.stage, n.soil, n.roots)
        for n in reading.notes
    ]
    return told, [(c.kind, c.args) for c in reading.commands], len(reading.problems)


CLAUSES = (
    ("kestrel", "6 pl", "w 9 y 3", "moist loam", "v5", "again 10d"),
    ("ridge top", "yday", "2 0 0 1", "eased & rinsed", "r3"),
    ("dry creek", "dug 8", "12w 3y 1t", "wet clay", "roots dark", "r2-3"),
    ("tinkers", "not dug", "mud", "back fri"),
    ("kestrel", "3 0 7 2", "dug", "washed", "sandy loam", "back 14d"),
    ("kestrel", "5 pl", "0 seen", "yel patches", "r4"),
    ("molino viejo", "8 pl", "12 b 3 a", "húmedo", "r2", "con pala"),
    ("santa rita", "8 pés", "12 b 3 a", "úmido", "r2", "com pá"),
)
SIGNS = (" / ", "/", " // ", "//", " + ", "+", " = ", "> ", " > ", ">", " .. ", "...", " ~ ", "~", " -- ", "--", "-")
SIGNS += (" | ", " * ", " : ", " >> ", " -> ", " => ", " · ", " • ", " \\ ")


@pytest.mark.parametrize("sign", SIGNS)
@pytest.mark.parametrize("clauses", CLAUSES, ids=[" ".join(clauses[:2]) for clauses in CLAUSES])
def test_any_sign_told_again_and_again_parts_clauses(clauses, sign):
    """Whatever stands between the clauses, they are read as with commas."""
    assert _plain(sign.join(clauses)) == _plain(", ".join(clauses))


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("kestrel/pl 4/w 2//tinkers/pl 4/0 seen//again 10d both", [("kestrel", 4, 2), ("tinkers", 4, 0)]),
        ("kestrel/4 pl/3w//tinkers/5 pl/0", [("kestrel", 4, 3), ("tinkers", 5, 0)]),
        ("kestrel/dug 8/12w/r2", [("kestrel", 8, 12)]),
        ("dry creek/yel patches/pl 6/w 0 y 4 t 2 b 1/k 88ppm/ph 6.3/stubby rts", [("dry creek", 6, 7)]),
        ("kestrel-dug 8-12w 3y-wet clay-r2-3", [("kestrel", 8, 15)]),
    ],
)
def test_a_number_told_by_the_word_before_it_ends_its_clause(text, expected):
    """ "pl 4/0 seen" is four plants and none seen, no fraction."""
    reading = _read(text)
    assert not reading.problems
    assert [(n.field, n.plants, n.females.total) for n in reading.notes] == expected


@pytest.mark.parametrize(
    ("text", "plants", "total"),
    [
        ("kestrel: plants = 6, white = 9, yellow = 3", 6, 12),
        ("kestrel plants = 6 white = 9 yellow = 3", 6, 12),
        ("kestrel pl=6 w=9 y=3", 6, 12),
        ("kestrel pl-6 w-9 y-3", 6, 12),
        ("kestrel pl - 6, w - 9, y - 3", 6, 12),
        ("kestrel pl->6 w->9 y->3", 6, 12),
        ("kestrel plantas = 6 blancas = 9 amarillas = 3", 6, 12),
        ("Field - Kestrel\nPlants - 5\nFemales - 8 white\nRoots - stubby", 5, 8),
        ("kestrel 6 plants, 3w + 2y + 1t", 6, 6),
        ("kestrel 6 pl w > y > t, 100+ total", 6, 100),
    ],
)
def test_a_sign_between_a_label_and_its_number_parts_nothing(text, plants, total):
    """ "white = 9" and sums are what they were."""
    note = _read(text).notes[0]
    assert (note.field, note.plants, note.females.total) == ("kestrel", plants, total)


@pytest.mark.parametrize(
    ("text", "places"),
    [
        ("tinkers / gate 2 0 3 / mid 0 0 1 / far 4 2 0 / dug", {"gate": [2, 0, 3], "mid": [0, 0, 1], "far": [4, 2, 0]}),
        (
            "KESTREL; GATE 0-1-0; CREEK 6-4-9; CHECK 15-12; SPADE",
            {"gate": [0, 1, 0], "creek": [6, 4, 9], "check": [15, 12]},
        ),
        ("kestrel\nn 0 0 1\nmid 2 2 0\ns 0 0 0\npulled", {"n": [0, 0, 1], "mid": [2, 2, 0], "s": [0, 0, 0]}),
        (
            "kestrel + 3 n end 0 2 1 + 3 s end 5 4 0 + 2 chk 12 8",
            {"n end": [0, 2, 1], "s end": [5, 4, 0], "chk": [12, 8]},
        ),
        ("kestrel n 2 0 1; s 4 0 0; dug", {"n": [2, 0, 1], "s": [4, 0, 0]}),
        ("kestrel e 2 0 1, w 3 0 0, dug", {"e": [2, 0, 1], "w": [3, 0, 0]}),
        ("kestrel gate 2 0 3 mid 0 0 1 dug", {"gate": [2, 0, 3], "mid": [0, 0, 1]}),
        ("kestrel. gate 2, 0, 1. hill 0, 0, 0. pulled", {"gate": [2, 0, 1], "hill": [0, 0, 0]}),
        ("dry creek gate 2/0/1, far 3/0/0, chk 12/9", {"gate": [2, 0, 1], "far": [3, 0, 0], "chk": [12, 9]}),
        ("dry creek gate 4 pl 2 0 1 3; mid 4 pl 0 0 0 0", {"gate": [2, 0, 1, 3], "mid": [0, 0, 0, 0]}),
        ("kestrel, gate 2 0 3 dug, far 4 2 0 dug", {"gate": [2, 0, 3], "far": [4, 2, 0]}),
        ("molino viejo\nentrada 2 0 1\nmedio 0 0 0\ncon pala", {"entrada": [2, 0, 1], "medio": [0, 0, 0]}),
        ("santa rita\nentrada 2 0 1\nfundo 3 4 1\ncom pá", {"entrada": [2, 0, 1], "fundo": [3, 4, 1]}),
    ],
)
def test_places_with_a_list_each(text, places):
    """The same build again and again: a place, and one number a plant."""
    reading = _read(text)
    assert not reading.problems
    (note,) = reading.notes
    assert {spot.name: list(spot.per_plant) for spot in note.spots} == places
    own = [count for name, counts in places.items() if name not in ("check", "chk") for count in counts]
    assert (note.plants, note.females.total) == (len(own), sum(own))


@pytest.mark.parametrize(
    ("text", "places"),
    [
        ("kestrel gate 3 pl 5, far 3 pl 0", {"gate": (3, 5), "far": (3, 0)}),
        ("kestrel, top 4plt 6, bottom 4plt 15, dug", {"top": (4, 6), "bottom": (4, 15)}),
        ("molino viejo, norte 3 pl 5, sur 3 pl 0", {"norte": (3, 5), "sur": (3, 0)}),
        ("santa rita; norte 3 pés 5; sul 3 pés 0", {"norte": (3, 5), "sul": (3, 0)}),
    ],
)
def test_places_with_their_plants_and_one_count(text, places):
    """The count behind the plants of each place is of all of them."""
    reading = _read(text)
    assert not reading.problems
    assert {s.name: (s.plants, s.females.total) for s in reading.notes[0].spots} == places


@pytest.mark.parametrize(
    "text",
    ["kestrel\nn 0 0 1\nmid 2 2 0\nagain 8/14", "dry creek\ngate 2 0 1\nhill 3 0 0\nback 7/14\ndug"],
)
def test_a_day_behind_a_word_is_no_list(text):
    """ "again 8/14" is no place with two plants."""
    (note,) = _read(text).notes
    assert len(note.spots) == 2
    assert note.look_again is not None


@pytest.mark.parametrize(
    ("text", "plants", "outcome"),
    [
        ("kestrel\n3/10 pos\nr2", 10, "seen"),
        ("kestrel 2 of 8 pos", 8, "seen"),
        ("kestrel / dug 8 / 2 of 8 pos / dry", 8, "seen"),
        ("KESTREL - 6 IN 10 POS - R4 - MUCK", 10, "seen"),
        ("kestrel 6 out of 10 pos", 10, "seen"),
        ("kestrel pos 3/10", 10, "seen"),
        ("kestrel infested: 3/10, dug", 10, "seen"),
        ("kestrel 3/10 plants positive", 10, "seen"),
        ("kestrel 8/12 pos", 12, "seen"),
        ("kestrel .. 3 of 12 w/ cysts .. dug .. r1", 12, "seen"),
        ("molino viejo 3/10 positivas, r2", 10, "seen"),
        ("molino viejo 3 de 10 pos", 10, "seen"),
        ("santa rita positivas 3/10", 10, "seen"),
        ("kestrel 0/10 pos", 10, "none_seen"),
        ("kestrel 0 of 10 pos", 10, "none_seen"),
        ("kestrel 0 of 6 plants with cysts", 6, "none_seen"),
        ("molino viejo 0 de 6 plantas con quistes", 6, "none_seen"),
    ],
)
def test_plants_infested_as_a_fraction(text, plants, outcome):
    """So many of so many plants: never a day, and no count of females."""
    reading = _read(text)
    assert not reading.problems
    (note,) = reading.notes
    assert (note.plants, note.outcome, note.date) == (plants, outcome, None)
    assert note.females.total == (0 if outcome == "none_seen" else None)


@pytest.mark.parametrize(
    ("text", "plants", "total"),
    [
        ("kestrel 6p14w2y moist loam v6", 6, 16),
        ("kestrel 14w2y6p", 6, 16),
        ("kestrel 6plt3wht1ylw", 6, 4),
        ("kestrel 6P14W2Y1T3B R5", 6, 20),
        ("kestrel glyphosate 3d ago 12h 6p3w v5", 6, 3),
        ("kestrel pl6w14y2", 6, 16),
        ("kestrel p6w14y2", 6, 16),
        ("kestrel 5p12tot", 5, 12),
        ("kestrel 5p12cysts", 5, 12),
        ("kestrel p1w3y1 p2w0y0 p3w2y0", 3, 6),
        ("kestrel 7of7 pos 52tot r3", 7, 52),
        ("molino viejo 6p14b2a con pala humedo", 6, 16),
        ("santa rita 6p14b2a com pá úmido", 6, 16),
    ],
)
def test_counts_glued_together(text, plants, total):
    """Each count with the word behind it, where every word counts something of its own."""
    reading = _read(text)
    assert not reading.problems
    assert [(n.plants, n.females.total) for n in reading.notes] == [(plants, total)]


@pytest.mark.parametrize("text", ["kestrel 4p5p", "kestrel n3p5 s4p4", "kestrel 5p12q"])
def test_counts_glued_in_more_than_one_way_are_asked_about(text):
    """Plants twice, or places that may be cut in two ways."""
    reading = _read(text)
    assert reading.problems
    assert all(note.females is None or note.females.total is None for note in reading.notes)


def test_places_glued_to_their_counts():
    """ "s3p0" cannot be three females on no plants: the 3 counts plants, also elsewhere."""
    (note,) = _read("kestrel n3p5 s3p0 mid3p2 chk2p19 pulld").notes
    assert [(s.name, s.plants, s.females.total) for s in note.spots] == [
        ("n", 3, 5),
        ("s", 3, 0),
        ("mid", 3, 2),
        ("chk", 2, 19),
    ]


@pytest.mark.parametrize(
    ("text", "days"),
    [("kestrel 5p none la10d", 10), ("kestrel 5p none bk2wk", 14), ("kestrel 5p none again7d", 7)],
)
def test_a_next_look_glued_to_its_span(text, days):
    """ "la10d" is to look again in ten days."""
    (note,) = _read(text).notes
    assert note.look_again is not None
    assert note.look_again.days == days


@pytest.mark.parametrize(
    ("text", "per_plant"),
    [
        ("kestrel / p1 3 / p2 0 / p3 7 / p4 1 / eased / washed", [3, 0, 7, 1]),
        ("kestrel p1 3 p2 0 p3 7 p4 1 dug", [3, 0, 7, 1]),
        ("kestrel\nP1  2\nP2  0\nP3  5\ndug", [2, 0, 5]),
        ("kestrel p1=3 p2=0 p3=7 pulled", [3, 0, 7]),
        ("kestrel p1-3 p2-0 p3-7 pulled", [3, 0, 7]),
        ("kestrel #1 3 #2 0 #3 7 dug", [3, 0, 7]),
        ("kestrel pl1 3, pl2 0, pl3 7, dug", [3, 0, 7]),
        ("molino viejo p1 3, p2 0, p3 7, arrancadas", [3, 0, 7]),
        ("santa rita p1 3, p2 0, p3 7, arrancadas", [3, 0, 7]),
        ("kestrel = 6 plt = 0x4 3 5 = pulled", [0, 0, 0, 0, 3, 5]),
        ("kestrel 0 x4, 3, 5", [0, 0, 0, 0, 3, 5]),
        ("kestrel 4x0 3 5", [0, 0, 0, 0, 3, 5]),
        ("kestrel 0x4, 3, 5, dug", [0, 0, 0, 0, 3, 5]),
        ("kestrel 6 pl 3 5 0x4", [3, 5, 0, 0, 0, 0]),
        ("kestrel + 2wht1ylw + 0 + 4wht + 1ylw + 0 + plld", [3, 0, 4, 1, 0]),
        ("kestrel 2w1y, 0, 4w, 1y, 0, pulled", [3, 0, 4, 1, 0]),
        ("kestrel 5 pl: 2w1y, 0, 4w, 1y, 0", [3, 0, 4, 1, 0]),
    ],
)
def test_lists_with_labels_times_and_glued_colors(text, per_plant):
    """One number a plant, however it is told; what stands behind the last one takes it for nothing else."""
    reading = _read(text)
    assert not reading.problems
    (note,) = reading.notes
    assert list(note.per_plant) == per_plant
    assert (note.plants, note.females.total) == (len(per_plant), sum(per_plant))


@pytest.mark.parametrize(
    ("text", "tan", "total"),
    [
        ("kestrel = 8 plt = wh 21 - ye 9 - ta 4 - br 2", 4, 36),
        ("kestrel 8 pl wh21 ye9 ta4 br2", 4, 36),
        ("kestrel 8 pl 5 white ta 4 the tip", 0, 5),
    ],
)
def test_short_for_tan_only_among_other_colors(text, tan, total):
    """ "ta" is tan where two other colors are counted, and thanks elsewhere."""
    (note,) = _read(text).notes
    assert (note.females.tan, note.females.total) == (tan, total)


@pytest.mark.parametrize("text", ["kestrel/w 11 not 9", "kestrel w 11 not 9", "kestrel: w 11 not 9"])
def test_a_letter_and_a_number_put_right(text):
    """A color told by its letter is put right like one told in full."""
    (command,) = _read(text).commands
    assert (command.kind, command.args) == ("correct", {"field": "kestrel", "what": "white", "value": 11, "old": 9})


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("kestrel\nskip", "move"),
        ("Kestrel\nundo", "take_back"),
        ("kestrel\nhistory", "history"),
        ("kestrel\nmute", "mute"),
        ("molino viejo\nsilenciar", "mute"),
        ("kestrel\nin 3 days", "move"),
    ],
)
def test_a_field_above_what_is_asked_of_it(text, kind):
    """The name alone on one line, the request on the next."""
    reading = _read(text)
    assert [(c.kind, c.args["field"]) for c in reading.commands] == [(kind, text.split("\n")[0].lower())]
    assert not reading.notes


def test_a_field_above_what_is_asked_of_all():
    """ "skip all" stays of all."""
    assert all("field" not in c.args or c.args["field"] is None for c in _read("kestrel\nskip all").commands)
