"""The day of the visit, other days told of, and the day of planting."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import timedelta

from notes_bot.language.clauses.facts import Fact
from notes_bot.language.lexicon.days import PLANTED_DAYS, DayWritten, coming_day, past_day
from notes_bot.language.lexicon.scan import scan
from notes_bot.language.lexicon.words import anywhere
from notes_bot.language.noting.around import amended, somebody_dug, tied_to_text
from notes_bot.language.noting.page import SAID_BEFORE, Page
from notes_bot.model import LookAgain, Spray

NEAR_SPRAY = 6
"""Clauses from a day to the spray it may be of (judgement)."""
LONGEST_CLAUSE = 200
"""Characters from a day to the ends of what is said around it (judgement)."""
_OF_SPRAYING = frozenset({"spray", "date", "field", "text", "entry"})
"""What a sentence holds that tells of a spray only."""


def find_day(page: Page) -> None:
    """The day of the visit first: planting and the next look are counted from it."""
    for fact in page.facts:
        if fact.kind not in ("date", "ago") or _of_weather(page, fact) or _of_next_look(page, fact):
            continue
        if _of_entry(page, fact) or _of_story(page, fact) or _since(page, fact) or _like_another(page, fact):
            continue
        if _of_cause(page, fact):
            continue
        if _of_spraying_ahead(page, fact) or _of_writing(page, fact):
            continue
        if _of_planting(page, fact) or _of_spray(page, fact):
            continue
        span = fact.first("SPAN")
        written = fact.first("DATE") if span is None else DayWritten("", days_ago=span[1])
        if span is not None and span[0] != "days":
            continue
        page.date_fact = fact
        if written is not None and _planned(page, fact, written):
            page.complain("which_visit", fact)
            return
        page.date = page.context.past(fact, written)
        return


def on_date(page: Page, fact: Fact) -> None:
    """A second day is text behind text, or when to look again, else a contradiction."""
    if fact is page.date_fact:
        return
    if _of_spraying_ahead(page, fact) or _of_writing(page, fact):
        page.keep(fact)
        return
    if _of_planting(page, fact):
        page.planted = page.context.past(fact, fact.first("DATE"))
        return
    if _of_spray(page, fact):
        page.spray = replace(page.spray or Spray(), date=page.context.past(fact, fact.first("DATE")))
        return
    aside = (_of_story, _since, _of_weather, _like_another, _of_cause)
    if any(way(page, fact) for way in aside):
        page.keep(fact)
        return
    if page.look is None and _of_next_look(page, fact):
        told = fact.first("DATE")
        since = page.context.sent if told.days_ago is not None else page.visit_day  # "ontem .., amanhã eu vou"
        day = page.context.coming(fact, told, since)
        page.look = LookAgain(date=day) if day is not None else None
        after = page.neighbour(fact, 1)
        if after is None or after.kind != "look_again":
            page.context.mention("bare_span", fact.start, fact.end)
        return
    day = past_day(fact.first("DATE"), page.context.sent, page.context.language, page.context.day_first).day
    if day is not None and day != page.date and page.date and amended(page, fact, page.context.day(page.date)):
        page.date, page.date_fact = day, fact
    elif day is None or page.date is None or tied_to_text(page, fact) or _of_entry(page, fact):
        page.keep(fact)
    elif day != page.date:
        page.twice("date", fact, page.context.day(page.date), page.context.day(day))


def on_ago(page: Page, fact: Fact) -> None:
    """ "3 days ago"."""
    span = fact.first("SPAN")
    if fact is not page.date_fact and span is not None and span[0] == "days" and _of_spray(page, fact):
        page.spray = replace(page.spray or Spray(), days_ago=span[1])  # "hace 9 días le dieron glifosato"
    elif fact is not page.date_fact:
        page.keep(fact)


def on_planted(page: Page, fact: Fact) -> None:
    """The planting day."""
    written, span = fact.first("DATE"), fact.first("SPAN")
    if written is not None:
        page.planted = page.context.past(fact, written, PLANTED_DAYS)
    elif span is not None and span[0] == "days":
        page.planted = page.context.past(fact, DayWritten("", days_ago=span[1]))
    elif page.planted is None:
        page.keep(fact)


def on_after_planting(page: Page, fact: Fact) -> None:
    """ "36 DAP" gives the planting day."""
    days = fact.first("SPAN_AFTER_PLANTING")
    if not isinstance(days, int) or days > 300:
        page.complain("out_of_range", fact)
    elif page.planted is None:
        page.planted = page.visit_day - timedelta(days=days)


def _of_planting(page: Page, fact: Fact) -> bool:
    """ "5/6 planting": a day right before the word, and nothing behind it."""
    before = page.neighbour(fact, -1)
    if before is not None and before.kind == "text" and len(before.words[0].text.split()) < 4:
        before = page.neighbour(before, -1)
    if before is not None and before.kind == "planted" and len(before.words) == 1 and fact.lead in ("", "link"):
        return True  # "planted north forty on the 11th of may"
    after, beyond = page.neighbour(fact, 1), page.neighbour(fact, 2)
    if after is None or after.kind != "planted" or len(after.words) > 1 or after.lead not in ("", "link"):
        return False
    return beyond is None or beyond.lead not in ("", "link")


def _of_spray(page: Page, fact: Fact) -> bool:
    """ "Fungicide went on larkspur this morning": a day behind the spray and the field's name is the spray's."""
    before, after = page.neighbour(fact, -1), page.neighbour(fact, 1)
    if _clause_of_spraying(page, fact):
        return True
    joined = after is not None and after.kind == "spray" and after.lead in ("", "link")
    if joined and after is not None and not after.has("DATE", "SPAN"):
        if _spray_told(page, after):
            return True  # "ontem aplicaram fungicida"
        if "'s" in page.context.text[fact.start : fact.end + 2].lower():
            return True  # "12 h REI from Monday's fungicide"
        said = page.said_before(fact)
        if any(page.table.has("spray_verb", " ".join(said[-size:])) for size in (1, 2)):
            return True  # "el sprayer pasó ayer con fungicida"
    if before is not None and before.kind == "text":
        before = page.neighbour(before, -1)
    if before is None or before.kind != "spray" or before.has("DATE", "SPAN"):
        return False
    between = page.context.text[before.end : fact.start]
    said = [x.text for x in scan(between) if x.kind == "word"]
    that = any(page.table.has("that_was", " ".join(said[:size])) for size in (len(said), len(said) - 1) if size > 0)
    if fact.lead in ("soft", "link") and that:
        return True  # "sprayed glyphosate, that was 9 days ago"
    if _points_back(page, fact):
        return True  # "they put on herbicide. Monday that was."
    bracket = between.lstrip().startswith(")")  # "herbicida (cletodim) el 6/7"
    ended = not re.search(r"[.;!?\n]", between) and _ends_sentence(page, fact)
    told = {f.kind for f in page.in_sentence(fact)}
    if fact.lead in ("soft", "link") and ended and between.strip().startswith(",") and told <= _OF_SPRAYING:
        return True  # "it was Silo Hill that got the insecticide, on Wednesday."
    if fact.lead == "line" or (fact.lead == "soft" and not bracket):
        return False
    return not re.search(r"[.;!,\n]", between)


def _clause_of_spraying(page: Page, fact: Fact) -> bool:
    """ "El viernes le metimos 2,4-D", "the sheet says sprayed insecticide, july 11": a day where only a spray is told.

    The day stands in the clause of the spray, or alone in the next one; nobody goes or looks in it, and it names no
    field: "went in Friday, had been sprayed" is the visit's.
    """
    text = page.context.text
    near = page.facts[max(0, fact.at - NEAR_SPRAY) : fact.at + NEAR_SPRAY + 1]
    if not any(f.kind == "spray" for f in near):
        return False
    begin, end = _clause_around(text, fact.start, fact.end)
    told = [f for f in near if f.start < end and f.end > begin]
    sprays = [f for f in told if f.kind == "spray" and not f.has("DATE", "SPAN")]
    if not sprays:
        before = page.neighbour(fact, -1)
        alone = not text[begin : fact.start].strip(" (") and text[fact.end : end].strip(" )") == ""
        if not alone or before is None or before.kind != "spray" or before.has("DATE", "SPAN"):
            return False
        if re.search(r"[.;!?\n]", text[before.end : begin]) or _parted(page, before, fact):
            return False
        begin, _ = _clause_around(text, before.start, before.end)
        told = [f for f in near if f.start < end and f.end > begin]
    if any(f.kind not in _OF_SPRAYING or f.kind == "field" for f in told):
        return False
    if page.name is not None and begin <= page.name.start < end:
        return False
    drifts = page.table.has_any("drift_word", [x.text for x in scan(text[begin:end])])
    return not drifts and not _goes(page, text[begin:end])


def _clause_around(text: str, first: int, last: int) -> tuple[int, int]:
    """Where the clause of a stretch of text begins and ends."""
    farthest = max(0, first - LONGEST_CLAUSE)
    begin = max((text.rfind(sign, farthest, first) for sign in ",.;:!?\n"), default=-1) + 1
    ends = range(last, min(len(text), last + LONGEST_CLAUSE))
    return max(begin, farthest), next((n for n in ends if text[n] in ",.;:!?\n"), ends.stop)


def _parted(page: Page, before: Fact, fact: Fact) -> bool:
    """Does the clause behind the day tell of more than the hours of entry: "sprayed, Friday, 6 plants"?"""
    after = page.neighbour(fact, 1)
    return (
        after is not None
        and after.kind not in _OF_SPRAYING
        and page.context.sentence(before) == (page.context.sentence(after))
    )


def _goes(page: Page, clause: str) -> bool:
    """Does somebody go or look in it, or is it before or after something else: "looked Monday after they sprayed"?"""
    words = [x.text for x in scan(clause)]
    if page.table.has_any("time_lead", words):
        return True
    opens = [n for n, word in enumerate(words) if n == 0 or page.table.has("we_word", words[n - 1])]
    english = page.context.language == "en"
    deeds = ("visit_verb", "gone")
    return any(
        page.table.has(manner, word) and not page.table.has("spray_verb", word)
        for n, word in enumerate(words)
        if not english or n in opens
        for manner in deeds
    )


def _points_back(page: Page, fact: Fact) -> bool:
    """Is its sentence nothing but a day and "that was", before it or behind?"""
    text = page.context.text
    begin = max((text.rfind(sign, 0, fact.start) for sign in ".;!\n"), default=-1) + 1
    end = next((n for n in range(fact.end, len(text)) if text[n] in ".;!\n"), len(text))
    ahead, behind = ([x.text for x in scan(part)] for part in (text[begin : fact.start], text[fact.end : end]))
    if ahead and (page.table.has("article", ahead[-1]) or page.table.has("at", ahead[-1])):
        ahead = ahead[:-1]  # "eso fue el lunes"
    pairs = ((ahead, behind), (behind, ahead))
    return any(page.table.has("that_was", " ".join(said)) and not other for said, other in pairs)


def _spray_told(page: Page, fact: Fact) -> bool:
    """Does a verb begin the clause of the spray, so that a day before it is the day of spraying?"""
    return page.table.has("spray_verb", " ".join(x.text for x in scan(fact.words[0].text)))


def _ends_sentence(page: Page, fact: Fact) -> bool:
    """Does a full stop or the end of the text follow?"""
    return page.context.text[fact.end :].lstrip(" ")[:1] in ("", ".", ";", "!", "\n")


def _of_spraying_ahead(page: Page, fact: Fact) -> bool:
    """ "They are going to spray Depot Friday": the day of what is to come, behind the field's name too."""
    written = fact.first("DATE")
    if written is None or written.weekday is None:
        return False
    said = f" {' '.join(page.said_before(fact))} "
    return any(f" {phrase} " in said for phrase in page.table.traits["spray_coming"])


