"""What is said in passing and must not be taken for what was found: plans, other times, tools left at home, names."""

from __future__ import annotations

from datetime import date

import pytest

from notes_bot.language import read_note
from notes_bot.model import Females, Note, Reading

SENT = date(2026, 7, 20)
CREW = (
    *("Kestrel", "Old Mill East", "Cedar Slough", "Harrow Ridge 3", "Tinkers", "Dry Creek", "Las 80", "Lo de Ferrero"),
    *("La Tranquera", "Bajo Grande", "Baixada", "Santa Rita", "Sede Velha"),
)


def read(text: str, language: str = "en", fields: tuple[str, ...] = CREW, sent: date = SENT) -> Reading:
    """One message of the crew's."""
    return read_note(text, sent=sent, fields=fields, language=language, day_first=language != "en")  # type: ignore[arg-type]


def note(text: str, language: str = "en", **more: tuple[str, ...]) -> Note:
    """The one note of a message that asks nothing back."""
    reading = read(text, language, **more)

    assert not reading.problems, reading.problems
    (only,) = reading.notes
    return only


@pytest.mark.parametrize(
    ("text", "language"),
    [
        ("Kestrel R1, dry. 5 pulled, roots snapped, 0 seen. need to go back w/ shovel after a rain", "en"),
        ("kestrel I pulled 5 by hand since the shovel is at the shop, none", "en"),
        ("bajo grande arranqué 5 a mano, ninguna. la próxima traigo pala", "es"),
        ("baixada puxei 5 na mão, nada. preciso voltar com enxada", "pt"),
    ],
)
def test_a_tool_meant_for_another_day_or_left_elsewhere_was_not_used(text, language):
    """How the next plants will be dug says nothing of how these came up."""
    assert note(text, language).method == "pulled"


@pytest.mark.parametrize(
    ("text", "language"),
    [
        ("kestrel, last week had 12 white, today I dug 6 and only 4 white", "en"),
        ("bajo grande la semana pasada 12 blancas, hoy 6 matas 4 blancas con pala", "es"),
        ("baixada na semana passada 12 brancas, hoje 6 pés 4 brancas na pá", "pt"),
    ],
)
def test_what_was_counted_another_time_is_not_counted_again(text, language):
    """Last week's count stays in words; the count of today is the note's."""
    assert note(text, language).females == Females(4, 0, 0, 0, 4)


def test_only_another_time_s_count_is_asked_about():
    """Nothing else is told: which visit is meant?"""
    assert read("kestrel last week 12 white").problems


@pytest.mark.parametrize(
    ("text", "language"),
    [
        ("kestrel 6 dug, w 3, the farmer is planting peking next year", "en"),
        ("bajo grande 6 pl 3 bl, el año que viene va peking", "es"),
    ],
)
def test_another_season_s_seed_is_not_this_field_s(text, language):
    """What will be planted next year protects nobody now."""
    assert note(text, language).variety is None


@pytest.mark.parametrize(
    ("text", "language", "expected"),
    [
        ("Dry Creek: bandas amarillas en las hojas nuevas. No se examinaron raíces.", "es", "not_looked"),
        ("Hoy no fue posible cavar en Dry Creek, está anegado.", "es", "not_looked"),
        ("Baixada R2. As raízes não foram avaliadas.", "pt", "not_looked"),
        ("kestrel V6, no roots were examined today", "en", "not_looked"),
    ],
)
def test_looking_is_denied_in_many_ways(text, language, expected):
    """A denial, little words, and a verb of looking or digging: not looked."""
    assert note(text, language).outcome == expected


def test_a_denial_of_something_else_is_no_denial_of_looking():
    """ "No miré hembras amarillas" speaks of a color, not of the roots: it is asked about."""
    assert all(n.outcome != "not_looked" for n in read("dry creek R2, no miré hembras amarillas", "es").notes)


