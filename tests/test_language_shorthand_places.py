"""Very terse notes, continued: shares and colors a place, lettered places, columns, items without blanks, some positive."""

from __future__ import annotations

from datetime import date

import pytest

from notes_bot.language.reader import read_note

FIELDS = ("Kestrel", "Dry Creek", "Tinker's", "Ridge Top", "Molino Viejo", "Santa Rita", "Cobb House")
SENT = date(2026, 7, 8)


def _read(text):
    return read_note(text, sent=SENT, fields=FIELDS)


@pytest.mark.parametrize(
    ("text", "places"),
    [
        ("kestrel/gate 3of5/mid 0of5/far 1of5/dug/moist", {"gate": (5, None), "mid": (5, 0), "far": (5, None)}),
        ("kestrel, gate 3/5, mid 0/5, far 1/5, dug", {"gate": (5, None), "mid": (5, 0), "far": (5, None)}),
        ("kestrel\ngate 3/5\nmid 0/5\nfar 1/5\ndug", {"gate": (5, None), "mid": (5, 0), "far": (5, None)}),
        ("kestrel gate 3 of 5, mid 0 of 5, far 1 of 5", {"gate": (5, None), "mid": (5, 0), "far": (5, None)}),
        ("kestrel gate 3 of 5 pos, hill 0 of 5", {"gate": (5, None), "hill": (5, 0)}),
        ("kestrel gate 3 of 8 hill 2 of 6, dug", {"gate": (8, None), "hill": (6, None)}),
        ("kestrel gate 3 of 5 pl, hill 2 of 6 pl", {"gate": (5, None), "hill": (6, None)}),
        ("kestrel n 3/5 pos, s 0/5 pos", {"n": (5, None), "s": (5, 0)}),
        ("kestrel n 3/5, s 0/5, dug", {"n": (5, None), "s": (5, 0)}),
        ("kestrel gate 3/8, hill 2/6 pos, dug", {"gate": (8, None), "hill": (6, None)}),
        ("molino viejo norte 3 de 5, sur 0 de 5, con pala", {"norte": (5, None), "sur": (5, 0)}),
        ("santa rita norte 3 de 5, sul 0 de 5, com pá", {"norte": (5, None), "sul": (5, 0)}),
    ],
)
def test_a_share_of_the_plants_at_each_place(text, places):
    """So many of so many, place by place: no list, no day, no count of females."""
    reading = _read(text)
    assert not reading.problems
    (note,) = reading.notes
    assert {s.name: (s.plants, s.females.total) for s in note.spots} == places
    assert (note.plants, note.females.total, note.date) == (sum(p for p, _ in places.values()), None, None)
    assert note.outcome == "seen"


@pytest.mark.parametrize("text", ["kestrel gate 3/8, hill 2/6, dug", "kestrel\ngate 3/8\nhill 2/6\ndug"])
def test_a_share_or_two_plants_at_each_place_is_asked_about(text):
    """Two plants each, or three of eight and two of six?"""
    reading = _read(text)
    assert [problem.kind for problem in reading.problems] == ["which_number", "which_number"]
    assert [(n.plants, n.females.total, n.date) for n in reading.notes] == [(None, None, None)]


@pytest.mark.parametrize(
    ("text", "places"),
    [
        ("kestrel: low pl4 w6, high pl4 w0, shvl", {"low": (4, 6), "high": (4, 0)}),
        ("kestrel low pl4 w6 high pl4 w0 dug", {"low": (4, 6), "high": (4, 0)}),
        ("kestrel low 4pl 6w, high 4pl 0w, dug", {"low": (4, 6), "high": (4, 0)}),
        ("kestrel low pl4 w6 y2 high pl4 w0 chk pl3 w40 y6", {"low": (4, 8), "high": (4, 0), "chk": (3, 46)}),
        ("kestrel;a 5pl 3cy;b 5pl 0cy;c 5pl 11cy;dug", {"a": (5, 3), "b": (5, 0), "c": (5, 11)}),
        ("kestrel a 5pl 3cy b 5pl 0cy c 5pl 11cy dug", {"a": (5, 3), "b": (5, 0), "c": (5, 11)}),
        ("kestrel A 5 pl 3w 2y, B 5 pl 0, C 5 pl 11w", {"a": (5, 5), "b": (5, 0), "c": (5, 11)}),
        ("kestrel\nA 5 pl 3\nB 5 pl 0\ndug", {"a": (5, 3), "b": (5, 0)}),
        ("kestrel A=5pl 3cy B=5pl 0cy", {"a": (5, 3), "b": (5, 0)}),
        ("kestrel n 4pl 6w, s 4pl 2w", {"n": (4, 6), "s": (4, 2)}),
        ("molino viejo A 5 pl 3b, B 5 pl 0", {"a": (5, 3), "b": (5, 0)}),
        ("santa rita A 5 pés 3b, B 5 pés 0", {"a": (5, 3), "b": (5, 0)}),
    ],
)
def test_plants_and_counts_by_color_at_each_place(text, places):
    """Words before or behind their counts, places called by letters."""
    reading = _read(text)
    assert not reading.problems
    (note,) = reading.notes
    assert {s.name: (s.plants, s.females.total) for s in note.spots} == places
    own = [told for name, told in places.items() if name != "chk"]
    assert (note.plants, note.females.total) == (sum(p for p, _ in own), sum(f for _, f in own))


