"""Help asked for, and questions about the work."""

from __future__ import annotations

from notes_bot.language.lexicon.joining import is_any, linking
from notes_bot.language.lexicon.pieces import Piece
from notes_bot.language.lexicon.words import anywhere
from notes_bot.language.requests import asking, inquiring
from notes_bot.language.requests.commands.cutting import words_said
from notes_bot.language.requests.commands.line import LONGEST_REQUEST, Line


def asked_help(line: Line) -> bool:
    """help; help counts."""
    if line.ps[0].text == "?" and line.context.commands:
        return True  # the second of "cómo viene??"
    if len(line.ps) == 1:
        return line.emit("help")
    long = line.asked or " " in line.ps[0].text
    if len(line.ps) > (16 if long else 4) or (long and not line.asked and line.tells()):
        return False
    topics = [p.types["TOPIC"].value for p in line.ps[1:] if "TOPIC" in p.types]
    if not topics and asking.parts_of(line).past() and any("FIELD" in p.types for p in line.ps):
        return False  # "show me how bus stop has done all season"
    if len(topics) > 1 and any(p.text in anywhere("reports") for p in line.ps[1:4]):
        topics = [topic for topic in topics if topic != "lab"] or topics  # "how I should report counts"
    named = len(line.ps) <= 4 and not (long and line.asked) and not any(is_any(p, ("HELP",)) for p in line.ps[1:])
    return line.emit("help", topic=topics[0] if topics else line.name(1) if named else None)


def wondered(line: Line) -> bool:
    """ "Was i supposed to wash em", "what do the white ones mean": a question about the work, of no field."""
    words = " ".join(p.text for p in line.ps[:6]).split(" ")
    opens = [" ".join(words[n : n + size]) for n in range(len(words)) for size in (1, 2) if not n or words[0] != "i"]
    if _asks_to_write(line):
        return line.emit("help", topic="counts")
    if _asks_of_stage(line, words):
        return line.emit("help", topic="stages")
    polite = line.politely() or any(line.made.has("wonders", said) for said in opens[:2])
    if not polite or not any(line.made.has("wonders", said) for said in opens):
        return False  # "hey can you tell me how deep to dig"
    told = any(p.kind in ("number", "range", "day", "series") or "FIELD" in p.types for p in line.ps)
    means = any(line.made.has("means_word", word) for word in words_said(line.ps))
    told = told or (not means and any(p.kind == "stage" for p in line.ps))
    if told or len(line.ps) > LONGEST_REQUEST:
        return False
    kinds = {kind for p in line.ps for kind in p.types}
    first = any(line.made.has("wonders", said) for said in opens[:2])
    supposed = first and any(line.made.has("if_word", p.text) for p in line.ps)
    if supposed and kinds & {"NOT_LOOKED", "MOISTURE"}:
        return line.emit("help", topic="method")  # "what do i do if it is too wet to dig"
    if "NOT_LOOKED" in kinds:
        return False
    if line.asked and kinds & {"ROOTS", "PLANTS"}:
        kinds.add("TOOL")
    topic = (
        "method" if kinds & {"SOAKED", "DUG", "TOOL"} else "counts" if kinds & {"COLOUR", "FEMALES", "NONE"} else None
    )
    return (topic is not None or means) and line.emit("help", topic=topic)


def _asks_of_stage(line: Line, words: list[str]) -> bool:
    """ "How do u know what r2 looks like": a question that speaks of a stage and of nothing seen."""
    opens = bool(words) and line.made.has("asks_first", words[0])
    staged = any(p.kind == "stage" for p in line.ps)
    other = any(p.kind in ("number", "range", "day", "series") or "FIELD" in p.types for p in line.ps)
    if not (opens and staged) or other or len(line.ps) > LONGEST_REQUEST:
        return False
    rest = [p for p in line.ps if p.kind != "stage"]
    return bool(rest) and not Line(line.context, rest).tells(reasons=True)


def _asks_to_write(line: Line) -> bool:
    """ "How do you want the counts written?", "cómo te tengo que pasar los conteos?": how, counts and writing."""
    words = words_said(line.ps)
    opens = any(line.made.has("how_word", word) for word in words[:2])
    counts = any(p.types["TOPIC"].value == "counts" for p in line.ps if "TOPIC" in p.types)
    counts = counts or any(is_any(p, ("COLOUR", "FEMALES", "NONE")) and not linking(p) for p in line.ps)
    writes = any(line.made.has("sends_word", word) for word in words)
    told = any(p.kind in ("number", "range", "day", "stage", "series") or "FIELD" in p.types for p in line.ps)
    return opens and counts and writes and not told and len(line.ps) <= LONGEST_REQUEST


def helped(line: Line) -> bool:
    """ "Hey boss, what can you even do?", "i keep forgetting what to type": help asked for in a sentence."""
    asked = next((n for n, p in enumerate(line.ps) if "HELP" in p.types and " " in p.text), None)
    asked = _help_behind(line) if asked is None else asked
    if asked is None or any(p.kind == "number" or "FIELD" in p.types for p in line.ps):
        return False
    said = [*line.ps[asked + 1 :], *line.ps[:asked]]
    topic = next((p.types["TOPIC"].value for p in said if "TOPIC" in p.types), None)
    topic = topic or inquiring.topic_of(asking.parts_of(line))
    return len(line.ps) < LONGEST_REQUEST and not line.tells() and line.emit("help", topic=topic)


def only_help(line: Line) -> bool:
    """ "(V3.) What can i ask you anyway, help": a sentence behind a note that asks for help and says nothing else."""
    asked = [n for n, p in enumerate(line.ps) if "HELP" in p.types and p.text != "?"]
    if not asked or not all(_beside_help(line, p) for n, p in enumerate(line.ps) if n not in asked):
        return False
    phrase = any(" " in line.ps[n].text for n in asked)
    talk = [p for n, p in enumerate(line.ps) if n not in asked and not _says_nothing(p)]
    if not (phrase or not talk) or any(p.start < line.ps[asked[0]].start for p in talk):
        return False
    again = any(command.kind == "help" for command in line.context.commands)  # "what can you do? help"
    return again or line.emit("help")


def _beside_help(line: Line, piece: Piece) -> bool:
    """A stop, a word of courtesy or a little one: "anyway"."""
    return _says_nothing(piece) or line.made.has("beside_talk", piece.text)


def _says_nothing(piece: Piece) -> bool:
    courteous = "COURTESY" in piece.types or piece.text in anywhere("please") or piece.text in anywhere("also")
    return piece.kind == "break" or courteous


def _help_behind(line: Line) -> int | None:
    """ "No me deja, ayuda por favor": the word alone behind a stop, where it ends the line."""
    last = len(line.ps) - 1
    while last > 0 and ("COURTESY" in line.ps[last].types or line.ps[last].text in anywhere("please")):
        last -= 1
    ends = last > 0 and is_any(line.ps[last], ("HELP",)) and line.ps[last - 1].kind == "break"
    return last if ends and line.ps[last].kind == "word" else None
