"""What is asked, told and put right in sentences of people's own: help, reminders, other days, second names, seed."""

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
    ("text", "topic"),
    [
        ("como se hace para silenciar un lote??", "reminders"),
        ("cómo se borra una nota", "corrections"),
        ("qué hago para cambiar el nombre de un lote?", "fields"),
        ("cómo te aviso de la lluvia", "weather"),
        ("cómo hay que hacer para mandar los resultados del laboratorio", "lab"),
        ("how am i supposed to send you lab results", "lab"),
        ("how do you turn off reminders", "reminders"),
        ("how do i stop the reminders for kestrel", "reminders"),
        ("is there a way to turn off reminders", "reminders"),
        ("what do i text to skip a visit", "reminders"),
        ("how would one go about renaming a field", "fields"),
        ("whats the way to add a new field", "fields"),
        ("remind me how to fix a count", "corrections"),
        ("how do I get the history of a field", "ask"),
        ("como que eu apago uma nota?", "corrections"),
        ("como é que adiciono um talhão novo", "fields"),
        ("de que jeito eu vejo o histórico de um talhão", "ask"),
        ("como eu paro os avisos de um talhão?", "reminders"),
    ],
)
def test_how_a_thing_is_done_is_asked_for_help(text, topic):
    """The question how never does the thing; its deed tells the topic."""
    assert commands(text) == [{"kind": "help", "topic": topic}]


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("how do i pull the history for kestrel", "history"),
        ("how does kestrel look", "state"),
        ("cómo se ve la tranquera?", "state"),
        ("can you mute kestrel", "mute"),
        ("is there any way you could move kestrel to friday", "move"),
    ],
)
def test_what_is_asked_of_a_field_is_no_question_for_help(text, kind):
    """A field that is named is asked of, and a plea is done."""
    (command,) = commands(text)

    assert command["kind"] == kind


@pytest.mark.parametrize(
    "text",
    [
        *("turn everything back on", "turn all the reminders back on", "put everything back on", "unmute everything"),
        *("start all the reminders again", "volvé a activar todos los avisos", "prendé todo de nuevo"),
        *("activame todos los avisos otra vez", "liga tudo de novo", "pode ligar todos os lembretes de novo"),
    ],
)
def test_all_reminders_are_turned_on_again(text):
    """All, and a word for starting again."""
    assert commands(text) == [{"kind": "resume", "season": True}]


@pytest.mark.parametrize("text", ["checked everything again at kestrel, none", "kestrel 6 plants, all white again"])
def test_all_of_a_visit_turns_no_reminder_on(text):
    """What was seen stays a note."""
    reading = read_note(text, sent=SENT, fields=CREW)

    assert reading.notes
    assert not reading.commands


@pytest.mark.parametrize(
    ("text", "language"),
    [
        ("hablame en inglés", "en"),
        ("háblame en español", "es"),
        ("tá vindo tudo em inglês pra mim, muda pra português", "pt"),
        ("está llegando todo en inglés, pasalo a español", "es"),
        ("everything is coming in spanish, switch it to english", "en"),
        ("i dont read spanish, english please", "en"),
        ("não entendo inglês, manda em português", "pt"),
        ("no entiendo inglés, en español por favor", "es"),
        ("tudo que vem tá em espanhol, quero em português", "pt"),
    ],
)
def test_a_language_is_asked_for_beside_one_complained_of(text, language):
    """The language that comes, or is not understood, is not the one wanted."""
    assert commands(text) == [{"kind": "language", "language": language}]


@pytest.mark.parametrize("text", ["me llega todo en inglés", "i get everything in english", "no entiendo inglés"])
def test_a_language_only_complained_of_sets_none(text):
    """Nobody says which is wanted."""
    assert not read_note(text, sent=SENT, fields=CREW).commands