@pytest.mark.parametrize(
    "text",
    ["kestrel gate=2 0 1 creek=0 0 0", "kestrel gate: 2 0 1 creek: 0 0 0", "kestrel gate=2 0 1 creek=0 0 0 dug"],
)
def test_a_label_and_its_sign_begin_the_next_place(text):
    """ "creek=" is a place as "gate=" is."""
    reading = _read(text)
    assert not reading.problems
    assert {s.name: s.per_plant for s in reading.notes[0].spots} == {"gate": (2, 0, 1), "creek": (0, 0, 0)}


@pytest.mark.parametrize(
    ("text", "per_plant"),
    [
        ("kestrel/1w,0,3w1y,2w,0/dug/rts dk", [1, 0, 4, 2, 0]),
        ("kestrel 1w, 0, 3w1y, 2w, 0 dug", [1, 0, 4, 2, 0]),
        ("kestrel 1w,0,3w1y,2w,0 dug", [1, 0, 4, 2, 0]),
        ("kestrel 1w;0;3w1y;2w;0;dug", [1, 0, 4, 2, 0]),
        ("kestrel 1w/0/3w1y/2w/0 dug", [1, 0, 4, 2, 0]),
        ("kestrel 1w-0-3w1y-2w-0 dug", [1, 0, 4, 2, 0]),
        ("kestrel 1w+0+3w1y+2w+0 dug", [1, 0, 4, 2, 0]),
        ("kestrel 5pl 1w,0,3w1y,2w,0", [1, 0, 4, 2, 0]),
        ("kestrel: 2wht,0,0,1ylw3wht pulled", [2, 0, 0, 4]),
        ("molino viejo 1b,0,3b1a,2b,0 con pala", [1, 0, 4, 2, 0]),
        ("santa rita 1b,0,3b1a,2b,0 com pá", [1, 0, 4, 2, 0]),
        ("kestrel\nper pl\n3\n0\n1\n8\ndug", [3, 0, 1, 8]),
        ("kestrel\neach plant\n3\n0\n1\n8", [3, 0, 1, 8]),
        ("kestrel\ncysts per plant:\n3\n0\n1\n8\ndug\nr3", [3, 0, 1, 8]),
        ("kestrel\n4 pl\n3\n0\n1\n8\ndug", [3, 0, 1, 8]),
        ("kestrel\ndug 4\n3\n0\n1\n8", [3, 0, 1, 8]),
        ("molino viejo\npor planta\n3\n0\n1\n8\ncon pala", [3, 0, 1, 8]),
        ("santa rita\npor planta\n3\n0\n1\n8\ncom pá", [3, 0, 1, 8]),
    ],
)
def test_one_plant_an_item_or_a_line(text, per_plant):
    """Items with no blank between them, and a column below its heading."""
    reading = _read(text)
    assert not reading.problems
    (note,) = reading.notes
    assert list(note.per_plant) == per_plant
    assert (note.plants, note.females.total) == (len(per_plant), sum(per_plant))


@pytest.mark.parametrize("text", ["kestrel\n3\n0\n1\n8\ndug", "kestrel\n5 pl\n3\n0\n1\n8"])
def test_a_column_without_its_heading_is_asked_about(text):
    """Nobody says what the numbers count, or they are fewer than the plants."""
    assert _read(text).problems


