"""What is asked with a value of its own in free words: topics, spans, plans, corrections, new fields and looks."""

from __future__ import annotations

from datetime import date

import pytest

from notes_bot.language import help_text, read_note

SENT = date(2026, 7, 8)
CREW = (
    *("Kestrel", "Dry Creek", "Old Mill East", "La Tranquera", "Molino Viejo", "Baixada", "Santa Rita"),
    *("Harrow Ridge 3", "Tinker's", "North Forty"),
)


def _read(text: str):
    return read_note(text, sent=SENT, fields=CREW)


def _asked(text: str) -> dict[str, object]:
    """The one thing asked, where nothing is noted and nothing is asked back."""
    reading = _read(text)
    assert reading.problems == (), reading.problems
    assert reading.notes == ()
    (command,) = reading.commands
    return {"kind": command.kind, **command.args}


@pytest.mark.parametrize(
    ("text", "topic"),
    [
        ("i dont get how to send in a lab result, can you walk me thru it", "lab"),
        ("me dá uma ajuda com lab, não sei como passar o resultado", "lab"),
        ("necesito ayuda para mandar lo del laboratorio", "lab"),
        ("me explicás cómo cargo el resultado del lab", "lab"),
        ("como que eu mando o laudo?", "lab"),
        ("help lab", "lab"),
        ("help hg", "hg"),
        ("how do i send you an hg test", "hg"),
        ("need help w the HG stuff", "hg"),
        ("explain the HG test to me", "hg"),
        ("no entiendo bien lo del HG, me ayudás con eso", "hg"),
        ("cómo se manda la prueba HG?", "hg"),
        ("me ajuda com o teste HG que nunca fiz", "hg"),
        ("não entendi como funciona o HG", "hg"),
    ],
)
def test_help_with_the_lab_or_with_a_test(text, topic):
    """Each has a page of its own."""
    assert _asked(text) == {"kind": "help", "topic": topic}


@pytest.mark.parametrize("language", ["en", "es", "pt"])
def test_the_page_of_a_test(language):
    assert "2.5.7" in help_text("hg", language)


@pytest.mark.parametrize(
    ("text", "span"),
    [
        ("give me the rundown of the week for the whole crew", "week"),
        ("how did we do this week, all fields", "week"),
        ("what did everybody find this week", "week"),
        ("send me the weekly rundown", "week"),
        ("quiero un pantallazo de la semana", "week"),
        ("cierre de la semana por favor", "week"),
        ("como fechou a semana, me manda o resumo", "week"),
        ("season's over, give me the rundown on every field for the season", "season"),
        ("wrap up of the season for the crew", "season"),
        ("balance de la temporada de todos los lotes", "season"),
        ("mandame el balance de la campaña", "season"),
        ("fechou a safra, me manda o balanço de todos os talhões da temporada", "season"),
        ("apanhado da safra toda", "season"),
        ("give me the rundown of today", None),
        ("summary for today, busy week", None),
        ("resumo do dia", None),
    ],
)
def test_the_span_of_a_digest(text, span):
    """A week or a season, wherever in the sentence it is told; the day needs no word."""
    told = _asked(text)

    assert (told["kind"], told.get("span")) == ("digest", span)


@pytest.mark.parametrize(
    "text",
    [
        "che y kestrel cómo viene? hace rato que no sé nada",
        "Kestrel cómo anda? no sé nada de ese lote",
        "how's kestrel, haven't heard anything in a while",
        "i know nothing about kestrel, how is it",
    ],
)
def test_nothing_known_is_no_none_seen(text):
    """What nobody said or knows was not looked for on roots."""
    assert _asked(text) == {"kind": "state", "field": "kestrel"}


@pytest.mark.parametrize(
    ("text", "field"),
    [
        ("finge que eu não falei nada de santa rita, pode tirar o que mandei", "santa rita"),
        ("faz de conta que não disse nada da baixada", "baixada"),
        ("hagan de cuenta que no dije nada de molino viejo", "molino viejo"),
        ("fingí que no dije nada de la tranquera", "la tranquera"),
        ("pretend i never sent anything on kestrel", "kestrel"),
        ("act like i didn't say anything about tinkers, take it out", "tinkers"),
    ],
)
def test_as_if_nothing_was_sent(text, field):
    """What is to be forgotten is taken back."""
    assert _asked(text) == {"kind": "take_back", "field": field}


@pytest.mark.parametrize(
    ("text", "field", "plants", "total"),
    [
        ("how many? 31 on 6 plants at Kestrel, didn't sort the colors", "kestrel", 6, 31),
        ("how many you ask? 12 white on 5 plants dug at Kestrel", "kestrel", 5, 12),
        ("cuántas? 31 en 6 plantas en la tranquera", "la tranquera", 6, 31),
        ("quantas? 22 em 5 plantas na baixada", "baixada", 5, 22),
        ("history repeating itself at kestrel, 2 0 4 1 3 on five plants", "kestrel", 5, 10),
        ("la historia de siempre en la tranquera, 6 plantas con pala, 12 blancas", "la tranquera", 6, 12),
        ("a história se repete na baixada, 2 0 4 1 3 em 5 plantas", "baixada", 5, 10),
    ],
)
def test_a_note_that_only_sounds_like_a_question(text, field, plants, total):
    """How many, and the answer at once; a history that repeats itself."""
    reading = _read(text)
    (note,) = reading.notes

    assert (reading.commands, reading.problems) == ((), ())
    assert (note.field, note.plants, note.females.total) == (field, plants, total)
