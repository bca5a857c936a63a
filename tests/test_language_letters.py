"""What makes a mail a letter says nothing of a field: salutation, subject line, signature, post scriptum."""

from __future__ import annotations

from datetime import date

import pytest

from notes_bot.language.layout.letters import without_letter
from notes_bot.language.reader import read_note
from notes_bot.model import Language, Reading

SENT = date(2026, 7, 8)
FIELDS = (
    "Kestrel",
    "Old Mill East",
    "Dry Creek",
    "Vesper",
    "Gantry",
    "West Forty",
    "La Tranquera",
    "Lote 7",
    "Baixada",
)
BODY: dict[Language, str] = {
    "en": "Kestrel: 6 plants dug, 4 white. Loam, moist, R1.",
    "es": "La Tranquera: 6 plantas con pala, 4 blancas. Suelo franco húmedo, R1.",
    "pt": "Baixada: 6 plantas com pá, 4 brancas. Solo franco úmido, R1.",
}
NAMES: dict[Language, str] = {"en": "kestrel", "es": "la tranquera", "pt": "baixada"}


def _read(text: str, language: Language = "en", fields: tuple[str, ...] = FIELDS) -> Reading:
    return read_note(text, sent=SENT, fields=fields, language=language)


def _only_body(reading: Reading, language: Language) -> None:
    (note,) = reading.notes
    assert not reading.commands
    assert not reading.problems
    assert (note.field, note.plants, note.females.white, note.females.total) == (NAMES[language], 6, 4, 4)
    assert (note.soil.moisture, note.soil.texture, note.stage) == ("moist", "loam", "R1")
    assert (note.look_again, note.date, note.tops, note.mostly) == (None, None, (), ())


SALUTATIONS: list[tuple[Language, str]] = [
    ("en", "Dear planning group,"),
    ("en", "Good evening to the office,"),
    ("en", "Hello from the river route."),
    ("en", "Dear friends of the road less traveled,"),
    ("en", "To the supervisor,"),
    ("en", "Hi folks,"),
    ("en", "Good morning everybody,"),
    ("en", "Dear Sir or Madam at the desk,"),
    ("en", "Dear grower, dear desk,"),
    ("en", "Evening all,"),
    ("en", "Hello from the shop,"),
    ("es", "Estimado equipo:"),
    ("es", "Buenas tardes a todos,"),
    ("es", "Estimada jefa:"),
    ("es", "Hola gente,"),
    ("es", "Queridos compañeros de ruta,"),
    ("es", "Buen día a todo el equipo,"),
    ("pt", "Prezada equipe,"),
    ("pt", "Bom dia a todos."),
    ("pt", "Oi pessoal,"),
    ("pt", "Caros colegas da cooperativa,"),
    ("pt", "Boa tarde, pessoal,"),
]
SIGNATURES: list[tuple[Language, str]] = [
    ("en", "Your consultant"),
    ("en", "Kind regards, the area agronomist"),
    ("en", "Regards,\nScout, west route"),
    ("en", "Yours,\nextension agent (retired, supposedly)"),
    ("en", "See you at the field day,\nagronomist"),
    ("en", "Until next week,\nyour agronomist"),
    ("en", "Talk tomorrow,\ntrainee"),
    ("en", "Happy holiday,\nthe agronomist on call"),
    ("en", "Scout for the clay country"),
    ("en", "Consultant and owner of half a spade"),
    ("en", "Sincerely,\nthe consultant with the muddy dog"),
    ("en", "More when I've slept,\nyour consultant"),
    ("en", "See you at the meeting.\nField scout"),
    ("en", "Greetings from the plot crew"),
    ("en", "the Wednesday scout"),
    ("en", "Consultant, north end"),
    ("en", "co-op agronomist"),
    ("en", "Best wishes,\nthe river route"),
    ("es", "Saludos,\nel asesor de la zona"),
    ("es", "Un abrazo, el asesor"),
    ("es", "Saludos del técnico"),
    ("es", "La encargada de monitoreo"),
    ("es", "Nos vemos el viernes en el asado, el técnico"),
    ("es", "Hasta mañana,\nla pasante de campo"),
    ("es", "Slds, técnico de ensayos"),
    ("pt", "Atenciosamente,\nengenheiro agrônomo"),
    ("pt", "Abraço, a estagiária"),
    ("pt", "Até a próxima safra, o agrônomo"),
    ("pt", "Att., agrônomo da cooperativa"),
    ("pt", "Desculpem a confusão, a técnica"),
    ("pt", "Bom Natal a todos,\nas duas estagiárias"),
]


@pytest.mark.parametrize(("language", "salutation"), SALUTATIONS)
def test_a_salutation_tells_nothing(language: Language, salutation: str) -> None:
    _only_body(_read(f"{salutation}\n\n{BODY[language]}", language), language)