@pytest.mark.parametrize(
    ("text", "language", "day"),
    [
        ("kestrel aug 12 no wait aug 13, 6 dug 2 white", "en", date(2026, 8, 13)),
        (
            "la tranquera fue el doce de agosto no perdón el trece de agosto, 6 plantas 2 blancas",
            "es",
            date(2026, 8, 13),
        ),
        ("baixada doze de agosto quer dizer treze de agosto 6 pés 2 brancas", "pt", date(2026, 8, 13)),
    ],
)
def test_a_day_put_right_in_the_same_breath_counts(text, language, day):
    """The second day replaces the first, and the answer says so."""
    reading = read(text, language, sent=date(2026, 8, 14))

    assert [n.date for n in reading.notes] == [day]
    assert not reading.problems
    assert {remark.kind for remark in reading.remarks} & {"amended", "near_word"}


def test_a_weekday_with_its_number_is_one_day_and_must_agree():
    """The 14th was a Tuesday; "Monday 14" is asked about."""
    assert note("bajo grande, martes 14: R1, 6 plantas, 2 blancas", "es").date == date(2026, 7, 14)
    assert read("bajo grande, lunes 14: R1, 6 plantas, 2 blancas", "es").problems


def test_the_likelier_order_of_day_and_month_is_taken():
    """ "7/2" written on July 3 is yesterday and not a day of February; the answer says which was taken."""
    reading = read_note("kestrel 7/2 6 pl 2 blancas", sent=date(2026, 7, 3), fields=CREW, language="es")

    assert reading.notes[0].date == date(2026, 7, 2)
    assert "flipped_day" in {remark.kind for remark in reading.remarks}


def test_words_of_the_crew_s_names_are_no_misspelt_months():
    """ "Ferrero" is a field of the crew and not February."""
    only = note("ferrero 5 pl con pala: 4 6 0 2 9", "es")

    assert (only.field, only.date, only.plants) == ("ferrero", None, 5)


@pytest.mark.parametrize(
    ("text", "language", "field"),
    [
        ("hr3 6 shovel 0-2-1-0-3-0 white", "en", "hr3"),
        ("Las ochenta r1, 5 plantas: 3 blancas", "es", "las ochenta"),
        ("Creek Side 8/20 R6 dug 7. 3w. Bluestem 29, resistant", "en", "creek side"),
        ("Two fields done.\n\nTabor, Aug 13: R5, 6 plants, 2 white.", "en", "tabor"),
    ],
)
def test_the_field_s_name_is_found(text, language, field):
    """Initials, a spoken number, and what stands first and is written like a name."""
    fields = CREW if "side" not in field and field != "tabor" else ()

    assert read(text, language, fields, date(2026, 8, 21)).notes[0].field == field


def test_either_of_two_fields_is_asked_about():
    """ "Kestrel or Tinkers, I do not remember": nobody can say where that belongs."""
    assert read("kestrel or tinkers today, dug five, nine white").problems


def test_an_introduction_names_no_field():
    """ "Aquí Chuy." tells who writes."""
    assert note("Aquí Chuy. Bajo Grande hoy, 6 con pala, 2 blancas", "es").field == "bajo grande"


def test_metres_are_no_brown_females():
    """ "Manchón de 30 m": the letter belongs to the measure."""
    assert note("bajo grande manchón de 30 m, 5 plantas 41 bl", "es").females.brown == 0


