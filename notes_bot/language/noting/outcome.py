"""Females seen, none seen, not looked; how many of the plants had any; too many to count."""

from __future__ import annotations

import re
from itertools import takewhile
from typing import cast

from notes_bot.language.clauses.counts import Scope
from notes_bot.language.clauses.facts import Fact
from notes_bot.language.lexicon.scan import fold, scan
from notes_bot.language.noting.around import intended
from notes_bot.language.noting.lists import recorded
from notes_bot.language.noting.page import CLAUSE, SAID_BEFORE, Page, lead_of
from notes_bot.model import Colour, Females, Moisture, Note, Outcome

WITH_NEAR = 5
"""Words in which "6 plants with" is told (judgement)."""


def outcome_of(page: Page, own: list[Scope], females: Females, mostly: tuple[Colour, ...]) -> Outcome | None:
    """Seen, none seen, not looked, or nothing told; what contradicts it is asked about or kept."""
    shaded = bool(mostly) and females.total != 0
    some = any(scope.positive or any(scope.colours.values()) or scope.too_many for scope in own)
    seen = bool(females.total) or shaded or some or (page.saw is not None and females.total is None)
    if page.not_looked is not None:
        silent = females.total is None or (not seen and all(scope.plants is None for scope in own))
        if not seen and silent:
            return "not_looked"  # "no luck, couldnt dig": nothing seen, as nobody looked
        told = {x.text for x in scan(page.context.text[page.not_looked.start : page.not_looked.end])}
        denied = any(page.table.denies(word) for word in told)
        undug = any(page.table.has("dig_word", word) for word in told)
        unpulled = page.method in ("shovel", "eased") and any(page.table.has("pull_word", word) for word in told)
        if (undug and page.method in ("pulled", "eased")) or unpulled:
            page.keep(page.not_looked)  # "too wet to dig, just pulled 4", "a pala, nada de arrancar"
        elif denied or not page.table.said("only_reason", page.written(page.not_looked)):
            page.complain("not_looked_but_seen", page.not_looked)
        else:
            page.keep(page.not_looked)  # "it got dark": a reason alone denies nothing that was found
    if seen:
        return "seen"
    kept_out = any(
        f.kind == "moisture" and page.table.has("kept_out", fold(page.context.text[f.start : f.end]))
        for f in page.facts
    )
    if females.total is None and (page.undug is not None or kept_out) and page.main.plants is None and not page.spots:
        return "not_looked"
    silent = females.total is None and page.main.plants is None and not page.spots
    if silent and left_undone(page):
        return "not_looked"
    if females.total is None and page.main.plants is not None and uncounted(page):
        return "not_looked"
    return "none_seen" if females.total == 0 else None


def dug_all_the_same(page: Page, note: Note) -> bool:
    """ "Pulled 3 by hand, not looked", "cavé 7 plantas pero no miré": plants came up, and only the looking is denied.

    "No tuve pala, la próxima 12 plantas", "couldn't dig": nothing did.
    """
    if note.plants is None:
        return False
    denial = page.not_looked
    told = [fact for fact in (denial, page.undug) if fact is not None]
    words = [x.text for fact in told for x in scan(page.written(fact))]
    if any(page.table.stemmed("dig_stem", word) for word in words):
        return False
    plants = [f for f in page.facts if f.kind == "plants"]
    if not all(_came_up(page, f) for f in plants):
        return False
    ways = [f for f in page.facts if f.kind in ("plants", "how") and f.has("DUG", "TOOL") and not _lacking(page, f)]
    if denial is None and page.undug is None:
        return True
    if ways and any(page.table.stemmed("look_only", word) for word in words):
        return True
    return any(f.end <= told[0].start for f in ways)  # "dug 6, ran out of time"


def _came_up(page: Page, fact: Fact) -> bool:
    """Not "next time 12 plants", "wanted to dig 6", "volver el martes y sacar 10", "didn't look at 6 plants"."""
    before = page.neighbour(fact, -1)
    if before is not None and before is page.not_looked and fact.lead in ("", "link") and not fact.has("DUG"):
        return False
    led = any(f.kind == "look_again" and f.has("LOOK") for f in page.before_in_sentence(fact))
    return not (led or intended(page, fact))


