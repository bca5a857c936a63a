"""Two things asked in one line, each with its own field, and facts of fields told in passing."""

from datetime import date
from typing import Any

import pytest

from notes_bot.language.reader import read_note
from notes_bot.model import Language

FIELDS = (
    *("Kestrel", "Tallow", "Lower Bench", "Bent Oak", "Tres Álamos", "Cañada Seca", "Pozo Viejo"),
    *("Capão Alto", "Cupim", "Sete Covas"),
)
SENT = date(2026, 7, 8)


def asked(text: str, language: Language = "en") -> list[dict[str, Any]]:
    """What is asked, without what is not told."""
    reading = read_note(text, sent=SENT, fields=FIELDS, language=language)
    assert not reading.problems
    return [
        {"kind": c.kind, **{key: value for key, value in c.args.items() if value is not None}} for c in reading.commands
    ]


@pytest.mark.parametrize(
    ("text", "language", "first", "second"),
    [
        (
            "whats next on my list, and what have we got so far on bent oak",
            "en",
            {"kind": "due"},
            {"kind": "history", "field": "bent oak"},
        ),
        (
            "start the reminders back up for lower bench and what did the lab give for it",
            "en",
            {"kind": "resume", "field": "lower bench"},
            {"kind": "lab", "field": "lower bench"},
        ),
        (
            "esta vez saltate pozo viejo, y cañada seca pasalo al lunes",
            "es",
            {"kind": "move", "skip": True, "field": "pozo viejo"},
            {"kind": "move", "date": date(2026, 7, 13), "field": "cañada seca"},
        ),
        (
            "capão alto pula dessa vez, cupim deixa pra segunda",
            "pt",
            {"kind": "move", "skip": True, "field": "capão alto"},
            {"kind": "move", "date": date(2026, 7, 13), "field": "cupim"},
        ),
        (
            "puxa o histórico do cupim e me lembra dele em 5 dias",
            "pt",
            {"kind": "history", "field": "cupim"},
            {"kind": "move", "days": 5, "field": "cupim"},
        ),
        (
            "campo nuevo Laguna Corta cerca de tres álamos. y cañada seca se sembró el 17/5",
            "es",
            {"kind": "field", "name": "laguna corta", "near": "tres álamos"},
            {"kind": "field", "name": "cañada seca", "planted": date(2026, 5, 17)},
        ),
        (
            "talhão novo Poço Fundo perto do cupim, e sete covas foi plantado em 17/5",
            "pt",
            {"kind": "field", "name": "poço fundo", "near": "cupim"},
            {"kind": "field", "name": "sete covas", "planted": date(2026, 5, 17)},
        ),
        (
            "pode deixar passar a 7, a 8 não",
            "pt",
            {"kind": "release", "number": 7},
            {"kind": "refuse", "number": 8},
        ),
    ],
)
def test_two_things_asked(text: str, language: Language, first: dict[str, Any], second: dict[str, Any]) -> None:
    """Each is read with its own field."""
    assert asked(text, language) == [first, second]


@pytest.mark.parametrize(
    ("text", "language"),
    [
        ("tres álamos, hg 2.5.7 y 1800 huevos por 100 cc", "es"),
        ("tres álamos eggs 1800 per 100cc, hg 2.5.7", "en"),
        ("capão alto com 1.800 ovos por 100 cc, e hg 2.5.7", "pt"),
    ],
)
def test_eggs_and_type_of_one_sample(text: str, language: Language) -> None:
    """Both are of the field named once."""
    told = {c["kind"]: c for c in asked(text, language)}
    assert set(told) == {"lab", "hg"}
    assert told["lab"]["field"] == told["hg"]["field"]
    assert (told["lab"]["eggs_per_100cc"], told["hg"]["type"]) == (1800, "2.5.7")


@pytest.mark.parametrize(
    ("text", "language", "kinds"),
    [
        ("mute kestrel and tallow", "en", ["mute", "mute"]),
        ("skip kestrel, already sampled it", "en", ["move"]),
        ("new field Mulberry Hill near Kestrel, planted 5/6", "en", ["field"]),
        ("kestrel eggs 2400 per 100cc, iowa", "en", ["lab"]),
        ("rotation kestrel: corn, 88788, corn, peking", "en", ["rotation"]),
    ],
)
def test_one_thing_asked(text: str, language: Language, kinds: list[str]) -> None:
    """What goes on with the same thing is not cut."""
    assert [c["kind"] for c in asked(text, language)] == kinds


