"""What is asked and put right in sentences of people's own, whose word for the thing stands anywhere."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from notes_bot.language import read_note

SENT = date(2026, 7, 20)
CREW = (
    *("Kestrel", "Tinkers", "North Forty", "Dry Creek", "Lone Ash", "La Tranquera", "Molino Viejo", "Bajo Grande"),
    *("Baixada", "Santa Rita", "Sede Velha"),
)


def commands(text: str, fields: tuple[str, ...] = CREW) -> list[dict[str, Any]]:
    """What a message asks for or puts right, without a question back and without a note."""
    reading = read_note(text, sent=SENT, fields=fields)

    assert not reading.problems, reading.problems
    assert not reading.notes
    return [
        {"kind": command.kind, **{key: value for key, value in command.args.items() if value is not None}}
        for command in reading.commands
    ]


@pytest.mark.parametrize(
    ("text", "asked"),
    [
        (
            "If I pull em and it's clay how many plants till I'm 90% sure?",
            {"percent": 90, "method": "pulled", "texture": "clay"},
        ),
        (
            "to be 90% sure at kestrel how many do i need to pull",
            {"percent": 90, "method": "pulled", "field": "kestrel"},
        ),
        ("say i pull plants in sand, how many would i need", {"method": "pulled", "texture": "sand"}),
        ("decime cuántas plantas tengo que sacar en bajo grande", {"field": "bajo grande"}),
        ("cuántas plantas hay que arrancar para estar 90% seguro", {"percent": 90, "method": "pulled"}),
        ("na santa rita quantos pés eu tiro com pá?", {"method": "shovel", "field": "santa rita"}),
    ],
)
def test_how_many_plants_is_asked_behind_other_words(text, asked):
    """The question for the number of plants, with what is said of the look before or behind it."""
    assert commands(text) == [{"kind": "look_plan", **asked}]


@pytest.mark.parametrize(
    ("text", "asked"),
    [
        ("can i trust 5 pulled plants?", {"plants": 5, "method": "pulled"}),
        ("will 6 plants do it at kestrel?", {"plants": 6, "field": "kestrel"}),
        (
            "¿De qué me sirve haber mirado 5 plantas arrancadas en arcilla?",
            {"plants": 5, "method": "pulled", "texture": "clay"},
        ),
        ("6 plantas arrancadas son suficientes?", {"plants": 6, "method": "pulled"}),
        ("4 plantas na pa sao suficientes?", {"plants": 4, "method": "shovel"}),
        ("vale alguma coisa ter olhado 4 plantas arrancadas?", {"plants": 4, "method": "pulled"}),
    ],
)
def test_what_a_look_is_worth_is_asked_in_many_words(text, asked):
    """Plants, a word for being enough or of use, and a question."""
    assert commands(text) == [{"kind": "look_worth", **asked}]


def test_a_word_like_a_name_in_a_question_is_no_field():
    """A name in short counts only behind "at"."""
    (command,) = commands("¿De qué me sirve haber mirado 5 plantas arrancadas?", fields=("El Mirador", "Loma Seca"))

    assert command == {"kind": "look_worth", "plants": 5, "method": "pulled"}


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("whats the right way to take soil cores at tinkers this fall", {"kind": "sample", "field": "tinkers"}),
        ("how should kestrel be sampled", {"kind": "sample", "field": "kestrel"}),
        ("de qué manera muestreo bajo grande", {"kind": "sample", "field": "bajo grande"}),
        ("como q eu tiro amostra de solo na baixada?", {"kind": "sample", "field": "baixada"}),
        ("what rotation makes sense for kestrel?", {"kind": "rotation", "field": "kestrel"}),
        ("qué rotación recomiendan para la tranquera?", {"kind": "rotation", "field": "la tranquera"}),
        ("que rotação vcs sugerem pra Baixada", {"kind": "rotation", "field": "baixada"}),
        ("any sign the Peking varieties are slipping across our fields", {"kind": "watch", "source": "Peking"}),
        ("are our varieties still holding", {"kind": "watch"}),
        ("el Peking sigue aguantando?", {"kind": "watch", "source": "Peking"}),
        ("as variedades peking estão falhando em algum talhão?", {"kind": "watch", "source": "Peking"}),
    ],
)
def test_samples_rotations_and_varieties_are_asked_of_in_a_sentence(text, expected):
    """The word for the thing stands behind others, with a word for asking."""
    assert commands(text) == [expected]


@pytest.mark.parametrize(
    ("text", "args"),
    [
        ("season report on Kestrel, Tinkers & Dry Creek", {"fields": ["kestrel", "tinkers", "dry creek"]}),
        ("report for kestrel and dry creek", {"fields": ["kestrel", "dry creek"]}),
        ("need the season report for kestrel + lone ash", {"fields": ["kestrel", "lone ash"]}),
        ("necesito el informe de Bajo Grande y Molino Viejo", {"fields": ["bajo grande", "molino viejo"]}),
        ("Preciso do relatório de Baixada e Santa Rita", {"fields": ["baixada", "santa rita"]}),
        ("send the grower report on kestrel", {"field": "kestrel"}),
        ("i want the report for the whole farm", {"all": True}),
        ("relatório de todos os talhões", {"all": True}),
    ],
)
def test_a_report_names_its_fields_in_any_list(text, args):
    """One field, several joined by any sign or word, or all."""
    assert commands(text) == [{"kind": "report", **args}]


def test_a_report_of_fields_no_list_has_is_cut_at_its_joints():
    """Without the crew's list, commas and "and" part the names."""
    (command,) = commands("season report on Long Bend, Pit & Elm Lot and Far Side please", fields=())

    assert command == {"kind": "report", "fields": ["long bend", "pit", "elm lot", "far side"]}


