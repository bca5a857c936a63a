"""Short replies that change something: corrections, a choice of field, a new day, planting data of a field."""

from __future__ import annotations

import itertools
import re
from collections.abc import Sequence
from dataclasses import replace
from datetime import timedelta
from typing import Any

from notes_bot.language.clauses.context import Context
from notes_bot.language.clauses.facts import Fact, parse
from notes_bot.language.lexicon.days import PLANTED_DAYS, DayAhead, DayWritten, coming_day
from notes_bot.language.lexicon.joining import day_words, is_any, linking, number_like, number_words, stage_words
from notes_bot.language.lexicon.pieces import Piece
from notes_bot.language.lexicon.scan import fold, scan
from notes_bot.language.lexicon.tokens import Draft
from notes_bot.language.lexicon.words import Entry, Table, anywhere, is_field_word, table
from notes_bot.language.names.naming import Names, written
from notes_bot.language.senses import stage
from notes_bot.model import Language

SAID_AT = 40
"""Characters that the opening of a message reaches (judgement)."""
CHOSEN_BESIDE = 4
"""Words beside a bare name; with more it answers no question of ours (judgement)."""
MOST_CHANGES = 3
"""Data that one correction puts right; more of several kinds is a note (judgement)."""
LOOKED_FARTHER = 24
"""Pieces looked at where it is also said what was written before (judgement)."""
LOOKED_FAR = 16
"""Pieces of a line in which a word for writing or for what should be is looked for (judgement)."""
WROTE_BEFORE = 5
"""Pieces that may stand between a word for writing and the number written (judgement)."""
LOOKED_AT = 10
"""Pieces of a line that may stand before a word of correction (judgement)."""
Change = tuple[str, Any, Any]
"""What, its new value, its old value or ``None``."""


# --- a line with a word for correcting: "should be 14 white", "it was shovel not pulled"


def correction(context: Context, line: list[Piece]) -> bool:
    """Read a line as a correction with a word for it; false when it is none."""
    made = table(context.language)
    if any("UNDO" in p.types and " " in p.text for p in line):
        return False  # "oops undo that last one"
    if any(made.has("ask_reminder", p.text) for p in line):
        return False  # "the reminder on Monday rather than tomorrow"
    if cannot_go(context, line):
        return False
    line = [part for piece in line for part in denied_number(piece, made)]
    line = without_excuse(without_note_word(line, made), made)
    if any(
        way(context, line)
        for way in (
            other_field,
            _meant_field,
            _sent_as,
            _instead,
        )
    ):
        return True
    strong = [k for k, p in enumerate(line[:LOOKED_FARTHER]) if made.has("strong_correct", p.text)]
    wrote = [k for k, p in enumerate(line[:LOOKED_FAR]) if made.has("wrote", p.text) and not _put_under(line, k, made)]
    corrects = [k for k, p in enumerate(line[:LOOKED_FARTHER]) if "CORRECT" in p.types]
    told_before = bool(strong and wrote) and wrote[0] < strong[-1]
    said = told_before or (bool(wrote) and wrote[0] < LOOKED_AT)
    for k, piece in enumerate(line[: LOOKED_FARTHER if told_before else LOOKED_FAR if said else LOOKED_AT]):
        quoted = bool(wrote) and wrote[0] < k
        if k not in corrects and not (quoted and made.has("is_word", piece.text)):
            continue
        if told_before and k < strong[-1]:
            continue  # "correction: i wrote V5 but the stage should be V6"
        if not strong and any(k <= n < max(corrects, default=0) for n in wrote):
            continue  # "oops, i told you 9 whites, make that 11"
        if strong and k < strong[-1] and made.has("lone_correct", piece.text):
            continue  # "correction for tinkers: white should read 12, not 10"
        if k and "NOT" in line[k - 1].types:
            continue  # "no change from last week"
        named = all(
            p.kind in ("break", "sign")
            or not p.entries
            or is_any(p, ("FIELD", "COURTESY", "LINK", "TOPIC"))
            or made.has("size", p.text)
            or (n == 0 and is_any(p, ("NUMBER_WORD",)))
            for n, p in enumerate(line[:k])
        )
        if not made.has("strong_correct", piece.text) and not (named and k <= 4) and not quoted:
            continue
        after = _without_mail(line[k + 1 :], made)
        while after and (after[0].kind in ("sign", "break") or "CORRECT" in after[0].types):
            after = after[1:]
        if made.has("sorry", piece.text) and after and made.has("sorry_for", after[0].text):
            continue  # "perdón por la demora en escribir"
        if after and made.has("sorry", piece.text.split(" ")[0]) and _tells_why(after):
            return False  # "sorry its late, kestrel 6 plants 2 white"
        if len(after) == 1 and "NONE" in after[0].types and not after[0].types.keys() & {"NUMBER_WORD"}:
            return False  # "change nothing"
        if after and piece.text.endswith(" meant") and _intended(after):
            continue  # "I meant to write last Friday"
        if after and made.has("strong_correct", piece.text) and tells_of_else(line[:k], after, made):
            continue  # "powder where there ought to be soil. 6 plants, 12 white"
        if after and _slips_elsewhere(line[:k], piece, after, made):
            continue  # "had to fix the truck, 6 plants, 12 white"
        if after and made.has("supposes", piece.text) and after[0].kind == "word" and not after[0].types:
            continue  # "deve ser ferrugem": a guess
        if after:
            sure = made.has("strong_correct", piece.text)
            return _change(context, line[:k], after, sure)
        if k == 0 and made.has("lone_correct", piece.text):
            context.complain("no_change", line[0].start, line[-1].end)
            return True
        return False
    return False


def tells_of_else(before: list[Piece], after: list[Piece], made: Table) -> bool:
    """ "Kestrel should be (gone over again in five days), 6 plants, 12 white": no value of a note in the clause.

    Only where plants and what was found on them are told beside it: else it is a value in other words.
    """
    end = next((n for n, p in enumerate(after) if p.kind in ("break", "line") or p.text == "."), len(after))
    clause, others = after[:end], [*before, *after[end:]]
    kinds = (("PLANTS", "DUG"), ("COLOUR", "FEMALES", "NONE"))
    if not all(any(is_any(p, told) for p in others) for told in kinds) or not any(map(number_like, others)):
        return False
    if any(made.has("by_now", word) for p in clause for word in p.text.split(" ")):
        return True
    ahead = any(is_any(p, ("UNIT", "WEEKDAY", "LOOK")) and "COLOUR" not in p.types for p in clause)
    valued = (
        "MOISTURE",
        "TEXTURE",
        "TOOL",
        "DUG",
        "RESISTANCE",
        "SOURCE",
        "SOAKED",
        "COLOUR",
        "CORRECT",
        "ROOT",
        "TOP",
    )
    told = any(number_like(p) or p.kind in ("stage", "day", "series") or is_any(p, valued) for p in clause)
    return ahead or not told