@pytest.mark.parametrize(("language", "salutation"), SALUTATIONS)
def test_a_salutation_is_no_name_where_no_list_is_known(language: Language, salutation: str) -> None:
    _only_body(_read(f"{salutation}\n{BODY[language]}", language, ()), language)


@pytest.mark.parametrize(("language", "signature"), SIGNATURES)
def test_who_signs_tells_nothing(language: Language, signature: str) -> None:
    _only_body(_read(f"{BODY[language]}\n\n{signature}", language), language)


@pytest.mark.parametrize(("language", "signature"), SIGNATURES)
def test_who_signs_is_no_name_where_no_list_is_known(language: Language, signature: str) -> None:
    _only_body(_read(f"{BODY[language]}\n{signature}", language, ()), language)


@pytest.mark.parametrize(
    "subject",
    ["Subject: wet week", "Subject: Kestrel", "Subject: Kestrel, second look", "Re: reminder Kestrel", "Fwd: notes"],
)
def test_a_subject_line_above_a_note_of_its_own_name(subject: str) -> None:
    _only_body(_read(f"{subject}\n\n{BODY['en']}"), "en")


@pytest.mark.parametrize("subject", ["Re: reminder Gantry", "Subject: Gantry", "RE: Gantry, your reminder"])
def test_a_subject_line_names_the_field(subject: str) -> None:
    reading = _read(f"{subject}\n\nDone. Six plants with the spade, 17 white, moist silt loam, R1.\nThe scout")
    (note,) = reading.notes
    assert not reading.commands
    assert (note.field, note.plants, note.females.white, note.stage) == ("gantry", 6, 17, "R1")


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel 6 plants 4 white\nWest Forty",
        "Kestrel 6 plants 4 white. Thanks, Jo",
        "Dear Creek 6 plants dug, none",
        "Hi Kestrel, 6 plants dug",
        "Regards, the agronomist",
        "Kestrel 6 dug\nscout saw none",
        "Kestrel 6 dug 4 white\nlook again in 2 weeks, crew",
        "Kestrel 6 dug 4 white\nSee you in 2 weeks",
        "Re: Kestrel 6 plants none",
        "Hola La Tranquera, 6 plantas, ninguna",
        "pd 6 plants at kestrel, none",
    ],
)
def test_what_may_tell_of_a_field_stays(text: str) -> None:
    for language in ("en", "es", "pt"):
        assert without_letter(text, language, FIELDS) == text


def test_a_line_left_out_leaves_its_break() -> None:
    assert without_letter("Dear all,\nKestrel 6 dug 4 white\nScout", "en", FIELDS) == "\nKestrel 6 dug 4 white\n"


TALK: list[tuple[Language, str]] = [
    ("en", "My back says that is enough digging for one week."),
    ("en", "I will bring the roots to the Monday meeting in a bag."),
    ("en", "Enjoy the fireworks, mind the dry grass."),
    ("en", "If it dries up a bit I can finish the list this week."),
    ("en", "I'll ring him about the key."),
    ("en", "The heat is to break Thursday, they say."),
    ("en", "Funny how that goes; on Thursday my wife found her ring in the car."),
    ("en", "I had my nephew along on Tuesday."),
    ("en", "My knees want a week of rest."),
    ("en", "That is all for tonight."),
    ("es", "Les llevo las raíces a la reunión del lunes."),
    ("es", "Si llueve termino la semana que viene."),
    ("es", "Mi mujer dice que el viernes hay asado."),
    ("pt", "Se chover termino na semana que vem."),
    ("pt", "Vou levar as raízes para a reunião de segunda."),
    ("pt", "Minha coluna pede uma semana de descanso."),
]


@pytest.mark.parametrize(("language", "talk"), TALK)
def test_talk_behind_the_last_note_tells_nothing_of_it(language: Language, talk: str) -> None:
    _only_body(_read(f"{BODY[language]}\n{talk}", language), language)


@pytest.mark.parametrize(
    "told",
    [
        "Could not dig, my back hurts.",
        "Skip dry creek, I'll ring him first",
        "If it dries look again in 5 days",
        "Enjoy. Tops stunted",
        "My truck is stuck, not looked",
    ],
)
def test_talk_that_tells_something_stays(told: str) -> None:
    text = f"Kestrel\n{told}"
    assert without_letter(text, "en", FIELDS).endswith(told.rsplit(". ", maxsplit=1)[-1])