def _lacking(page: Page, fact: Fact) -> bool:
    """ "No spade", "sin pala": what was not there."""
    return page.table.denies(fold(page.written(fact)).split(" ")[0])


def uncounted(page: Page) -> bool:
    """ "4 plants pulled, not counted", "sacó 5 y no miró": plants dug, of which nobody looked for females.

    Not "didn't count the nodules", "no miró el desagüe"; nor "6 plants, not counted", where no digging is told.
    """
    if not page.context.may_say("uncounted_verb", "unlooked_verb", "before_looking"):
        return False
    dug = any(f.has("DUG", "TOOL") for f in page.facts if f.kind in ("plants", "how"))
    dug = dug and not _females_spoken_of(page)
    for start, end in page.unquoted():
        if dug and page.table.said("before_looking", page.context.text[start:end]):
            return True  # "pulled 5, got called away before counting any"
        if _denies_looking(page, start, counting=dug):
            return True
    return False


NEAR_DENIAL = 4
"""Words between a denial and the females that it is about, "no se contaron las hembras" (judgement)."""


def _females_spoken_of(page: Page) -> bool:
    """ "Tava assim de cisto, não contei": more than what was not counted, and perhaps seen."""
    for fact in page.facts:
        if fact.kind != "text" or not fact.has("FEMALES"):
            continue
        before = [x.text for x in scan(CLAUSE.split(lead_of(page.context.text, fact.start))[-1])][-NEAR_DENIAL:]
        ahead = CLAUSE.split(page.context.text[fact.end : fact.end + SAID_BEFORE])[0]
        behind = [x.text for x in scan(ahead)][:2]
        if not any(page.table.denies(word) for word in before + behind):
            return True
    return False


_NO_FEMALES = frozenset({"COLOUR", "TOO_MANY", "NODULES", "TOPS", "PLANTS", "ROOTS", "SPOT"})
"""What else may be counted, or not."""
_LOOKED_AT = frozenset({"FEMALES", "ROOTS", "PLANTS", "LINK", "ABOUT", "TODAY"})
"""What nobody looked at who did not look for females, and little words."""


def _denies_looking(page: Page, start: int, *, counting: bool) -> bool:
    """Is looking denied in the clause that begins there, or counting where that is enough?"""
    clause = CLAUSE.split(page.context.text[start : start + LONGEST_CLAUSE])[0]
    words = [x.text for x in scan(clause) if x.kind == "word"]
    verb = next((n + 1 for n, word in enumerate(words) if page.table.denies(word)), len(words))
    while verb < len(words) and page.table.has("undone_filler", words[verb]):
        verb += 1
    behind = list(takewhile(lambda word: not page.table.has("behind_undug", word), words[verb + 1 :]))
    kinds = [{e.type for e in page.table.singles.get(word, ())} for word in behind]
    if page.table.has("uncounted_verb", "".join(words[verb : verb + 1])):
        if page.table.said("cannot_count", " ".join(words[:verb])):
            return False  # "nem deu pra contar": for want of light, or so many?
        return counting and _NO_FEMALES.isdisjoint(set().union(*kinds))
    looked = page.table.has("unlooked_verb", "".join(words[verb : verb + 1]))
    return looked and all(kinds[n] & _LOOKED_AT or _little(page, word) for n, word in enumerate(behind))


def _little(page: Page, word: str) -> bool:
    """An article or the like before what was looked at."""
    return any(page.table.has(manner, word) for manner in ("undone_filler", "article", "them"))


def left_undone(page: Page) -> bool:
    """Does the note tell, without a word for looking, that nobody got to it?"""
    return _undone(page) or _turned_back(page)


def _turned_back(page: Page) -> bool:
    """ "Spray sign on the gate so i left", "no entry, went home": kept out by something, and gone again."""
    if page.method is not None or page.name is None:
        return False
    facts = [*page.facts, page.name]
    begin, last = min(f.start for f in facts), max(f.end for f in facts)
    text = page.context.text[begin:] if len(page.context.notes) == 0 else page.context.text[begin:last]
    return page.table.said("keeps_out", text) and page.table.said("gone_again", text)


