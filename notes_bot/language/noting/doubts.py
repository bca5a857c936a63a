"""What is asked about once the whole note is read."""

from __future__ import annotations

import re
from itertools import pairwise

from notes_bot.language.clauses.facts import Fact
from notes_bot.language.lexicon.mending import ordinary, said_like, without_vowels
from notes_bot.language.lexicon.scan import Lexeme, fold, scan
from notes_bot.language.lexicon.times import MOST_PLANTS
from notes_bot.language.lexicon.words import NEAR_TYPES, anywhere, near_words
from notes_bot.language.noting.page import FEMALE_KINDS, SAID_BEFORE, Page
from notes_bot.model import Colour, Note

TAN_DAYS = 24
"""Tan or brown females sooner than this after planting contradict the cycle (judgement from a 28-day generation)."""
LONGEST_BESIDE = 3
"""Words that may lead to a neighbor's name, "next to the" (judgement)."""
MOST_SAID_OF_NOTHING = 7
"""Words beside a field's name, little ones too, from which a note that says nothing is asked about (judgement)."""
MANY_WORDS = 2
"""Words beside a field and nothing that we read: the writer meant something we did not understand (judgement)."""


def check_tan(page: Page, note: Note) -> None:
    """Tan or brown females so soon after planting are asked about."""
    if note.planted is None or not ((note.females.tan or 0) + (note.females.brown or 0)):
        return
    days = ((note.date or page.context.sent) - note.planted).days
    if days < TAN_DAYS:
        told = (f for f in page.facts if set(f.all("COLOUR")) & {"tan", "brown"})
        page.complain("too_early_tan", next(told, page.facts[0]), days=days)


def ask_for_words(page: Page, note: Note, text: str, start: int, end: int) -> None:
    """Words beside a field, and nothing that we read."""
    told = page.context.text[start:end].split()
    wordy = len(text.split()) >= MANY_WORDS or len(told) - len((note.field or "").split()) >= MOST_SAID_OF_NOTHING
    asks = any(part.endswith("?") for part in told)  # "kestrel update?"
    asked = any(problem.kind == "which_look" for problem in page.context.problems)
    if note.field and (wordy or (asks and text)) and says_nothing(note) and not asked:
        page.context.complain("only_words", start, end)


def says_nothing(note: Note) -> bool:
    """Is there nothing in the note but a field, perhaps a day, and words?"""
    return note == Note(field=note.field, date=note.date, text=note.text, where=note.where)


def ask_for_yellow(page: Page, shades: Fact | None, mostly: tuple[Colour, ...]) -> None:
    """A bare "yellow" and nothing of females beside it."""
    bare = shades is not None and len(shades.words) == 1 and shades.words[0].value == "yellow"
    if bare and shades is not None and mostly == ("yellow",) and _only_yellow(page, shades):
        page.complain("doubtful", shades)


def _only_yellow(page: Page, shade: Fact) -> bool:
    """ "Looked at 6 from the truck, yellow": the leaves or the females? Only where nothing tells of females."""
    return all(f is shade or f.kind not in FEMALE_KINDS for f in page.facts) and page.saw is None


def ask_for_finding(page: Page, note: Note) -> None:
    """Plants dug and nothing read of what was on them, or a denial left in the text: rather a question."""
    if note.outcome is not None or page.context.problems:
        return
    dug = next((f for f in page.facts if f.kind == "plants"), None)
    if note.plants and dug is not None and page.free_text():
        page.complain("no_finding", dug, plants=note.plants)
        return
    same = next((f for f in page.facts if f.kind == "same"), None)
    if same is not None and page.same is None and note.field:
        page.complain("unread_word", same)
        return
    for start, end in page.unquoted() if note.field else ():
        words = _without_harmless(page, [x.text for x in scan(page.context.text[start:end])])
        if note.spray is not None and anywhere("enters") & set(words):
            continue  # "no se entra hasta el miércoles"
        if any(page.table.denies(word) for word in words):
            page.context.complain("unread_denial", start, end)
            return


