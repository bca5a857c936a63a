"""What a message tells of another time, of other people or of nothing seen: no datum and no question comes of it."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from notes_bot.language import read_note
from notes_bot.model import Females, Reading

SENT = date(2026, 7, 8)
CREW = ("Kestrel", "Dry Creek", "Tinkers", "La Tranquera", "Bajo Grande", "Baixada", "Santa Rita")
BASES = {
    "en": "Kestrel: 6 plants dug, 12 white, moist loam, R1.\nDry Creek: 5 plants dug, none, dry, V6.\n",
    "es": "La Tranquera: 6 plantas con pala, 12 blancas, franco húmedo, R1.\nBajo Grande: 5 plantas, ninguna, V6.\n",
    "pt": "Baixada: 6 plantas com pá, 12 brancas, solo úmido, R1.\nSanta Rita: 5 plantas com pá, nenhuma, V6.\n",
}


def read(text: str, language: str = "en", fields: tuple[str, ...] = CREW) -> Reading:
    """One message of the crew's."""
    return read_note(text, sent=SENT, fields=fields, language=language, day_first=language != "en")  # type: ignore[arg-type]


def bare(reading: Reading) -> tuple[object, ...]:
    """A reading without its free text and places."""
    notes = tuple(replace(note, text="", where=None) for note in reading.notes)  # type: ignore[arg-type]
    return notes, reading.commands, reading.problems


OF_ANOTHER_TIME = (
    "Kestrel had nothing at all two weeks ago, so that one is on the move.",
    "On the June round Kestrel had 2 and Dry Creek none, so not much of a surprise.",
    "We'd had 60 on ten plants at Dry Creek last September.",
    "Kestrel was 10 or so a month back.",
    "Kestrel was 10 or so a month back, not happy about it.",
    "Compared with last August, when the same rows gave us over a hundred, that is a good result.",
    "Compared with June, Dry Creek is the same and Kestrel got worse.",
    "On the first look in June it was 11 white and nothing else at Kestrel.",
    "On the visit before this one we had 3 white at Kestrel.",
    "Two years ago I sat in that kitchen and told them a resistant bean would hold.",
    "Dry Creek was beans on beans in '23 and '24.",
    "Dry Creek was beans on beans in 2023 and 2024.",
    "I had zero on the same row at Dry Creek at the end of June.",
    "Kestrel had 3 white, 2 yellow last time.",
    "Last time Kestrel had 3 white, 2 yellow and 1 tan.",
    "Last year Kestrel was loaded, 40 on six plants.",
    "Kestrel was at V4 three weeks ago.",
    "Three weeks ago Dry Creek was V2 and none.",
    "Last visit Dry Creek had one white.",
    "In June we found 4 white at Dry Creek.",
    "Dry Creek had wheat last year, that is the only difference I can find.",
    "Back in June Kestrel gave us 3.",
    "Tinkers was full of cysts last year.",
    "Last season Tinkers had too many to count.",
    "The year before, Kestrel had none.",
    "A couple of weeks ago there were none at Kestrel.",
    "The previous look at Kestrel showed 5 white.",
)
OF_OTHERS = (
    "The neighbor on the same soil had maybe ten in total last week.",
    "The neighbor has none on his.",
    "My neighbor had 40 white on six of his.",
    "The neighbor's beans are yellow and full of females.",
    "The owner says Dry Creek had 12 last week.",
    "He says there were none last year.",
    "The grower on the next farm, who shares a baler with him, isn't so lucky.",
)
OF_NOTHING_SEEN = (
    "I think Dry Creek is an iron problem and not SCN.",
    "I would not plant beans there again before two seasons of corn.",
    "That is the third clean visit in a row.",
    "I'm not ready to call it free.",
    "Dry Creek is where I'd spend the sampling money.",
    "He asked what he did wrong. Nothing, I said.",
)
ES = (
    "La Tranquera no tenía nada hace dos semanas.",
    "La otra vez en La Tranquera habíamos visto apenas 4.",
    "En la visita anterior eran 6 en Bajo Grande.",
    "El año pasado La Tranquera estaba llena, 40 hembras en seis plantas.",
    "Comparado con junio, Bajo Grande sigue igual y La Tranquera empeoró.",
    "La semana pasada La Tranquera tenía 3 blancas.",
    "Hace un mes Bajo Grande estaba en V2 y tenía 1 blanca.",
    "A fines de junio La Tranquera tenía 2.",
    "El vecino tiene 40 blancas en lo suyo.",
    "El dueño dice que Bajo Grande tenía 12 la semana pasada.",
    "Creo que lo de Bajo Grande es hierro y no el nematodo.",
    "Yo no sembraría soja ahí de nuevo.",
    "Hace dos años La Tranquera era soja sobre soja.",
    "La última visita dio 5 blancas en La Tranquera.",
)
PT = (
    "A Baixada não tinha nada há duas semanas.",
    "Na visita anterior eram 6 na Baixada.",
    "No ano passado a Baixada estava cheia, 40 fêmeas em seis plantas.",
    "Na mesma época do ano passado a Baixada deu o dobro disso.",
    "Comparado com junho, a Santa Rita segue igual e a Baixada piorou.",
    "Na semana passada a Baixada tinha 3 brancas.",
    "Há um mês a Santa Rita estava em V2 e tinha 1 branca.",
    "No fim de junho a Baixada tinha 2.",
    "O vizinho tem 40 brancas na roça dele.",
    "O dono diz que a Santa Rita tinha 12 na semana passada.",
    "Acho que na Santa Rita é ferro e não o nematoide.",
    "Eu não plantaria soja ali de novo.",
    "Faz dois anos a Baixada era soja sobre soja.",
    "Da última vez deu 5 brancas na Baixada.",
)


