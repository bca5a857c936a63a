"""What was sprayed, and when one may go in again."""

from __future__ import annotations

from notes_bot.language.clauses.facts import Fact
from notes_bot.language.lexicon.scan import scan
from notes_bot.language.noting.around import intended
from notes_bot.language.noting.page import CLAUSE, SAID_BEFORE, Page
from notes_bot.model import Spray


def on_spray(page: Page, fact: Fact) -> None:
    """What was sprayed and when."""
    if intended(page, fact) and not fact.has("DATE", "SPAN"):
        page.keep(fact)  # "was going to spray it, but the bees are out"
        return
    if _not_yet(page, fact):
        page.keep(fact)  # "todavía no se aplicó el glifosato"
        return
    if _spraying_ahead(page, fact):
        page.keep(fact)  # "the co-op is spraying it Wednesday"
        return
    what = " + ".join(dict.fromkeys(fact.all("CHEMICAL"))) or None
    written, span = fact.first("DATE"), fact.first("SPAN")
    day = page.context.past(fact, written) if written is not None else None
    days = span[1] if span is not None and span[0] == "days" else None
    if what is None and day is None and days is None:
        page.keep(fact)
        return
    old = page.spray or Spray()
    days = days if days is not None else old.days_ago
    page.spray = Spray(what or old.what, day or old.date, days, old.entry_hours)


def _spraying_ahead(page: Page, fact: Fact) -> bool:
    """Is it told as something to come, on a weekday?"""
    written = fact.first("DATE")
    said = " ".join([*page.said_before(fact)[-2:], *(x.text for x in scan(page.context.text[fact.start : fact.end]))])
    coming = any(f" {phrase} " in f" {said} " for phrase in page.table.traits["spray_coming"])
    return written is not None and written.weekday is not None and coming


def _not_yet(page: Page, fact: Fact) -> bool:
    """Is it denied with a word for "yet" beside it: "they havent put the glyphosate on yet"?"""
    behind = CLAUSE.split(page.context.text[fact.end : fact.end + SAID_BEFORE])[0]
    said = [*page.said_before(fact), *(x.text for x in scan(page.written(fact))), *(x.text for x in scan(behind))]
    return any(map(page.table.denies, said)) and page.table.has_any("up_to_now", said)


def on_entry(page: Page, fact: Fact) -> None:
    """Restricted-entry interval as stated."""
    span = fact.first("SPAN")
    if span is None:
        page.keep(fact)
    else:
        page.entry_hours = float(span[1] if span[0] == "hours" else span[1] * 24)
