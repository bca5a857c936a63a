"""What must hold for every note and every text: it reads back, it never fails, it takes no longer than its length."""

from __future__ import annotations

import time
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from notes_bot.language import read_note, spell
from notes_bot.language.clauses.lexer import NoteLexer
from notes_bot.language.lexicon.pieces import Cutter
from notes_bot.language.lexicon.scan import clean, scan
from notes_bot.language.lexicon.tokens import Draft
from notes_bot.language.lexicon.words import table
from notes_bot.language.noting import ROOT_WORDS, TOP_WORDS
from notes_bot.language.spelling import quotable
from notes_bot.model import COLOURS, LANGUAGES, Females, Language, LookAgain, Note, Soil, Spot, Spray, Variety

SENT = date(2026, 8, 20)
COUNTS = st.integers(0, 400)
NAMES = st.sampled_from(
    [
        "kestrel",
        "old mill e",
        "harrow ridge 3",
        "larkspur s80",
        "tinker's",
        "dry creek",
        "white oak 40",
        "7",
        "12b",
        "pothole flat",
        "bajo grande",
        "três irmãs",
        "la tranquera",
        "none",
        "moist",
        "north forty",
        "sand hill",
        "6 pl",
    ]
)
SOURCES = st.sampled_from(["PI 88788", "Peking", "PI 437654"])
TEXTURES = st.sampled_from(["sand", "sandy_loam", "loam", "silt_loam", "clay_loam", "clay", "muck"])
TEXTS = st.text(st.characters(codec="utf-8", exclude_categories=("Cc", "Cs", "Zl", "Zp")), max_size=40)


@st.composite
def colour_counts(draw: st.DrawFn) -> Females:
    """Counts by colour, at least one female."""
    counts = {colour: draw(COUNTS) for colour in COLOURS}
    total = sum(counts.values())
    return Females(**counts, total=total) if total else Females(3, 0, 0, 0, 3)


@st.composite
def looked(draw: st.DrawFn) -> Note:
    """Plants and what was on them, as the reader would give it."""
    plants = draw(st.none() | st.integers(1, 40))
    kind = draw(st.sampled_from(["colours", "total", "list", "one colour", "none", "not looked", "nothing", "many"]))
    mostly = tuple(draw(st.permutations(COLOURS))[: draw(st.integers(1, 2))])
    if kind == "colours":
        return Note(plants=plants, females=draw(colour_counts()), outcome="seen")
    if kind == "total":
        total = draw(st.integers(1, 999))
        return Note(plants=plants, females=Females(total=total), outcome="seen")
    if kind in ("list", "one colour"):
        listed = tuple(draw(st.lists(st.integers(0, 99), min_size=3, max_size=12).filter(any)))
        females, shades = Females(total=sum(listed)), mostly
        if kind == "one colour":
            shades = mostly[:1]
            full = dict.fromkeys(COLOURS, 0) | {shades[0]: sum(listed)}
            females = Females(**full, total=sum(listed))
        return Note(plants=len(listed), females=females, mostly=shades, per_plant=listed, outcome="seen")
    if kind == "many":
        return Note(plants=plants, mostly=mostly, too_many=True, outcome="seen")
    if kind == "none":
        return Note(plants=plants, females=Females(0, 0, 0, 0, 0), outcome="none_seen")
    return Note(outcome="not_looked") if kind == "not looked" else Note(plants=plants)


@st.composite
def spots(draw: st.DrawFn, language: Language) -> tuple[Spot, ...]:
    """Two places, or a check strip, by names the language has."""
    names = draw(st.sampled_from(["in out", "check"]))
    words = table(language).first
    if names == "check":
        listed = tuple(draw(st.lists(st.integers(0, 99), min_size=3, max_size=6).filter(any)))
        return (Spot(words["CHECK", "check strip"], len(listed), Females(total=sum(listed)), listed, check=True),)
    both = []
    for key in ("in", "out"):
        listed = tuple(draw(st.lists(st.integers(0, 99), min_size=3, max_size=6).filter(any)))
        both.append(Spot(words["SPOT", key], len(listed), Females(total=sum(listed)), listed))
    return tuple(both)


