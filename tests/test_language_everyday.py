"""What scouts write on an ordinary day, in whole sentences: each thing they say is read as they meant it."""

from __future__ import annotations

from datetime import date

import pytest

from notes_bot.language import read_note
from notes_bot.model import Reading

SENT = date(2026, 7, 8)
"""A Wednesday."""
CREW = ("Kestrel", "Tinkers", "Cedar Slough", "La Tranquera", "Baixada")


def read(text: str, language: str = "en") -> Reading:
    """One message of the crew's."""
    return read_note(text, sent=SENT, fields=CREW, language=language, day_first=language != "en")  # type: ignore[arg-type]


def quiet(text: str, language: str = "en") -> Reading:
    """A message that raises no question."""
    reading = read(text, language)
    assert not reading.problems, [problem.kind for problem in reading.problems]
    return reading


@pytest.mark.parametrize(
    ("language", "said", "day"),
    [
        ("en", "recheck end of next week", date(2026, 7, 17)),
        ("en", "end of next week recheck", date(2026, 7, 17)),
        ("en", "back by the end of the week", date(2026, 7, 10)),
        ("en", "look again early next week", date(2026, 7, 13)),
        ("en", "will look again midweek", date(2026, 7, 15)),
        ("en", "come back over the weekend", date(2026, 7, 11)),
        ("en", "look again around the 20th", date(2026, 7, 20)),
        ("es", "vuelvo a principios de la semana que viene", date(2026, 7, 13)),
        ("es", "vuelvo el fin de semana", date(2026, 7, 11)),
        ("pt", "volto no fim da semana", date(2026, 7, 10)),
        ("pt", "volto no começo da semana que vem", date(2026, 7, 13)),
    ],
)
def test_a_part_of_a_week_is_a_day_to_look_again(language, said, day):
    """The end of a week is its Friday, the beginning its Monday; a part that is over is the next week's."""
    field = {"en": "kestrel 6 plants", "es": "la tranquera 6 plantas", "pt": "baixada 6 pés"}[language]
    (note,) = quiet(f"{field} 0. {said}", language).notes

    assert note.look_again is not None and note.look_again.date == day


@pytest.mark.parametrize(
    ("language", "said", "days"),
    [
        ("en", "will look again in a couple of weeks", 14),
        ("en", "back in about 10 days", 10),
        ("en", "back sometime next week", 7),
        ("es", "vuelvo en un par de semanas", 14),
        ("es", "vuelvo en unos 10 días", 10),
        ("pt", "volto daqui uns 10 dias", 10),
    ],
)
def test_a_span_told_loosely_is_a_span(language, said, days):
    """A couple is two; "about" and "sometime" change nothing."""
    field = {"en": "kestrel 6 plants", "es": "la tranquera 6 plantas", "pt": "baixada 6 pés"}[language]
    (note,) = quiet(f"{field} 0. {said}", language).notes

    assert note.look_again is not None and note.look_again.days == days


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "kestrel 6 plants 0. will look again in a few days"),
        ("en", "kestrel 6 plants 0. recheck mid july"),
        ("en", "kestrel 6 plants 0. recheck at R3"),
        ("en", "kestrel 6 plants 0, check again first week of august"),
        ("es", "la tranquera 6 plantas 0. vuelvo en unos días"),
        ("pt", "baixada 6 pés 0. volto quando estiver em R3"),
    ],
)
def test_a_look_whose_day_cannot_be_told_is_asked_about(language, text):
    """The wish is not lost, the note is kept, and a stage to wait for is no stage of today."""
    reading = read(text, language)

    assert [problem.kind for problem in reading.problems] == ["which_look"]
    assert reading.notes[0].plants == 6 and reading.notes[0].stage is None


