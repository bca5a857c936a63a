"""So many on each plant."""

from __future__ import annotations

from notes_bot.language.clauses.facts import Fact
from notes_bot.language.lexicon.times import MOST_PLANTS
from notes_bot.language.noting.lists import on_per_plant
from notes_bot.language.noting.page import Page
from notes_bot.model import Colour


def on_each(page: Page, fact: Fact) -> None:
    """2.8 per plant; "all 0, 5 ea" are plants."""
    if len(fact.numbers) == 1 and _plants_each(page, fact):
        page.scope.plants = page.whole(fact, fact.numbers[0])
    elif len(fact.numbers) == 1:
        _averages(page, fact, None)
    elif fact.numbers:
        on_per_plant(page, fact)


def _plants_each(page: Page, fact: Fact) -> bool:
    """So many each, where none were found and no plants are told."""
    nothing = any(f.kind == "none" or (f.kind == "per_plant" and f.numbers == [0]) for f in page.facts)
    told = any(f.kind in ("plants", "colour_count", "total_count", "colour_series") for f in page.facts)
    return nothing and not told and page.scope is page.main and 0 < fact.numbers[0] <= MOST_PLANTS


def average(page: Page, fact: Fact, colour: Colour | None) -> bool:
    """Is it so many on each plant, and noted as that?"""
    if not averaged(page, fact):
        return False
    _averages(page, fact, colour)
    return True


def _averages(page: Page, fact: Fact, colour: Colour | None) -> None:
    """So many on each plant, or on each of those just said to have any."""
    page.scope.averages[colour] = fact.numbers[0]
    page.scope.average_at = (fact.start, fact.end)
    sentence = page.context.sentence(fact)
    some = any(f.kind == "positive" and page.context.sentence(f) == sentence for f in page.scope.counts)
    page.scope.average_of = page.scope.positive if some else None


def averaged(page: Page, fact: Fact) -> bool:
    """Does "per plant" stand in the same sentence, with nothing but counts between?"""
    return fact.at in page.averaged


def find_averaged(page: Page) -> set[int]:
    """Counts in a row with "per plant" at either end, by index."""
    found: set[int] = set()
    if not any(fact.kind == "each" for fact in page.facts):
        return found
    for step in (1, -1):
        sentence = -1
        for fact in page.facts[::step]:
            ends = _each_of_plants(page, fact) or _each_of_shade(page, fact)
            if fact.kind == "each" and not fact.numbers and step == 1 and ends:
                sentence = -1
            elif fact.kind == "each" and not fact.numbers:
                sentence = page.context.sentence(fact)
            elif fact.kind == "text" and step == 1 and _between_each(page, fact):
                continue  # "cada una de las cuatro plantas presentó 5 hembras"
            elif sentence != page.context.sentence(fact) or not _single_count(fact):
                sentence = -1
            elif step == 1 and fact.has("TOTAL") and fact.lead == "soft":
                sentence = -1  # "every plant had at least one white, 12 total"
            else:
                found.add(fact.at)
    return found


def _single_count(fact: Fact) -> bool:
    return fact.kind == "colour_series" or (fact.kind in ("colour_count", "total_count") and len(fact.numbers) == 1)


def _between_each(page: Page, fact: Fact) -> bool:
    """Is it one word between "each" and its count?"""
    before = page.neighbour(fact, -1)
    near = before is not None and before.kind == "each" and fact.lead in ("", "link")
    return near and len(page.context.text[fact.start : fact.end].split()) == 1


def _each_of_shade(page: Page, fact: Fact) -> bool:
    """ "White on every one, 40 total": "each" ends what is said of a color."""
    before, after = page.neighbour(fact, -1), page.neighbour(fact, 1)
    others = ("shades", "nodules", "text", "roots", "tops")  # "20+ nods each, 8 white"
    shaded = before is not None and before.kind in others and fact.lead in ("", "link")
    return shaded and (after is None or after.lead in ("soft", "hard", "line"))


def _each_of_plants(page: Page, fact: Fact) -> bool:
    """ "Pulled 3 each, found 2 white": "each" ends what is said of the plants."""
    before, after = page.neighbour(fact, -1), page.neighbour(fact, 1)
    if before is None or before.kind != "plants" or fact.lead not in ("", "link"):
        return False
    return after is None or after.lead in ("soft", "hard", "line")
