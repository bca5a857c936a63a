"""Notes in codes and in haste: fields called 9W, dozens, letters turned about, and what is said while a word does not come."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from notes_bot.language import read_note
from notes_bot.language.score import told_by

SENT = date(2026, 7, 8)
FIELDS = ("7C", "9W", "31D", "K9", "Kestrel", "La Loma", "Baixada")


def found(text: str) -> dict[str, Any]:
    """What a message was read as, and how often it was asked about."""
    reading = read_note(text, sent=SENT, fields=FIELDS)
    return {**told_by(reading), "asked": len(reading.problems)}


@pytest.mark.parametrize(
    ("text", "data"),
    [
        ("7C. 1, 0, 2, 0. Adds to 3 on 4 dug.", {"field": "7c", "plants": 4, "females.total": 3}),
        ("9W. 0, 0, 0. Adds to nothing on 3 pulled.", {"field": "9w", "females.white": 0, "outcome": "none_seen"}),
        ("7C // W9 Y4", {"field": "7c", "females.white": 9, "females.yellow": 4}),
        ("K9 6 plants 9W 3Y", {"field": "k9", "females.white": 9}),
        ("31D // SITE 1: QTY 5, W3 // SITE 2: QTY 5, Y6", {"field": "31d", "plants": 10, "spots 1.plants": 5}),
        ("K9 // HALF DOZ PULLED // W1", {"plants": 6, "method": "pulled", "females.white": 1}),
        ("7C 1 dozen dug 3 white", {"field": "7c", "plants": 12}),
        ("K9 dug 5 none, return 240 hrs", {"look_again.days": 10}),
        ("Kestrel gate 5 plants 4 white, hill 5 plants 3 white. total 7", {"plants": 10, "females.total": 7}),
        ("K9 dug. Row one: 4, 2, 2. Row nine: 0, 0, 1. Comes to 9 on six plants.", {"plants": 6, "females.total": 9}),
        ("Kestrel / 7-7 / pulled 10 / W 19 / return 7-21", {"date": "2026-07-07", "look_again.date": "2026-07-21"}),
        ("Kestrel 7-7, not looked / fungicide by air 7-6, REI 48 h", {"spray.date": "2026-07-06"}),
        ("Kestrel dgu 6 plnts 4 whtie", {"plants": 6, "method": "shovel", "females.white": 4}),
        ("Kestrel 7 plants 3 white lok agian 10 dsys", {"look_again.days": 10, "females.white": 3}),
        ("Kestrel nott looked, raind out, bakc mondya", {"outcome": "not_looked", "look_again.date": "2026-07-13"}),
        ("Kestrel 6 pulled none. nto sandy, clay loma", {"soil.texture": "clay_loam"}),
        ("Kestrel. I dug up, what was it, five plants. Three white.", {"plants": 5, "females.white": 3}),
        ("Kestrel six dug. The white ones, you know, nine of those.", {"females.white": 9, "females.total": 9}),
        ("La Loma. Saqué, cómo era, cinco plantas. Blancas, nueve de esas.", {"plants": 5, "females.white": 9}),
        ("Baixada. Arranquei, deixa eu ver, seis pés. Quatro brancas.", {"plants": 6, "females.white": 4}),
        ("Kestrel 5 plants none. Variety, according to the owner, is GR2611.", {"variety.name": "GR2611"}),
        ("La Loma 5 plantas, nada. La variedad, según el dueño, es GR2611.", {"variety.name": "GR2611"}),
        ("Kestrel 5 plants none. They sprayed fungicide. That was six days ago.", {"date": None, "spray.days_ago": 6}),
        ("Kestrel not looked, herbicide went on. Monday that was.", {"date": None, "spray.date": "2026-07-06"}),
        ("Kestrel never looked at a single plant", {"plants": None, "outcome": "not_looked"}),
        ("Kestrel, rained, couldn't get one plant out", {"plants": None, "outcome": "not_looked"}),
        ("Kestrel 4w 2y on 6 plants, pulled em bc shovels at home", {"method": "pulled", "females.yellow": 2}),
        ("ok kestrel for real this time. 6 plants, 3 white", {"field": "kestrel", "plants": 6, "females.white": 3}),
    ],
)
def test_read_without_a_question(text: str, data: dict[str, Any]) -> None:
    """Each is read as it was meant."""
    reading = found(text)
    told = {key: value for key, value in data.items() if value is not None}
    assert {key: reading.get(f"note 0.{key}") for key in told} == told
    assert all(reading.get(f"note 0.{key}") is None for key in data if key not in told)
    assert reading["asked"] == 0
    assert not any(key.startswith("command") for key in reading)


@pytest.mark.parametrize(
    "text",
    [
        "K9. 2, 5, 1, 4. Adds to 15. Four dug.",
        "Kestrel gate 5 plants 4 white, hill 5 plants 3 white. total 8",
        "Kestrel 7-7 dug 5 none, back 10-14",
        "Kestrel 7-7, dug 5, 3-4 white",
        "Kestrel sprayed, return 48 h",
        "Kestrel dug 5 none, recheck 36 h",
        "Kestrel white qty 12, 5 plants",
    ],
)
def test_asked_about(text: str) -> None:
    """What a careful colleague would doubt is asked."""
    assert found(text)["asked"]


@pytest.mark.parametrize(
    ("text", "what", "value"),
    [
        ("wait 5w not 4", "white", 5),
        ("wait, 5w not 4", "white", 5),
        ("Kestrel whiet 11 nto 12", "white", 11),
        ("wait 3 weeks not 2", "look_again", None),
    ],
)
def test_put_right(text: str, what: str, value: int | None) -> None:
    """A cry before a number put right is no look."""
    reading = found(text)
    assert (reading["command 0.kind"], reading["command 0.what"]) == ("correct", what)
    assert reading.get("command 0.value") == value


def test_skip_is_asked_in_words() -> None:
    """ "This time" alone skips nothing beside a note; a denial does."""
    assert found("skip kestrel this time")["command 0.skip"] is True
    assert found("kestrel not this time")["command 0.skip"] is True


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel. Knoll, per plant: 0, 1. Swale, per plant: 6, 4, 9. Spade.",
        "Kestrel knoll (per plant): 0 1, swale (per plant): 6 4 9, spade",
        "Kestrel. Knoll each plant: 0 1. Swale each plant: 6 4 9. Spade",
        "La Loma. Loma, por planta: 0, 1. Bajo, por planta: 6, 4, 9. Con pala.",
        "Baixada. Entrada, por pé: 0, 1. Fundo, por pé: 6, 4, 9. Com pá.",
    ],
)
def test_places_plant_by_plant(text: str) -> None:
    """Each place has the list behind its "per plant"."""
    reading = found(text)
    assert reading["note 0.per_plant"] == [0, 1, 6, 4, 9]
    assert (reading["note 0.spots 0.plants"], reading["note 0.spots 1.females.total"]) == (2, 19)
    assert reading["asked"] == 0


@pytest.mark.parametrize(
    "text",
    [
        "Meant to do Kestrel but the whole family came, so nothing got looked at there. I'll look in five days.",
        "Meant to do Kestrel but it rained so nothing got looked at. I'll look in five days.",
    ],
)
def test_what_was_meant_to_be_done(text: str) -> None:
    """What one meant to do puts no note right."""
    reading = found(text)
    assert (reading["note 0.outcome"], reading["note 0.look_again.days"]) == ("not_looked", 5)
    assert "command 0.kind" not in reading
