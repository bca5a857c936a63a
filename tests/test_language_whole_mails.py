"""What whole mails hold beside their counts: sums told again, talk of having gone nowhere, slips put right one by one."""

import pytest

from notes_bot.language import read_note
from notes_bot.model import LookAgain
from tests.reading_kit import SENT, note_of, reading_of

_TWO_PLACES = {
    "en": "Kestrel. By the road: 5 plants, 8 white. By the creek: 5 plants, ",
    "es": "La Tranquera: loma 5 plantas, 8 blancas; bajo 5 plantas, ",
    "pt": "Cancela: coxilha 5 plantas, 8 brancas; várzea 5 plantas, ",
}


@pytest.mark.parametrize(
    ("language", "said", "white", "yellow"),
    [
        ("en", "3 white. So 11 white overall.", 11, 0),
        ("en", "3 yellow. So 8 white and 3 yellow overall.", 8, 3),
        ("en", "none. So 8 white on ten plants.", 8, 0),
        ("en", "3 white, 2 yellow. In total that's 11 white and 2 yellow. Soil moist.", 11, 2),
        ("es", "3 blancas y 1 amarilla. Sumando los dos lugares, 11 blancas y 1 amarilla.", 11, 1),
        ("es", "3 amarillas. Entonces 8 blancas y 3 amarillas entre los dos.", 8, 3),
        ("pt", "3 brancas. No total foram 11 brancas, solo seco.", 11, 0),
        ("pt", "3 amarelas. Então 8 brancas e 3 amarelas ao todo.", 8, 3),
    ],
)
def test_what_all_places_had_told_once_more_is_no_more_of_the_last(language, said, white, yellow):
    note = note_of(_TWO_PLACES[language] + said)
    assert (note.plants, note.females.white, note.females.yellow) == (10, white, yellow)
    assert len(note.spots) == 2


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel. East side 3 plants had 9 females, west side 3 plants had 2. That makes 11 on 6 plants altogether.",
        "La Tranquera. En la loma 3 plantas tenían 9 hembras; en el bajo 3 plantas tenían 2. O sea 11 en 6 plantas.",
        "Cancela, R3. Na coxilha 3 plantas tinham 9 fêmeas; na várzea 3 plantas tinham 2. Ou seja, 11 no total em 6 plantas.",
    ],
)
def test_words_that_lead_to_a_sum_name_no_place(text):
    note = note_of(text)
    assert (note.plants, note.females.total, len(note.spots)) == (6, 11, 2)


@pytest.mark.parametrize("said", ["So 9 white and 3 yellow overall.", "So 8 white and 4 yellow overall."])
def test_a_sum_that_is_none_is_asked_about(said):
    reading = reading_of(f"{_TWO_PLACES['en']}3 yellow. {said}")
    assert [problem.kind for problem in reading.problems] == ["spots_mismatch"]
    assert reading.notes[0].females.total == 11


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel north end 5 plants: 3 white total; south end 5 plants: 3 white total",
        "Kestrel hill 4 pl 3 white, bottom 4 pl 2 white 1 yellow, 3 in total",
    ],
)
def test_the_total_of_the_last_place_stays_its_own(text):
    note = note_of(text)
    assert [spot.females.total for spot in note.spots] == [3, 3]


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        (
            "State of Kestrel please. I did not get out to any field since, the truck is in the shop until Friday.",
            "state",
        ),
        ("What's due? Today I haven't been anywhere because my kid has a ball game.", "due"),
        ("Esta semana no pude ir a ningún lote por la lluvia. ¿Qué visitas tengo pendientes?", "due"),
        ("Borren mi última nota. Hoy no salí al campo, la camioneta la tiene mi hermano hasta el jueves.", "take_back"),
        ("Esta semana não consegui ir em nenhum talhão por causa da chuva. Quais visitas estão pendentes?", "due"),
        ("Apaguem a minha última nota. Hoje não fui a campo nenhum, o trator ficou preso na ponte.", "take_back"),
    ],
)
def test_having_gone_nowhere_is_no_note(text, kind):
    reading = reading_of(text)
    assert (reading.notes, reading.problems, [c.kind for c in reading.commands]) == ((), (), [kind])


@pytest.mark.parametrize(
    "text", ["La Tranquera, no salí al campo, llovía", "La Tranquera. Hoy no salí al campo, llovía."]
)
def test_not_having_gone_to_a_field_named_is_still_noted(text):
    assert [(note.field, note.outcome) for note in reading_of(text).notes] == [("la tranquera", "not_looked")]


