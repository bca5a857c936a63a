"""The variety: its name, resistance and source."""

from __future__ import annotations

import re

from notes_bot.language.clauses.facts import Fact
from notes_bot.language.noting.page import SAID_BEFORE, Page, lead_of
from notes_bot.model import Resistance, Variety


def on_variety(page: Page, fact: Fact) -> None:
    """Variety, resistance and where it comes from."""
    after = page.neighbour(fact, 1)
    counts = after is not None and after.kind == "plants" and after.lead in ("", "link", "colon", "soft")
    if (
        page.scope.check
        and page.scope.said
        and fact.lead in ("line", "hard")
        and not fact.has("RESISTANCE", "SOURCE")
        and counts
    ):
        page.scope = page.main  # "Check strip (5 pl): 61 48 ..", and below it "Variety (8 pl): 2 0 .."
    if _of_another_season(page, fact):
        page.keep(fact)  # "the farmer is planting Peking next year"
        return
    names = " ".join(fact.all("NAME")) or None
    resistance: Resistance | None = fact.first("RESISTANCE")
    source: str | None = fact.first("SOURCE")
    if names is None and resistance is None and source is None:
        page.keep(fact)
        return
    after = page.neighbour(fact, 1)
    counts = after is not None and after.kind == "plants" and after.lead in ("", "link", "colon")
    told = page.scope.said or page.scope.plants is not None
    if page.scope.check and resistance == "resistant" and (told or counts or fact.lead != ""):
        page.scope = page.main  # "S check 45 30 52, R var 2 0 1", "testigo 5 plantas 64; resistente 5 plantas 3"
    old = page.variety or Variety()
    if source is not None and resistance is None and old.resistance is None:
        resistance = "resistant"
    page.variety = Variety(names or old.name, resistance or old.resistance, source or old.source)


def _of_another_season(page: Page, fact: Fact) -> bool:
    """Does its sentence speak of next year, or of the one before?"""
    text = page.context.text
    behind = re.split(r"[.;!?\n]", text[fact.end : fact.end + SAID_BEFORE])[0]
    before = re.split(r"[.;!?\n]", lead_of(text, fact.start))[-1].split(",")[-1]
    return page.table.said("other_season", before + text[fact.start : fact.end] + behind.split(",")[0])
