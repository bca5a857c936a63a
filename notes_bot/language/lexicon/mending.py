"""Misspelt words mended before anything is read: only a word of no language and no name, with one word of ours near.

Numbers are never the word it is taken for, common words are never taken for a slip (``grammar/words/common_*.toml``),
and whatever is mended is told in the answer.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import cache, lru_cache, partial
from importlib.resources import files
from itertools import groupby

import tomli

from notes_bot.language.lexicon.kept import kept
from notes_bot.language.lexicon.scan import VOWELS, Lexeme, bones, clean, consonants, fold, scan
from notes_bot.language.lexicon.tokens import Slip
from notes_bot.language.lexicon.words import COMMAND_TYPES, NEAR_TYPES, Table, anywhere, table
from notes_bot.model import LANGUAGES, Language

SHORTEST = 5
"""Letters from which a word is mended anywhere; one of four only in a sentence, its first letter right (judgement)."""
MOST_ASKED = 3
"""Words of a message so short that it may be a name alone: only words for asking are looked for (judgement)."""
LONG = 8
"""Letters from which two slips are mended (judgement)."""
_NEVER = frozenset({"NUMBER_WORD", "ORDINAL"})
_UNTOLD = frozenset({"LINK", "ABOUT", "COURTESY", "TEXT", "MEASURE", "HAD", "TOPIC", "MOSTLY"})
"""Little words: mended without a word about it."""


@cache
def common_words(language: Language) -> frozenset[str]:
    """Common words that look like a word of ours and are no misspelling of it, folded."""
    text = (files("notes_bot.grammar.words") / f"common_{language}.toml").read_text("utf-8")
    return frozenset(tomli.loads(text)["words"].split())


@cache
def _targets(language: Language) -> dict[int, tuple[str, ...]]:
    """Words a slip may be taken for, by length: those of phrases, without numbers and without what is itself a slip."""
    made = table(language)
    words: set[str] = set()
    for rows in made.phrases.values():
        for phrase, entries in rows:
            if len(phrase) > 1 and not all(entry.slip for entry in entries):
                words.update(phrase)
    for patterns in made.patterns.values():
        words.update(w for p in patterns if not p.entry.slip for slot in p.slots for phrase in slot for w in phrase)
    words.update(word for word, entries in made.singles.items() if not all(entry.slip for entry in entries))
    by_length: dict[int, list[str]] = {}
    for word in sorted(words):
        entries = made.singles.get(word, ())
        if len(word) >= SHORTEST - 1 and word.isalpha() and not any(e.type in _NEVER or e.slip for e in entries):
            by_length.setdefault(len(word), []).append(word)
    return {length: tuple(rows) for length, rows in by_length.items()}


def mend(
    text: str, lexemes: Sequence[Lexeme], language: Language, fields: tuple[str, ...]
) -> tuple[list[Lexeme], list[Slip], list[tuple[str, int, int]]]:
    """The lexemes with misspelt words mended, what was mended, and what must be asked: kind, start, end.

    Args:
        text: the cleaned text the lexemes are of.
        lexemes: as scanned.
        language: the message's language.
        fields: the crew's names; words like theirs are left alone.
    """
    out: list[Lexeme] = []
    slips: list[Slip] = []
    asks: list[tuple[str, int, int]] = []
    opening = True
    for n, lexeme in enumerate(lexemes):
        if lexeme.kind != "word":
            out.append(lexeme)
            opening = False
            continue
        if lexeme.text == "d" and language != "en" and _between_words(lexemes, n):
            out.append(Lexeme("word", "de", lexeme.start, lexeme.end, lexeme.spaced))
            continue
        if slips and _put_right(text, lexemes, n, slips, language):
            continue
        if whole := _infinitive(text, lexemes, n, language):
            out.append(Lexeme("word", whole, lexeme.start, lexeme.end, lexeme.spaced))
            opening = False
            continue
        if _unharmed(lexeme.text, language):
            out.append(lexeme)
            continue
        if drawn := _drawn_out(lexeme.text, language):
            lexeme = Lexeme("word", drawn, lexeme.start, lexeme.end, lexeme.spaced)
        titled = n == 1 and not fields and table(language).has("article", lexemes[0].text)
        doubtful = not titled and _doubtful(lexeme, language)  # "las chilcas ayer, R5": the name a note begins with
        if doubtful and not _titled(text, lexeme, fields) and (plain := _grown_from(lexeme.text, language)):
            out.append(Lexeme("word", plain, lexeme.start, lexeme.end, lexeme.spaced))
            opening = False
            continue
        alone = doubtful and not _goes_on(lexemes[n + 1 : n + 2], language, fields)
        if alone and (name := _misspelt_name(lexeme.text, language, fields)):
            out.append(Lexeme("word", name, lexeme.start, lexeme.end, lexeme.spaced))
            opening = False
            continue
        meant = _known_slip(lexeme.text, language) or _accident(lexemes, n, language)
        meant = meant or _of_a_phrase(lexemes, n, language, fields)
        meant = meant or _turned(text, lexemes, n, language, fields) or None
        short = VOWELS.isdisjoint(lexeme.text) or (doubtful and not _titled(text, lexeme, fields))
        spelled = without_vowels(lexeme, language, fields, opening) if meant is None and short else []
        if spelled:
            meant = spelled[0] if len(spelled) == 1 else None
            if meant is None:
                asks.append(("unknown_word", lexeme.start, lexeme.end))
        elif doubtful and _near_number(lexeme.text, language):
            asks.append(("which_number", lexeme.start, lexeme.end))
        elif cut := _cut_short(text, lexeme, language, fields, opening and (not fields or n == 0)):
            meant = cut
        elif doubtful and meant is None and (heard := _by_sound(lexeme.text, language, fields)):
            meant = heard
        elif doubtful and meant is None:
            near = _meant(text, lexemes, n, language, fields)
            meant = near[0] if len(near) == 1 else None
            if len(near) > 1:
                asks.append(("unknown_word", lexeme.start, lexeme.end))
        if meant is None:
            out.append(lexeme)
            continue
        out.append(Lexeme("word", fold(meant), lexeme.start, lexeme.end, lexeme.spaced))
        entries = table(language).singles.get(meant, ())
        if not entries or {entry.type for entry in entries} - _UNTOLD:
            slips.append(Slip("near_word", meant, lexeme.start, lexeme.end))
    return out, slips, asks


_CUT_VERB = re.compile("[áêíéÁÊÍÉ]$")
"""How the infinitive is written that lost its last letter: "arrancá", "vê", "volvé"."""


def _infinitive(text: str, lexemes: Sequence[Lexeme], n: int, language: Language) -> str:
    """ "Num deu pra arrancá", "deu pra arranca", "no se pudo sacá": a verb as it is said, without its last letter.

    Written without the accent only behind what may be done or not.
    """
    made, word = table(language), lexemes[n].text
    if language == "en" or len(word) < SHORTEST - 1 or f"{word}r" not in made.every_word:
        return ""
    if any(entry.type == "LINK" for entry in made.singles.get(word, ())):
        return ""  # "está"
    before = [x.text for x in lexemes[max(0, n - 2) : n]]
    led = made.has_any("may_do", (" ".join(before), *before[-1:]))
    accented = _CUT_VERB.search(text, lexemes[n].start, lexemes[n].end)
    said = accented and (led or language == "pt")
    return f"{word}r" if said or (led and language == "pt" and word.endswith(("a", "e"))) else ""


@lru_cache(maxsize=4096)
def _unharmed(word: str, language: Language) -> bool:
    """A word of a list of ours, with a vowel and no slip of any kind: whatever stands around it, it stays as it is."""
    known = word in table(language).every_word or any(word in common_words(other) for other in LANGUAGES)
    slip = _known_slip(word, language) or _drawn_out(word, language) or table(language).has("white_accident", word)
    return known and not slip and not VOWELS.isdisjoint(word)


SAID_AGAIN = 40
"""Characters between a word that went wrong and the same put right, alone in its sentence (judgement)."""


def _put_right(text: str, lexemes: Sequence[Lexeme], n: int, slips: Sequence[Slip], language: Language) -> bool:
    """ "4 while 1 yellow. WHITE.": the word that was meant, alone behind its misspelling, is no further finding."""
    lexeme = lexemes[n]
    alone = n > 0 and lexemes[n - 1].kind in ("sign", "nl")
    alone = alone and (n + 1 == len(lexemes) or lexemes[n + 1].kind in ("sign", "nl"))
    if not (alone and text[lexeme.start : lexeme.end].isupper()):
        return False
    made = table(language)
    kinds = {(e.type, e.value) for e in made.singles.get(lexeme.text, ())}
    near = [slip for slip in slips if 0 < lexeme.start - slip.end <= SAID_AGAIN]
    return any(kinds & {(e.type, e.value) for e in made.singles.get(slip.read, ())} for slip in near)


def _accident(lexemes: Sequence[Lexeme], n: int, language: Language) -> str | None:
    """ "4 while 2 yellow", "2 yellow 4 while": another word of the language, where only a color can stand.

    Its number before it, not that of plants ("dug 4 while ..", "4 plants"), and another color's count right beside.
    """
    if n == 0 or lexemes[n - 1].kind != "number":
        return None
    made = table(language)
    if not made.has("white_accident", lexemes[n].text):
        return None
    if n > 1 and "DUG" in _kinds(lexemes, n - 2, language):
        return None
    behind, before = n + 1, n - 2
    while behind < len(lexemes) and (
        lexemes[behind].text in (",", "&") or lexemes[behind].text in anywhere("and_word")
    ):
        behind += 1
    while before > 0 and (lexemes[before].text in (",", "&") or lexemes[before].text in anywhere("and_word")):
        before -= 1
    counted = behind < len(lexemes) and lexemes[behind].kind == "number"
    counted = counted and "COLOUR" in _kinds(lexemes, behind + 1, language)
    ends = n + 1 >= len(lexemes) or lexemes[n + 1].kind in ("sign", "nl")
    told = before > 0 and "COLOUR" in _kinds(lexemes, before, language) and lexemes[before - 1].kind == "number"
    return made.first["COLOUR", "white"] if counted or (told and ends) else None


def _kinds(lexemes: Sequence[Lexeme], n: int, language: Language) -> set[str]:
    """What the word there can be."""
    entries = table(language).singles.get(lexemes[n].text, ()) if n < len(lexemes) else ()
    return {entry.type for entry in entries}


_DRAWN = re.compile(r"(.)\1\1")
"""A letter three times."""


@lru_cache(maxsize=4096)
def _drawn_out(word: str, language: Language) -> str:
    """The word of ours that was drawn out ("nadaaa", "sooo"); empty for none."""
    if not _DRAWN.search(word):
        return ""
    ways = (re.sub(r"(.)\1{2,}", short, word) for short in (r"\1", r"\1\1"))
    return next((way for way in ways if way in table(language).every_word), "")


def _goes_on(behind: Sequence[Lexeme], language: Language, fields: tuple[str, ...]) -> bool:
    """ "Kestrle nrth": might a word of nothing we know belong to the name, so that it is another field's?"""
    made = table(language)
    words = [x.text for x in behind if x.kind in ("word", "wordnum") and x.text not in name_words(fields)]
    known = {word for word in words if (word in made.singles or word in made.plain) and not made.has("direction", word)}
    return any(word not in known and not _known_word(word, language) for word in words)


