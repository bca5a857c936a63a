"""Who asks and answers in the same breath, and who is very polite; a question without an answer stays one."""

from __future__ import annotations

from datetime import date

import pytest

from tests.reading_kit import note_of, reading_of


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (
            "Se lavei as raízes? Lavei. Quantas plantas? Cinco. Fêmeas? 6 brancas e 2 amarelas. Onde? Cancela.",
            ("cancela", 5, 8, True),
        ),
        ("Onde? Baixada. Quantas plantas? Cinco. Fêmeas? Nenhuma.", ("baixada", 5, 0, None)),
        ("¿Cuántas plantas? Cinco. ¿Hembras? 6 blancas. ¿Dónde? La Tranquera.", ("la tranquera", 5, 6, None)),
        (
            "La Tranquera: ¿cuántas saqué? 8. ¿Lavé? No. ¿Hembras? 3 blancas y 1 amarilla.",
            ("la tranquera", 8, 4, False),
        ),
        ("¿Estadio? R2. ¿Plantas? 5. ¿Hembras? Ninguna. ¿Lote? Bajo Grande.", ("bajo grande", 5, 0, None)),
        ("How many plants? Five. Females? 6 white. Where? Kestrel.", ("kestrel", 5, 6, None)),
        ("Kestrel. Dug how many? Six. Washed? Yes. Females? 3 white. Stage? R2.", ("kestrel", 6, 3, True)),
        ("Kestrel. How many plants? 5. Anything on them? Nope.", ("kestrel", 5, 0, None)),
        ("Kestrel 5 plants 3 white. Did I wash them? No.", ("kestrel", 5, 3, False)),
        ("Kestrel 5 plants 3 white. Roots washed? not sure.", ("kestrel", 5, 3, None)),
        ("Kestrel, did I wash the roots? No I did not, just shook them. 5 plants 3 white", ("kestrel", 5, 3, False)),
        ("Kestrel, did I wash the roots? Yes I did, twice. 5 plants 3 white", ("kestrel", 5, 3, True)),
    ],
)
def test_a_question_and_its_answer_are_a_datum(text: str, told: tuple[object, ...]):
    """Plants, females, field and washing, in any order and any of the three languages."""
    note = note_of(text)
    assert (note.field, note.plants, note.females.total, note.soaked) == told


@pytest.mark.parametrize(
    ("text", "field", "day"),
    [
        ("Quando volto na Baixada? Terça. O que vi? 3 plantas: 1, 4 e 0 fêmeas.", "baixada", date(2026, 7, 14)),
        ("¿Cuándo vuelvo a La Tranquera? El martes. ¿Qué vi? 3 plantas: 1, 4 y 0 hembras.", "la tranquera", None),
        ("When will I be back at Kestrel? Tuesday. What did I see? 3 plants: 1, 4 and 0 females.", "kestrel", None),
    ],
)
def test_when_one_goes_back_is_told_with_the_field(text: str, field: str, day: date | None):
    """The field stands in the question, the day in the answer."""
    note = note_of(text)
    assert (note.field, note.date, note.per_plant) == (field, None, (1, 4, 0))
    assert note.look_again is not None and note.look_again.date == (day or date(2026, 7, 14))


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("What's due? Also Kestrel 5 plants none.", "due"),
        ("How many plants are enough? 6? Kestrel.", "look_plan"),
        ("Where is Kestrel? I dug 5 at Old Mill East, 3 white.", "state"),
    ],
)
def test_a_question_for_the_desk_stays_one(text: str, kind: str):
    """Not every sentence behind a question answers it."""
    assert kind in [command.kind for command in reading_of(text).commands]


@pytest.mark.parametrize(
    ("text", "day", "total"),
    [
        (
            "Tengo el agrado de comunicarle que ayer visité La Tranquera; arranqué siete plantas a mano, con un total "
            "de quince hembras, casi todas blancas. Saludos cordiales.",
            date(2026, 7, 7),
            15,
        ),
        ("Me permito notificarle que el lunes recorrí La Tranquera: 6 plantas, ninguna hembra", date(2026, 7, 6), 0),
        ("Si me permite: La Tranquera seis plantas, ninguna hembra. Quedo a sus órdenes.", None, 0),
        ("La Tranquera, seis plantas, ninguna hembra. Quedamos a su entera disposición.", None, 0),
    ],
)
def test_very_polite_words_tell_nothing_and_take_nothing_away(text: str, day: date | None, total: int):
    """No seed is susceptible for "a sus órdenes"; the day behind "comunicarle que" is the visit's."""
    note = note_of(text)
    assert (note.date, note.females.total, note.variety) == (day, total, None)


@pytest.mark.parametrize(
    "text",
    [
        "Antes que perguntem: não é falta de chuva, a terra da Baixada tá úmida. 6 plantas, 1 branca.",
        "La Tranquera no es falta de agua, suelo húmedo. 6 plantas 1 blanca",
        "Kestrel yellow patch, not for lack of rain, soil is moist. 6 plants 1 white",
    ],
)
def test_rain_that_is_not_wanting_puts_no_moisture_right(text: str):
    """What is not the cause is no value of what was sent before."""
    note = note_of(text)
    assert (note.soil.moisture, note.plants, note.females.white) == ("moist", 6, 1)


@pytest.mark.parametrize(
    ("text", "days"),
    [
        ("La Tranquera 10 plantas, ninguna. En dos semanas vuelvo con facturas", 14),
        ("La Tranquera 10 plantas, ninguna. En dos semanas vuelvo y les cuento", 14),
        ("La Tranquera 10 plantas, ninguna. En diez días vuelvo con Pedro", 10),
        ("Kestrel 10 plants none. in 10 days I go back with Pete", 10),
    ],
)
def test_when_one_goes_back_may_be_followed_by_with_whom(text: str, days: int):
    """What stands behind the verb takes nothing from the span before it."""
    look = note_of(text).look_again
    assert look is not None and look.days == days


@pytest.mark.parametrize(
    "text",
    [
        "O laboratório informou 4.100 ovos por 100 cm³ de solo na Baixada, e a próxima cultura será milho.",
        "lab La Tranquera 4100 huevos por 100 cc, el próximo cultivo será maíz",
    ],
)
def test_the_next_crop_may_be_told_with_a_verb(text: str):
    """ "Será" before it, in a sentence about the laboratory."""
    (command,) = reading_of(text).commands
    assert (command.kind, command.args["next_crop"]) == ("lab", "other")