def _slips_elsewhere(before: list[Piece], piece: Piece, after: list[Piece], made: Table) -> bool:
    """ "Had to (fix) the truck, ..", "the signal (was off), ..", "me (equivoqué) de camino, ..": nothing of a note.

    But for a verb of changing, only where plants and what was found on them are told behind it.
    """
    thing = _turns_else(after, made)
    first = piece.text.partition(" ")[0]
    verb = made.has("is_word", first) and first != piece.text and not made.has("strong_correct", piece.text)
    thing = thing or (verb and bool(before) and _thing(before[-1], made))
    counted = [any(is_any(p, kinds) for p in after) for kinds in (("PLANTS", "DUG"), ("COLOUR", "FEMALES", "NONE"))]
    return thing and (made.has("set_verb", piece.text) or (all(counted) and any(map(number_like, after))))


def _turns_else(after: list[Piece], made: Table) -> bool:
    """ "(Fix) the truck, (mistake) with the seed": little words, and a thing that is none of a note."""
    lead = 0
    while lead < min(MOST_LEAD, len(after)) and (linking(after[lead]) or made.has("name_article", after[lead].text)):
        lead += 1
    return 0 < lead < len(after) and _thing(after[lead], made)


MOST_LEAD = 3
"""Little words before a thing: "with all the (seed)" (judgement)."""


def _thing(piece: Piece, made: Table) -> bool:
    """A word of no meaning here, and none for a note or a slip."""
    ours = ("mail_word", "note_noun", "note_word", "sent_count", "slip_noun", "visit_noun", "date_noun", "plea_word")
    own = (*ours, "note_thing", "it_word", "amend_cue", "really", "before_says")
    return piece.kind == "word" and not piece.types and not any(made.has(manner, piece.text) for manner in own)


def _put_under(line: list[Piece], k: int, made: Table) -> bool:
    """ "(Put) this down under Kestrel. 5 plants, ..": where a note belongs, and its plants told in another clause."""
    end = next((n for n in range(k, len(line)) if line[n].kind == "break"), len(line))
    clause = line[k:end]
    under = any(made.has("put_under", p.text) and is_any(q, ("FIELD",)) for p, q in itertools.pairwise(clause))
    if not under or any(number_like(p) for p in clause):
        return False
    return any(number_like(p) and is_any(q, ("PLANTS",)) for p, q in itertools.pairwise(line[end:]))


def _intended(after: list[Piece]) -> bool:
    """ "(I meant) to write": "to" and a word that is none of ours."""
    return is_any(after[0], ("RENAME_TO",)) and len(after) > 1 and after[1].kind == "word" and not after[1].types


def _tells_why(after: list[Piece]) -> bool:
    """ "(Sorry its) late, ..": does the first clause tell of nothing seen, and another one follow?"""
    stop = next((n for n, p in enumerate(after) if p.kind == "break"), len(after))
    clause = after[:stop]
    plain = all(p.kind == "word" and (not p.types or linking(p)) for p in clause)
    return stop < len(after) and bool(clause) and plain and any(p.kind == "number" for p in after[stop:])


def cannot_go(context: Context, line: list[Piece]) -> bool:
    """ "I can't make tinkers thursday, make it saturday": another day to go, and nothing put right.

    Also "i said i'd go thursday but it's too wet".
    """
    made, said = table(context.language), context.text[line[0].start : line[-1].end]
    says = made.said("ask_cannot", said) or made.said("was_to_go", said)
    return says and any(is_any(p, ("WEEKDAY", "TODAY")) or p.kind == "day" for p in line)


def denied_number(piece: Piece, made: Table) -> list[Piece]:
    """ "Should be 4 not 1": where "not 1" is also a way to say none, it denies the number here."""
    words = piece.text.split(" ")
    if "NONE" not in piece.types or len(words) != 2 or not words[1].isdigit():
        return [piece]
    meanings = made.singles.get(words[0], ())
    cut = piece.start + len(words[0])
    return [
        Piece("word", words[0], piece.start, cut, meanings, None, piece.spaced),
        Piece("number", words[1], piece.end - len(words[1]), piece.end, (), int(words[1]), True),
    ]


def without_note_word(line: list[Piece], made: Table) -> list[Piece]:
    """A line without the "one" of "that kestrel one was 5 plants"."""
    return [piece for n, piece in enumerate(line) if not _stands_for_note(line, n, made)]


def without_excuse(line: list[Piece], made: Table) -> list[Piece]:
    """ "Make that 7 brown, was reading off the wrong line": without a clause that only tells how the slip came."""
    clauses: list[list[Piece]] = [[]]
    for piece in line:
        if piece.kind == "break":
            clauses.append([])
        clauses[-1].append(piece)
    kept = [_without_tail(clause, made) for clause in clauses if not _excuses(clause, made)]
    told = [piece for clause in kept for piece in clause]
    return told if kept and len(told) < len(line) else line


def _without_tail(clause: list[Piece], made: Table) -> list[Piece]:
    """ "Escrevi 12 sem óculos", "not the 2nd like I wrote": a clause without such words at its end."""
    end = len(clause) - (bool(clause) and clause[-1].kind in ("break", "sign", "line"))
    for first in range(max(1, end - LONGEST_EXCUSE), end):
        tail = clause[first:end]
        words = " ".join(piece.text for piece in tail)
        if all(piece.kind == "word" for piece in tail) and made.has("slip_reason", words):
            return [*clause[:first], *clause[end:]]
    return clause


_LOOKED = Entry("DUG", "")
LONGEST_EXCUSE = 4
"""Words of the longest phrase for how a slip came (judgement)."""


def _excuses(clause: list[Piece], made: Table) -> bool:
    """Is it how a slip came ("numbers got flipped"), and neither a number nor a value?"""
    valued = ("COLOUR", "PLANTS", "FIELD", "STAGE_NAME", "DUG", "TOOL", "MOISTURE", "NONE", "WEEKDAY", "MONTH")
    dug = [p for p in clause if is_any(p, valued) and not linking(p) and p.types.get("DUG", _LOOKED).value != "any"]
    if dug or any(p.kind not in ("word", "break", "sign") for p in clause):
        return False
    words = [word for p in clause if p.kind == "word" for word in p.text.split(" ")]
    runs = (words[n : n + size] for size in range(1, LONGEST_EXCUSE + 1) for n in range(len(words)))
    return any(made.has("slip_reason", " ".join(run)) for run in runs)


def _stands_for_note(line: list[Piece], n: int, made: Table) -> bool:
    """ "That kestrel one was 5 plants": a word for the note behind the field's name, and no number."""
    piece = line[n]
    if not 0 < n < len(line) - 1 or "NUMBER_WORD" not in piece.types or piece.types["NUMBER_WORD"].value != "1":
        return False
    pointed = n > 1 and not line[n - 1].types and made.has("points_to", line[n - 2].text)  # "that widows one was .."
    verb = made.has("is_word", line[n + 1].text) or made.has("note_has", line[n + 1].text)
    return verb and ("FIELD" in line[n - 1].types or pointed)