def test_no_look_here_and_a_reminder_there() -> None:
    """A field not looked at, and another to be reminded of: a note, and what is asked."""
    text = "Didn't get to kestrel today, gate locked. remind me about tallow in 3 days"
    reading = read_note(text, sent=SENT, fields=FIELDS)
    assert [(note.field, note.outcome) for note in reading.notes] == [("kestrel", "not_looked")]
    assert [(c.kind, c.args["field"], c.args["days"]) for c in reading.commands] == [("move", "tallow", 3)]


@pytest.mark.parametrize(
    ("text", "language", "told"),
    [
        (
            "the bag tag for bent oak says GX 2815, resistant, peking",
            "en",
            {"name": "bent oak", "variety": "GX 2815", "resistance": "resistant", "source": "Peking"},
        ),
        ("kestrel, let me just say K8 for short", "en", {"name": "kestrel", "alias": "k8"}),
        (
            "got a new one for you, Stony Lot, 42.1175 N 94.0310 W",
            "en",
            {"name": "stony lot", "latitude": 42.1175, "longitude": -94.031},
        ),
        ("entrou um talhão novo, Lagoa Torta, do lado do cupim", "pt", {"name": "lagoa torta", "near": "cupim"}),
        ("terminamos de plantar sete covas ontem", "pt", {"name": "sete covas", "planted": date(2026, 7, 7)}),
    ],
)
def test_facts_of_a_field(text: str, language: Language, told: dict[str, Any]) -> None:
    """What is told of a field in a sentence of its own."""
    assert asked(text, language) == [{"kind": "field", **told}]


@pytest.mark.parametrize(
    ("text", "language", "told"),
    [
        (
            "history of kestrel and tallow?",
            "en",
            [{"kind": "history", "field": "kestrel"}, {"kind": "history", "field": "tallow"}],
        ),
        (
            "historial de pozo viejo y cañada seca",
            "es",
            [{"kind": "history", "field": "pozo viejo"}, {"kind": "history", "field": "cañada seca"}],
        ),
        (
            "pula cupim e sete covas?",
            "pt",
            [{"kind": "move", "field": "cupim", "skip": True}, {"kind": "move", "field": "sete covas", "skip": True}],
        ),
        (
            "poderiam me mandar o relatório do cupim e também o da sete covas?",
            "pt",
            [{"kind": "report", "fields": ["cupim", "sete covas"]}],
        ),
        (
            "report kestrel, and how is tallow?",
            "en",
            [{"kind": "report", "field": "kestrel"}, {"kind": "state", "field": "tallow"}],
        ),
    ],
)
def test_what_is_asked_is_asked_of_each_field_named(text: str, language: Language, told: list[dict[str, Any]]) -> None:
    """A field joined by "and" alone is one more of the same; a report is made of all at once."""
    assert asked(text, language) == told


@pytest.mark.parametrize(
    ("text", "language"),
    [
        ("Kestrel 5 plants 6 white. rotation kestrel: corn, Peking, corn, 88788", "en"),
        ("Kestrel 5 plants 6 white. rotation: corn, Peking, corn, 88788", "en"),
        ("Cupim deu 6 brancas em 5 plantas. Calcula pra mim a rotação do cupim: milho, Peking, milho, 88788?", "pt"),
        ("Pozo Viejo 5 plantas, 6 blancas. Calculame la rotación de pozo viejo: maíz, Peking, maíz, 88788", "es"),
    ],
)
def test_a_plan_behind_a_note_is_no_seed_of_it(text: str, language: Language) -> None:
    """The sources in it are years to come."""
    reading = read_note(text, sent=SENT, fields=FIELDS, language=language)

    assert [c.args["plans"] for c in reading.commands] == [[["corn", "Peking", "corn", "PI 88788"]]]
    assert [(note.plants, note.females.total, note.variety) for note in reading.notes] == [(5, 6, None)]


