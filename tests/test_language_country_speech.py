"""Notes written as people of the country speak: "pranta", "barde", "foia amarelano", "num deu pra arrancá"; "kon asadon"."""

from __future__ import annotations

from datetime import date

import pytest

from notes_bot.language import read_note
from notes_bot.model import Females

SENT = date(2026, 2, 10)
CREW = ("Cupim", "Tulha", "Morro 3", "Las Moras", "Kestrel", "Nu Du Meio")


def _read(text, language="pt"):
    return read_note(text, sent=SENT, fields=CREW, language=language)


def _only(text, language="pt"):
    reading = _read(text, language)
    assert (reading.problems, reading.commands) == ((), ())
    (note,) = reading.notes
    return note


@pytest.mark.parametrize(
    ("text", "plants", "method", "females"),
    [
        ("cupim arranquei 6 pranta cum a mão, deu 3 branca i 2 amarela", 6, "pulled", Females(3, 2, 0, 0, 5)),
        ("cupim 6 prantas cum inxadão, 4 femia branca", 6, "shovel", Females(4, 0, 0, 0, 4)),
        ("cupim ranquemo 5 pé na mão, achemo 3 branca", 5, "pulled", Females(3, 0, 0, 0, 3)),
        ("cupim 5 pé na inxada i lavei nu barde, 7 marron", 5, "shovel", Females(0, 0, 0, 7, 7)),
        ("morro 3. sortei 5 pranta cos dedo divagarinho, 2 branca", 5, "eased", Females(2, 0, 0, 0, 2)),
        ("tulha cavuquei 5 co enxadao, niuma femia", 5, "shovel", Females(0, 0, 0, 0, 0)),
    ],
)
def test_plants_digging_and_counts(text, plants, method, females):
    """L and r change places, the ends of words are dropped, and little words are written as they sound."""
    note = _only(text)
    assert (note.plants, note.method, note.females) == (plants, method, females)


@pytest.mark.parametrize(
    ("text", "roots", "tops"),
    [
        ("cupim 5 pé na pá, 2 branca, raiz branca xeia di nodulo", {"white", "nodules_many"}, set()),
        ("cupim 5 pé na pá, 2 branca, raiz iscura i cum poco nodulo", {"dark", "nodules_few"}, set()),
        ("cupim 5 pé na pá, 2 branca, munto nodulo", {"nodules_many"}, set()),
        ("cupim 5 pé na pá, 2 branca, foia amarelano", set(), {"yellow"}),
        ("cupim 5 pé na pá, 2 branca, pranta murchano", set(), {"wilted"}),
        ("cupim 5 pé na pá, 2 branca, pranta miúda", set(), {"stunted"}),
        ("cupim 5 pé na pá, 2 branca, as raiz arrebentô tudo", {"snapped"}, set()),
    ],
)
def test_roots_and_tops(text, roots, tops):
    """ "Foia" is folha, "iscura" escura, "amarelano" amarelando."""
    note = _only(text)
    assert (set(note.roots), set(note.tops)) == (roots, tops)


@pytest.mark.parametrize(
    "text",
    [
        "cupim num deu pra arrancá nada",
        "cupim num consegui entrá",
        "cupim num oiei, tava muito moiado",
        "tulha ta so barro num deu pra arranca pranta não",
    ],
)
def test_what_could_not_be_done(text):
    """A verb without its last letter behind "deu pra", "consegui" is that verb."""
    assert _only(text).outcome == "not_looked"


def test_days_spraying_and_planting():
    """ "Sesta fera", "antonti", "passaro veneno", "prantaro": each is the word it sounds like."""
    assert _only("cupim antonti 5 pé na pá, 3 branca").date == date(2026, 2, 8)
    assert _only("cupim passaro veneno sesta fera, 5 pé na pá, 3 branca").spray.date == date(2026, 2, 6)
    assert _only("cupim 5 pé na pá, 3 branca, prantado dia 12 di novembro").planted == date(2025, 11, 12)
    assert _only("cupim 8 pé na pá, 12 branca, oiá di novo daqui 10 dia").look_again.days == 10


@pytest.mark.parametrize(
    ("text", "plants", "females"),
    [
        ("las moras ise 6 matas kon asadon i labe en el valde, 4 blankas", 6, 4),
        ("las moras sake 5 matas con la asada, 3 vlancas i 2 amariyas", 5, 5),
        ("las moras ase 3 dias 5 matas con pala, artos nodulos, 3 blancas", 5, 3),
    ],
)
def test_spanish_by_its_sound(text, plants, females):
    """S, z and c, b and v, k and c, h left out, i for y."""
    note = _only(text, "es")
    assert (note.plants, note.method, note.females.total) == (plants, "shovel", females)


def test_what_is_no_country_speech():
    """A name of the crew keeps its words, "está" is no estar, "i" beside a sign is none, and few are not none."""
    assert _only("nu du meio 5 pés com pá, 2 brancas").field == "nu du meio"
    (command,) = _read("Gostaria de saber como está o Cupim.").commands
    assert command.kind == "state"
    assert _read("las moras 4 plantas con pala, casi no hay hembras", "es").problems
    assert _read("cupim 4 plantas na pá, quase não tem fêmea").problems
    assert _only("las moras no tiene hembra, saqué 8 con pala", "es").outcome == "none_seen"
    assert _only("cupim 5 plantas com pá, 2 brancas, volto qui").look_again.date == date(2026, 2, 12)


def test_num_is_not_before_a_verb_and_in_a_before_a_bucket():
    """Behind a comma or a stop as well."""
    assert _only("cupim 6 pé na pá, num lavei, 3 branca").soaked is False
    assert _only("cupim terra incharcada, num entrei").outcome == "not_looked"
    assert _only("cupim 6 pé na pá, num balde, 3 branca").soaked is True
    assert _only("cupim reboleira, num círculo amarelo, 6 pé na pá, 3 branca").outcome == "seen"