@pytest.mark.parametrize(
    "text",
    [
        "kestrel dug 5 plants, that was plenty, 3 white",
        "kestrel peking still holding, dug 5 none",
        "baixada 6 plantas na pá, chega por hoje, nenhuma",
        "tomé muestras de suelo en bajo grande, 6 plantas con pala 4 blancas",
        "here is the report for kestrel: dug 6, 12 white",
        "rotation on kestrel was corn last year, dug 5 plants none",
    ],
)
def test_a_note_with_such_words_stays_a_note(text):
    """What was dug and found is told: nothing is asked."""
    reading = read_note(text, sent=SENT, fields=CREW)

    assert not reading.commands
    assert reading.notes[0].plants in (5, 6)


def test_how_many_were_dug_asks_for_what_was():
    """A question for what was done is answered from the history, and plans no look."""
    assert commands("how many plants did i dig at kestrel") == [{"kind": "history", "field": "kestrel"}]


@pytest.mark.parametrize(
    ("text", "field", "kind"),
    [
        ("The HG type for Kestrel turned out to be 2.5.7", "kestrel", "2.5.7"),
        ("lab says dry creek is hg type 0", "dry creek", "0"),
        ("got the hg type back on dry creek, its 1.2", "dry creek", "1.2"),
        ("el tipo HG de bajo grande dio 2.5.7", "bajo grande", "2.5.7"),
        ("saiu o resultado da sede velha, HG 2.5.7", "sede velha", "2.5.7"),
    ],
)
def test_the_type_of_a_population_is_told_in_a_sentence(text, field, kind):
    """The word for the test, a field, and lines in rising order."""
    assert commands(text) == [{"kind": "hg", "field": field, "type": kind}]


def test_lines_of_a_type_out_of_order_are_no_type():
    """A type names each line once, in rising order: what is not one is not taken for it."""
    reading = read_note("The HG type for Kestrel turned out to be 5.2.7", sent=SENT, fields=CREW)

    assert reading.problems
    assert not [command for command in reading.commands if command.kind == "hg"]


@pytest.mark.parametrize(
    ("text", "place"),
    [
        ("I work in Nebraska now so set my place to that", "nebraska"),
        ("i scout in North Dakota these days", "north dakota"),
        ("put me down for Illinois", "illinois"),
        ("estoy en Córdoba, poné ese lugar", "córdoba"),
        ("muda meu lugar pra Mato Grosso", "mato grosso"),
        ("trabalho no Paraná agora", "paraná"),
    ],
)
def test_where_the_crew_works_is_told_in_a_sentence(text, place):
    """A state known by name, and a word for living or working there."""
    assert commands(text) == [{"kind": "place", "place": place}]


def test_a_state_beside_a_count_is_no_place_of_the_crew():
    """A note stays a note."""
    reading = read_note("we dug 6 in Iowa at kestrel, none", sent=SENT, fields=CREW)

    assert not reading.commands
    assert reading.notes[0].plants == 6


