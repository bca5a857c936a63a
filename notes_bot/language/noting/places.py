"""Places of the field and check strips, and the totals over them."""

from __future__ import annotations

import re

from notes_bot.language.clauses.counts import Scope
from notes_bot.language.clauses.facts import Fact
from notes_bot.language.lexicon.scan import fold, scan
from notes_bot.language.noting.page import CLAUSE, SAID_BEFORE, Page, lead_of
from notes_bot.model import COLOURS, Colour, Females, Spot

Placed = tuple[Scope, Females, tuple[int, ...] | None]


def on_spot(page: Page, fact: Fact) -> None:
    """A place of the field: counts behind it are its own."""
    _open(page, fact, fact.first("SPOT"), check=False)


def on_check(page: Page, fact: Fact) -> None:
    """The check strip."""
    _open(page, fact, fact.first("CHECK"), check=True)


def _open(page: Page, fact: Fact, name: str, check: bool) -> None:
    """A place told before and not counted yet, all of them, or a new one."""
    if page.spots and not check and page.table.has("of_all_places", fold(name)):
        page.scope = page.main  # ".., hill 3 pl 1 white. thats 6 plants and 3 white"
        return
    named = page.named_spots.get((name, check))
    if named is not None and named.plants is not None and not named.said:
        page.scope = named  # "4 from the north end and 4 from the south end. North end was 16 white .."
        return
    page.scope = Scope(name, check, fact.start, fact.end)
    page.spots.append(page.scope)
    page.named_spots.setdefault((name, check), page.scope)


def leave_check(page: Page, fact: Fact, told: bool) -> None:
    """A new sentence that counts again leaves the check strip."""
    if page.scope.check and told and fact.lead in ("hard", "line"):
        page.scope = page.main


def settle_spots(page: Page) -> None:
    """One place alone separates nothing: it is where they dug, and stays in the text."""
    places = [scope for scope in page.spots if not scope.check]
    main = page.main
    told = main.counted or main.none or main.too_many or main.zeros  # shades alone are those of the one place
    if len(places) != 1 or told or any(scope.check for scope in page.spots):
        return
    only = places[0]
    if any(colour not in only.mostly for colour in main.mostly):
        return
    if page.main.plants is not None and only.plants not in (None, page.main.plants):
        return
    page.spots.remove(only)
    only.plants = only.plants if only.plants is not None else page.main.plants
    page.loose.append((only.start, only.end))
    page.main = only


def total_of_all(page: Page) -> None:
    """ "Gate 4 white, hill 3 white. Total 7": what is the sum of all places was not said of the last alone."""
    places = [scope for scope in page.spots if not scope.check]
    last = places[-1] if len(places) > 1 else None
    if last is None or last.total is None or page.main.counted or page.scope not in (last, page.main):
        return
    sums = [scope.summed if scope is last or scope.total is None else scope.total for scope in places]
    if last.summed not in (0, last.total) and sum(sums) == last.total:
        page.main.total, last.total = last.total, None


def told_of_all(page: Page, fact: Fact, colour: Colour | None, count: int) -> bool:
    """ "North end 14 white; south end 2 white. So 16 white overall": the sum of all places, and no more of the last.

    What is said in the same sentence behind such a sum is of all places as well, and asked about if it is not theirs.
    """
    if _told_of_plants(page, fact, colour, count):
        return True
    places = [scope for scope in page.spots if not scope.check]
    if len(places) < LEAST_PLACES or page.scope is not places[-1] or not page.scope.said:
        return False
    begun = page.summed_in is not None and page.summed_in == page.context.sentence(fact)
    if not begun and not _says_sum(page, fact):
        return False
    had = [_had(scope, colour) for scope in places]
    whole = None if None in had else sum(n or 0 for n in had)
    own = had[-1]
    if whole == count and (begun or own != count):
        page.summed_in = page.context.sentence(fact)
        return True
    elsewhere = colour is not None and not own and any(had[:-1])
    if not begun and not (elsewhere and fact.lead in ("hard", "line")):
        return False
    page.context.complain("spots_mismatch", fact.start, fact.end, sum=whole or 0, total=count)
    return True


def _told_of_plants(page: Page, fact: Fact, colour: Colour | None, count: int) -> bool:
    """ "1 white on the first, 3 on the second, third none. So 4 white in all": the sum of plants told singly."""
    records = page.scope.records
    if len(records) < LEAST_PLACES or fact.lead not in ("hard", "line") or not _says_sum(page, fact):
        return False
    shades = {shade for record in records for shade in record if shade is not None}
    return page.scope.summed == count and (colour is None or shades <= {colour})


LEAST_PLACES = 2
"""Places over which something is summed."""


def _says_sum(page: Page, fact: Fact) -> bool:
    """ "(So) 16 white", "16 white (overall)", "(that makes) 14 (altogether)": does its clause tell of a sum?"""
    behind = CLAUSE.split(page.context.text[fact.end : fact.end + SAID_BEFORE])[0]
    before = _SENTENCE.split(lead_of(page.context.text, fact.start))[-1]
    said = fold(f"{before} {page.written(fact)} {behind}")
    if fact.has("TOTAL") or any(page.means(x.text, "TOTAL") or page.table.has("sums_up", x.text) for x in scan(said)):
        return True
    return page.table.said("all_told", said) or page.table.said("leads_sum", before)


_SENTENCE = re.compile(r"[.;!?\n]")
"""What ends a sentence or its half, as it is written."""


def _had(scope: Scope, colour: Colour | None) -> int | None:
    """What a place had of a color, or in all; ``None`` where it was not told."""
    if scope.none or (scope.counted and scope.total == 0):
        return 0
    if colour is None:
        return scope.summed or scope.total
    of_color = sum(sum(values) for values, listed in scope.lists if listed == colour)
    told = scope.colours or any(listed is not None for _, listed in scope.lists)
    return scope.colours.get(colour, 0) + of_color if told else None


def over_places(
    page: Page, places: list[Placed], main: Females, main_list: tuple[int, ...] | None, plants: int | None
) -> tuple[Females, tuple[int, ...] | None, int | None]:
    """The note's totals from its places."""
    sums: dict[str, int | None] = {}
    for key in (*COLOURS, "total"):
        values = [getattr(found, key) for _, found, _ in places]
        sums[key] = None if None in values else sum(values)
    lists = [listed for _, _, listed in places]
    joined = None if None in lists else tuple(n for listed in lists for n in listed or ())
    counts = [
        scope.plants if scope.plants is not None else (len(listed) if listed else None) for scope, _, listed in places
    ]
    whole = None if None in counts else sum(count or 0 for count in counts)
    start, end = places[0][0].start, places[-1][0].end
    total = sums["total"]
    if page.main.said and main.total is not None and total is not None and main.total != total:
        page.context.complain("spots_mismatch", start, end, sum=total, total=main.total)
    if plants is not None and whole is not None and plants != whole:
        page.context.complain("twice", start, end, what=page.label("plants"), first=plants, second=whole)
    females = Females(**sums) if total is not None or main.total is None else main
    return females, joined or main_list, plants if plants is not None else whole


def spot(scope: Scope, females: Females, listed: tuple[int, ...] | None) -> Spot:
    """A place as the note holds it."""
    plants = scope.plants if scope.plants is not None or not listed else len(listed)
    return Spot(scope.name, plants, females, listed, scope.check, tuple(scope.mostly))
