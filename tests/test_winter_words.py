"""Words of the winter half: every statement its sheets can make comes out as a sentence in three languages."""

from __future__ import annotations

import re
import tomllib
from dataclasses import replace
from datetime import date
from importlib.resources import files
from pathlib import Path

import pytest

import notes_bot
from notes_bot.model import (
    LANGUAGES,
    Fact,
    Females,
    Field,
    Finding,
    Interval,
    Note,
    Outlook,
    Person,
    ResistanceWatch,
    Sheet,
    Spot,
    Visit,
)
from notes_bot.reply import compose_sheet
from notes_bot.reply.segments import segments
from notes_bot.reply.words import NOTHING, words
from notes_bot.science import eggs, sampling
from notes_bot.season_report import NOT_TOLD, SourceIndex, StripLook, field_report, watch_sheet
from notes_bot.winter import Place, hg_sheet, kept_counts, lab_sheet, rotation_sheet, sample_sheet

FIELD = Field(1, "Kestrel Bottom", "crew", acres=60.0)
ON = date(2026, 10, 20)


def _counts(*told: tuple[str, float, dict[str, object]], place: str | None = "Iowa"):
    return kept_counts(
        [(ON, {"value": v, "unit": "eggs per 100 cc", "date": day, **more}) for day, v, more in told], place
    )


def lab_sheets() -> list[Sheet]:
    out = []
    for place in (None, "Iowa", "Ohio", "Missouri", "Illinois", "North Dakota", "Ontario", "South Dakota", "Nebraska"):
        for value in (0, 45, 150, 900, 3000, 7000, 40000):
            counts = _counts(("2024-06-20", 300, {"after": "other"}), ("2026-10-20", value, {"after": "soybean"}))
            out.append(lab_sheet(FIELD, counts, Place(place, "crew" if place else "nowhere")))
    for unit in ("250 cc", "cup", "half pint", "pint", "gallon", "kg", "100 g"):
        for what in ("eggs", "cysts"):
            told = [(ON, {"value": 3000, "unit": f"{what} per {unit}", "cores": 20})]
            out.append(lab_sheet(FIELD, kept_counts(told, "Missouri"), Place("Missouri", "lab")))
        out.append(
            lab_sheet(
                FIELD, kept_counts([(ON, {"value": 3000, "unit": f"eggs per {unit}"})], None), Place(None, "nowhere")
            )
        )
    climb = _counts(*((f"{2022 + n}-10-20", 100 * 5**n, {}) for n in range(4)))
    flat = _counts(*((f"{2022 + n}-10-20", 1000, {}) for n in range(4)))
    return [*out, *(lab_sheet(FIELD, each, Place("Iowa", "said"), replaced=each[0]) for each in (climb, flat))]


def hg_sheets() -> list[Sheet]:
    place = Place("Missouri", "said")
    lines = {"1": [2.0], "2": [60.0], "3": [0.0], "4": [0.0], "5": [20.0], "6": [0.0], "7": [50.0]}
    every = [
        {"check": [200.0], "lines": lines, "pickett": [60.0], "plants": 5},
        {"check": [200.0], "lines": lines, "plants": 2},
        {"check": [200.0], "lines": {"2": [30.0], "5": [80.0]}},
        {"check": [200.0], "lines": {n: [1.0] for n in lines}, "pickett": [1.0]},
        {"check": [45.0], "lines": lines},
        {"check": [0.0], "lines": lines},
        {"check": [200.0], "lines": lines | {"3": [40.0], "1": [40.0], "4": [90.0]}, "pickett": [1.0]},
        {"indices": {"1": 2.0, "2": 45.0, "5": 20.0, "7": 60.0}, "pickett": 30.0},
        {"check": [200.0], "lines": lines | {"2": [30.0], "5": [1.0], "7": [1.0]}, "plants": 20},
        {"indices": dict.fromkeys(lines, 30.0)},
        {"type": "2.5.7"},
        {"type": "0"},
    ]
    illinois = hg_sheet(FIELD, every[0], Place("Illinois", "said"))
    return [illinois, *(hg_sheet(FIELD, args, place) for args in every)]


