"""Questions about looks, and the crew's own digging trial: asked in everyday words, answered on one phone screen."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from notes_bot import own_trial
from notes_bot.language import read_note
from notes_bot.model import Fact, Language, Person
from notes_bot.reply import compose_plan, compose_told, compose_trial
from notes_bot.reply.segments import segments
from notes_bot.reply.words import words
from notes_bot.science.detection import RECOVERIES
from notes_bot.worth import plan_look, tell_look

from .crew_kit import FIELDS, OTHER, PEOPLE, SUPERVISOR, Crew, noon

NAMES = [field.name for field in FIELDS]
SCREEN = 18
"""Lines of 40 columns that a phone shows at once."""
LANGUAGES: tuple[Language, ...] = ("en", "es", "pt")


def _asked(text: str, language: Language = "en") -> list[tuple[str, dict[str, Any]]]:
    reading = read_note(text, sent=date(2026, 7, 10), fields=[*NAMES, "kestrel"], language=language)
    assert not reading.notes, reading.notes
    assert not reading.problems, reading.problems
    return [(command.kind, dict(command.args)) for command in reading.commands]


@pytest.mark.parametrize(
    ("text", "language", "args"),
    [
        ("how many plants kestrel", "en", {"field": "kestrel"}),
        ("how many plants", "en", {}),
        ("How many plants should I dig?", "en", {}),
        ("how many plants to be 90 sure", "en", {"percent": 90}),
        (
            "how many to be 95% sure with a shovel in clay at 3 places",
            "en",
            {"percent": 95, "method": "shovel", "texture": "clay", "places": 3},
        ),
        ("how many plants old mill east pulled dry", "en", {"field": "old mill east", "method": "pulled"}),
        ("how many plants north pivot", "en", {"field": "north pivot"}),
        ("cuántas plantas kestrel", "es", {"field": "kestrel"}),
        ("cuantas plantas para 90", "es", {"percent": 90}),
        ("cuántas saco con pala en 3 lugares", "es", {"method": "shovel", "places": 3}),
        ("quantas plantas kestrel", "pt", {"field": "kestrel"}),
        ("quantos pés para 95 por cento", "pt", {"percent": 95}),
    ],
)
def test_how_many_is_asked_in_everyday_words(text: str, language: Language, args: dict[str, Any]) -> None:
    """Field, percent, method, soil and places in any order, or none of them."""
    ((kind, found),) = _asked(text, language)

    assert kind == "look_plan"
    assert args.items() <= found.items()
    assert not found.keys() & {"percent", "places", "field"} - args.keys()


@pytest.mark.parametrize(
    ("text", "language", "args"),
    [
        ("what did 5 pulled plants tell me", "en", {"plants": 5, "method": "pulled"}),
        ("what did my five plants tell me", "en", {"plants": 5}),
        ("what did my look tell me kestrel", "en", {"field": "kestrel"}),
        ("are 6 plants enough?", "en", {"plants": 6}),
        ("is 5 pulled plants enough", "en", {"plants": 5, "method": "pulled"}),
        ("what are 4 plants dug and soaked worth", "en", {"plants": 4, "method": "shovel", "soaked": True}),
        ("qué me dicen 5 plantas arrancadas", "es", {"plants": 5, "method": "pulled"}),
        ("¿alcanzan 6 plantas con pala?", "es", {"plants": 6, "method": "shovel"}),
        ("o que dizem 5 plantas puxadas", "pt", {"plants": 5, "method": "pulled"}),
        ("bastam 6 plantas com pá?", "pt", {"plants": 6, "method": "shovel"}),
    ],
)
def test_what_plants_told_is_asked_in_everyday_words(text: str, language: Language, args: dict[str, Any]) -> None:
    """The same question backwards."""
    assert _asked(text, language) == [("look_worth", args)]


@pytest.mark.parametrize(
    ("text", "language", "args"),
    [
        (
            "trial kestrel pulled dry clay: 2+5, 0+7, 1+3",
            "en",
            {
                "field": "kestrel",
                "method": "pulled",
                "moisture": "dry",
                "texture": "clay",
                "plants": [[2, 5], [0, 7], [1, 3]],
            },
        ),
        ("trial shovel bucket 4 of 7, 3 of 5", "en", {"method": "shovel", "soaked": True, "plants": [[4, 3], [3, 2]]}),
        ("trial pulled 2+5+1 0+3", "en", {"method": "pulled", "plants": [[2, 6], [0, 3]]}),
        ("trial pulled:\n2+5 0+7\n1+1", "en", {"method": "pulled", "plants": [[2, 5], [0, 7], [1, 1]]}),
        ("ensayo arrancadas seco 2+5 0+7", "es", {"method": "pulled", "moisture": "dry", "plants": [[2, 5], [0, 7]]}),
        ("ensaio puxadas seco 2+5 0+7", "pt", {"method": "pulled", "moisture": "dry", "plants": [[2, 5], [0, 7]]}),
        ("undo trial", "en", {"drop": True}),
        ("borrar ensayo", "es", {"drop": True}),
        ("apagar ensaio", "pt", {"drop": True}),
    ],
)
def test_a_trial_is_one_line_or_many(text: str, language: Language, args: dict[str, Any]) -> None:
    """Found as usual, plus what each further step added, plant by plant."""
    assert _asked(text, language) == [("trial", args)]


@pytest.mark.parametrize("text", ["trial plot 6 plants none seen", "kestrel 6 plants, enough rain, none seen"])
def test_a_note_with_such_a_word_is_still_a_note(text: str) -> None:
    """A field called after a trial, or enough of something else."""
    reading = read_note(text, sent=date(2026, 7, 10), fields=NAMES)

    assert [note.plants for note in reading.notes] == [6]
    assert not reading.commands


@pytest.mark.parametrize("language", LANGUAGES)
def test_the_trial_line_we_teach_can_be_read(language: Language) -> None:
    """What the guide shows, and what a refused sheet is told, comes to a sheet."""
    speak = words(language)
    shown = [speak("look.trial_example"), speak("look.trial_short").partition(": ")[2].rpartition(": ")[2]]
    shown.append(speak.say(Fact("trial_how", {})).partition(": ")[2].split(". ")[0])
    for line in shown:
        ((kind, args),) = _asked(line, language)

        assert kind == "trial"
        assert args["method"] == "pulled"
        assert args["moisture"] == "dry"
        assert args["plants"][0] == [2, 5]


def _lines(text: str) -> list[str]:
    return [row for line in text.rstrip("\n").splitlines() for row in (textwrap.wrap(line, 40) or [""])]


@pytest.mark.parametrize("language", LANGUAGES)
def test_answers_about_looks_fit_a_phone_screen_and_a_segment(language: Language) -> None:
    """Eighteen lines of forty columns; the short form is one text message."""
    person = replace(PEOPLE[0], language=language)
    plan = compose_plan(plan_look("clay"), FIELDS[1], None, person, year=2026)
    told = compose_told(tell_look(5, "eased", True, "wet", "clay"), FIELDS[1], person, year=2026)
    for reply in (plan, told):
        assert len(_lines(reply.text)) <= SCREEN, reply.text
        assert segments(reply.short) == 1
    assert segments(compose_trial((), language).short) == 1


def test_the_plan_leads_with_the_way_asked_for() -> None:
    """Who asks how many to pull hears that first, and what would be better below."""
    person = PEOPLE[0]
    pulled = compose_plan(plan_look("clay", way=("pulled", False), sure=(90,)), None, None, person, year=2026).text
    best = compose_plan(plan_look("loam"), FIELDS[0], None, person, year=2026).text

    assert pulled.startswith("Pulled, no number of plants makes you 90% sure.")
    assert best.startswith("Kestrel Bottom: 14 plants at 4 places, dug and soaked, to be 90% sure.")


# --- through the desk ---


@pytest.fixture
def crew(tmp_path: Path) -> Iterator[Crew]:
    made = Crew(tmp_path, noon(7, 1))
    yield made
    made.close()


def test_a_trial_sent_by_mail_counts_in_every_later_answer(crew: Crew) -> None:
    """Kept, told how far it moved the figure, used and named in the next answer, and taken back by two words."""
    look = "harrow ridge 3 pulled 4, none seen, dry"
    before = crew.body(crew.note(look))
    sheet = "trial harrow ridge 3 pulled dry 2+5 0+7 1+0 1+4 0+3 2+2 1+1 3+4"
    answer = crew.body(crew.note(sheet))
    after = crew.body(crew.note(look + " again"))
    guide = crew.body(crew.note("trial"))
    taken_back = crew.body(crew.note("undo trial"))

    assert "Trial kept: 8 plants pulled, dry soil: 10 of 36 females seen." in answer
    assert "is counted where our guess was 2%" in answer
    assert "Your trial" not in before
    assert "Your trial counts: 8 plants pulled, dry soil" in after
    assert "Your trial counts: 8 plants" in guide
    assert "Trial taken back" in taken_back
    assert "No trial of yours yet" in crew.body(crew.note("trial"))


def test_a_trial_tells_supervisor_and_other_scouts_of_the_same_crew(crew: Crew) -> None:
    """It is the crew's, whoever dug; the question backwards uses it too."""
    crew.note("trial pulled dry 2+5 0+7 1+0 1+4 0+3 2+2 1+1 3+4")

    assert "Cuenta su ensayo: 8 plantas" in crew.body(crew.note("qué me dicen 5 plantas arrancadas, suelo seco", OTHER))
    assert "Your trial counts: 8 plants" in crew.body(
        crew.note("what did 5 pulled plants tell me, dry soil", SUPERVISOR)
    )


