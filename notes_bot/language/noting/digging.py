"""Plants dug, how they came up, and whether they were washed."""

from __future__ import annotations

import re
from itertools import pairwise
from typing import cast

from notes_bot.language.clauses.facts import Fact
from notes_bot.language.lexicon.scan import fold, scan
from notes_bot.language.lexicon.times import MOST_PLANTS
from notes_bot.language.lexicon.words import spoken_numbers
from notes_bot.language.noting.around import amended, intended
from notes_bot.language.noting.page import FEMALE_KINDS, SAID_BEFORE, WIDER, Page, lead_of
from notes_bot.language.noting.places import leave_check
from notes_bot.model import Method

WEAKER: dict[Method, int] = {"shovel": 0, "pulled": 1, "eased": 2}
"""When two ways are said, the more particular one counts: "dug" alone is only the everyday word."""
LEAST_SUMMED = 2
"""Places whose plants may be told together behind the last of them."""


def on_plants(page: Page, fact: Fact) -> None:
    """Plants dug."""
    if fact.has("DUG", "TOOL"):
        on_how(page, fact)
    count = page.whole(fact, fact.numbers[0])
    if count is None:
        return
    if count == 0:
        page.not_looked = fact
        return
    if count > MOST_PLANTS:
        page.complain("many_plants", fact, count=count)
    behind = _said_behind(page, fact)
    if (each := count if _of_each_place(page, fact, behind) else _at_those_listed(page, fact)) is not None:
        page.each_place = each
        return
    if (places := _places_before(page, fact, behind)) > 1:
        page.context.mention("near_word", fact.start, fact.end, read=str(count * places))
        count *= places
    leave_check(page, fact, page.scope.plants is not None or bool(page.scope.lists))
    if fact.first("PLANTS") == "over" and page.scope.plants is not None and count < page.scope.plants:
        page.scope.positive = count
        return
    if _sums_places(page, count):
        page.scope = page.main  # "loma 4 pl 3 blancas, bajo 4 pl 12. total 8 plantas, 15 blancas"
        page.ways.add(fact.first("TOOL") or fact.first("DUG"))
        return
    if page.over_fields(fact, lambda note: note.plants, page.scope.plants, count):
        return
    other = page.scope.plants is not None and page.scope.plants != count
    if (other and not amended(page, fact, page.scope.plants)) or (
        page.scope.plants is not None and _another_way(page, fact)
    ):
        page.twice("plants", fact, page.scope.plants, count)
    else:
        page.scope.plants = count
    page.ways.add(fact.first("TOOL") or fact.first("DUG"))


def _sums_places(page: Page, count: int) -> bool:
    """ "Loma 4 pl 3 blancas, bajo 4 pl 12. Las 8 con pala": behind the last place, as many as all of them had."""
    if not page.spots or page.scope is not page.spots[-1]:
        return False
    places = summed = 0
    for scope in page.spots:
        if not scope.check:
            plants = scope.plants or len(scope.lists[0][0]) if scope.plants or scope.lists else 0
            places, summed = places + 1, summed + plants
            if not plants or summed > count:
                return False
    return places >= LEAST_SUMMED and summed == count


def _another_way(page: Page, fact: Fact) -> bool:
    """ "4 shovel 4 pulled": as many again, or the same ones?"""
    way = fact.first("TOOL") or fact.first("DUG")
    return way is not None and None not in page.ways and {way, *page.ways} >= {"shovel", "pulled"}


def _said_behind(page: Page, fact: Fact) -> list[str]:
    """The first words behind it in its clause, one, two and three of them, where a word for each place is told."""
    if not page.context.may_say("each_place", "each_place_noun"):
        return []
    behind = page.context.text[fact.end : fact.end + SAID_BEFORE]
    words = [x.text for x in scan(re.split(r"[.,;:\n]", behind)[0])]
    return [" ".join(words[:size]) for size in (1, 2, 3) if len(words) >= size]


def _places_before(page: Page, fact: Fact, behind: list[str]) -> int:
    """ "3 spots, 2 plants each": how many places were told before, when "each" is said behind; else 0."""
    if not page.table.has_any("each_place", behind) or any(f.kind in ("spot", "check") for f in page.facts):
        return 0
    before = scan(lead_of(page.context.text, fact.start))
    for number, noun in pairwise(before):
        figure = spoken_numbers().get(number.text, number.text)
        if figure.isdigit() and page.table.has("place_count", noun.text):
            return int(figure)
    return 0


def _of_each_place(page: Page, fact: Fact, behind: list[str]) -> bool:
    """ "Two stations, 4 plants each. Gate .. Hill ..": so many in every place told later."""
    if not (page.table.has_any("each_place", behind) or page.table.has_any("each_place_noun", behind)):
        return False
    ahead = [f for f in page.facts[fact.at :] if f.kind in ("spot", "check")]
    if page.scope is page.main and len(ahead) > 1:
        return True
    return len(page.spots) > 1 and not ahead and all(scope.plants is None for scope in page.spots)