def _without_mail(after: list[Piece], made: Table) -> list[Piece]:
    """What stands behind "correction to my mail of last night:", of the words before the colon only a field's name."""
    colon = next((n for n, p in enumerate(after[:LOOKED_AT]) if p.text == ":"), 0)
    before = after[:colon]
    if not any(made.has("mail_word", word) for p in before for word in p.text.split()):
        return after
    if any(p.kind == "number" for p in before):
        return after
    return [p for p in before if "FIELD" in p.types] + after[colon + 1 :]


def other_field(context: Context, line: list[Piece]) -> bool:
    """ "that was old mill not kestrel": two names of the crew with a "not" between."""
    made = table(context.language)
    if line and "NOT" in line[0].types and any(_denies(piece, made) for piece in line[1:]):
        line = line[1:]  # "no that last one was kestrel not tinkers"
    denied = [k for k, piece in enumerate(line) if _denies(piece, made)]
    if len(denied) != 1 or not context.fields:
        return False
    named = [k for k, piece in enumerate(line) if "FIELD" in piece.types]
    if len(named) == 2 and named[0] < denied[0] < named[1] and not any(p.kind == "number" for p in line):
        words = [p for p in line if len(p.text) > 1 or "LINK" not in p.types]  # "a nota" is no yellow
        told = any(is_any(p, ("COLOUR", "PLANTS", "NONE", "DUG", "NOT_LOOKED", "STAGE")) for p in words)
        led = linking(line[named[0] - 1]) if named[0] else True
        turned = _denied_first(line, denied[0], named[1], made)
        if (
            not told
            and led
            and named[1] - denied[0] <= (MOST_BETWEEN_NAMES if turned else 2) > denied[0] - named[0] - 1
        ):
            new, old = (written(context.text, line[k].start, line[k].end) for k in named)
            new, old = (old, new) if turned else (new, old)
            return context.command("correct", line[0].start, line[-1].end, what="field", value=new, old=old)
    refused = len(named) == 2 and denied[0] < named[0] <= denied[0] + 3 and named[1] - named[0] <= MOST_BETWEEN_NAMES
    between = line[named[0] + 1 : named[1]] if refused else []
    was = any("CORRECT" in p.types or made.has("is_now", p.text) or made.has("but_rather", p.text) for p in between)
    was = was or (refused and line[denied[0] :] == [line[denied[0]], line[named[0]], *between, line[named[1]]])
    if was and not any(p.kind == "number" for p in line):
        old, new = (_name(context, line[k]) for k in named)  # "não era baixada, era sede velha"
        return context.command("correct", line[0].start, line[-1].end, what="field", value=new, old=old)
    names = Names(context.text, line, made, context.fields)
    said = line[: denied[0]]
    lead = max((k for k, p in enumerate(said) if made.has("is_now", p.text) or made.has("of_note", p.text)), default=-1)
    sides = [_bare(said[lead + 1 :]), _bare(line[denied[0] + 1 :])]  # "that last one was old mill, not kestrel"
    if not all(0 < len(side) <= 5 for side in sides):
        return False
    spans = [(side[0].start, side[-1].end) for side in sides]
    if not all(names.like_known(start, end) for start, end in spans):
        return False
    new, old = (written(context.text, start, end) for start, end in spans)
    new, old = (old, new) if _denied_first(line, denied[0], len(line), made) else (new, old)
    return context.command("correct", line[0].start, line[-1].end, what="field", value=new, old=old)


MOST_BETWEEN_NAMES = 5
"""Pieces from a "no" to a name, or between two names, of "tacuara no era, era de zanja sur" (judgement)."""


def _denies(piece: Piece, made: Table) -> bool:
    """ "No", also within "no era"."""
    first, *rest = piece.text.split(" ")
    return "NOT" in piece.types or ("CORRECT" in piece.types and bool(rest) and made.denies(first))


def _denied_first(line: list[Piece], denied: int, second: int, made: Table) -> bool:
    """ "Tacuara no, era zanja sur": is the "no" of the name before it, as a stop behind it tells?"""
    stops = any(p.kind == "break" for p in line[denied + 1 : second])
    return stops and not any(made.has("is_now", p.text) or "CORRECT" in p.types for p in line[:denied])


def _meant_field(context: Context, line: list[Piece]) -> bool:
    """ "I meant South Dietz", "last one = Kess 80": what corrects, or tells the last note, and a name of the crew."""
    made = table(context.language)
    last = _tells_last(line, made)
    line = line[last:]
    sure = last > 0 or any(made.has("strong_correct", p.text) for p in line) or "CORRECT" in line[0].types
    run = [n for n, p in enumerate(line) if "FIELD" in p.types or not (_little(p) or "COURTESY" in p.types)]
    more = context.text[line[-1].end :].strip(" .!?\n")  # "Sorry, Old Mill." above the lines of a note
    if not sure or not run or run[-1] - run[0] >= len(run) or not context.fields or more:
        return False
    said = line[run[0] : run[-1] + 1]
    names = Names(context.text, line, made, context.fields)
    kinds = [p.kind for p in said]
    numbered = kinds[-1] == "number" and names.likeness(said[0].start, said[-1].end) >= 99
    if any(kind != "word" for kind in (kinds[:-1] if numbered else kinds)):
        return False
    if not names.like_known(said[0].start, said[-1].end):
        return False
    name = _name(context, said[0]) if len(said) == 1 else written(context.text, said[0].start, said[-1].end)
    return context.command("correct", line[0].start, line[-1].end, what="field", value=name)


LONGEST_LAST = 6
"""Words, and the sign or "was" behind them, that may tell which note is meant (judgement)."""


def _tells_last(line: list[Piece], made: Table) -> int:
    """The end of "last one =", "that last note was": what tells that the note before is meant; 0 without it."""
    for size in range(min(LONGEST_LAST, len(line) - 1), 1, -1):
        said = " ".join(p.text for p in line[: size - 1])
        ends = line[size - 1]
        joins = ends.text in ("=", ":") or any(made.has(trait, ends.text) for trait in ("is_now", "is_word"))
        if joins and made.has("last_note", said):
            return size
    return 0


def _sent_as(context: Context, line: list[Piece]) -> bool:
    """ "What i sent as kestrel was old mill", "the kestrel note is really tinkers": one field named for another."""
    made = table(context.language)
    named = [k for k, piece in enumerate(line) if "FIELD" in piece.types]
    if len(named) != 2 or any(p.kind in ("number", "range", "series") for p in line):
        return False
    first, second = named
    before, between = line[:first], line[first + 1 : second]
    is_now = any(made.has("is_now", p.text) or made.has("is_word", p.text) or "CORRECT" in p.types for p in between)
    sent = bool(before) and made.has("as_word", before[-1].text) and any(made.has("wrote", p.text) for p in before)
    note = any(made.has("note_word", p.text) or made.has("mail_word", p.text) for p in (*before, *between))
    really = note and any(made.has("really", word) for p in between for word in p.text.split(" "))
    if not is_now or not (sent or really):
        return False
    old, new = (_name(context, line[k]) for k in named)
    return context.command("correct", line[0].start, line[-1].end, what="field", value=new, old=old)