@pytest.mark.parametrize(
    ("text", "language", "kinds"),
    [
        ("Por favor suspender los avisos de Dry Creek.", "es", ["mute"]),
        ("¿Qué lotes corresponde revisar esta semana?", "es", ["due"]),
        ("Quais áreas estão com visita vencida?", "pt", ["due"]),
        ("scratch that last note and then give me the history on kestrel", "en", ["take_back", "history"]),
        ("How is kestrel doing, and could you send me the picture of it too?", "en", ["state", "picture"]),
        ("ok start sendin reminders again. push kestrel back 3 days n skip tinkers", "en", ["resume", "move", "move"]),
        ("how many white did I have at kestrel last time", "en", ["history"]),
        ("can you tell me what i wrote about cedar slough last month", "en", ["history"]),
        ("quando volto na santa rita?", "pt", ["state"]),
        ("borra lo ultimo q te mande, me equivoque", "es", ["take_back"]),
        ("dry creek is 80 acres, sits next to kestrel", "en", ["field"]),
        ("that last one was old mill, not kestrel", "en", ["correct"]),
    ],
)
def test_requests_are_read_by_their_parts(text, language, kinds):
    """No phrase learnt by heart is needed, and several requests of one sentence are all of them read."""
    reading = read(text, language)

    assert [command.kind for command in reading.commands] == kinds
    assert not reading.notes
    assert not reading.problems


def test_plants_told_one_by_one_with_colors():
    """Ordinals with more than one color, and a list with its letter behind each number."""
    assert note("kestrel dug 4. first had 3 white 1 yel, second 0, third 2 yel, fourth none").per_plant == (4, 0, 2, 0)
    assert note("kestrel dug five 2w 1w 0 3w 1w").per_plant == (2, 1, 0, 3, 1)
    assert note("La Tranquera V5, plantas: 1 2 0 4, todas blancas", "es").per_plant == (1, 2, 0, 4)


def test_a_number_left_before_a_color_is_asked_about():
    """ "I think I saw twenty or thirty yellow": a count nobody can keep is never dropped in silence."""
    assert read(
        "sede velha ontem tirei cinco plantas com a pá acho que vi umas vinte ou trinta amarelas", "pt"
    ).problems


def test_words_cut_short_are_read_and_told():
    """ "Testem", "encharc": one meaning fits, and the answer names it."""
    reading = read("sede velha encharc, 6 pés na pá 4 brancas", "pt")

    assert reading.notes[0].soil.moisture == "wet"
    assert "near_word" in {remark.kind for remark in reading.remarks}


def test_places_beside_a_known_one_are_places():
    """ "Drain" is in no table, but it is counted as the places before it are."""
    only = note("kestrel R2, 3 stops, shovel. North end 5w 11y; middle 2w 6y; drain 9w 27y 1t")

    assert [spot.name for spot in only.spots] == ["north end", "middle", "drain"]
    assert only.females == Females(16, 44, 1, 0, 61)


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel today: the ground was really really dry and the shovel would barely go in, so only 3 plants. They had 7 white.",
        "Hi sorry if this is wrong, I'm at Kestrel, I dug up 3 plants and rinsed the roots and there were 7 white. I think it's V2.",
    ],
)
def test_an_apology_before_a_whole_note_corrects_nothing(text):
    """ "Was really" and "if this is wrong" put nothing right where a whole note is told."""
    reading = read(text)

    assert not reading.commands
    assert (reading.notes[0].plants, reading.notes[0].females.white) == (3, 7)


@pytest.mark.parametrize(
    ("text", "language", "females"),
    [
        ("Kestrel, 6 pls. dug, rts. soaked. Wh. 17, yel. 3. Soil moist, silt lm.", "en", Females(17, 3, 0, 0, 20)),
        ("bajo grande 6 pl. con pala, 12 bl. 3 am., suelo seco", "es", Females(12, 3, 0, 0, 15)),
    ],
)
def test_a_stop_behind_a_shortened_word_ends_no_sentence(text, language, females):
    """ "Wh. 17" is a color and its count; behind "all wh." the sentence does end."""
    assert note(text, language).females == females
    assert read("kestrel R2. 5 plts: 4 0 2 7 0, all wh. 1 snapped rt").notes[0].females.total == 13


def test_letters_with_stops_are_one_word():
    """ "71 p.p.m." tells potassium and no moisture, "a.m." neither color nor soil."""
    only = note("Kestrel yesterday a.m.: K test 71 p.p.m., 6 dug, none")

    assert (only.soil.k_ppm, only.soil.moisture) == (71, None)


