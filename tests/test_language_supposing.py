"""Names of fields where no list of them is at hand: found by their surroundings, wherever they stand."""

from __future__ import annotations

import random
from datetime import date
from pathlib import Path

import pytest

from notes_bot.language import learn_names, read_note
from notes_bot.language.learn_names import Namer, examples, learn_signs, locate, names_told, renamed, without_name
from notes_bot.language.lexicon.scan import scan
from notes_bot.language.names import supposing
from notes_bot.language.names.choosing import best_reading
from notes_bot.language.names.supposing import BEGINS, GOES_ON, NONE, Guess, guesses, spans
from notes_bot.language.reader import pieces_of, plainly
from notes_bot.language.score import alone, corpus, score
from notes_bot.model import Reading

SENT = date(2026, 7, 8)
CORPUS = Path(__file__).parent / "corpus"


def _read(text: str) -> Reading:
    return read_note(text, sent=SENT)


@pytest.mark.parametrize(
    ("text", "field"),
    [
        ("pulled six at marlow draw this morning, no females", "marlow draw"),
        ("Finally made it out to Gander Lake today. Dug 5 plants, 3 white.", "gander lake"),
        ("half a dozen plants from hickory bend, shovel, 7 yellow in all", "hickory bend"),
        ("dry fork looks rough, yellow ring by the road. dug 4, 31 white", "dry fork"),
        ("dug 6 pl in teller hill, 4w 2y", "teller hill"),
        ("olhei 6 pés na vargem do sapo, 3 brancas", "vargem do sapo"),
        ("Na Grota Funda, 6 plantas: 0, 2, 1, 0, 0 e 3, todas amarelas.", "grota funda"),
        ("fui a loma pelada el jueves y saqué 8 matas con pala, 35 amarillas", "loma pelada"),
        ("Saqué 6 plantas en El Chañar, ninguna hembra. R3", "el chañar"),
        ("Buenas, le cuento que en Los Talas está en R4, saqué diez plantas con pala, 12 amarillas", "los talas"),
    ],
)
def test_a_name_is_found_in_the_midst_of_a_sentence(text: str, field: str) -> None:
    reading = _read(text)

    assert [note.field for note in reading.notes] == [field]
    assert not reading.problems
    assert reading.notes[0].plants is not None and reading.notes[0].outcome is not None


@pytest.mark.parametrize(
    ("text", "kind", "field"),
    [
        ("how's teller hill doing", "state", "teller hill"),
        ("Please postpone Gander Lake by five days.", "move", "gander lake"),
        ("hey can i see the history for marlow draw", "history", "marlow draw"),
        ("o que já deu na vargem do sapo? manda o histórico", "history", "vargem do sapo"),
        ("cómo viene loma pelada?", "state", "loma pelada"),
        ("quit reminding me about hickory bend", "mute", "hickory bend"),
        ("Correction please: for Gander Lake I wrote V5 but the stage should be V6.", "correct", "gander lake"),
    ],
)
def test_what_is_asked_of_a_field_no_list_has(text: str, kind: str, field: str) -> None:
    (command,) = _read(text).commands

    assert (command.kind, command.args["field"]) == (kind, field)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("T14 V4 dug 8p 6w, dry", [("t14", 8, 6)]),
        ("t3 6 pl arranq: 1 4 0 0 2 5. suelo seco", [("t3", 6, 12)]),
        ("t9 nada. 8 pl arrancadas, R1", [("t9", 8, 0)]),
        ("11b none on 8 dug, V4", [("11b", 8, 0)]),
        ("17B: 6 dug, 4 white 3 brown", [("17b", 6, 7)]),
        ("23A dug 6, 4 white", [("23a", 6, 4)]),
        ("T2: R1, 8 pl dug, 5 w 1 y. T8: R1, 8 pl dug, 0", [("t2", 8, 6), ("t8", 8, 0)]),
        ("D7 W9 / D4 W4, 5 plants each, dug", [("d7", 5, 9), ("d4", 5, 4)]),
        ("ALL 6 PLANTS\nA12 = 9 w 2 y\nA17 = 0\nB3 = 1 w", [("a12", 6, 11), ("a17", 6, 0), ("b3", 6, 1)]),
        ("6w 2y 5 pl dug", [(None, 5, 8)]),
        ("6W. 5 plants dug", [(None, 5, 6)]),
        ("6W on 5 plants, 3 tan", [(None, 5, 9)]),
        ("w9 y3 on 6 pl", [(None, 6, 12)]),
        ("t12 5 pl dug", [(None, 5, 12)]),
        ("6 pl, pala: 3b 2a", [(None, 6, 5)]),
    ],
)
def test_a_letter_and_a_number_name_a_field_where_they_count_nothing(
    text: str, told: list[tuple[str | None, int, int]]
) -> None:
    reading = _read(text)

    assert [(note.field, note.plants, note.females.total) for note in reading.notes] == told
    assert not reading.problems