def rotation_sheets() -> list[Sheet]:
    place, today = Place("Missouri", "said"), ON
    counts = _counts(("2026-10-20", 2400, {}))
    plans = [
        (),
        [["corn", "wheat", "other"]],
        [["corn", "resistant"], ["corn", "susceptible"]],
        [["corn"], ["corn", "corn"]],
        [["corn", "Peking"], ["wheat", "Peking"], ["susceptible", "PI 437654"]],
    ]
    made = [rotation_sheet(FIELD, plan, counts, place, today=today, weeds=True) for plan in plans]
    made.append(rotation_sheet(FIELD, plans[2], (), Place(None, "nowhere"), today=today, eggs=300.0))
    made.append(rotation_sheet(FIELD, (), counts, place, today=today, indices={"PI 88788": 30.0}))
    made.append(rotation_sheet(FIELD, (), (), place, today=today))
    return [*made, rotation_sheet(FIELD, (), _counts(("2026-10-20", 0, {})), place, today=today)]


def sample_sheets() -> list[Sheet]:
    def look(note: Note) -> Visit:
        return Visit(1, 1, date(2026, 7, 8), note, 1)

    spots = (
        Spot("draw", 6, Females(total=12)),
        Spot("hill", 6, Females(total=0)),
        Spot("gate", None, Females(total=3)),
    )
    apart = Note(spots=spots, outcome="seen")
    yellow = Note(spots=spots[1:2], outcome="none_seen", tops=("yellow",))
    seen = Note(females=Females(total=12), plants=6, outcome="seen")
    none = Note(females=Females(total=0), plants=6, outcome="none_seen")
    looks = [
        look(seen),
        look(replace(seen, plants=None)),
        look(none),
        look(replace(none, tops=("yellow",))),
        look(apart),
        look(yellow),
    ]
    counts = _counts(("2026-10-20", 24000, {}))
    places = [None, "Ontario", *sampling.PROTOCOLS]
    made = [sample_sheet(FIELD, [each], counts, Place(p, "said"), watch=True) for p in places for each in looks]
    return [*made, sample_sheet(FIELD, [], counts, Place("Missouri", "said"))]


def report_sheets() -> list[Sheet]:
    watch = ResistanceWatch("slipping", 0.9, Interval(1, 2, 3), Interval(41, 65, 101))
    mix = Outlook(ON, "late", 2, 0.9, (), 0.4, None, finding=Finding("thin", resistance=watch))
    look = Note(females=Females(total=12), plants=6, outcome="seen", method="shovel")
    notes = [
        look,
        replace(look, method=None),
        replace(look, plants=None),
        replace(look, females=Females(), method=None),
        replace(look, outcome="none_seen", females=Females(total=0)),
        replace(look, outcome="none_seen", females=Females(total=0), method=None),
        replace(look, outcome="none_seen", females=Females(total=0), plants=None),
        Note(outcome="not_looked"),
    ]
    visits = [Visit(n, 1, date(2026, 7, 1 + n), note, 1) for n, note in enumerate(notes)]
    told = [
        field_report(replace(FIELD, variety="V 22", source="Peking"), visits * 2, mix, None, None, None, year=2026),
        field_report(replace(FIELD, variety="V 22"), visits[4:5], mix, lab_sheets()[9], None, None, year=2026),
        field_report(FIELD, visits[7:], mix, None, None, None, year=2026),
        field_report(FIELD, visits[:1], mix, lab_sheets()[9], hg_sheets()[0], rotation_sheets()[0], year=2026),
        field_report(FIELD, visits[:1], mix, lab_sheets()[9], None, None, year=2026),
    ]
    strips = [StripLook(f"Field {n}", "Peking", 2020 + n % 6, -3.0 + 0.5 * (n % 6), 0.3) for n in range(24)]
    calm = [StripLook("Kestrel", "PI 88788", 2026, -4.0, 0.3), StripLook("Kestrel", "PI 88788", 2025, -4.0, 0.3)]
    told += [watch_sheet(looks, [SourceIndex("Kestrel", "Peking", 12.0)], year=2026) for looks in (strips, calm)]
    unknown = replace(calm[0], source=NOT_TOLD)
    return [*told, watch_sheet([], [], year=2026), watch_sheet([unknown], [], year=2026)]


