"""When to look again."""

from __future__ import annotations

import re
from dataclasses import replace

from notes_bot.language.clauses.facts import Fact
from notes_bot.language.lexicon.days import DayWritten, coming_day
from notes_bot.language.lexicon.scan import scan
from notes_bot.language.noting.around import tied_to_text
from notes_bot.language.noting.page import Page, lead_of
from notes_bot.model import LookAgain

HOURS_A_DAY = 24
"""By definition."""


def on_look_again(page: Page, fact: Fact) -> None:
    """When to look again; a bare "10 d" at the end of a clause is taken for it, with a remark."""
    written, span = fact.first("DATE"), fact.first("SPAN")
    if not fact.has("LOOK"):
        spray = page.spray if page.spray is not None and page.spray.days_ago is None else None
        since = any(page.table.has("days_since", word) for word in page.said_before(fact)[-1:])
        if since and spray is not None and span is not None and span[0] == "days":
            page.spray = replace(spray, days_ago=span[1])  # "passaram glifosato dia 17/6, tem 9 dias"
            return
        after = page.neighbour(fact, 1)
        ends = after is None or after.lead in ("soft", "hard", "line") or _tells_all(page, after)
        if span is not None and span[0] == "hours" and any(f.kind == "spray" for f in page.facts):
            if page.entry_hours is None:  # hours are never a next look
                page.entry_hours = float(span[1])
                page.context.mention("bare_hours", fact.start, fact.end)
            return
        before = page.neighbour(fact, -1)
        tied = tied_to_text(page, fact) and not _coming_back(page, fact)
        tied = tied and not (before is not None and _tells_all(page, before))
        if span is None or span[0] != "days" or not ends or page.look is not None or tied:
            page.keep(fact)
            return
        page.context.mention("bare_span", fact.start, fact.end)
    span = _whole_days(page, fact, span)
    if written is not None and (written.days_ago or 0) > 0:
        page.date = page.date or page.context.past(fact, written)  # "paso el dato de ayer"
    elif written is not None:
        page.look = _on_day(page, fact, written) or page.look
    elif span is not None and span[0] == "days" and 0 < span[1] <= 400:
        page.look = LookAgain(days=span[1])
        if span[2]:
            page.context.mention("span_range", fact.start, fact.end, text=span[2], read=f"{span[1]} d")
    elif span is not None:
        page.complain("out_of_range", fact)
    elif page.look is None:
        page.keep(fact)


def _whole_days(page: Page, fact: Fact, span: tuple[str, int, str] | None) -> tuple[str, int, str] | None:
    """ "Return 240 hrs" as ten days; hours beside a spray are those until one may go in."""
    if span is None or span[0] != "hours" or span[1] % HOURS_A_DAY or any(f.kind == "spray" for f in page.facts):
        return span
    return ("days", span[1] // HOURS_A_DAY, page.context.text[fact.start : fact.end])


def _on_day(page: Page, fact: Fact, written: DayWritten) -> LookAgain | None:
    """A day counted from the visit; a weekday that would be over is the next one ("na segunda .. voltar na terça")."""
    sent = page.context.sent
    past = coming_day(written, page.visit_day, page.context.language, page.context.day_first).day
    over = written.weekday is not None and past is not None and past <= sent
    day = page.context.coming(fact, written, sent if over else page.visit_day)
    return LookAgain(date=day) if day is not None else None


def _tells_all(page: Page, fact: Fact) -> bool:
    """ "10 d on all", "all 10 d": words that only say that it is said of every field."""
    said = " ".join(x.text for x in scan(page.context.text[fact.start : fact.end]))
    return fact.kind == "text" and (page.table.has("for_all", said) or page.table.has("for_both", said))


def _coming_back(page: Page, fact: Fact) -> bool:
    """Do the words before a bare span speak of coming back ("will see it again in 2 weeks", "bk in 10 d")?"""
    sentence = re.split(r"[.;!?\n]", lead_of(page.context.text, fact.start))[-1]
    words = [x.text for x in scan(sentence)]
    if not words or set(words) & page.table.traits["weather_word"]:
        return False
    return words[-1] in page.table.traits["in_time"] or bool(set(words) & page.table.traits["coming_back"])