def test_a_sheet_without_a_way_of_digging_or_without_females_is_not_kept(crew: Crew) -> None:
    """Nothing is guessed, and nothing can be measured on clean plants."""
    assert "Say how the plants came up" in crew.body(crew.note("trial 2+5 0+7"))
    assert "nothing to measure" in crew.body(crew.note("trial pulled dry 0+0 0+0"))
    assert crew.parts.store.crew_events("crew", "trial") == ()


def test_a_trial_of_another_crew_is_not_ours(crew: Crew) -> None:
    """Other hands, other eyes."""
    crew.note("trial pulled dry 2+5 0+7 1+0")

    assert len(crew.parts.store.crew_events("crew", "trial")) == 1
    assert crew.parts.store.crew_events("other crew", "trial") == ()


def test_how_many_is_answered_for_the_field_and_its_soil(crew: Crew) -> None:
    """The soil its notes named, its own look-again window; a field nobody knows is asked about."""
    crew.note("kestrel bottom 6 plants pulled none seen clay moist")
    answer = crew.body(crew.note("how many plants kestrel bottom"))

    assert answer.startswith("Kestrel Bottom: 16 plants at 4 places, dug and soaked, to be 90% sure.")
    assert "moist clay" in answer
    assert "Look again" in answer
    assert 'Which field is "zebra pivot"' in crew.body(crew.note("how many plants zebra pivot"))


