"""Names to fields, days to the writer's calendar: a reading placed for this writer. Pure.

A field's name is accepted when every word written fits a word of exactly one known name: equal, a short
form of it (btm for Bottom, S for South, 40 for forty), or one slip of the thumb away. A digit never stands
for another digit. What fits two fields, or none, is held and asked about: a note in the wrong field is the
worst thing a record can hold.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Sequence
from dataclasses import replace
from datetime import date, datetime, time, timedelta
from zoneinfo import ZoneInfo

from rapidfuzz import fuzz
from rapidfuzz.distance import OSA

from notes_bot.model import (
    Field,
    Held,
    Language,
    Note,
    Person,
    Placed,
    Problem,
    Reading,
    Resolved,
    Where,
)

CREDIBLE_EARLY = timedelta(hours=72)
"""Phones keep mail while out of reach: a Date this long before arrival is believed (judgement)."""
CREDIBLE_LATE = timedelta(minutes=10)
"""Clocks run fast a little (judgement)."""

COMPLAINTS: dict[str, dict[Language, tuple[str, str]]] = {
    "no_field": {
        "en": ("I could not tell which field this is.", "{nearest}: {text}"),
        "es": ("No pude saber qué lote es.", "{nearest}: {text}"),
        "pt": ("Não consegui saber qual talhão é.", "{nearest}: {text}"),
    },
    "unknown_field": {
        "en": ('I know no field "{name}".', "{nearest}"),
        "es": ('No conozco ningún lote "{name}".', "{nearest}"),
        "pt": ('Não conheço nenhum talhão "{name}".', "{nearest}"),
    },
    "two_fields": {
        "en": ('"{name}" fits more than one field.', "{nearest}"),
        "es": ('"{name}" sirve para más de un lote.', "{nearest}"),
        "pt": ('"{name}" serve para mais de um talhão.', "{nearest}"),
    },
    "future_day": {
        "en": ("{day} has not come yet; I took the day you sent it.", "{sent}"),
        "es": ("{day} todavía no llegó; tomé el día en que lo mandaste.", "{sent}"),
        "pt": ("{day} ainda não chegou; usei o dia em que você mandou.", "{sent}"),
    },
    "read_field_as": {
        "en": ('read "{name}" as {field}', ""),
        "es": ('leí "{name}" como {field}', ""),
        "pt": ('li "{name}" como {field}', ""),
    },
    "before_planting": {
        "en": ("the visit ({day}) is before the planting date we have ({planted}).", "{field} planted {day}"),
        "es": ("la visita ({day}) es antes de la siembra que tenemos ({planted}).", "{field} sembrado {day}"),
        "pt": ("a visita ({day}) é antes do plantio que temos ({planted}).", "{field} plantado {day}"),
    },
}

# Words of field names that are written in more ways than one; everyday English, Spanish and Portuguese.
_SAME_WORD: tuple[tuple[str, ...], ...] = (
    ("north", "n", "norte", "no"),
    ("south", "s", "so", "sur", "sul"),
    ("east", "e", "este", "leste"),
    ("west", "w", "oeste", "o"),
    ("quarter", "qtr", "quarter", "1/4", "q"),
    ("half", "1/2"),
    ("corner", "cnr", "cor"),
)
_CANON = {word: group[0] for group in _SAME_WORD for word in group}
# Numbers of names as they are spoken, from one to ninety and hundred, English, Spanish and Portuguese.
_SPOKEN = (
    ("one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen "
     "eighteen nineteen twenty thirty forty fifty sixty seventy eighty ninety hundred"),
    ("uno dos tres cuatro cinco seis siete ocho nueve diez once doce trece catorce quince dieciseis diecisiete "
     "dieciocho diecinueve veinte treinta cuarenta cincuenta sesenta setenta ochenta noventa cien"),
    ("um dois tres quatro cinco seis sete oito nove dez onze doze treze quatorze quinze dezesseis dezessete dezoito "
     "dezenove vinte trinta quarenta cinquenta sessenta setenta oitenta noventa cem"),
)  # fmt: skip
_VALUES = (*range(1, 20), *range(20, 101, 10))
_NUMBERS = {word: value for words in _SPOKEN for word, value in zip(words.split(), _VALUES, strict=True)} | {
    "fourty": 40,
    "ciento": 100,
    "cento": 100,
}
_SPELLED = {str(value): word for value, word in zip(_VALUES, _SPOKEN[0].split(), strict=True)}
_AND = frozenset(("and", "y", "e"))
_NOT_A_NAME = frozenset(("field", "fields", "the", "lote", "campo", "talhao", "el", "la", "o", "a"))
_MONTHS: dict[Language, str] = {
    "en": "Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov Dec",
    "es": "ene feb mar abr may jun jul ago sep oct nov dic",
    "pt": "jan fev mar abr mai jun jul ago set out nov dez",
}


def resolve(
    reading: Reading,
    *,
    writer: Person,
    fields: Sequence[Field],
    sent_day: date,
    thread_field: int | None = None,
) -> Resolved:
    """Place every note of a reading.

    Args:
        writer: who wrote; gives language and zone.
        fields: the fields of the writer's crew only.
        sent_day: the writer's own day when the message was sent.
        thread_field: id of the field whose conversation the message answers, for a note that names none.
    """
    placed: list[Placed] = []
    held: list[Held] = []
    problems = list(reading.problems)
    remarks = list(reading.remarks)
    language = reading.language
    for note in reading.notes:
        field, candidates, near = _field_of(note, fields, thread_field, len(reading.notes))
        if field is None:
            names = tuple(f.name for f in candidates) or nearest_names(note.field or "", fields)
            held.append(Held(note, names))
            problems.append(_field_problem(note, names, language, many=len(candidates) > 1))
            continue
        if near and note.field:
            remarks.append(_complaint("read_field_as", note.where, language, name=note.field, field=field.name))
        on = note.date or sent_day
        if on > sent_day:
            problems.append(
                _complaint("future_day", note.where, language, day=_day(on, language), sent=_day(sent_day, language))
            )
            on, note = sent_day, replace(note, date=None)
        planted = note.planted or field.planted
        if planted is not None and on < planted:
            problems.append(
                _complaint(
                    "before_planting",
                    note.where,
                    language,
                    day=_day(on, language),
                    planted=_day(planted, language),
                    field=field.name,
                )
            )
        placed.append(
            Placed(field, on, note, day_assumed=note.date is None, entry_closed_until=_entry_closed(note, on, writer))
        )
    return Resolved(tuple(placed), reading.commands, tuple(problems), tuple(remarks), tuple(held))


def sent_on(sent_at: datetime | None, arrived_at: datetime, timezone: str) -> date:
    """The writer's day when the message was sent: the Date header where credible, else the arrival."""
    credible = sent_at is not None and arrived_at - CREDIBLE_EARLY <= sent_at <= arrived_at + CREDIBLE_LATE
    instant = sent_at if credible and sent_at is not None else arrived_at
    return instant.astimezone(ZoneInfo(timezone)).date()