@pytest.mark.parametrize(
    ("language", "heading"),
    [
        ("es", "Resultados de la semana, los mando juntos."),
        ("es", "Buenas, va lo de la semana."),
        ("es", "Hola a todos, informe corto de La Tranquera:"),
        ("pt", "Boa tarde, começando a safra:"),
        ("pt", "Bom dia, a semana até aqui:"),
        ("en", "Notes from the week:"),
    ],
)
def test_a_heading_asks_for_no_report(language: Language, heading: str) -> None:
    _only_body(_read(f"{heading}\n{BODY[language]}", language), language)


RIGHT: list[tuple[Language, str, str, dict[str, object]]] = [
    ("en", "Vesper: 6 plants dug, 3 white", "PS: I mistyped, Vesper was 5 white, not 3.", {"white": 5, "total": 5}),
    ("en", "Vesper: 6 plants dug, 3 white", "P.S. Correction, Vesper was nine plants, not six.", {"plants": 9}),
    ("en", "Vesper: 6 plants dug, 3 white, 2 yellow", "Sorry, Vesper yellow was 4 not 2", {"yellow": 4, "total": 7}),
    ("en", "Vesper: 6 plants dug, 3 white, R2", "PS Vesper was R3, not R2", {"stage": "R3"}),
    ("en", "Vesper: 6 plants dug, 3 white, moist", "PS: Vesper soil was dry, not moist", {"moisture": "dry"}),
    ("en", "Vesper: 6 plants dug, 3 white", "PS: that should be 9 white, not 3", {"white": 9, "total": 9}),
    ("es", "Lote 7: 6 plantas con pala, 8 blancas", "PD: Lote 7 eran 9 blancas, no 8", {"white": 9, "total": 9}),
    ("es", "La Tranquera: 6 plantas, 8 blancas", "P.D. En La Tranquera fueron 7 plantas, no 6", {"plants": 7}),
    ("pt", "Baixada: 6 plantas com pá, 8 brancas", "PS: errei, Baixada foram 9 brancas, não 8", {"white": 9}),
]


@pytest.mark.parametrize(("language", "noted", "again", "told"), RIGHT)
def test_a_note_put_right_in_its_own_message(
    language: Language, noted: str, again: str, told: dict[str, object]
) -> None:
    reading = _read(f"{noted}.\n{again}", language)
    (note,) = reading.notes
    assert not reading.commands
    assert [remark.kind for remark in reading.remarks] == ["near_word"]
    for key, value in told.items():
        holder = next(part for part in (note.females, note.soil, note) if hasattr(part, key))
        assert getattr(holder, key) == value


@pytest.mark.parametrize(
    "again",
    [
        "PS: Kestrel was 9 white, not 12",
        "In my last note on Kestrel the white should be 14, not 8",
        "Yesterday's note: kestrel white 14 not 8",
    ],
)
def test_what_is_put_right_of_another_note_stays_a_correction(again: str) -> None:
    reading = _read(f"Kestrel: 6 plants dug, 8 white.\n{again}")
    assert [command.kind for command in reading.commands] == ["correct"]
    assert reading.notes[0].females.white == 8


def test_a_count_a_plant_list_hangs_on_is_not_put_right_here() -> None:
    reading = _read("Kestrel: 6 plants dug: 3 0 2 1 0 0 white.\nPS: Kestrel was 9 white, not 6")
    assert reading.notes[0].females.total == 6
    assert reading.commands[0].kind == "correct"


MORE: list[tuple[Language, str, str, object]] = [
    ("en", "Look again in 10 days at Kestrel.", "look_again", 10),
    ("en", "I'll go back to Kestrel in 2 days.", "look_again", 2),
    ("en", "Second look at Kestrel in 9 days", "look_again", 9),
    ("en", "Kestrel: recheck in 5 days", "look_again", 5),
    ("en", "Tops at Kestrel are stunted.", "tops", ("stunted",)),
    ("en", "Kestrel was at R2.", "stage", "R2"),
    ("es", "Vuelvo a La Tranquera en 10 días.", "look_again", 10),
    ("pt", "Volto na Baixada em 10 dias.", "look_again", 10),
]
FIRST: dict[Language, str] = {
    "en": "Kestrel: 6 plants dug, 4 white.\nDry Creek: 6 plants dug, none.",
    "es": "La Tranquera: 6 plantas con pala, 4 blancas.\nLote 7: 6 plantas con pala, ninguna.",
    "pt": "Baixada: 6 plantas com pá, 4 brancas.\nLote 7: 6 plantas com pá, nenhuma.",
}


@pytest.mark.parametrize(("language", "more", "key", "value"), MORE)
def test_one_thing_more_goes_to_the_note_of_its_field(language: Language, more: str, key: str, value: object) -> None:
    reading = _read(f"{FIRST[language]}\n{more}", language)
    first, second = reading.notes
    told = getattr(first, key)
    assert (told.days if key == "look_again" else told) == value
    assert not getattr(second, key)
    assert not reading.commands
    assert not reading.problems