def test_what_the_last_look_told_is_asked_without_a_number(crew: Crew) -> None:
    """The plants of the field's last note are taken."""
    crew.note("kestrel bottom 5 plants pulled none seen clay moist")

    assert crew.body(crew.note("what did my look tell me")).startswith("Kestrel Bottom: 5 plants pulled, none seen")


def test_a_closed_field_is_told_by_its_day(crew: Crew) -> None:
    """The end of a restricted-entry interval stated in the note, as people say days."""
    answer = crew.body(crew.note("kestrel bottom 6 plants shovel moist none seen, sprayed fungicide today rei 48 h"))

    assert "Do not enter before 4 Jul, as the note says (48 h). The label rules." in answer


def test_a_variety_to_watch_is_told_by_both_chances(crew: Crew) -> None:
    """Not "watch it, 32 % sure": how likely it holds, and how likely it slips."""
    answer = crew.body(crew.note("old mill east R2 dug 10 resistant variety 3 0 12 8 1 15 9 22 4 11"))

    assert "Resistance: watch it (holding 6" in answer
    assert "10 to 20 white females" in answer


# --- the sheets themselves ---


def _sheet(*plants: tuple[int, int], method: str = "pulled", condition: str = "dry") -> dict[str, Any]:
    return {"method": method, "soaked": False, "condition": condition, "plants": [list(pair) for pair in plants]}


def test_taking_back_takes_the_last_sheet_that_stands() -> None:
    """Twice takes back two; more than there are does no harm."""
    one, two, drop = _sheet((1, 2)), _sheet((3, 4)), {"drop": True}

    assert own_trial.standing([one, two, drop]) == [one]
    assert own_trial.standing([one, drop, drop, two]) == [two]
    assert own_trial.standing([drop]) == []


def test_sheets_move_only_the_rows_they_speak_of_and_more_plants_move_them_further() -> None:
    """Pulled from dry soil: 2 % in the table; plants on which half are found pull it up, the more the further."""

    def pulled_dry(*sheets: dict[str, Any]) -> float:
        return next(
            row.chance
            for row in own_trial.recoveries(sheets)
            if (row.method, row.soaked, row.condition) == ("pulled", False, "dry")
        )

    few, many = _sheet((3, 3), (2, 2)), _sheet(*[(3, 3)] * 30)

    assert own_trial.recoveries([]) == RECOVERIES
    assert 0.02 < pulled_dry(few) < pulled_dry(few, many) < 0.5
    assert pulled_dry(many) == pytest.approx(0.5, abs=0.12)
    changed = set(own_trial.recoveries([many])) - set(RECOVERIES)
    assert {(row.method, row.condition, row.plants) for row in changed} == {("pulled", "dry", 30)}


def test_soil_that_is_not_named_is_the_fields_own() -> None:
    """The texture of earlier notes; moist where nothing is said."""
    args = {"method": "shovel", "plants": [[1, 1]]}

    assert (own_trial.sheet_from(args, "clay") or {})["condition"] == "clay"
    assert (own_trial.sheet_from(args, None) or {})["condition"] == "loam"
    assert (own_trial.sheet_from({**args, "moisture": "dry"}, "clay") or {})["condition"] == "dry"
    assert own_trial.sheet_from({"plants": [[1, 1]]}, None) is None


def test_a_person_of_the_crew_is_enough_to_ask() -> None:
    """No field, no window: the plan stands alone."""
    reply = compose_plan(plan_look(), None, None, Person(9, "scout", "scout", "crew", ()), year=2026)

    assert reply.subject == words("en")("answer.subject_service")
    assert "Look again" not in reply.text
