"""Notes of the south, once more: "no" behind what is denied, plants by ordinals, sums, totals of places, the lab again."""

from __future__ import annotations

from datetime import date

import pytest

from notes_bot.language import read_note
from notes_bot.model import Females

CREW = ("Tacuara", "La Comadreja", "Zanja Sur", "Baru", "Cupim", "Baixada", "Limekiln 2", "Kestrel", "Tinker's")


def _read(text, language="es"):
    return read_note(text, sent=date(2026, 7, 8), fields=CREW, language=language)


def _only(text, language="es"):
    reading = _read(text, language)
    assert reading.problems == ()
    (note,) = reading.notes
    return note


def _command(text, language="es"):
    reading = _read(text, language)
    assert (reading.notes, reading.problems) == ((), ())
    (command,) = reading.commands
    return command.kind, {key: value for key, value in command.args.items() if value is not None}


@pytest.mark.parametrize(
    ("text", "language", "told"),
    [
        ("corregime la comadreja: blancas 9 no, son 11", "es", ("la comadreja", "white", 11, 9)),
        ("corregí la comadreja: 9 blancas no, son 11", "es", ("la comadreja", "white", 11, 9)),
        ("corrige tacuara: las plantas 6 no, fueron 8", "es", ("tacuara", "plants", 8, 6)),
        ("me equivoqué en tacuara, 9 blancas no, 11", "es", ("tacuara", "white", 11, 9)),
        ("tacuara: con pala no, a mano", "es", ("tacuara", "method", "pulled", "shovel")),
        ("tacuara suelo seco no, húmedo", "es", ("tacuara", "moisture", "moist", "dry")),
        ("corrige aí cupim: 9 brancas não, são 11", "pt", ("cupim", "white", 11, 9)),
        ("cupim plantas 6 não, 8", "pt", ("cupim", "plants", 8, 6)),
        ("cupim: arrancadas não, cavadas", "pt", ("cupim", "method", "shovel", "pulled")),
        ("cupim R1 não, é R2", "pt", ("cupim", "stage", "R2", "R1")),
        ("kestrel 9 white no, make it 11", "en", ("kestrel", "white", 11, 9)),
    ],
)
def test_a_no_behind_a_value_denies_it(text, language, told):
    """The number before "no," is the old one, whatever verb leads the correction."""
    field, what, value, old = told
    assert _command(text, language) == ("correct", {"field": field, "what": what, "value": value, "old": old})


def test_without_its_comma_the_no_may_be_of_either_number():
    """ "9 no son 11": which of them is right is asked; two colors are two counts."""
    assert [p.kind for p in _read("tacuara blancas 9 no son 11").problems] == ["no_change"]
    assert _only("tacuara 9 blancas no, 11 amarillas").females == Females(9, 11, 0, 0, 20)
    assert _command("lote tacuara corregí porfa, blancas eran 9 no 7")[1]["value"] == 9


@pytest.mark.parametrize(
    ("text", "language", "counts"),
    [
        ("tacuara pala: 1ra 3, 2da 0, 3ra 6, 4ta 1, 5ta 2", "es", (3, 0, 6, 1, 2)),
        ("tacuara 1er 3 2do 0 3er 6 4to 1 5to 2", "es", (3, 0, 6, 1, 2)),
        ("tacuara pala: 1a 3, 2a 0, 3a 6, 4a 1", "es", (3, 0, 6, 1)),
        ("tacuara 1° 3, 2° 0, 3° 6, 4° 1", "es", (3, 0, 6, 1)),
        ("tacuara, 1ra y 2da nada, 3ra 6, 4ta 1", "es", (0, 0, 6, 1)),
        ("tacuara la primera y la segunda nada, la tercera 6 y la cuarta 1", "es", (0, 0, 6, 1)),
        ("tacuara: primera planta 3 hembras, segunda ninguna, tercera 6 hembras y la última 1", "es", (3, 0, 6, 1)),
        ("baru 1a: 3, 2a: nada, 3a: 6", "pt", (3, 0, 6)),
        ("baru primeira e segunda zero, terceira 6, quarta 1", "pt", (0, 0, 6, 1)),
        ("baru 5 pés: 1º com 3, 2º com 0, 3º com 6, resto zero", "pt", (3, 0, 6, 0, 0)),
        ("kestrel first plant had 3, second 0, third 6 and the last one 1", "en", (3, 0, 6, 1)),
    ],
)
def test_plants_told_by_ordinals(text, language, counts):
    """Short ordinals, raised letters that nobody raised, degrees for them, two plants with nothing, and the last."""
    note = _only(text, language)

    assert (note.plants, note.per_plant, note.females.total) == (len(counts), counts, sum(counts))