@pytest.mark.parametrize(
    ("text", "field", "day"),
    [
        ("kestrel will have to be friday", "kestrel", date(2026, 7, 24)),
        ("kestrel will have to wait till friday", "kestrel", date(2026, 7, 24)),
        ("tinkers gonna have to be the 28th", "tinkers", date(2026, 7, 28)),
        ("la tranquera va a tener que ser el viernes", "la tranquera", date(2026, 7, 24)),
        ("bajo grande tendrá que esperar hasta el lunes", "bajo grande", date(2026, 7, 27)),
        ("a baixada vai ter que ser sexta", "baixada", date(2026, 7, 24)),
        ("a santa rita vai ter que esperar até segunda", "santa rita", date(2026, 7, 27)),
    ],
)
def test_a_day_that_will_have_to_be_moves_the_visit(text, field, day):
    """A field, a day to come, and that it must be then."""
    assert commands(text) == [{"kind": "move", "field": field, "date": day}]


@pytest.mark.parametrize("text", ["kestrel will be ready friday", "kestrel will have to be sprayed friday"])
def test_what_happens_to_a_field_on_a_day_moves_nothing(text):
    """Something else is said of the day."""
    assert not read_note(text, sent=SENT, fields=CREW).commands


@pytest.mark.parametrize(
    ("text", "field"),
    [
        ("not gonna do kestrel this time, skip it", "kestrel"),
        ("kestrel not this time, skip", "kestrel"),
        ("not gonna do dry creek, leave it out this round", "dry creek"),
        ("esta vez no voy a bajo grande, salteala", "bajo grande"),
        ("baixada não vai dar essa semana, pula", "baixada"),
    ],
)
def test_a_visit_left_out_in_two_clauses_is_left_out_once(text, field):
    """The reason and the request speak of one field."""
    assert commands(text) == [{"kind": "move", "skip": True, "field": field}]


@pytest.mark.parametrize(
    ("text", "field"),
    [
        ("dry creek: all visits cancelled, too wet", "dry creek"),
        ("dry creek visit called off, too muddy", "dry creek"),
        ("visita cancelada en bajo grande, mucha agua", "bajo grande"),
        ("bajo grande: todas las visitas canceladas, muy mojado", "bajo grande"),
        ("baixada: visitas canceladas, muito molhado", "baixada"),
    ],
)
def test_visits_called_off_are_not_looked(text, field):
    """Nobody asks for the visits before, and nothing was seen."""
    reading = read_note(text, sent=SENT, fields=CREW)

    assert not reading.commands
    assert [(note.field, note.outcome) for note in reading.notes] == [(field, "not_looked")]


@pytest.mark.parametrize(
    ("text", "new", "old"),
    [
        ("wrong field on the last one, forget kestrel it was dry creek", "dry creek", "kestrel"),
        ("forget kestrel on the last one, it was dry creek", "dry creek", "kestrel"),
        ("oops wrong field, not kestrel its dry creek", "dry creek", "kestrel"),
        ("lote equivocado en la última, olvidate de la tranquera, era bajo grande", "bajo grande", "la tranquera"),
        ("errei o talhão, apaga baixada, era santa rita", "santa rita", "baixada"),
    ],
)
def test_a_field_taken_back_for_another_moves_the_note(text, new, old):
    """One field is taken back and the other told: the note is kept."""
    assert commands(text) == [{"kind": "correct", "what": "field", "value": new, "old": old}]


@pytest.mark.parametrize(
    "text",
    ["wrong field on the last one, forget kestrel", "undo kestrel, wrong field", "forget what i sent for kestrel"],
)
def test_a_field_taken_back_alone_takes_back_its_note(text):
    """No other field is told."""
    assert commands(text) == [{"kind": "take_back", "field": "kestrel"}]