LONGEST_CLAUSE = 400
"""Characters of a clause in which it may be told that nobody looked (judgement)."""


def _undone(page: Page) -> bool:
    """ "No se examinaron raíces", "não foi possível vistoriar": denied, little words, a verb of looking or digging.

    Only where nothing of what may be found is named behind it: "no miré hembras amarillas" denies another thing.
    """
    while page.undone is None and page.weighed < len(page.loose):
        start, _ = page.loose[page.weighed]
        page.weighed += 1
        if start not in page.quoted:
            page.undone = _tells_undone(page, start)
    return bool(page.undone)


def _tells_undone(page: Page, start: int) -> bool | None:
    """Does the clause that begins there tell that nobody looked? ``None`` where it speaks of no looking."""
    clause = CLAUSE.split(page.context.text[start : start + LONGEST_CLAUSE], maxsplit=1)[0]
    words = [x.text for x in scan(clause) if x.kind == "word"]
    denied = [n for n, word in enumerate(words) if page.table.denies(word)]
    verb = denied[0] + 1 if denied else len(words)
    while verb < len(words) and page.table.has("undone_filler", words[verb]):
        verb += 1
    if denied and verb == len(words):  # "it seemed too early to bother digging, so I did not"
        said = page.context.text[max(0, start - LONGEST_CLAUSE) : start]
        before = [x.text for x in scan(re.split(r"[.;!?\n]", said)[-1])]
        return any(page.table.stemmed("look_stem", word) for word in before)
    if verb < len(words) and page.table.stemmed("look_stem", words[verb]):
        named = {e.type for word in words[verb + 1 :] for e in page.table.singles.get(word, ())}
        return not named & {"FEMALES", "COLOUR", "TOO_MANY", "NODULES", "TOPS"}
    return None


def on_none(page: Page, fact: Fact) -> None:
    """None seen; "no cavé nada" tells of digging, not of females."""
    before = page.neighbour(fact, -1)
    if before is not None and before.kind == "text":
        before = page.neighbour(before, -1)
    undug = before is not None and (before is page.not_looked or before is page.undug)
    if undug and before is not None and not re.search(r"[.,;:!?\n]", page.context.text[before.end : fact.start]):
        return
    if _none_free(page, fact):
        page.saw = fact
        page.keep(fact)
        return
    if recorded(page, fact, None, 0):
        return
    words = [x.text for x in scan(page.written(fact)) if len(x.text) > 2]
    denied = [e.value for word in words for e in page.table.singles.get(word, ()) if e.type == "COLOUR"]
    denied = [] if any(page.means(word, "FEMALES") for word in words) else denied
    if denied and page.scope.plants is not None:
        page.scope.zeros.extend(cast(list[Colour], denied))  # "all brown, 9 of them, and no white at all"
        return
    page.scope.none = True
    page.scope.counts.append(fact)


def _none_free(page: Page, fact: Fact) -> bool:
    """ "Not one of the 6 plants was free of cysts", "no se salvó ninguna": none without, and so all with."""
    before = CLAUSE.split(lead_of(page.context.text, fact.start))[-1]
    behind = CLAUSE.split(page.context.text[fact.end : fact.end + SAID_BEFORE])[0]
    said = [x.text for x in scan(before + " " + behind)]
    own = [x.text for x in scan(page.written(fact))]
    if any(page.table.has("free_word", word) for word in own):
        return any(page.means(x.text, "NONE") or page.table.denies(x.text) for x in scan(before))
    return any(page.table.has("free_word", word) for word in said)


def on_refused(page: Page, fact: Fact) -> None:
    """No females, no tan; other denials are kept in words, denied numbers asked about."""
    if fact.has("NUMBER"):
        page.complain("which_number", fact)
    elif fact.has("FEMALES"):
        on_none(page, fact)
    elif fact.has("COLOUR"):
        page.scope.zeros.extend(fact.all("COLOUR"))
    else:
        page.undug = fact if fact.has("DUG") else page.undug
        page.keep(fact)