def _of_writing(page: Page, fact: Fact) -> bool:
    """ "Saturday and I finally get to paperwork. Kestrel: went back yesterday": the weekday on which it is written."""
    told = fact.first("DATE")
    if (
        told is None
        or told.weekday != page.context.sent.weekday()
        or told.next
        or told.gone
        or told.later
        or told.weeks
    ):
        return False
    if page.name is None or fact.start > page.name.start:
        return False
    return any(_of_another_day(page, other, told) for other in page.facts if other.start > fact.start)


def _of_another_day(page: Page, fact: Fact, first: DayWritten) -> bool:
    """Is it another day of a visit than the first one told?"""
    day = fact.first("DATE") if fact.kind == "date" else None
    if day is None or not ((day.days_ago or 0) > 0 or day.weekday not in (None, first.weekday)):
        return False
    return not any(of(page, fact) for of in (_of_weather, _of_spray, _of_planting, _of_story, _of_next_look, _since))


def _of_next_look(page: Page, fact: Fact) -> bool:
    """A day before a bare "recheck", or a coming day behind what was found: when to look again."""
    after = page.neighbour(fact, 1)
    written = fact.first("DATE")
    if after is not None and after.kind == "look_again" and len(after.words) == 1 and after.lead in ("", "link"):
        gone = (written is not None and (written.days_ago or 0) > 0) or somebody_dug(page, after)
        return not gone  # "hoy pasó el encargado: 6 plantas", and not "hoy paso"
    if written is not None and written.days_ago is not None and written.days_ago < 0:
        return not any(page.table.has("other_deed", word) for word in page.said_before(fact))
    before = page.neighbour(fact, -1)
    later = written is not None and written.days_ago is None
    if later and before is not None and before.kind == "not_looked" and fact.lead in ("", "link"):
        said = {x.text for x in scan(page.context.text[before.start : fact.start])}
        if said & page.table.traits["until"]:
            return True  # "deixei para olhar no sábado"
    if later and not told_before(page, fact) and page.told_before(fact, "not_looked"):
        ahead = page.said_before(fact)
        if any(page.table.has("goes_then", " ".join(ahead[-size:])) for size in (1, 2, 3)):
            return True  # "haven't looked yet, going friday"
    told = told_before(page, fact) or (later and written.next and page.told_before(fact, "not_looked"))
    if written is None or not told or (fact.lead in ("", "link") and tied_to_text(page, fact)):
        return False
    order = (page.context.sent, page.context.language, page.context.day_first)
    if past_day(written, *order).wrong != "future_date":
        return False
    coming = coming_day(written, *order)
    return coming.day is not None and not coming.other and (coming.day - page.context.sent).days <= 60