@pytest.mark.parametrize(
    ("text", "total"),
    [
        ("Kestrel 6 dug, 4 white. The guy across the road swears he has thousands, but I haven't seen it.", 4),
        ("Kestrel 6 dug, none. My wife thought she saw one white on the last plant, but it was a grain of sand.", 0),
        (
            "Kestrel 6 dug, none. My cousin was along and swore he saw white specks on the eleventh, which was a ragweed.",
            0,
        ),
        ("La Tranquera 6 plantas, 4 blancas. El vecino dice que lo suyo está lleno, pero yo no lo vi.", 4),
        ("La Tranquera 6 plantas, ninguna hembra. Mi hijo creyó ver una blanca pero era un grano de arena.", 0),
        ("Cancela 6 plantas, 4 brancas. O vizinho jura que na lavoura dele tem muito mais, mas isso eu não vi.", 4),
        ("Cancela 6 plantas, nenhuma fêmea. Meu filho achou que viu uma branca mas era um grão de areia.", 0),
    ],
)
def test_what_others_tell_and_i_did_not_see_is_no_finding(text, total):
    note = note_of(text)
    assert (note.plants, note.females.total, note.outcome) == (6, total, "seen" if total else "none_seen")
    assert note.mostly == ()


def test_what_somebody_thinks_to_have_seen_is_asked_about():
    assert reading_of("Kestrel 6 dug, none. My wife thinks she saw one white.").problems


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel, 6 dug, nothing on the roots, zero, though plenty of them had snapped off.",
        "Kestrel, 6 dug: none, nada, not one. V5.",
        "La Tranquera. 6 plantas con pala y no había nada en las raíces, cero, aunque muchas se cortaron.",
        "Cancela, 6 plantas com a pá, nenhuma fêmea, zero, solo seco",
    ],
)
def test_none_in_several_words_is_none(text):
    note = note_of(text)
    assert (note.plants, note.females.total, note.per_plant) == (6, 0, None)


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel 8 dug, 12 white and 3 yellow on the lot, nothing darker than that.",
        "Kestrel 8 dug, 12 white and 3 yellow, but nothing past yellow.",
        "Kestrel 8 dug, 12 white and 3 yellow. Nothing further along than that.",
        "La Tranquera 8 plantas, 12 blancas y 3 amarillas, ninguna pasada de amarilla.",
        "Cancela 8 plantas, 12 brancas e 3 amarelas, nenhuma mais escura que isso.",
        "Cancela 8 plantas, 12 brancas e 3 amarelas, nenhuma passou de amarela.",
    ],
)
def test_nothing_darker_than_what_was_counted_denies_no_count(text):
    note = note_of(text)
    assert (note.females.white, note.females.yellow, note.females.total, note.mostly) == (12, 3, 15, ())


@pytest.mark.parametrize(
    ("text", "field"),
    [
        (
            "Kestrel 6 dug, 4 white. On the way home I stopped at Dry Creek instead and pulled 5 plants: 7 white.",
            "dry creek",
        ),
        (
            "Kestrel 6 dug, 4 white. Since it was on the way, we also stopped by Dry Creek and dug 5: 7 white.",
            "dry creek",
        ),
        (
            "La Tranquera 6 plantas, 4 blancas. A la vuelta paré en Bajo Grande y arranqué 5 plantas: 7 blancas.",
            "bajo grande",
        ),
        ("Cancela 6 plantas, 4 brancas. Na volta parei na Baixada e arranquei 5 plantas: 7 brancas.", "baixada"),
    ],
)
def test_a_field_stopped_at_on_the_way_is_a_note_of_its_own(text, field):
    reading = reading_of(text)
    assert not reading.problems
    assert [(note.plants, note.females.white) for note in reading.notes] == [(6, 4), (5, 7)]
    assert reading.notes[1].field == field


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel 7 plants dug, 22 white. Then I figured I'd squeeze in Dry Creek as well, but no roots looked at there.",
        "Kestrel 7 plants dug, 22 white. I figured I'd do Dry Creek too, but it rained. I never looked there.",
    ],
)
def test_a_field_meant_to_be_done_and_not_looked_at(text):
    reading = reading_of(text)
    assert not reading.problems
    assert [(note.field, note.outcome) for note in reading.notes] == [("kestrel", "seen"), ("dry creek", "not_looked")]


