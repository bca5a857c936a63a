"""read_note: a message becomes notes, commands, problems and remarks. One bad clause costs one clause."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from functools import lru_cache

from notes_bot.language.clauses.context import Context
from notes_bot.language.clauses.facts import Fact, parse
from notes_bot.language.layout.count_table import rewritten
from notes_bot.language.layout.degrees import degrees_pointed
from notes_bot.language.layout.fields_last import names_ahead
from notes_bot.language.layout.headed_slashes import slashes_told
from notes_bot.language.layout.letters import without_letter
from notes_bot.language.layout.one_a_line import request_joined
from notes_bot.language.layout.quotation import without_quotation
from notes_bot.language.layout.self_asked import answers_told, thoughts_told
from notes_bot.language.layout.signing import without_signature
from notes_bot.language.layout.stops import with_commas
from notes_bot.language.lexicon.crew_names import name_heads
from notes_bot.language.lexicon.joining import near_days
from notes_bot.language.lexicon.mending import mend, name_words
from notes_bot.language.lexicon.mistakes import place
from notes_bot.language.lexicon.pieces import Cutter, Piece
from notes_bot.language.lexicon.scan import Lexeme, clean, fold, scan
from notes_bot.language.lexicon.tokens import Draft, Word
from notes_bot.language.lexicon.words import anywhere, decide_language, is_field_word, table
from notes_bot.language.names.choosing import DEAREST, SURE, best_reading, empty, likely_words, names_of
from notes_bot.language.names.named_seeds import seeds_named
from notes_bot.language.names.naming import Names, written
from notes_bot.language.names.supposing import guesses
from notes_bot.language.noting import lead_of, make_note, says_nothing
from notes_bot.language.passes.asides import put_back, set_aside
from notes_bot.language.passes.days_of_visits import today_denied
from notes_bot.language.passes.dictation import as_written
from notes_bot.language.passes.earlier_counts import held_against
from notes_bot.language.passes.put_right_below import put_right_below
from notes_bot.language.passes.said_again import said_again
from notes_bot.language.passes.talk import talk_aside
from notes_bot.language.passes.unsaid import intended
from notes_bot.language.requests import asking, commands, corrections, winter
from notes_bot.language.requests.owned_up import owned_up
from notes_bot.language.several.next_visits import next_visits
from notes_bot.language.several.same_day import same_days
from notes_bot.language.several.same_message import added_here, named_first, noted_there, put_right_here, told_anew_here
from notes_bot.language.several.shared_facts import (
    COUNTING,
    FOUND,
    SENTENCE,
    Gathered,
    of_each_field,
    said_of_all,
    said_of_first,
    said_of_groups,
    said_of_named,
    told_further,
)
from notes_bot.language.several.summing_up import Added, add_summed, summed_up
from notes_bot.language.several.talk_left import without_talk
from notes_bot.model import Command, Language, LookAgain, Reading, Variety, Where

WORDS_FOR_LANGUAGE = 2000
"""Words looked at to decide the language of a message (judgement)."""
WITHIN_PASSING = 60
"""Characters behind a name in passing in which "too" may stand (judgement)."""
_NTH_ENDS = frozenset({"er", "do", "ro", "to", "mo", "vo", "no", "ra", "da", "ta", "ma", "va", "na"})
"""Ends of ordinals in figures, which are words of other languages: "1er 3 2do 0 3er 6 4to 1"."""
_SHARED = frozenset({"date", "ago", "how", "soaked", "moisture", "stage", "texture", "text"})
"""What a line above the first field may say for all of them."""


def read_note(
    text: str,
    *,
    sent: date,
    fields: Sequence[str] = (),
    language: Language | None = None,
    day_first: bool | None = None,
) -> Reading:
    """Read one message.

    Args:
        text: what the person wrote, any text of any length; never raises.
        sent: the writer's day when it was sent; "yesterday" and days without a year are counted from it.
        fields: names and aliases of the crew's fields, to recognise a name; without them a name is what stands first.
        language: the writer's own language, taken when the words do not tell.
        day_first: whether 7/5 is the 7th of May; by the language when ``None``.

    Returns:
        Notes in the order written, commands, problems (not understood or contradictory) and remarks (understood only
        after a correction).
    """
    return without_talk(_best_read(text, sent, fields, language, day_first), text)


def _best_read(
    text: str, sent: date, fields: Sequence[str], language: Language | None, day_first: bool | None
) -> Reading:
    """The likeliest reading, by the names that may be meant."""
    said = plainly(text, fields, language)
    listed = tuple(fields)
    reading = read_plainly(said, sent, listed, language=language, day_first=day_first)
    if _of_a_farm(reading) or (listed and _settled(reading, listed, said)):
        return reading

    def read(names: tuple[str, ...], likely: frozenset[str] | None = None) -> Reading:
        return read_plainly(said, sent, listed, names, language, day_first, likely)

    dearest = SURE if listed else DEAREST
    guessed = guesses(said.text, said.lexemes, pieces_of(said), said.language, dearest, codes=not listed)
    guessed = [replace(guess, names=tuple(_hyphened(name, said) for name in guess.names)) for guess in guessed]
    plain, likely = reading, likely_words(guessed)
    if listed and reading.problems and _of_nothing(reading, said.text, listed):
        likely = frozenset()
    if any(likely.isdisjoint(_folded_words(name)) for name in _strangers(reading, listed)):
        reading = read((), likely)
    if listed and _settled(reading):
        return reading
    if listed and not all(guess.names for guess in guessed):
        return reading  # a note in a thread names no field: its own is known
    if len(guessed) == 1 and guessed[0].names and any(note.field is None for note in reading.notes):
        named = read(guessed[0].names)  # its name is only told by what is asked: "what did my look at Depot tell me?"
        if len(named.problems) <= len(reading.problems) and all(note.field for note in named.notes):
            return named
    told = bool(reading.notes or reading.commands)
    found = best_reading(guessed, len(said.lexemes), reading if told else plain, read)
    found = reading if found is plain else found
    return reading if listed and found.commands else found  # nothing is done to a field that a crew does not have


def _hyphened(name: str, said: Said) -> str:
    """ "(Co-)op North", "(Tri-)County": a supposed name with what a hyphen ties to it, if no word of ours."""
    text = said.text
    if "-" not in text:
        return name
    words = r"\s+".join(map(re.escape, name.split(" ")))
    found = re.search(rf"(?<![\w-])((?:[^\W\d_]+-)+){words}(?![\w-])", text, re.IGNORECASE)
    alone = re.search(rf"(?<![\w-]){words}(?![\w-])", text, re.IGNORECASE)
    if found is None or alone is not None:
        return name
    ours = any(table(said.language).singles.get(fold(word)) for word in found.group(1).split("-") if word)
    return name if ours else f"{found.group(1).lower()}{name}"


def _settled(reading: Reading, listed: tuple[str, ...] = (), said: Said | None = None) -> bool:
    """Is it clear what is told of which field?

    Where the crew's names are given, each must be like one of them, or stand beside a word for field in the text.
    """
    unclear = reading.problems or any(note.field is None for note in reading.notes)
    strangers = _strangers(reading, listed) if listed else []
    return _as_fields(strangers, said) and bool(names_of(reading) or not unclear)


def _as_fields(names: list[str], said: Said | None) -> bool:
    """ "Field 7", "lote nuevo", "the Smith field": does a word for field stand beside each of the names?"""
    words = [lexeme.text for lexeme in said.lexemes] if names and said is not None else []
    told = {n for n, word in enumerate(words) if is_field_word(word)}
    return all(_beside_one(words, _folded_words(name), told) for name in names)


def _beside_one(words: list[str], name: list[str], told: set[int]) -> bool:
    """Do the words of a name stand right before or behind one of the words at these places?"""
    ends = {n + 1 for n in told} | {n - len(name) for n in told}
    return any(n >= 0 and words[n : n + len(name)] == name for n in ends)


def _strangers(reading: Reading, listed: tuple[str, ...]) -> list[str]:
    """Names of the notes that are like no name of the crew."""
    told = [note.field for note in reading.notes if note.field is not None]
    return [name for name in told if not _known(name, reading.language, listed)]


@lru_cache(maxsize=4096)
def _known(name: str, language: Language, listed: tuple[str, ...]) -> bool:
    """Is it like a name of the crew?"""
    return Names(name, [], table(language), listed).like_known(0, len(name))


def _of_nothing(reading: Reading, text: str, listed: tuple[str, ...]) -> list[str]:
    """ "Kkkk calor de rachar hoje, ninguém merece": names no list has, without capitals, of which nothing is told."""
    told = {note.field for note in reading.notes if not empty(note)}
    small = text[:1].lower() + text[1:]
    return [name for name in _strangers(reading, listed) if name not in told and name in small]


def _folded_words(name: str) -> list[str]:
    return [lexeme.text for lexeme in scan(clean(name))]


@dataclass(frozen=True, slots=True)
class Said:
    """A message as it is usually written."""

    text: str
    lexemes: list[Lexeme]
    language: Language


def plainly(text: str, fields: Sequence[str] = (), own: Language | None = None) -> Said:
    """A message with spoken stops, tables and the like written out, and its language decided."""
    cleaned = degrees_pointed(_single_spaced(clean(text)))
    lexemes = scan(cleaned)
    names = _own_words(cleaned, fields)
    words = [x for x in lexemes[:WORDS_FOR_LANGUAGE] if x.kind in ("word", "sign") and x.text not in names]
    words = [x for x in words if x.spaced or x.text not in _NTH_ENDS or not cleaned[x.start - 1].isdigit()]
    written = "".join(cleaned[x.start : x.end] for x in words)
    spoken = winter.spoken(cleaned) or decide_language([x.text for x in words if x.kind == "word"], written, own)
    kept = named_first(without_letter(without_quotation(cleaned, fields), spoken, fields), spoken, fields)
    kept = names_ahead(slashes_told(kept, table(spoken)), table(spoken), fields)
    kept = answers_told(request_joined(kept, table(spoken), fields), spoken)
    told = rewritten(as_written(thoughts_told(kept, table(spoken)), spoken), spoken)
    if (plainer := with_commas(told, table(spoken), lexemes if told == cleaned else None)) != cleaned:
        cleaned, lexemes = plainer, scan(plainer)
    return Said(cleaned, lexemes, spoken)


def _single_spaced(text: str) -> str:
    """One blank for several, where most words stand that far apart: columns of a table keep theirs."""
    wide = len(re.findall(r"(?<=\S)  +(?=\S)", text)) if "  " in text else 0
    return re.sub(r" {2,}", " ", text) if wide and wide >= text.count(" ") / 3 else text


def pieces_of(said: Said) -> list[Piece]:
    """The words of a message with what each may mean, no name being known."""
    pieces = Cutter(said.language, ()).cut(mend(said.text, said.lexemes, said.language, ())[0])
    return seeds_named(pieces, table(said.language), said.text)


def read_plainly(
    said: Said,
    sent: date,
    listed: tuple[str, ...] = (),
    supposed: tuple[str, ...] = (),
    language: Language | None = None,
    day_first: bool | None = None,
    likely: frozenset[str] | None = None,
) -> Reading:
    """Read a message as it is usually written.

    Args:
        said: the message.
        sent: the writer's day when it was sent.
        listed: names of the crew's fields.
        supposed: words of the message taken for names beside them.
        language: the writer's own.
        day_first: see :func:`read_note`.
        likely: words one of which a name no list has must hold, where no word for field tells it; any when ``None``.
    """
    cleaned, spoken, fields = said.text, said.language, (*listed, *supposed)
    context = Context(cleaned, sent, fields, spoken, day_first, listed)
    lexemes, mended, doubts = mend(cleaned, said.lexemes, spoken, fields)
    pieces = intended(Cutter(spoken, fields).cut(lexemes), table(spoken))
    pieces, below, right = put_right_below(pieces, table(spoken))
    pieces = owned_up(context, pieces)
    pieces, again = said_again(pieces, table(spoken))
    for slip in (*mended, *right, *again, *near_days(pieces, table(spoken), name_words(fields))):
        context.mention(slip.kind, slip.start, slip.end, read=slip.read)
    pieces, denied = today_denied(pieces, table(spoken))
    pieces, earlier = held_against(pieces, table(spoken))
    pieces, asides = set_aside(pieces, table(spoken), sent)
    pieces, talk = talk_aside(pieces)
    pieces = commands.take(context, without_signature(pieces, cleaned, spoken, fields))
    pieces = put_back(pieces, [*below, *denied, *earlier, *asides])
    if pieces:
        draft = Draft(cleaned, spoken, pieces, fields, likely)
        facts = parse(draft)
        if context.commands and not context.problems and _aside(facts):
            facts, draft.asks, doubts = [], [], []
        facts, added = _told_behind(context, facts, draft)
        _say_doubts(context, facts, doubts)
        _say_slips(context, draft)
        _say_language(context, language, draft)
        context.sentences = [fact.start for fact in facts if _starts_sentence(cleaned, fact)]
        _gather(context, facts, draft.together, added)
    _keep_talk(context, talk)
    _named_in_passing(context)
    put_right_here(context)
    told_anew_here(context)
    _looks_of_notes(context)
    added_here(context)
    same_days(context)
    noted_there(context)
    _seed_of_notes(context)
    _question_left(context)
    context.commands.sort(key=lambda c: (c.where.line, c.where.column))
    context.problems.sort(key=lambda p: (p.where.line, p.where.column))
    found = (context.notes, context.commands, context.problems, context.remarks)
    return Reading(spoken, *(tuple(rows) for rows in found))  # type: ignore[arg-type]  # four lists of four kinds


def _keep_talk(context: Context, talk: list[Piece]) -> None:
    """What was put aside as talk stays in the text of the note it stands behind, or of the first."""
    for piece in talk:
        where = place(context.text, piece.start, piece.end)
        above = [n for n, note in enumerate(context.notes) if _before(note.where, where)]
        if context.notes:
            n = max(above, default=0)
            note = context.notes[n]
            context.notes[n] = replace(note, text="; ".join(filter(None, (note.text, where.text))))


def _before(one: Where, other: Where) -> bool:
    """Does one place stand before the other, or where it stands?"""
    return (one.line, one.column) <= (other.line, other.column)


def _told_behind(context: Context, facts: list[Fact], draft: Draft) -> tuple[list[Fact], list[Added]]:
    """The facts without the sentences that add to notes told before, and what these add to which note."""
    added: list[Added] = []
    for told in (next_visits, summed_up):
        facts, more, spans = told(context, facts, draft.together)
        added += more
        draft.asks = [ask for ask in draft.asks if not any(start <= ask[1] < end for start, end in spans)]
    return facts, added


def _question_left(context: Context) -> None:
    """A question of which nothing was read is answered that it was not: nobody waits for what does not come."""
    if context.notes or context.commands or context.problems or "?" not in context.text:
        return
    if any(ch.isalnum() for ch in context.text):
        context.complain("nothing_read", 0, len(context.text))


def _named_in_passing(context: Context) -> None:
    """ "Kestrel 5 plants none. Somebody left the tranquera open.": a name in talk beside a note is no note of its own.

    Only where nothing is told of it, and no crew's field has that name, or it stands in the midst of a sentence.
    """
    if len(context.notes) < 2:
        return
    silent = [note for note in context.notes if says_nothing(note)]
    if not silent or len(silent) == len(context.notes):
        return
    silent = [note for note in silent if note.date is None]
    names = Names("", [], table(context.language), context.fields)
    for note in silent:
        asked = any(problem.where.line == note.where.line for problem in context.problems)
        line = context.text.split("\n")[note.where.line - 1]
        before = line[: note.where.column - 1].rstrip()
        within = bool(before) and before[-1] not in ".,;:!?-)"
        known = note.field in names.fields
        size = len(scan(note.field or ""))  # "kestrel 3 white. old mill too": no talk
        near = line[note.where.column - 1 :][: len(note.field or "") + WITHIN_PASSING]
        behind = [x.text for x in scan(near)][size : size + 2]
        too = any(table(context.language).has("as_well", " ".join(behind[:k])) for k in (1, 2))
        if too:
            begun = len("\n".join(context.text.split("\n")[: note.where.line])) - len(line) + note.where.column - 1
            context.complain("two_fields", begun, begun + len(note.field or ""))
        if note.field is None or asked or too or (known and not within) or not (context.fields or within):
            continue
        n = context.notes.index(note)
        del context.notes[n]
        other = max(0, n - 1)
        told = [part for part in (context.notes[other].text, note.where.text) if part]
        context.notes[other] = replace(context.notes[other], text="; ".join(told))


def _looks_of_notes(context: Context) -> None:
    """ "Will go back to Dry Creek in 3 weeks" beside a note of Dry Creek is when to look again, no reminder."""
    moves = [c for c in context.commands if c.kind == "move" and not c.args.get("skip")]
    for command in [c for c in moves if not asking.pushes(context, c.where.text) or _reminds_of_look(context, c)]:
        days, day, field = (command.args.get(key) for key in ("days", "date", "field"))
        if field is None and _of_all(context, command) and (days is not None or day is not None):
            look = LookAgain(days) if days is not None else LookAgain(date=day)
            context.notes[:] = [replace(note, look_again=note.look_again or look) for note in context.notes]
            context.commands.remove(command)
            continue
        above = [n for n, note in enumerate(context.notes) if _before(note.where, command.where)]
        for n, note in enumerate(context.notes):
            own = _same_one(note.field, field) if field else len(context.notes) == 1 or n == max(above, default=-1)
            if own and note.look_again is None and (days is not None or day is not None):
                context.notes[n] = replace(
                    note, look_again=LookAgain(days) if days is not None else LookAgain(date=day)
                )
                context.commands.remove(command)
                break


def _reminds_of_look(context: Context, command: Command) -> bool:
    """ "Haceme acordar de volver acá en doce días": beside a note, when to look again there."""
    here = command.args.get("field") in (None, *(note.field for note in context.notes))
    return here and asking.reminds_of_look(context, command.where.text)


def _same_one(name: str | None, other: str) -> bool:
    """The same field, a word for field aside: "lote 7" and "7"."""
    told = ([word for word in _folded_words(one or "") if not is_field_word(word)] for one in (name, other))
    return name == other or (name is not None and next(told) == next(told) != [])


def _seed_of_notes(context: Context) -> None:
    """ "At Kestrel we are at R2 ..., since Kestrel is in a resistant bean": its seed beside a visit is of the note."""
    for command in [c for c in context.commands if c.kind == "field"]:
        own = {key for key, value in command.args.items() if value is not None} - {"name"}
        notes = [n for n, note in enumerate(context.notes) if note.field == command.args.get("name")]
        if len(notes) != 1 or not own or not own <= {"resistance", "source", "variety"}:
            continue
        note = context.notes[notes[0]]
        if note.variety is None and note.plants is not None:
            seed = Variety(*(command.args.get(key) for key in ("variety", "resistance", "source")))
            context.notes[notes[0]] = replace(note, variety=seed)
            context.commands.remove(command)


def _of_all(context: Context, command: Command) -> bool:
    """ "Next look at both 5/8." behind several notes: of each of them."""
    words = [x.text for x in scan(clean(command.where.text))]
    said = (" ".join(words[n : n + size]) for n in range(len(words)) for size in (1, 2, 3))
    return len(context.notes) > 1 and any(table(context.language).has("for_both", part) for part in said)


def _aside(facts: list[Fact]) -> bool:
    """Beside what is asked only words, a day, a stray number ("which are due? I can cover 5 or 6 on Thursday").

    Or how somebody digs: "add a field called Mill Race. Nobody has dug there yet."
    """
    told = ("text", "quoted", "date", "courtesy", "ago", "per_plant", "too_many", "how")
    return all(fact.kind in told and (fact.kind != "how" or not fact.numbers) for fact in facts)


def _starts_sentence(text: str, fact: Fact) -> bool:
    """A stop or a new line before it; a field's name in the midst of a sentence starts none."""
    if fact.lead not in ("hard", "line"):
        return False
    before = text[: fact.start].rstrip(" \t")
    return fact.kind != "field" or before == "" or before[-1] in ".;!?|\n"


