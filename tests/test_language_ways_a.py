"""Ways to say that none were seen, that nobody looked, that there were too many, and how many plants had any."""

from __future__ import annotations

from datetime import date

import pytest

from notes_bot.language import read_note
from notes_bot.model import Reading

SENT = date(2026, 7, 8)
CREW = ("Kestrel", "Old Mill", "Dry Creek", "La Tranquera", "Molino Viejo", "Baixada", "Santa Rita", "Lote 7")


def quiet(language: str, text: str) -> Reading:
    """A message that raises no question."""
    reading = read_note(text, sent=SENT, fields=CREW, language=language, day_first=language != "en")  # type: ignore[arg-type]
    assert not reading.problems, [problem.kind for problem in reading.problems]
    return reading


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "kestrel 6 plants neg for cysts"),
        ("en", "dry creek 6 plants, SCN not detected"),
        ("en", "every root spotless at kestrel. 6 plants"),
        ("es", "Por suerte las 6 plantas de molino viejo estaban libres de nematodo"),
        ("pt", "baixada 6 plantas, negativo pra cisto"),
    ],
)
def test_none_seen_in_words_of_a_laboratory_and_of_the_field(language, text):
    """Negative, not detected, free of."""
    (note,) = quiet(language, text).notes

    assert (note.plants, note.outcome, note.females.total) == (6, "none_seen", 0)


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "old mill no time for roots"),
        ("en", "Sorry, did not get around to digging Kestrel today, kid was sick"),
        ("en", "dry creek passed on digging, too hot"),
        ("en", "kestrel tops only, no roots"),
        ("pt", "baixada não deu tempo de cavar"),
        ("pt", "santa rita caiu um toró e larguei antes de cavar"),
    ],
)
def test_nobody_looked_and_why(language, text):
    """The reason differs, the outcome does not."""
    (note,) = quiet(language, text).notes

    assert note.outcome == "not_looked"


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "old mill 6 plants covered so thick you cant count em"),
        ("en", "kestrel 6 plants, a count is hopeless, they're everywhere"),
        ("en", "old mill 6 plants, cant put a number on it there's that many, lost count"),
        ("es", "Lote 7: 6 plantas con tantísimas hembras que abandoné el conteo"),
        ("es", "en la tranquera ni las conté de la cantidad que había, 6 plantas"),
        ("pt", "na baixada desisti da contagem de tão infestado, 6 pés"),
    ],
)
def test_past_counting_in_words_of_ones_own(language, text):
    """So many that nobody could count them; giving up the count is no giving up of the look."""
    (note,) = quiet(language, text).notes

    assert (note.plants, note.too_many, note.outcome) == (6, True, "seen")


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "dry creek 6 plants, several cysts"),
        ("en", "kestrel 6 plants pos for scn"),
        ("en", "old mill 6 plants picked up a scattering of cysts"),
        ("es", "molino viejo 6 plantas detectamos hembras"),
        ("pt", "na baixada já começou a aparecer fêmea, 6 pés"),
    ],
)
def test_some_seen_and_not_counted(language, text):
    """Seen is said, how many is not."""
    (note,) = quiet(language, text).notes

    assert (note.plants, note.outcome, note.females.total) == (6, "seen", None)