def _known_word(word: str, language: Language) -> bool:
    """Does the word begin a phrase of ours, or is it a common one of the language?"""
    return table(language).knows(word) or word in common_words(language)


@lru_cache(maxsize=4096)
def _misspelt_name(word: str, language: Language, fields: tuple[str, ...]) -> str:
    """The word of the crew's names that this one is near ("galon rojo" for Galpón Rojo), and near no word of ours.

    It only lets the name be found; a field is called as it was written.
    """
    from rapidfuzz.distance import OSA

    limit = 2 if len(word) >= LONG else 1
    if len(word) < SHORTEST or word in name_words(fields):
        return ""
    near = [name for name in name_words(fields) if len(name) >= SHORTEST]
    near = [name for name in near if OSA.distance(word, name, score_cutoff=limit) <= limit]
    if len(near) != 1 or near[0] in table(language).every_word:
        return ""
    sizes = range(len(word) - limit, len(word) + limit + 1)
    ours = (known for size in sizes for known in _targets(language).get(size, ()))
    return "" if any(OSA.distance(word, known, score_cutoff=limit) <= limit for known in ours) else near[0]


def _titled(text: str, lexeme: Lexeme, fields: tuple[str, ...]) -> bool:
    """Is the word written like a name in the midst of a message, or like one of the crew's?"""
    shown = text[lexeme.start : lexeme.end]
    named = lexeme.text[:SHORTEST] in _name_starts(fields)
    return named or (shown[:1].isupper() and not shown.isupper() and (lexeme.start > 0 or not fields))