@pytest.mark.parametrize(
    ("text", "language", "told"),
    [
        (
            "¿Qué confianza me dan 6 plantas arrancadas a mano en suelo arcilloso seco?",
            "es",
            {"kind": "look_worth", "method": "pulled", "texture": "clay", "moisture": "dry", "plants": 6},
        ),
        ("qual a confiança de 6 plantas com pá?", "pt", {"kind": "look_worth", "method": "shovel", "plants": 6}),
        ("how reliable are 5 plants dug?", "en", {"kind": "look_worth", "method": "shovel", "plants": 5}),
        (
            "lo que mandé de pozo viejo bórrelo, me parece que conté mal",
            "es",
            {"kind": "take_back", "field": "pozo viejo"},
        ),
        ("mute pozo viejo porfa, ese ya lo picaron para silo", "es", {"kind": "mute", "field": "pozo viejo"}),
        ("salten pozo viejo esta semana", "es", {"kind": "move", "field": "pozo viejo", "skip": True}),
    ],
)
def test_further_words_for_what_is_asked(text: str, language: Language, told: dict[str, Any]) -> None:
    assert asked(text, language) == [told]


def test_being_of_a_field_is_no_and() -> None:
    """ "É do cupim" behind a field puts it right; "e do cupim" would be one field more."""
    (command,) = asked("o que lancei na sete covas é do cupim", "pt")

    assert (command["kind"], command["value"]) == ("correct", "cupim")


@pytest.mark.parametrize(
    ("text", "language", "unseen", "other"),
    [
        ("tallow no look today and push bent oak to friday", "en", "tallow", "bent oak"),
        ("tallow didnt look, ran outta time :( can u remind me abt bent oak on friday", "en", "tallow", "bent oak"),
        ("cañada seca sin mirar y pasá pozo viejo al viernes", "es", "cañada seca", "pozo viejo"),
        ("Capão Alto: não foi possível olhar. Adie Sete Covas para sexta-feira.", "pt", "capão alto", "sete covas"),
        ("cupim não deu pra entrar e adia a sete covas pra sexta", "pt", "cupim", "sete covas"),
    ],
)
def test_a_field_not_looked_at_and_another_put_off(text: str, language: Language, unseen: str, other: str) -> None:
    """Neither is the note lost nor the reminder moved that of the field not looked at."""
    reading = read_note(text, sent=SENT, fields=FIELDS, language=language)

    assert not reading.problems
    assert [(note.field, note.outcome) for note in reading.notes] == [(unseen, "not_looked")]
    assert [(c.kind, c.args["field"], c.args["date"]) for c in reading.commands] == [("move", other, date(2026, 7, 10))]


@pytest.mark.parametrize(
    ("text", "language", "told"),
    [
        ("Please add a field called Mill Race. It lies near Tallow and has 62 acres.", "en", {"acres": 62}),
        ("New field: Mill Race. It is near Tallow and has 62 acres.", "en", {"acres": 62}),
        (
            "we picked up a new field it's called Mill Race it's near Tallow and it was planted on May fourteenth",
            "en",
            {"planted": date(2026, 5, 14)},
        ),
        ("Nuevo lote: Mill Race. Está cerca de Tallow y tiene 40 acres.", "es", {"acres": 40}),
    ],
)
def test_what_is_told_of_a_new_field_is_of_no_field_near_it(
    text: str, language: Language, told: dict[str, Any]
) -> None:
    assert asked(text, language) == [{"kind": "field", "name": "mill race", "near": "tallow", **told}]


def test_it_is_the_new_field() -> None:
    """What was planted on that day is the new field, and nothing is put right."""
    told = {"kind": "field", "name": "chapel road", "planted": date(2026, 5, 14)}

    assert asked("new field called Chapel Road. It was planted May 14") == [told]
    assert asked("we have a new field it's called Chapel Road and it was planted on May fourteenth") == [told]


def test_each_of_two_sentences_puts_something_right() -> None:
    assert asked("The soil at Tallow should read silt loam. The number of plants should read 9.") == [
        {"kind": "correct", "field": "tallow", "what": "texture", "value": "silt_loam"},
        {"kind": "correct", "field": "tallow", "what": "plants", "value": 9},
    ]
