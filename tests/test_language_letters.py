"""What makes a mail a letter says nothing of a field: salutation, subject line, signature, post scriptum."""

from __future__ import annotations

from datetime import date

import pytest

from notes_bot.language.letters import without_letter
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
