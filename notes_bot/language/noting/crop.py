"""The crop: its stage, roots, nodules and tops."""

from __future__ import annotations

from notes_bot.language.clauses.facts import Fact
from notes_bot.language.lexicon.tokens import Word
from notes_bot.language.noting.around import amended
from notes_bot.language.noting.page import Page

ROOT_WORDS = (
    *("white", "dark", "fine", "stubby", "snapped", "nodules_few", "nodules_many", "nodules_pink", "nodules_brown"),
)
TOP_WORDS = (
    *(
        "healthy",
        "yellow",
        "interveinal_new",
        "edges_old",
        "flash_bands",
        "stunted",
        "uneven",
        "patch",
        "ring",
        "wilted",
    ),
    "early_ripe",
)
NEAR_WORDS = 3
"""Words before a stage that may say that it is one to come, "will recheck at R2" (judgement)."""


def on_stage(page: Page, fact: Fact) -> None:
    """Growth stage; two right beside each other are a range."""
    value: str = fact.first("STAGE")
    later = page.context.may_say("later_stage")
    if later and page.table.has_any("later_stage", page.said_before(fact)[-NEAR_WORDS:]):
        page.keep(fact)  # "will recheck at R2"
        return
    if "/" in value:
        written, value = value, value.split("/")[1]
        page.context.mention("span_range", fact.start, fact.end, text=written, read=value)
    number = _stage_number(value)
    if number is not None and not 0 < number <= (8 if value[0] == "R" else 30):
        page.complain("no_such_stage", fact)
        return
    if page.stage is None or page.stage == value:
        page.stage = value
        return
    other = _stage_number(page.stage)
    before = next((f for f in reversed(page.facts[: fact.at]) if f.kind == "stage"), None)
    between = page.context.text[before.end : fact.start] if before is not None else ""
    beside = fact.lead in ("", "link") and len(between.split()) <= NEAR_WORDS
    if amended(page, fact, page.stage):
        page.stage = value
    elif beside and page.stage[0] == value[0] and number is not None and other is not None:
        page.stage = f"{value[0]}{(other + number) / 2:g}"
    else:
        page.twice("stage", fact, page.stage, value)


def _stage_number(stage: str) -> float | None:
    return None if stage[1:] in ("E", "C") else float(stage[1:])


def on_roots(page: Page, fact: Fact) -> None:
    """What roots look like."""
    _add_roots(page, fact, [str(value) for value in fact.all("ROOT")])


def on_nodules(page: Page, fact: Fact) -> None:
    """What nodules look like; how many is kept in words."""
    _add_roots(page, fact, [f"nodules_{value}" for value in fact.all("NODULE")])


def _add_roots(page: Page, fact: Fact, values: list[str]) -> None:
    if not values:
        page.keep(fact)
    page.roots.update(values)


def on_tops(page: Page, fact: Fact) -> None:
    """What the plants show, gathered by sentence."""
    page.tops.setdefault(page.context.sentence(fact), []).append(fact)


def top_words(page: Page) -> tuple[str, ...]:
    """What the plants show, of every sentence; where that is nothing of ours the words are kept."""
    words: set[str] = set()
    for sentence in page.tops.values():
        found = [word for group in _by_leaves(sentence) for word in _top_words_of(page, group)]
        words.update(found)
        if not found:
            for fact in sentence:
                page.keep(fact)
    if words & {"interveinal_new", "edges_old", "flash_bands"}:
        words.discard("yellow")
    if len(words) > 1:
        words.discard("healthy")
    return tuple(sorted(words, key=TOP_WORDS.index))


def _top_words_of(page: Page, group: list[Word]) -> list[str]:
    """What is said about the same leaves: which, what color, what pattern."""
    types = {word.type for word in group}
    values = [word.value for word in group if word.type == "TOP"]
    leaves = [word.value for word in group if word.type == "LEAF"]
    pale = "yellow" in leaves or "yellow" in values or ("white" in leaves and "NEW" in types)
    flash = any(word.type == "BANDS" and word.value == "flash" for word in group)
    burnt = any(word.type == "EDGES" and word.value == "burnt" for word in group)
    found = [value for value in values if value != "yellow"]
    if "VEINS" in types and "OLD" not in types:
        found.append("interveinal_new")
    elif "BANDS" in types and (pale or flash or "NEW" in types or page.spray is not None):
        found.append("flash_bands")
    elif "EDGES" in types and "NEW" not in types and (pale or burnt or "brown" in leaves):
        found.append("edges_old")
    elif pale:
        found.append("yellow")
    elif "GREEN" in types and "TOPS" in types and not found and not leaves:
        found.append("healthy")
    return found


def _by_leaves(facts: list[Fact]) -> list[list[Word]]:
    """The words of a sentence about the plants, new and old leaves kept apart."""
    groups: list[list[Word]] = [[]]
    age = ""
    for word in (word for fact in facts for word in fact.words):
        if word.type in ("NEW", "OLD"):
            if age not in ("", word.type):
                groups.append([])
            age = word.type
        groups[-1].append(word)
    return groups