def find_field(name: str, fields: Sequence[Field]) -> tuple[Field | None, tuple[Field, ...], bool]:
    """The field a written name means.

    Returns:
        the field or ``None``; all fields it fits when it fits several; whether a slip was forgiven.
    """
    written = _words(name)
    if not written:
        return None, (), False
    exact = _unique(f for f in fields if any(_words(n) == written for n in (f.name, *f.aliases)))
    if len(exact) == 1:
        return exact[0], (), False
    alike = _unique(f for f in fields if any(_alike(written, _words(n)) for n in (f.name, *f.aliases)))
    if len(alike) == 1:
        return alike[0], (), False
    for slips in (False, True):
        fits = _unique(f for f in fields if any(_fits(written, _words(n), slips=slips) for n in (f.name, *f.aliases)))
        if len(fits) == 1:
            return fits[0], (), slips
        if fits:
            return None, tuple(fits), False
    short = _unique(f for f in fields if "".join(written) in _initials(f.name))
    return (short[0], (), False) if len(short) == 1 else (None, tuple(short), False)


def _alike(written: tuple[str, ...], known: tuple[str, ...]) -> bool:
    """The same words written together, apart, or with the side first: "pump house" for Pumphouse, "mill north"."""
    sides = {"north", "south", "east", "west"}
    turned = len(written) == 2 and len(sides & set(written)) == 1 and written[::-1] == known
    return turned or ("".join(written) == "".join(known) and not any(map(str.isdigit, written)))


def same_name(name: str, known: Field) -> bool:
    """Is this the whole name of the field, or another name it goes by?"""
    return any(_words(own) == _words(name) for own in (known.name, *known.aliases))


def _initials(name: str) -> set[str]:
    """First letters, numbers whole: "ome" for Old Mill East, "hr3" for Harrow Ridge 3, "t4" for Talhão 4."""
    ways = (_words(name), _all_words(name))
    return {"".join(word if word.isdigit() else word[0] for word in words) for words in ways if len(words) > 1}