SPELLED = (("qu", "c"), ("gu", "g"), ("c", "z"))
"""Letters before a smaller word's ending as they were in the word itself: sequito, seco."""


@lru_cache(maxsize=4096)
def _grown_from(word: str, language: Language) -> str:
    """The word of ours that was made smaller or greater ("parejita", "sequinho", "amarillísimas"); empty for none."""
    for ending in sorted(table(language).traits.get("grown_end", ()), key=len, reverse=True):
        stem = word.removesuffix(ending)
        if stem == word or len(stem) < SHORTEST - 2:
            continue
        plural = "s" if ending.endswith("s") else ""
        gender = ending.removesuffix("s")[-1]
        stems = [stem, *(stem.removesuffix(late) + early for late, early in SPELLED if stem.endswith(late))]
        ways = (base + vowel + plural for base in stems for vowel in (gender, "e", ""))
        found = next((way for way in ways if way in table(language).every_word), "")
        if found:
            return found
    return ""


def _between_words(lexemes: Sequence[Lexeme], n: int) -> bool:
    """Does a letter stand between two words of the clause ("folha d baixo"), and not behind a number?"""
    near = (lexemes[n - 1] if n else None, lexemes[n + 1] if n + 1 < len(lexemes) else None)
    return all(lexeme is not None and lexeme.kind == "word" and lexeme.text != "d" for lexeme in near)


