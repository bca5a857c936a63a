"""spell: a Note as one line, the way we would write it. What we write we can read."""

from __future__ import annotations

from datetime import date

from notes_bot.language.lexicon.mistakes import day_text
from notes_bot.language.lexicon.scan import clean, fold
from notes_bot.language.lexicon.words import Table, table
from notes_bot.model import COLOURS, Colour, Females, Language, Note, Spot, Spray


def spell(note: Note, language: Language = "en", *, sent: date | None = None) -> str:
    """A note as one short line; ``read_note`` of it gives the note back (apart from where it stood).

    Days carry no year unless ``sent`` is given and the day would not be found again without one.
    """
    words = table(language)
    parts: list[str] = []
    if note.field:
        parts.append(_field(note.field, language))
    if note.date is not None:
        parts.append(_day(note.date, language, sent))
    parts.extend(_look(note, words))
    parts.extend(_soil(note, words))
    if note.stage:
        parts.append(note.stage)
    parts.extend(_roots(note, words))
    parts.extend(_seed(note, words, language, sent))
    if note.look_again is not None:
        if note.look_again.days is not None:
            parts.append(f"{words.write('look')} {note.look_again.days} {words.write('d')}")
        elif note.look_again.date is not None:
            parts.append(f"{words.first['WRITTEN_FORM', 'next']} {_day(note.look_again.date, language, None)}")
    line = ", ".join(parts)
    for top in note.tops:
        line += f"; {words.first['WRITTEN_TOP', top]}"
    for spot in note.spots:
        line += f"; {_spot(spot, words)}"
    if note.text:
        line += f'; "{quotable(note.text)}"'
    return line.removeprefix("; ")


def quotable(text: str) -> str:
    """Free text as it can stand between quotes: one line, single spaces, no quotes of any kind inside."""
    return " ".join("".join("'" if fold(char) == '"' else char for char in clean(text)).split())


def _day(day: date, language: Language, sent: date | None) -> str:
    text = day_text(day, language)
    return f"{text} {day.year}" if sent is not None and not 0 <= (sent - day).days <= 200 else text


def _field(name: str, language: Language) -> str:
    """The name alone where it would be read as one without a guess, else behind the word for field."""
    from notes_bot.language.reader import plainly, read_plainly

    words = table(language)
    day = date(2000, 7, 1)
    for written in (name, f"{words.write('field')} {name}"):
        said = plainly(f"{written}, 1 {day_text(day, language)[2:]}, R2", own=language)
        reading = read_plainly(said, day, language=language)
        if reading.language == language and len(reading.notes) == 1 and not reading.problems:
            note = reading.notes[0]
            if note.field == name and note.date == day and note.stage == "R2" and not note.text:
                return written
    return f'{words.write("field")} "{name}"'


def _look(note: Note, words: Table) -> list[str]:
    """How they looked and what they saw."""
    parts: list[str] = []
    if note.outcome == "not_looked":
        parts.append(words.write("not_looked"))
    places = [spot for spot in note.spots if not spot.check]
    if not places:
        counted, counts = _counts(note.plants, note.per_plant, note.females, note.mostly, note.too_many, words)
    else:
        counted, counts = "", []
        own = [spot.plants for spot in places]
        if note.plants is not None and (None in own or sum(n for n in own if n is not None) != note.plants):
            counted = f"{note.plants} {words.first['PLANTS', 'plants']}"
        if note.too_many:
            counts = [words.write("many")]
    if counted:
        parts.append(counted)
    if note.method:
        parts.append(words.first["TOOL", note.method])
    if note.soaked is not None:
        parts.append(words.write("soaked" if note.soaked else "unsoaked"))
    return parts + counts