@pytest.mark.parametrize(
    ("language", "text", "moisture"),
    [
        ("en", "kestrel cool wet week, 6 plants 0", None),
        ("en", "kestrel after a dry spell 6 plants 0", None),
        ("es", "la tranquera semana seca, 6 plantas 0", None),
        ("pt", "baixada tempo seco, 6 pés 0", None),
        ("en", "kestrel soil was dry and crumbly 6 plants 0", "dry"),
        ("en", "kestrel crumbly soil 6 plants 0", "moist"),
    ],
)
def test_the_weather_of_a_week_is_no_moisture_of_the_soil(language, text, moisture):
    """What is said of the soil counts; crumbly says less than dry."""
    (note,) = quiet(text, language).notes

    assert note.soil.moisture == moisture


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "kestrel six plants nothing but nodules"),
        ("en", "kestrel 5 plants i dug and there wasnt a single female"),
        ("es", "la tranquera 6 plantas, nada más que nódulos"),
        ("pt", "baixada 6 pés, nada além de nódulos"),
    ],
)
def test_nothing_but_nodules_is_none_seen(language, text):
    """Nodules are no females, and who saw nothing else saw none."""
    (note,) = quiet(text, language).notes

    assert note.outcome == "none_seen"


@pytest.mark.parametrize(
    ("said", "method"),
    [
        ("got five plants up by pulling, 6 white", "pulled"),
        ("worked 5 plants loose gently with my hands, 6 white", "eased"),
        ("5 plants, by digging, 6 white", "shovel"),
    ],
)
def test_how_plants_came_up_is_read_from_sentences(said, method):
    """What a look is worth rests on it."""
    (note,) = quiet(f"kestrel {said}").notes

    assert (note.plants, note.method) == (5, method)


@pytest.mark.parametrize(
    ("language", "text", "days", "day"),
    [
        ("en", "kestrel glyphosate was 9 days ago. Dug 4 none", 9, None),
        ("en", "kestrel sprayed glyphosate, that was 9 days ago. Dug 4 none", 9, None),
        ("en", "kestrel it was sprayed with glyphosate 9 days ago. Dug 4 none", 9, None),
        ("es", "la tranquera con glifosato, eso fue el lunes. 4 plantas 0", None, date(2026, 7, 6)),
        ("pt", "baixada glifosato, foi na segunda. 4 pés 0", None, date(2026, 7, 6)),
    ],
)
def test_when_it_was_sprayed_is_no_day_of_the_visit_and_no_correction(language, text, days, day):
    """ "It was" begins a story here."""
    (note,) = quiet(text, language).notes

    assert note.spray is not None
    assert (note.spray.what, note.spray.days_ago, note.spray.date) == ("glyphosate", days, day)
    assert (note.date, note.plants) == (None, 4)


def test_too_many_of_a_color_are_of_that_color_on_the_plants_behind_them():
    """ "Too many white ones to count on 4 plants": mostly white, and the 4 count plants."""
    (note,) = quiet("kestrel too many white ones to count on 4 plants! dug").notes

    assert (note.plants, note.too_many, note.mostly) == (4, True, ("white",))


@pytest.mark.parametrize(
    ("text", "per_plant"),
    [
        (
            "dug five plants in kestrel: three on the first, none on the second, four on the third and none on the others",
            (3, 0, 4, 0, 0),
        ),
        ("dug five plants in kestrel: three white on the first, one on the third, others clean", (3, 0, 1, 0, 0)),
        ("kestrel 5 plants, 3 white on the first, none on the second, 1 on the third, rest clean", (3, 0, 1, 0, 0)),
        ("kestrel 4 plants: one had 12, the rest 0. all white", (12, 0, 0, 0)),
        ("kestrel: plant 1 had 4, plant 2 had 0, plant 3 had 9, 4 had 1 and 5 had 5", (4, 0, 9, 1, 5)),
    ],
)
def test_what_the_others_had_is_told_once(text, per_plant):
    """The plants left over stand for themselves."""
    (note,) = quiet(text).notes

    assert note.per_plant == per_plant and note.plants == len(per_plant)


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "kestrel: 6 plants, 2 with white, 4 without any"),
        ("es", "la tranquera 6 plantas, 2 con blancas, 4 sin nada"),
        ("pt", "baixada 6 pés, 2 com branca, 4 sem"),
    ],
)
def test_plants_without_any_are_no_females(language, text):
    """ "4 without" counts plants; "4 sem" is four weeks elsewhere."""
    (note,) = quiet(text, language).notes

    assert (note.plants, note.females.total, note.mostly, note.look_again) == (6, None, ("white",), None)


@pytest.mark.parametrize(
    "text",
    [
        "kestrel dug 6 around the edge of the yellow spot, 14 white",
        "kestrel yellow at the edge of the field. 6 plants 14 white",
    ],
)
def test_the_edge_of_a_spot_is_no_edge_of_a_leaf(text):
    """Yellow leaf edges tell of potassium; the edge of the ground does not."""
    (note,) = quiet(text).notes

    assert "edges_old" not in note.tops and (note.plants, note.females.white) == (6, 14)


