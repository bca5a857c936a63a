"""Numbers one per plant, in a list or told plant by plant, and numbers that stand alone."""

from __future__ import annotations

from notes_bot.language.clauses.facts import Fact
from notes_bot.language.noting.page import Page
from notes_bot.language.noting.places import leave_check
from notes_bot.language.noting.soil import labelled_before
from notes_bot.model import Colour


def on_per_plant(page: Page, fact: Fact) -> None:
    """A list of numbers, one per plant; a number alone is asked about."""
    if labelled_before(page, fact):
        return
    listed = page.wholes(fact)
    if listed is None:
        return
    if len(listed) == 1:
        _lone(page, fact, listed[0])
        return
    named = page.scope is not page.main or fact.lead == "colon" or fact.has("EACH", "FEMALES", "TOTAL")
    if len(listed) == 2 and page.scope.plants != 2 and not named:
        page.complain("which_number", fact)
        return
    leave_check(page, fact, bool(page.scope.lists))
    first = next((values for values, colour in page.scope.lists if colour is None), None)
    if first is not None and _lists_of_one_look(page):
        page.scope.lists = [(first + listed, None) if told[1] is None else told for told in page.scope.lists]
        return
    if first is not None:
        page.twice("list", fact, " ".join(map(str, first)), " ".join(map(str, listed)))
        return
    page.scope.lists.append((listed, None))
    page.scope.counts.append(fact)


def _lists_of_one_look(page: Page) -> bool:
    """ "One guy 3 2 0 0 5, other guy 1 0 0 4 0, ten plants": together as many numbers as plants, and no places?"""
    dug = [f.numbers[0] for f in page.kinds.get("plants", ()) if len(f.numbers) == 1]
    lists = page.kinds.get("per_plant", ())
    if len(dug) != 1 or page.spots or len(lists) > dug[0]:
        return False
    return bool(dug[0] == sum(len(f.numbers) for f in lists if len(f.numbers) > 1))


def _lone(page: Page, fact: Fact, number: int) -> None:
    """One number alone: a total, the rest, or asked about."""
    if _sums_records(page, fact, number) or recorded(page, fact, None, number):
        return
    above = page.neighbour(fact, -1)
    tied = above is not None and above.kind == "plants" and fact.lead in ("", "link", "colon", "soft")
    if tied and (page.scope is not page.main or page.spots) and page.scope.plants is not None and not page.scope.said:
        page.scope.total = number  # "in the check strip 3 plants 31"
        page.scope.counts.append(fact)
    elif page.scope.plants == 1 and not page.scope.said:
        page.scope.lists.append(((number,), None))
        page.scope.counts.append(fact)
    elif page.scope.lists and number == sum(sum(values) for values, _ in page.scope.lists):
        return  # "5, 9, 4 (that's 18 if I added right)"
    elif number == 0 and not page.scope.said:
        page.scope.total = 0
    elif page.scope.plants is not None and page.scope.mostly and not page.scope.counted:
        page.scope.total = number  # "5 plantas, todas amarillas, 15"
        page.scope.counts.append(fact)
    elif number == 0 and page.scope.colours and _of_the_rest(page, fact):
        return  # "White: 6. Others: 0.", "demais cores 0"
    elif _plants_in_heading(page) and not page.scope.said:
        page.scope.total = number  # "8 dug per field. Kestrel 14, Tinkers 22"
        page.scope.counts.append(fact)
        females = page.table.first["FEMALES", "female"]
        page.context.mention("near_word", fact.start, fact.end, read=f"{number} {females}")
    else:
        page.strays.append((fact, page.scope, number))


def _sums_records(page: Page, fact: Fact, number: int) -> bool:
    """ "One boy had 8, the next had 5 .. That's 13": the sum of the plants told one by one."""
    said = page.said_before(fact)
    summed = bool(said) and page.table.has("sums_up", said[-1])
    return summed and number == sum(sum(record.values()) for record in page.scope.records)


def _of_the_rest(page: Page, fact: Fact) -> bool:
    """Do the last words before it, one of them perhaps "colors", say that it is said of the rest?"""
    return any(page.table.has("rest_word", word) for word in page.said_before(fact)[-2:])


def _plants_in_heading(page: Page) -> bool:
    """Were the plants of each field told above all of them?"""
    return page.headed


def on_mark(page: Page, fact: Fact) -> None:
    """Plant 2 of those told one by one."""
    number = fact.first("MARK")
    again = number == 1 and bool(page.scope.records)  # "p1 4 p2 6; p1 0 p2 1": at two places?
    if again or (page.scope.records and not page.scope.records[-1]):
        page.complain("stray_number", fact, number=number if again else number - 1)
    page.scope.records.append({})


def recorded(page: Page, fact: Fact, colour: Colour | None, count: int) -> bool:
    """Into the plant told last, when plants are told one by one."""
    if not page.scope.records:
        return False
    record = page.scope.records[-1]
    if colour in record:
        page.twice(colour or "total", fact, record[colour], count)
    record[colour] = record.get(colour, 0) + count
    page.scope.counts.append(fact)
    return True