@pytest.mark.parametrize(
    ("text", "field"),
    [
        ("orland 6 dug 0, dry", "orland"),
        ("orland 6 pulled none", "orland"),
        ("Cerro Gacho 8 con pala, ninguna", "cerro gacho"),
        ("hwy 9 dug 6 none", "hwy 9"),
        ("section 4 dug 6 none", "section 4"),
        ("Plot 7 dug 12 white on 5 plants", "plot 7"),
        ("Teller Hill shows yellow edges on old leaves. Dug 4, none.", "teller hill"),
        ("regarding teller hill, dug 6 none", "teller hill"),
        ("teller hill's really dry, 6 dug none", "teller hill"),
        ("cobbler's 6 dug none", "cobbler's"),
        ("passei no são brás e arranquei 6 pés, 4 brancas", "são brás"),
        ("são brás 6 pés na pá 4 brancas", "são brás"),
        ("don ramiro 6 a pala 4 blancas", "don ramiro"),
        ("don agosto 6 a pala 4 blancas", "don agosto"),
        ("no xaxim alto: 6 pl na pá, 4 brancas", "xaxim alto"),
        ("Two farms today. Otis 6 dug none.", "otis"),
        ("South trial. 6 dug none, R2", "south trial"),
        ("East Plot, Friday: 6 dug, 3 white", "east plot"),
        ("Otis. At the lane I dug 4, none. Along the back fence I dug 4 more, 21 white.", "otis"),
        ("SHEET 12\nField: Otis\nPlants: 6\nWhite: 3\nStage: R3", "otis"),
        ("PLANILLA 4\nLote: Cerro Gacho\nPlantas: 8\nBlancas: 3\nEstado: R3", "cerro gacho"),
    ],
)
def test_what_belongs_to_a_name(text: str, field: str) -> None:
    assert [note.field for note in _read(text).notes] == [field]


@pytest.mark.parametrize(
    ("text", "kind", "field"),
    [
        ("me manda o histórico da grota funda desde o começo da safra", "history", "grota funda"),
        ("apaga a nota da Grota Funda", "take_back", "grota funda"),
        ("la visita a Cerro Gacho pasala para el viernes", "move", "cerro gacho"),
        ("can you set gander lake's reminder to 7-22", "move", "gander lake"),
        ("how is the Otis field doing right now?", "state", "otis"),
        ("pula o t4 dessa vez", "move", "t4"),
        ("roots on teller hill were dark, i had white", "correct", "teller hill"),
        ("mba'e chamigo, cómo está cerro gacho?", "state", "cerro gacho"),
    ],
)
def test_what_is_asked_names_a_field_by_no_word_more(text: str, kind: str, field: str) -> None:
    (command,) = _read(text).commands

    assert (command.kind, command.args["field"]) == (kind, field)