def _at_those_listed(page: Page, fact: Fact) -> int | None:
    """ "Three places of 4 plants: hill .., middle .., bottom ..": so many in each of them, all being told behind."""
    if not page.context.may_say("place_count"):
        return None
    words = [x.text for x in scan(page.context.text[fact.start : fact.end])]
    figures = [spoken_numbers().get(word, word) for word in words]
    told = [int(figure) for figure in figures if figure.isdigit()]
    placed = any(page.table.has("place_count", word) for word in words)
    ahead = [f for f in page.facts[fact.at :] if f.kind in ("spot", "check")]
    return told[1] if placed and len(told) == 2 and len(ahead) == told[0] and page.scope is page.main else None


def _planned_beside(page: Page, fact: Fact) -> bool:
    """Is the next look told in its sentence?"""
    sentence = page.context.sentence(fact)
    here = (f for f in page.kinds.get("look_again", ()) if page.context.sentence(f) == sentence)
    return any(f.has("LOOK", "SPAN") and f.lead != "soft" for f in here)


def on_how(page: Page, fact: Fact) -> None:
    """Shovel, by hand, eased out; "a proper look with a spade in 5 days" is how the next one is meant."""
    if page.method is not None and fact.kind == "how" and _planned_beside(page, fact):
        return
    before = page.neighbour(fact, -1)
    if before is not None and before.kind == "not_looked" and fact.lead in ("", "link"):
        return  # "couldn't get to it to dig"
    if fact.kind == "how" and (intended(page, fact) or _for_next_look(page, fact)):
        page.keep(fact)
        return
    tool = fact.first("TOOL")
    without = tool == "pulled" and page.table.denies(fold(page.context.text[fact.start : fact.end]).split(" ")[0])
    told = any(f.kind in ("plants", "how") or f.kind in FEMALE_KINDS for f in page.facts if f is not fact)
    if without and not told:
        page.keep(fact)  # "crusted, no spade": and nothing was pulled either
        return
    if tool is not None:
        by_hand = tool == "pulled" and not without
        tool = "eased" if by_hand and _gently(page, fact) else cast(Method, tool)
        page.method = page.method if page.method == "eased" and tool == "pulled" else tool
        page.tooled = True
    else:
        beside = page.method == "shovel" and fact.lead in ("", "link")  # "descalcé a pala": the tool tells more
        if not (page.tooled and (fact.first("DUG") == "pulled" or beside)):
            _how(page, fact.first("DUG"))


def _how(page: Page, value: str) -> None:
    """How plants came up by the verb alone: the more particular way counts."""
    if value == "any":
        return
    method = cast(Method, value)
    if page.method is None or WEAKER[method] > WEAKER[page.method]:
        page.method = method


def _gently(page: Page, fact: Fact) -> bool:
    """ "By hand, nice and slow", "a mano y con paciencia": does the sentence say that they were worked loose?"""
    before = re.split(r"[.;!?\n]", lead_of(page.context.text, fact.start))[-1]
    behind = re.split(r"[.;!?\n]", page.context.text[fact.start : fact.end + WIDER])[0]
    return page.table.said("gently", f"{before}{behind}")


MOST_WAYS = 6
"""Ways of digging in one breath with the next look, at most (judgement)."""


def _for_next_look(page: Page, fact: Fact) -> bool:
    """ "Back Mon with shovel and bucket", "shovel next time": told in one breath with when to look again."""
    after = page.neighbour(fact, 1)
    if after is not None and len(after.words) == 1 and after.lead in ("", "link"):
        meant = fold(page.context.text[after.start : after.end])
        if after.kind in ("look_again", "text") and page.table.has("intends", meant):
            return True
    first, before = fact, page.neighbour(fact, -1)
    for _ in range(MOST_WAYS):
        if before is None or before.kind not in ("how", "soaked") or first.lead not in ("", "link"):
            break
        first, before = before, page.neighbour(before, -1)
    led = before is not None and first.lead == "link" and page.context.text[before.end : first.start].strip() != ""
    return led and before is not None and before.kind == "look_again" and before.has("LOOK")


def on_soaked(page: Page, fact: Fact) -> None:
    """Washed or soaked; "no bucket" wins over "bucket", "shook them off, then bucket" is soaked."""
    said = fact.first("SOAKED") == "yes"
    if said and (intended(page, fact) or _for_next_look(page, fact)):
        page.keep(fact)
        return
    shaken = not said and page.table.has("shaken", scan(page.context.text[fact.start : fact.end])[0].text)
    if shaken and (page.soaked is not None or not _only(page, fact)):
        return  # "sacudí la raíz", "shook em off": nothing is said of water; "only shook" says that there was none
    if said and page.shaken:
        page.soaked = None
    page.shaken = shaken
    page.soaked = said if page.soaked is None else page.soaked and said


def _only(page: Page, fact: Fact) -> bool:
    """ "Just shook em", "shook off only": is it said that nothing more was done?"""
    behind = scan(page.context.text[fact.start : fact.end + WIDER])
    words = [*page.said_before(fact)[-2:], *(x.text for x in behind)]
    return any(page.table.has("nothing_more", word) for word in words)