def test_degrees_of_heat_are_no_ordinals():
    """ "31° y 22° y 33°" count nothing."""
    assert _only("tacuara 31° y 22° y 33°, 6 plantas 3 blancas").females == Females(3, 0, 0, 0, 3)


@pytest.mark.parametrize(
    ("text", "language"),
    [
        ("tacuara loma 4 pl 3 blancas, bajo 4 pl 12 blancas, con pala las 8", "es"),
        ("tacuara loma 4 pl 3 blancas, bajo 4 pl 12 blancas. total 8 plantas, con pala", "es"),
        ("tacuara loma 4 con 3 blancas, bajo 4 con 12 blancas, con pala", "es"),
        ("tacuara 8 plantas: loma 4 con 3 blancas, bajo 4 con 12 blancas, con pala", "es"),
        ("baru baixada 4 pés 3 brancas, alto 4 pés 12 brancas, os 8 na pá", "pt"),
        ("kestrel hill 4 with 3 white, bottom 4 with 12 white, dug", "en"),
    ],
)
def test_places_and_the_plants_of_all_of_them(text, language):
    """What all places had together says nothing new; "4 con 3" at a place is four plants with three."""
    note = _only(text, language)

    assert (note.plants, note.method, note.females) == (8, "shovel", Females(15, 0, 0, 0, 15))
    assert [(spot.plants, spot.females.white) for spot in note.spots] == [(4, 3), (4, 12)]


def test_another_number_than_all_places_had_is_asked_about():
    """Four and four are not nine."""
    reading = _read("tacuara loma 4 pl 3 blancas, bajo 4 pl 12 blancas, 9 con pala")

    assert [p.kind for p in reading.problems] == ["twice"]


@pytest.mark.parametrize(
    ("text", "language"),
    [
        ("baru: 2+0+1+4+3 = 10, tudo na pá", "pt"),
        ("tacuara 2 + 0 + 1 + 4 + 3 son 10, con pala", "es"),
        ("tacuara 2 0 1 4 3 son 10, con pala", "es"),
        ("tacuara 2+0+1+4+3 = 10, todas con pala", "es"),
    ],
)
def test_a_sum_behind_its_list_is_no_plant_more(text, language):
    """ "= 10", "son 10" behind numbers that make ten."""
    note = _only(text, language)

    assert (note.plants, note.per_plant, note.females.total) == (5, (2, 0, 1, 4, 3), 10)
    assert note.method == "shovel"


def test_a_sum_that_is_none_is_asked_about_and_e_is_and():
    """Eleven are not ten; "0, 0 e 3" goes on with its list though the numbers before it make three."""
    assert [p.kind for p in _read("tacuara 2+0+1+4+3 son 11").problems] == ["sum_mismatch"]
    assert _only("baru 6 plantas: 0, 2, 1, 0, 0 e 3, todas amarelas", "pt").per_plant == (0, 2, 1, 0, 0, 3)


@pytest.mark.parametrize(
    ("text", "language"),
    [
        ("me mandas otra vez el lab de zanja sur", "es"),
        ("zanja sur, el lab de nuevo porfa", "es"),
        ("cuánto dio el lab de zanja sur?", "es"),
        ("reenviame el análisis de zanja sur", "es"),
        ("me manda de novo o laudo da zanja sur", "pt"),
        ("cadê o laudo da zanja sur", "pt"),
        ("what did the lab say for zanja sur", "en"),
        ("send me the lab for zanja sur again", "en"),
    ],
)
def test_the_newest_result_is_asked_for_again(text, language):
    """A word for the laboratory, one for asking, and a field."""
    assert _command(text, language) == ("lab", {"field": "zanja sur"})