def told_before(page: Page, fact: Fact) -> bool:
    """Is told before a day what was dug or found?"""
    kinds = ("plants", "colour_count", "total_count", "per_plant", "none")
    return page.told_before(fact, *kinds)


def _of_weather(page: Page, fact: Fact) -> bool:
    """A day right behind words about rain or field work is the day of that, not of the visit."""
    after = page.behind(fact)
    told = fact.first("DATE")
    coming = told is not None and told.days_ago is not None and told.days_ago < 0  # "mañana llueve dicen"
    starts = fact.lead in ("hard", "line") or coming
    if after is not None and after.kind == "text" and after.lead in ("", "link"):
        behind = {x.text for x in scan(page.context.text[fact.end : after.end])}
        named = page.name is not None and fact.end <= page.name.start <= after.start
        if starts and behind & page.table.traits.get("other_crop", frozenset()) and not named:
            return True  # "el 12 de julio sembramos maíz al lado"
        opening = [x.text for x in scan(page.context.text[after.start : after.end])][:1]
        looked = "not_looked" not in page.kinds  # "ontem choveu e não deu pra entrar"
        if (starts or looked) and any(page.table.has("it_rained", word) for word in opening) and not named:
            return True  # "ontem choveu demais e .."
    if not tied_to_text(page, fact):
        return False
    before = page.facts[fact.at - 1]
    words = {x.text for x in scan(page.context.text[before.start : before.end])}
    return bool(words & page.table.traits["weather_word"])