def nearest_names(name: str, fields: Sequence[Field], most: int = 3) -> tuple[str, ...]:
    """Names of the fields that look most like what was written, best first."""
    wanted = " ".join(_words(name))
    if not wanted:
        return tuple(f.name for f in sorted(fields, key=lambda f: f.name))[:most]
    scored = sorted(
        ((max(fuzz.WRatio(wanted, " ".join(_words(n))) for n in (f.name, *f.aliases)), f.name) for f in fields),
        key=lambda pair: (-pair[0], pair[1]),
    )
    return tuple(name for score, name in scored if score >= 45)[:most] or tuple(n for _, n in scored)[:most]


def _field_of(
    note: Note, fields: Sequence[Field], thread_field: int | None, notes: int
) -> tuple[Field | None, tuple[Field, ...], bool]:
    if note.field:
        return find_field(note.field, fields)
    if thread_field is not None and notes == 1:
        return next((f for f in fields if f.id == thread_field), None), (), False
    if len(fields) == 1:
        return fields[0], (), False
    return None, (), False


def _fits(written: tuple[str, ...], known: tuple[str, ...], *, slips: bool) -> bool:
    """Does every written word fit a word of the name, in order?"""
    place = 0
    for word in written:
        while place < len(known) and not _same(word, known[place], slips=slips):
            place += 1
        if place == len(known):
            return False
        place += 1
    return True


def _same(word: str, known: str, *, slips: bool) -> bool:
    if word == known:
        return True
    known = known if word.isdigit() else _SPELLED.get(known, known)  # "forti" for 40
    if any(ch.isdigit() for ch in word + known):
        return False
    if len(word) >= 2 and known.startswith(word):
        return True
    if len(word) >= 2 and word[0] == known[0] and len(word) < len(known) and _in_order(word, known):
        return True
    return slips and len(word) >= 4 and len(known) >= 4 and OSA.distance(word, known) <= (1 if len(known) < 8 else 2)


def _in_order(short: str, long: str) -> bool:
    """Are the letters of ``short`` found in ``long`` in order (btm in bottom, rdg in ridge)?"""
    rest = iter(long)
    return all(ch in rest for ch in short)


def _words(name: str) -> tuple[str, ...]:
    words = _all_words(name)
    return tuple(word for word in words if word not in _NOT_A_NAME) or words


def _all_words(name: str) -> tuple[str, ...]:
    plain = unicodedata.normalize("NFD", name.casefold())
    plain = "".join(ch for ch in plain if not unicodedata.combining(ch))
    plain = re.sub(r"[’'`]", "", plain)
    found = re.findall(r"\d+/\d+|\d+|[^\W\d_]+", plain)
    return tuple(_CANON.get(word, word) for word in _in_figures(found))


def _in_figures(words: list[str]) -> list[str]:
    """The words with spoken numbers as figures: "tower one (hundred and) twenty" is tower 120."""
    out: list[str] = []
    n = 0
    while n < len(words):
        value = _NUMBERS.get(words[n])
        if value is None:
            out.append(words[n])
            n += 1
            continue
        n += 1
        while n < len(words):
            joined = words[n] in _AND and value >= 20
            more = _NUMBERS.get(words[n + joined], 0) if n + joined < len(words) else 0
            if more == 100 and value < 10:
                value *= 100
            elif 0 < more < (10 if value < 100 else 100) and value >= 20 and value % (10 if value < 100 else 100) == 0:
                value += more
            elif 20 <= more < 100 and value < 10 and not joined:
                value = 100 * value + more  # "one twenty"
            else:
                break
            n += 1 + joined
        out.append(str(value))
    return out


def _unique(fields: Iterable[Field]) -> list[Field]:
    return list({f.id: f for f in fields}.values())


def _entry_closed(note: Note, on: date, writer: Person) -> datetime | None:
    """The end of a restricted-entry interval as stated; the hour of spraying is not known, so the day's end counts."""
    spray = note.spray
    if spray is None or not spray.entry_hours:
        return None
    sprayed = spray.date or (on - timedelta(days=spray.days_ago) if spray.days_ago is not None else on)
    end_of_day = datetime.combine(sprayed + timedelta(days=1), time(0), ZoneInfo(writer.timezone))
    return end_of_day + timedelta(hours=spray.entry_hours)


def _day(day: date, language: Language) -> str:
    return f"{day.day} {_MONTHS[language].split()[day.month - 1]}"


def _field_problem(note: Note, names: tuple[str, ...], language: Language, *, many: bool) -> Problem:
    kind = "no_field" if not note.field else "two_fields" if many else "unknown_field"
    first = names[0] if names else ""
    return _complaint(
        kind, note.where, language, holds=True, name=note.field or "", nearest=first, text=note.where.text.strip()
    )


def _complaint(kind: str, where: Where, language: Language, *, holds: bool = False, **values: str) -> Problem:
    wrong, instead = COMPLAINTS[kind][language]
    return Problem(where, wrong.format(**values), instead.format(**values), kind, holds)