def test_several_requests_of_several_fields():
    """A type is no sentence's end, an article may stand before what is asked, and the lab is asked for too."""
    told = [
        ("hg limekiln 2 1.5.7 and history tinker's pls", "en", [("hg", "limekiln 2"), ("history", "tinker's")]),
        ("hg tacuara 2.5.7 y el historial de zanja sur", "es", [("hg", "tacuara"), ("history", "zanja sur")]),
        ("me manda o laudo da baixada e o estado do cupim", "pt", [("lab", "baixada"), ("state", "cupim")]),
        ("history kestrel, lab tinker's", "en", [("history", "kestrel"), ("lab", "tinker's")]),
    ]
    for text, language, asked in told:
        assert [(c.kind, c.args["field"]) for c in _read(text, language).commands] == asked
    assert [p.kind for p in _read("hg kestrel 2 1.5.7", "en").problems] == ["hg_what"]


@pytest.mark.parametrize(
    ("text", "language"),
    [
        ("no le entiendo a esto, ayuda", "es"),
        ("no le entiendo", "es"),
        ("no te entiendo nada", "es"),
        ("não entendo esse negócio", "pt"),
        ("não entendi nada", "pt"),
    ],
)
def test_who_does_not_understand_gets_help(text, language):
    """Said of us, and alone."""
    assert _command(text, language)[0] == "help"


def test_a_word_for_many_before_the_count_is_no_too_many():
    """ "Cargadas: 44 blancas" were counted; "llenas de quistes" were not."""
    note = _only("tacuara las raíces cargadas, 6 plantas 44 blancas 10 amarillas")
    assert (note.females, note.too_many) == (Females(44, 10, 0, 0, 54), False)
    assert _only("tacuara 6 plantas, llenas de quistes").too_many is True
    assert _only("tacuara 6 plantas, 44 blancas, la última llena").too_many is True


@pytest.mark.parametrize(
    ("text", "language", "females", "mostly"),
    [
        ("baru achei 1. só 1. branca. em 9 plantas", "pt", Females(1, 0, 0, 0, 1), ()),
        ("baru 9 plantas, achei 1 só, branca", "pt", Females(1, 0, 0, 0, 1), ()),
        ("tacuara 9 matas una sola. amarilla", "es", Females(0, 1, 0, 0, 1), ()),
        ("tacuara 9 matas: 2, las dos amarillas", "es", Females(0, 2, 0, 0, 2), ()),
        ("tacuara 9 blancas y amarillas en 9 plantas", "es", Females(total=9), ("white", "yellow")),
        ("tacuara 9 plantas, 9 entre blancas y amarillas", "es", Females(total=9), ("white", "yellow")),
        ("tacuara entre blancas y amarillas 9 en 9 plantas", "es", Females(total=9), ("white", "yellow")),
        ("baru 9 pl 9 fêmeas branca+amarela volto quarta", "pt", Females(total=9), ("white", "yellow")),
    ],
)
def test_the_color_of_one_and_of_several_together(text, language, females, mostly):
    """A color behind a stop is of the one, or the two, before it; a number of two colors is of both together."""
    note = _only(text, language)

    assert (note.plants, note.females, note.mostly) == (9, females, mostly)


def test_seen_and_not_counted():
    """ "No conté nada" tells of counting, not of females; alone it is asked about."""
    for text, language in (
        ("tacuara vi quistes en la mayoría, no conté nada", "es"),
        ("ó, no baru tem fêmea em quase toda planta q eu arranquei, nao contei nao", "pt"),
    ):
        note = _only(text, language)
        assert (note.outcome, note.females.total) == ("seen", None)
    assert [p.kind for p in _read("tacuara 6 plantas, no conté").problems] == ["no_finding"]


def test_a_seed_named_behind_its_resistance():
    """A strange word with a number that counts nothing is the seed's name."""
    note = _only("tacuara variedad susceptible tapuia 73: 4 plantas 31 blancas")
    assert (note.variety.name, note.variety.resistance, note.plants) == ("tapuia 73", "susceptible", 4)


def test_nothing_in_quotes_is_nothing():
    """A word for none is one in quotes too; other words in quotes stay words."""
    assert _only("kestrel dug 5, “zero” on all of em, nods pink", "en").outcome == "none_seen"
    assert _only('tacuara 5 plantas 2 blancas, letrero "bajo"').spots == ()


def test_in_spots_is_a_patch():
    """ "En manchas" and "a manchones" are patches as "em reboleira" is."""
    for text in ("tacuara 6 pl nada, chaparras en manchas", "tacuara 6 pl nada, petisas a manchones"):
        assert set(_only(text).tops) == {"patch", "stunted"}