@pytest.mark.parametrize(
    ("text", "plants"),
    [
        ("kestrel dug 12 half pos", 12),
        ("kestrel\ndug 12\nhalf pos\nr3", 12),
        ("kestrel dug 12 some pos", 12),
        ("kestrel dug 12 all pos", 12),
        ("kestrel dug 12 few pos", 12),
        ("kestrel dug 12 pos=half", 12),
        ("kestrel dug 12 half w/ cysts", 12),
        ("kestrel dug 12 some plants infested", 12),
        ("kestrel dug 12 cysts on half", 12),
        ("kestrel dug 12, cysts on most of the plants", 12),
        ("molino viejo 12 plantas la mitad positivas", 12),
        ("molino viejo 12 plantas, quistes en la mitad", 12),
        ("santa rita 12 pés metade com cisto", 12),
        ("kestrel dug, cy on 2/6, v3-4", 6),
        ("kestrel cysts on 2/6 plants, dug", 6),
        ("kestrel females in 1/15 pl", 15),
        ("kestrel cysts on 7/8, dug 8", 8),
        ("kestrel;pos=1/15;dug;moist", 15),
        ("kestrel 1of8pos dug", 8),
        ("kestrel 3/10 hit", 10),
        ("molino viejo 6 plantas, quistes en 2/6", 6),
        ("santa rita 8 pés, cistos em 2/8", 8),
    ],
)
def test_some_had_females_and_nobody_counted(text, plants):
    """Seen, with no number of females, no day, and nothing asked to be moved."""
    reading = _read(text)
    assert not reading.problems
    assert not reading.commands
    (note,) = reading.notes
    assert (note.plants, note.outcome, note.females.total, note.date) == (plants, "seen", None, None)


@pytest.mark.parametrize(
    ("text", "days", "day"),
    [
        ("kestrel/6dug/9w2y/v5/agn10d", 10, None),
        ("kestrel 6 dug none agn 2wk", 14, None),
        ("kestrel 6 dug none agn=2wk", 14, None),
        ("kestrel;6 dug;none;recheck=10 d", 10, None),
        ("kestrel;6 dug;none;bk=fri", None, date(2026, 7, 10)),
        ("kestrel;6 dug;none;look again=7/20", None, date(2026, 7, 20)),
        ("molino viejo;6 plantas;nada;volver=10 dias", 10, None),
        ("santa rita;6 pés;nada;voltar=10 dias", 10, None),
    ],
)
def test_when_to_look_again_as_a_label(text, days, day):
    """A sign between the word for it and the time is no more than a blank, and the time is no day of the visit."""
    reading = _read(text)
    assert not reading.problems
    (note,) = reading.notes
    assert (note.look_again.days, note.look_again.date, note.date) == (days, day, None)


@pytest.mark.parametrize(
    ("text", "method"),
    [
        ("kestrel 5p none dug dry", "shovel"),
        ("kestrel 5 pl, none dug", "shovel"),
        ("kestrel 5p none pulled", "pulled"),
    ],
)
def test_none_behind_counted_plants_is_none_seen(text, method):
    """Who counts plants has dug them."""
    (note,) = _read(text).notes
    assert (note.plants, note.outcome, note.method, note.females.total) == (5, "none_seen", method, 0)


@pytest.mark.parametrize("text", ["kestrel none dug", "kestrel nodig", "kestrel no dig mud"])
def test_none_dug_alone_is_not_looked(text):
    """Without plants it tells that nobody dug."""
    (note,) = _read(text).notes
    assert note.outcome == "not_looked"


@pytest.mark.parametrize(
    ("text", "total"),
    [
        ("kestrel 5 dug w y t mix", None),
        ("kestrel 5 dug mix w y t", None),
        ("kestrel 5 dug mostly w y t", None),
        ("kestrel 5 dug w y t", None),
        ("kestrel 5 dug 12 w y t mix", 12),
        ("kestrel 4 dug 3 0 1 5 w y t mix", 9),
    ],
)
def test_letters_for_colors_in_a_row_are_shades(text, total):
    """No number among them, so none of them is counted."""
    reading = _read(text)
    assert not reading.problems
    (note,) = reading.notes
    assert (sorted(note.mostly), note.females.total, note.outcome) == (["tan", "white", "yellow"], total, "seen")


@pytest.mark.parametrize(
    "text",
    [
        "kestrel fungicide mon 12h 5 pl none",
        "kestrel 5 pl none, fungicide mon 12h",
        "kestrel sprayed fungicide mon 12h",
    ],
)
def test_the_day_of_a_spray_before_its_hours(text):
    """ "mon" behind what was sprayed is its day."""
    (note,) = _read(text).notes
    assert (note.spray.what, note.spray.date, note.spray.entry_hours) == ("fungicide", date(2026, 7, 6), 12)


@pytest.mark.parametrize(
    ("text", "kind", "field"),
    [
        ("hist\nkestrel", "history", "kestrel"),
        ("hist\ncobb hs", "history", "cobb hs"),
        ("undo\nkestrel", "take_back", "kestrel"),
        ("mute\nridge top", "mute", "ridge top"),
        ("chart\nkestrel", "picture", "kestrel"),
        ("historial\nmolino viejo", "history", "molino viejo"),
        ("histórico\nsanta rita", "history", "santa rita"),
    ],
)
def test_what_is_asked_above_the_field(text, kind, field):
    """The word alone on one line, the name on the next."""
    reading = _read(text)
    assert [(c.kind, c.args) for c in reading.commands] == [(kind, {"field": field})]
    assert not reading.problems
