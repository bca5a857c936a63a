"""Laboratory results from what comes along: a forwarded mail, a CSV, a PDF; bounded, for the mail may be hostile."""

from __future__ import annotations

import time
import zlib
from datetime import UTC, datetime
from email.message import EmailMessage
from email.utils import format_datetime

import pytest
from fpdf import FPDF

from notes_bot.language import lab_results, read_note
from tests.crew_kit import SCOUT, US, Crew

NOVEMBER = datetime(2026, 11, 20, 17, tzinfo=UTC)
FORWARDED = """---------- Forwarded message ---------
From: lab <lab@lab.example>
Subject: SCN results

Field               Eggs per 100 cc   Sampled
Kestrel Bottom      2,400             10/20/2026
Old Mill East       none detected     10/20/2026
"""
ROWS = (
    ("Sample ID", "Eggs per 250 cc", "Sampled"),
    ("Kestrel Bottom", "6,000", "10/20/2026"),
    ("Mulberry", "250", "10/21/2026"),
)


@pytest.fixture
def crew(tmp_path):
    made = Crew(tmp_path, NOVEMBER)
    yield made
    made.close()


def _send(crew: Crew, text: str, *files: tuple[str, str, bytes]):
    mail = EmailMessage()
    mail["From"], mail["To"], mail["Subject"] = SCOUT, US, "Fwd: SCN results"
    mail["Date"], mail["Message-ID"] = format_datetime(crew.clock.at), f"<{abs(hash((text, files)))}@phone.example>"
    mail.set_content(text)
    for name, kind, data in files:
        main, _, sub = kind.partition("/")
        mail.add_attachment(data, maintype=main, subtype=sub, filename=name)
    crew.raw(bytes(mail))
    return crew.parts.rounds.messages()[-1][1]


def _pdf(rows=ROWS) -> bytes:
    page = FPDF()
    page.add_page()
    page.set_font("helvetica", size=11)
    page.cell(0, 8, "Nematology laboratory, SCN report", new_x="LMARGIN", new_y="NEXT")
    with page.table() as table:
        for row in rows:
            cells = table.row()
            for text in row:
                cells.cell(text)
    return bytes(page.output())


def _kept(crew: Crew, field_id: int):
    return [args for _, args in crew.parts.store.events(field_id, "lab")]


def test_a_forwarded_mails_table_is_read(crew):
    """Every row is kept with its day; "none detected" is a count of zero."""
    body = crew.body(_send(crew, "see below\n\n" + FORWARDED))

    assert "Kestrel Bottom: 2,400 eggs/100 cc" in body
    assert "Not understood" not in body
    assert [(k["value"], k["date"]) for k in _kept(crew, 1)] == [(2400.0, "2026-10-20")]
    assert [k["value"] for k in _kept(crew, 2)] == [0.0]


def test_a_quoted_forward_of_one_field_a_sheet_is_read(crew):
    """Labels before values, behind quote marks."""
    text = "Begin forwarded message:\n\n> Field: Kestrel Bottom\n> SCN eggs per 100 cc: 2400\n"

    assert "Kestrel Bottom: 2,400 eggs/100 cc" in crew.body(_send(crew, text))


def test_a_csv_is_read_and_named(crew):
    """Columns by their heading, whatever stands between them."""
    data = b"Field,Acres,Eggs/100cc,Date\r\nKestrel Bottom,40,2400,2026-10-20\r\nHarrow Ridge 3,22,150,2026-10-20\r\n"
    body = crew.body(_send(crew, "results attached", ("report.csv", "text/csv", data)))

    assert body.startswith("File report.csv: 2 results.")
    assert [k["value"] for k in _kept(crew, 3)] == [150.0]


def test_a_pdf_is_read_with_its_unit(crew):
    """6,000 per 250 cc is 2,400 per 100 cc; a field nobody knows is asked about with a line that would keep it."""
    body = crew.body(_send(crew, "results attached", ("report.pdf", "application/pdf", _pdf())))
    (asked,) = [line for line in body.splitlines() if "mulberry" in line]
    reading = read_note(
        asked.rpartition("example: ")[2].rstrip("."), sent=NOVEMBER.date(), fields=["Kestrel Bottom", "Old Mill East"]
    )

    assert [(k["value"], k["eggs_per_100cc"]) for k in _kept(crew, 1)] == [(6000.0, 2400.0)]
    assert (reading.commands[0].kind, reading.commands[0].args["value"]) == ("lab", 250.0)