@pytest.mark.parametrize(
    ("text", "field", "alias"),
    [
        ("when I say Soggy i mean kestrel", "kestrel", "soggy"),
        ("if i write Soggy i mean kestrel", "kestrel", "soggy"),
        ("fyi when dad writes 'fincher' he means kestrel, same field", "kestrel", "fincher"),
        ("a La Tranquera los muchachos le dicen tambien 'gringuita', es el mismo lote", "la tranquera", "gringuita"),
        ("cuando pongo Gringa quiero decir la tranquera", "la tranquera", "gringa"),
        ("cuando papá escribe 'el pozo' habla de la tranquera", "la tranquera", "el pozo"),
        ("quando eu escrever Brejinho é a baixada", "baixada", "brejinho"),
        ("se o pai mandar 'Brejo' ele tá falando da baixada", "baixada", "brejo"),
    ],
)
def test_what_somebody_writes_and_means_is_a_second_name(text, field, alias):
    """When one name is written, the other is meant."""
    assert commands(text) == [{"kind": "field", "name": field, "alias": alias}]


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (
            "kestrel has Tamsin 31 beans in it. thats the variety. resistant, from Peking",
            {"name": "kestrel", "variety": "Tamsin 31", "resistance": "resistant", "source": "Peking"},
        ),
        (
            "we put Tamsin 31 beans on kestrel, susceptible",
            {"name": "kestrel", "variety": "Tamsin 31", "resistance": "susceptible"},
        ),
        (
            "kestrel: Tamsin 31 soybeans, resistant from 88788",
            {"name": "kestrel", "variety": "Tamsin 31", "resistance": "resistant", "source": "PI 88788"},
        ),
        (
            "kestrel got planted to Tamsin 31 beans may 5",
            {"name": "kestrel", "variety": "Tamsin 31", "planted": date(2026, 5, 5)},
        ),
        (
            "baixada tem soja Mandacaru 62, resistente, fonte Peking",
            {"name": "baixada", "variety": "Mandacaru 62", "resistance": "resistant", "source": "Peking"},
        ),
    ],
)
def test_a_variety_before_the_crop_counts_no_plants(text, told):
    """A name with its number, and "beans" behind it."""
    assert commands(text) == [{"kind": "field", **told}]


@pytest.mark.parametrize(
    ("text", "plants", "variety"),
    [
        ("kestrel dug 6, it has Tamsin 31 beans, 12 white", 6, "Tamsin 31"),
        ("Dry Creek is in Marlo 22 beans. dug 5, 3 white 1 tan", 5, "Marlo 22"),
        ("North Forty 12 beans 3 white", 12, None),
        ("kestrel pulled 12 beans, 4 white, resistant Peking", 12, ""),
    ],
)
def test_a_variety_before_the_crop_in_a_note_counts_no_plants(text, plants, variety):
    """Beans behind a variety are no plants, and beans behind a field's name are."""
    (note,) = read_note(text, sent=SENT, fields=CREW).notes

    assert note.plants == plants
    assert (note.variety.name or "" if note.variety is not None else None) == variety


@pytest.mark.parametrize("text", ["hg test at kestrel 2.5 acres", "hg kestrel 2.5 ha", "hg type kestrel 3.5 ac"])
def test_a_size_is_no_type(text):
    """What is measured behind the number tells that it names no lines."""
    reading = read_note(text, sent=SENT, fields=CREW)

    assert [problem.kind for problem in reading.problems] == ["hg_what"]
    assert not reading.commands


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("ugh, kestrel this morning was 23 white, i hit 32", ("kestrel", "white", 23, 32)),
        ("kestrel yesterday was 6 plants, i hit 9", ("kestrel", "plants", 6, 9)),
        (
            "make the look again on kestrel 3 weeks, I said 2 weeks",
            ("kestrel", "look_again", {"days": 21}, {"days": 14}),
        ),
        ("make kestrel's recheck 3 weeks, i put 2", ("kestrel", "look_again", {"days": 21}, None)),
        ("volver a mirar en bajo grande 3 semanas, puse 2", ("bajo grande", "look_again", {"days": 21}, None)),
        ("soil at kestrel should be clay loam, i put clay", ("kestrel", "texture", "clay_loam", "clay")),
        (
            "kestrel: had the dirt wrong in my note, its silty clay loam not clay",
            ("kestrel", "texture", "silty_clay_loam", "clay"),
        ),
        ("kestrel total 31!! not 13, numbers got flipped", ("kestrel", "total", 31, 13)),
        ("bajo grande total 31! no 13, los di vuelta", ("bajo grande", "total", 31, 13)),
        ("baixada total 31, não 13, inverti", ("baixada", "total", 31, 13)),
        ("whoops make that 7 brown, was reading off the wrong line", (None, "brown", 7, None)),
        ("oops make that 7 brown, looked at the wrong row", (None, "brown", 7, None)),
        ("the kestrel look i sent you should be dated july 3", ("kestrel", "date", date(2026, 7, 3), None)),
        ("the kestrel counts i sent were from july 3", ("kestrel", "date", date(2026, 7, 3), None)),
    ],
)
def test_what_is_so_beside_what_was_written_and_why(text, told):
    """A value, the old one behind a word for writing, and a clause that only tells how the slip came."""
    (command,) = commands(text)

    assert command.pop("kind") == "correct"
    field, what, value, old = told
    assert command == {
        key: given
        for key, given in zip(("field", "what", "value", "old"), (field, what, value, old), strict=True)
        if given
    }