@pytest.mark.parametrize(
    ("text", "field"),
    [
        ("Kestrel 6 dug, 4 white. Also, at Dry Creek, where I wrote 21 white, it was 12 white.", "dry creek"),
        ("Kestrel 6 dug, 4 white. On Dry Creek I put 21 white, it was 12.", "dry creek"),
        ("Kestrel 6 dug, 4 white. The whites at Dry Creek were 12, I had written 21.", "dry creek"),
        (
            "La Tranquera 6 plantas, 4 blancas. En Bajo Grande, donde escribí 21 blancas, eran 12 blancas.",
            "bajo grande",
        ),
        ("Cancela 6 plantas, 4 brancas. Na Baixada, onde escrevi 21 brancas, eram 12 brancas.", "baixada"),
    ],
)
def test_what_was_written_of_another_field_is_put_right_beside_a_note(text, field):
    reading = reading_of(text)
    (note,), (command,) = reading.notes, reading.commands
    assert (note.females.white, command.kind) == (4, "correct")
    assert command.args == {"field": field, "what": "white", "value": 12, "old": 21}


@pytest.mark.parametrize(
    ("text", "first", "second"),
    [
        ("Take back my last note on Kestrel. At Dry Creek I put 21 white, it was 12.", "kestrel", "dry creek"),
        (
            "Borren mi nota de La Tranquera. En Bajo Grande, donde puse 21 blancas, eran 12.",
            "la tranquera",
            "bajo grande",
        ),
        ("Apaguem minha nota da Cancela. Na Baixada, onde escrevi 21 brancas, eram 12 brancas.", "cancela", "baixada"),
    ],
)
def test_one_note_taken_back_and_another_put_right(text, first, second):
    undone, right = reading_of(text).commands
    assert (undone.kind, undone.args["field"]) == ("take_back", first)
    assert right.args == {"field": second, "what": "white", "value": 12, "old": 21}


_DRY = {"what": "moisture", "value": "dry", "old": "moist"}
_WHITE = {"what": "white", "value": 18, "old": 8}


@pytest.mark.parametrize(
    ("text", "field"),
    [
        (
            "In my note on Kestrel there are two slips. The soil was dry, not moist. And the whites were 18, I'd put 8.",
            "kestrel",
        ),
        (
            "I reread what I wrote about the visit to Kestrel and there are two slips in it. At Kestrel the soil was "
            "dry, not moist. And the whites at Kestrel were 18, not 8. Everything else stays.",
            "kestrel",
        ),
        (
            "En mi nota de La Tranquera me equivoqué en dos cosas. El suelo estaba seco, no húmedo. Y las blancas eran "
            "18, yo puse 8. El resto queda igual.",
            "la tranquera",
        ),
        (
            "Corrijo minha nota da Cancela. O solo estava seco, não úmido. E as brancas eram 18, eu coloquei 8.",
            "cancela",
        ),
    ],
)
def test_slips_told_one_by_one_below_what_note_they_are_of(text, field):
    reading = reading_of(text)
    assert (reading.notes, reading.problems) == ((), ())
    assert [command.args for command in reading.commands] == [{"field": field, **_DRY}, {"field": field, **_WHITE}]


def test_the_day_of_the_note_is_that_of_all_its_slips():
    text = (
        "I'd like to correct two things in my note on Kestrel from Monday. The stage was R2, not R3. And the yellows "
        "were 7, I had written 17. All the rest is fine."
    )
    made = reading_of(text).commands
    assert [(c.args["field"], c.args["what"], str(c.args["date"])) for c in made] == [
        ("kestrel", "stage", "2026-07-06"),
        ("kestrel", "yellow", "2026-07-06"),
    ]


@pytest.mark.parametrize(
    "text",
    [
        "The number of white ones is right as it stands. Fix Kestrel: 8 plants, not 6.",
        "Fix Kestrel: 8 plants, not 6. The yellow ones stay as they are.",
        "Corrijo Kestrel: 8 plantas, no 6. Las blancas quedan como están.",
        "Corrijo Kestrel: 8 plantas, não 6. As brancas ficam como estão.",
    ],
)
def test_what_stays_as_it_is_is_no_note(text):
    reading = reading_of(text)
    assert (reading.notes, reading.problems) == ((), ())
    (command,) = reading.commands
    assert command.args == {"field": "kestrel", "what": "plants", "value": 8, "old": 6}


@pytest.mark.parametrize(
    "text",
    [
        "I have no numbers to report today. Please show me the history of Kestrel.",
        "Dear all, I have nothing from the fields this week, only requests. I would like to see the history of Kestrel.",
    ],
)
def test_what_one_sentence_asks_is_read_by_itself(text):
    reading = reading_of(text)
    assert (reading.notes, reading.problems) == ((), ())
    assert [(c.kind, c.args) for c in reading.commands] == [("history", {"field": "kestrel"})]