@pytest.mark.parametrize(
    ("text", "args"),
    [
        ("wk digest for my crew pls", {"span": "week"}),
        ("Supervisor here, I'd like the digest for the whole season", {"span": "season"}),
        ("sum up the season", {"span": "season"}),
        ("mandame el resumen de la temporada", {"span": "season"}),
        ("quero o resumo da safra", {"span": "season"}),
        ("send me the digest", {}),
    ],
)
def test_a_digest_is_asked_for_a_week_or_a_season(text, args):
    """The span said in a sentence."""
    assert commands(text) == [{"kind": "digest", **args}]


@pytest.mark.parametrize(
    "text",
    [
        "skip everything thats due, whole crew is at the fair",
        "skip whatever is due today",
        "we're skipping everything this round",
        "salteá todos los lotes esta semana",
        "pula tudo q tá pendente, tá todo mundo na feira",
    ],
)
def test_all_fields_are_left_out_at_once(text):
    """A word for skipping and one for all of them."""
    assert commands(text) == [{"kind": "move", "skip": True, "all": True}]


@pytest.mark.parametrize(
    "text",
    [
        "Quit reminding me about any of the fields for the rest of this season.",
        "i don't want any more reminders this year",
        "silenciá todos los lotes por lo que queda de la temporada",
        "não me lembre de mais nenhum talhão nesta safra",
    ],
)
def test_a_season_is_silenced_in_a_sentence(text):
    """Reminders, a word for stopping, and the season; no field."""
    assert commands(text) == [{"kind": "mute", "season": True}]


@pytest.mark.parametrize(
    "text",
    ["quit reminding me about larkspur this season", "stop all reminders on the pothole place for the season"],
)
def test_one_field_of_no_list_is_not_all_of_them(text):
    """A name nobody knows never silences or skips everything."""
    for fields in (CREW, ()):
        reading = read_note(text, sent=SENT, fields=fields)
        assert not any(command.args.get("season") or command.args.get("all") for command in reading.commands)


@pytest.mark.parametrize(
    ("text", "day"),
    [
        ("Bajo Grande pasalo al viernes que hoy llueve", date(2026, 7, 24)),
        ("baixada passa pra sexta que hoje chove", date(2026, 7, 24)),
        ("deixa a santa rita pra quinta", date(2026, 7, 23)),
    ],
)
def test_a_reminder_is_put_off_with_its_reason(text, day):
    """The day it is put off to, and not the day of the reason."""
    (command,) = commands(text)

    assert (command["kind"], command["date"]) == ("move", day)


@pytest.mark.parametrize(
    ("text", "args"),
    [
        (
            "add new field Bluestem, 42.0310 -93.6312",
            {"name": "bluestem", "latitude": 42.031, "longitude": -93.6312},
        ),
        ("register new field: Bluestem", {"name": "bluestem"}),
        (
            "we took on a new field next door to kestrel, calling it Gopher Flat",
            {"name": "gopher flat", "near": "kestrel"},
        ),
        ("new field next to kestrel. call it Gopher Flat", {"name": "gopher flat", "near": "kestrel"}),
        (
            "there's a new field across from dry creek called Gopher Flat",
            {"name": "gopher flat", "near": "dry creek"},
        ),
        (
            "hay un campo nuevo, se llama La Higuera y queda cerca de La Tranquera",
            {"name": "la higuera", "near": "la tranquera"},
        ),
        (
            "tomamos un lote nuevo pegado a Bajo Grande, le decimos La Higuera",
            {"name": "la higuera", "near": "bajo grande"},
        ),
        (
            "arrendamos uma área nova do lado da Baixada, vamos chamar de Mato Alto",
            {"name": "mato alto", "near": "baixada"},
        ),
    ],
)
def test_a_new_field_beside_a_known_one_keeps_both_names(text, args):
    """What is new gets the name, and the known field is only where it lies."""
    assert commands(text) == [{"kind": "field", **args}]


@pytest.mark.parametrize(
    ("text", "name", "alias"),
    [
        ("the guys also call kestrel 'Soggy', so if you see that its the same field", "kestrel", "soggy"),
        ("if somebody writes Soggy they mean kestrel", "kestrel", "soggy"),
        ("the old timers call dry creek Duck Pond", "dry creek", "duck pond"),
        ("Duck Pond is the same field as dry creek", "dry creek", "duck pond"),
        ("a bajo grande también le decimos El Charco", "bajo grande", "el charco"),
        ("si alguien pone El Charco es Bajo Grande", "bajo grande", "el charco"),
        ("Brejinho é a mesma coisa que Baixada", "baixada", "brejinho"),
        ("a baixada também é conhecida como Brejinho", "baixada", "brejinho"),
    ],
)
def test_another_name_of_a_field_is_told(text, name, alias):
    """The field keeps its name and gets one more."""
    assert commands(text) == [{"kind": "field", "name": name, "alias": alias}]