@lru_cache(maxsize=4096)
def _words_of(name: str) -> tuple[frozenset[str], frozenset[str], str]:
    """A name's words, those of them that are no word for field, and the whole of it, when it is more than one word."""
    words = [lexeme.text for lexeme in scan(clean(name))]
    own = frozenset(word for word in words if not is_field_word(word))
    return frozenset(words), own, fold(clean(name)) if len(words) > 1 else ""


def _own_words(text: str, fields: Sequence[str]) -> set[str]:
    """Words of the crew's names, which tell no language; a word for field tells one, except in a name given in full."""
    start = fold(text[: 8 * WORDS_FOR_LANGUAGE])
    own: set[str] = set()
    for name in fields:
        words, plain, full = _words_of(name)
        own |= words if full and full in start else plain
    return own


def _say_slips(context: Context, draft: Draft) -> None:
    seen: set[tuple[int, int]] = set()
    for slip in draft.slips:
        if (slip.start, slip.end) not in seen:
            seen.add((slip.start, slip.end))
            context.mention(slip.kind, slip.start, slip.end, read=slip.read)
    for kind, start, end in draft.asks:
        context.complain(kind, start, end)


def _say_doubts(context: Context, facts: list[Fact], doubts: list[tuple[str, int, int]]) -> None:
    """Words that may be misspelt in more than one way are asked about where nothing was made of them."""
    for kind, start, end in doubts:
        read = next((fact for fact in facts if fact.start <= start and end <= fact.end), None)
        if read is None or read.kind in ("text", "quoted"):
            context.complain(kind, start, end)