def test_its_history_is_of_the_field_asked_of_last():
    text = "Kestrel 6 dug, 4 white. What have we got noted over the years for Dry Creek? I'd like to see its history."
    assert [(c.kind, c.args["field"]) for c in reading_of(text).commands] == [("history", "dry creek")]


@pytest.mark.parametrize(
    ("text", "name"),
    [
        (
            "Kestrel 6 dug, 3 white. Also, please add a field called Mill Race, near Dry Creek, planted May 9.",
            "mill race",
        ),
        (
            "Kestrel 6 dug, 3 white. One more thing: we have a new field, Mill Race, near Dry Creek, planted May 9.",
            "mill race",
        ),
        (
            "Kestrel 6 plantas, 3 blancas. Agreguen también un lote nuevo llamado Lomita, que se sembró el 5/11.",
            "lomita",
        ),
        (
            "Kestrel 6 plantas, 3 brancas. Cadastrem também uma área nova chamada Lagoa Funda, plantada em 5/5.",
            "lagoa funda",
        ),
    ],
)
def test_a_new_field_told_of_behind_a_note_is_no_datum_of_it(text, name):
    reading = reading_of(text)
    (note,), (command,) = reading.notes, reading.commands
    assert (note.females.white, note.planted, command.kind, command.args["name"]) == (3, None, "field", name)
    assert command.args["planted"] is not None


def test_a_new_field_none_has_dug_in_is_not_noted():
    text = (
        "Got a new one for the list: please add a field called Mill Race, it's near Kestrel, 62 acres. He says there were "
        "cysts in it three years ago, but that's his word and nobody from our crew has dug there yet. For the ones we "
        "already have, skip Dry Creek this time around."
    )
    reading = reading_of(text)
    assert (reading.notes, reading.problems) == ((), ())
    assert [(c.kind, c.args.get("name") or c.args.get("field")) for c in reading.commands] == [
        ("field", "mill race"),
        ("move", "dry creek"),
    ]


def test_new_for_me_names_no_field():
    reading = reading_of("Kestrel 6 dug, 3 white. It is a new field for me.")
    assert (len(reading.notes), reading.commands) == (1, ())


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel 6 dug, 4 white. I'd spilled my water jug right where I was digging.",
        "Kestrel 6 dug, 4 white. The kid kicked over the bucket.",
        "La Tranquera 6 plantas, 4 blancas. El camino estaba cortado por el agua.",
        "Cancela 6 plantas, 4 brancas. A água cobriu a estrada.",
    ],
)
def test_water_of_the_story_washed_no_roots(text):
    assert note_of(text).soaked is None


@pytest.mark.parametrize(
    "text",
    [
        "La Tranquera 6 plantas, raíces en agua, 4 blancas",
        "Cancela 6 plantas com água, 4 brancas",
        "Kestrel 6 dug, bucket, 4 white",
    ],
)
def test_water_beside_plants_did(text):
    assert note_of(text).soaked is True


def test_a_field_named_after_a_thing_is_not_the_thing():
    fields = ("Cachoeira", "Mangueira")
    text = (
        "Na Cachoeira puxei 5 plantas com a mão e não achei nenhuma fêmea. Na Mangueira cavei 5 plantas e contei 8 "
        "brancas. Meu colega disse que no ano passado a Mangueira estava pior."
    )
    first, second = read_note(text, sent=SENT, fields=fields).notes
    assert (first.field, first.outcome, first.soaked) == ("cachoeira", "none_seen", None)
    assert (second.field, second.females.white, second.soaked) == ("mangueira", 8, None)


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel could not be visited. The bridge is closed until the 15th and the detour takes an hour.",
        "La Tranquera no se pudo visitar. El puente está cerrado hasta el 15 y el desvío lleva una hora.",
        "A Cancela não pôde ser visitada. A ponte está fechada até o dia 15 e o desvio leva uma hora.",
    ],
)
def test_until_when_a_road_is_closed_is_no_day_of_a_visit(text):
    note = note_of(text)
    assert (note.outcome, note.date, note.look_again) == ("not_looked", None, None)


@pytest.mark.parametrize(
    "text",
    [
        "I could not get to Kestrel. The neighbor sent me a picture of his roots, with dozens of white ones on them.",
        "La Tranquera no se pudo visitar. El vecino me mandó una foto de sus raíces, con muchas blancas.",
    ],
)
def test_a_picture_of_other_roots_is_no_finding(text):
    note = note_of(text)
    assert (note.outcome, note.mostly, note.too_many, note.variety) == ("not_looked", (), False, None)


