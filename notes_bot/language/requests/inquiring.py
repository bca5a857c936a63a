"""What is asked of winter's work and of a look in a sentence, wherever its word stands.

"Decime cuántas plantas tengo que sacar en la picada", "need the season report for kestrel and dry creek", "is Peking
still holding up?": the lines of a table that begin with the word that asks are read by ``winter`` and ``looking``; here
the word stands behind others. Each rule needs a word for the thing and a word for asking, and nothing seen beside them.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from notes_bot.language.lexicon.joining import is_any, linking
from notes_bot.language.lexicon.scan import fold
from notes_bot.language.lexicon.words import phrases
from notes_bot.language.names.naming import written
from notes_bot.language.requests import asking, looking, winter

if TYPE_CHECKING:
    from notes_bot.language.requests.commands.line import Line

LONGEST = 28
"""Pieces of the longest sentence that asks for one of these (judgement)."""
_SEEN = ("COLOUR", "NONE", "TOO_MANY", "NOT_LOOKED", "SOAKED", "CHEMICAL", "SPRAY", "UNDO", "CORRECT", "MUTE", "RESUME")
"""What no question of this room holds."""
_COUNTED = frozenset({"number", "range", "ratio", "series", "stage", "day"})


def inquired(line: Line) -> bool:
    """Read a sentence as a question of winter's work or of a look; false when it is none."""
    if not 1 < len(line.ps) <= LONGEST:
        return False
    if _look_supposed(line):
        return True
    if any(p.kind == "break" and p.value == "hard" for p in line.ps):  # each sentence by itself, but for
        return asking.parts_of(line).says("wants_sure") and _plants_asked(line)  # "90% sure. pulled. how many plants?"
    rules = (
        _how_to,
        winter.compared,
        winter.opened_beside,
        _plants_asked,
        _look_weighed,
        _look_trusted,
        _sampling,
        _rotation,
        _lab_again,
        _reported,
        _watched,
    )
    return any(rule(line) for rule in rules)


def _how_to(line: Line) -> bool:
    """ "Cómo se hace para silenciar un lote??", "how am i supposed to send you lab results": help, and nothing done."""
    if not asking.may_say(line, "how_to", "way_to") or any(p.kind in _COUNTED for p in line.ps):
        return False
    parts = asking.parts_of(line)
    how = parts.begins("how_to")
    if not (how or (parts.begins("way_to") and not parts.named)):
        return False
    if any(is_any(p, ("NONE", "TOO_MANY", "NOT_LOOKED")) and not linking(p) for p in line.ps):
        return False
    topic = topic_of(parts)
    if topic is None or (parts.named and topic not in _DONE_TO_FIELD):
        return False
    return line.emit("help", topic=topic)


_TOPICS = {
    "reminders": "topic_reminders",
    "hg": "topic_hg",
    "lab": "topic_lab",
    "weather": "topic_weather",
    "ask": "topic_ask",
    "corrections": "topic_corrections",
    "fields": "topic_fields",
}
"""Topics told by the deed that is asked about, the more particular first; each has its stems in the word files."""
_DONE_TO_FIELD = frozenset({"reminders", "corrections"})
"""Topics of deeds: how one is done to a field that is named is no question of that field."""


def topic_of(parts: asking.Parts) -> str | None:
    """The topic of help by the deed asked about ("silence", "rename", "lab results")."""
    asks = set(parts._of("how_to", "way_to"))  # "remind me how to fix a count"
    words = [word for n, word in enumerate(parts.words) if n not in asks]
    return next((topic for topic, stems in _TOPICS.items() if any(parts.made.stemmed(stems, w) for w in words)), None)


def _asks(line: Line, *traits: str) -> bool:
    """Is it a question, a wish, or does it begin with a word for asking?"""
    parts = asking.parts_of(line)
    opens = parts.opens("asks_for", "asks_politely", "ask_see", *traits)
    return line.asked or opens or parts.begins("opens_question", "asks_first", "which_word", "ask_state")