def _say_language(context: Context, own: Language | None, draft: Draft) -> None:
    """A note read in another language than the writer's, with a letter that means another color there, says so."""
    if own is None or own == context.language:
        return
    for piece in draft.pieces:
        entry = piece.types.get("COLOUR")
        others = {e.value for e in table(own).singles.get(piece.text, ()) if e.type == "COLOUR"}
        if entry is not None and others and entry.value not in others:
            read = table(context.language).first["COLOUR", entry.value]
            context.mention("other_language", piece.start, piece.end, read=read)
            return


def _gather(
    context: Context, facts: list[Fact], together: Mapping[int, tuple[str, ...]], added: Sequence[Added]
) -> None:
    """Facts to notes: each field's name starts one; what stands before the first name belongs to it."""
    drafts: list[Gathered] = [Gathered()]
    header: list[Fact] = []
    for n, fact in enumerate(facts):
        current = drafts[-1]
        if fact.kind == "courtesy":
            current.thanks = current.thanks or not (current.facts or current.name)
            continue
        if fact.kind != "field":
            current.facts.append(fact)
            continue
        carried: list[Fact] = []
        if current.name is not None and fact.first("FIELD") == current.name.first("FIELD"):
            placed = any(f.kind in ("spot", "check") for f in current.facts)
            if placed and n + 1 < len(facts) and facts[n + 1].kind in ("spot", "check"):
                continue  # "Tinkers north end: .. Tinkers south end: .."
        if current.name is not None and not current.facts and _names_farm(context, current.name):
            if _part_of_farm(context, current.name, fact):
                word = current.name.words[0]
                word.value = " ".join(written(context.text, word.start, fact.end).replace(",", " ").split())
                continue
            if context.text[current.name.end : fact.start].strip()[:1] in (".", ":"):
                current.name = fact  # "Fazenda Santa Fé. Talhão 12: .. Talhão 13: ..": only a heading
                continue
        if current.name is not None and _meant_instead(context, fact):
            current.name = fact
            continue
        if current.name is not None:
            carried = _carried(context, current, fact)
        elif _is_header(context, current.facts, fact) or _heads_lines(context, current.facts, facts[n:]):
            header = [f for f in current.facts if f.kind != "date" or not _of_weather(context, current.facts, f)]
            current.facts = []
        elif {f.kind for f in current.facts} <= _SHARED:
            days = [f for f in current.facts if f.kind == "date"]  # "yesterday kestrel .., north forty .."
            header = [f for f in days if not _of_weather(context, current.facts, f)]
        before = carried if current.name is not None else current.facts
        dated = any(f.kind == "date" for f in header)
        heads = [f for f in before if f.kind == "date" and _heads_block(context.text, f, fact, dated)]
        if heads:  # "Fri 8/7: .., .. Mon 8/10: .., ..": the day of a block of fields
            header = [*(f for f in header if f.kind != "date"), *heads]
        if current.name is None:
            current.name, current.header = fact, header
        else:
            drafts.append(Gathered(carried, fact, header))
    _title(context, drafts[0])
    if len(drafts) == 1:
        _name_within(context, drafts[0])
    drafts = told_further(context, _told_of(context, drafts, together), together)
    add_summed(drafts, added)
    said_of_groups(context, drafts, together)
    said_of_first(context, drafts)
    said_of_all(context, drafts)
    said_of_named(context, drafts)
    ordered: list[str] = []
    for n, gathered in enumerate(drafts):
        header = gathered.header
        also = together.get(gathered.name.start, ()) if gathered.name is not None else ()
        later = {other.name.first("FIELD") for other in drafts[n + 1 :] if other.name is not None} if also else set()
        told = {*also, gathered.name.first("FIELD") if gathered.name is not None else ""}
        again = {name for name in told if any(_same_field(name, other, told) for other in later)}
        if also and again:
            some = again != told  # "kestrel and tinkers not dug. tinkers has a yellow patch"
            own = any(f.kind in FOUND for other in drafts[n + 1 :] for f in other.facts if other.field in again)
            whole = some or not own  # "nothing in either. Kestrel is dry, Sumac wet"
            shared = [
                f
                for f in gathered.facts
                if f.kind in _SHARED
                or of_each_field(context, f)
                or (whole and f.kind in ("none", "not_looked"))
                or (not own and f.kind == "plants")
            ]
            left = [f for f in gathered.facts if f.kind in FOUND - {"each"} and f not in shared]
            if left and not (some or own):
                context.complain("two_fields", gathered.name.start if gathered.name else 0, left[-1].end)
            if some:
                _finish_all(context, gathered, header, also)
                context.notes[:] = [note for note in context.notes if note.field not in again]
            for other in drafts[n + 1 :]:
                found = any(f.kind in FOUND for f in other.facts)  # "none in any of them except Hobnail: 2 white"
                other.header = [*other.header, *(f for f in shared if not found or f.kind not in FOUND)]
            ordered = [str(gathered.field), *also] if some else []
        elif also:
            _finish_all(context, gathered, header, also)
        else:
            _finish(context, gathered, header)
    if ordered:
        place = {name: n for n, name in enumerate(ordered)}
        context.notes.sort(key=lambda note: place.get(str(note.field), len(place)))


