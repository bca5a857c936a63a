"""Whose day is it: of the visit, of the next look, or of something else, in a clause, sentence, line or bracket.

A day told wrongly is worse than one not told: what others do on a day sets neither.
"""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from notes_bot.language.reader import read_note
from notes_bot.model import Language, Note

SENT = date(2026, 7, 15)  # a Wednesday
FIELDS = ("kestrel", "sumac", "aguada")
COUNTED: dict[Language, tuple[str, str]] = {
    "en": ("6 plants, 13 white", "6 pl 13 w"),
    "es": ("6 plantas, 13 blancas", "6 pl 13 b"),
    "pt": ("6 plantas, 13 brancas", "6 pl 13 b"),
}

VISITS: dict[Language, dict[date, tuple[str, ...]]] = {
    "en": {
        date(2026, 7, 8): (
            *("this was last wednesday", "counted these last wednesday", "these numbers are a week old"),
            *("i looked a week ago", "numbers are from last wednesday", "walked it july 8"),
        ),
        date(2026, 7, 10): (
            "dug these friday",
            "it was friday i looked",
            "from last friday",
            "not today, it was friday",
        ),
        date(2026, 7, 12): (
            *("this note is 3 days old", "it was the 12th i looked", "counts are from july 12", "taken 7/12"),
            *("i did it the 12th and forgot to send it", "dated 7/12"),
        ),
        date(2026, 7, 13): (
            *("dont put today, it was monday afternoon i looked", "date it monday", "did this one on monday"),
            *("dont date it today, i dug monday", "looked monday but only sending now", "two days back i was there"),
        ),
        date(2026, 7, 14): ("this was yesterday", "i was there yesterday", "that was a day ago"),
    },
    "es": {
        date(2026, 7, 12): (
            *("esto es del 12", "del 12", "la salida fue el 12", "fui el 12 y me olvidé de mandarlo", "fecha del 12"),
            *("el 12 lo recorrí", "no es de hoy, es del doce de julio", "los datos son de hace 3 días"),
            *("miré esto el domingo y recién ahora te lo mando", "la recorrida fue el doce de julio"),
        ),
        date(2026, 7, 13): ("no pongas hoy, fue el lunes", "las saqué el lunes a la tarde", "corresponde al lunes"),
        date(2026, 7, 8): ("esto fue el miércoles pasado", "los números son de hace una semana"),
    },
    "pt": {
        date(2026, 7, 7): ("minha ida foi no dia sete deste mês", "tirei essas plantas no dia sete deste mês"),
        date(2026, 7, 12): (
            *("a vistoria foi há 3 dias", "não põe hoje, foi no dia 12", "no dia 12 estive no talhão"),
            *("os dados são do dia 12", "a contagem é de 3 dias atrás", "referente ao dia 12"),
        ),
        date(2026, 7, 13): ("a ida foi segunda à tarde", "visto anteontem", "fui na segunda e esqueci de mandar"),
        date(2026, 7, 8): ("isso foi quarta passada",),
    },
}

LOOKS: dict[Language, dict[date, tuple[str, ...]]] = {
    "en": {
        date(2026, 7, 21): (
            *(
                "next time i'm through to check is this coming tuesday",
                "they want another check done this coming tuesday",
            ),
            "wants looking at again this coming tuesday",
        ),
        date(2026, 7, 27): (
            *("i'd say monday the 27th for the next check", "landlord was told i'd be back to check on the 27th"),
            *("come monday the 27th i'm going back", "in 12 days they want another look"),
        ),
        date(2026, 7, 20): ("should be gone over again five days from now", "back five days from now"),
    },
    "es": {
        date(2026, 7, 18): (
            *("este sábado a la mañana les doy otra revisada", "el patrón pide otra revisada este sábado"),
            *("hay que mirarlo otra vez el sábado", "otra mirada el sábado", "recién este sábado puedo volver"),
        ),
        date(2026, 8, 1): ("recién el 1 de agosto puedo volver a sacar raíces", "pienso volver a cavar el 1 de agosto"),
        date(2026, 7, 24): ("quieren otra revisión el 24", "para el 24 otra pasada", "el 24 vuelvo"),
        date(2026, 7, 27): ("el ingeniero quiere que repita la mirada en doce días",),
    },
    "pt": {
        date(2026, 7, 18): ("sábado eu repito", "querem outra vistoria no sábado", "sábado tem que olhar de novo"),
        date(2026, 7, 16): ("amanhã venho dar mais uma espiada",),
        date(2026, 7, 27): (
            *("na segunda dia 27 passo de novo", "o técnico quer que eu repita a olhada em doze dias"),
            "só daqui a 12 dias consigo voltar a arrancar",
        ),
    },
}