def test_many_results_are_told_in_brief(crew):
    """A headline a field and what changed, not three pages."""
    rows = [("Field", "Eggs per 100 cc"), ("Kestrel Bottom", "2400"), ("Old Mill East", "90"), ("Harrow Ridge 3", "0")]
    body = crew.body(_send(crew, "", ("report.pdf", "application/pdf", _pdf(rows))))

    assert "WHAT IT MEANS" not in body
    assert body.count("eggs/100 cc") == 3


def _bomb() -> bytes:
    """A PDF whose one page unpacks to 200 MB."""
    squeezer = zlib.compressobj(9)
    stream = b"".join(squeezer.compress(b" " * (1 << 20)) for _ in range(200)) + squeezer.flush()
    head = (
        b"%PDF-1.4\n1 0 obj<</Type/Catalog/Pages 2 0 R>>endobj\n2 0 obj<</Type/Pages/Kids[3 0 R]/Count 1>>endobj\n"
        b"3 0 obj<</Type/Page/Parent 2 0 R/MediaBox[0 0 9 9]/Contents 4 0 R>>endobj\n4 0 obj"
    )
    size = f"<</Length {len(stream)}/Filter/FlateDecode>>stream\n".encode()
    return head + size + stream + b"\nendstream endobj\ntrailer<</Root 1 0 R>>\n%%EOF"


@pytest.mark.parametrize(
    ("data", "kind"),
    [
        (b"%PDF-1.4 rubbish", "application/pdf"),
        (b"", "application/pdf"),
        (_bomb(), "application/pdf"),
        (b"\x00" * 100_000, "text/csv"),
        (b"a," * 200_000 + b"\n" + b'"' * 50_000, "text/csv"),
        (b"x" * (5 << 20), "application/pdf"),
    ],
    ids=["rubbish", "empty", "bomb", "zeros", "wide", "too big"],
)
def test_a_damaged_or_hostile_file_costs_an_answer_and_no_more(crew, data, kind):
    """It is said that nothing could be read, within seconds, and the service goes on."""
    start = time.monotonic()
    body = crew.body(_send(crew, "results attached", ("report", kind, data)))

    assert time.monotonic() - start < 20
    assert body.startswith("File report")
    assert _kept(crew, 1) == []
    assert "Kestrel" in crew.body(crew.note("kestrel eggs 2400 per 100cc iowa"))


@pytest.mark.parametrize(
    "lines",
    [
        ["Field,Yield", "Kestrel,52"],
        ["Field   Eggs", "Kestrel   2400"],
        ["we counted eggs per 100 cc of soil last year", "Kestrel was bad: 2400"],
        [],
        ["Field\tEggs per 100 cc", "Kestrel\tmany", "\t2400", "2400"],
    ],
)
def test_what_is_no_table_of_counts_gives_none(lines):
    """Other tables, no volume anywhere, prose, rows without a name or a number."""
    assert lab_results(lines) == ()


@pytest.mark.parametrize(
    ("lines", "value", "unit"),
    [
        (["Lote;Huevos por 100 cc", "Kestrel;2.400"], 2400.0, "eggs per 100 cc"),
        (["Talhão | Ovos por 250 cc | Data", "Kestrel | 6.000 | 20/10/2026"], 6000.0, "eggs per 250 cc"),
        (["All counts per 100 cm3", "Sample ID   SCN eggs", "Kestrel   1,200"], 1200.0, "eggs per 100 cc"),
        (["Field: Kestrel", "Cysts per 100 cc: 12"], 12.0, "cysts per 100 cc"),
    ],
)
def test_tables_of_three_languages_and_several_shapes(lines, value, unit):
    """Semicolons, bars, spaces or labels; the unit in the heading or said once."""
    (found,) = lab_results(lines, day_first=True)

    assert (found.args["field"], found.args["value"], found.args["unit"]) == ("kestrel", value, unit)