def _of_weather(context: Context, facts: list[Fact], day: Fact) -> bool:
    """ "Hail last night. Kestrel and Sumac are flattened": a day right behind a word for weather is of that."""
    n = facts.index(day)
    before = facts[n - 1] if n else None
    if before is None or before.kind != "text" or day.lead not in ("", "link"):
        return False
    words = {x.text for x in scan(context.text[before.start : before.end])}
    return not words.isdisjoint(table(context.language).traits["weather_word"])


LONGEST_TITLE = 4
"""Words at the head of a message that can name its field where no name was found (judgement)."""


def _title(context: Context, gathered: Gathered) -> None:
    """ "Clay Hill 5 plants 3 white", "Slough Side at R7. ..": words in capitals at the head of a note are its name."""
    if gathered.name is not None or len(gathered.facts) < 2:
        return
    first, *rest = gathered.facts
    said = context.text[first.start : first.end]
    words = said.split()
    if not words:
        return  # a place put in where none was written
    shown = sum(word[:1].isupper() or word.isdigit() for word in words)
    numbered = first.kind == "spot" and words[-1].isdigit() and sum(fact.kind == "spot" for fact in rest) == 0
    heads = (first.kind == "text" or numbered) and not context.text[: first.start].strip()
    of_field = len(words) == 2 and is_field_word(fold(words[1]))  # "Gate field 5 plants"
    shown += of_field
    if not heads or not words[0][:1].isupper() or not 1 < shown <= len(words) <= LONGEST_TITLE:
        return
    if len(words) - shown > 1:
        return
    if not {fact.kind for fact in rest} & (COUNTING | {"stage"}) or not all(
        w.replace("'", "").isalnum() for w in words
    ):
        return
    name = written(context.text, first.start, first.start + len(words[0]) if of_field else first.end)
    gathered.name = Fact("field", [Word("FIELD", name, first.start, first.end, said, "hard")], first.start, first.end)
    gathered.facts = rest