SHEETS = [*report_sheets(), *lab_sheets(), *hg_sheets(), *rotation_sheets(), *sample_sheets()]


def _statements() -> list[Fact]:
    return [f for s in SHEETS for f in (*s.heads, *s.short, *(fact for part in s.parts for fact in part.facts))]


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_statement_has_words_with_every_value_in_its_place(language):
    """No key told by its bare name, no gap, no None, in any language."""
    speak = words(language)
    for fact in _statements():
        told = speak.say(fact)
        keys = {fact.key, *(f"{fact.key}_no_{name}" for name in fact.values)}
        assert keys & set(speak.tables["fact"]), fact.key
        assert not re.search(r"[{}_]|\bNone\b(?! (?:found|seen))|\b(True|False)\b|(?<!\w)\?", told), told


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_winter_answer_fits_its_doors(language):
    """A headline for a lock screen, at most two text messages, and no empty heading."""
    person = Person(1, "first scout", "scout", "crew", (), language=language)
    for sheet in SHEETS[::7] + hg_sheets() + rotation_sheets():
        sheet = replace(sheet, plans=(), counts=(), points=(), kind="hg")  # pictures have their own tests
        reply = compose_sheet(sheet, person, year=2026)
        assert len(reply.text.splitlines()[0]) <= 110
        assert segments(reply.short) <= 2
        assert not re.search(r"^[A-ZÇÁÉÍÓÚÃÕ ]+\n\n", reply.text, re.MULTILINE)


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_key_of_the_tables_has_its_word(language):
    """Advice, levels, patterns and seasons of the science are worded in every language, and none is left over."""
    tables = words(language).tables

    assert set(tables["advice"]) == {band.advice for band in eggs.SCALES} == set(eggs.ADVICE)
    assert set(tables["level"]) == {band.level for band in eggs.SCALES}
    rows = [*sampling.PROTOCOLS.values(), sampling.COMMON]
    assert set(tables["pattern"]) == {row.pattern for row in rows}
    assert set(tables["sample_when"]) == {row.when for row in rows}


def test_every_winter_sentence_is_said_by_some_sheet():
    """A sentence nobody says is dead weight in three languages."""
    own = tomllib.loads((files("notes_bot.reply") / "words" / "winter_en.toml").read_text("utf-8"))["fact"]
    said: set[str] = set()

    def walk(fact: Fact) -> None:
        missing = [f"{fact.key}_no_{name}" for name, value in fact.values.items() if value in NOTHING]
        said.add(next((key for key in missing if key in own), fact.key))
        for value in fact.values.values():
            for each in value if isinstance(value, list | tuple) else [value]:
                if isinstance(each, Fact):
                    walk(each)

    for fact in _statements():
        walk(fact)
    in_code = "\n".join(path.read_text("utf-8") for path in Path(notes_bot.__file__).parent.glob("*.py"))

    assert {key for key in own if key not in said and f'"{key}"' not in in_code} == set()


def test_one_female_a_plant_is_one_in_the_winter_sheets_too():
    """The word goes with the number as it is written, in every language."""
    told = [words(language).say(Fact("report_most", {"each": each})) for language in LANGUAGES for each in (1.02, 3.5)]

    assert [line.split(" ")[2].rstrip(".") for line in told] == [
        "female",
        "females",
        "hembra",
        "hembras",
        "fêmea",
        "fêmeas",
    ]