def _instead(context: Context, line: list[Piece]) -> bool:
    """Two values and a word that tells the old from the new: "donde dice 7 amarillas son 17", "puse 4 y eran 14".

    Also "troca 12 por 21 nas brancas", "no eran 6, eran 9 plantas", and one value behind a verb of changing: "cambiá
    las blancas, son 14".
    """
    made = table(context.language)
    strong = any(made.has("strong_correct", p.text) for p in line)
    told = any(p.kind == "word" and (_tells_change(p, made) or (strong and _was(p, made))) for p in line)
    if len(line) > LOOKED_FAR + LOOKED_AT or not told:
        return False
    if len({p.text for p in line if "FIELD" in p.types}) > MOST_NAMED:
        return False  # "6 plants each in Kestrel, Depot and Tinkers. None in any of them except Depot, where I had 2"
    pieces = [in_figures(piece, made) for piece in number_words(stage_words(line, made), made)]
    at = [k for k, p in enumerate(pieces) if p.kind in ("number", "stage")]
    if len(at) == 3 and pieces[at[0]].value == pieces[at[2]].value and _denied_again(pieces[at[1] + 1 : at[2]]):
        pieces, at = pieces[: at[1] + 1], at[:2]  # "i said nine white, it was nineteen not nine"
    if not 0 < len(at) <= 2 or len({pieces[k].kind for k in at}) > 1:
        return False
    order = _old_and_new(pieces, at, made)
    if order is None:
        return False
    old, new = order
    if new.kind == "stage":
        what: str | None = "stage"
        now: Any = stage(new.text)
        then: Any = stage(old.text) if old is not None else None
    else:
        what = next((p.types["COLOUR"].value for n, p in enumerate(pieces) if _names_colour(pieces, n)), None)
        others = (("plants", "PLANTS"), ("total", "FEMALES"), ("total", "TOTAL"))
        what = what or next((w for w, t in others if any(t in p.types for p in pieces)), None)
        now, then = new.value, old.value if old is not None else None
    colours = {p.types["COLOUR"].value for n, p in enumerate(pieces) if _names_colour(pieces, n)}
    field = next((_name(context, p) for p in line if "FIELD" in p.types), None) or _short_name(context, line)
    if what is None or len(colours) > 1 or isinstance(now, float):
        return False
    day = _note_day(context, line)
    return context.command(
        "correct", line[0].start, line[-1].end, field=field, what=what, value=now, old=then, date=day
    )


MOST_NAMED = 2
"""Fields that a line may name which puts one value right (judgement)."""


def _short_name(context: Context, line: list[Piece]) -> str | None:
    """A name of the crew in short ("tranquera" for La Tranquera) among words that mean nothing else."""
    names = Names(context.text, line, table(context.language), context.fields)
    for size in (3, 2, 1) if context.fields else ():
        for k in range(len(line) - size + 1):
            run = line[k : k + size]
            led = k > 0 and (names.made.has("at", line[k - 1].text) or names.made.has("of_note", line[k - 1].text))
            free = all(p.kind == "word" and (not p.types or (led and p.types.keys() == {"SPOT"})) for p in run)
            if free and names.likeness(run[0].start, run[-1].end) >= 99:
                return written(context.text, run[0].start, run[-1].end)
    return None


def _name(context: Context, piece: Piece) -> str:
    """A field's name without the word for field before it."""
    name = written(context.text, piece.start, piece.end)
    words = name.split(" ")
    lettered = not any(map(str.isdigit, name))  # "cuadro sur" of the crew is its whole name, "lote 7" is also "7"
    if lettered and fold(name) in {fold(" ".join(known.split())) for known in context.fields}:
        return name
    return " ".join(words[1:] if len(words) > 1 and is_field_word(fold(words[0])) else words)


def in_figures(piece: Piece, made: Table) -> Piece:
    """A word that is nothing but a number, as the number ("são dezessete")."""
    word = piece.types.get("NUMBER_WORD")
    if word is None or made.has("careful", piece.text):
        return piece
    return Piece("number", piece.text, piece.start, piece.end, (), int(word.value), piece.spaced)


def _tells_change(piece: Piece, made: Table) -> bool:
    return any(made.has(trait, piece.text) for trait in ("instead_of", "wrote", "set_verb")) or "NOT" in piece.types


def _was(piece: Piece, made: Table) -> bool:
    """ "Yel shd be 6, had 9": a word for what was told before, beside one for what should be."""
    return made.has("had_before", piece.text)


def _names_colour(pieces: list[Piece], n: int) -> bool:
    """A word for a color, or its letter right before what corrects it ("w shd be 6")."""
    if "COLOUR" not in pieces[n].types:
        return False
    return len(pieces[n].text) > 2 or (n + 1 < len(pieces) and "CORRECT" in pieces[n + 1].types)


def _old_and_new(pieces: list[Piece], at: list[int], made: Table) -> tuple[Piece | None, Piece] | None:
    """Which of one or two values is the old one and which the new, or ``None`` when no word tells it."""
    sets = next((k for k, p in enumerate(pieces[:3]) if made.has("set_verb", p.text)), None)
    if len(at) == 1:
        behind = sets is not None and sets < at[0] and any(made.has("is_now", p.text) for p in pieces[sets : at[0]])
        return (None, pieces[at[0]]) if behind else None
    first, second = at
    lead = next((k for k, p in enumerate(pieces) if made.has("instead_of", p.text)), None)
    if lead is not None:
        return (pieces[first], pieces[second]) if lead < first else (pieces[second], pieces[first])
    between = pieces[first + 1 : second]
    swaps = sets is not None and sets < first and any(made.has("swapped_for", p.text) for p in between[-2:])
    now = any(made.has("is_now", p.text) for p in between)
    unit = second + 1 < len(pieces) and is_any(pieces[second + 1], ("UNIT", "MEASURE"))
    if unit or second - first > LOOKED_AT:
        return None  # "put the spade under five plants .. again in two weeks"
    wrote = now and any(made.has("wrote", p.text) for p in pieces[max(0, first - WROTE_BEFORE) : first])
    strong = any(made.has("strong_correct", p.text) for p in pieces[:first])
    if not wrote and any(made.has("wrote", p.text) or (strong and _was(p, made)) for p in between):
        told = any("CORRECT" in p.types or made.has("is_now", p.text) for p in pieces[:first])
        return (pieces[second], pieces[first]) if told else None  # "amarelas são 7, eu tinha informado 5"
    denied = now and any("NOT" in p.types and _leads(pieces[k + 1 : first]) for k, p in enumerate(pieces[:first]))
    if swaps or wrote or denied:
        return pieces[first], pieces[second]
    refused = any("NOT" in p.types and _leads(between[k + 1 :]) for k, p in enumerate(between))
    told = any("CORRECT" in p.types and not linking(p) for p in pieces[second:])
    erred = [trait for trait in ("wrote", "strong_correct", "erred") for p in pieces[:first] if made.has(trait, p.text)]
    told = told or bool(erred)
    answers = made.has("answers_no", pieces[0].text) and any(made.has("is_now", p.text) for p in pieces[1:first])
    told = told or answers  # "no, that was 8 plants at kestrel, not 6"
    return (pieces[second], pieces[first]) if refused and told else None  # "estaba en V5, no V6, corregir por favor"