def test_two_stages_far_apart_are_no_range():
    """ "I wrote R3 .. it should be R4" puts the stage right and averages nothing."""
    (command,) = read("For kestrel I wrote R3 last time but the boss says it should be R4.").commands

    assert (command.args["what"], command.args["value"]) == ("stage", "R4")


@pytest.mark.parametrize(
    ("text", "language"),
    [
        ("kestrel, I dug 5 on the hill and 5 in the bottom. Hill 3 white. Bottom 14 white.", "en"),
        ("baixada cinco plantas do baixo e cinco do alto com pá. no alto três brancas, no baixo 14 brancas", "pt"),
        ("Tinkers hill: 5 plants, 3 white. Tinkers bottom: 5 plants, 14 white.", "en"),
    ],
)
def test_plants_of_places_told_first_or_by_the_field_s_name(text, language):
    """Where the plants were dug is told in one sentence, what was on them in the next."""
    only = note(text, language)

    assert sorted((spot.plants, spot.females.white) for spot in only.spots) == [(5, 3), (5, 14)]
    assert only.plants == 10


def test_counts_before_their_places_are_not_taken_for_plants():
    """ "4 white at the gate, 9 at the pond": what cannot be told apart is asked about."""
    assert read(
        "Dug 3 spots in kestrel, 3 plants each, and found 4 white at the gate, 9 at the pond and none at the back"
    ).problems


def test_hectares_told_with_the_planting_day_are_kept():
    """In acres, as every field's size."""
    (command,) = read("baixada 35 hectares, plantada 10/5", "pt").commands

    assert command.args["acres"] == 86.5


def test_ditto_alone_copies_what_was_found_and_says_so():
    """A field with "ditto" and no more was as the one before."""
    reading = read("Kestrel R3, 5 plants dug, 1 white. Tinkers ditto.")

    assert reading.notes[1].females == Females(1, 0, 0, 0, 1)
    assert "same" in {remark.kind for remark in reading.remarks}


@pytest.mark.parametrize(
    "text", ["kestrel 6 dug, 3 white. havent washed em", "kestrel 6 dug, 3 white. hasn't been rinsed"]
)
def test_washing_denied_is_not_washed(text):
    """The word before denies it."""
    assert note(text).soaked is not True


def test_each_of_several_fields_in_three_languages():
    """So many plants in each field named before what was found in them."""
    reading = read(
        "hoy bajo grande y la tranquera, 6 matas cada uno con pala. bajo grande 9 blancas, la tranquera nada", "es"
    )

    assert [found.plants for found in reading.notes] == [6, 6]


def test_a_greeting_before_a_bare_day_still_moves_the_look():
    """ "Hey, friday" answers a reminder; thanks for yesterday move nothing."""
    assert [command.args["date"] for command in read("hey, friday").commands] == [date(2026, 7, 24)]
    assert read("thanks for yesterday") == Reading("en", (), (), (), ())


def test_a_question_mutes_nothing():
    """ "Is tinkers done for the year?" asks; without the mark it tells."""
    assert [command.kind for command in read("is tinkers done for the year?").commands] == ["state"]
    assert [command.kind for command in read("tinkers is done for the year").commands] == ["mute"]


def test_a_half_behind_a_ph_counts():
    """ "Cinco e meio" is 5.5."""
    assert note("o pH da baixada deu cinco e meio, 6 plantas na pá, nada", "pt").soil.ph == 5.5


LONG = ("Kestrel Bottom", "Old Mill East", "Harrow Ridge 3", "Larkspur South 80", "Miller East")