@pytest.mark.parametrize(
    "text",
    [
        "kestrel 3 plants in the bad spot had 6 white ones total, 3 plants in the good spot had 1 white",
        "kestrel 6 white on 3 plants in the bad spot and 1 white on 3 plants in the good spot",
    ],
)
def test_in_before_the_name_of_a_place_is_no_place(text):
    """The place is the bad spot, not "in"."""
    (note,) = quiet(text).notes

    assert [(spot.name, spot.plants, spot.females.white) for spot in note.spots] == [
        ("bad spot", 3, 6),
        ("good spot", 3, 1),
    ]


def test_plants_in_a_ring_tell_of_a_ring():
    """A shape told of by the way is kept."""
    (note,) = quiet("kestrel: dug 8, 0. The plants in the ring are wilted").notes

    assert note.tops == ("ring", "wilted")


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "which fields haven't been checked"),
        ("en", "what fields am i supposed to get to this week"),
        ("es", "qué lotes no miramos todavía"),
        ("pt", "que talhão ainda não olhei"),
    ],
)
def test_what_was_not_looked_at_yet_is_due(language, text):
    """Asked without a question mark."""
    reading = quiet(text, language)

    assert [command.kind for command in reading.commands] == ["due"] and not reading.notes


@pytest.mark.parametrize(
    "text",
    [
        "kestrel. Dug 4 at the creek end (2 white) and 4 at the barn end (5 white)",
        "kestrel. Creek end 4 plants 2 white. Barn end 4 plants 5 white",
        "kestrel: 4 plants at the creek end (2 white), 4 plants at the barn end (5 white)",
    ],
)
def test_an_end_is_named_by_the_word_before_it(text):
    """ "Creek end" is in no table; "end" tells that it is a place, and no creek is one alone."""
    (note,) = quiet(text).notes

    assert [(spot.name, spot.plants, spot.females.white) for spot in note.spots] == [
        ("creek end", 4, 2),
        ("barn end", 4, 5),
    ]


def test_places_only_named_before_their_counts_are_told_once():
    """ "Gate and knoll, 4 plants each": what is said of both; the counts come behind."""
    (note,) = quiet("kestrel, gate and knoll, 4 plants each. Gate 10 white 7 yellow, knoll 1 yellow").notes

    assert [(spot.name, spot.plants, spot.females.total) for spot in note.spots] == [("gate", 4, 17), ("knoll", 4, 1)]


@pytest.mark.parametrize(
    "text",
    [
        "new site Quarry Corner, 35 acres, near Kestrel, planted 5/12",
        "Adding a cooperator site: Quarry Corner, 35 acres, near Kestrel, planted 5/12.",
    ],
)
def test_a_new_field_near_another_leaves_the_other_alone(text):
    """Its planting day must not go to the field it lies beside."""
    (command,) = quiet(text).commands

    assert (command.kind, command.args["name"], command.args["near"]) == ("field", "quarry corner", "kestrel")


@pytest.mark.parametrize(
    ("said", "name", "source"),
    [
        ("variety traces to PI 437654", None, "PI 437654"),
        ("variety unknown", None, None),
        ("variety is AG27", "ag27", None),
    ],
)
def test_a_verb_behind_variety_is_no_name(said, name, source):
    """What follows the word is its name only where it can be one."""
    (note,) = quiet(f"kestrel 6 plants none. {said}").notes

    seed = note.variety
    assert (seed and seed.name and seed.name.lower(), seed and seed.source) == (name, source)


def test_what_a_variety_is_supposed_to_be_corrects_nothing():
    """The note before it stays a note."""
    reading = quiet("kestrel 6 plants none. variety supposed to be resistant")
    (note,) = reading.notes

    assert (note.plants, note.outcome, note.variety and note.variety.resistance) == (6, "none_seen", "resistant")


@pytest.mark.parametrize(
    "text",
    [
        "kestrel: yellow, stunted patch by the tile. In: 3 plants, 48 white. Out: 3 plants, 4 white",
        "kestrel yellow and stunted on the hill. In: 3 plants, 48 white. Out: 3 plants, 4 white",
    ],
)
def test_yellow_before_anything_was_counted_is_said_of_the_plants(text):
    """The tops, and no females."""
    (note,) = quiet(text).notes

    assert {"yellow", "stunted"} <= set(note.tops) and note.mostly == ()