@pytest.mark.parametrize(
    ("text", "fields", "places"),
    [
        ("Otis R2 moist. East 3 pl none. West 3 pl 4 white.", ["otis"], ["east", "west"]),
        ("otis north 3 pl 5 w\nmiddle 3 pl 0\nsouth 3 pl 11 w", ["otis"], ["north", "middle", "south"]),
        ("Otis north 6 dug none. Otis south 6 dug 2w", ["otis north", "otis south"], []),
        ("North 6 dug none. South 6 dug 2w", ["north", "south"], []),
        ("Two fields, worst first: Teller Hill R1, 6 beans, 20 whites. Otis R1, 6 beans, 5 whites.", None, []),
    ],
)
def test_a_side_is_a_place_and_a_field_is_none(text: str, fields: list[str] | None, places: list[str]) -> None:
    notes = _read(text).notes

    assert [note.field for note in notes] == (fields or ["teller hill", "otis"])
    assert [spot.name for note in notes for spot in note.spots] == places


def test_a_day_above_a_form_is_no_title() -> None:
    (note,) = _read("July 3\nField: Otis\nPlants: 6\nWhite: 3\nStage: R3\nSoil: dry").notes

    assert (note.field, note.date) == ("otis", date(2026, 7, 3))


def test_each_of_several_fields_has_its_own_note() -> None:
    reading = _read(
        "Teller Hill R4, 5 beans, 1 tan. Marlow Draw R4, 5 beans, 8 yellows 14 tans. Otis R3, 5 beans, nothing."
    )

    assert [(note.field, note.females.total) for note in reading.notes] == [
        ("teller hill", 1),
        ("marlow draw", 22),
        ("otis", 0),
    ]


@pytest.mark.parametrize(
    "text",
    ["what's due", "undo", "help", "thanks!", "which road is open tomorrow", "6 plants 4 white", "6 pés, nada, R2"],
)
def test_no_name_is_made_up(text: str) -> None:
    reading = _read(text)

    assert [note.field for note in reading.notes if note.field] == []
    assert [c.args["field"] for c in reading.commands if "field" in c.args] == []


@pytest.mark.parametrize(
    ("text", "field", "plants"),
    [
        ("Brickyard 8 dug 22w 6y", "brickyard", 8),
        ("Two Mile corner V3 5 plants 3 white", "two mile corner", 5),
        ("teller ridge 3 dug 5 none", "teller ridge 3", 5),
        ("del surazo saqué 7 plantas a mano, ningún quiste", "surazo", 7),
        ("gate: dug 3 none. draw: dug 3 9 tan", None, 6),
    ],
)
def test_where_a_name_begins_and_ends(text: str, field: str | None, plants: int) -> None:
    (note,) = _read(text).notes

    assert (note.field, note.plants) == (field, plants)


def test_a_crew_s_own_fields_go_before_any_guess() -> None:
    """A name of the list is found as ever; words are supposed a name only where none of the list is named."""
    fields = ("Kestrel", "Old Mill East")

    assert read_note("kestrel 6 pl none. Saw Otis at the store.", sent=SENT, fields=fields).notes[0].field == "kestrel"
    held = read_note("half a dozen plants from hickory bend, shovel, 7 yellow in all", sent=SENT, fields=fields)
    assert [note.field for note in held.notes] == ["hickory bend"]


@pytest.mark.parametrize(
    "text",
    [
        "checked 6, too many to count, white and yellow. customer not happy",
        "ten plants, no cysts on any, back to baling",
        "done. 5 plants no cysts that i could see lol. really muddy",
    ],
)
def test_a_crew_s_note_in_a_thread_is_given_no_name(text: str) -> None:
    """Its field is that of the thread; a made-up name would hold the note and ask for a field nobody named."""
    reading = read_note(text, sent=SENT, fields=("Kestrel", "Old Mill East", "Baixada"))

    assert [note.field for note in reading.notes] == [None]