@st.composite
def notes(draw: st.DrawFn, language: Language) -> Note:
    """A note the reader could have made."""
    note = draw(looked())
    placed = draw(st.just(()) | spots(language)) if note.per_plant is None and note.outcome is None else ()
    if len(placed) == 2:
        listed = tuple(n for spot in placed for n in spot.per_plant or ())
        note = Note(plants=len(listed), females=Females(total=sum(listed)), per_plant=listed, outcome="seen")
    days = st.integers(0, 120).map(lambda n: SENT - timedelta(days=n))
    day = draw(st.none() | days)
    stage = draw(st.none() | st.sampled_from(["VE", "VC", "V4", "V2.5", "V12", "R1", "R2.5", "R8"]))
    shown = [top for top in TOP_WORDS if top not in ("healthy", "yellow")]
    tops = draw(st.just(("healthy",)) | st.just(("yellow",)) | st.sets(st.sampled_from(shown), max_size=3).map(tuple))
    roots = draw(st.sets(st.sampled_from(ROOT_WORDS), max_size=4))
    variety = draw(
        st.none() | st.builds(Variety, st.just("Zorro 22") | st.none(), st.just("resistant"), SOURCES | st.none())
    )
    spray = draw(st.none() | st.builds(Spray, st.sampled_from(["glyphosate", "dicamba"]), st.none() | days))
    if spray is not None:
        spray = replace(spray, entry_hours=draw(st.none() | st.sampled_from([4.0, 12.0, 48.0])))
    ahead = st.integers(1, 60).map(lambda n: LookAgain(date=(day or SENT) + timedelta(days=n)))
    look = draw(st.none() | st.integers(1, 60).map(lambda n: LookAgain(days=n)) | ahead)
    text = quotable(draw(TEXTS))
    ways = st.just(None) if note.outcome == "not_looked" else st.none() | st.sampled_from(["pulled", "eased", "shovel"])
    return replace(
        note,
        field=draw(st.none() | NAMES),
        date=day,
        spots=placed,
        method=draw(ways),
        soaked=draw(st.none() | st.booleans()),
        soil=Soil(
            draw(st.none() | st.sampled_from(["dry", "moist", "wet"])),
            draw(st.none() | TEXTURES),
            draw(st.none() | st.sampled_from([5.5, 6.0, 8.1])),
            draw(st.none() | st.sampled_from([78.0, 110.0])),
        ),
        stage=stage,
        roots=tuple(sorted(roots, key=ROOT_WORDS.index)),
        tops=tuple(sorted(tops, key=TOP_WORDS.index)),
        variety=variety,
        spray=spray,
        look_again=look,
        planted=draw(st.none() | st.just(SENT - timedelta(days=160))),
        text=text if any(ch.isalnum() for ch in text) else "",
    )


@pytest.mark.parametrize("language", LANGUAGES)
@given(data=st.data())
@settings(max_examples=80, deadline=None)
def test_what_we_write_we_can_read(language: Language, data: st.DataObject) -> None:
    """read_note(spell(note)) is the note, in every language, without a complaint."""
    note = data.draw(notes(language))
    line = spell(note, language)
    if line == "" or (note.field is not None and note == Note(field=note.field)):
        return
    reading = read_note(line, sent=SENT, language=language)
    if reading.commands:
        return  # a field with planting data, or a day alone, is a command by design

    silent = bool(note.plants) and note.outcome is None and bool(note.text)
    asked = {problem.kind for problem in reading.problems}
    assert asked <= ({"no_finding"} if silent else set()), line  # plants and words, no finding: asked for it
    assert len(reading.notes) == 1, line
    assert note == replace(reading.notes[0], where=note.where), line


@given(text=st.text(max_size=300), language=st.none() | st.sampled_from(LANGUAGES))
@settings(max_examples=800, deadline=None)
def test_no_text_makes_the_reader_fail(text: str, language: Language | None) -> None:
    """Any text gives a reading, and its places lie in the text."""
    reading = read_note(text, sent=SENT, language=language, fields=("Kestrel", "Old Mill E"))

    for problem in reading.problems:
        assert problem.where.line >= 1
        assert problem.where.column >= 1


WORDS = sorted(
    {" ".join(words) for made in map(table, LANGUAGES) for rows in made.phrases.values() for words, _ in rows}
    | {pattern.example() for made in map(table, LANGUAGES) for rows in made.patterns.values() for pattern in rows}
)
PARTS = st.sampled_from(
    [
        *WORDS,
        *[
            "0",
            "1",
            "2",
            "3",
            "6",
            "12",
            "14",
            "100",
            "2.5",
            "6/11",
            "12-15",
            "4/6",
            "3/1/0/0",
            "V4",
            "R2",
            ",",
            ".",
            ";",
            ":",
            "(",
            ")",
            "-",
            "/",
            "+",
            "=",
            "#",
            "?",
            "!",
            "\n",
        ],
    ]
)


@given(parts=st.lists(PARTS, max_size=30))
@settings(max_examples=800, deadline=None)
def test_no_mixture_of_our_words_makes_the_reader_fail(parts: list[str]) -> None:
    """Words of the tables in any order, with numbers and signs, give a reading."""
    read_note(" ".join(parts), sent=SENT)


WAYS = Path(__file__).parent / "corpus" / "wishes"
SAYINGS = {
    language: [row.partition("\t")[2] for row in (WAYS / f"{language}.tsv").read_text("utf-8").splitlines()]
    for language in LANGUAGES
}
JOINTS = st.sampled_from([" ", "? ", ". ", ", ", "\n"])