def _denied_again(between: list[Piece]) -> bool:
    """Nothing but "not", and little words?"""
    return any("NOT" in p.types for p in between) and all("NOT" in p.types or linking(p) for p in between)


def _leads(between: list[Piece]) -> bool:
    """Only little words and "was"?"""
    return all(linking(p) or "CORRECT" in p.types for p in between)


def _bare(side: list[Piece]) -> list[Piece]:
    """A side of a "not" without the little words around the name."""

    while side and _little(side[0]):
        side = side[1:]
    while side and _little(side[-1]):
        side = side[:-1]
    return side


def _little(piece: Piece) -> bool:
    """Is it a sign, a little word or a word for correcting?"""
    return piece.kind in ("break", "sign") or is_any(piece, ("CORRECT", "FIELD_WORD")) or linking(piece)


LOOSE_WORDS = 4
"""Words left over; with more "it was" begins a story, not a correction (judgement)."""


def _change(context: Context, before: list[Piece], after: list[Piece], sure: bool) -> bool:
    if sure and _renamed(context, before, after):
        return True
    made = table(context.language)
    old = read_facts(context, before) if before else []
    new = read_facts(context, after)
    loose = sum(len(context.text[f.start : f.end].split()) for f in new if f.kind == "text")
    told = {
        "not_looked",
        "look_again",
        "tops",
        "roots",
        "nodules",
        "spot",
        "check",
        "spray",
        "too_many",
        "soaked",
        "how",
    }
    many = len([f for f in new if value_of(f)[0] is not None]) > 2
    kinds = {f.kind for f in new}
    visit = "plants" in kinds and bool(kinds & {"none", "spray"})  # "it was sprayed friday. dug 4 none"
    story = visit or many or loose > LOOSE_WORDS or len(kinds & told) > 1 or "not_looked" in kinds
    story = story or any(fact.kind == "not_looked" for fact in old)  # "no saqué plantas: recién está en V2"
    story = story or (not before and {"plants", "how"} <= kinds and "\n" in context.text[: after[0].start])
    if story and not sure:
        return False  # "Encontramos hembras en Kestrel.\nFueron 10 plantas con pala"
    whats = [what for what, _ in (value_of(f) for f in new) if what is not None]
    forecast = any(p.text == "by" and is_any(q, ("WEEKDAY", "TODAY", "MONTH")) for p, q in itertools.pairwise(after))
    if forecast or (len(whats) > 2 and len(set(whats)) < len(whats)):
        return False  # "should be R1 by friday. today V6, 4 plants 0"
    known = next((p for p in [*before, *after] if "FIELD" in p.types), None)
    field = next((f.first("FIELD") for f in [*old, *new] if f.kind == "field"), None)
    if known is not None and field is not None:
        field = _known_among([*old, *new], known, context) or field
    changes = pairs_of([f for f in new if f.kind != "field"])
    bare = [f.numbers[0] for f in new if f.kind == "per_plant" and len(f.numbers) == 1]
    if len(bare) == 1 and not changes:
        refused = [was for f in new if f.kind == "refused" for _, was in (_denied(f),) if was is not None]
        changes = _of_what(old, before, bare[0])
        changes = [(w, v, refused[0] if refused and was is None else was) for w, v, was in changes]
    elif old:
        olds = {what: value for what, value in (value_of(f) for f in old) if what is not None}
        if len(olds) > 1 and changes and not any(what in olds for what, _, _ in changes):
            return False  # "6 plants none. variety supposed to be resistant": a note
        changes = [(what, value, olds.get(what) if was is None else was) for what, value, was in changes]
    changes = _denied_of(old, changes)
    if {"plants", "method"} <= {what for what, _, _ in changes}:
        changes = [c for c in changes if c[0] != "method" or any(f.has("TOOL") for f in new)]  # "nine plants I dug"
    if len({what for what, _, _ in changes}) < len(changes):
        return False  # "no era el martes, fui el miércoles", "kestrel was pulled, i put dug"
    whole = {"method", "soaked", "outcome", "moisture", "stage"} & {what for what, _, _ in changes}
    if len(changes) > MOST_CHANGES and whole:
        return False  # "sorry if this is wrong, I'm at gravel pit, I dug up 5 plants and rinsed ..": a note
    start, end = (before or after)[0].start, after[-1].end
    if [(what, was) for what, _, was in changes] == [("date", None)] and _tells_which(context, new, made):
        return False  # "perdón, lo de los teros de hoy no va": which note, and no other day
    if field is not None and _no_name(context, field, start, end):
        return False  # "that's a 88788 bean, supposed to be resistant. Makes you wonder."
    days = [value for what, value, was in changes if what == "date" and was is None]
    visited = context.quietly(days[0]) if days and len(changes) > len(days) else None
    told_on = [value for what, value in (value_of(f) for f in old) if what == "date"]
    noted = any(made.has("mail_word", p.text) or made.has("wrote", p.text) for p in before)
    if noted and len(told_on) == 1 and not days and "date" not in {what for what, _, _ in changes}:
        visited = context.quietly(told_on[0])  # "kestrel note from friday says 5 plants but it should say 8"
    seeds = bool(changes) and all(what in ("planted", "resistance") and was is None for what, _, was in changes)
    if (
        seeds
        and _beside_more(context, start, end)
        and made.has_any("supposed_to_be", _words_of(context, max(0, start - SAID_AT), end))
    ):
        return False  # "that's a 88788 bean, supposed to be resistant": what is said of a seed
    if seeds and not sure and len(changes) > 1:
        return False  # "please record for tinkers that it was planted on May 7 to a resistant variety"
    added = any(made.has("adds", x.text) for x in scan(context.text[max(0, start - SAID_AT) : end]))
    if added and [(what, was) for what, _, was in changes] == [("planted", None)]:
        own = {"planted": context.quietly(changes[0][1])} | _acres(context, start, end)
        return context.command("field", start, end, name=field, **own)  # "forgot to say, tinkers was planted may 9"
    for what, value, was in changes:
        if visited is not None and what == "date":
            continue
        now, then = context.quietly(value), context.quietly(in_month(was, value))
        now, then = as_told(what, now), as_told(what, then)
        context.command("correct", start, end, field=field, what=what, value=now, old=then, date=visited)
    return bool(changes)