@pytest.mark.parametrize(
    ("text", "language", "new", "old"),
    [
        ("tacuara no era, era zanja sur", "es", "zanja sur", "tacuara"),
        ("tacuara no, era zanja sur", "es", "zanja sur", "tacuara"),
        ("no era tacuara sino zanja sur", "es", "zanja sur", "tacuara"),
        ("eso no fue en tacuara, fue en zanja sur", "es", "zanja sur", "tacuara"),
        ("era tacuara, no zanja sur", "es", "tacuara", "zanja sur"),
        ("cupim não era, era o baru", "pt", "baru", "cupim"),
        ("cupim não, baru", "pt", "baru", "cupim"),
        ("kestrel no, it was tinker's", "en", "tinker's", "kestrel"),
        ("that was kestrel not tinker's", "en", "kestrel", "tinker's"),
    ],
)
def test_which_of_two_fields_a_no_denies(text, language, new, old):
    """The one before it where a stop stands behind it, else the one behind it."""
    assert _command(text, language) == ("correct", {"what": "field", "value": new, "old": old})


@pytest.mark.parametrize(
    ("text", "language"),
    [
        ("tacuara: donde dice blancas va amarillas", "es"),
        ("tacuara las blancas eran amarillas", "es"),
        ("tacuara 4 amarillas no 4 blancas", "es"),
        ("cupim: onde diz branca é amarela", "pt"),
        ("kestrel white should be yellow", "en"),
    ],
)
def test_colors_that_were_others_are_asked_about(text, language):
    """How many of them is not said."""
    reading = _read(text, language)

    assert (reading.notes, reading.commands) == ((), ())
    assert [p.kind for p in reading.problems] == ["no_change"]


@pytest.mark.parametrize(
    ("text", "language", "what", "value", "old"),
    [
        ("cambiá el suelo de tacuara a seco", "es", "moisture", "dry", None),
        ("tacuara cambiá pala por a mano", "es", "method", "pulled", "shovel"),
        ("tacuara cambia las plantas a 8", "es", "plants", 8, None),
        ("cambiá a 8 las plantas de tacuara", "es", "plants", 8, None),
        ("tacuara muda o solo pra seco", "pt", "moisture", "dry", None),
        ("tacuara troca pá por mão", "pt", "method", "pulled", "shovel"),
        ("tacuara change shovel to pulled", "en", "method", "pulled", "shovel"),
    ],
)
def test_a_verb_of_changing_and_a_value(text, language, what, value, old):
    """ "A seco" behind it is no washing without water, the "a" before a number no yellow."""
    told = {"field": "tacuara", "what": what, "value": value} | ({} if old is None else {"old": old})
    assert _command(text, language) == ("correct", told)


def test_between_two_fields_it_is_asked_in_which():
    """Ten plants between two fields are ten in neither of them."""
    for text, language in (
        ("entre tacuara y zanja sur saqué 10 y nada", "es"),
        ("entre o cupim e o baru tirei 10 e nada", "pt"),
    ):
        assert [p.kind for p in _read(text, language).problems] == ["two_fields"]


def test_how_the_crop_stands_is_no_color_of_females():
    """Before anything is counted."""
    for text, language in (
        ("tacuara V5 chaparritas, amarillas parejas, 8 plantas 2 quistes blancos", "es"),
        ("baru V5 baixinha, toda amarela, 8 pés 2 cistos brancos", "pt"),
    ):
        note = _only(text, language)
        assert (set(note.tops), note.mostly, note.females.white) == ({"stunted", "yellow"}, (), 2)
    assert _only("baru 6 pés bonitos por cima, embaixo 22 brancas", "pt").tops == ("healthy",)


def test_a_letter_that_is_no_color_of_ours_is_asked_about():
    """Among counts by letters "1 c" is no degree of heat."""
    for text, language in (("tacuara 5 matas, 2 b, 1 a, 1 c", "es"), ("baru 5 pés 2b 1a 1c", "pt")):
        assert [p.kind for p in _read(text, language).problems] == ["stray_number"]


def test_a_second_name_work_that_goes_on_and_help_behind_a_stop():
    """Three small things that became something else, or nothing."""
    assert _command("tacuara se llama también Lote Grande") == ("field", {"name": "tacuara", "alias": "lote grande"})
    assert _command("tacuara também se chama Lote Grande", "pt")[1]["alias"] == "lote grande"
    assert _read("gracias, mañana sigo").commands == ()
    assert _command("no me deja, ayuda por favor")[0] == "help"