def test_what_stands_beside_the_neighbors_beans_is_counted():
    note = note_of("Kestrel 6 dug, 4 white, next to the neighbor's beans, with 2 yellow on the last plant.")
    assert (note.females.white, note.females.yellow) == (4, 2)


@pytest.mark.parametrize(
    ("text", "resistance"),
    [
        ("La Tranquera 6 plantas, 4 blancas. Sus hijos me ayudaron.", None),
        ("La Tranquera 6 plantas, 4 blancas. Mandó una foto de sus raíces.", None),
        ("La Tranquera sus, 6 plantas, 4 blancas.", "susceptible"),
        ("La Tranquera var sus 6 plantas, 4 blancas.", "susceptible"),
    ],
)
def test_whose_it_is_and_short_for_susceptible(text, resistance):
    note = note_of(text)
    assert (note.variety.resistance if note.variety else None) == resistance


def test_in_how_many_days_if_the_weather_lets_us():
    text = "La Tranquera 8 plantas, 11 blancas. Quisiera volver a La Tranquera en 10 días, si el tiempo nos deja."
    (note,) = reading_of(text).notes
    assert note.look_again == LookAgain(10)


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel five plants with the shovel, 6 white. The man from the co-op told me that he counted 40 on a single plant.",
        "La Tranquera 5 plantas con pala, 6 blancas. El ingeniero me dijo por teléfono que encontró 40 en una sola planta.",
        "Cancela 5 plantas com pá, 6 brancas. O homem da cooperativa me disse que contou 40 numa planta só.",
    ],
)
def test_what_somebody_says_he_counted_is_not_counted_here(text):
    note = note_of(text)
    assert (note.plants, note.females.white, note.females.total) == (5, 6, 6)


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel five plants dug. My helper says he counted 6 white.",
        "Kestrel five plants dug, my helper told me he found 6 white on them.",
    ],
)
def test_unless_nobody_else_did(text):
    assert note_of(text).females.white == 6


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("Kestrel 10 plants none. Please skip it next time.", "move"),
        ("Kestrel 10 plants none. Can we skip it for the rest of the season?", "move"),
        ("Kestrel 10 plants none. Please mute it.", "mute"),
    ],
)
def test_it_is_the_field_before(text, kind):
    reading = reading_of(text)
    assert reading.notes[0].outcome == "none_seen"
    assert [(c.kind, c.args["field"]) for c in reading.commands] == [(kind, "kestrel")]


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel got an inch of rain last night. 6 plants dug, 4 white.",
        "It was 97 degrees today so I only did Kestrel. 6 plants dug, 4 white.",
    ],
)
def test_the_field_of_the_weather_is_that_of_the_note_behind_it(text):
    reading = reading_of(text)
    assert [(note.field, note.plants, note.females.white) for note in reading.notes] == [("kestrel", 6, 4)]
    assert [c.kind for c in reading.commands] == ["weather"]


def test_nor_are_days_of_an_illness_those_of_a_visit():
    note = note_of("I was sick Monday and Tuesday. On Wednesday I went to Kestrel, dug 10 plants and found 3 white.")
    assert (note.field, note.date.isoformat(), note.plants, note.females.white) == ("kestrel", "2026-07-08", 10, 3)


def test_driving_up_to_a_field_pulls_no_plants():
    assert note_of("I pulled into Kestrel at noon. 8 plants dug, 4 white.").method == "shovel"


def test_will_is_no_short_name():
    reading = read_note(
        "Two Ponds 6 dug none. That will wait until Saturday", sent=SENT, fields=("Windmill Forty", "Two Ponds")
    )
    assert [c.args.get("field") for c in reading.commands] in ([], ["two ponds"])


def test_what_plants_told_singly_had_together_is_no_further_plant():
    note = note_of("Kestrel 3 dug. First plant 2 white, second 3 white, third none. That is 5 white altogether.")
    assert (note.per_plant, note.females.white) == ((2, 3, 0), 5)


def test_figures_below_a_trial_are_read_with_it():
    text = "trial numbers from Kestrel, by shovel, moist loam. found + missed for each plant: 3+1, 0+2, 5+0"
    (command,) = reading_of(text).commands
    assert (command.kind, command.args["plants"]) == ("trial", [[3, 1], [0, 2], [5, 0]])


@pytest.mark.parametrize(
    "text", ["La Tranquera 6 plantas, 4 blancas y ningún otro color.", "Kestrel 6 dug, 4 white, no other colors."]
)
def test_no_other_color_denies_no_count(text):
    assert note_of(text).females.white == 4