def _of_cause(page: Page, fact: Fact) -> bool:
    """ "Went back because of the bad pulls on the 2nd": a day of what was the cause, in its clause.

    Not where somebody goes behind the cause: "because of the rain I went on Tuesday".
    """
    said = re.split(r"[.,;!?\n]", page.context.text[max(0, fact.start - SAID_BEFORE) : fact.start])[-1]
    if not page.table.said("because_of", said):
        return False
    words = [x.text for x in scan(said)]
    cause = max(n for n in range(len(words)) if page.table.said("because_of", " ".join(words[n:])))
    goes = ("who_goes", "we_word", "gone", "visit_verb", "stops_at")
    begins = page.context.text.find(words[cause], fact.start - len(said))
    behind = page.name is not None and begins < page.name.start < fact.start
    return not behind and not any(page.table.has(manner, word) for word in words[cause:] for manner in goes)


def _of_story(page: Page, fact: Fact) -> bool:
    """ "Mañana cumple años el encargado": a coming day that begins a sentence of other things."""
    told, after = fact.first("DATE"), page.behind(fact)
    coming = told is not None and told.days_ago is not None and told.days_ago < 0
    if told is None or fact.lead not in ("hard", "line"):
        return False
    behind = scan(page.context.text[fact.end : fact.end + SAID_BEFORE])
    first = behind[0].text if behind and behind[0].kind == "word" else ""
    if told.weekday is not None and page.table.has("comes", first):
        return True  # "el jueves viene el ingeniero"
    if after is None or after.kind != "text":
        return False
    if not coming:
        return False
    if after.lead not in ("", "link"):
        return False
    words = {x.text for x in scan(page.context.text[fact.end : after.end])}
    back = page.table.traits["coming_back"] | page.table.traits.get("planned", frozenset())
    look = any(e.type == "LOOK" for word in words for e in page.table.singles.get(word, ()))
    return not words & back and not look


