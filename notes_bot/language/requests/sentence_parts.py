"""The parts of a whole sentence that puts values right, clause by clause, and what some of them say together.

"Not what i just sent" and "fix my kestrel note" say that the rest is so; "note says we didn't" and "had no brown" are
values; "dark and stubby" is one. Clauses that only tell how a slip came are left out.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from notes_bot.language.lexicon.joining import is_any, linking
from notes_bot.language.lexicon.pieces import Piece
from notes_bot.language.lexicon.words import Table
from notes_bot.language.noting.crop import ROOT_WORDS, TOP_WORDS
from notes_bot.language.requests.word_parts import (
    KINDS,
    LISTS,
    LONGEST_EXCUSE,
    NOUNS,
    OF_TOPS,
    PAIR,
    SHADES,
    Part,
    clauses_of,
    cries,
    joined_pieces,
    told_parts,
    topic_of,
)

if TYPE_CHECKING:
    from notes_bot.language.requests.commands.line import Line


def sentence_parts(line: Line, span: tuple[int, int] | None) -> list[Part] | None:
    """Every word's part, the field left out; ``None`` where a word has none ("like usual")."""
    made = line.made
    whole = joined_pieces(line.ps, made)
    puts = made.has("puts_down", whole[0].text)
    if puts:
        whole = whole[1:]  # "put birch bottom down as V5": what is so
    first, *later = clauses_of(whole)
    topic = topic_of([*first, *(p for clause in later if not _only_excuses(clause, made) for p in clause)])
    cried = cries(whole, made)
    out: list[Part] = [Part("sure")] if cried else []
    colon = next((n for n, p in enumerate(whole) if p.text == ":"), 0)
    if colon and _asks_right(whole[:colon], made):
        out, whole = [Part("sure", "strong")], whole[colon + 1 :]
    for clause in clauses_of(whole[cried:]):
        if _asks_right(clause, made):
            out.append(Part("sure", "strong"))
            continue
        clause, unlike = _unlike_sent(clause, made)
        told = [*told_parts(clause, topic, span, line, cried=bool(cried)), *unlike]
        if out and _slipped(clause, told, made):
            out += [Part("stop"), Part("sure", "slip")]
        elif any(part.role == "value" for part in told) and not _forgotten(clause, made):
            if any(part.role == "stray" for part in told):
                return None
            out += told
        elif any(part.role == "stray" for part in told):
            if not _only_excuses(clause, made):
                return None
            wrote = any(part.role == "wrote" for part in told)
            said = f" {' '.join(p.text for p in clause)} "
            turned = any(f" {phrase} " in said for phrase in made.traits["mixed_up"])
            out += [Part("stop"), Part("sure", "strong" if turned else None)] if not wrote else [Part("stop")]
        else:
            out += told
    if puts and span is not None and any(p.start == span[0] for p in whole[:PAIR]) and _says_now(out):
        out.insert(0, Part("sure", "strong"))  # "poné en bajo grande que fue con pala"
    if _named_note(whole, span, made):
        out = [replace(part, what="strong") if part.what == "set" else part for part in out]
    wished = any(made.has("would_word", word) for p in whole for word in p.text.split(" "))  # "I said I would soak it"
    joined = _joined(out)
    return _without_verbs(_none_of(joined if wished else _answered(joined)))


def _says_now(parts: list[Part]) -> bool:
    """Does a word say that something was so?"""
    return any(part.role == "now" for part in parts)


def _named_note(pieces: list[Piece], span: tuple[int, int] | None, made: Table) -> bool:
    """ "Kestrel note (from yesterday, make that 7 plants)": is a word for a note right beside the field's name?"""
    at = next((n for n, p in enumerate(pieces) if span is not None and p.end == span[1]), None)
    behind = pieces[at + 1 : at + 2] if at is not None else []
    return any(made.has("mail_word", p.text) for p in behind)


def _answered(parts: list[Part]) -> list[Part]:
    """The one thing that is so or not, told once and answered: "wasn't soaked, i said it was"."""
    told = [n for n, part in enumerate(parts) if isinstance(part.value, bool)]
    if len(told) != 1:
        return parts
    at, value = told[0], parts[told[0]]
    parted = ("stop", "but")
    first = next((n for n in range(at, 0, -1) if parts[n - 1].role in parted), 0)
    last = next((n for n in range(at, len(parts)) if parts[n].role in parted), len(parts))
    before, others = parts[first:at], [*parts[:first], *parts[last:]]
    roots = [part for part in parts if (part.role, part.what) == ("noun", "plants")]
    if not others or any(part.role not in _ANSWERS and part not in roots for part in (*before, *others)):
        return parts
    roles, led = [part.role for part in others], [part.role for part in before]
    wrote = "wrote" in led
    if wrote == ("wrote" in roles) or not {"now", "not", "lacks"} & set(roles):
        return parts
    said = bool(value.value) is not bool({"not", "lacks"} & set(led))
    answer = not {"not", "lacks"} & set(roles)
    if said == answer:
        return parts
    now, then = (answer, said) if wrote else (said, answer)
    sure = [part for part in others if part.role in ("sure", "stop")]
    return [*sure, replace(value, value=now), Part("not"), replace(value, value=then)]


_ANSWERS = frozenset({"wrote", "now", "not", "lacks", "sure", "stop", "had", "but", "and"})
"""What the words around a thing that is so or not may do where it is answered."""