def test_the_first_word_of_one_field_s_name_stands_for_it():
    """Each figure goes to its own field, and a field asked about in short is no note."""
    reading = read("kestrel and harrow both clean, 5 dug each", fields=LONG)
    assert [(n.field, n.plants, n.outcome) for n in reading.notes] == [
        ("kestrel", 5, "none_seen"),
        ("harrow", 5, "none_seen"),
    ]
    (command,) = read("is kestrel done for the year?", fields=LONG).commands
    assert (command.kind, command.args["field"]) == ("state", "kestrel")
    (problem,) = read("kestrel or harrow, 6 dug 4 white", fields=LONG).problems
    assert problem.kind == "two_fields"


@pytest.mark.parametrize(
    ("text", "field"),
    [
        ("old mill east 6 dug 3 white - miller", "old mill east"),
        ("Old Mill East: 6 dug 3 white, worse than Kestrel last week", "old mill east"),
        ("kestrel: 6 dug 3 white, saw a kestrel on the post", "kestrel"),
        ("harrow 3 plants dug, 3 white", "harrow"),
        ("harrow 3: 5 dug 3 white", "harrow 3"),
        ("kestrel botom 5 dug 3 white", "kestrel botom"),
    ],
)
def test_a_short_name_is_taken_where_a_name_is_looked_for(text, field):
    reading = read(text, fields=LONG)
    (only,) = reading.notes
    assert only.field == field
    assert only.females is not None and only.females.white == 3


@pytest.mark.parametrize(
    ("text", "language"),
    [
        ("kestrel 5 dug, couldnt tell if specks were nodules or females, maybe 3", "en"),
        ("kestrel 5 dug, 3 white but could be nodules", "en"),
        ("kestrel 5 con pala, 3 blancas, no sé si eran hembras o nódulos", "es"),
        ("kestrel 5 com pá, 3 brancas, podem ser nódulos", "pt"),
    ],
)
def test_what_may_be_nodules_is_asked_about(text, language):
    """Nodules are what is easiest to take for females; the count is kept and the doubt asked about."""
    reading = read(text, language)
    assert [problem.kind for problem in reading.problems] == ["maybe_nodules"]
    assert reading.notes[0].plants == 5


def test_nodules_told_of_beside_a_count_raise_no_doubt():
    assert note("kestrel 5 dug, 3 white, plenty of nodules").females == Females(3, 0, 0, 0, total=3)
    assert note("kestrel 5 dug, 3 white, few or no nodules").females == Females(3, 0, 0, 0, total=3)


@pytest.mark.parametrize(
    ("text", "language", "counted"),
    [
        ("Kestrel white 7 yellow 2 out of 6 plants with shovel", "en", (7, 2)),
        ("kestrel white: 7, yellow: 2 of 6 plants", "en", (7, 2)),
        ("kestrel 9 white out of six plants", "en", (9, 0)),
        ("kestrel white 9 out of 6", "en", (9, 0)),
        ("kestrel blancas 7, amarillas 2 de 6 plantas", "es", (7, 2)),
        ("kestrel brancas 7, amarelas 2 de 6 plantas", "pt", (7, 2)),
    ],
)
def test_counts_out_of_so_many_plants(text, language, counted):
    """ "Out" is no place here, and the number behind a color counts females."""
    only = note(text, language)
    assert only.plants == 6
    assert (only.females.white, only.females.yellow) == counted
    assert not only.spots


@pytest.mark.parametrize(
    ("text", "language"),
    [
        ("kestrel 6 dug 3 white, brown spots on the leaves", "en"),
        ("kestrel 6 dug 3 white, leaf spots, SDS?", "en"),
        ("kestrel 6 con pala 3 blancas, manchas marrones en las hojas", "es"),
        ("kestrel 6 com pá 3 brancas, manchas pardas nas folhas", "pt"),
    ],
)
def test_spots_on_leaves_are_no_patch_and_no_brown_females(text, language):
    only = note(text, language)
    assert only.females == Females(3, 0, 0, 0, total=3)
    assert not only.tops
    assert not only.mostly
    assert not only.spots