@pytest.mark.parametrize(
    ("language", "text", "plants"),
    [
        ("en", "only one plant out of 10 with any cysts at old mill", 10),
        ("en", "one lone plant in six showed females at kestrel", 6),
        ("en", "old mill 4/6 plants w cysts", 6),
        ("en", "dry creek 2 plants had cysts, other 4 nothing", 6),
        ("en", "kestrel 6 for 6 on cysts", 6),
        ("en", "dry creek 20 plants, 5 came up positive", 20),
        ("es", "molino viejo 2 plantas con hembras y 4 limpias", 6),
        ("es", "en la tranquera las 6 plantas tenían quistes", 6),
        ("pt", "santa rita um pezinho só dos 5 tava com cisto", 5),
        ("pt", "baixada 10 pés, 4 deram positivo", 10),
    ],
)
def test_how_many_plants_had_any_is_no_count_of_females(language, text, plants):
    """How many were dug is kept, that some were seen too; no share is a day, and none a list."""
    (note,) = quiet(language, text).notes

    assert (note.plants, note.outcome, note.females.total, note.per_plant) == (plants, "seen", None, None)
    assert note.date is None


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "not one of the 6 plants at kestrel was free of cysts"),
        ("es", "molino viejo no se salvó ninguna de las 6 plantas, todas con quistes"),
        ("pt", "santa rita não escapou nenhum dos 6 pés, cisto em todos"),
    ],
)
def test_none_without_is_all_with(language, text):
    """The word for none tells of those that had none."""
    (note,) = read_note(text, sent=SENT, fields=CREW, language=language).notes

    assert note.outcome == "seen"


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "kestrel 4 of the 6 plants stunted, none on roots"),
        ("en", "kestrel 3/10 plants yellow, dug 6 none"),
    ],
)
def test_how_many_plants_look_ill_is_no_share_with_females(language, text):
    """None were seen; the number before tells of the tops, and is no day of the winter taken for the visit."""
    reading = read_note(text, sent=SENT, fields=CREW, language=language)

    assert reading.notes[0].outcome == "none_seen" and reading.notes[0].date is None


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "kestrel 5 of 6 plants clean"),
        ("es", "la tranquera 5 de 6 plantas limpias"),
        ("pt", "baixada 5 de 6 pés limpos"),
    ],
)
def test_all_but_one_clean_is_some_seen(language, text):
    """And no count of zero."""
    (note,) = quiet(language, text).notes

    assert (note.plants, note.outcome, note.females.total) == (6, "seen", None)


@pytest.mark.parametrize(
    "text",
    [
        "kestrel 6 plants. SCN positive field from last year",
        "kestrel 6 plants. soil cysts last fall 2400 eggs",
        "kestrel 6 plants. will count females tonight",
        "kestrel 6 plants looking for cysts",
    ],
)
def test_cysts_that_were_not_seen_on_these_plants_are_asked_about(text):
    """Another year's, a sample's, those looked for."""
    reading = read_note(text, sent=SENT, fields=CREW, language="en")

    assert [problem.kind for problem in reading.problems] == ["no_finding"] and reading.notes[0].outcome is None


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "kestrel 6 plants, grower says he has cysts"),
        ("en", "kestrel 6 plants, cysts supposed to be here"),
        ("en", "kestrel 6 plants, SCN scouting done"),
        ("en", "kestrel 6 plants, hard to see cysts"),
        ("en", "kestrel 6 plants, females?"),
        ("es", "la tranquera 6 plantas, el dueño dice que tiene quistes"),
        ("pt", "baixada 6 pés, o dono fala que tem cisto"),
        ("pt", "baixada 6 pés, monitoramento de nematoide"),
    ],
)
def test_talk_of_cysts_is_no_finding(language, text):
    """Only words of seeing or of some being there make a look a find: a field is called infested on it."""
    reading = read_note(text, sent=SENT, fields=CREW, language=language)

    assert not reading.commands and all(note.outcome != "seen" for note in reading.notes)


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("es", "molino viejo arranqué 6 plantas y las hembras brillaron por su ausencia"),
        ("es", "en molino viejo miré 6 plantas pero de hembras ni el perfume"),
        ("es", "molino viejo 6 plantas y ni sombra de hembras"),
        ("pt", "baixada 6 plantas e nem cheiro de fêmea"),
        ("pt", "baixada 6 plantas, as fêmeas não deram as caras"),
        ("en", "kestrel dug 6, not a whiff of a female"),
        ("en", "kestrel dug 6, females nowhere to be found"),
    ],
)
def test_none_seen_in_figures_of_speech(language, text):
    """Their absence, not even their scent."""
    (note,) = quiet(language, text).notes

    assert (note.plants, note.outcome, note.females.total) == (6, "none_seen", 0)
