"""Spanish and Portuguese notes as people of the south write them: small words, fields by number, plants told in passing."""

from __future__ import annotations

from datetime import date

from notes_bot.language import read_note
from notes_bot.model import Females, LookAgain

CREW = (
    "Coxilha do Umbu",
    "Açude Velho",
    "Sanga Funda",
    "Talhão 3",
    "Talhão 11",
    "Molino Norte",
    "Molino Sur",
    "Las 60",
)


def _read(text, language="es", fields=CREW):
    return read_note(text, sent=date(2026, 7, 20), fields=fields, language=language, day_first=True)


def _only(text, language="es", fields=CREW):
    reading = _read(text, language, fields)
    assert reading.problems == ()
    (note,) = reading.notes
    return note


def test_a_word_made_smaller_or_greater_is_the_word_itself():
    """Parejita, sequinha, branquíssimas: no list has them, and nobody should have to list them."""
    assert _only("las 60 V3, parejita y sana, no saqué plantas").tops == ("healthy",)

    note = _only("açude V5, 5 pezinhos na enxadinha, terra sequinha, 3 branquinhas, 1 amarelinha", "pt")

    assert (note.plants, note.method, note.soil.moisture) == (5, "shovel", "dry")
    assert note.females == Females(3, 1, 0, 0, 4)


def test_a_sentence_about_roots_goes_on_about_roots():
    """A color behind a comma is still that of the roots, also where a count stands behind it."""
    assert _only("las 60 6 plantas 1 quiste. raíz linda, blanca, muchos nódulos rosados").roots == (
        "white",
        "nodules_many",
        "nodules_pink",
    )

    note = _only("las 60 5 pl. raíces cortas, oscuras, marrones, 3 hembras amarillas")

    assert note.roots == ("dark", "stubby")
    assert note.females == Females(0, 3, 0, 0, 3)


def test_a_list_that_ends_in_and_belongs_to_one_noun():
    """The last number of a list is no count of its own, and the color behind is that of all of them."""
    note = _only("las 60: cuatro plantas con 1, 0, 6 y 2 hembras marrones")

    assert note.per_plant == (1, 0, 6, 2)
    assert note.females == Females(0, 0, 0, 9, 9)
    assert _only("las 60 R2. Por planta registré 4, 9, 0, 6 y 2 hembras.").per_plant == (4, 9, 0, 6, 2)
    assert _only("las 60, 5 plants, found 3, 6, 2, 8 and 1 females", "en").per_plant == (3, 6, 2, 8, 1)


def test_a_number_in_brackets_behind_a_list_is_its_sum():
    """It is no plant more; a number that is no sum is asked about as before."""
    note = _only("talhão 3: 4 plantas: 5, 9, 3, 7 (24 brancas)", "pt")

    assert (note.per_plant, note.females) == ((5, 9, 3, 7), Females(24, 0, 0, 0, 24))


def test_the_sign_for_the_size_of_a_sample_counts_plants():
    """n = 10."""
    assert _only("talhão 3, contagem por planta (n=4): 2, 0, 5, 1. Todas brancas.", "pt").per_plant == (2, 0, 5, 1)

    note = _only("talhão 3, n = 10, total de 31 fêmeas", "pt")

    assert (note.plants, note.females.total) == (10, 31)


def test_each_of_so_many_plants_had_so_many():
    """The plants stand between "each" and what each of them had."""
    note = _only("las 60 está en R2. Cada una de las cuatro plantas examinadas tenía 5 hembras amarillas.")

    assert (note.plants, note.females.yellow) == (4, 20)


def test_the_first_and_the_second_are_the_fields_named_before():
    """Two fields in one breath, then told of by their order."""
    reading = _read(
        "Visité Molino Norte y Molino Sur el 17/7. En el primero observé cinco plantas con 13 hembras blancas; "
        "en el segundo, cuatro plantas sin hembras. Ambos están en V6."
    )

    assert [(n.field, n.plants, n.females.total, n.stage) for n in reading.notes] == [
        ("molino norte", 5, 13, "V6"),
        ("molino sur", 4, 0, "V6"),
    ]
    assert reading.problems == ()


def test_the_next_field_is_joined_with_its_article():
    """ "E o açude (4 pés, nada)" behind another field's count."""
    reading = _read("olhei a coxilha do umbu (8 pés, 5 brancas) e o açude (4 pés, nada)", "pt")

    assert [(n.field, n.plants, n.females.total) for n in reading.notes] == [("coxilha do umbu", 8, 5), ("açude", 4, 0)]