_MAY_BE_NAME = frozenset({"text", "spot", "texture", "moisture", "soaked", "roots"})
"""Facts whose words may be the name of a field in short, where no name was found."""


def _name_within(context: Context, gathered: Gathered) -> None:
    """ "6 plants 2 white at Ditch", "Sandy V5 ..": where no field is named, the first words of the crew's one name."""
    if gathered.name is not None or not context.fields or not any(f.kind in COUNTING for f in gathered.facts):
        return
    if sum(fact.kind == "spot" for fact in gathered.facts) > 1:
        return
    for fact in gathered.facts:
        found = _head_of_name(context, fact) if fact.kind in _MAY_BE_NAME else None
        if found is None:
            continue
        start, end = found
        said = context.text[start:end]
        word = Word("FIELD", written(context.text, start, end), start, end, said, "hard")
        gathered.name = Fact("field", [word], start, end)
        gathered.facts = [f for f in gathered.facts if f is not fact]
        return


def _head_of_name(context: Context, fact: Fact) -> tuple[int, int] | None:
    """Where in a fact the first words of a name stand that only one field of the crew begins with."""
    words = [x for x in scan(context.text[fact.start : fact.end]) if x.kind in ("word", "number")]
    heads = name_heads(context.fields)
    for n in range(len(words)):
        for size in (3, 2, 1):
            run = words[n : n + size]
            head = " ".join(x.text for x in run)
            if len(run) < size or head not in heads or (n and n + size < len(words)):
                continue
            start = fact.start + run[0].start
            before = [x.text for x in scan(lead_of(context.text, start))][-1:]
            led = bool(before) and before[0] in anywhere("before_name")
            if led or not before:
                return start, fact.start + run[-1].end
    return None


