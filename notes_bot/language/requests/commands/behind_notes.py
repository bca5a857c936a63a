"""What is asked in a line that holds a note, too."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import chain, islice, pairwise

from notes_bot.language.clauses.context import Context
from notes_bot.language.lexicon.joining import is_any, linking, number_like
from notes_bot.language.lexicon.pieces import Piece
from notes_bot.language.lexicon.words import anywhere, table
from notes_bot.language.names.naming import joints
from notes_bot.language.requests import asking, put_beside, telling, winter
from notes_bot.language.requests.commands.aside import corrects, read_aside
from notes_bot.language.requests.commands.cutting import content_of, contents_of, end_of, sentences_of, words_said
from notes_bot.language.requests.commands.headings import LONGEST_HEADING, brings_up, only_shows
from notes_bot.language.requests.commands.line import BEGINS, LONGEST_REQUEST, Line
from notes_bot.language.requests.commands.plain import only_noted
from notes_bot.language.requests.commands.rain import rained
from notes_bot.language.requests.commands.several import MOST_REQUESTS, joined_requests

_ADDS = ("MOISTURE", "TEXTURE", "TOPS", "ROOTS", "NODULES", "RESISTANCE", "SOURCE")
"""What a sentence below a note adds to it."""
LEAST_BESIDE = 2
"""Sentences of a line that tells a note and asks of another field."""
_OF_ANOTHER = ("EGGS", "MUTE", "RESUME", "PICTURE", "HISTORY", "STATE", "SKIP", "MOVE")
"""What is told or asked of one field beside the note of another."""


def without_requests(
    context: Context, line: list[Piece], before: list[Piece], below: Sequence[list[Piece]] = ()
) -> list[Piece]:
    """A line of a note without the sentences of it that ask ("6 plants none. Stop reminding me about it.")."""
    sentences = [part for sentence in sentences_of(line) for part in _cut_before_request(context, sentence)]
    sentences = [part for sentence in sentences for part in asking.asked_behind(Line(context, sentence), sentence)]
    if len(sentences) < 2:
        return line
    rest: list[Piece] = []
    undone = False
    kept = context.found()
    asked_of: Piece | None = None
    for n, (sentence, ahead) in enumerate(zip(sentences, [*sentences[1:], []], strict=True)):
        content = content_of(sentence)
        named = _named_last(rest) or _named_last(before)
        if asked_of is not None and _of_it(context, content):
            named = asked_of
        found = context.found()
        made = len(context.commands)
        if content and ahead and _heads_note(context, content, content_of(ahead)):
            rest.extend(sentence)
        elif content and _answered(context, content, ahead):
            told_of = any("FIELD" in p.types for p in content)
            rest.extend(sentence if told_of else end_of(sentence, "break"))
        elif content and (
            (asked_of is None and named is None and _right_before(context, content, ahead))
            or _both_asked(context, content, named, (before, rest))
        ):
            rest.extend(end_of(sentence, "break"))
        elif not (content and read_aside(Line(context, content), named, (before, rest))):
            rest.extend(sentence)
        elif only_shows(context, made) and brings_up(context, content, _behind(sentences, n, below)):
            context.forget(found)
            rest.extend(sentence)
        elif sentence[-1].kind in ("line", "break"):
            if not any("FIELD" in p.types for p in (*before, *rest)):
                rest.extend(_field_rained_on(context, content, ahead, made))
            rest.append(sentence[-1])
            undone = undone or any("UNDO" in p.types for p in sentence)
        asked_of = _named_last(content) if len(context.commands) > made else None
        if len(context.commands) == made + 1 and _asked_before(context, made):
            del context.commands[made:]  # ".. and what have we noted for Depot? I'd like to see its history."
    if undone and rest and not Line(context, rest).tells():
        return [piece for piece in rest if piece.kind == "line"]  # why it is taken back
    asked = [command for command in context.commands[kept[0] :] if command.kind == "state"]
    nameless = not any("FIELD" in p.types for p in (*before, *rest))
    if asked and nameless and rest and Line(context, rest).tells() and not _asks_at_once(sentences[0]):
        context.forget(kept)
        return line  # "Grange S resistant var? 5 pl 22w"
    return rest


def _behind(sentences: list[list[Piece]], n: int, below: Sequence[list[Piece]]) -> Iterator[list[Piece]]:
    """The sentences behind one, and the lines below."""
    return chain(map(content_of, islice(sentences, n + 1, None)), below)


def _right_before(context: Context, content: list[Piece], ahead: list[Piece]) -> bool:
    """ "Roots at Long Bottom were dark not white. (Rook Corner today 5 plants, none)": put right before another's note.

    Only an old value with its new one, told of what was or of what was written: "Kestrel roots are dark not white.
    Depot .." is a note of each.
    """
    own, other = ({p.text for p in part if "FIELD" in p.types} for part in (content, ahead))
    line, kept = Line(context, content), context.found()
    words = words_said(content)
    told = any(line.made.has(trait, word) for word in words for trait in ("was_so", "wrote", "really"))
    if len(own) != 1 or not other or own & other or not told or not Line(context, content_of(ahead)).tells():
        return False
    right = put_beside.put_beside(line) and context.found()[1] == kept[1]
    if right and all(command.args.get("old") is not None for command in context.commands[kept[0] :]):
        return True
    context.forget(kept)
    return False


def _field_rained_on(context: Context, content: list[Piece], ahead: list[Piece], made: int) -> list[Piece]:
    """ "Kestrel got an inch of rain last night. (6 plants dug, ..)": the field of the rain is the note's as well.

    So is the one of what was put right: "Kestrel: map is wrong, its clay loam. 5 dug 2 white".
    """
    named = [piece for piece in content if "FIELD" in piece.types]
    kinds = {command.kind for command in context.commands[made:]}
    weather = kinds == {"weather"} or (kinds == {"correct"} and bool(context.listed))
    told = content_of(ahead) if ahead else []
    noted = bool(told) and Line(context, told).tells() and not any("FIELD" in piece.types for piece in told)
    return named if weather and noted and len(named) == 1 else []


def _of_it(context: Context, content: list[Piece]) -> bool:
    """ "I'd like to see its history": a sentence of what the one before it asked of, by a word for it."""
    made = table(context.language)
    words = [word for piece in content for word in piece.text.split(" ")]
    return not any("FIELD" in p.types for p in content) and made.has_any("of_that_one", words)


def _asked_before(context: Context, n: int) -> bool:
    """Is a command the same as one before it?"""
    last = context.commands[n]
    return any(c.kind == last.kind and c.args == last.args and c.kind != "correct" for c in context.commands[:n])


def _heads_note(context: Context, content: list[Piece], ahead: list[Piece]) -> bool:
    """ "Notes for Dry Creek. (6 plants dug.)": what the note that follows is of, and nothing asked."""
    line = Line(context, content)
    if line.asked or len(content) > LONGEST_HEADING or not any("FIELD" in p.types for p in content[1:]):
        return False
    words = words_said(content)
    headed = any(line.made.has("notes_heading", word) for word in words[:2]) or line.made.has("shows_here", words[0])
    begins = line.made.has("notes_heading", words[0]) or line.made.has("shows_here", words[0]) or len(words) > 1
    asks = line.made.has("asks_for", words[0]) or any(word in anywhere("please") for word in words)
    if not (headed and begins) or asks or not ahead or any("FIELD" in p.types for p in ahead):
        return False
    return Line(context, ahead).tells()


def _answered(context: Context, asked: list[Piece], ahead: list[Piece]) -> bool:
    """ "How many? 31 on 6 plants", "cuántas plantas quería saber el capataz... fueron 8": answered at once."""
    made = table(context.language)
    opens = "HOW_MANY" in asked[0].types or asking.opens_with(Line(context, asked), "how_many")
    told = [p for p in ahead if not (linking(p) or any(made.has(trait, p.text) for trait in ("is_word", "is_now")))]
    return opens and len(asked) <= LONGEST_HEADING and any(number_like(p) for p in told[:2])


def _both_asked(context: Context, content: list[Piece], named: Piece | None, before: tuple[list[Piece], ...]) -> bool:
    """ "Cancela os avisos dela e me mostra o histórico da Boa Vista": one sentence behind a note, two requests."""
    cuts = joined_requests(context, content) if len(content) <= LONGEST_REQUEST else []
    if not 2 <= len(cuts) <= MOST_REQUESTS:
        return False
    kept = context.found()
    if all(read_aside(Line(context, cut), named, before) for cut in cuts):
        return True
    context.forget(kept)
    return False


def _cut_before_request(context: Context, sentence: list[Piece]) -> list[list[Piece]]:
    """ "5 plants none, skip tinkers this time": cut before a word for asking with a field of the crew behind it.

    And before help asked for in a phrase: "next look 2 wks. what can i ask you".
    """
    made = table(context.language)
    out: list[list[Piece]] = [[]]
    for n, piece in enumerate(sentence):
        before = sentence[n - 1] if n else None
        led = before is not None and (before.kind in ("break", "sign") or made.has("and_then", before.text))
        led = led or is_any(before, ("UNIT",))  # "back in 2 wks. mute silo hill"
        behind = sentence[n + 1] if n + 1 < len(sentence) else None
        asks = is_any(piece, ("SKIP", "MUTE", "RESUME", "MOVE")) and not is_any(
            piece, ("FIELD", "LINK", "SPOT", "TOOL")
        )
        pleads = before is not None and before.text == ":" and made.has("please", piece.text)  # "a new one: please add"
        helps = "HELP" in piece.types and " " in piece.text
        if (led and (helps or (asks and is_any(behind, ("FIELD",))))) or pleads:
            out.append([])
        out[-1].append(piece)
    return out


def asked_below(context: Context, content: list[Piece], above: list[Piece]) -> bool:
    """A line below a note that asks of its field: "whats the history there", "les pido silenciar ese lote"."""
    if all(piece.kind in ("line", "break") for piece in above) or len(sentences_of(content)) > 1:
        return False
    named = _named_last(above)
    return read_aside(Line(context, content), named, (above, []))


def _named_last(pieces: list[Piece]) -> Piece | None:
    """The field named last in the pieces right before a sentence."""
    near = pieces[-telling.LOOK_BACK :]
    return next((p for p in reversed(near) if p.kind == "word" and "FIELD" in p.types), None)


def _asks_at_once(sentence: list[Piece]) -> bool:
    """Does a sentence hold a word for asking how a field is?"""
    return any("STATE" in piece.types for piece in sentence)


def noted_beside(context: Context, content: list[Piece]) -> bool:
    """ "Tannery pulled 4, 0. Lab Sumac 2400 eggs per 100cc": a plain note, and another field in its own sentence.

    Also "kestrel no look today and push old mill to friday": not looked, and another field in its own clause.
    """
    sentences = sentences_of(content)
    if len(sentences) < LEAST_BESIDE:
        return _not_looked_beside(context, content)
    noted: set[str] = set()
    others: set[str] = set()
    for sentence in sentences:
        named = {piece.text for piece in sentence if "FIELD" in piece.types}
        if only_noted(sentence) or _not_looked_at(context, sentence) is not None:
            noted |= named
        elif any(is_any(piece, _OF_ANOTHER) for piece in sentence):
            others |= named
    return bool(noted and others) and not noted & others


def _not_looked_at(context: Context, content: list[Piece]) -> int | None:
    """Where it is said that nobody looked, "não foi possível olhar" among it; ``None`` where it is not."""
    made = table(context.language)
    for n, piece in enumerate(content):
        if "NOT_LOOKED" in piece.types and "FIELD" not in piece.types:
            return n
        verb = n + 1
        while verb < len(content) and made.has("undone_filler", content[verb].text):
            verb += 1
        denied = made.denies(piece.text.split(" ")[0]) and verb > n + 1 and verb < len(content)
        if denied and made.stemmed("look_stem", content[verb].text):
            return verb
    return None


def _not_looked_beside(context: Context, content: list[Piece]) -> bool:
    """A field not looked at, and behind a stop or an "and" another one of which something is asked."""
    at = _not_looked_at(context, content)
    later = range(at, len(content)) if at is not None else ()
    cuts = [n for n in later if content[n].kind == "break" or content[n].text in joints()]
    if not cuts:
        return False
    noted, others = ({p.text for p in part if "FIELD" in p.types} for part in (content[: cuts[0]], content[cuts[0] :]))
    asked = any(is_any(p, _OF_ANOTHER) and not linking(p) for p in content[cuts[0] :])
    return asked and bool(noted and others) and not noted & others


def adds_first(context: Context, content: list[Piece], before: list[Piece]) -> bool:
    """ "Both fields dry. What else is due?" below notes: the first sentence adds to them."""
    sentences = sentences_of(content) if before else []
    first = content_of(sentences[0]) if len(sentences) > 1 else []
    added = any(p.kind == "stage" or (is_any(p, _ADDS) and not linking(p)) for p in first)
    return added and not asking.may_ask(Line(context, first))


def noted_and_corrected(context: Context, content: list[Piece]) -> bool:
    """ "Kestrel 5 plants none. For tinkers i meant 14 white not 4": a note, and a correction of another field's."""
    parts = contents_of(content)
    named = [next((p.text for p in part if "FIELD" in p.types), "") for part in parts]
    if len(parts) < 2 or not named[0] or not Line(context, parts[0]).tells() or corrects(Line(context, parts[0])):
        return False
    return any(name not in ("", named[0]) and corrects(Line(context, parts[n])) for n, name in enumerate(named))