def test_a_field_known_by_its_number_is_called_by_it():
    """Behind "at" and before digging; a day of the month is none."""
    reading = _read("no 11 arranquei 6, 1 branca. No 3 arranquei 5 e deu 4 brancas", "pt")

    assert [(n.field, n.plants, n.females.white) for n in reading.notes] == [("11", 6, 1), ("3", 5, 4)]


def test_a_place_word_that_begins_one_field_only_may_stand_for_it():
    """Coxilha is a hill, and here short for Coxilha do Umbu."""
    reading = _read("na coxilha 4 pés e nada. Sanga 6 pés, 11 brancas", "pt")

    assert [(n.field, n.females.total) for n in reading.notes] == [("coxilha", 0), ("sanga", 11)]


def test_a_color_before_its_denial_is_not_there():
    """In a row of colors that stand before their counts the last one was not seen."""
    assert _only("las 60 7 plantas, marrones 23 amarillas 4 blancas no vi").females == Females(0, 4, 0, 23, 27)


def test_plants_told_before_their_places_one_with_and_one_without_the_noun():
    """The second number counts plants as the first one did."""
    note = _only("las 60 hoy v5, pala. 4 pl en la entrada 8 bl, 4 en el fondo 1 bl")

    assert [(s.name, s.plants, s.females.white) for s in note.spots] == [("entrada", 4, 8), ("fondo", 4, 1)]


def test_a_number_of_places_is_no_count_of_females():
    """Three places, and four plants at each of them."""
    note = _only("las 60 3 lugares, 4 plantas en cada uno. loma: 0. bajo: 14 blancas")

    assert (note.plants, note.females.white) == (8, 14)


def test_a_span_before_coming_back_is_when_to_look():
    """ "En 10 d vuelvo"."""
    assert _only("las 60 5 plantas 6 bl, cavé con pala, en 10 d vuelvo").look_again == LookAgain(10)


def test_a_stage_put_right_is_no_range():
    """ "V5.. no perdón v6"."""
    assert _only("las 60 v5.. no perdón v6. 4 pl, 3 amarillas").stage == "V6"


def test_names_of_three_words_are_told_one_behind_the_other():
    """Without a list of fields: capitals, little words between, and digging behind."""
    reading = _read("Capão da Égua cavei 4 e nada, Passo da Pedra Lisa cavei 5 e tinha 2 brancas", "pt", ())

    assert [(n.field, n.plants, n.females.total) for n in reading.notes] == [
        ("capão da égua", 4, 0),
        ("passo da pedra lisa", 5, 2),
    ]


def test_the_others_of_plants_told_by_ordinals_had_nothing():
    """So many others, or all that are left of the plants; an article between is no color."""
    note = _only(
        "las 60 seis plantas la primera dos la segunda nada la tercera cuatro la cuarta una y las otras dos nada"
    )

    assert note.per_plant == (2, 0, 4, 1, 0, 0)

    note = _only("talhão 3 5 pés, a primeira 3 a segunda 1 a terceira 2 e o resto nada", "pt")

    assert (note.per_plant, note.females.yellow) == ((3, 1, 2, 0, 0), None)


def test_a_ring_is_a_place_where_outside_is_told_as_well():
    """Plants and a count in the ring, plants and a count outside."""
    note = _only("las 60 r2, hay un anillo de plantas amarillas. cavé en el anillo 4 pl 26 bl, afuera 4 pl 2 bl")

    assert [(s.name, s.females.white) for s in note.spots] == [("anillo", 26), ("afuera", 2)]
    assert note.tops == ("yellow", "ring")


def test_a_total_behind_the_plants_is_that_of_the_color_named_before():
    """ "Todas amarillas: 5 plantas, 38": 38 are females, and no plants."""
    note = _only("talhão 3 R3, agora as fêmeas tudo amarela: 5 plantas, 38. pá", "pt")

    assert (note.plants, note.females.yellow) == (5, 38)


def test_plants_as_items_behind_per_plant():
    """Each item is one plant, though the count of them stands sentences before."""
    note = _only(
        "las 60. Descalcé 5 con los dedos, lavé en la acequia. Por planta: 3 blancas, 5 blancas, 0, 1 blanca, 2 blancas"
    )

    assert (note.per_plant, note.females.white) == ((3, 5, 0, 1, 2), 11)