_SOUNDS: dict[str, tuple[tuple[re.Pattern[str], str], ...]] = {
    "es": (
        *((re.compile(a), b) for a, b in (("ch", "C"), ("h", ""), ("v", "b"), ("ll", "y"), ("qu(?=[ei])", "k"))),
        *((re.compile(a), b) for a, b in (("gu(?=[ei])", "G"), ("g(?=[ei])", "j"), ("c(?=[ei])", "s"))),
        *(
            (re.compile(a), b)
            for a, b in (
                ("[cq]", "k"),
                ("z", "s"),
                ("(?<=[aeo])i(?=[aeo])", "y"),
                ("y$", "i"),
                ("a[uo]$", "ado"),
                (r"(.)\1", r"\1"),
            )
        ),
    ),
    "pt": (
        *((re.compile(a), b) for a, b in (("ch", "x"), ("lh", "L"), ("nh", "N"), ("h", ""), ("qu(?=[ei])", "k"))),
        *((re.compile(a), b) for a, b in (("gu(?=[ei])", "G"), ("g(?=[ei])", "j"), ("c(?=[ei])", "s"))),
        *((re.compile(a), b) for a, b in (("[cq]", "k"), ("z", "s"), ("o$", "u"), ("os$", "us"), ("e$", "i"))),
        *((re.compile(a), b) for a, b in (("es$", "is"), ("l$", "u"), ("y", "i"), (r"(.)\1", r"\1"))),
    ),
}
"""Spellings that sound alike: h is silent, b is v, ll is y; each in order."""


_SPEECH: dict[str, tuple[tuple[re.Pattern[str], str], ...]] = {
    "es": tuple(
        (re.compile(a), b)
        for a, b in (
            ("n(?=[pbfvm])", "m"),
            ("^(?:gue|gúe|hue|bue)", "we"),
            ("^(?:sc|sk|st|sp)", r"e\g<0>"),
            ("x", "s"),
            ("(?<=[aeiou])d(?=[ao]s?$)", ""),
            ("(?<=[aeiou])[dr]$", ""),
            ("iendo$|yendo$", "iendo"),
        )
    ),
    "pt": tuple(
        (re.compile(a), b)
        for a, b in (
            ("lh", "i"),
            ("(?<=[bcdfgpt])l(?=[aeiou])", "r"),
            ("(?<=[aeiou])l(?=[bcdfgkmnpqstvxz])|(?<=[ae])u(?=[bcdfgkmnpqstvxz])", "r"),
            ("[mn](?=[bcdfgkpqstvxz])", "n"),
            ("ou", "o"),
            ("ei(?=.)", "e"),
            ("agem$", "age"),
            ("[ae]mos?$", "emu"),
            ("(?<=[aei])ram$", "ro"),
            ("(?<=[aei])ndo$", "no"),
            ("inho(?=s?$)", "im"),
            ("(?:aum|om)$", "ao"),
            ("eas?$", "ia"),
            ("^([bcdfgjmprstvx]?)e(?=[^aeiou])", r"\1i"),
            ("^([bcdfgjmprstvx]?)o(?=[^aeiou])", r"\1u"),
            ("(?<=[aeiou])r$", ""),
            ("(?<=.)s$", ""),
            ("v", "b"),
        )
    ),
}
"""How words are said in the country, and then written: "pranta", "barde", "foia", "amarelano", "passaro"; each in its
order, before those that sound alike."""


def _sound(word: str, language: Language) -> str:
    for pattern, letter in _SOUNDS[language]:
        word = pattern.sub(letter, word)
    return word


def _speech(word: str, language: Language) -> str:
    for pattern, letter in _SPEECH[language]:
        word = pattern.sub(letter, word)
    return _sound(word, language)


@cache
def _speaking(language: Language) -> dict[str, tuple[str, ...]]:
    """Words of the table by how they are said in the country, without numbers and listed slips."""
    made = table(language)
    found: dict[str, list[str]] = {}
    for word in sorted(_said(language)):
        entries = made.singles.get(word, ())
        if len(word) > 3 and word.isalpha() and word not in made.shorts and not any(e.slip for e in entries):
            found.setdefault(_speech(word, language), []).append(word)
    return {sound: tuple(words) for sound, words in found.items()}


def said_like(word: str, language: Language) -> tuple[str, ...]:
    """Words of ours that are said like this one in the country: "pranta" for planta, plantar, plantas."""
    return _speaking(language).get(_speech(word, language), ()) if language in _SPEECH else ()


def _by_speech(word: str, language: Language, fields: tuple[str, ...]) -> str | None:
    """The word that is said like this one in the country ("divagarinho"), if all of those mean one thing."""
    words = said_like(word, language)
    if not words or any(_speech(part, language) == _speech(word, language) for part in name_words(fields)):
        return None
    made = table(language)
    meanings = {frozenset((e.type, e.value) for e in made.singles.get(known, ())) for known in words}
    number = any(kind in _NEVER for meaning in meanings for kind, _ in meaning)
    if number or (len(words) > 1 and (len(meanings) > 1 or frozenset() in meanings)):
        return None
    return next((known for known in words if known.endswith("s") == word.endswith("s")), words[0])