@pytest.mark.parametrize(
    ("said", "language"),
    [
        *((said, "en") for said in (*OF_ANOTHER_TIME, *OF_OTHERS, *OF_NOTHING_SEEN)),
        *((said, "es") for said in ES),
        *((said, "pt") for said in PT),
    ],
)
def test_what_is_told_beside_the_notes_adds_nothing_to_them(said, language):
    """Neither a datum nor a note, nor a question or request: the notes are what they were without it."""
    base = BASES[language]

    assert bare(read(base + said, language)) == bare(read(base, language))


@pytest.mark.parametrize(
    "said",
    [
        "Last year it was loaded, 40 on six plants.",
        "A month ago it was 3.",
        "Last time 3 white.",
        "It was 12 in that field a month ago, when the beans were at V4.",
        "We had 3 white there on the visit before this one.",
        "The neighbor has none.",
        "Two weeks ago there was nothing at all.",
    ],
)
def test_it_is_put_aside_in_a_note_of_one_line_too(said):
    """Right behind what was found, with no field named again."""
    base = "Kestrel 6 plants dug, 12 white, R1."

    assert bare(read(f"{base} {said}")) == bare(read(base))


def test_its_words_are_kept_as_free_text():
    """Nobody's words are lost."""
    (note,) = read("Kestrel 6 plants dug, 12 white. A month ago it was 3.").notes

    assert "A month ago it was 3" in note.text


@pytest.mark.parametrize(
    ("text", "plants", "total"),
    [
        ("kestrel, last week had 12 white, today I dug 6 and only 4 white", 6, 4),
        ("Kestrel. On the visit before this one we had 3 white there. Today I dug 6 plants, 15 white.", 6, 15),
        ("Kestrel: last time it was 3 white. Now 12 white on 6 plants.", 6, 12),
        ("Kestrel had 3 white two weeks ago but today 12 on 6 plants", 6, 12),
        ("Kestrel 3 white two weeks ago, none today on 6 plants", 6, 0),
        ("Kestrel 6 plants 12 white, 3 last week", 6, 12),
        ("Kestrel last year corn, 6 plants 3 white", 6, 3),
        ("Dry Creek was loaded last year. Dug 5, none.", 5, 0),
        ("Kestrel V4 two weeks ago. R1 now, 6 plants 3 white", 6, 3),
    ],
)
def test_a_word_for_now_ends_it(text, plants, total):
    """What is of today is read, whatever stands before it."""
    (note,) = read(text).notes

    assert (note.plants, note.females.total) == (plants, total)