@pytest.mark.parametrize(
    ("text", "planted"),
    [
        ("kestrel went in on May 6", date(2026, 5, 6)),
        ("For the record, Kestrel went in on May 6 and carries PI 88788 resistance.", date(2026, 5, 6)),
        ("went in on july 6 at kestrel, 5 plants none", None),
    ],
)
def test_a_field_went_in_when_it_was_planted_a_scout_went_in_to_look(text, planted):
    """Who went in tells which."""
    reading = quiet(text)

    told = [command.args["planted"] for command in reading.commands] or [note.planted for note in reading.notes]
    assert told == [planted]


def test_please_fix_behind_a_correction_adds_nothing():
    """No question about what to change."""
    (command,) = quiet("kestrel: i put the soil down as dry, but my sheet says moist. please fix").commands

    assert (command.args["what"], command.args["value"], command.args["old"]) == ("moisture", "moist", "dry")


def test_what_is_added_to_a_field_is_a_note_and_no_new_field():
    """ "Add to kestrel: roots dark"."""
    reading = quiet("add to kestrel: roots dark")

    assert not reading.commands and reading.notes[0].roots == ("dark",)


def test_plants_told_by_order_without_stops_keep_their_colors():
    """As a phone writes what is spoken."""
    (note,) = quiet(
        "kestrel five plants dug so first one two white second zero third four white fourth one white fifth zero"
    ).notes

    assert (note.plants, note.per_plant, note.females.white) == (5, (2, 0, 4, 1, 0), 7)


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "kestrel same story as yesterday, 0 on 6"),
        ("en", "kestrel better than monday, 6 plants 0"),
        ("es", "la tranquera igual que ayer, 6 plantas 0"),
        ("es", "la tranquera peor que el lunes, 6 plantas 0"),
        ("pt", "baixada pior que ontem, 6 pés 0"),
    ],
)
def test_a_day_it_is_likened_to_is_no_day_of_the_visit(language, text):
    """ "Than yesterday" says nothing of when."""
    (note,) = quiet(text, language).notes

    assert (note.date, note.plants, note.outcome) == (None, 6, "none_seen")


@pytest.mark.parametrize(
    ("text", "plants", "per_plant", "total"),
    [
        ("kestrel (6): 2,5,0,0,1,3", 6, (2, 5, 0, 0, 1, 3), 11),
        ("kestrel plants 1 thru 6: 2 5 0 0 1 3", 6, (2, 5, 0, 0, 1, 3), 11),
        ("kestrel W12 Y3 T0 B0 P6", 6, None, 15),
        ("kestrel pl5 12w 3y v6", 5, None, 15),
        ("kestrel 2 white x 6 plants", 6, None, 12),
        ("kestrel 6 plants x 2 white", 6, None, 12),
        ("kestrel dug 5 and soaked em. Found 11 white on the five", 5, None, 11),
        ("kestrel 3 plants. root 1: 3 white. root 2: none. root 3: 1 white", 3, (3, 0, 1), 4),
    ],
)
def test_plants_told_in_many_short_ways(text, plants, per_plant, total):
    """In brackets behind the name, as a label, times the count, by their roots."""
    (note,) = quiet(text).notes

    assert (note.plants, note.per_plant, note.females.total) == (plants, per_plant, total)


def test_a_number_with_a_point_is_no_part_of_a_known_name():
    """ "Kestrel 7.7" may be a day; it is asked about."""
    reading = read("kestrel 7.7 v6 dry shov 6p 0")

    assert reading.notes[0].field == "kestrel" and [p.kind for p in reading.problems] == ["not_whole"]


@pytest.mark.parametrize("text", ["kestrel 5 plants 8 lemon shaped cysts", "kestrel 5 plants, 8 pear shaped females"])
def test_the_shape_of_a_cyst_is_no_color(text):
    """A lemon is yellow elsewhere."""
    (note,) = quiet(text).notes

    assert (note.plants, note.females.total, note.females.yellow) == (5, 8, None)