def _told_of(context: Context, drafts: list[Gathered], together: Mapping[int, tuple[str, ...]]) -> list[Gathered]:
    """ "Tinkers then Kestrel. Tinkers was six plants ..": without the fields only named, and told of further on.

    "Depot R2, Tower R3. Depot had four white, Tower none": what is told first is said of what is found further on.
    """
    told: set[str] = set()
    kept: list[Gathered] = []
    for draft in reversed(drafts):
        name = draft.name.first("FIELD") if draft.name is not None else None
        words = (fact.kind == "text" and context.text[fact.start : fact.end].lower() in told for fact in draft.facts)
        if name in told and all(words):
            continue
        later = next((other for other in kept if other.name is not None and other.name.first("FIELD") == name), None)
        alone = draft.name is not None and draft.name.start not in together
        if later is not None and alone and _goes_before(draft, later):
            known = {fact.kind for fact in later.facts}
            later.facts[:0] = [fact for fact in draft.facts if fact.kind not in known]
            for other in kept:
                other.facts += [f for f in draft.facts if other is not later and of_each_field(context, f)]
            continue
        kept.append(draft)
        if name is not None and draft.facts:
            told.add(name)
    return kept[::-1]


def _goes_before(draft: Gathered, later: Gathered) -> bool:
    """Does a draft tell only of stage, soil or digging, and the later one of the same field what was found?"""
    kinds = {fact.kind for fact in draft.facts}
    found = any(fact.kind in FOUND - {"not_looked", "refused"} for fact in later.facts)
    return found and kinds <= _SHARED | {"plants", "variety", "tops", "look_again", "each"}


def _heads_block(text: str, day: Fact, name: Fact, dated: bool) -> bool:
    """ "Fri 8/7: ..": a day with a colon; or on a line of its own, where the fields before stand below one as well."""
    between = text[day.end : name.start]
    alone = not text[: day.start].rpartition("\n")[2].strip(" -*#") and "\n" in between
    return between.strip() == ":" or (dated and alone and not between.strip(" \n-*:•"))


def _part_of_farm(context: Context, name: Fact, fact: Fact) -> bool:
    """ "Fazenda Boa Vista, talhão da caixa d'água, R3": a farm, and the field of it behind a comma, are one name."""
    between = context.text[name.end : fact.start].strip()
    lead = fold(between).removeprefix(",").strip() if between.startswith(",") else ""
    led = scan(lead)[:1] + scan(context.text[fact.start : fact.end])[:1]
    return bool(led) and is_field_word(led[0].text) and len(scan(lead)) < FARM_FIELD


def _names_farm(context: Context, name: Fact) -> bool:
    """ "Fazenda Boa Vista", "Estancia La Paz": a farm rather than a field, where no list of fields is known."""
    return not context.listed and scan(context.text[name.start : name.end])[0].text in anywhere("farm_word")


def _of_a_farm(reading: Reading) -> bool:
    """Is a note's field told as that of a farm: "fazenda boa vista talhão da divisa"?"""
    names = [fold(note.field).split(" ") for note in reading.notes if note.field is not None]
    return any(name[0] in anywhere("farm_word") and any(map(is_field_word, name[1:])) for name in names)