def _no_name(context: Context, field: str, start: int, end: int) -> bool:
    """In a mail of more than this, with the crew's names known: are these words none of them?"""
    if not _beside_more(context, start, end):
        return False
    if not context.listed:
        first = field.split(" ")[0]
        made = table(context.language)  # "corrijo o buriti torto"
        return first != field and (made.has("strong_correct", first) or made.has("slip_below", first))
    names = Names(field, [], table(context.language), context.fields)
    folded = {" ".join(known.lower().split()) for known in context.fields}
    return field not in folded and not names.like_known(0, len(field))


def _beside_more(context: Context, start: int, end: int) -> bool:
    """Is it one of several things that a mail tells?"""
    return len((context.text[:start] + context.text[end:]).strip()) > SAID_BESIDE


def _words_of(context: Context, start: int, end: int) -> list[str]:
    """The phrases of up to three words of a stretch of the text."""
    words = [x.text for x in scan(context.text[start:end])]
    return [" ".join(words[n : n + size]) for n in range(len(words)) for size in (1, 2, 3)]


SAID_BESIDE = 20
"""Letters beside a correction from which it is one of several things a mail tells (judgement)."""


def _denied_of(old: list[Fact], changes: list[Change]) -> list[Change]:
    """ "The soil wasn't dry like I said, it was moist": what is denied before is the old value of the one change."""
    refused = [fact for fact in old if fact.kind == "refused"]
    if len(refused) != 1 or len(changes) != 1 or changes[0][2] is not None:
        return changes
    what, value, _ = changes[0]
    shade, was = _denied(refused[0])
    counts = isinstance(was, int) == (what in _NUMBERED)
    fits = counts and shade in (None, what) and what != "date" and _goes_with(what, refused[0])
    return [(what, value, was)] if fits and was not in (None, value) else changes


def _note_day(context: Context, line: list[Piece]) -> Any:
    """The day of the note that is put right: "tuesday's count from kestrel", "el conteo del martes"."""
    made = table(context.language)
    ps = day_words(line, made)
    days = [n for n, p in enumerate(ps) if p.kind == "day" or (is_any(p, ("WEEKDAY",)) and "FIELD" not in p.types)]
    if len(days) != 1 or (days[0] and made.has("wrote", ps[days[0] - 1].text)):
        return None  # "lo que mandé anoche": when it was sent
    beside = (*ps[max(0, days[0] - NOTE_BESIDE) : days[0]], *ps[days[0] + 1 : days[0] + 1 + NOTE_BESIDE])
    if not any(made.has(trait, p.text) for p in beside for trait in ("mail_word", "note_noun", "sent_count")):
        return None
    day = ps[days[0]]
    named = day.kind != "day"
    return context.quietly(DayWritten(day.text, weekday=int(day.types["WEEKDAY"].value)) if named else day.value)


NOTE_BESIDE = 3
"""Pieces around a day in which a word for a note or a count tells that its day is meant (judgement)."""


def _tells_which(context: Context, facts: list[Fact], made: Table) -> bool:
    """Is the day led by a word that says of which note ("lo de hoy"), and not by "it was" ("era de ayer")?"""
    day = next((fact for fact in facts if fact.kind == "date"), None)
    said = [x.text for x in scan(context.text[max(0, day.start - SAID_AT) : day.start])] if day is not None else []
    return len(said) > 1 and made.has("of_note", said[-1]) and not made.has("is_now", said[-2])


def as_told(what: str, value: Any) -> Any:
    """A value as notes tell it: days to the next look as ``{"days": 14}``."""
    return {"days": value} if what == "look_again" and isinstance(value, int) else value


def in_month(was: Any, value: Any) -> Any:
    """ "El 12 de mayo no el 2": the old day is of the same month."""
    if isinstance(was, DayWritten) and isinstance(value, DayWritten) and was.day and was.month is None:
        return replace(was, month=value.month)
    return was


def _known_among(facts: list[Fact], known: Piece, context: Context) -> str | None:
    """The field of the crew's among those read ("can you change dry creek yellow to 12")."""
    names = [f.first("FIELD") for f in facts if f.kind == "field" and f.start < known.end and known.start < f.end]
    return names[0] if names else written(context.text, known.start, known.end)


def _renamed(context: Context, before: list[Piece], after: list[Piece]) -> bool:
    """ "The note i sent as tinkers was really sycamore lane": one name of the crew on each side, and no more behind."""
    sides = [[p for p in side if "FIELD" in p.types] for side in (before, after)]
    if [len(side) for side in sides] != [1, 1] or len(_bare(after)) != 1:
        return False
    old, new = (written(context.text, side[0].start, side[0].end) for side in sides)
    return context.command("correct", before[0].start, after[-1].end, what="field", value=new, old=old)


_NUMBERED = frozenset({"white", "yellow", "tan", "brown", "plants", "total", "look_again"})
"""What a bare number can be the new value of."""


def _of_what(old: list[Fact], before: list[Piece], number: int) -> list[Change]:
    """ "white should be 14": the noun stands before the word of correction."""
    for fact in old:
        what, value = value_of(fact)
        if what is not None and what in _NUMBERED:
            return [(what, number, value)]
        if fact.kind == "shades" and len(fact.all("COLOUR")) == 1:
            return [(fact.first("COLOUR"), number, None)]
    last = next((p for p in reversed(before) if p.kind == "word" and not is_any(p, ("TOTAL",))), None)
    if last is not None and len(last.text) == 1 and "COLOUR" in last.types:
        return [(last.types["COLOUR"].value, number, None)]
    return [("plants", number, None)] if any(is_any(p, ("PLANTS",)) for p in before) else []


def read_facts(context: Context, pieces: list[Piece]) -> list[Fact]:
    """What a stretch of a line says, as facts; nothing when some of it would have to be asked about."""
    draft = Draft(context.text, context.language, list(pieces), context.fields)
    facts = parse(draft)
    return [] if draft.asks else facts


# --- what a fact says, as a pair


def value_of(fact: Fact) -> tuple[str | None, Any]:
    """What a fact says: (what, value), or (None, None) when it cannot be corrected by a short reply."""
    numbers = fact.numbers
    one = numbers[0] if len(numbers) == 1 else None
    match fact.kind:
        case "colour_count" if one is not None:
            return fact.first("COLOUR"), one
        case "plants" if one is not None:
            return "plants", one
        case "total_count" if one is not None:
            return "total", one
        case "per_plant" if len(numbers) > 1:
            return "per_plant", tuple(numbers)
        case "stage" | "moisture" | "texture":
            return fact.kind, fact.first(fact.kind.upper())
        case "how":
            value = fact.first("TOOL") or fact.first("DUG")
            return ("method", value) if value != "any" else (None, None)
        case "soaked":
            return "soaked", fact.first("SOAKED") == "yes"
        case "date":
            return "date", fact.first("DATE")
        case "variety" if fact.has("RESISTANCE"):
            return "resistance", fact.first("RESISTANCE")
        case "none":
            return "outcome", "none_seen"
        case "planted" if fact.has("DATE"):
            return "planted", fact.first("DATE")
        case "look_again" if fact.has("SPAN") and fact.first("SPAN")[0] == "days":
            return "look_again", fact.first("SPAN")[1]
        case "look_again" if fact.has("LOOK") and fact.has("DATE") and not (fact.first("DATE").days_ago or 0) > 0:
            return "look_again", DayAhead(fact.first("DATE"))
    return None, None


