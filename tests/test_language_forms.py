"""Notes filled in as a form: labels of every make, what is left blank, boxes to tick, and "none" of other things."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from notes_bot.language import read_note
from notes_bot.language.layout.forms import filled_in, kind_of
from notes_bot.language.lexicon.words import table
from notes_bot.model import Note

SENT = date(2026, 7, 20)
CREW = ("Kestrel", "Heron Slough", "Tinker's", "Molino Viejo", "Cruz Queimada")


def read(text: str, language: str = "en", fields: tuple[str, ...] = CREW) -> Note:
    """The one note of a message, without a question back."""
    reading = read_note(text, sent=SENT, fields=fields, language=language, day_first=language != "en")  # type: ignore[arg-type]

    assert not reading.problems, reading.problems
    assert not reading.commands, reading.commands
    assert len(reading.notes) == 1, reading.notes
    return reading.notes[0]


def told(note: Note) -> dict[str, Any]:
    """What a form of these tests asks for."""
    seed = note.variety
    return {
        "field": note.field,
        "plants": note.plants,
        "method": note.method,
        "white": note.females.white,
        "total": note.females.total,
        "moisture": note.soil.moisture,
        "texture": note.soil.texture,
        "stage": note.stage,
        "seed": seed.resistance if seed else None,
    }


FULL = {
    "field": "heron slough",
    "plants": 6,
    "method": "shovel",
    "white": 10,
    "total": 14,
    "moisture": "wet",
    "texture": "clay_loam",
    "stage": "R3",
    "seed": "susceptible",
}


@pytest.mark.parametrize("fields", [CREW, ()], ids=["listed", "alone"])
@pytest.mark.parametrize(
    "text",
    [
        "Heron Slough\nStg: R3\nMeth: shovel, 6 pl\nFem: W 10 Y 4 T 0 B 0\nSoil: CL, wet, pH 6.9\nVar: susceptible",
        "Heron Slough\nStg: R3\nMthd: spade\nPls: 6\nFem: W 10 Y 4 T 0 B 0\nTxt: CL\nMoist: wet\npH: 6.9\nVrty: susc",
        "Fld: Heron Slough\nGS: R3\nHow: shovel\n# pl: 6\nW: 10\nY: 4\nT: 0\nB: 0\nSoil: CL wet\nRes: no",
        "Name: Heron Slough\nScout: Amy\nWx: 82, hot, windy\nStage: R3\nTool: spade\nNo. of plants: 6\n"
        "Cysts: 10w 4y\nTexture: clay loam\nMoisture: wet\nResistant: no\nComments: none",
        "Field: Heron Slough | Stage: R3 | Plants: 6 | Method: spade | Females: 10 W, 4 Y | Soil: clay loam, wet "
        "| Resistance: none",
        "Field: Heron Slough, Stg: R3, Pl: 6, Meth: spade, Fem: 10 W 4 Y, Tex: CL, Moist: wet, Var: susc",
        "Field ... Heron Slough\nStage ... R3\nPlants ... 6\nMethod ... spade\nFemales ... 10w 4y\n"
        "Soil ... clay loam, wet\nVariety ... susceptible",
        "Field\tHeron Slough\nStage\tR3\nPlants\t6\nMethod\tspade\nFemales\t10w 4y\nSoil\tCL wet\nVariety\tsusc",
        "Heron Slough\n- stage R3\n- method shovel\n- plants 6\n- females W10 Y4\n- soil clay loam, wet\n"
        "- resistance none\n- comments none",
        "1) Field - Heron Slough\n2) Stage - R3\n3) Plants - 6, spade\n4) Females - 10 white, 4 yellow\n"
        "5) Soil - clay loam, wet\n6) Variety - susceptible",
        "Field: Heron Slough\nStage: R3\nMethod: [x] shovel [ ] pulled [ ] eased\nPlants: 6\nFemales: 10w 4y\n"
        "Soil: clay loam\nMoisture: [ ] dry [ ] moist [x] wet\nVariety: resistant ( ) susceptible (x)",
        "Field: Heron Slough\nStage: R3\nShovel: y\nPlants: 6\nWhite: 10\nYellow: 4\nTan: ___\nBrown: -\nSpray: n/a\n"
        "Soil: CL, wet\nResistant: N",
    ],
)
def test_a_form_is_read_whatever_its_labels_and_signs(text: str, fields: tuple[str, ...]) -> None:
    assert told(read(text, fields=fields)) == FULL


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel\nQ1 Stage? R2\nQ2 Plants? 6\nQ3 Tool? shovel\nQ4 Females? 12 white",
        "Kestrel\nStage? R2\nPlants? 6\nTool? shovel\nFemales? 12 white",
        "(Field) Kestrel\n(Stage) R2\n(Plants) 6\n(Tool) shovel\n(Females) 12 white",
        "**Field:** Kestrel\n**Stage:** R2\n**Plants:** 6\n**Tool:** shovel\n**Females:** 12 white",
        "FLD>Kestrel\nSTG>R2\nPL>6\nTL>spade\nFEM>12 W",
        "KESTREL:\n  growth stage ........ R2\n  plants dug .......... 6, spade\n  females ............. 12 white",
        "Kestrel\nStage: R2\nSCN present? Y\nNo. white: 12\nNo. of plants: 6\nTool: shovel",
    ],
)
def test_questions_brackets_and_leaders(text: str) -> None:
    note = read(text)

    assert (note.field, note.stage, note.plants, note.method) == ("kestrel", "R2", 6, "shovel")
    assert (note.females.white, note.females.total, note.too_many) == (12, 12, False)


def test_present_or_not() -> None:
    assert read("Kestrel\nStage: R2\nSCN present: N\nPlants: 6").outcome == "none_seen"
    seen = read("Kestrel\nStage: R2\nSCN present: Y\nPlants: 6\nComments: none")
    assert (seen.outcome, seen.females.total) == ("seen", None)


TABLES = [
    "Field        Stage  Plants  White  Yellow\nKestrel      R2     6       12     3\nHeron Slough  R1     5       0      0",
    "Field | Stage | Plants | W | Y\n--- | --- | --- | --- | ---\nKestrel | R2 | 6 | 12 | 3\nHeron Slough | R1 | 5 | 0 | 0",
    "Date,Field,Stage,Plants,Method,White,Yellow,Tan,Brown\n7/16,Kestrel,R2,6,shovel,12,3,0,0\n"
    "7/16,Heron Slough,R1,5,hand pulled,0,0,0,0",
    "Field\tScout\tStage\tPlants\tWhite females\tYellow females\tComments\nKestrel\tAmy\tR2\t6\t12\t3\tnone\n"
    "Heron Slough\tAmy\tR1\t5\t0\t0\tnone",
]


@pytest.mark.parametrize("fields", [CREW, ()], ids=["listed", "alone"])
@pytest.mark.parametrize("text", TABLES)
def test_a_table_of_fields(text: str, fields: tuple[str, ...]) -> None:
    reading = read_note(text, sent=SENT, fields=fields, language="en", day_first=False)

    assert not reading.problems
    found = [(n.field, n.stage, n.plants, n.females.white, n.females.yellow, n.outcome) for n in reading.notes]
    assert found == [
        ("kestrel", "R2", 6, 12, 3, "seen"),
        ("heron slough", "R1", 5, 0, 0, "none_seen"),
    ]


def test_a_table_of_places_with_a_name_of_two_words() -> None:
    note = read("Kestrel\nspot      pl  W  Y\ngate      4   6  1\nhill      4   0  0\nlow end   4   11 3")

    assert (note.plants, note.females.white, note.females.yellow) == (12, 17, 4)
    assert [spot.name for spot in note.spots] == ["gate", "hill", "low end"]


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("es", "Lote: Molino Viejo\nEst: R3\nPl: 6\nMét: pala\nHem: 10 b 4 a\nSuelo: franco, húmedo\nObs: ninguna"),
        (
            "es",
            "Lote: Molino Viejo\nMonitoreador: Ana\nEstadio: R3\nPlantas: 6\nHerramienta: pala\n"
            "Hembras: 10 blancas 4 amarillas\nTextura: franco\nHumedad: húmedo\nPlagas: ninguna",
        ),
        ("pt", "Talhão: Cruz Queimada\nEst: R3\nPl: 6\nMét: pá\nFêm: 10 brancas 4 amarelas\nSolo: franco, úmido"),
        (
            "pt",
            "Talhão: Cruz Queimada\nMonitor: Ana\nEstádio: R3\nNº de plantas: 6\nFerramenta: pá\n"
            "Fêmeas: 10 brancas 4 amarelas\nTextura: franco\nUmidade: úmido\nObs: nenhuma",
        ),
    ],
)
def test_forms_of_the_south(language: str, text: str) -> None:
    note = read(text, language)

    assert note.field in ("molino viejo", "cruz queimada")
    assert (note.plants, note.method, note.stage) == (6, "shovel", "R3")
    assert (note.females.white, note.females.yellow) == (10, 4)
    assert (note.soil.texture, note.soil.moisture) == ("loam", "moist")


@pytest.mark.parametrize("label", ["Comments", "Spray", "Weeds", "Other", "Nodules", "Insects", "Zqx", "Rmks"])
def test_none_of_something_else_counts_no_females(label: str) -> None:
    note = read(f"Field: Kestrel\nStage: R3\nPlants: 6 dug\n{label}: none")

    assert note.outcome is None
    assert note.females.total is None


def test_nothing_left_blank_is_told() -> None:
    note = read("Field: Kestrel\nStage: R3\nPlants: 6 dug\nFemales: ___\nRoots:\nTops: -\nVariety: n/a")

    assert (note.outcome, note.roots, note.tops, note.variety) == (None, (), (), None)


def test_symptoms_none_is_a_healthy_top() -> None:
    assert read("Field: Kestrel\nStage: R3\nPlants: 6 dug\nSymptoms: none").tops == ("healthy",)


@pytest.mark.parametrize("label", ["Init", "Wthr", "Zqx", "Conf", "Sct"])
def test_an_unknown_label_is_no_field(label: str) -> None:
    note = read(f"Heron Slough\nStg: R3\nPl: 6\n{label}: hot day\nFem: none\nMeth: pull", fields=())

    assert (note.field, note.stage, note.plants, note.method) == ("heron slough", "R3", 6, "pulled")


def test_fields_below_each_other_keep_their_own_lines() -> None:
    text = "Kestrel: \nStage: R2\nPlants: 5\nFemales: 3 white\n\nTinker's:\nStage: R3\nPlants: 6\nFemales: none"
    notes = read_note(text, sent=SENT, fields=CREW).notes

    assert [(note.field, note.plants, note.females.total) for note in notes] == [("kestrel", 5, 3), ("tinker's", 6, 0)]


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel: 6 pl none\nTinker's: 5 pl 3 white\nHeron Slough: not looked, too wet",
        "Field: Crooked Elm\nPlanted: May 12\nVariety: Osprey 27X\nSource: PI 88788\nAcres: 64",
        "Kestrel 6 pl. Roots: dark. Tops: yellow",
        "gate: 5 pl none, hill: 5 pl 3 white, low end: 4 pl 2 tan",
    ],
)
def test_what_is_no_form_stays_to_the_letter(text: str) -> None:
    assert filled_in(text, "en") == text


@pytest.mark.parametrize(
    ("label", "kind"),
    [("mthd", "method"), ("vrty", "seed"), ("rmks", "remark"), ("gs", "stage"), ("kestrel", ""), ("gate", "")],
)
def test_a_label_is_told_by_its_letters(label: str, kind: str) -> None:
    assert kind_of(label, table("en")) == kind


@pytest.mark.parametrize(
    ("text", "texture"),
    [
        ("Kestrel 6 pl none, CL, wet", "clay_loam"),
        ("Kestrel CL dry 6 pl none", "clay_loam"),
        ("Kestrel SL dry, 6 pl none", "sandy_loam"),
    ],
)
def test_soils_in_letters(text: str, texture: str) -> None:
    assert read(text).soil.texture == texture


@pytest.mark.parametrize("title", ["PRÁCTICA 3", "TP 3", "Trabajo práctico 3", "Práctica N° 3", "Ficha 12", "Hoja 4"])
def test_the_title_of_a_form_is_no_count(title: str) -> None:
    """A few words and a number on a line of their own, above the label for the field."""
    text = f"{title}\nCampo: Molino Viejo\nPlantas: 10\nExtracción: pala\nHembras blancas: 33\nEstado: R3"
    note = read(text, "es")
    assert (note.field, note.plants, note.females.total, note.stage) == ("molino viejo", 10, 33, "R3")


def test_a_line_that_counts_above_a_form_is_no_title() -> None:
    """ "White 4" is a count, and the field that heads a form without a label for one stays its field."""
    note = read("White 4\nField: Kestrel\nPlants: 10\nMethod: pulled\nStage: R2")
    assert (note.plants, note.females.white) == (10, 4)
    assert read("Lote 3\nPlantas: 10\nExtracción: pala\nHembras blancas: 33", "es").field == "3"


@pytest.mark.parametrize(
    ("text", "language", "plants", "total"),
    [
        ("WHERE: Kestrel\nWHEN: 7/18\nHOW MANY: 5\nHOW: shovel\nWHITE: 2\nYELLOW: none", "en", 5, 2),
        ("Kestrel\nHow many plants? 6\nHow? pulled\nFemales? none\nSoil? dry", "en", 6, 0),
        ("Field: Kestrel | How many: 8 | How: shovel | White: 3 | Yellow: 1", "en", 8, 4),
        ("Field: Kestrel\nPlants: 6\nCysts: yes\nHow many: 14\nStage: R2", "en", 6, 14),
        ("Field: Kestrel\nPlants: 6\nHow many females: 14\nStage: R2", "en", 6, 14),
        ("Lote: Kestrel\nCuántas: 6\nCómo: pala\nBlancas: 3\nSuelo: seco", "es", 6, 3),
        ("Talhão: Kestrel\nQuantos pés: 6\nComo: pá\nBrancas: 3\nSolo: seco", "pt", 6, 3),
    ],
)
def test_how_many_of_a_form_are_plants_or_the_females_right_above(text, language, plants, total):
    """Plants, unless the line above asks whether there were females."""
    note = read(text, language)

    assert (note.plants, note.females.total) == (plants, total)


@pytest.mark.parametrize(
    "text",
    [
        "Field: Kestrel\nCysts: 12\nStage: R2\nHow many: 6",  # plants, or females?
        "Field: Kestrel\nPlants: 6\nStage: R2\nSoil: dry\nHow many: 14",
    ],
)
def test_how_many_apart_from_what_it_counts_is_asked_about(text):
    """It may be either, and it is no question of the writer's."""
    reading = read_note(text, sent=SENT, fields=CREW)

    assert reading.problems
    assert not reading.commands


@pytest.mark.parametrize("day", ["Next: Tue", "Next visit: Tue"])
def test_the_next_visit_of_a_form_may_be_told_where_nobody_looked(day):
    """A weekday to come, and not the day of this visit."""
    note = read(f"Field: Kestrel\nLooked: no\nWhy: fungicide sprayed Sat\nREI: 48 h\n{day}")

    assert note.outcome == "not_looked"
    assert note.look_again is not None
    assert note.look_again.date == date(2026, 7, 21)