@pytest.mark.parametrize(
    "text",
    [
        "the count i sent for kestrel is wrong can u change it",
        "the number i sent for kestrel is wrong",
        "el conteo que mandé de bajo grande está mal, lo podés cambiar?",
        "a contagem que mandei da baixada tá errada, pode mudar?",
    ],
)
def test_a_count_only_said_to_be_wrong_is_asked_about(text):
    """What is right is not said."""
    reading = read_note(text, sent=SENT, fields=CREW)

    assert [problem.kind for problem in reading.problems] == ["no_change"]
    assert not reading.commands


@pytest.mark.parametrize(
    ("text", "field", "plans"),
    [
        (
            "would corn, peking, corn, peking hold up better at kestrel or should i go corn, 88788, corn, peking",
            "kestrel",
            [["corn", "Peking", "corn", "Peking"], ["corn", "PI 88788", "corn", "Peking"]],
        ),
        (
            "Qué rinde más en La Tranquera: maíz, peking, maíz, 88788, o bien maíz, 88788, maíz, 88788",
            "la tranquera",
            [["corn", "Peking", "corn", "PI 88788"], ["corn", "PI 88788", "corn", "PI 88788"]],
        ),
        (
            "o que compensa mais na baixada: milho, peking, milho ou milho, 88788, milho",
            "baixada",
            [["corn", "Peking", "corn"], ["corn", "PI 88788", "corn"]],
        ),
    ],
)
def test_plans_are_compared_in_a_sentence(text, field, plans):
    """Years of crops parted by "or": a question of a rotation, and no seed of the field."""
    assert commands(text) == [{"kind": "rotation", "field": field, "plans": plans}]


@pytest.mark.parametrize("text", ["couldnt get in", "had to wait", "kestrel couldnt get in", "no pude entrar"])
def test_words_for_waiting_at_the_end_of_a_message_are_read(text):
    """No day behind them is needed."""
    assert not read_note(text, sent=SENT, fields=CREW).commands


@pytest.mark.parametrize(
    ("text", "field", "value", "old"),
    [
        ("A visita da Baixada foi dia 6/7, não 8/7. Pode trocar?", "baixada", date(2026, 7, 6), date(2026, 7, 8)),
        ("a visita da baixada foi 16/7, nao 17/7, troca pra mim?", "baixada", date(2026, 7, 16), date(2026, 7, 17)),
        (
            "la visita de bajo grande fue el 6/7, no el 8/7. la podés cambiar?",
            "bajo grande",
            date(2026, 7, 6),
            date(2026, 7, 8),
        ),
        ("kestrel visit was july 6, not july 8, can you fix that?", "kestrel", date(2026, 7, 6), date(2026, 7, 8)),
    ],
)
def test_a_plea_behind_a_correction_moves_no_visit(text, field, value, old):
    """ "Can you change it" says nothing more than what is put right."""
    assert commands(text) == [{"kind": "correct", "field": field, "what": "date", "value": value, "old": old}]