@pytest.mark.parametrize(
    "text",
    [
        "kestrel same place as last time, 6 plants 3 white",
        "new field near kestrel had 6 plants, none",
        "the guys at kestrel dug 6, 3 white",
        "mismo lugar que ayer en Bajo Grande, 6 plantas 3 blancas",
    ],
)
def test_a_visit_to_the_same_or_a_new_place_is_a_visit(text):
    """Counts are told: no field is named anew."""
    reading = read_note(text, sent=SENT, fields=CREW)

    assert not reading.commands
    assert reading.notes[0].plants == 6


def put_right(field: str, what: str, value: Any, old: Any = None, on: date | None = None) -> dict[str, Any]:
    """A correction as it is expected."""
    told = {"kind": "correct", "field": field, "what": what, "value": value}
    return told | ({"old": old} if old is not None else {}) | ({"date": on} if on is not None else {})


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (
            "my note for kestrel on tuesday has 5 plants, that oughta be 8",
            put_right("kestrel", "plants", 8, 5, date(2026, 7, 14)),
        ),
        (
            "kestrel note from friday says 5 plants but it should say 8",
            put_right("kestrel", "plants", 8, 5, date(2026, 7, 17)),
        ),
        (
            "kestrel text from 7/14 says R2, thats supposed to be R1",
            put_right("kestrel", "stage", "R1", "R2", date(2026, 7, 14)),
        ),
        ("in my kestrel note it says V5 but its V6", put_right("kestrel", "stage", "V6", "V5")),
        ("dry creek note has me at 9 yellow, i only had 6", put_right("dry creek", "yellow", 6, 9)),
        (
            "Tinkers note from 7/9 says pulled, I eased them loose by hand. can u fix",
            put_right("tinkers", "method", "eased", "pulled", date(2026, 7, 9)),
        ),
        ("my note on kestrel says shovel, we pulled em by hand", put_right("kestrel", "method", "pulled", "shovel")),
        ("kestrel note has dry soil, it was wet", put_right("kestrel", "moisture", "wet", "dry")),
        ("la nota de bajo grande dice 12 blancas pero eran 21", put_right("bajo grande", "white", 21, 12)),
        ("lo de bajo grande quedó con V5 y es V6", put_right("bajo grande", "stage", "V6", "V5")),
        (
            "la nota de molino viejo dice arrancadas, las saqué con pala",
            put_right("molino viejo", "method", "shovel", "pulled"),
        ),
        (
            "minha nota da baixada de terça tem 5 plantas, o certo é 8",
            put_right("baixada", "plants", 8, 5, date(2026, 7, 14)),
        ),
        ("a anotação da sede velha ficou com 9 amarelas, mas são 6", put_right("sede velha", "yellow", 6, 9)),
    ],
)
def test_what_a_note_says_and_what_is_so(text, expected):
    """What stands in the note, with its day, and the value that is right."""
    assert commands(text) == [expected]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("oops. kestrel was pulled, I put dug", put_right("kestrel", "method", "pulled", "shovel")),
        ("whoops kestrel was dug, i wrote pulled", put_right("kestrel", "method", "shovel", "pulled")),
        ("perdón, bajo grande estaba húmedo, puse seco", put_right("bajo grande", "moisture", "moist", "dry")),
        ("ops, a baixada foi com pá, eu pus arrancadas", put_right("baixada", "method", "shovel", "pulled")),
    ],
)
def test_what_was_so_and_what_was_put(text, expected):
    """One correction with its old value, and not two."""
    assert commands(text) == [expected]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("extra zero on the kestrel whites!! its 2 not 20", put_right("kestrel", "white", 2, 20)),
        ("kestrel whites have a zero too many, 2 not 20", put_right("kestrel", "white", 2, 20)),
        ("missing a zero on kestrel browns, 30 not 3", put_right("kestrel", "brown", 30, 3)),
        ("un cero de más en las blancas de la tranquera, son 2 no 20", put_right("la tranquera", "white", 2, 20)),
        ("um zero a mais nas brancas da baixada, são 2 e não 20", put_right("baixada", "white", 2, 20)),
    ],
)
def test_a_slip_of_a_digit_is_no_count(text, expected):
    """The zero that slipped in is told of, and no female."""
    assert commands(text) == [expected]


