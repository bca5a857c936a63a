"""Counts of another time and of other people beside whole notes leave these as they are."""

from datetime import date

import pytest

from notes_bot.language import read_note
from notes_bot.model import Reading

FIELDS = ("Kestrel", "Dry Creek", "La Tranquera", "Bajo Grande", "Santa Rita", "Baixada")
VISITS = {
    "en": ("Kestrel: 6 plants dug, 9 white, R2.", "Dry Creek: 5 plants pulled, none, soil dry."),
    "es": ("La Tranquera: 6 plantas con pala, 9 blancas, R2.", "Bajo Grande: arranqué 5 plantas, ninguna, suelo seco."),
    "pt": ("Santa Rita: 6 plantas com a pá, 9 brancas, R2.", "Baixada: arranquei 5 plantas, nenhuma, solo seco."),
}
THEN = [
    ("en", "In June the whole field had three."),
    ("en", "Last year at this time we had twenty-two there, so the new bean must be doing something."),
    ("en", "You will recall it was seven last week, from ten plants, so I may simply have been lucky."),
    ("en", "On the 18th it was 11 white, that's the one you already have."),
    ("en", "Early in the month Kestrel had 31, so about the same."),
    ("en", "July 6 had 4 on as many plants."),
    ("en", "The sheet from late June says 20."),
    ("en", "My note of late June had 19 females at Kestrel, so this is somewhat lower."),
    ("en", "The visit in June, with the spade, had seven on five."),
    ("en", "the first time kestrel was only 2 white on 5 plants so wow"),
    ("en", "The earlier dig turned up 5 white and 2 yellow."),
    ("en", "Back when the beans were at V3 I found 1 white."),
    ("es", "La vez pasada eran 12, ya se ve que las blancas se fueron terminando."),
    ("es", "En junio habían sido 11."),
    ("es", "En mayo La Tranquera me había dado 30, casi todas amarillas."),
    ("es", "La primera vez fueron 3 blancas en 5 plantas."),
    ("es", "La planilla de junio dice 14."),
    ("pt", "Na primeira vez eram 10 no total, isso vocês já têm."),
    ("pt", "No ano passado foram mais de 60, com a suscetível."),
    ("pt", "No começo do mês, não tinha aparecido nada."),
    ("pt", "Da outra vez, arrancando com a mão, não achei nada ali."),
    ("pt", "Na visita de junho, com a pá, foram sete em cinco."),
]
OTHERS = [
    ("en", "The technician from the other station recounted Kestrel and got 13, I stay with mine."),
    ("en", "The temp guy counted Kestrel after me and got 11, I'd leave it at 9."),
    ("en", "The co-op man claims his trial plot had 60 a plant. Not my problem."),
    ("en", "The man east of Kestrel pulled 5 of his and saw about a dozen. He grows a susceptible variety."),
    ("en", "The adjoining field is not ours, its owner claims 4 white on 2 plants, which would surprise me."),
    ("en", "My wife swears there were 12, she counts dirt too."),
    ("en", "Dad counted them again at the table and got 9, same as me."),
    ("es", "El dueño dice que él en La Tranquera contó 40 la semana pasada, pero sin cavar no sé cómo."),
    ("es", "El pasante las volvió a contar y le dio 12, yo me quedo con las mías."),
    ("es", "Mi cuñado jura que había más de treinta."),
    ("pt", "Minha irmã contou de novo as da Santa Rita e deu 9 igual."),
    ("pt", "No vizinho da Santa Rita o pessoal fala em vinte por planta."),
    ("pt", "O pessoal do lado tem soja suscetível e está bem pior."),
]


def _read(*lines: str) -> Reading:
    return read_note("\n".join(lines), sent=date(2026, 7, 8), fields=FIELDS)


def _told(reading: Reading) -> list[tuple[object, ...]]:
    """What the notes hold, their remaining text aside."""
    return [
        (n.field, n.date, n.plants, n.method, n.females, n.mostly, n.outcome, n.stage, n.soil, n.variety, n.tops)
        for n in reading.notes
    ]


@pytest.mark.parametrize(("language", "said"), THEN + OTHERS)
def test_counts_of_another_time_or_of_others_change_no_note(language: str, said: str) -> None:
    first, last = VISITS[language]
    plain, beside = _read(first, last), _read(first, said, last)
    assert _told(beside) == _told(plain)
    assert not beside.commands
    assert not beside.problems


@pytest.mark.parametrize(
    ("said", "total"),
    [
        ("Then on to Dry Creek, ten plants there, and it was two females.", 2),
        ("My brother dug 5 plants at Dry Creek and found 3 white.", 3),
    ],
)
def test_another_field_and_who_dug_it_are_noted(said: str, total: int) -> None:
    reading = _read("Kestrel: 6 plants dug, 9 white, R2.", said)
    assert [(n.field, n.females.total) for n in reading.notes] == [("kestrel", 9), ("dry creek", total)]


def test_what_is_fewer_than_then_is_of_now() -> None:
    reading = _read(
        "I got to Kestrel yesterday and pulled six plants by hand. "
        "Five white females between them, which is fewer than the neighbor across the road had a week earlier."
    )
    assert [(n.field, n.females.white) for n in reading.notes] == [("kestrel", 5)]


def test_a_check_strip_only_named_above_heads_no_counts() -> None:
    (note,) = _read(
        "Visit at Kestrel today, with a check strip.",
        "Crop: 6 plants dug, 2 white.",
        "Check strip: 3 plants dug, 31 white.",
    ).notes
    assert (note.plants, note.females.white) == (6, 2)
    assert [(spot.check, spot.plants, spot.females.white) for spot in note.spots] == [(True, 3, 31)]


def test_a_field_named_like_a_place_is_a_field() -> None:
    reading = _read(
        "Na Santa Rita cavei 8 plantas, e não achei nenhuma.",
        "Na Baixada, também com a pá, foram 5 plantas com 2 brancas.",
    )
    assert [(n.field, n.plants, n.females.white) for n in reading.notes] == [("santa rita", 8, 0), ("baixada", 5, 2)]