def _same_field(name: str, other: str, told: set[str]) -> bool:
    """ "El Gramillal y Aguas Claras R6. Gramillal 6 pl ..": the name again, whole or without its article."""
    words = name.split(" ")
    bare = " ".join(words[1:]) if len(words) > 1 and fold(words[0]) in anywhere("name_article") else name
    if name.startswith(other) or (other not in told and bare.startswith(other)):
        return True
    return [one for one in told if fold(other) in fold(one).split(" ")] == [
        name
    ]  # "Santa Elvira y Doña Clara. Elvira .."


def _meant_instead(context: Context, fact: Fact) -> bool:
    """ "ome 6 pl old mill east i mean", "kestrel, no perdón, tinkers ..": the name before was the wrong one."""
    made = table(context.language)
    if not context.may_say("meant_instead"):
        return False
    words = [[x.text for x in scan(context.text[max(0, fact.start - SENTENCE) : fact.start])][-4:]]
    words += [[x.text for x in scan(context.text[fact.end : fact.end + SENTENCE])][:4]]
    before, behind = ([word for word in row if word not in ",;"] for row in words)
    told = [" ".join(before[-size:]) for size in (1, 2, 3)] + [" ".join(behind[:size]) for size in (2, 3)]
    return any(made.has("meant_instead", said) for said in told)


def _carried(context: Context, current: Gathered, fact: Fact) -> list[Fact]:
    """What stands at the end of a note and is said of the field named next: its day, "never got to"."""
    carried: list[Fact] = []
    if current.facts and _leads_to(context.text, current.facts[-1], fact):
        carried.insert(0, current.facts.pop())
    if current.facts and _staged_ahead(context.text, current, fact):
        carried.insert(0, current.facts.pop())
    carried[:0] = _dug_there(context.text, current, fact)
    if not carried and len(current.facts) > 1 and current.facts[-2].kind == "date" and _only_goes(context, current):
        carried.insert(0, current.facts.pop())
    while (
        current.facts
        and current.name is not None
        and current.facts[-1].kind == "date"
        and current.facts[-1].start > current.name.start
        and current.facts[-1].lead in ("hard", "line", "soft")
        and not (current.facts[-1].lead == "soft" and _STOPPED.search(context.text, current.facts[-1].end, fact.start))
    ):
        carried.insert(0, current.facts.pop())
    return carried


def _only_goes(context: Context, current: Gathered) -> bool:
    """ "..; martes volví a Hornos", ".., tuesday went to Sumac": nothing but going, behind a day of its own."""
    made, going = table(context.language), current.facts[-1]
    words = [x.text for x in scan(context.text[going.start : going.end])]
    manners = ("gone", "goal", "who_goes", "we_word")
    return going.kind == "text" and all(any(made.has(manner, word) for manner in manners) for word in words)


def _staged_ahead(text: str, current: Gathered, name: Fact) -> bool:
    """ "V7 ferris 6 pulled none / V8 dilly 6 pulled": the stage before a name, of a note that has one or ended."""
    stage = current.facts[-1]
    own = any(fact.kind == "stage" for fact in current.facts[:-1])
    if stage.kind != "stage" or stage.lead not in ("line", "hard", "soft") or "\n" in text[stage.end : name.start]:
        return False
    between = text[stage.end : name.start].strip(" -")
    return (own or stage.lead != "soft") and (not between or (between == "," and stage.lead == "line" and own))


def _dug_there(text: str, current: Gathered, name: Fact) -> list[Fact]:
    """ ".. 4 white. Dug 6 at Windmill Flat": taken off a note, as its own plants were told before."""
    facts, begins = current.facts, current.name.start if current.name is not None else -1
    n = len(facts)
    while (
        n
        and facts[n - 1].start > begins
        and facts[n - 1].kind in ("plants", "how")
        and not re.search(r"[.,;:!?\n]", text[facts[n - 1].end : name.start])
    ):
        n -= 1
    plants = any(fact.kind == "plants" for fact in facts[n:])
    if not plants or not any(fact.kind in ("plants", "per_plant") for fact in facts[:n]):
        return []
    there, facts[n:] = facts[n:], []
    return there


_STOPPED = re.compile(r"[.;!]")
"""What ends a sentence: a day behind a comma and before it is of the field before, not of the next one."""
FARM_FIELD = 3
"""Words between a farm's name and its field's, fewer than these (judgement)."""
LONGEST_AMONG = 2
"""Words of "entre el (Baru y Cupim)", before the first of two names."""


def _finish_all(context: Context, gathered: Gathered, header: list[Fact], also: tuple[str, ...]) -> None:
    """ "Kestrel and tinkers both none": one note for each field; counts that could be either's are asked about."""
    notes, asked = len(context.notes), len(context.commands)
    _finish(context, gathered, header)
    for command in context.commands[asked:]:
        key = next((key for key in ("field", "name") if command.args.get(key) is not None), None)
        if key is not None:
            context.commands.extend(replace(command, args={**command.args, key: name}) for name in also)
    start = gathered.name.start if gathered.name is not None else 0
    end = gathered.facts[-1].end if gathered.facts else start
    alike = table(context.language).said("alike", context.text[start:end])  # "mesma coisa nos dois: 5 pés, 2 brancas"
    ahead = [x.text for x in scan(context.text[:start].rsplit("\n", 1)[-1])][-LONGEST_AMONG:]
    shared = any(table(context.language).has("among", word) for word in ahead)  # "entre tacuara y zanja sur saqué 10"
    for note in context.notes[notes:]:
        if shared or (not alike and (note.females.total or note.mostly or note.too_many or note.spots)):
            name = gathered.name
            context.complain("two_fields", name.start if name is not None else 0, gathered.facts[-1].end)
        else:
            context.notes.extend(replace(note, field=name) for name in also)