@pytest.mark.parametrize(
    ("text", "language"),
    [
        ("The neighbor is running his sprayer today. Kestrel 5 plants none.", "en"),
        ("Kestrel 5 plants none. My daughter turns six on saturday.", "en"),
        ("Kestrel 5 plants none. My boots are full of mud.", "en"),
        ("Beans across the fence are yellow as can be.\nKestrel 5 plants none", "en"),
        ("Kestrel 5 plants none. I'll bring the samples by the office tomorrow.", "en"),
        ("El lunes es feriado. Kestrel 5 plantas nada.", "es"),
        ("El vecino está fumigando hoy. Kestrel 5 plantas nada.", "es"),
        ("Kestrel 5 plantas nada. Dicen que el viernes llueve.", "es"),
        ("O córrego está cheio. Kestrel 5 plantas nada.", "pt"),
        ("Kestrel 5 plantas nada. Minha filha faz seis anos no sábado.", "pt"),
    ],
)
def test_what_is_told_of_others_is_not_of_the_field(text, language):
    """Their days, their sprays, their mud: only words of the note."""
    got = note(text, language)

    assert (got.field, got.plants, got.females.total, got.outcome) == ("kestrel", 5, 0, "none_seen")
    assert (got.date, got.soil.moisture, got.mostly, got.spray, got.look_again) == (None, None, (), None, None)
    assert not got.too_many


@pytest.mark.parametrize(
    ("text", "language"),
    [
        ("Baixada 5 plantas nada. Alguien dejó la tranquera abierta.", "es"),
        ("Los del drenaje llegaron a las diez.\nBaixada 5 plantas nada", "es"),
        ("Can somebody order more flags. Baixada 5 plants none.", "en"),
    ],
)
def test_a_name_in_talk_beside_a_note_is_no_note(text, language):
    """Nothing is told of it."""
    assert (note(text, language).field, note(text, language).plants) == ("baixada", 5)


def test_whoever_dug_the_roots_were_dug():
    """ "Dad dug": the plants came up with a shovel all the same."""
    assert note("kestrel 5 plants none. Dad dug, I counted").method == "shovel"


@pytest.mark.parametrize(
    ("text", "language"),
    [
        ("Kestrel 5 plants none. I left the bucket at home.", "en"),
        ("Kestrel 5 plantas nada. Olvidé el balde en casa.", "es"),
        ("Kestrel 5 plantas nada. Deixei o balde em casa.", "pt"),
    ],
)
def test_a_bucket_left_at_home_washed_nothing(text, language):
    """Not washed, and so told."""
    assert note(text, language).soaked is False


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel R5. roots snapped, still saw cysts on whats left, no count",
        "Kestrel was visited 7/14 also. Stage V1. No digging was possible.",
        "Kestrel R4, 2 plants dug, 4 yellow. Potassium was 92 ppm so I'd call it a little of both.",
    ],
)
def test_a_note_that_sounds_like_a_request_asks_nothing(text):
    """ "What's left" of the roots, a field that was visited, an opinion."""
    assert not read(text).commands


@pytest.mark.parametrize(
    ("text", "language"),
    [
        ("Kestrel 5 plants none. The neighbor has 200 acres of wheat across from it.", "en"),
        ("El vecino tiene 200 hectáreas de trigo enfrente.\nKestrel 5 plantas nada", "es"),
        ("Kestrel 5 plants none. Corn is at V10 next door.", "en"),
        ("O milho do lado está em V10. Kestrel 5 plantas nada.", "pt"),
        ("Filled up 20 gallons at the co-op. Kestrel 5 plants none.", "en"),
    ],
)
def test_others_acres_stages_and_gallons_stay_words(text, language):
    """Neither a field's size nor the crop's stage nor plants."""
    got = note(text, language)

    assert (got.plants, got.females.total, got.stage) == (5, 0, None)
    assert not read(text, language).commands
