"""Numbers and colors of talk beside a count: told again, of another time, of years, ages and hours, person by person."""

from __future__ import annotations

from datetime import date

import pytest

from notes_bot.language import read_note
from notes_bot.model import Note

SENT = date(2026, 7, 8)
CREW = ("Kestrel", "Old Mill East", "Tinker's", "Dry Creek", "La Tranquera", "Bajo Grande", "Baixada", "Santa Rita")


def read(text: str) -> Note:
    """The one note of a message of the crew's, read without a question."""
    reading = read_note(text, sent=SENT, fields=CREW)

    assert [problem.kind for problem in reading.problems] == []
    assert not reading.commands
    (note,) = reading.notes
    return note


@pytest.mark.parametrize(
    "talk",
    [
        "TWO! I was so happy I nearly dropped it.",
        "I know 2 isn't many.",
        "Clean enough. Told him about the flood of 93.",
        "The farmer told us about 1988.",
        "Anyone got a left hand door for a 98 pickup?",
        "Same as the summer of '88.",
        "Counted with my sister who is 10.",
        "She is fourteen.",
        "Everything dug between 7 and 1.",
        "The heat got me and I quit at 1.",
        "Had to be home by 5.",
        "I put two plants in a bag for the clinic.",
        "Took 3 plants home in the truck.",
        "That's the one to watch.",
        "Typing with one thumb.",
        "The farmer gave me 40 ears.",
        "My hands are still brown.",
        "Are there any more of those white tags",
        "People keep saying brown ones don't count.",
        "It was 10 on the first of july.",
        "Kestrel was 19 on the 3rd so it's not getting worse.",
        "That makes me wonder about all my zeros in June.",
        "Last time, in June, I'd 9 on six plants.",
        "My brother found 1 of them.",
    ],
)
def test_talk_beside_a_count_changes_nothing_and_asks_nothing(talk):
    """What no count can be is neither read nor asked about."""
    note = read(f"Kestrel dug 6, 2 white, R2. {talk}".replace("Clean enough. ", ""))

    assert (note.field, note.plants, note.females.white, note.females.total) == ("kestrel", 6, 2, 2)
    assert (note.date, note.stage, note.mostly, note.soil.moisture) == (None, "R2", (), None)


@pytest.mark.parametrize(
    "text",
    [
        "Bajo Grande saqué 6, 2 blancas. DOS! estaba feliz",
        "Bajo Grande saqué 6, 2 blancas. ya sé que 2 no es mucho",
        "Bajo Grande saqué 6, 2 blancas. el dueño me contó de la inundación del 83",
        "Bajo Grande saqué 6, 2 blancas. conté con mi hermana que tiene 10",
        "Bajo Grande saqué 6, 2 blancas. el calor me corrió a la 1",
        "Bajo Grande saqué 6, 2 blancas. todo entre las 7 y la 1",
        "Bajo Grande saqué 6, 2 blancas. dejé dos plantas en una bolsa para el laboratorio",
        "Bajo Grande saqué 6, 2 blancas. tengo las manos marrones",
        "Bajo Grande saqué 6, 2 blancas, el triple de lo que había el 2 cuando mandé 7",
        "Bajo Grande saqué 6, 2 blancas. eran 10 el primero de julio",
        "Baixada cavei 6, 2 brancas. DUAS! fiquei feliz",
        "Baixada cavei 6, 2 brancas. sei que 2 não é muito",
        "Baixada cavei 6, 2 brancas. o dono contou da enchente de 83",
        "Baixada cavei 6, 2 brancas. contei com minha irmã que tem 10",
        "Baixada cavei 6, 2 brancas. o calor me tirou à 1",
        "Baixada cavei 6, 2 brancas. tudo entre as 7 e a 1",
        "Baixada cavei 6, 2 brancas. deixei duas plantas num saco pra clínica",
        "Baixada cavei 6, 2 brancas. minhas mãos ainda estão marrons",
        "Baixada cavei 6, 2 brancas, o triplo do que tinha no dia 2 quando mandei 7",
        "Baixada cavei 6, 2 brancas. Eram 10 no dia 1",
    ],
)
def test_talk_beside_a_count_in_spanish_and_portuguese(text):
    """The same in the other two languages."""
    note = read(text)

    assert (note.plants, note.females.white, note.females.total, note.date) == (6, 2, 2, None)