def _leads_to(text: str, fact: Fact, name: Fact) -> bool:
    """ "Never got to cedar slough": what starts a sentence that the name ends is said of that field."""
    starts = (fact.kind == "not_looked" and fact.lead in ("hard", "line")) or (
        fact.kind == "same" and fact.lead in ("hard", "line", "soft")  # ".. - same at tinkers"
    )
    return starts and not re.search(r"[.,;:!?\n]", text[fact.end : name.start])


def _is_header(context: Context, facts: list[Fact], name: Fact) -> bool:
    """A line of its own above the first field that only tells day, soil or way of digging is said of all fields."""
    between = context.text[facts[-1].end : name.start] if facts else ""
    kinds = {f.kind for f in facts}
    each = "each" in kinds and all(not f.numbers for f in facts if f.kind == "each")
    if each or any(of_each_field(context, f) for f in facts):
        kinds -= {"plants", "each"}  # "all with the spade, 6 plants each:"
    if all(f.words[0].value == "variety" for f in facts if f.kind == "variety"):
        kinds -= {"variety"}  # "variety check on three fields, all R4"
    if not any(f.has("ROOT") for f in facts if f.kind == "roots"):
        kinds -= {"roots"}  # "roots not washed"
    if not any(f.has("TOP") for f in facts if f.kind == "tops"):
        kinds -= {"tops"}  # "all plants taken with a fork"
    return bool(facts) and kinds <= _SHARED and ("\n" in between or "." in between or ":" in between)


_OF_HEADING = _SHARED | {"plants", "each", "look_again", "not_looked"}
"""What a line above lines of fields may say for each of them."""
LEAST_HEADED = 2
"""Lines below a heading that begin with a field, from which what it says of plants is said of each (judgement)."""


def _heads_lines(context: Context, facts: list[Fact], below: list[Fact]) -> bool:
    """ "7/13, dug, 5 pl, bkt:" above lines that each begin with a field, and none of them tells its plants."""
    told = [f for f in facts if f.kind != "roots" or f.has("ROOT")]  # "roots not washed": only the roots meant
    if not facts or not {f.kind for f in told} <= _OF_HEADING:
        return False
    between = context.text[facts[-1].end : below[0].start]
    named = [n for n, fact in enumerate(below) if fact.kind == "field"]
    lines = [n for n in named if context.text[: below[n].start].rstrip(" -*\t").endswith("\n")]
    heads = {below[n].first("FIELD") for n in lines}
    named = [n for n in named if n in lines or below[n].first("FIELD") not in heads]  # others speak of one told of
    own = any(fact.kind == "plants" or (fact.kind == "per_plant" and len(fact.numbers) > 1) for fact in below)
    return "\n" in between and len(lines) >= LEAST_HEADED and len(lines) == len(named) and not own


def _finish(context: Context, gathered: Gathered, header: list[Fact]) -> None:
    facts, name = gathered.facts, gathered.name
    if not facts and name is None:
        return
    if not facts and name is not None and gathered.thanks and context.fields:
        told = context.text[name.start : name.end]
        if not Names(told, [], table(context.language), context.fields).like_known(0, len(told)):
            return  # "gracias genio": courtesy, and no field of the crew
    days = [fact.first("DATE") for fact in facts if fact.kind == "date"]
    coming = len(days) == len(facts) == 1 and (days[0].days_ago is None or days[0].days_ago < 0)  # "hey, friday"
    if name is None and gathered.thanks and not coming and {f.kind for f in facts} <= {"text", "quoted", "date"}:
        return  # "valeu, brigado pela ajuda de ontem!"
    if corrections.reply(context, name, facts):
        return
    if name is None and (all(fact.kind in ("text", "quoted") for fact in facts) or _asks_of_day(context, facts)):
        if not (gathered.thanks or _only_thanks(context, facts)):
            _only_text(context, facts)
        return
    context.notes.append(make_note(context, name, facts, header))


def _asks_of_day(context: Context, facts: list[Fact]) -> bool:
    """ "Where should i point the truck today": a question of a day, of which nothing else is told."""
    if len(facts) < 2 or not {fact.kind for fact in facts} <= {"text", "quoted", "date", "look"} or context.notes:
        return False
    begins = context.text.rfind("\n", 0, facts[0].start) + 1  # "which" and its like are in no fact
    words = [x.text for x in scan(context.text[begins : facts[-1].end])]
    made = table(context.language)
    first = next((word for word in words if word.isalpha()), "")
    return words[-1] == "?" or any(made.has(trait, first) for trait in ("asks_first", "which_word", "asks_for"))


def _only_thanks(context: Context, facts: list[Fact]) -> bool:
    """ "Well I appreciate you keeping track of all this": a word of thanks, and neither number nor question."""
    told = context.text[facts[0].start : facts[-1].end]
    words = [x.text for x in scan(told)]
    plain = not any(char.isdigit() for char in told) and "?" not in context.text
    return plain and any(table(context.language).has("thanks_word", word) for word in words)


def _only_text(context: Context, facts: list[Fact]) -> None:
    """Text without a field: more of the note above, or nothing we can use."""
    spoken = [context.text[fact.start : fact.end].strip() for fact in facts]
    if context.notes:
        last = context.notes[-1]
        context.notes[-1] = replace(last, text="; ".join(part for part in (last.text, *spoken) if part))
    elif not context.commands and any(ch.isalnum() for part in spoken for ch in part):
        context.complain("nothing_read", facts[0].start, facts[-1].end)