OTHERS: dict[Language, tuple[str, ...]] = {
    "en": (
        *("dentist on the 23rd at 2", "intern starts monday", "church supper friday", "payday is friday"),
        *("grandson's ball game is in 10 days", "truck was in the shop last monday", "parts come in 3 days"),
        *("we buried my uncle on saturday", "i have a wedding on saturday", "my license expires on the 30th"),
        *("the bank called yesterday", "neighbor cut hay saturday", "boss is gone until the 20th"),
    ),
    "es": (
        *("el patrón vuelve de Brasil en 15 días", "el lunes viene el mecánico", "el viernes cobro"),
        *("el 20 es feriado", "la cosechadora llega en 10 días", "pago el alquiler el 20", "el lunes es feriado"),
        *("hace una semana que estoy resfriado", "el peón renunció el viernes"),
    ),
    "pt": (
        *("quinta tem que prestar conta", "o drone tá na assistência faz 3 semanas", "sexta eu recebo"),
        *("o patrão volta do Mato Grosso em 15 dias", "tenho consulta no dia 23", "dia 31 vence o seguro"),
        *("o estagiário começa segunda", "o peão pediu as contas na sexta"),
    ),
}


def beside(language: Language, told: str) -> list[str]:
    """A message for each place in which it may be told beside a count."""
    counted, short = COUNTED[language]
    sentence = told[0].upper() + told[1:]
    return [
        f"Kestrel {counted}, {told}",
        f"Kestrel: {counted}. {sentence}.",
        f"Kestrel. {sentence}. {counted}.",
        f"Kestrel\n{short}\n{told}",
        f"Kestrel\n{told}\n{short}",
        f"Kestrel {counted} ({told})",
    ]


def read(text: str, language: Language) -> Note:
    """The one note of a message, its counts as told."""
    reading = read_note(text, sent=SENT, fields=FIELDS, language=language)
    assert not reading.problems and not reading.commands, text
    (note,) = reading.notes
    assert (note.field, note.plants, note.females.total) == ("kestrel", 6, 13), text
    return note


def listed(ways: dict[Language, dict[date, tuple[str, ...]]]) -> list[tuple[Language, date, str]]:
    return [
        (language, day, told) for language, days in ways.items() for day, all_told in days.items() for told in all_told
    ]


@pytest.mark.parametrize(("language", "day", "told"), listed(VISITS))
def test_the_day_of_a_visit_told_in_its_own_clause(language: Language, day: date, told: str) -> None:
    for text in beside(language, told):
        note = read(text, language)
        assert (note.date, note.look_again) == (day, None), text


@pytest.mark.parametrize(("language", "day", "told"), listed(LOOKS))
def test_a_coming_look_never_becomes_the_day_of_the_visit(language: Language, day: date, told: str) -> None:
    for text in beside(language, told):
        note = read(text, language)
        assert note.date is None and note.look_again is not None, text
        assert (note.look_again.date or SENT + timedelta(days=note.look_again.days or 0)) == day, text


@pytest.mark.parametrize(
    ("language", "told"), [(language, told) for language, all_told in OTHERS.items() for told in all_told]
)
def test_a_day_on_which_something_else_is_done_sets_nothing(language: Language, told: str) -> None:
    counted, short = COUNTED[language]
    for text in beside(language, told):
        if not text.endswith((counted, f"{counted}.", short)):  # a day told before the counts heads the note
            note = read(text, language)
            assert (note.date, note.look_again) == (None, None), text


@pytest.mark.parametrize(
    ("language", "told", "day"),
    [
        ("en", "windy monday", date(2026, 7, 13)),
        ("en", "with Pedro on monday", date(2026, 7, 13)),
        ("en", "sunday after church", date(2026, 7, 12)),
        ("en", "i ran over there friday", date(2026, 7, 10)),
        ("es", "el lunes con Ramón", date(2026, 7, 13)),
        ("pt", "segunda bem cedo", date(2026, 7, 13)),
    ],
)
def test_a_strange_word_beside_the_day_of_a_visit_leaves_it(language: Language, told: str, day: date) -> None:
    assert read(beside(language, told)[0], language).date == day


def test_nobody_looked_and_goes_on_a_coming_day() -> None:
    (note,) = read_note("Kestrel haven't looked yet, going friday", sent=SENT, fields=FIELDS, language="en").notes
    assert note.outcome == "not_looked" and note.date is None
    assert note.look_again is not None and note.look_again.date == date(2026, 7, 17)