@cache
def _sounding(language: Language) -> dict[str, tuple[str, ...]]:
    """Words of the table by their sound, without those only in listed slips."""
    made = table(language)
    found: dict[str, list[str]] = {}
    for word in sorted(_said(language)):
        if len(word) > 3 and word.isalpha() and not any(e.slip for e in made.singles.get(word, ())):
            found.setdefault(_sound(word, language), []).append(word)
    return {sound: tuple(words) for sound, words in found.items()}


def _by_sound(word: str, language: Language, fields: tuple[str, ...]) -> str | None:
    """The word of ours that is said like this one ("amariya", "benas"), when it is one only."""
    if language not in _SOUNDS:
        return None
    sound = _sound(word, language)
    words = _sounding(language).get(sound, ())
    if len(words) != 1 or any(_sound(part, language) == sound for part in name_words(fields)):
        return None
    return None if any(e.type in _NEVER for e in table(language).singles.get(words[0], ())) else words[0]


_DATA = NEAR_TYPES | {
    "ROOTS",
    "TOPS",
    "EDGES",
    "VEINS",
    "NEW",
    "OLD",
    "SPRAY",
    "CHEMICAL",
    "TODAY",
    "VARIETY",
    "STAGE_NAME",
}
"""What shorthand without vowels rather stands for, where it could be several words."""


@cache
def _said(language: Language) -> frozenset[str]:
    """Words of the table's words and phrases, without those only in listed slips ("rts drk")."""
    made = table(language)
    words = {
        w for rows in made.phrases.values() for phrase, found in rows if not all(e.slip for e in found) for w in phrase
    }
    for patterns in made.patterns.values():
        words.update(w for p in patterns if not p.entry.slip for slot in p.slots for phrase in slot for w in phrase)
    return frozenset(words | made.singles.keys() | made.shorts.keys())


@cache
def _skeletons(language: Language) -> dict[str, tuple[str, ...]]:
    """Words of the table by their consonants."""
    made = table(language)
    found: dict[str, list[str]] = {}
    for word in sorted(table(language).every_word):
        entries = made.singles.get(word, ())
        if (
            len(word) > 3
            and word.isalpha()
            and VOWELS & set(word)
            and not any(e.type in _NEVER or e.slip for e in entries)
        ):
            found.setdefault(bones(word), []).append(word)
    return {bare: tuple(words) for bare, words in found.items()}


def _names_bones(word: str, fields: tuple[str, ...]) -> bool:
    """Has a word of the crew's names these consonants, or begins with them: "brndl" for Brindle, not "pll" for Plum?"""
    bare, letters = bones(word), consonants(word)
    names = (part for part in name_words(fields) if part[0] == word[0])
    return any(bones(part) == bare or consonants(part).startswith(letters) for part in names)


LEAST_BONES = 3
"""Consonants of the shortest word that may have lost only some of its vowels (judgement)."""


def _shortened(word: str) -> bool:
    """Shorthand without a vowel, or long enough that some are still there ("rces", "herbcda")."""
    return VOWELS.isdisjoint(word) or len(consonants(word)) >= LEAST_BONES


def _without_some(word: str, known: str) -> bool:
    """Are the vowels of the shorthand, if it has any, some of those of the word, in their places ("hmdo", "vnas")?"""
    if VOWELS.isdisjoint(word):
        return True
    letters = iter(known)
    kept = len(word) < len(known) and consonants(word) == consonants(known)
    return kept and all(letter in letters for letter in word)


def without_vowels(lexeme: Lexeme, language: Language, fields: tuple[str, ...], opening: bool) -> list[str]:
    """Words that shorthand without a vowel ("stntd", "rnsd") stands for: one to take, several to ask about."""
    word = lexeme.text
    if lexeme.kind != "word" or len(word) < SHORTEST - 2 or not word.isalpha() or not _shortened(word):
        return []
    made = table(language)
    if word in _said(language) or word in made.plain or (opening and not fields):
        return []  # without a list of the crew's fields what stands first may be a name
    bare = bones(word)
    if _names_bones(word, fields):
        return []
    meant: dict[frozenset[tuple[str, str]], str] = {}
    for known in filter(partial(_without_some, word), _skeletons(language).get(bare, ())):
        entries = made.singles.get(known, ())
        meant.setdefault(frozenset((e.type, e.value) for e in entries), known)
    closest = {key: known for key, known in meant.items() if consonants(known) == consonants(word)}
    if any(kind in _DATA for key in closest for kind, _ in key):
        meant = closest  # "pll": pull, no pail
    told = {key: known for key, known in meant.items() if any(kind in _DATA for kind, _ in key)}
    if not told and not VOWELS.isdisjoint(word):
        return []  # "benas" may be "buenas", but is heard as "venas"
    data = told or meant
    tools = {value: known for key, known in data.items() for kind, value in key if kind == "TOOL"}
    return list((tools or data).values())  # "spd": a spade or spaded, all the same