def _without_harmless(page: Page, words: list[str]) -> list[str]:
    """The words without "no complaints" and other denials that carry nothing of ours."""
    out: list[str] = []
    i = 0
    while i < len(words):
        said = {n: " ".join(words[i : i + n]) for n in (4, 3, 2)}
        size = next(
            (n for n, some in said.items() if page.table.has("harmless", some) or page.table.has("amends", some)), 0
        )
        out += [] if size else [words[i]]
        i += size or 1
    return out


def ask_for_shorthand(page: Page, note: Note) -> None:
    """Shorthand without a vowel, or a word a slip away from one of ours, left unread: it may be a datum."""
    if page.context.problems or not note.field:
        return
    for start, end in page.unquoted():
        said = page.context.text[start:end].rstrip()
        if said.endswith("?") and len(said.split()) > 2 and page.context.text[end:].strip() == "":
            page.context.complain("doubtful", start, end)
            return
        if page.table.said("before_now", said):
            continue  # "went from 3 white last week to ..": told, and of another time
        unread = _unread_count(page, start, end)
        if unread is not None:
            page.context.complain("which_number", *unread)
            return
        for lexeme in scan(page.context.text[start:end]):
            at = (start + lexeme.start, start + lexeme.end)
            around = page.context.text[start:end]
            other = lexeme.kind == "word" and _other_field(page, lexeme.text, note.field, around)
            if other and not (_beside(page, page.context.text[start : at[0]]) or _likened(page, at[0])):
                page.context.complain("two_fields", *at)
                return
            if lexeme.kind == "word" and _looks_like_data(page, lexeme.text, page.context.text[at[0] : at[1]]):
                page.context.complain("unread_word", *at)
                return


def _unread_count(page: Page, start: int, end: int) -> tuple[int, int] | None:
    """ "Vi umas vinte ou trinta amarelas": where in free text a number stands before a color or females."""
    for number, noun in pairwise(scan(page.context.text[start:end])):
        told = {e.type for e in page.table.singles.get(noun.text, ())} if len(noun.text) > 2 else set()
        spoken = any(e.type == "NUMBER_WORD" for e in page.table.singles.get(number.text, ()))
        counts = number.kind == "number" or (spoken and not page.table.has("careful", number.text))
        if counts and told & {"COLOUR", "FEMALES"}:
            return start + number.start, start + noun.end
    return None


def _other_field(page: Page, word: str, told: str, unread: str) -> bool:
    """The first word of another of the crew's fields, left unread?"""
    if len(word) < 5 or word in page.table.singles or word in page.table.plain or word in fold(told):
        return False
    named = [fold(name) for name in page.context.fields if name and fold(name.split(" ")[0]) == word]
    return bool(named) and not any(name in fold(unread) and name != word for name in named)


def _beside(page: Page, before: str) -> bool:
    """ "next to Turnpike", "perto do Mangueiral": do the words end in what tells where a field lies?"""
    words = [lexeme.text for lexeme in scan(before)][-LONGEST_BESIDE:]
    spans = [" ".join(words[n:last]) for n in range(len(words)) for last in range(n + 1, len(words) + 1)]
    return any(page.table.has("lies_by", said) and not page.table.has("goal", said) for said in spans)


def _likened(page: Page, start: int) -> bool:
    """ "That is more than (at Turnpike)": does what another field is held against end there?"""
    words = [lexeme.text for lexeme in scan(page.context.text[max(0, start - SAID_BEFORE) : start])]
    while words and (page.table.has("article", words[-1]) or page.table.has("at", words[-1])):
        words.pop()
    return bool(words) and page.table.has("aside_than", words[-1])


_UNTOLD = frozenset({"PLANTS", "TOPS", "PLANTED", "LINK", "TEXT"})
"""What tells nothing of its own where it is left unread."""


def _looks_like_data(page: Page, word: str, written: str) -> bool:
    if word in page.table.singles or word in page.table.plain or not word.isalpha() or written[:1].isupper():
        return False
    heard = [e.type for other in said_like(word, page.context.language) for e in page.table.singles.get(other, ())]
    if heard and _UNTOLD.issuperset(heard):
        return False  # "pranta": planta, which is not asked about either
    if word in page.table.shorts:
        said = (e for part in page.table.shorts[word] for e in page.table.singles.get(part, ()))
        return any(e.type in NEAR_TYPES - {"MOSTLY"} for e in said)
    if len(word) > 2 and not set(word) & set("aeiouy"):
        shorthand = Lexeme("word", word, 0, len(word), True)
        return len(without_vowels(shorthand, page.context.language, (), False)) != 1
    if len(word) < 5 or ordinary(word, page.context.language):
        return False
    near = near_words(word, page.context.language)
    return any(e.type in NEAR_TYPES and not e.slip for other in near for e in page.table.singles[other])