@pytest.mark.parametrize(
    ("text", "plants", "counts"),
    [
        ("Kestrel: he dug five and found six females, i dug five and found eight, so fourteen", 10, (None, None, 14)),
        ("Kestrel eight dug, she had 5 on her four and I had 9 on mine so 14", 8, (None, None, 14)),
        ("Kestrel: His 5 plants had nothing, my 5 had 6 white.", 10, (6, 0, 6)),
        ("Kestrel: I dug 4 and got 3 white, my brother dug 4 and got 5 white", 8, (8, 0, 8)),
        ("Kestrel: I dug 4 and got 3 white, my brother dug 4 and got 2 yellow", 8, (3, 2, 5)),
        ("Kestrel: I pulled 4 and got 3 white, my brother pulled 4 and got none", 8, (3, 0, 3)),
        (
            "Bajo Grande: yo saqué 5 y encontré 6 hembras, él sacó 5 y encontró 8, catorce en total",
            10,
            (None, None, 14),
        ),
        ("Baixada: eu cavei 5 e achei 6 fêmeas, ele cavou 5 e achou 8, então catorze", 10, (None, None, 14)),
    ],
)
def test_what_several_dug_is_added_up(text, plants, counts):
    """What each of them dug and found is of one field; the sum told behind it says no more."""
    note = read(text)

    assert note.plants == plants
    assert (note.females.white, note.females.yellow, note.females.total) == counts


@pytest.mark.parametrize(
    ("text", "plants", "total", "mostly"),
    [
        ("Kestrel ten plants, 38 females, on average that is nearly 4 a plant", 10, 38, ()),
        ("Kestrel seven dug and fourteen found. She found eleven of them.", 7, 14, ()),
        ("Kestrel dug 8, washed, 12, mostly yellow", 8, 12, ("yellow",)),
        ("Kestrel dug 8, 22, more white than yellow but both", 8, 22, ("white", "yellow")),
        ("Kestrel 8 plants, dug, 13, more yel than anything", 8, 13, ("yellow",)),
        (
            "Kestrel twelve plants. Total females 44, mostly tan and brown, hardly any white left",
            12,
            44,
            ("tan", "brown"),
        ),
        (
            "Kestrel 6 plants with 17 females between them, mostly tan, with hardly a white one to be found",
            6,
            17,
            ("tan",),
        ),
        ("Kestrel dug eight and there wasn't one to be seen", 8, 0, ()),
        ("Kestrel 6 dug, nought.", 6, 0, ()),
        ("Kestrel dug 5, 9 brown, no white at all", 5, 9, ()),
        ("Kestrel dug 6, 30, that's 5 a plant, 10 w 12 y 8 t", 6, 30, ()),
        ("Kestrel, where it was nothing in June and nothing in May, gave me 3 females on eight dug plants", 8, 3, ()),
        (
            "Kestrel ten plants dug, 6 white + 6 yellow, that's treble what it was on the 2nd when I mailed in 4",
            10,
            12,
            (),
        ),
    ],
)
def test_counts_in_prose(text, plants, total, mostly):
    """A count told in a sentence, with what is said of it."""
    note = read(text)

    assert (note.plants, note.females.total, set(note.mostly)) == (plants, total, set(mostly))


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel dug 6, 2 white. 2",
        "Kestrel dug 6, 2 white. 5!",
        "Kestrel dug 6, 2 white. I know 5 isn't many.",
        "Kestrel dug 6, 2 white. Saw 40 on the last one",
        "Kestrel: I dug 4 and got 3 white, my brother dug 4 and got 5",
        "Kestrel: he dug five and found six females, i dug five and found eight, so fifteen",
        "Kestrel dug 6, 12 white and 17 there",
    ],
)
def test_a_number_that_may_be_a_datum_is_asked_about(text):
    """What may be counted, or contradicts what was, is not passed over."""
    assert read_note(text, sent=SENT, fields=CREW).problems


def test_beans_said_to_be_resistant_are_told_and_not_put_right():
    """ "Supposed to be" behind the crop tells of its seed."""
    note = read("Dug Kestrel, six plants, 4 white. The beans there are supposed to be resistant, PI 88788 on the bag.")

    assert note.variety is not None
    assert (note.variety.resistance, note.variety.source) == ("resistant", "PI 88788")