def rained_first(context: Context, content: list[Piece]) -> int:
    """ "Choveu 12 mm ontem e por isso não deu pra cavar no ..": rain, and behind it a note; where that begins, or 0."""
    bounds = [n for n, p in enumerate(content[:LONGEST_REQUEST]) if n and (p.kind == "break" or p.text in joints())]
    for n in bounds:
        told = any("FIELD" in p.types for p in content[:n])
        if told or not any("FIELD" in p.types for p in content[n:]) or not Line(context, content[n:]).tells():
            continue
        if rained(Line(context, content[:n])):
            return n
    return 0


def _asks_besides(context: Context, part: list[Piece]) -> bool:
    """ "What would you plant on Tinkers?", "mute Tinkers please": beside a result, a sentence that asks."""
    begins = bool(context.fields) and is_any(part[0], BEGINS) and not is_any(part[0], ("FIELD", "LINK"))
    return begins or part[-1].text == "?"


def several_results(context: Context, content: list[Piece]) -> bool:
    """ "Kestrel 2400 eggs per 100 cc. North forty 350 eggs per 100 cc.": each sentence is a result of its own.

    Also "Kestrel 2400 eggs per 100 cc. What would you plant on Tinkers?": a result, and a question of more.
    """
    parts = contents_of(content)
    counts = [winter.holds_count(Line(context, part)) for part in parts]
    if any(counts) and any(
        _asks_besides(context, part) for part, count in zip(parts, counts, strict=True) if not count
    ):
        return True
    noted = any(
        not count and any(p.kind == "number" and is_any(q, ("PLANTS", "COLOUR")) for p, q in pairwise(part))
        for count, part in zip(counts, parts, strict=True)
    )
    return sum(counts) > 1 or (any(counts) and noted)