def _told(line: Line, *kinds: str) -> bool:
    """Is something seen, counted or put right in the sentence?"""
    said = [p for p in line.ps if "FIELD" not in p.types and not (len(p.text) == 1 and "LINK" in p.types)]
    told = any(is_any(p, (*_SEEN, *kinds)) and not linking(p) for p in said)
    return told or any(p.kind in _COUNTED for p in said)


def _plants_asked(line: Line) -> bool:
    """ "If i pull em and its clay how many plants till im 90% sure", "en picada vieja cuántas plantas miro?"."""
    at = next((n for n, p in enumerate(line.ps) if "HOW_MANY" in p.types and n), None)
    if at is None or looking.tells(line.ps):
        return False
    parts = asking.parts_of(line)
    return not parts.says("look_past") and line.emit("look_plan", **looking.plan_of(line, wide=False))


def _look_weighed(line: Line) -> bool:
    """ "De qué sirve haber mirado 5 plantas arrancadas en arcilla?", "can i trust 5 pulled plants?"."""
    if not asking.may_say(line, "worth_cue"):
        return False
    opens = asking.opens_with(line, "worth_opens")
    if looking.tells([p for n, p in enumerate(line.ps) if not (line.asked and _to_be_clean(line, n))]):
        return False
    parts = asking.parts_of(line)
    if not parts.says("worth_cue") or not (line.asked or opens) or any(is_any(p, ("TOO_MANY",)) for p in line.ps):
        return False
    asked = looking.asked_of(line, wide=False)
    return "plants" in asked and line.emit("look_worth", **asked)


def _to_be_clean(line: Line, n: int) -> bool:
    """ "Would 5 plants be enough to say Kestrel is clean?": clean is what one would like to say."""
    piece = line.ps[n]
    clean = "NONE" in piece.types and piece.types["NONE"].value == "clean"
    words = [word for p in line.ps[:n] for word in p.text.split(" ")]
    return clean and not phrases(words).isdisjoint(line.made.traits.get("to_call", ()))


def _look_supposed(line: Line) -> bool:
    """ "Say a guy only pulls 4 plants and sees nothing, what does that tell him": a look that nobody made."""
    if not asking.may_say(line, "look_supposes"):
        return False
    parts = asking.parts_of(line)
    told = any(p.kind in ("stage", "day", "series", "range") or is_any(p, ("COLOUR", "NOT_LOOKED")) for p in line.ps)
    words = [word for p in line.ps[:4] for word in p.text.split(" ")]
    opens = [" ".join(words[n:m]) for n in range(4) for m in (n + 1, n + 2)]
    supposed = any(line.made.has("look_supposes", said) for said in opens)
    said = phrases([word for p in line.ps for word in p.text.split(" ")])
    asks = not said.isdisjoint(line.made.traits.get("look_means", ())) or (parts.says("worth_cue") and line.asked)
    if told or not supposed or not asks or _of_the_crew(line):
        return False
    asked = looking.asked_of(line, wide=False)
    asked.pop("field", None)
    return "plants" in asked and line.emit("look_worth", **asked)


def _of_the_crew(line: Line) -> bool:
    """Does it name a field of the crew's list?"""
    listed = {fold(" ".join(name.split())) for name in line.context.listed}
    return any(fold(name) in listed for name in fields_in(line))


def _look_trusted(line: Line) -> bool:
    """ "My look at kestrel, can i trust it or was that too few plants?": what was seen there last, weighed."""
    if not asking.may_say(line, "look_noun") or _told(line, "PLANTED"):
        return False
    parts = asking.parts_of(line)
    cued = parts.says("worth_cue", "look_means") and parts.says("look_noun")
    field = asking.name_in(line)
    return cued and line.asked and field is not None and line.emit("look_worth", field=field)


def _sampling(line: Line) -> bool:
    """ "Whats the right way to take soil cores at rubys this fall", "como q eu tiro amostra de solo na baixada?"."""
    if not asking.may_say(line, "sample_thing", "sample_word") or _told(line, "TOOL"):
        return False
    parts = asking.parts_of(line)
    taken = parts.says("sample_word") or (parts.says("sample_thing") and parts.says("sample_deed"))
    field = asking.name_in(line)
    how = parts.says("sample_how") and not parts.says("sends_word", "had_then")
    return taken and how and field is not None and line.emit("sample", field=field)