def _none_of(parts: list[Part]) -> list[Part]:
    """ "Had no brown, i put 3": a color denied, where another number of it was written, is none of it."""
    values = [part for part in parts if part.role == "value"]
    if len(values) != 1 or values[0].what is not None or not any(part.role == "wrote" for part in parts):
        return parts
    denied = next((n for n, part in enumerate(parts) if part.role in ("not", "lacks")), len(parts))
    noun = denied + 1
    while noun < len(parts) and parts[noun].role in ("now", "had"):
        noun += 1
    if noun >= len(parts) or parts[noun].role != "noun" or parts[noun].what not in SHADES or values[0] in parts[:noun]:
        return parts
    return [*parts[:denied], Part("value", None, 0), *parts[noun:]]


def _asks_right(clause: list[Piece], made: Table) -> bool:
    """ "Fix my kestrel note please", "my kestrel note needs fixing": a note to be put right, and no value of it."""
    told = [p for p in clause if "FIELD" not in p.types and len(p.text) > 1 and not linking(p)]
    if any(p.kind not in ("word", "break", "sign") or is_any(p, (*_COUNTABLE, *NOUNS)) for p in told):
        return False  # "corrija o prazo para olhar de novo (7 dias)"
    words = [word for p in clause for word in p.text.split(" ")]
    note = any(made.has_any(trait, words) for trait in ("mail_word", "note_noun", "visit_noun"))
    if not note:
        return False
    said = f" {' '.join(words)} "
    return made.has_any("set_verb", words) or any(f" {phrase} " in said for phrase in made.traits["owns_up"])


def _unlike_sent(clause: list[Piece], made: Table) -> tuple[list[Piece], list[Part]]:
    """ "(9 white,) not what i just sent": a clause without what denies a note as a whole, and the part that has."""
    at = next((n for n, p in enumerate(clause) if is_any(p, ("NOT",))), len(clause))
    denied = clause[at:]
    wrote = any(made.has("wrote", p.text) for p in denied)
    if not wrote or any(p.kind != "word" or is_any(p, _COUNTABLE) for p in denied):
        return clause, []
    return clause[:at], [Part("sure", "unlike")]


_COUNTABLE = (*KINDS, "COLOUR", "PLANTS", "FEMALES", "FIELD", "NUMBER_WORD", "ROOTS", "ROOT", "TOPS", "TOP", "NONE")
"""What may be denied itself: "not yellow like i sent"."""
_ALL_WORDS = (*ROOT_WORDS, *TOP_WORDS)


def _joined(parts: list[Part]) -> list[Part]:
    """ "Dark and stubby", "yellow between the veins", "dug with a shovel": what is said together, as one value."""
    out: list[Part] = []
    for part in (part for part in parts if part.role != "little"):
        if out and part.what == "method" and (out[-1].what, out[-1].value) == (part.what, part.value):
            out[-1] = replace(part, verb=False)  # "not dug with a shovel": said twice
            continue
        if out and part.what == "method" and part.role == "value" and _by_hand_too(out[-1], part):
            out[-1] = replace(out[-1], verb=False)  # "worked em loose by hand"
            continue
        kept = out[:-1] if out and out[-1].role == "and" else out
        last = kept[-1] if kept and kept[-1].role == "value" and kept[-1].what == part.what in LISTS else None
        if last is None or part.role != "value" or last.value == part.value:
            out.append(part)
            continue
        words = {*last.value, *part.value}
        words -= {"yellow"} if words & set(OF_TOPS.values()) else set()
        out = [*kept[:-1], Part("value", part.what, sorted(words, key=_ALL_WORDS.index))]
    return out


def _by_hand_too(last: Part, part: Part) -> bool:
    """ "Worked loose (by hand)": eased, and the hand that did it."""
    return (last.role, last.what, last.value) == ("value", "method", "eased") and part.value == "pulled"


def _without_verbs(parts: list[Part]) -> list[Part]:
    """ "Only 4 plants got dug not 5": dug, said in passing, is no value; in "was pulled not dug" it is."""
    ways = [part for part in parts if part.what == "method" and part.role == "value"]
    verbs = [part for part in ways if part.verb]
    tools = len(ways) - len(verbs)
    others = any(part.role == "value" and part.what != "method" for part in parts)
    if not (tools > 1 or (others and len(ways) < PAIR)):
        return parts
    return [Part("noun", "dug") if part in verbs else part for part in parts]


def _forgotten(clause: list[Piece], made: Table) -> bool:
    """ "I forgot one w nothing on it": how the slip came, and no figure."""
    said = " ".join(p.text for p in clause if p.kind == "word")
    opens = any(said.startswith(phrase + " ") for phrase in made.traits.get("put_wrong_lead", ()))
    return opens and not any(p.kind != "word" and (p.kind != "number" or p.text.isdigit()) for p in clause[1:])


def _slipped(clause: list[Piece], told: list[Part], made: Table) -> bool:
    """ "(Grabbed the wrong line lol)", ", autocorrect got me": how the slip came, whatever a verb of it may tell."""
    values = [part for part in told if part.role == "value"]
    return all(part.verb for part in values) and _only_excuses(clause, made) and not _speaks_of_value(told)


def _speaks_of_value(told: list[Part]) -> bool:
    """ "(Not pulled) like i wrote": does the clause deny something, or tell what was written?"""
    return any(part.role in ("not", "wrote", "now", "instead", "lacks") and part.what is None for part in told)


def _only_excuses(clause: list[Piece], made: Table) -> bool:
    """A clause that only tells how the slip came ("boss says", "forgot to put that right"), and no value."""
    words = [word for p in clause for word in p.text.split(" ")]
    if _forgotten(clause, made):
        return True
    if any(p.kind not in ("word", "break", "sign") or is_any(p, ("FIELD", "NONE", "NOT_LOOKED")) for p in clause):
        return False
    runs = (" ".join(words[n : n + size]) for size in range(1, LONGEST_EXCUSE + 1) for n in range(len(words)))
    return any(
        made.has(trait, run) for run in runs for trait in ("slip_reason", "amend_cue", "slip_digit", "beside_excuse")
    )