LEAST_IN_PHRASE = 2
"""Letters of the shortest word without vowels that is taken for one of a phrase (judgement)."""
_PHRASED = COMMAND_TYPES | {
    "NOT_LOOKED",
    "LOOK",
    "NONE",
    "DUG",
    "SOAKED",
    "TOO_MANY",
    "UNDO",
    "TOP",
    "MOISTURE",
    "PLANTED",
}
"""Kinds of phrase by which a word without vowels is told."""


@cache
def _short_skeletons(language: Language) -> dict[str, tuple[str, ...]]:
    """Words of phrases by their consonants, those of three letters too: "look" by "lk"."""
    return kept(f"skeletons_{language}.pickle", lambda: _skeletons_made(language))


def _skeletons_made(language: Language) -> dict[str, tuple[str, ...]]:
    found: dict[str, list[str]] = {}
    for word in sorted(_said(language) - table(language).shorts.keys()):
        if len(word) > LEAST_IN_PHRASE and word.isalpha() and VOWELS & set(word):
            found.setdefault(bones(word), []).append(word)
    return {bare: tuple(words) for bare, words in found.items()}


def _of_a_phrase(lexemes: Sequence[Lexeme], n: int, language: Language, fields: tuple[str, ...]) -> str | None:
    """ "no lk", "tk bk": the one word of its consonants that makes a phrase of ours with the word beside it."""
    lexeme = lexemes[n]
    word, made = lexeme.text, table(language)
    if lexeme.kind != "word" or len(word) < LEAST_IN_PHRASE or not word.isalpha():
        return None
    if word in made.singles or word in made.shorts or word in made.plain or word in name_words(fields):
        return None
    if not (VOWELS.isdisjoint(word) or _strange(word, language)):
        return None
    bare = bones(word)
    if _names_bones(word, fields):
        return None
    before = _in_full(lexemes[n - 1], made) if n and lexemes[n - 1].kind == "word" else ()
    behind = _in_full(lexemes[n + 1], made) if n + 1 < len(lexemes) and lexemes[n + 1].kind == "word" else ()
    pairs = [(before, True)] if before else []
    pairs += [(behind, False)] if behind else []
    fits = {
        known
        for known in filter(partial(_without_some, word), _short_skeletons(language).get(bare, ()))
        for beside, leads in pairs
        if _is_phrase((*beside, known) if leads else (known, *beside), made)
    }
    return fits.pop() if len(fits) == 1 else None


def _in_full(lexeme: Lexeme, made: Table) -> tuple[str, ...]:
    """A word, or what it is short for."""
    return made.shorts.get(lexeme.text, (lexeme.text,))


def _is_phrase(words: tuple[str, ...], made: Table) -> bool:
    """Are all the words one phrase that tells something?"""
    found = made.longest(words, 0)
    return found is not None and found[0] == len(words) and any(entry.type in _PHRASED for entry in found[1])


@cache
def _beginnings(language: Language) -> dict[str, tuple[str, ...]]:
    """Single words of ours that are data, by their first letters."""
    found: dict[str, list[str]] = {}
    for word, entries in sorted(table(language).singles.items(), key=lambda row: (len(row[0]), row[0])):
        kinds = {entry.type for entry in entries}
        data = kinds & (_DATA | {"ENTRY"}) and not kinds & _NEVER and not any(entry.slip for entry in entries)
        for size in range(SHORTEST - 1, len(word) if data and word.isalpha() else 0):
            found.setdefault(word[:size], []).append(word)
    return {begins: tuple(words) for begins, words in found.items()}


def _cut_short(text: str, lexeme: Lexeme, language: Language, fields: tuple[str, ...], opening: bool) -> str | None:
    """The word of ours of which only the beginning is written ("lav", "testem", "encharc"), when one meaning fits."""
    word = lexeme.text
    if len(word) < SHORTEST - 1 or not word.isalpha() or opening or not lexeme.spaced:
        return None
    if word in table(language).every_word or any(word in common_words(other) for other in LANGUAGES):
        return None
    if text[lexeme.start : lexeme.end][:1].isupper() or any(part.startswith(word) for part in name_words(fields)):
        return None
    words = _beginnings(language).get(word, ())
    meanings = [{(e.type, e.value) for e in table(language).singles[known] if e.type in _DATA} for known in words]
    return words[0] if words and set.intersection(*meanings) else None


@cache
def _numbers(language: Language) -> tuple[str, ...]:
    singles = table(language).singles.items()
    return tuple(word for word, entries in singles if len(word) > 3 and any(e.type == "NUMBER_WORD" for e in entries))


@lru_cache(maxsize=4096)
def _near_number(word: str, language: Language) -> bool:
    """One slip away from a number ("twennty", "sevn")?"""
    from rapidfuzz.distance import OSA

    near = (number for number in _numbers(language) if number[0] == word[0])
    return any(OSA.distance(word, number, score_cutoff=1) <= 1 for number in near)


