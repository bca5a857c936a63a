"""What "nothing" and "not one" are said of: females, plants, or something else."""

from __future__ import annotations

import pytest

from notes_bot.model import Females
from tests.reading_kit import note_of

FOUND = Females(white=9, yellow=2, tan=0, brown=0, total=11)


@pytest.mark.parametrize(
    "text",
    [
        "Bajo Grande: 5 plantas con pala. No asomó una sola hembra",
        "Bajo Grande: 5 plantas con pala. No logré ver una hembra en las raíces",
        "Bajo Grande: 5 plantas con pala. Hembras no vistas",
        "Bajo Grande: 5 plantas con pala. Limpitas de quistes",
        "Bajo Grande: 5 plantas con pala. Buscamos perlitas blancas y no vimos ninguna",
        "Bajo Grande: 5 plantas con pala. Me vine con las manos vacías, cero hembras",
        "Baixada: 5 plantas com pá. Não deu pra achar uma fêmea sequer",
        "Baixada: 5 plantas com pá. Não brotou uma só fêmea",
        "Baixada: 5 plantas com pá. Fêmea não encontrada",
        "Baixada: 5 plantas com pá. Procurei bolinha amarela nas raízes e não vi nenhuma",
        "Baixada: 5 plantas com pá. Contagem foi zero",
        "Kestrel: 5 plants with a shovel. Could not spot a single female",
    ],
)
def test_not_one_female_is_none_seen(text):
    note = note_of(text)
    assert note.outcome == "none_seen"
    assert (note.plants, note.method, note.females.total, note.mostly) == (5, "shovel", 0, ())


@pytest.mark.parametrize(
    "text",
    [
        "Bajo Grande: pegué la vuelta sin cavar una sola planta",
        "Bajo Grande: el puente estaba cortado por el agua, no llegué a arrancar una planta",
        "Baixada: choveu e voltei sem tirar uma planta sequer",
    ],
)
def test_not_one_plant_is_not_looked(text):
    note = note_of(text)
    assert (note.outcome, note.plants, note.soaked) == ("not_looked", None, None)


@pytest.mark.parametrize(
    ("text", "method"),
    [
        ("Bajo Grande: 7 plantas a pala, nada de tironear. 9 blancas, 2 amarillas", "shovel"),
        ("Bajo Grande: 7 plantas a pala, nada de arrancar. 9 blancas, 2 amarillas", "shovel"),
        ("Bajo Grande: aflojé 7 plantas para no dejar nada abajo. 9 blancas, 2 amarillas", "eased"),
        ("Bajo Grande: saqué 7 plantas a mano limpia. 9 blancas, 2 amarillas", "pulled"),
        ("Bajo Grande: arranqué 7 plantas, no se rompió ninguna raíz. 9 blancas, 2 amarillas", "pulled"),
        ("Bajo Grande: 7 plantas con pala, limpias de barro. 9 blancas, 2 amarillas", "shovel"),
        ("Baixada: puxei 7 plantas sem ferramenta nenhuma. 9 brancas, 2 amarelas", "pulled"),
        ("Baixada: 7 plantas com pá, nenhuma se cortou. 9 brancas, 2 amarelas", "shovel"),
        ("Baixada: afrouxei 7 plantas pra não ficar nada na terra. 9 brancas, 2 amarelas", "eased"),
        ("Kestrel: pulled 7 plants, nothing broke. 9 white, 2 yellow", "pulled"),
    ],
)
def test_nothing_said_of_the_digging_denies_no_females(text, method):
    note = note_of(text)
    assert (note.plants, note.method, note.females, note.roots) == (7, method, FOUND, ())


@pytest.mark.parametrize(
    "text",
    ["Bajo Grande 6 plantas ninguna raíces cortadas", "Baixada 6 plantas nenhuma raiz quebrada"],
)
def test_roots_snapped_behind_none_leave_none_seen(text):
    note = note_of(text)
    assert (note.outcome, note.females.total, note.roots) == ("none_seen", 0, ("snapped",))


@pytest.mark.parametrize(
    ("text", "soaked"),
    [
        ("Bajo Grande: 7 plantas, sin meterlas en el agua. 9 blancas, 2 amarillas", False),
        ("Bajo Grande: 7 plantas, nada de lavar. 9 blancas, 2 amarillas", False),
        ("Bajo Grande: 7 plantas sin pasarlas por agua. 9 blancas, 2 amarillas", False),
        ("Bajo Grande: 7 plantas enjuagadas con la botella de agua. 9 blancas, 2 amarillas", True),
        ("Baixada: 7 plantas sem colocar na água. 9 brancas, 2 amarelas", False),
        ("Baixada: 7 plantas enxaguadas com uma garrafa de água. 9 brancas, 2 amarelas", True),
        ("Kestrel: 7 plants, didn't put them in water. 9 white, 2 yellow", False),
    ],
)
def test_water_that_was_used_or_not(text, soaked):
    note = note_of(text)
    assert (note.plants, note.females, note.soaked, note.soil.moisture) == (7, FOUND, soaked, None)


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("Bajo Grande: 7 plantas, 9 blancas, 2 amarillas. Variedad Tordo 41, no sé si es resistente", "Tordo 41"),
        ("Baixada: 7 plantas, 9 brancas, 2 amarelas. Variedade Tordo 41, não lembro se tem resistência", "Tordo 41"),
        ("Kestrel: 7 plants, 9 white, 2 yellow. Variety Tordo 41, not sure if its resistant", "Tordo 41"),
    ],
)
def test_a_resistance_nobody_knows_is_none(text, name):
    note = note_of(text)
    assert (note.plants, note.females) == (7, FOUND)
    assert note.variety is not None
    assert (note.variety.name, note.variety.resistance) == (name, None)


@pytest.mark.parametrize("text", ["Bajo Grande: 7 plantas, 9 blancas, 2 amarillas. Raíces blancas, sanitas"])
def test_roots_in_good_health_are_no_tops(text):
    note = note_of(text)
    assert (note.roots, note.tops) == (("white",), ())