_OLD_OF = {"STAGE": "stage", "MOISTURE": "moisture", "TEXTURE": "texture", "TOOL": "method", "DUG": "method"}
"""What the denied word can be the old value of; what is not named here goes with any."""


def _goes_with(what: str, fact: Fact) -> bool:
    """Can what is denied be the old value? "V4, no cavé" says two things; "no. 12 white on 6 plants" as well."""
    if what == "plants" and fact.has("COLOUR"):
        return False
    denied = [word.type for word in fact.words if word.type in _OLD_OF]
    return not denied or _OLD_OF[denied[0]] == what


def _denied(fact: Fact) -> tuple[str | None, Any]:
    """What a "not" clause denies: a colour if it names one, and the value."""
    for type_ in ("NUMBER", "STAGE", "MOISTURE", "TEXTURE", "TOOL", "DUG", "DATE", "RESISTANCE", "FIELD"):
        if fact.has(type_):
            return fact.first("COLOUR"), fact.first(type_)
    return fact.first("COLOUR"), None


def pairs_of(facts: list[Fact]) -> list[Change]:
    """Changes from facts: what is denied right behind or before a value is its old value."""
    out: list[Change] = []
    loose: Any = None
    denied: Any = None
    refused: Fact | None = None
    for fact in facts:
        if fact.kind == "per_plant" and len(fact.numbers) == 1:
            loose = fact.numbers[0]
        elif fact.kind == "refused":
            colour, was = _denied(fact)
            if loose is not None and colour is not None:
                out.append((colour, loose, was))
                loose = None
            elif out and out[-1][2] is None and not _goes_with(out[-1][0], fact):
                return []
            elif out and out[-1][2] is None:
                out[-1] = (out[-1][0], out[-1][1], was)
            else:
                denied, refused = was, fact
        else:
            what, value = value_of(fact)
            if what is not None and refused is not None and denied is not None and not _goes_with(what, refused):
                return []
            if what is not None and out and out[-1][0] == what and value in out[-1][1:]:
                continue  # "not pulled by hand", "dug with a spade": said twice
            if what is not None:
                out.append((what, value, denied))
                denied = None
    return out


# --- a message, or one field of it, that is a reply and not a note


def reply(context: Context, name: Fact | None, facts: list[Fact]) -> bool:
    """Is this not a note but a correction, a choice, a new day or a field's own data? Then it becomes a command."""
    everything = ([name] if name is not None else []) + facts
    start, end = min(f.start for f in everything), max(f.end for f in everything)
    field = name.first("FIELD") if name is not None else None
    alone = not context.notes
    rest = context.text[:start] + context.text[end:]
    if not facts:
        words = (field or "").split(" ")
        if alone and words[-1].isdigit() and fold(" ".join(words[:-1])) in anywhere("number_noun"):
            return context.command("choose", start, end, number=int(words[-1]))  # "number 2"
        return alone and len(rest.split()) <= CHOSEN_BESIDE and context.command("choose", start, end, name=field)
    if name is None and alone and _is_number(facts):
        return context.command("choose", start, end, number=facts[0].numbers[0])
    if _corrected(context, field, facts, start, end):
        return True
    timed = [f for f in facts if f.kind != "text" or len(context.text[f.start : f.end].split()) > 2]
    if alone and name is not None and len(timed) == 1 and _was_on(context, name, timed[0]):
        visited = context.past(timed[0], timed[0].first("DATE"))
        return context.command("correct", start, end, field=field, what="date", value=visited)
    if alone and len(timed) == 1 and timed[0].kind in ("date", "look_again") and (len(facts) == 1 or field is not None):
        return _moved(context, field, timed[0], start, end)
    return name is not None and _told_of_field(context, field, facts, start, end)


WAS_ON_THE = 2
"""Words of "fue el" between a field and the day of its visit (judgement)."""


def _was_on(context: Context, name: Fact, fact: Fact) -> bool:
    """ "Depot was 7/17": the day of a visit put right, and no question."""
    between = [x.text for x in scan(context.text[name.end : fact.start])]
    asked = context.text[fact.end :].lstrip().startswith("?")
    made = table(context.language)
    while between and (made.has("visit_noun", between[0]) or made.has("mail_word", between[0])):
        between = between[1:]  # "that kestrel visit was the 5th"
    led = len(between) == 1 or (len(between) == WAS_ON_THE and made.has("article", between[1]))
    return fact.kind == "date" and not asked and led and made.has("was_on", between[0])


def _is_number(facts: list[Fact]) -> bool:
    one = len(facts) == 1 and facts[0].kind == "per_plant" and len(facts[0].numbers) == 1
    return one and isinstance(facts[0].numbers[0], int)


def _corrected(context: Context, field: str | None, facts: list[Fact], start: int, end: int) -> bool:
    """ "white 14 not 12": nothing but values and what they replace."""
    if not any(f.kind == "refused" for f in facts):
        return False
    if table(context.language).said("as_usual", context.text[start:end]):
        return False  # "kestrel dug 6 not 5 like usual"
    day = next((f for f in facts if f.kind == "date"), None)
    told = [f for f in facts if f.kind != "text" or len(context.text[f.start : f.end].split()) > 2]
    rest = [f for f in told if f is not day]
    pairs = pairs_of(rest)
    if not pairs and day is not None:
        pairs, day, rest = pairs_of(told), None, told
    if any(isinstance(value, DayAhead) for _, value, _ in pairs):
        return False  # "remind me thursday not tomorrow"
    if not pairs or any(was is None for _, _, was in pairs) or 2 * len(pairs) < len(rest):
        return False
    visit = context.quietly(day.first("DATE")) if day is not None else None
    if any(value == was for _, value, was in pairs):
        context.complain("no_change", start, end)
        return True  # "4 yellow not 4 white"
    for what, value, was in pairs:
        old = context.quietly(in_month(was, value))
        context.command(
            "correct", start, end, field=field, what=what, value=context.quietly(value), old=old, date=visit
        )
    return True


def never_then(words: Sequence[str], made: Table) -> bool:
    """ "Not gonna make it friday", "mañana no voy": that day is denied; "not until friday" names it."""
    denied = any(made.denies(word) for word in words)
    return denied and not any(made.has("until", word) for word in words)