def _of_entry(page: Page, fact: Fact) -> bool:
    """ "No se entra hasta el miércoles" behind a spray: the day it may be entered again."""
    told = page.told_before(fact, "spray")
    if told and page.table.said("waited", " ".join(page.said_before(fact))):
        return False  # "sprayed Friday, so I waited until Sunday"
    return told and not anywhere("until_entry").isdisjoint(page.said_before(fact)[-3:])


def _since(page: Page, fact: Fact) -> bool:
    """ "Sigue inundado desde el domingo", "same story as yesterday": a day of something else than the visit."""
    if not page.context.may_say("since", "like_day", "lasts"):
        return False
    said = page.said_before(fact)
    if any(page.table.has("until_entry", word) for word in said[-2:]) and page.table.has_any("lasts", said):
        return True  # "the bridge is closed until the 15th"
    plain = [word for word in said[-2:] if not page.table.has("name_article", word)]
    told = any(page.table.has("reports_that", word) for word in said)  # "aviso que el lunes saqué .."
    told = told or any(page.table.has("hence_that", " ".join(said[-size:])) for size in (2, 3))  # "así que hoy entré"
    like = bool(plain) and page.table.has("like_day", plain[-1]) and not told
    return like or any(page.table.has("since", word) for word in said[-2:])


def _like_another(page: Page, fact: Fact) -> bool:
    """ "Lote 8 igual que el 15": a number that is no day, but another field."""
    before, day = page.neighbour(fact, -1), fact.first("DATE")
    bare = day is not None and day.day is not None and day.month is None
    return bare and before is not None and before.kind == "same" and fact.lead in ("", "link")


def _planned(page: Page, fact: Fact, written: DayWritten) -> bool:
    """ "Dont think ill get in before friday": words of a plan before a day say that it may be a coming one."""
    if written.days_ago is not None:
        return False
    if any(f.kind == "date" and (f.first("DATE").days_ago or 0) < 0 for f in page.before_in_sentence(fact)):
        return True  # "going to old mill tomorrow, north forty friday"
    if not page.context.may_say("planned"):
        return False
    said = page.said_before(fact)
    if page.table.said("waited", " ".join(said)):
        return False  # "I waited until Tuesday"
    meant = [n for n, word in enumerate(said) if page.table.has("planned", word)]
    return any(not page.table.has("under_way", " ".join(said[n + 1 : n + 2])) for n in meant)