def test_a_farm_and_its_field_are_one_name():
    """Without a list of fields; a farm that stands alone above its fields is only a heading."""
    (note,) = _read("Fazenda Boa Vista, talhão da divisa, R3, 6 pés, 21 fêmeas brancas", "pt", ()).notes
    assert (note.field, note.plants, note.stage) == ("fazenda boa vista talhão da divisa", 6, "R3")

    notes = _read("Fazenda Boa Vista. Talhão 12: 5 plantas, 3 brancas. Talhão 13: 5 plantas, nada", "pt", ()).notes
    assert [(n.field, n.females.total) for n in notes] == [("12", 3), ("13", 0)]


def test_nothing_changed_is_no_count_of_nothing():
    """ "Nada mudou" says nothing of females, and is asked about."""
    reading = _read("talhão 3, nada mudou", "pt")

    assert reading.notes[0].outcome is None
    assert reading.problems


def test_reminders_of_that_field_are_those_of_the_note():
    """ "Ese lote" is the one just told of, also where another is called Lote 7."""
    reading = _read("Molino Norte R5, 17 hembras en cinco plantas. Les pido silenciar los avisos de ese lote.")

    assert [(c.kind, c.args.get("field")) for c in reading.commands] == [("mute", "molino norte")]


def test_the_day_of_a_note_taken_back_is_no_other_day():
    """ "Lo de hoy no va" takes back and corrects no date."""
    (command,) = _read("perdón lo de molino norte de hoy no va, lo mandé mal").commands

    assert (command.kind, command.args.get("field")) == ("take_back", "molino norte")


def test_a_code_behind_planted_with_is_the_seed():
    """ "Sembrada con la 48B20", and a number of plants is none."""
    assert _only("las 60 sembrado con la 48B20, R2, 5 plantas 3 blancas").variety.name == "48B20"
    assert _only("talhão 3 plantado com M 6410, R2, 5 plantas 3 brancas", "pt").variety.name == "M 6410"


def test_a_form_has_labels_and_no_names_of_fields():
    """A line for each datum; a label that no list has begins no note."""
    (note,) = _read(
        "Talhão: 3⏎Data: 08/07⏎Nº plantas: 8⏎Método: pá⏎Operador: 2⏎Fêmeas: 5 brancas".replace("⏎", "\n"), "pt"
    ).notes

    assert (note.field, note.plants, note.method, note.females.white) == ("3", 8, "shovel", 5)


def test_whether_a_field_is_resistant_is_asked_and_not_told():
    """A question mark behind the word."""
    assert all(note.variety is None for note in _read("A sanga funda é resistente?", "pt").notes)


def test_neither_of_two_fields_could_be_entered():
    """ "Y también a", "en ninguno de los dos"."""
    reading = _read("Fui a Molino Norte y también a Molino Sur. En ninguno de los dos se podía entrar, puro lodo")

    assert [(n.field, n.outcome, n.soil.moisture) for n in reading.notes] == [
        ("molino norte", "not_looked", "wet"),
        ("molino sur", "not_looked", "wet"),
    ]


def test_a_day_of_rain_or_since_when_is_no_visit():
    """ "Ontem choveu", "inundado desde el domingo"."""
    assert _only("ontem choveu demais na sanga funda, hoje 5 pés e nada", "pt").date == date(2026, 7, 20)

    note = _only("las 60 sigue inundado desde el domingo, no entré")

    assert (note.date, note.outcome) == (None, "not_looked")


def test_nothing_to_dig_and_nothing_of_roots_is_not_looked():
    """Nobody looked, so nobody can have seen none."""
    assert _only("sanga funda em VC, ainda não tem o que arrancar", "pt").outcome == "not_looked"
    assert _only("las 60 V2, nada que sacar todavía").outcome == "not_looked"
    assert _only("talhão 3: 11 dias após glifosato. nada de raiz hoje", "pt").outcome == "not_looked"


def test_a_makers_letters_and_a_large_number_are_the_seed():
    """Behind "with" or "is"; a road is none."""
    assert _only("sanga funda com TMG 7062, resistente, 8 plantas, 1 branca", "pt").variety.name == "TMG 7062"

    note = _only("passei pela BR 163 até a sanga funda, 5 pés 1 branca", "pt")

    assert (note.females.white, note.variety) == (1, None)


def test_some_of_them_had_any():
    """ "4 de ellas con hembras" counts neither plants nor females."""
    note = _only("las 60 6 plantas, 4 de ellas con hembras, 19 en total")

    assert (note.plants, note.females.total) == (6, 19)