def on_not_looked(page: Page, fact: Fact) -> None:
    """Not looked; "too muddy to dig", "drowned out" also tell the soil, "no digging today" the day."""
    page.not_looked = fact
    told = [e for x in scan(page.context.text[fact.start : fact.end]) for e in page.table.singles.get(x.text, ())]
    today = any(entry.type == "TODAY" and entry.value == "0" for entry in told)
    page.date = page.context.sent if today and page.date is None else page.date
    for word in scan(page.context.text[fact.start : fact.end]):
        told = [e for e in page.table.singles.get(word.text, ()) if e.type == "MOISTURE" and len(word.text) > 2]
        if told or page.table.has("means_wet", word.text):
            page.moistures.append(("", cast(Moisture, told[0].value if told else "wet")))


def on_positive(page: Page, fact: Fact) -> None:
    """3 of 6 had some: kept in words; more than were dug cannot be."""
    count = page.whole(fact, fact.first("POSITIVE"))
    if count is not None:
        page.scope.positive = count
        page.scope.counts.append(fact)
        led = [x.text for x in scan(lead_of(page.context.text, fact.start))][-2:]
        told = "plants" in page.kinds
        if not told and any(page.table.has("all_of", word) for word in led) and page.scope.plants is None:
            page.scope.plants = count  # "all 6 plants had em", "las 6 plantas tenían quistes"
        elif not told and page.scope.plants is None and _dug_with(page, fact):
            page.scope.plants = count
    page.keep(fact)


def _dug_with(page: Page, fact: Fact) -> bool:
    """ "Kestrel 6 plants with some yellow", "6 pés positivo": those dug, where no others are told."""
    text = page.context.text
    behind = re.split(r"[;!?\n]|\. ", text[fact.end : fact.end + SAID_BEFORE])[0]
    said = scan(page.written(fact) + behind)
    near = takewhile(lambda x: x.text != ",", said[:WITH_NEAR])
    some = any(page.table.has(trait, x.text) for x in near for trait in ("with_word", "infest_word"))
    before = [x.text for x in scan(CLAUSE.split(lead_of(text, fact.start))[-1])]
    few = any(page.table.has(trait, word) for word in before for trait in ("lone_word", "upon_plant"))
    others = any(x.kind == "number" or page.table.has("without_word", x.text) for x in said[1:])
    return fact.has("PLANTS") and some and not few and not others


def check_positive(page: Page, own: list[Scope]) -> None:
    """More plants with females than were dug cannot be."""
    for scope in own:
        if scope.positive is not None and scope.plants is not None and scope.positive > scope.plants:
            fact = next(f for f in scope.counts if f.kind == "positive")
            page.complain("more_positive", fact, count=scope.positive, plants=scope.plants)


def on_too_many(page: Page, fact: Fact) -> None:
    """Too many to count."""
    if _counted_behind(page, fact):
        page.saw = fact
        return
    page.scope.too_many = True
    for colour in fact.all("COLOUR"):
        page.scope.shade(colour)


def _counted_behind(page: Page, fact: Fact) -> bool:
    """ "Raíces cargadas: 6 plantas, 44 blancas": a word for many, and right behind it they are all counted."""
    told = page.table.traits.get("plenty", frozenset())
    words = [x.text for x in scan(page.written(fact))]
    if not any(word in told for word in words) or fact.has("COLOUR") or page.scope.counts:
        return False
    after = page.neighbour(fact, 1)
    dug = after is not None and after.kind == "plants" and page.scope.plants is None
    apart = after is not None and after.lead not in ("", "link", "line")
    if dug:
        after = page.neighbour(after, 1) if after is not None else None
        while after is not None and after.kind in ("how", "soaked"):
            after = page.neighbour(after, 1)
    kinds = ("colour_count", "total_count", "colour_series")
    listed = after is not None and after.kind == "per_plant" and len(after.numbers) > 1
    return apart and after is not None and (after.kind in kinds or listed)


def kept_out(page: Page, note: Note, text: str) -> bool:
    """ "Kestrel: gate was locked", "la tranquera cerrada": no plants and nothing found, and words for why.

    "Sprayed Monday, they said keep out 12 hours" tells of the spray.
    """
    if note.spray is not None:
        return False
    looked = note.plants or note.females.total is not None or note.mostly or note.too_many or note.spots or note.roots
    return bool(note.field and text) and note.outcome is None and not looked and page.table.said("kept_out_by", text)