def test_a_long_text_is_not_searched() -> None:
    said = plainly("teller hill 6 pl none\n" * 600)

    assert guesses(said.text, said.lexemes, pieces_of(said), said.language, 200.0) == [Guess((), 0.0)]


def test_the_likeliest_guess_does_not_win_when_its_reading_makes_no_sense() -> None:
    """ "Teller hill 3" leaves a note of nothing, "teller hill" one of three plants."""
    text = "teller hill 3 dug 2 white"
    plain = _read(text)
    likely = [Guess(("teller hill 3 dug",), 0.0), Guess(("teller hill",), 20.0)]
    read = {guess.names: read_note(text, sent=SENT, fields=guess.names) for guess in likely}

    best = best_reading(likely, 6, plain, lambda names: read[names])

    assert best.notes[0].plants == 3


# --- learning


ROW = {
    "text": "Otis 6 pl none. otis is wet",
    "sent": "2026-07-08",
    "language": "en",
    "reading": {"notes": [{"field": "otis", "plants": 6}], "commands": [{"kind": "state", "field": "teller hill"}]},
}


def test_names_of_a_row_and_their_places() -> None:
    lexemes = scan(ROW["text"])

    assert names_told(ROW["reading"]) == ["otis", "teller hill"]
    assert locate(lexemes, ["otis"]) == [(0, 1), (5, 6)]
    assert locate(lexemes, ["otis", "teller hill"]) is None


def test_the_same_name_becomes_the_same_new_one_as_it_was_written() -> None:
    drawn = iter(["Gander Lake", "never drawn"])
    text, places = renamed("Otis 6 pl none. otis is wet", [(0, 4), (16, 20)], lambda: next(drawn))

    assert text == "Gander Lake 6 pl none. gander lake is wet"
    assert [text[start:end] for start, end in places] == ["Gander Lake", "gander lake"]


def test_a_note_without_its_name() -> None:
    row = {**ROW, "text": "Otis, 6 pl none", "reading": {"notes": [{"field": "otis", "plants": 6}]}}

    bare = without_name(row)

    assert bare is not None and bare["text"] == "6 pl none" and bare["reading"]["notes"] == [{"plants": 6}]
    assert without_name(ROW) is None


def test_tags_and_the_names_they_mark() -> None:
    assert spans([NONE, BEGINS, GOES_ON, BEGINS, NONE, BEGINS]) == [(1, 3), (3, 4), (5, 6)]
    assert supposing.transitions([NONE, BEGINS, GOES_ON]) == [1, 5]


def test_surroundings_are_learned_and_not_names(monkeypatch: pytest.MonkeyPatch) -> None:
    """Learned from a few dozen messages, names never seen are found behind "at" and before a count."""
    monkeypatch.setattr(learn_names, "LEAST_SEEN", 1)
    luck = random.Random(3)
    rows = [
        {
            "text": text,
            "language": "en",
            "reading": {"notes": [{"field": "otis"}]},
        }
        for text in ("dug 6 at otis, none", "otis 6 pl 4 white", "at otis we pulled 5, none", "otis: 4 plants, 2 tan")
        * 6
    ]
    weights = learn_signs(examples(rows, Namer(CORPUS / "names", luck)), luck)

    for text, name in (("dug 5 at zervan, none", "zervan"), ("quorlet: 5 plants, 3 tan", "quorlet")):
        said = plainly(text)
        best = guesses(said.text, said.lexemes, pieces_of(said), said.language, 0.0, weights)[0]
        assert best.names == (name,)


@pytest.mark.parametrize(("name", "least"), [("contract.jsonl", 97.5), ("newcomers.jsonl", 98.0)])
def test_messages_are_understood_by_their_text_and_day_alone(name: str, least: float) -> None:
    """Nearly as well as with the names of the crew's fields at hand."""
    found = score(map(alone, corpus(CORPUS / name)))

    assert found.share(found.understood) >= least