@pytest.mark.parametrize(
    ("text", "day", "plants", "females"),
    [
        ("Dug 6 at Kestrel two days ago: 3 white", date(2026, 7, 6), 6, Females(3, 0, 0, 0, 3)),
        ("Kestrel 2 days ago: 9 shovld, 1w+1y", date(2026, 7, 6), 9, Females(1, 1, 0, 0, 2)),
        ("Kestrel last week: 6 plants, 3 white", None, 6, Females(3, 0, 0, 0, 3)),
        ("Kestrel last week 4 dug. 3 white", None, 4, Females(3, 0, 0, 0, 3)),
        ("The neighbor helped and we dug 6 at Kestrel, 3 white", None, 6, Females(3, 0, 0, 0, 3)),
        ("Kestrel 6 plants by the neighbor's fence, 3 white", None, 6, Females(3, 0, 0, 0, 3)),
        ("Last trip of the year to Kestrel. 6 plants by shovel, 3 white.", None, 6, Females(3, 0, 0, 0, 3)),
        ("First whites of the year, Kestrel, 6 plants 3 white", None, 6, Females(3, 0, 0, 0, 3)),
    ],
)
def test_a_visit_told_late_or_beside_others_is_a_visit(text, day, plants, females):
    """Where nothing else is told of the field, it is what was found."""
    (note,) = read(text).notes

    assert (note.date, note.plants, note.females) == (day, plants, females)


def test_what_is_told_of_another_day_and_is_a_datum_stays():
    """Planting, spraying, the soil test, the next look, and what others say of the seed or the soil."""
    said = (
        "Kestrel 6 plants dug, 3 white. Planted two months ago. Glyphosate 2 weeks ago. K 92 last fall. "
        "He says it's clay loam. Look again in 10 days."
    )
    (note,) = read(said).notes

    assert note.planted == date(2026, 5, 8)
    assert note.spray is not None
    assert note.spray.days_ago == 14
    assert note.soil.k_ppm == 92
    assert note.soil.texture == "clay_loam"
    assert note.look_again is not None


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("Kestrel 6 plants, 3 white. What did Kestrel have last year?", "history"),
        ("Kestrel 6 plants 3 white. Show me the history of Kestrel from last year.", "history"),
        ("Kestrel white 14 last week not 12", "correct"),
    ],
)
def test_what_is_asked_of_another_time_is_asked(text, kind):
    """A question or a request is no aside."""
    assert [command.kind for command in read(text).commands] == [kind]


def test_without_a_count_of_its_own_nothing_is_put_aside():
    """Only another time's count: asked about, or read as told, but never lost."""
    reading = read("Kestrel had 12 white last week")

    assert reading.problems or reading.notes[0].females.total == 12


def test_two_fields_told_late_are_both_visits():
    """Each has its count in the sentence of another day, and none beside it."""
    first, second = read("Kestrel 6 plants, 3 white. Dry Creek two days ago 5 plants, 4 white.").notes

    assert (first.females.total, second.females.total) == (3, 4)
    assert second.date == date(2026, 7, 6)


@pytest.mark.parametrize(
    ("said", "tops", "roots"),
    [
        ("Yellow patch is bigger than last week.", ("yellow", "patch"), ()),
        ("Patch has been yellow since last week.", ("yellow", "patch"), ()),
        ("Stunted since two weeks ago.", ("stunted",), ()),
        ("Same as last year, tops yellow.", ("yellow",), ()),
        ("Unlike last year the tops are healthy.", ("healthy",), ()),
        ("Roots darker than last time.", (), ("dark",)),
        ("Stunted, corn last year.", ("stunted",), ()),
    ],
)
def test_what_is_now_stays_where_it_is_held_against_another_time(said, tops, roots):
    """ "Than last week" says nothing of when the patch was seen."""
    (note,) = read(f"Kestrel 6 plants 12 white. {said}").notes

    assert (note.tops, note.roots, note.females.total) == (tops, roots, 12)


def test_what_stands_before_last_years_crop_is_of_now():
    """Without stops between them."""
    (note,) = read("Kestrel R4 moist loam corn last year. 6 plants 3 white").notes

    assert (note.stage, note.soil.moisture, note.plants) == ("R4", "moist", 6)


@pytest.mark.parametrize(
    "said",
    [
        "My last look at Kestrel showed 3 white.",
        "It had 3 white when I was last there.",
        "Two summers back it had none.",
    ],
)
def test_other_words_for_an_earlier_visit(said):
    """One's own last look is another time too."""
    assert bare(read(f"Kestrel 6 plants 12 white. {said}")) == bare(read("Kestrel 6 plants 12 white."))


@pytest.mark.parametrize(
    "text",
    ["kestrel eggs 2400 per 100cc iowa, oct 22 2025", "kestrel 2400 eggs per 100 cc, 22 oct 2025"],
)
def test_a_whole_day_with_its_year_is_no_aside(text: str) -> None:
    (asked,) = read_note(text, sent=date(2026, 7, 8), fields=("Kestrel",)).commands

    assert asked.args["date"] == date(2025, 10, 22)