@lru_cache(maxsize=4096)
def _known_slip(word: str, language: Language) -> str | None:
    """A misspelling that the table lists, when it is no word itself and can be one thing only."""
    made = table(language)
    entries = made.singles.get(word, ()) if len(word) >= SHORTEST else ()
    if len(entries) != 1 or not entries[0].slip or word in made.plain or word in common_words(language):
        return None
    meant = made.first.get((entries[0].type, entries[0].value))
    return meant if meant is not None and " " not in meant else None


def ordinary(word: str, language: Language) -> bool:
    """Is it a word of our phrases, or a common one of the language, and so no misspelling?"""
    return word in table(language).every_word or word in common_words(language)


def _doubtful(lexeme: Lexeme, language: Language) -> bool:
    """A word no list knows?"""
    return len(lexeme.text) >= SHORTEST - 1 and lexeme.text.isalpha() and _strange(lexeme.text, language)


@lru_cache(maxsize=4096)
def _strange(word: str, language: Language) -> bool:
    """Is it in no list of any language?"""
    return word not in table(language).every_word and not any(
        word in table(other).every_word or word in common_words(other) for other in LANGUAGES
    )


@lru_cache(maxsize=4096)
def _nearest(word: str, limit: int, language: Language) -> tuple[str, ...]:
    """The words of ours that differ least from it, by so many letters at most."""
    from rapidfuzz.distance import OSA

    scored: list[tuple[float, str]] = []
    for length in range(len(word) - limit, len(word) + limit + 1):
        for known in _targets(language).get(length, ()):
            distance = OSA.distance(word, known, score_cutoff=limit)
            if distance <= limit:
                scored.append((_likely(word, known, distance), known))
    least = min(scored)[0] if scored else 0.0
    return tuple(known for cost, known in scored if cost == least)


def _meant(text: str, lexemes: Sequence[Lexeme], n: int, language: Language, fields: tuple[str, ...]) -> list[str]:
    """The words of ours it may be meant for: one to take, several to ask about; none for a name or another word."""
    from rapidfuzz.distance import OSA

    lexeme = lexemes[n]
    word, shown = lexeme.text, text[lexeme.start : lexeme.end]
    before, after = lexemes[n - 1] if n else None, lexemes[n + 1] if n + 1 < len(lexemes) else None
    starts = before is None or before.kind == "nl" or before.text in ".!?:;"
    if shown[:1].isupper() and not shown.isupper() and not starts:
        return []
    titled = after is not None and (after.text in (":", "-") or text[after.start : after.end][:1].isupper())
    if starts and not fields and (shown[:1].isupper() or titled or before is None) and len(lexemes) > MOST_ASKED:
        return []  # without a list of the crew's fields what stands first may be a name
    if len(word) < SHORTEST and (starts or shown[:1].isupper()):
        return _asked(lexemes, n, language, fields) if starts and shown.islower() else []
    if not fields and 0 < n <= MOST_NAMED and _names_nothing(lexemes[:n], language):
        return []  # "turkey roost on saturday": without a list what stands first may be a name of two words
    place = before
    if before is not None and _sided(before.text, language):
        place = lexemes[n - 2] if n > 1 else None
    if place is not None and place.text in anywhere("named_at") and not fields:
        return []  # "pulled 4 at lower brome": a name
    if starts and titled and shown[:1].isupper() and not shown.isupper():
        return []
    if said := _by_speech(word, language, fields):
        return [said]
    limit = 2 if len(word) >= LONG else 1
    like = 2 if len(word) > SHORTEST else 1
    if any(OSA.distance(word, name, score_cutoff=like) <= like or name.startswith(word) for name in name_words(fields)):
        return []
    nearest = list(_nearest(word, limit, language))
    alike = [known for known in nearest if known[0] == word[0]]
    if len(nearest) > 1:
        nearest = _fitting(lexemes, n, nearest, language) or alike
    elif len(word) < SHORTEST:
        nearest = alike
    if len(lexemes) <= MOST_ASKED and not fields:
        nearest = [known for known in nearest if _asks(known, language)]
    means = {frozenset((e.type, e.value) for e in table(language).singles.get(known, ())) for known in nearest}
    if len(nearest) > 1 and len(means) == 1 and frozenset() not in means:
        return nearest[:1]
    return nearest if len(nearest) == 1 or (len(word) >= SHORTEST and not starts) else []


def _asked(lexemes: Sequence[Lexeme], n: int, language: Language, fields: tuple[str, ...]) -> list[str]:
    """ "Tkae back the last one", "mtue kestrel", "halp": the short word for asking that is meant at a beginning.

    Where it makes a phrase with the word behind it, or nothing stands beside it but a name of the crew.
    """
    from rapidfuzz.distance import OSA

    word, crew = lexemes[n].text, name_words(fields)
    if any(OSA.distance(word, name, score_cutoff=1) <= 1 or name.startswith(word) for name in crew):
        return []
    targets = (known for size in (-1, 0, 1) for known in _targets(language).get(len(word) + size, ()))
    near = [known for known in targets if known[0] == word[0] and OSA.distance(word, known, score_cutoff=1) <= 1]
    phrased = _fitting(lexemes, n, near, language) if n + 1 < len(lexemes) else []
    beside = [x.text for x in lexemes if x is not lexemes[n]]
    if phrased or not all(said in crew for said in beside):
        return [known for known in phrased if _asks(known, language)]
    return [known for known in near if _asks(known, language)]


