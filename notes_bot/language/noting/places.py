"""Places of the field and check strips, and the totals over them."""

from __future__ import annotations

from notes_bot.language.clauses.counts import Scope
from notes_bot.language.clauses.facts import Fact
from notes_bot.language.lexicon.scan import fold
from notes_bot.language.noting.page import Page
from notes_bot.model import COLOURS, Females, Spot

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