@pytest.mark.parametrize("language", LANGUAGES)
@given(data=st.data(), joint=JOINTS, known=st.booleans())
@settings(max_examples=120, deadline=None)
def test_no_row_of_requests_makes_the_reader_fail(
    language: Language, data: st.DataObject, joint: str, known: bool
) -> None:
    """Requests and talk one behind the other, of a field on the list, of one on none, or of none, give a reading."""
    said = data.draw(st.lists(st.sampled_from(SAYINGS[language]), min_size=2, max_size=4))
    name = data.draw(st.sampled_from(["Kestrel", "Old Mill", "it"]))
    text = joint.join(said).replace("{f}", name).replace("{n}", "4").replace("{d}", "7/10")

    read_note(text, sent=SENT, language=language, fields=("Kestrel",) if known else ())


@pytest.mark.parametrize(
    "text",
    ["need new boots? Would you please disregard what I sent you about Old Mill a minute ago?", "how are things? undo"],
)
def test_nothing_but_requests_may_leave_no_note(text: str) -> None:
    """Sentences that all ask leave nothing to read as a note, and that is no fault."""
    assert read_note(text, sent=SENT).commands


@given(parts=st.lists(PARTS, max_size=25), language=st.sampled_from(LANGUAGES))
@settings(max_examples=80, deadline=None)
def test_every_number_is_accounted_for(parts: list[str], language: Language) -> None:
    """A number of the text ends in a token, in free text, or in a question: none is lost."""
    text = clean(" ".join(parts))
    draft = Draft(text, language, Cutter(language, ()).cut(scan(text)))
    covered = [False] * (len(text) + 1)
    for word in NoteLexer(None).lex(draft):
        for at in range(word.start, word.end):
            covered[at] = True
    for start, end in [(a, b) for _, a, b in draft.asks]:
        for at in range(start, end):
            covered[at] = True

    lost = [x.text for x in scan(text) if x.kind in ("number", "decimal", "frac") and not any(covered[x.start : x.end])]
    assert not lost, text


PATHOLOGICAL = {
    "numbers": "1 ",
    "commas": ",",
    "number commas": "1,",
    "colours": "white ",
    "numbers and colours": "3 white ",
    "plants": "6 pl ",
    "unknown words": "zorp ",
    "near words": "whyte ",
    "fields": "kestrel ",
    "new lines": "kestrel 6 pl none\n",
    "slashes": "1/",
    "letters": "a",
    "quotes": '"',
    "months": "june 1 ",
    "denied signs": "no yellowing, ",
    "signs denied at once": "no yellowing or stunting or ",
    "yellow leaves": "yellow leaves ",
    "suppositions": "if it gets dry ",
    "not": "not 12 ",
    "spots": "in: 3 ",
    "marks": "p1 3w ",
    "stages": "R2-",
    "accents": "á̀",
    "digits": "7",
    "own signs": "a + b\n",
    "places": "gate 2 0 1, ",
    "items": "2w, 0, ",
    "two places": "9 in one and 13 in the other, ",
    "fields in a row": "kestrel, ",
    "slips": "q falta... ah si, kestrel. ",
}


@pytest.mark.parametrize("name", PATHOLOGICAL)
def test_time_grows_no_faster_than_the_text(name: str) -> None:
    """Four times the text takes about four times as long."""
    unit = PATHOLOGICAL[name]

    def took(size: int) -> float:
        text = unit * (size // len(unit))
        start = time.process_time()
        read_note(text, sent=SENT, fields=("Kestrel",))
        return time.process_time() - start

    took(1000)
    small, large = took(4_000), took(16_000)
    if large > 8 * small + 0.2:  # linear is four times; a quadratic step would be sixteen
        small, large = max(small, took(4_000)), min(large, took(16_000))

    assert large <= 8 * small + 0.2


@pytest.mark.parametrize(
    ("language", "line"),
    [
        (
            "en",
            "kestrel, 6 plants, shovel, none seen, moist, loam, R1, roots dark, nodules few, look again 20 Jul; stunted",
        ),
        (
            "es",
            "kestrel, 6 plantas, con pala, ninguna, húmedo, franco, R1, raíces oscuras, nódulos pocos, volver 20 jul",
        ),
        ("pt", "kestrel, 6 plantas, com pá, nenhuma, úmido, franco, R1, raízes escuras, nódulos poucos, voltar 20 jul"),
    ],
)
def test_a_note_is_written_in_the_words_of_the_trade(language: Language, line: str) -> None:
    """Our own words are the first of their lists or written ones; a rare one in front of a list once reached answers."""
    note = Note(
        field="kestrel",
        plants=6,
        method="shovel",
        females=Females(0, 0, 0, 0, 0),
        outcome="none_seen",
        soil=Soil(moisture="moist", texture="loam"),
        stage="R1",
        roots=("dark", "nodules_few"),
        tops=("stunted",) if language == "en" else (),
        look_again=LookAgain(date=date(2026, 7, 20)),
    )
    assert spell(note, language) == line