def _counts(
    plants: int | None,
    per_plant: tuple[int, ...] | None,
    females: Females,
    mostly: tuple[Colour, ...],
    too_many: bool,
    words: Table,
) -> tuple[str, list[str]]:
    """The words for the plants, with their list, and the counts that follow."""
    noun = words.first["PLANTS", "plants"]
    counted = f"{plants} {noun}" if plants is not None else ""
    counts: list[str] = []
    if per_plant is not None:
        listed = " ".join(map(str, per_plant))
        counted = f"{counted}: {listed}" if counted else f"{words.first['EACH', 'each']}: {listed}"
    colours = {colour: getattr(females, colour) for colour in COLOURS}
    shown = {colour: n for colour, n in colours.items() if n}
    alone = len(shown) == 1 and mostly == tuple(shown)
    if females.total == 0:
        counts.append(words.first["NONE", "none"])
    elif shown and alone and per_plant is not None:
        counted += f" {words.write('all')} {words.first['COLOUR', mostly[0]]}"
        mostly = ()
    elif shown:
        counts.extend(f"{n} {words.first['COLOUR', colour]}" for colour, n in shown.items())
    elif females.total is not None and per_plant is None:
        counts.append(f"{females.total} {words.first['FEMALES', 'female']}")
    if mostly:
        counts.append(f"{words.write('mostly')} " + " + ".join(words.first["COLOUR", colour] for colour in mostly))
    if too_many:
        counts.append(words.write("many"))
    return counted, counts


def _soil(note: Note, words: Table) -> list[str]:
    parts: list[str] = []
    if note.soil.moisture:
        parts.append(words.first["MOISTURE", note.soil.moisture])
    if note.soil.texture:
        parts.append(words.first["TEXTURE", note.soil.texture])
    if note.soil.ph is not None:
        parts.append(f"pH {_number(note.soil.ph, words)}")
    if note.soil.k_ppm is not None:
        parts.append(f"K {_number(note.soil.k_ppm, words)}")
    return parts


def _number(value: float, words: Table) -> str:
    text = f"{value:g}"
    return text if words.language == "en" else text.replace(".", ",")


def _roots(note: Note, words: Table) -> list[str]:
    parts: list[str] = []
    own = [
        words.first.get(("ROOT", value), "") or words.first["COLOUR", "white"]
        for value in note.roots
        if not value.startswith("nodules_")
    ]
    if own:
        parts.append(" ".join([words.first["ROOTS", "roots"], *own]))
    nodules = [
        words.first["NODULE", value.removeprefix("nodules_")] for value in note.roots if value.startswith("nodules_")
    ]
    if nodules:
        parts.append(" ".join([words.first["NODULES", "nodules"], *nodules]))
    return parts


def _seed(note: Note, words: Table, language: Language, sent: date | None) -> list[str]:
    parts: list[str] = []
    if note.variety is not None:
        seed: list[str] = []
        if note.variety.resistance:
            seed.append(words.first["RESISTANCE", note.variety.resistance])
        if note.variety.source:
            seed.append(note.variety.source)
        if note.variety.name:
            seed.append(f"{words.write('variety')} {note.variety.name}")
        if seed:
            parts.append(", ".join(seed))
    if note.spray is not None:
        parts.extend(_spray(note.spray, words, language, sent))
    if note.planted is not None:
        parts.append(f"{words.write('planted')} {_day(note.planted, language, sent)}")
    return parts


def _spray(spray: Spray, words: Table, language: Language, sent: date | None) -> list[str]:
    parts: list[str] = []
    what = " ".join(words.first.get(("CHEMICAL", name), name) for name in spray.what.split(" + ")) if spray.what else ""
    if spray.days_ago is not None:
        parts.append(f"{spray.days_ago} d {words.write('after')} {what or words.write('spray')}")
    if spray.date is not None:
        parts.append(
            " ".join(part for part in (words.write("sprayed"), what, _day(spray.date, language, sent)) if part)
        )
    elif what and spray.days_ago is None:
        parts.append(f"{words.write('sprayed')} {what}")
    if spray.entry_hours is not None:
        parts.append(f"{words.write('rei')} {_number(spray.entry_hours, words)} {words.write('h')}")
    return parts


def _spot(spot: Spot, words: Table) -> str:
    counted, counts = _counts(spot.plants, spot.per_plant, spot.females, spot.mostly, False, words)
    return f"{spot.name}: " + ", ".join(part for part in (counted, *counts) if part)
