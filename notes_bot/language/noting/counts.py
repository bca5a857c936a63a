"""Counts by color and in total."""

from __future__ import annotations

from notes_bot.language.clauses.facts import Fact
from notes_bot.language.lexicon.scan import scan
from notes_bot.language.noting.around import amended
from notes_bot.language.noting.averages import average, averaged
from notes_bot.language.noting.lists import on_per_plant, recorded
from notes_bot.language.noting.page import CLAUSE, SAID_BEFORE, Page, lead_of
from notes_bot.language.noting.places import told_of_all
from notes_bot.model import Colour

FARTHEST_BACK = 400
"""Characters back to the count that another takes back (judgement)."""


def on_colour_count(page: Page, fact: Fact) -> None:
    """12 white; white 3 0 7 2."""
    colour: Colour = fact.first("COLOUR")
    if len(fact.numbers) > 1:
        listed = page.wholes(fact)
        if listed is not None and len(listed) == 2 and page.scope is page.main and not _two_plants(page, fact):
            page.complain("which_number", fact)
        elif listed is not None:
            page.scope.lists.append((listed, colour))
            page.scope.counts.append(fact)
        return
    if average(page, fact, colour):
        return
    count = page.whole(fact, fact.numbers[0])
    if count is None or told_of_all(page, fact, colour, count) or recorded(page, fact, colour, count):
        return
    before = page.neighbour(fact, -1)
    shaded = before is not None and before.kind == "shades" and before.first("MOSTLY") == "mostly"
    apart = fact.words[0].type == "COLOUR" and fact.words[-1].lead == "soft" and fact.lead in ("", "link")
    if shaded and before is not None and not before.has("COLOUR") and apart and page.scope.total is None:
        page.scope.shade(colour)  # "casi todo amarillo, 26 contadas"
        page.scope.total = count
        page.scope.counts.append(fact)
        return
    old = page.scope.colours.get(colour, count)
    if old != count and _sums_places(page, colour, count):
        return  # "gate 3 pl 2 white, hill 3 pl 1 white, so 3 white"
    own = page.scope.colours.get(colour, 0 if page.scope.none else None)
    if page.over_fields(fact, lambda note: getattr(note.females, colour), own, count):
        return
    if old != count and _counted_anew(page, fact, colour):
        page.context.mention("amended", fact.start, fact.end, old=old)
    elif old != count and not amended(page, fact, old) and not _summed(page, fact, old, count):
        page.twice(colour, fact, page.scope.colours[colour], count)
        return
    page.scope.colours[colour] = count
    page.scope.counts.append(fact)


def _counted_anew(page: Page, fact: Fact, colour: Colour) -> bool:
    """ "3w. scratch that, got my glasses on now, 5w", "4 white so far, .. ok done, 9 white all told"?"""
    if page.spots or page.scope.lists or page.scope.records:
        return False
    before = [f for f in page.scope.counts if f.has("COLOUR") and f.first("COLOUR") == colour and f.start < fact.start]
    if len(before) != 1 or len(fact.numbers) != 1 or fact.start - before[0].end > FARTHEST_BACK:
        return False
    end = CLAUSE.split(page.context.text[fact.end : fact.end + SAID_BEFORE])[0]
    said = [x.text for x in scan(page.context.text[before[0].end : fact.start] + " " + end) if x.kind == "word"]
    spans = (" ".join(said[n : n + size]) for n in range(len(said)) for size in (1, 2))
    return page.table.has_any("anew_word", spans)


def _sums_places(page: Page, colour: Colour, count: int) -> bool:
    """Is it told behind the last place, as many of a color as all places had?"""
    places = [scope for scope in page.spots if not scope.check]
    told = [scope.colours.get(colour, 0) for scope in places]
    return len(places) > 1 and page.scope is page.spots[-1] and bool(told[-1]) and sum(told) == count


def _summed(page: Page, fact: Fact, old: int, count: int) -> bool:
    """ "Four white, then two more, so six white": the second number is the sum of the first and what was added."""
    said = page.said_before(fact)
    if not (said and page.table.has("sums_up", said[-1])):
        return False
    words = [x.text for x in scan(lead_of(page.context.text, fact.start))]
    added = (page.table.singles.get(word, ()) for word in words)
    spoken = {entry.value for entries in added for entry in entries if entry.type == "NUMBER_WORD"}
    if count <= old or not {str(count - old)} & {*words, *spoken}:
        return False
    page.context.mention("amended", fact.start, fact.end, old=old)
    return True


def _two_plants(page: Page, fact: Fact) -> bool:
    """Two numbers are a list when two plants were dug, or two colors are listed alike, or a stop says so."""
    if page.pairs_told is None:
        lists = [other for other in page.facts if other.kind == "colour_count" and len(other.numbers) == 2]
        dug = [other.numbers[0] for other in page.facts if other.kind == "plants" and len(other.numbers) == 1]
        page.pairs_told = 2 in dug or len(lists) > 1
    return page.pairs_told or any(word.lead in ("soft", "colon") for word in fact.words[1:])


def on_colour_series(page: Page, fact: Fact) -> None:
    """12/3/0/0."""
    for colour, count in fact.first("SERIES"):
        if averaged(page, fact):
            page.scope.averages[colour] = count
            page.scope.average_at = (fact.start, fact.end)
        elif not recorded(page, fact, colour, count):
            page.scope.colours[colour] = count
    page.scope.counts.append(fact)


def on_total_count(page: Page, fact: Fact) -> None:
    """14 females; total 14."""
    if len(fact.numbers) > 1:
        on_per_plant(page, fact)
        return
    if average(page, fact, None):
        return
    count = page.whole(fact, fact.numbers[0])
    if count is not None and told_of_all(page, fact, None, count):
        return
    told = bool(page.scope.records) and bool(page.scope.records[-1])
    summed = told and fact.has("TOTAL") and fact.lead != ""  # "P4 1, P5 3. Total 12": of all of them
    if count is None or (not summed and recorded(page, fact, None, count)):
        return
    after = page.neighbour(fact, 1)
    apposed = after is not None and after.kind == "shades" and len(after.words) == 1 and after.lead == "soft"
    if count == 1 and apposed and after is not None and not page.scope.colours:
        page.scope.colours[after.first("COLOUR")] = 1  # "apareció una sola hembra, blanca"
        page.scope.counts.append(fact)
        page.told_in = after
        return
    own = 0 if page.scope.none else page.scope.total or page.scope.summed or None
    if page.over_fields(fact, lambda note: note.females.total, own, count):
        return  # "that's 15 females over both"
    if page.scope.total is not None and page.scope.total != count and not amended(page, fact, page.scope.total):
        page.twice("total", fact, page.scope.total, count)
        return
    page.scope.total = count
    page.scope.counts.append(fact)