def _rotation(line: Line) -> bool:
    """ "What rotation makes sense for kestrel?", "que rotação vcs sugerem pra baixada": the usual plans of a field."""
    if not asking.may_say(line, "rotation_word") or _told(line, "SOURCE", "RESISTANCE"):
        return False
    parts = asking.parts_of(line)
    field = asking.name_in(line)
    asks = _asks(line, "suggests")
    return asks and parts.says("rotation_word") and field is not None and line.emit("rotation", field=field)


def _lab_again(line: Line) -> bool:
    """ "Me mandas otra vez el lab de zanja sur", "what did the lab say for kestrel?": the newest result once more."""
    if not asking.may_say(line, "lab_thing") or _told(line):
        return False
    parts = asking.parts_of(line)
    sends = parts.says("sends_word") and not parts.opens("asks_for", "asks_politely", "lab_again")
    if not parts.says("lab_thing") or sends or parts.says("sample_thing", "sample_word", "taken_to_lab", "so_far"):
        return False  # "need to get the kestrel sample to the lab"
    if not (_asks(line, "lab_again") or parts.begins("lab_again") or parts.says("once_more")):
        return False
    names = fields_in(line)
    field = names[0] if names else asking.name_in(line)
    if names not in ([], [field]) or field is None:
        return False
    for kind in ("HISTORY", "PICTURE"):
        if any(kind in p.types and "FIELD" not in p.types for p in line.ps):
            line.emit(kind.lower(), field=field)  # "me mandas el lab y el historial de zanja sur"
    return line.emit("lab", field=field)


def _reported(line: Line) -> bool:
    """ "Need the season report for kestrel + lone ash", "preciso do relatório da safra da baixada e santa rita"."""
    if not asking.may_say(line, "report_wanted") or _told(line):
        return False
    parts = asking.parts_of(line)
    if parts.says("reporting") or (parts.begins("own_report") and not line.asked):
        return False  # "I wanted to report on North Forty", "my report for kestrel"
    if parts.says("report_for") and any(is_any(p, ("HISTORY",)) for p in line.ps):
        return False  # "the full history of Kestrel for my report"
    if not parts.says("report_wanted") or parts.says("ask_last", "of_the_day", "ask_undo"):
        return False
    if not _asks(line, "report_wanted"):
        return False
    names = fields_in(line)
    if len(names) > 1:
        return line.emit("report", fields=names)
    if not names and parts.says("report_all"):
        return line.emit("report", all=True)
    field = names[0] if names else asking.name_in(line)
    return field is not None and line.emit("report", field=field)


def _watched(line: Line) -> bool:
    """ "Any sign the Peking varieties are slipping", "is 88788 still working for us": seed across the fields."""
    if not asking.may_say(line, "holds_up") or any("FIELD" in p.types for p in line.ps):
        return False
    parts = asking.parts_of(line)
    if not parts.says("holds_up") or not (_asks(line) or parts.opens("watches")):
        return False
    told = [p for p in line.ps if is_any(p, ("COLOUR", "NONE", "DUG", "NOT_LOOKED", "PLANTED")) and not linking(p)]
    wanted = source_in(line)
    if told or (wanted is None and not parts.says("varieties_word")) or asking.name_in(line) is not None:
        return False
    return line.emit("watch", source=wanted)


def source_in(line: Line) -> str | None:
    """The first source of resistance a line names."""
    raw = fold(line.context.text[line.start : line.end])
    return next((found.value for found in winter.find(line.context.language, "SOURCE", raw)), None)


def fields_in(line: Line) -> list[str]:
    """The fields a line names, in order, each once."""
    names = [written(line.context.text, p.start, p.end) for p in line.ps if "FIELD" in p.types]
    return list(dict.fromkeys(names))