@pytest.mark.parametrize(
    ("language", "text", "kind", "when"),
    [
        ("en", "put kestrel on my list for the 15th", "move", date(2026, 7, 15)),
        ("en", "add kestrel to my list for friday", "move", date(2026, 7, 10)),
        ("en", "don't let me forget kestrel on monday", "move", date(2026, 7, 13)),
        ("en", "plan on kestrel monday", "move", date(2026, 7, 13)),
        ("es", "poneme kestrel para el lunes", "move", date(2026, 7, 13)),
        ("pt", "bota kestrel pra segunda", "move", date(2026, 7, 13)),
        ("en", "can you put kestrel on for next week", "move", 7),
        ("en", "take kestrel off my list", "mute", None),
        ("en", "i don't scout kestrel anymore", "mute", None),
    ],
)
def test_a_field_is_put_on_a_list_and_taken_off_it(language, text, kind, when):
    """The reminder moves, or no more come; it is no question of how the field stands."""
    (command,) = quiet(text, language).commands

    told = command.args.get("date") or command.args.get("days")
    assert (command.kind, command.args["field"], told) == (kind, "kestrel", when)


def test_taken_back_and_told_of_another_field_only_the_field_changes():
    """The counts stay."""
    (command,) = quiet("take that last one back, it was tinkers not kestrel").commands

    assert (command.kind, command.args["what"]) == ("correct", "field")
    assert (command.args["value"], command.args["old"]) == ("tinkers", "kestrel")


@pytest.mark.parametrize("said", ["two little white ones", "2 tiny white females", "two nice white ones"])
def test_the_size_of_females_takes_none_away(said):
    """A word between the number and its color."""
    (note,) = quiet(f"kestrel dug six, found {said}").notes

    assert (note.plants, note.females.white) == (6, 2)


def test_one_or_two_seen_is_asked_about():
    """Which of them, and not left to the text."""
    assert [p.kind for p in read("kestrel dug six, only saw one or two").problems] == ["which_of_range"]


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("Clay Hill 5 plants 3 white", "clay hill"),
        ("Slough Side at R7. 5 plants with the spade, 3 white", "slough side"),
        ("Two Mile corner V3 5 plants 3 white", "two mile corner"),
        ("Plot 14 5 plants 3 white", "plot 14"),
        ("Gate field 5 plants 3 white", "gate"),
        ("Brown's 40 5 plants 3 white", "brown's 40"),
        ("turkey foot corner v5 5 plants 3 white", "turkey foot corner"),
    ],
)
def test_words_in_capitals_at_the_head_name_a_field_no_list_has(text, name):
    """Also where a word means something else elsewhere."""
    (note,) = read_note(text, sent=SENT, language="en").notes

    assert (note.field, note.plants, note.females.white) == (name, 5, 3)


@pytest.mark.parametrize(
    ("language", "text", "fields", "name"),
    [
        ("en", "6 plants 2 white at Ditch", ("Ditch Road", "Lone Tree"), "ditch"),
        ("en", "Sandy V5 6 plants 2 white", ("Sandy Eighty", "Lone Tree"), "sandy"),
        ("en", "Went to Creek yesterday. 6 plants 2 white", ("Creek Bottom", "Lone Tree"), "creek"),
        ("en", "6 plants from Church had 2 white", ("Church Corner", "Lone Tree"), "church"),
        ("en", "Dutch's V5 6 plants 2 white", ("Dutch's Corner", "Lone Tree"), "dutch's"),
        ("es", "6 plantas 2 blancas en La Tranquera", ("La Tranquera Vieja", "Lote 9"), "la tranquera"),
        ("pt", "6 pés 2 brancas na Baixada", ("Baixada do Ipê", "Várzea"), "baixada"),
        ("en", "6 plants 2 white at Ditch", ("Ditch Road", "Ditch Bank"), "ditch"),
    ],
)
def test_the_first_words_of_a_name_name_the_field_anywhere(language, text, fields, name):
    """As written; which of two fields that begin so is meant is asked where fields are looked up."""
    (note,) = read_note(text, sent=SENT, fields=fields, language=language, day_first=language != "en").notes

    assert (note.field, note.plants, note.females.white) == (name, 6, 2)