def test_plants_that_look_alike_are_a_place():
    """The yellow ones and the green ones, with counts behind both."""
    note = _only("las 60. En las amarillas 4 plantas 20 blancas, en las verdes 4 plantas 1 blanca")

    assert [(s.name, s.females.white) for s in note.spots] == [("amarillas", 20), ("verdes", 1)]


def test_so_many_places_of_so_many_plants():
    """ "3 estaciones de 3 plantas" are nine."""
    assert _only("las 60 3 estaciones de 3 plantas, 12 blancas").plants == 9


def test_plants_one_to_six_are_six():
    """A range behind the word for plants, with a list behind it."""
    assert _only("talhão 3 plantas 1 a 6: 0, 2, 7, 0, 1, 3 brancas", "pt").per_plant == (0, 2, 7, 0, 1, 3)


def test_the_same_in_both_fields_is_told_of_both():
    """Counts of two fields in one breath, where it is said that they are alike."""
    reading = _read("Sanga funda e talhão 3: mesma coisa nos dois, V6, 5 pés, 2 brancas", "pt")

    assert [(n.field, n.plants, n.females.white) for n in reading.notes] == [("sanga funda", 5, 2), ("3", 5, 2)]
    assert reading.problems == ()


def test_what_no_list_has_was_sprayed_on_the_day_before_or_behind_it():
    """ "Ayer aplicaron imidacloprid", "passaram Fusão há 3 dias": days of spraying, and none of the visit."""
    note = _only("las 60 ayer aplicaron imidacloprid. hoy 6 pl 18 b")
    assert (note.date, note.spray.what, note.spray.date) == (date(2026, 7, 20), "imidacloprid", date(2026, 7, 19))

    note = _only("sanga funda R1. Passaram Fusão há 3 dias. 6 plantas 9 brancas", "pt")
    assert (note.date, note.spray.days_ago) == (None, 3)


def test_like_another_field_is_no_day():
    """ "Igual que el 15" speaks of Lote 15."""
    assert _read("lote 8 igual que el 15: 6 plantas, 2 blancas").notes[0].date is None


def test_a_little_word_before_a_place_is_no_color():
    """ "A media ladera" is halfway up."""
    note = _only("las 60: en el bajo 4 plantas, 22 blancas; a media ladera 4 plantas, 9 blancas")

    assert note.mostly == ()
    assert [s.females.white for s in note.spots] == [22, 9]


def test_so_many_of_the_plants_had_so_many_each():
    """ "Três tinham duas brancas cada" are six, whatever the plants dug; the others may be told as well."""
    assert _only("sanga funda seis plantas, três tinham duas brancas cada", "pt").females.white == 6

    note = _only("sanga funda, seis plantas, três tinham uma branquinha cada, as outras nada", "pt")
    assert (note.per_plant, note.females.white) == ((1, 1, 1, 0, 0, 0), 3)

    assert _only("las 60 saqué cinco plantas y una tiene dos blancas y las otras cuatro nada").per_plant == (
        2,
        0,
        0,
        0,
        0,
    )


def test_labels_with_equals_signs_are_no_sum():
    """ "Brancas=5; amarelas=1"."""
    assert _only("talhão 3 5 pés; brancas=5; amarelas=1", "pt").females == Females(5, 1, 0, 0, 6)


def test_a_letter_glued_to_its_count_joins_no_range():
    """ "18a 25a 31a" are yellow, three plants, and no range."""
    note = _only("talhão 3 testemunha 3pl 18a 25a 31a, resto 9pl 2a", "pt")

    assert [s.females.yellow for s in note.spots if not s.check] == [2]


def test_fields_headed_by_their_numbers():
    """ "11: V5, 6 p. 3: V5, 6 p", where the crew has Talhão 11 and Talhão 3."""
    reading = _read("11: V5, 6 p, pala, 4b. 3: V5, 6 p, pala, 0")

    assert [(n.field, n.plants, n.females.total) for n in reading.notes] == [("11", 6, 4), ("3", 6, 0)]


def test_a_misspelt_name_of_the_crew_is_found_and_kept_as_written():
    """ "Mollino" stands for no word of ours, and for one field of the crew."""
    reading = _read("mollino norte 5 plantas 3 blancas. sanga 4 pés e nada")

    assert [(n.field, n.females.total) for n in reading.notes] == [("mollino norte", 3), ("sanga", 0)]