def test_a_day_put_right_early_in_the_year_is_no_day_to_come():
    """The 6th of January is not the 1st of June."""
    reading = read_note("A visita da Baixada foi dia 6/1, não 8/1. Pode trocar?", sent=date(2027, 1, 11), fields=CREW)

    assert [(command.kind, command.args["value"]) for command in reading.commands] == [("correct", date(2027, 1, 6))]


@pytest.mark.parametrize(
    ("text", "moved"),
    [
        ("Barra Nova, deixa pra daqui a 5 dias q a estrada tá um sabão", {"days": 5}),
        ("Barra Nova, passa pra sexta que a estrada tá ruim", {"date": date(2026, 7, 24)}),
    ],
)
def test_a_name_alone_before_a_day_to_come_is_what_is_moved(text, moved):
    """What the reason speaks of is no field."""
    assert commands(text, fields=()) == [{"kind": "move", "field": "barra nova", **moved}]


@pytest.mark.parametrize(
    ("text", "asked"),
    [
        (
            "wanna be 80 pct sure, diggin w a shovel, sandy loam. thats how many plants",
            {"percent": 80, "method": "shovel", "texture": "sandy_loam"},
        ),
        (
            "i want to be 90% sure. pulled, clay. how many plants?",
            {"percent": 90, "method": "pulled", "texture": "clay"},
        ),
    ],
)
def test_how_sure_is_told_before_how_many_is_asked(text, asked):
    """Several sentences, one question."""
    assert commands(text) == [{"kind": "look_plan", **asked}]


@pytest.mark.parametrize(
    "text",
    [
        "I said 6 white. That is wrong.",
        "I said 6 white. That's wrong, sorry",
        "I told you 8 plants at Dry Creek. That's not right",
        "kestrel 6 white was wrong",
        "I put V5 for kestrel. That's not right",
        "puse 6 blancas en molino viejo. eso está mal",
        "Falei 6 brancas. Está errado",
        "coloquei 6 brancas na baixada, tá errado",
    ],
)
def test_what_is_only_said_to_be_wrong_is_neither_noted_nor_put_in_place(text):
    """The one number told is the wrong one: asked back what is right."""
    reading = read_note(text, sent=SENT, fields=CREW)

    assert [problem.kind for problem in reading.problems] == ["no_change"]
    assert not reading.notes
    assert not reading.commands


@pytest.mark.parametrize(
    ("text", "right"),
    [
        ("the 6 white at kestrel is wrong, should be 8", 8),
        ("kestrel 6 white was wrong, it was 8", 8),
    ],
)
def test_what_is_right_behind_it_is_put_in_place(text, right):
    (command,) = commands(text)

    assert (command["kind"], command["what"], command["value"]) == ("correct", "white", right)


def test_what_else_is_off_beside_a_note_asks_nothing():
    for text in ("kestrel 6 plants 3 white, roots looked off", "kestrel 6 plants 3 white, my first count was off"):
        reading = read_note(text, sent=SENT, fields=CREW)
        assert not reading.problems
        assert [note.females.total for note in reading.notes] == [3]


@pytest.mark.parametrize(
    "text",
    [
        "I must take back my last note, as it concerned another farm entirely.",
        "I have to withdraw my last note, as it was about another farm",
        "take back my last note because it concerned a different farm",
    ],
)
def test_a_note_is_no_field_called_northeast(text):
    assert commands(text, fields=("Pruett Northeast", "Stavely South")) == [{"kind": "take_back"}]


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("22A planted 5/9, variety PR3302, resistant, 88788", {"variety": "PR3302", "source": "PI 88788"}),
        ("22A planted 5/9", {}),
        ("7C planted 5/9, 40 acres", {"acres": 40.0}),
    ],
)
def test_figures_of_a_name_are_no_acres(text, told):
    (command,) = commands(text, fields=("14B", "22A", "7C"))

    assert command["planted"] == date(2026, 5, 9)
    assert {key: command.get(key) for key in ("acres", *told)} == {"acres": None, **told}