@pytest.mark.parametrize(
    ("said", "white", "yellow", "too_many"),
    [
        ("dug 5, found four of the little white ones in all", 4, 0, False),
        ("dug 5. Whites came to 21 and there were 5 turned yellow", 21, 5, False),
        ("dug 5, whites totaled 21", 21, 0, False),
        ("5 plants, too numerous to tally", None, None, True),
        ("5 plants: 1 then 0 then 3 then 2 then 0, all white. plants are kinda stunted", 6, 0, False),
    ],
)
def test_counts_told_in_whole_sentences(said, white, yellow, too_many):
    """Words between a count and its color, or for what they came to."""
    (note,) = quiet(f"kestrel {said}").notes

    assert (note.plants, note.females.white, note.females.yellow, note.too_many) == (5, white, yellow, too_many)


@pytest.mark.parametrize(
    "text",
    [
        "kestrel didn't go. truck broke",
        "kestrel my knee wouldn't let me do any digging",
        "kestrel could not collect, saturated. will reattempt 21 july",
    ],
)
def test_why_nobody_dug_is_told_in_many_ways(text):
    """Not looked, whatever the reason."""
    (note,) = quiet(text).notes

    assert (note.field, note.outcome) == ("kestrel", "not_looked")


def test_positions_on_a_slope_are_places():
    """Terms of soil science, with the plants told once."""
    (note,) = quiet("kestrel 6 plants per position. Summit 0 females; backslope 5 white; toeslope 13 white").notes

    assert [(spot.name, spot.plants, spot.females.total) for spot in note.spots] == [
        ("summit", 6, 0),
        ("backslope", 6, 5),
        ("toeslope", 6, 13),
    ]


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "how do u know what r2 looks like"),
        ("en", "what does v5 look like"),
        ("es", "cómo es R2"),
        ("pt", "como é o R2"),
    ],
)
def test_a_question_about_a_stage_gets_the_stages(language, text):
    """And leaves no note with that stage."""
    reading = quiet(text, language)

    assert [(c.kind, c.args["topic"]) for c in reading.commands] == [("help", "stages")] and not reading.notes


@pytest.mark.parametrize(
    ("text", "what", "value", "old"),
    [
        ("that kestrel one was 5 plants not 4", "plants", 5, 4),
        ("no that last one was kestrel not tinkers", "field", "kestrel", "tinkers"),
    ],
)
def test_the_one_just_sent_is_put_right(text, what, value, old):
    """ "One" stands for the note and counts nothing."""
    (command,) = quiet(text).commands

    assert (command.args["what"], command.args["value"], command.args["old"]) == (what, value, old)


def test_a_soil_test_that_came_back_on_a_field_resumes_no_reminders():
    """ "Back on" asks only without "came"."""
    reading = read("The soil test came back on Kestrel, pH is 7.4 and potassium is 132 parts.")

    assert not reading.commands and reading.notes[0].soil.ph == 7.4


def test_a_quarter_of_an_inch_is_no_field():
    """Nor a half, nor tenths."""
    reading = read_note("rained inch and a quarter last night", sent=SENT, fields=("Schoolhouse Quarter",))
    (command,) = reading.commands

    assert command.args["rain_mm"] == 31.8 and command.args.get("field") is None


def test_plants_that_were_dug_are_put_right_alone():
    """ "Nine plants I dug" says nothing new of how."""
    (command,) = quiet("I made an error on Kestrel. It was nine plants I dug, not eight.").commands

    assert (command.args["what"], command.args["value"]) == ("plants", 9)


def test_a_field_to_look_at_again_at_a_stage_keeps_its_name_and_gets_no_stage():
    """The name may stand between the wish and the stage."""
    reading = read("recheck kestrel at R3")

    assert "which_look" in [problem.kind for problem in reading.problems]
    assert [(note.field, note.stage) for note in reading.notes] == [("kestrel", None)]


def test_an_unknown_field_taken_off_the_list_is_asked_about():
    """The list of what is due is no answer to it."""
    reading = read("take the moon off my list")

    assert [problem.kind for problem in reading.problems] == ["which_field"] and not reading.commands


@pytest.mark.parametrize(
    "text",
    [
        "En Santa Lidia 3 hoy no se miraron raíces oscuras en seco quería sacar seco 6 lavé 2",
        "El Tajamar madurando antes de tiempo una en cada una de las blancas 9 blancas quería sacar 9 amarillas 2",
    ],
)
def test_words_put_in_at_the_end_of_a_text_break_nothing(text):
    """They are written nowhere, and have no first letter."""
    reading = read_note(text, sent=SENT, fields=CREW, language="es")

    assert reading.notes or reading.problems
