"""Colors told without numbers, of females or of the plants."""

from __future__ import annotations

import re
from bisect import bisect_right

from notes_bot.language.clauses.counts import Scope
from notes_bot.language.clauses.facts import Fact
from notes_bot.language.lexicon.scan import scan
from notes_bot.language.noting.crop import on_tops
from notes_bot.language.noting.page import FEMALE_KINDS, Page
from notes_bot.model import Colour


def on_shades(page: Page, fact: Fact) -> None:
    """Mostly yellow; w+y; all white."""
    if fact is page.told_in or _undug_yellow(page, fact) or _pale_tops(page, fact) or _yellow_crop(page, fact):
        return
    colours: list[Colour] = fact.all("COLOUR")
    after = page.neighbour(fact, 1)
    if not colours and fact.first("MOSTLY") == "all" and after is not None and _shade_and_count(after):
        page.scope.shade(after.first("COLOUR"))
        return
    before = page.neighbour(fact, -1)
    if not colours and fact.first("MOSTLY") == "all" and before is not None and before.kind == "shades":
        only = len(before.all("COLOUR")) == 1 and before.first("MOSTLY") != "mostly"  # "mostly white both"
        page.scope.all_of = page.scope.all_of or only
        return
    listed = before is not None and before.kind == "colour_count" and len(before.numbers) > 1
    if listed and not colours and fact.first("MOSTLY") == "all" and before is not None and fact.lead in ("", "link"):
        page.scope.shade(before.first("COLOUR"))  # "3 5 0 2 blancas todas"
        return
    if not colours:
        page.keep(fact)
        return
    alone = all(
        f is fact or f.kind in _BESIDE_SHADES or (f.kind == "shades" and not f.has("COLOUR"))
        for f in page.in_sentence(fact)
    )
    both = len(set(colours)) == 1 and _of_every_place(page, fact)
    every = (both and fact.first("MOSTLY") != "mostly") or (
        fact.first("MOSTLY") == "all" and len(set(colours)) == 1
    )  # "mostly white both"
    together = all(_sentence_of(page, scope) == page.context.sentence(fact) for scope in page.spots)
    together = together and any(not scope.check for scope in page.spots)
    scopes = [page.main, *page.spots] if every and page.spots and (alone or together or both) else [page.scope]
    before_it = [x.text for x in scan(page.context.text[max(0, fact.start - 14) : fact.start])]
    if len(colours) == 1 and any(page.table.has("rest_word", word) for word in before_it[-2:]):
        page.scope.rest, page.scope.rest_at = colours[0], (fact.start, fact.end)
    but = page.neighbour(after, 1) if after is not None and after.kind == "text" else after
    if every and but is not None and _all_but(page, fact, but, colours[0]):
        page.scope.rest = colours[0]  # "all white apart from two yellow"
        return
    for scope in scopes:
        scope.all_of = scope.all_of or every
        for colour in colours:
            scope.shade(colour)


_BESIDE_SHADES = ("stage", "moisture", "texture", "text", "soaked", "how")
"""Beside these a sentence tells of the females' color alone."""


def _shade_and_count(fact: Fact) -> bool:
    """ "(All) brown, gave 30": a color, its number behind it; not "(only) 2 brown", "(only) brown: 9"."""
    told = fact.kind == "colour_count" and fact.lead in ("", "link") and len(fact.words) > 1
    return told and fact.words[0].type == "COLOUR" and fact.words[1].lead in ("link", "soft")


def _of_every_place(page: Page, fact: Fact) -> bool:
    """ "(amarillas todas en los dos)", "só brancas em tudo": said of all places?"""
    behind = re.split(r"[.;,!()\n]", page.context.text[fact.end : fact.end + 30])[0]
    words = [x.text for x in scan(behind)]
    spans = [" ".join(words[n : n + size]) for n in range(len(words)) for size in (1, 2, 3)]
    return bool(page.spots) and any(page.table.has(trait, said) for said in spans for trait in ("for_both", "in_all"))


def _sentence_of(page: Page, scope: Scope) -> int:
    return bisect_right(page.context.sentences, scope.start)


def _all_but(page: Page, fact: Fact, after: Fact, colour: Colour) -> bool:
    """Is the count behind it one of another color, left out of all?"""
    between = " ".join(x.text for x in scan(page.context.text[fact.end : after.start]))
    other = after.kind == "colour_count" and len(after.numbers) == 1 and after.first("COLOUR") != colour
    return other and page.table.has("all_but", between)


def _undug_yellow(page: Page, fact: Fact) -> bool:
    """ "Amarillo todo, suelo seco, no saqué plantas": where nobody dug, yellow is the color of the plants."""
    kinds = page.kinds.keys()
    if "not_looked" not in kinds or kinds & {"plants", *FEMALE_KINDS} - {"shades"}:
        return False
    colours = {colour for other in page.kinds["shades"] for colour in other.all("COLOUR")}
    before = page.neighbour(fact, -1)
    tied = before is not None and fact.lead in ("", "link")
    of_females = tied and any(page.means(x.text, "FEMALES") for x in scan(page.written(before or fact)))
    denied = tied and before is not None and before.kind == "not_looked"  # "no miré (hembras) amarillas"
    if colours != {"yellow"} or of_females or denied:
        return False
    for word in (word for word in fact.words if word.type == "COLOUR"):
        word.type = "LEAF"
        on_tops(page, fact)
    return True


def _pale_tops(page: Page, fact: Fact) -> bool:
    """ "Yellow, stunted patch by the tile. In: 3 plants ..": the color of plants, before anything was counted."""
    after = page.neighbour(fact, 1)
    if [(word.type, word.value) for word in fact.words] != [("COLOUR", "yellow")] or after is None:
        return False
    shaped = any(word.type == "TOP" and word.value not in ("healthy", "yellow") for word in after.words)
    if after.kind != "tops" or after.lead not in ("soft", "link") or not shaped:
        return False
    if any(f.numbers or f.kind in ("none", "too_many") for f in page.before_in_sentence(fact)):
        return False
    fact.words[0].type = "LEAF"
    on_tops(page, fact)
    return True


def _yellow_crop(page: Page, fact: Fact) -> bool:
    """ "Amarelo por todo motivo: folha nova amarela ..": before anything else, where its sentence tells of leaves."""
    if [(word.type, word.value) for word in fact.words] != [("COLOUR", "yellow")] or fact.at:
        return False
    rest = page.in_sentence(fact)[1:]
    leaves = any(word.type == "LEAF" for f in rest if f.kind == "tops" for word in f.words)
    if not leaves or any(f.kind in FEMALE_KINDS for f in rest):
        return False
    fact.words[0].type = "LEAF"
    on_tops(page, fact)
    return True


def shade_places(page: Page) -> None:
    """A color said of all before the places are told is the color of each list without one."""
    if page.main.all_of and len(page.main.mostly) == 1 and not (page.main.colours or page.main.lists):
        for scope in page.spots:  # "white only. Gate 5 plants 3 3 0 1 2. Terrace 5 plants .."
            bare = scope.lists and all(colour is None for _, colour in scope.lists)
            if bare and not scope.mostly and not scope.colours:
                scope.all_of = True
                scope.shade(page.main.mostly[0])