def test_half_dry_soil_is_no_average():
    """ "Media seca" behind a count."""
    note = _only("las 60 seis plantas con pala vi 3 perlitas tierra media seca")

    assert (note.females.total, note.soil.moisture) == (3, "dry")


def test_two_fields_by_their_numbers_behind_one_word():
    """ "Talhões 3 e 11", each told of again by its number."""
    reading = _read("Talhões 3 e 11, V5. No 3, cinco plantas, 4 brancas. No 11, cinco plantas, nenhuma.", "pt")

    assert [(n.field, n.stage, n.females.total) for n in reading.notes] == [("3", "V5", 4), ("11", "V5", 0)]
    assert reading.problems == ()


def test_the_day_behind_a_bracket_is_that_of_spraying():
    """ "Aplicaron herbicida (cletodim) el 6/7"."""
    note = _only("las 60: aplicaron herbicida (cletodim) el 6/7. Saqué 5 plantas: 3 blancas")

    assert (note.date, note.spray.date) == (None, date(2026, 7, 6))


def test_how_many_roots_broke_is_no_count_of_females():
    """ "Se cortaron 3"."""
    note = _only("las 60: tiré de 5 plantas a mano. Se cortaron 3. Vi 1 hembra blanca")

    assert (note.females.white, note.roots) == (1, ("snapped",))


def test_females_on_one_plant_only_are_those_females():
    """ "Só em uma achei 2": neither one nor three."""
    assert _only("talhão 3 8 plantas e só em uma achei 2 fêmeas brancas", "pt").females.white == 2
    assert _only("las 60 8 plantas y solo en una encontré 2 hembras blancas").females.white == 2


def test_a_field_told_of_again_without_its_article_is_the_same():
    """ "El Quebracho y Las 60 R6. Quebracho ..; Las 60 ..": two notes, and not three."""
    reading = _read(
        "El Quebracho y Molino Sur R6. Quebracho 6 pl 11 marrones; Molino Sur 6 pl 30 marrones",
        fields=(*CREW, "El Quebracho"),
    )

    assert [(n.field, n.stage, n.females.brown) for n in reading.notes] == [
        ("quebracho", "R6", 11),
        ("molino sur", "R6", 30),
    ]


def test_where_a_check_strip_lies_is_no_place_of_its_own():
    """ "Testigo en la cabecera: 3 pl 24 b"."""
    note = _only("las 60, R1, testigo en la cabecera: 3 pl 24 b. Resistente: 6 pl 2 b")

    assert [(s.name, s.check) for s in note.spots] == [("testigo", True), ("resistente", False)]
    assert note.females.white == 2


def test_a_name_in_small_letters_that_begins_with_a_place():
    """ "Morro do cruzeiro r1", where no list of fields is known; "Sítio São João" too."""
    assert _only("morro do cruzeiro r1 tá alagado não deu pra descer", "pt", ()).field == "morro do cruzeiro"
    assert _only("Sítio São João ontem v5 5 pés nada", "pt", ()).field == "sítio são joão"


def test_the_yellow_of_a_patch_behind_its_size_is_none_of_the_females():
    """ "Manchón de 20x30 amarillo"."""
    note = _only("las 60 R2. Manchón de 20x30 amarillo. Saqué 4 plantas: 31 blancas")

    assert (note.mostly, note.tops) == ((), ("yellow", "patch"))


def test_names_that_begin_with_an_article_or_a_saint():
    """Without a list of fields: "La Unión: .." behind another field, "São Bento do Alto" at the head."""
    notes = _read("Santa Ana: R2 6pl 5b 9a. La Unión: R2 6pl 0.", fields=()).notes
    assert [(n.field, n.females.total) for n in notes] == [("santa ana", 14), ("la unión", 0)]

    assert _only("São Bento do Alto R1 8 pl 14 br 3 am", "pt", ()).field == "são bento do alto"


def test_how_many_places_names_none_of_them():
    """ "3 pontos de 4 plantas cada. entrada .., meio .., fundo ..": three places, each with its four plants."""
    note = _only("sanga funda. 3 pontos de 4 plantas cada. entrada 2 brancas, meio 15 brancas, fundo nada", "pt")

    assert [(s.name, s.plants, s.females.total) for s in note.spots] == [
        ("entrada", 4, 2),
        ("meio", 4, 15),
        ("fundo", 4, 0),
    ]
