"""What is the same as in the note above."""

from __future__ import annotations

import re
from dataclasses import replace

from notes_bot.language.clauses.facts import Fact
from notes_bot.language.lexicon.scan import fold, scan
from notes_bot.language.noting.page import FEMALE_KINDS, WIDER, Page
from notes_bot.model import Note, Soil

SAID_BEHIND = 18
"""Characters behind "same" in which it is said what is the same: "same stage and method" (judgement)."""
_ALIKE = {"stage": "stage_word", "soil": "soil_word", "method": "method_word", "seed": "seed_named"}
"""What may be the same as in the note above, and the manner of its words."""


def on_same(page: Page, fact: Fact) -> None:
    """Same as above, when there is an above."""
    after = page.neighbour(fact, 1)
    method = after is not None and after.kind in ("how", "soaked") and after.lead in ("", "link")
    if method and page.table.has("likewise", fold(page.context.text[fact.start : fact.end])):
        page.keep(fact)  # "five plants, likewise dug and washed"
        return
    above = page.context.notes[-1] if page.context.notes else None
    told = {x.text for x in scan(page.context.text[fact.start : fact.end])}
    if above is not None and told & page.table.traits.get("day_word", frozenset()):
        page.date = page.date or above.date
    elif above is not None and (things := _things_alike(page, fact)):
        page.context.mention("same", fact.start, fact.end, read=above.field or "")
        page.alike |= things
    elif above is not None and _same_other(page, fact):
        page.keep(fact)  # "same man, same planter", "3 white. Same dry loam"
    elif page.context.notes:
        page.same = fact
    else:
        page.keep(fact)


def _things_alike(page: Page, fact: Fact) -> set[str]:
    """ "Same soil", "same count", "soil and method as above": the things that are told to be the same."""
    traits, words = page.table.traits, _same_what(page, fact, WIDER)
    found = {thing for thing, trait in _ALIKE.items() if words & traits.get(trait, frozenset())}
    if page.table.has("same_counts", fold(page.context.text[fact.start : fact.end])):
        found.add("counts")
    said, end = fold(page.context.text[fact.start : fact.end]).split(), fact.end
    behind = [x.text for x in scan(re.split(r"[.;:,\n]", page.context.text[end : end + WIDER])[0])]
    noun = next((word for word in (*said[1:], *behind) if not page.table.has("how_many_of", word)), "")
    plants = any(e.type == "PLANTS" for e in page.table.singles.get(noun, ()))
    return found | {"plants"} if plants and page.table.has("same_bare", said[0]) else found


def _same_other(page: Page, fact: Fact) -> bool:
    """ "Same man, same planter", "same fork same bucket": no more is the same; or a soil beside counts."""
    after = page.neighbour(fact, 1)
    if not page.table.has("same_bare", fold(page.context.text[fact.start : fact.end])) or after is None:
        return False
    between = page.context.text[fact.end : after.start].strip()
    counted = any(other.kind in FEMALE_KINDS for other in page.own)
    words = [x.text for x in scan(page.context.text[after.start : after.end])]
    if after.kind == "text" and page.table.has("same_of_others", words[0] if words else ""):
        return not between
    bucket = after.kind == "soaked" and bool(words) and page.table.has("bucket_word", words[0])
    return not between and (after.kind == "how" or bucket or (counted and after.kind in ("moisture", "texture")))


def _same_what(page: Page, fact: Fact, wide: int = 9) -> set[str]:
    """The words right before and behind "same": the same what?"""
    start, end, text = fact.start, fact.end, page.context.text
    before = text[max(0, start - wide) : end]
    words = {x.text for x in scan(re.split(r"[.;:,\n]", before)[-1])}
    return words | {x.text for x in scan(re.split(r"[.;:,\n]", text[end : end + max(wide, SAID_BEHIND)])[0])}


def with_same(page: Page, note: Note) -> Note:
    """ "Same as above": what this note does not say is taken from the one before, counts only if none were seen."""
    if page.alike:
        note = _with_alike(page, note, page.context.notes[-1])
    if page.same is None:
        return note
    above = page.context.notes[-1]
    page.context.mention("same", page.same.start, page.same.end, read=above.field or "")
    silent = note.females.total is None and not note.mostly and note.outcome is None
    kinds = {"same", "field", "courtesy", "plants", "how", "soaked", "date", "stage", "moisture", "texture"}
    said = page.context.sentence(page.same)
    little = [
        f
        for f in page.own
        if f.kind == "text"
        and (len(page.context.text[f.start : f.end].split()) < 3 or page.context.sentence(f) != said)
    ]
    alone = all(fact.kind in kinds or fact in little for fact in page.own) and note.plants in (None, above.plants)
    nothing = silent and (above.outcome in ("none_seen", "not_looked") or (alone and not above.spots))
    soil = Soil(
        note.soil.moisture or above.soil.moisture,
        note.soil.texture or above.soil.texture,
        note.soil.ph,
        note.soil.k_ppm,
    )
    return replace(
        note,
        date=note.date or above.date,
        method=note.method or above.method,
        soaked=above.soaked if note.soaked is None else note.soaked,
        stage=note.stage or above.stage,
        soil=soil,
        plants=above.plants if note.plants is None else note.plants,
        females=above.females if nothing else note.females,
        per_plant=above.per_plant if nothing else note.per_plant,
        mostly=above.mostly if nothing else note.mostly,
        outcome=above.outcome if nothing else note.outcome,
        roots=note.roots or (above.roots if nothing else ()),
        tops=note.tops or (above.tops if nothing else ()),
        look_again=note.look_again or above.look_again,
    )


def _with_alike(page: Page, note: Note, above: Note) -> Note:
    """ "Same soil, same stage, 6 dug": each thing said to be the same, and nothing else, from the note above."""
    if "soil" in page.alike:
        soil = Soil(note.soil.moisture or above.soil.moisture, note.soil.texture or above.soil.texture)
        note = replace(note, soil=replace(note.soil, moisture=soil.moisture, texture=soil.texture))
    if "stage" in page.alike:
        note = replace(note, stage=note.stage or above.stage)
    if "method" in page.alike:
        soaked = above.soaked if note.soaked is None else note.soaked
        note = replace(note, method=note.method or above.method, soaked=soaked)
    if "seed" in page.alike:
        note = replace(note, variety=note.variety or above.variety)
    silent = note.females.total is None and not note.mostly and note.outcome is None
    counts = "counts" in page.alike and silent and not above.spots
    if counts or "plants" in page.alike:
        note = replace(note, plants=above.plants if note.plants is None else note.plants)
    if counts:
        told = {"females": above.females, "per_plant": above.per_plant, "mostly": above.mostly}
        note = replace(note, outcome=above.outcome, **told)  # type: ignore[arg-type]  # three types of three keys
    return note
