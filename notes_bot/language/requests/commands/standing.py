"""How a field stands, what was found there, its picture, what is due, and the summing up."""

from __future__ import annotations

from notes_bot.language.lexicon.joining import is_any, linking
from notes_bot.language.requests import asking
from notes_bot.language.requests.commands.cutting import words_said
from notes_bot.language.requests.commands.line import LONGEST_NAME, LONGEST_REQUEST, Line
from notes_bot.language.requests.commands.named import about
from notes_bot.language.requests.commands.reminders import moved_in_words


def state(line: Line) -> bool:
    """state kestrel; how is kestrel doing? "show me the chart for kestrel" is a picture."""
    if "MOVE" in line.ps[0].types and moved_in_words(line):
        return True  # "remind me about old mill on the 30th"
    if of_the_season(line, 0) and not line.tells() and (name := line.known_name(0)) is not None:
        return line.emit("history", field=name)  # "what's the story on kestrel so far"
    drawn = next((n for n in range(1, len(line.ps)) if line.has(n, "PICTURE") and not line.has(n, "FIELD")), None)
    if drawn is not None and len(line.ps) <= LONGEST_NAME + 3:
        name = line.name(drawn + 1) or line.known_name(drawn)
        if name is not None:
            return line.emit("picture", field=name)
    if is_any(line.ps[-1], ("HISTORY",)) and (name := line.known_name(len(line.ps) - 1)) is not None:
        return line.emit("history", field=name)  # "show me tinkers history"
    return about(line, "state", needed=True)


def history(line: Line) -> bool:
    """history kestrel."""
    return about(line, "history", needed=True)


def picture(line: Line) -> bool:
    """chart kestrel."""
    if line.quiet() and not (line.has(1, "FIELD") or (len(line.ps) > 1 and not line.ps[1].entries)):
        return False
    return about(line, "picture", needed=True)


def due(line: Line) -> bool:
    """due; what's due today; "when do I go back to dry creek" asks how that field stands."""
    named = next((p for p in line.ps[1:] if "FIELD" in p.types), None)
    if named is not None and len(line.ps) <= LONGEST_NAME and not line.noted(1):
        records = any(line.made.stemmed("ask_record", word) for p in line.ps[1:] for word in p.text.split(" "))
        return line.emit("history" if records else "state", field=line.written(named))  # "list my Kestrel notes"
    if len(line.ps) > 1 and " " not in line.ps[0].text and all(linking(p) for p in line.ps[1:]):
        return False  # "every visit to old mill, list em"
    return (
        len(line.ps) <= 5
        and all(p.entries or p.kind == "day" for p in line.ps)
        and not line.noted(1)
        and line.emit("due")
    )


def digest(line: Line) -> bool:
    """digest; digest week; season digest."""
    span = line.ps[0].types["DIGEST"].value
    return len(line.ps) == 1 and line.emit("digest", span=span if span in ("week", "season") else None)


def asked_of_field(line: Line) -> bool:
    """ "Quando eu volto na santa rita?", "oiga y cuando le toca a dry creek?": a question that names a field."""
    first = line.made.has("asks_first", line.ps[0].text)
    if not (line.asked or first) or len(line.ps) > LONGEST_REQUEST or line.tells(reasons=first):
        return False
    if asking.asks_others(line):
        return False
    opens = first or any(line.made.has("opens_question", p.text) for p in line.ps[:3])
    field = next((n for n, p in enumerate(line.ps) if "FIELD" in p.types), None)
    if not opens or field is None or any(p.kind in ("number", "day", "range") for p in line.ps):
        return False
    if any(p.kind == "break" and p.value == "hard" for p in line.ps[:field]):
        return False  # "Can somebody order more flags. Dry Creek couldn't dig."
    name = line.written(line.ps[field])
    kinds = {kind for p in line.ps for kind in p.types if "FIELD" not in p.types}
    parts = asking.parts_of(line)
    if (found := parts.asked()) is not None and found.kind not in ("state", "history", "picture"):
        return False  # "can you put twin pines back on the schedule"
    default = "history" if parts.past() else "state"
    return line.emit(next((k.lower() for k in ("HISTORY", "PICTURE") if k in kinds), default), field=name)


def asked_what_was(line: Line) -> bool:
    """ "How many white did I have at kestrel last time": what was counted then, and nothing told."""
    words = words_said(line.ps)
    opens = line.made.has("how_many", " ".join(words[:2])) or line.made.has("how_many", words[0])
    told = any(p.kind in ("number", "range", "series", "stage") for p in line.ps) or is_any(line.ps[0], ("HOW_MANY",))
    if not opens or told or len(line.ps) > LONGEST_REQUEST or not any(line.made.has("had_then", w) for w in words):
        return False
    field = line.known_name(-1)
    return field is not None and line.emit("history", field=field)


def asked_what_was_written(line: Line) -> bool:
    """ "Can you tell me what i wrote about cedar slough": the history of a field."""
    opening = line.ps[0].text.split(" ")[0]
    if not (line.asked or line.made.has("asks_for", opening) or line.politely()):
        return False
    words = words_said(line.ps)
    wrote = any(line.made.has("wrote", word) or line.made.stemmed("noted_stem", word) for word in words[1:])
    stands = any("STATE" in p.types for p in line.ps[:2])
    if not wrote or stands or len(line.ps) > LONGEST_REQUEST or line.tells(reasons=True):
        return False
    if any(p.kind == "number" or is_any(p, ("MUTE", "CORRECT", "UNDO")) for p in line.ps):
        return False
    if any("WHICH" in p.types and p.types["WHICH"].value == "next" for p in line.ps):
        return False  # "can you put kestrel on for next week"
    parts = asking.parts_of(line)
    if parts.says("ask_back_on") or parts.opens("ask_undo"):
        return False  # "can you put twin pines back on the schedule", "can you remove my dry creek note?"
    field = line.known_name(-1)
    return field is not None and line.emit("history", field=field)


def of_the_season(line: Line, i: int) -> bool:
    """ "What have we got on kestrel so far this year": all of it, and not only how it stands."""
    words = " ".join(p.text for p in line.ps[i:]).split(" ")
    said = {" ".join(words[n : n + size]) for n in range(len(words)) for size in (1, 2, 3)}
    return any(line.made.has("so_far", part) for part in said)
