"""Counts of a message put right further down in it are changed where they stand."""

from datetime import date

import pytest

from notes_bot.language import read_note
from notes_bot.model import Note

FIELDS = ("Kestrel", "Dry Creek", "La Tranquera", "Bajo Grande", "Santa Rita", "Boa Sombra")
KESTREL = "Kestrel: 6 plants dug, 9 white, V5.\nDry Creek: 6 plants dug, none.\n"
PLACES = "Kestrel in two places.\nCreek side: 5 plants, 9 white, 4 tan.\nTop end: 5 plants, 1 white, 2 tan.\n"
TRANQUERA = "La Tranquera: 7 plantas con pala, 10 blancas, 8 amarillas.\nBajo Grande: 10 plantas con pala, nada.\n"
RITA = "Santa Rita: 6 plantas com a pá, 3 amarelas, 5 bege.\nBoa Sombra: 6 plantas com a pá, nenhuma.\n"


def _notes(text: str) -> tuple[list[Note], list[str]]:
    reading = read_note(text, sent=date(2026, 7, 8), fields=FIELDS)
    assert not reading.problems
    return list(reading.notes), [command.kind for command in reading.commands]


@pytest.mark.parametrize(
    ("text", "plants", "shades"),
    [
        (f"{KESTREL}Scratch that on Kestrel, I miscounted. It was 11.", 6, (11, 0, 0, 0)),
        (f"{KESTREL}Hang on, Kestrel should say 2 white, there was another one in the bag just now.", 6, (2, 0, 0, 0)),
        (
            f"{KESTREL}Looking at my clipboard again, it was 8 plants at Kestrel too, and still 9 white.",
            8,
            (9, 0, 0, 0),
        ),
        (f"{KESTREL}An error above: the white count for Kestrel should read 6.", 6, (6, 0, 0, 0)),
        (f"{KESTREL}Slip up there, Kestrel was 7 plants. The 9 females stand.", 7, (9, 0, 0, 0)),
        (f"{KESTREL}Sorry, at Kestrel it was 7 plants.", 7, (9, 0, 0, 0)),
        (f"{PLACES}Wait, I see on the sheet that the top end was 2 white, not 1.", 10, (11, 0, 6, 0)),
        (f"{PLACES}My bad, creek side was 4 plants, not 5.", 9, (10, 0, 6, 0)),
        (
            f"{TRANQUERA}Corrijo lo de La Tranquera, las amarillas eran 6 y no 8, había sumado dos veces la última.",
            7,
            (10, 6, 0, 0),
        ),
        (f"{TRANQUERA}Mi señora encontró otra amarilla de La Tranquera, así que son 9 amarillas.", 7, (10, 9, 0, 0)),
        (
            "La Tranquera: 7 plantas con pala, 10 blancas.\nBueno, releyendo: son 9, la décima era arena.",
            7,
            (9, 0, 0, 0),
        ),
        (
            "La Tranquera: arranqué cinco plantas, 3 blancas.\nPerdón, releo y no fueron cinco sino seis las que arranqué.",
            6,
            (3, 0, 0, 0),
        ),
        (
            "La Tranquera en dos lugares.\nCabecera: 5 plantas, 14 blancas.\nBajo: 5 plantas, 2 blancas.\n"
            "Ojo, me equivoqué: en el bajo fueron 4 blancas.",
            10,
            (18, 0, 0, 0),
        ),
        (f"{RITA}Corrijo a Santa Rita: 4 amarelas em vez de 3.", 6, (0, 4, 5, 0)),
        (f"{RITA}Ah, na Santa Rita eram 4 amarelas, a quarta estava no fundo do saquinho.", 6, (0, 4, 5, 0)),
    ],
)
def test_a_count_is_put_right_where_it_stands(text: str, plants: int, shades: tuple[int, ...]) -> None:
    notes, commands = _notes(text)
    females = notes[0].females
    assert commands == []
    assert notes[0].plants == plants
    assert (females.white, females.yellow, females.tan, females.brown) == shades
    assert len(notes) == len({note.field for note in notes})


@pytest.mark.parametrize(
    "text",
    [
        "In my last note on Kestrel I gave you 12 white; it should have been 21, I turned the figures around.",
        f"{KESTREL}In my last note on Kestrel I put 8 white, but it should be 5.",
    ],
)
def test_another_message_is_not_put_right_here(text: str) -> None:
    reading = read_note(text, sent=date(2026, 7, 8), fields=FIELDS)
    assert all(note.females.white in (0, 9) for note in reading.notes)


def test_what_one_looks_forward_to_puts_nothing_right() -> None:
    notes, _ = _notes(f"{KESTREL}The boss says to wait. Can't wait to see a real one!")
    assert [note.females.total for note in notes] == [9, 0]