@pytest.mark.parametrize(
    ("text", "field", "counts"),
    [
        ("Kestrel shld say 4 tan and 0 brown, had em mixed up", "kestrel", {"tan": 4, "brown": 0}),
        ("kestrel: swap the colors, its 3 white and 5 yellow", "kestrel", {"white": 3, "yellow": 5}),
        (
            "bajo grande tendría que decir 4 amarillas y 0 marrones, las tenía cambiadas",
            "bajo grande",
            {"yellow": 4, "brown": 0},
        ),
        ("troquei as cores na baixada, eram 3 brancas e 5 amarelas", "baixada", {"white": 3, "yellow": 5}),
    ],
)
def test_colors_taken_one_for_the_other_are_put_right(text, field, counts):
    """Each color with its count, behind or before a word for the mix-up."""
    assert commands(text) == [put_right(field, what, value) for what, value in counts.items()]


@pytest.mark.parametrize(
    "text",
    [
        "kestrel farmer says it was dry, soil is wet now, 6 plants none",
        "kestrel grower says beans are R2, i say R1",
        "kestrel note: soil was dry, now its wet",
        "kestrel shows R2, was V6 last week",
        "kestrel bag mixed up, 3 white 5 yellow on 6 plants",
        "bajo grande quedó seco, ahora está húmedo",
        "baixada o dono diz que era seco, tava úmido, 6 pés 2 brancas",
    ],
)
def test_what_others_say_or_what_has_changed_puts_nothing_right(text):
    """Hearsay, and what was so before, is no note of ours that is wrong."""
    reading = read_note(text, sent=SENT, fields=CREW)

    assert not reading.commands
    assert reading.notes


@pytest.mark.parametrize(
    ("text", "field"),
    [
        ("pls throw out what I sent on North Forty, wrong farm entirely", "north forty"),
        ("throw out my kestrel note, i was on the wrong farm", "kestrel"),
        ("kestrel note was a mistake, delete it", "kestrel"),
        ("don't use what i sent on dry creek, i dug in the wrong field", "dry creek"),
        ("can you remove my dry creek note? sent it twice", "dry creek"),
        ("olvidate de lo que te mandé de bajo grande, era otro lote", "bajo grande"),
        ("cancela o que te passei da baixada, contei errado", "baixada"),
    ],
)
def test_what_was_sent_is_taken_back_with_its_reason(text, field):
    """The reason moves nothing to another field and puts nothing right."""
    assert commands(text) == [{"kind": "take_back", "field": field}]


def test_a_wrong_field_with_the_right_one_is_no_note_taken_back():
    """ "It was .." names the field the note belongs to."""
    assert commands("scratch that, wrong field, it was dry creek") == [
        {"kind": "correct", "what": "field", "value": "dry creek"}
    ]


def test_reminders_thrown_out_are_no_note_thrown_out():
    """What is thrown out is said."""
    assert commands("throw out kestrel reminders") == [{"kind": "mute", "field": "kestrel"}]


@pytest.mark.parametrize(
    ("text", "field"),
    [
        ("Kestrel - everything we've ever found there, please", "kestrel"),
        ("kestrel: all past visits", "kestrel"),
        ("list every visit to dry creek", "dry creek"),
        ("what have we turned up at dry creek", "dry creek"),
        ("tinkers - the whole record please", "tinkers"),
        ("bajo grande: todas las visitas por favor", "bajo grande"),
        ("qué encontramos en molino viejo hasta hoy?", "molino viejo"),
        ("baixada, me manda tudo q a gente já achou lá", "baixada"),
    ],
)
def test_all_that_was_found_is_asked_for(text, field):
    """The history of a field, and its name without the words around it."""
    assert commands(text) == [{"kind": "history", "field": field}]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("kestrel had 9 white, i put 6", put_right("kestrel", "white", 9, 6)),
        ("on kestrel i counted 12 white but sent 21", put_right("kestrel", "white", 12, 21)),
        (
            "i put saturday for kestrel, it was friday",
            put_right("kestrel", "date", date(2026, 7, 17), date(2026, 7, 18)),
        ),
    ],
)
def test_only_the_number_or_the_day_that_was_put_is_told_again(text, expected):
    """What it counts stands beside the value that is right."""
    assert commands(text) == [expected]


@pytest.mark.parametrize("text", ["kestrel 9 white, put 6 flags out", "kestrel had 9 white, they said 6"])
def test_what_was_put_elsewhere_or_said_by_others_is_no_old_count(text):
    """A number of other things is no correction."""
    reading = read_note(text, sent=SENT, fields=CREW)

    assert not reading.commands
    assert reading.notes[0].females.white == 9