def _fitting(lexemes: Sequence[Lexeme], n: int, near: Sequence[str], language: Language) -> list[str]:
    """ "Raind out", "10 dsys": the one of several near words that goes with the word or the number beside it."""
    made = table(language)
    before = lexemes[n - 1] if n else None
    behind = lexemes[n + 1].text if n + 1 < len(lexemes) else ""
    phrased = [known for known in near if behind and _is_phrase((known, behind), made)]
    if before is not None and before.kind == "word":
        phrased += [known for known in near if known not in phrased and _is_phrase((before.text, known), made)]
    if before is None or before.kind != "number" or phrased:
        return phrased if len(phrased) == 1 else []
    counted = [known for known in near if {e.type for e in made.singles.get(known, ())} & _COUNTED]
    return counted if len(counted) == 1 else []


_COUNTED = frozenset({"UNIT", "COLOUR", "PLANTS", "FEMALES"})
"""Kinds of word that a number right before them counts."""


_TURNED = frozenset({"COLOUR", "DUG", "MOISTURE", "NOT", "NONE", "UNIT"})
"""Kinds of word looked for with two letters turned about."""


@cache
def _turned_about(language: Language) -> dict[str, str]:
    """Words of three letters by what they are with two letters turned about: "dug" by "dgu", "not" by "nto".

    Never by what might be a word itself: a vowel between two others ("car", "fir").
    """
    made = table(language)
    found: dict[str, set[str]] = {}
    for word, entries in made.singles.items():
        if len(word) != SHORTEST - 2 or not all(e.type in _TURNED and not e.slip for e in entries):
            continue
        for k in (0, 1):
            turned = word[:k] + word[k + 1] + word[k] + word[k + 2 :]
            known = any(turned in table(other).every_word or turned in common_words(other) for other in LANGUAGES)
            sounds = turned[1] in VOWELS and turned[0] not in VOWELS and turned[2] not in VOWELS
            if word.isalpha() and not known and not sounds and not VOWELS.isdisjoint(word):
                found.setdefault(turned, set()).add(word)
    return {turned: words.pop() for turned, words in found.items() if len(words) == 1}


def _turned(text: str, lexemes: Sequence[Lexeme], n: int, language: Language, fields: tuple[str, ...]) -> str:
    """ "Kestrel dgu 6": the word of three letters that was meant, small and in the midst of a line; empty for none."""
    lexeme = lexemes[n]
    if language != "en" or len(lexeme.text) != SHORTEST - 2:
        return ""  # short words of the others are too much alike
    word = _turned_about(language).get(lexeme.text, "")
    starts = n == 0 or lexemes[n - 1].kind == "nl"
    small = text[lexeme.start : lexeme.end].islower()
    return word if word and small and not starts and lexeme.text not in name_words(fields) else ""


MOST_NAMED = 2
"""Words that may stand in a name before one that looks misspelt (judgement)."""


def _names_nothing(before: Sequence[Lexeme], language: Language) -> bool:
    """Are all of them words without a meaning of ours?"""
    return all(x.kind == "word" and x.text not in table(language).singles for x in before)


def _sided(word: str, language: Language) -> bool:
    """Old, new, lower, upper: a word that leads a place's name?"""
    return any(entry.type in ("OLD", "NEW") for entry in table(language).singles.get(word, ()))


def _asks(word: str, language: Language) -> bool:
    """Is it a word for asking, or one of courtesy?"""
    types = {entry.type for entry in table(language).singles.get(word, ())}
    begins = any(e.type in COMMAND_TYPES for _, entries in table(language).phrases.get(word, ()) for e in entries)
    return begins or bool(types & (COMMAND_TYPES | {"COURTESY"}))


def _likely(word: str, known: str, distance: int) -> float:
    """Letters doubled, let fall out of a pair, or turned about are likelier slips than others (judgement)."""
    if distance == 1 and [c for c, _ in groupby(word)] == [c for c, _ in groupby(known)]:
        return 0.5
    return 0.7 if distance == 1 and sorted(word) == sorted(known) else float(distance)


@lru_cache(maxsize=256)
def _name_starts(fields: tuple[str, ...]) -> frozenset[str]:
    """What words like those of the crew's names begin with: their first letters, one and more."""
    return frozenset(word[:size] for word in name_words(fields) for size in range(1, SHORTEST + 1))


@lru_cache(maxsize=256)
def name_words(fields: tuple[str, ...]) -> frozenset[str]:
    """Words of the crew's names that are long enough to be misspelt."""
    return frozenset(x.text for name in fields for x in scan(clean(name)) if x.kind == "word" and len(x.text) > 2)