def ask_for_number_words(page: Page, note: Note) -> None:
    """ "So I only got three", ".. two on the third": a number in words, not read, where numbers were told."""
    if note.females.total is None or page.context.problems:
        return
    for start, end in page.unquoted():
        words = [x for x in scan(page.context.text[start:end]) if x.kind == "word"]
        for n, x in enumerate(words):
            value = next((e.value for e in page.table.singles.get(x.text, ()) if e.type == "NUMBER_WORD"), "")
            if value.isdigit() and 1 < int(value) <= MOST_PLANTS and _counts_unread(page, note, words, n):
                page.context.complain("stray_number", start + x.start, start + x.end, number=int(value))
                return


def _counts_unread(page: Page, note: Note, words: list[Lexeme], n: int) -> bool:
    """Is it what somebody got, no plants told, or what was on a plant by its place?"""
    got = n > 0 and n == len(words) - 1 and page.table.has("counted", words[n - 1].text) and note.plants is None
    behind = [x.text for x in words[n + 1 : n + 4]]
    nth = any(page.means(word, kind) for word in behind[1:] for kind in ("NTH", "ORDINAL"))
    before = [e for e in page.table.singles.get(words[n - 1].text, ()) if e.type in ("NTH", "ORDINAL")] if n else []
    if any(entry.value.isdigit() and int(entry.value) > 1 for entry in before):
        return True  # "second two third none"
    return got or (bool(behind) and page.table.has("upon_plant", behind[0]) and nth)


def ask_for_doubt(page: Page) -> None:
    """A doubt ("not sure whether the brown one was a cyst") or a verb of changing left unread is asked about."""
    for start, end in page.unquoted() if not page.context.problems else ():
        text = fold(page.context.text[start:end])
        behind = page.context.text[end:].lstrip()[:1]
        if (text.endswith("?") or behind == "?") and page.table.has("or_word", text.split(" ")[0]):
            page.context.complain("doubtful", start, end)  # "6 matas .. o eran de los nogales? 5 blancas"
            return
        if page.table.said("unsure", page.context.text[start:end]):
            page.context.complain("unread_word", start, end)
            return
        opening = re.split(r"\W+", text.strip())[0]
        alone = page.table.has("change_alone", text.strip()) and page.name is not None and end <= page.name.start
        if (alone or page.table.has("change_verb", opening)) and _sentence_begins(page.context.text, start):
            page.context.complain("unread_word", start, end)
            return


def _sentence_begins(text: str, at: int) -> bool:
    """Does a sentence or clause begin there?"""
    before = text[:at].rstrip(" \t")
    return before == "" or before[-1] in ".;,:!?\n"


def ask_for_nodules(page: Page, note: Note) -> None:
    """ "Couldn't tell if nodules or females, maybe 3": what is easiest to take for females is asked about."""
    if page.context.problems or note.outcome != "seen":
        return
    text = page.context.text
    for first, last in page.unquoted():
        if not any(page.means(x.text, "NODULES") for x in scan(text[first:last])):
            continue
        start = first - len(re.split(r"[,.;!?\n]", text[:first])[-1])
        end = last + len(re.split(r"[,.;!?\n]", text[last:])[0])
        words = [lexeme.text for lexeme in scan(text[start:end])]
        either = any(page.table.has("or_word", word) for word in words) and any(
            page.means(word, "FEMALES") for word in words
        )
        if either or any(page.table.said(kind, text[start:end]) for kind in ("unsure", "guesses", "untold")):
            start += len(text[start:end]) - len(text[start:end].lstrip())
            told = note.females.total
            kind = "doubtful" if told is None else "maybe_nodules"
            page.context.complain(kind, start, end, count=told)
            return