def _moved(context: Context, field: str | None, fact: Fact, start: int, end: int) -> bool:
    """ "friday", "in 3 days": when to be reminded again; as a question it asks for the field's state."""
    opening = [x.text for x in scan(context.text[:SAID_AT])]
    if any(table(context.language).has("opens_question", word) for word in opening[:3]):
        return field is not None and context.command("state", start, end, field=field)
    clause = (
        re.split(r"[,.;:!?\n]", context.text[: fact.start])[-1] + re.split(r"[,.;:!?\n]", context.text[fact.start :])[0]
    )
    if never_then([x.text for x in scan(clause)], table(context.language)):
        return False  # "no, friday" is that day all the same
    span, written = fact.first("SPAN"), fact.first("DATE")
    if span is not None:
        return span[0] == "days" and context.command("move", start, end, days=span[1], field=field)
    ahead = written is not None and (written.weekday is not None or (written.days_ago or 0) < 0)
    if written is None or (field is not None and fact.kind == "date" and not ahead):
        return False
    found = coming_day(written, context.sent, context.language, context.day_first)
    return found.day is not None and context.command("move", start, end, date=found.day, field=field)


MOST_BESIDE_ACRES = 5
"""Words beside a field's acres that tell nothing of ours; with more it is a story (judgement)."""
# "Acres" and its short forms are patterns here, as what stands around them is part of what is read.
_ACRES = re.compile(r"\b(?:(\d{1,4}(?:\.\d)?) ?|((?:[a-z]+[ -])?[a-z]+)[ -])(?:ac|acres?|a)\b")
_HECTARES = re.compile(r"\b(\d{1,4}(?:[.,]\d)?) ?(?:ha|has|hectares?|hectareas?)\b")
ACRES_PER_HECTARE = 2.47105
"""By definition of the international acre."""
_ACRES_LABEL = re.compile(r"\b(?:ac|acres?) ?[:=]? ?(\d{1,4}(?:\.\d)?)\b(?! ?(?:ac|pl|w|y|%))")


MOST_SAID = 6
"""Words of the longest number told before "acres" (judgement)."""


def _spoken_whole(words: list[str], made: Table) -> int:
    """The number the words end with: "it's a hundred and fifty two"; 0 when they end with none."""
    values: list[int] = []
    for word in reversed(words):
        told = [int(e.value) for e in made.singles.get(fold(word), ()) if e.type == "NUMBER_WORD"]
        if not told and not (values and word in anywhere("and_word")):
            break
        values[:0] = told[:1]
    whole = 0
    for value in values:
        whole = max(whole, 1) * 100 if value == 100 else whole + value
    return whole


def acres_told(text: str, language: Language) -> float | None:
    """Acres told in figures or words ("78ac", "forty acres", "35 hectares"); ``None`` without any."""
    made = table(language)
    hectares = _HECTARES.search(fold(text))
    if hectares is not None:
        return round(float(hectares.group(1).replace(",", ".")) * ACRES_PER_HECTARE, 1)
    for found in _ACRES.finditer(text.lower()):
        if found.group(1):
            return float(found.group(1))
        whole = _spoken_whole(re.split(r"[ -]+", text.lower()[: found.end(2)])[-MOST_SAID:], made)
        if whole:
            return float(whole)
    labelled = _ACRES_LABEL.search(text.lower())
    return float(labelled.group(1)) if labelled is not None else None  # "Acres: 64"


def _acres_are(context: Context, start: int, end: int) -> bool:
    """Is there a word or sign that gives the field its acres ("is 80 acres", "acres:80")?"""
    told = context.text[start:end].lower()
    return table(context.language).said("acres_are", told) or re.search(r"\b[=:]\b", told) is not None


def _told_of_field(context: Context, field: str | None, facts: list[Fact], start: int, end: int) -> bool:
    """ "kestrel planted may 6, peking": data of the field, not of a visit."""
    facts = [f for f in facts if f.kind != "tops" or any(word.type != "TOPS" for word in f.words)]
    if _ACRES_LABEL.search(context.text[start:end].lower()):
        facts = [f for f in facts if f.kind != "per_plant" or len(f.numbers) > 1]
    kinds = {f.kind for f in facts if f.kind != "text"}
    dated = {"planted", "date"} <= kinds and not any(f.has("DATE") for f in facts if f.kind == "planted")
    own = {"planted", "variety", "after_planting"}
    words = sum(len(context.text[f.start : f.end].split()) for f in facts if f.kind == "text")
    most = 14 if kinds & {"planted", "variety"} else 3
    acres_alone = (
        acres_told(context.text[start:end], context.language) if not kinds and words <= MOST_BESIDE_ACRES else None
    )
    if acres_alone is not None and _acres_are(context, start, end):
        return context.command("field", start, end, name=field, acres=acres_alone)  # "dry creek is 80 acres"
    if not kinds or words > most or not kinds <= (own | {"date"} if dated else own):
        return False
    given: dict[str, Any] = {}
    for fact in facts:
        if fact.kind == "after_planting":
            days = fact.first("SPAN_AFTER_PLANTING")
            given["planted"] = context.sent - timedelta(days=min(int(days), 400))
        elif fact.kind == "variety" and _denied_there(context, fact):
            continue  # "kestrel is peking, not 88788"
        elif fact.kind == "variety":
            given["variety"] = " ".join(fact.all("NAME")) or given.get("variety")
            given["source"] = fact.first("SOURCE") or given.get("source")
            given["resistance"] = fact.first("RESISTANCE") or given.get("resistance")
        elif fact.has("DATE"):
            given["planted"] = context.past(fact, fact.first("DATE"), PLANTED_DAYS)
    if given.get("source") and not given.get("resistance"):
        given["resistance"] = "resistant"
    if not any(value is not None for value in given.values()):
        return False
    named = field is not None and fold(context.text[start:end]).startswith(fold(field))
    behind = start + len(field) if field is not None and named else start  # "22A planted 5/9": no acres
    given |= _acres(context, behind, end) | near_told(context, start, end)
    if field is not None and given.get("near") == field:
        context.complain("which_field", start, end)  # "the site by kestrel, planted 5/12": of which field?
        return True
    return context.command("field", start, end, name=field, **given)


def _denied_there(context: Context, fact: Fact) -> bool:
    """Does a word right before a fact deny it?"""
    before = [x.text for x in scan(context.text[max(0, fact.start - SAID_AT) : fact.start])]
    return bool(before) and table(context.language).denies(before[-1])


def _acres(context: Context, start: int, end: int) -> dict[str, Any]:
    """ "42 acres", "eighty acres": the field's size, if it is told."""
    acres = acres_told(context.text[start:end], context.language)
    return {} if acres is None else {"acres": acres}


def near_told(context: Context, start: int, end: int) -> dict[str, Any]:
    """ "near larch siding": the place beside it, as written."""
    made = table(context.language)
    lexemes = scan(context.text[start:end])
    for n in range(len(lexemes)):
        found = made.longest([x.text for x in lexemes], n)
        if found is None or not any(e.type == "NEAR" for e in found[1]):
            continue
        led = lexemes[n + found[0] - 1].end
        behind = re.split(r"[,.;\n(]", context.text[start + led : end])[0].strip()
        words = behind.split(" ")
        while len(words) > 1 and (made.has("place_lead", fold(words[0])) or made.has("near_link", fold(words[0]))):
            words = words[1:]
        return {"near": " ".join(words).lower()} if n and 0 < len(words) <= CHOSEN_BESIDE and words[0] else {}
    return {}
