"""Answers of the winter half: a sheet of statements becomes text, a short text, a page with a picture, a PDF.

The order is the sheet's; nothing is decided here but which wording fits.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from notes_bot.model import Document, Language, Part, Person, Picture, Reply, Sheet
from notes_bot.reply import telling
from notes_bot.reply.letters import Letter, templates
from notes_bot.reply.paper import paper
from notes_bot.reply.segments import PART, plain, septets, shorten
from notes_bot.reply.winter_figures import counts_figure, plans_figure, sketch_figure
from notes_bot.reply.words import Words, words

UNTITLED = frozenset({"read", "plan", "fix", "watch"})
"""Paragraphs that need no heading: their first line says what they are."""
TWO_SEGMENTS = 2 * PART
"""A winter answer may take two text messages."""


def compose_sheet(
    sheet: Sheet, person: Person, *, language: Language | None = None, year: int, brief: bool = False
) -> Reply:
    """One sheet as an answer: complete as text; a picture where it helps; a page to print for a sample plan.

    ``brief``: one of many, told by its headline and its short statements.
    """
    speak = words(language or person.language, person.timezone)
    head = headline(speak, sheet)
    letter = Letter()
    letter.line(head)
    if brief:
        letter.line(*(telling.sentence(speak.say(fact)) for fact in sheet.short if fact not in sheet.heads))
        subject = speak("answer.subject", field=sheet.field, year=str(year))
        return Reply(subject, letter.text().replace("\n\n", "\n"), short(speak, sheet))
    for part in sheet.parts:
        letter.line(*told(speak, part))
    pictures = figures(sheet, speak.language)
    documents: tuple[Document, ...] = ()
    if sheet.kind == "sample" and sheet.parts:
        name = f"sample-plan-{sheet.field}"
        documents = (Document(name, "application/pdf", sheet_paper(sheet, speak)),)
    subject = (
        speak("answer.subject", field=sheet.field, year=str(year)) if sheet.field else speak("answer.subject_service")
    )
    html = sheet_html([sheet], head, pictures, speak) if pictures and sheet.kind != "sample" else ""
    return Reply(subject, letter.text(), short(speak, sheet), html, pictures if html else (), documents=documents)


def headline(speak: Words, sheet: Sheet) -> str:
    """The first of the sheet's headlines that fits a lock screen."""
    wordings = []
    for fact in sheet.heads:
        values = {name: telling.NAME if name == "field" else value for name, value in fact.values.items()}
        wordings.append(telling.sentence(speak.say(type(fact)(fact.key, values))))
    return telling.headline(wordings, sheet.field)


def told(speak: Words, part: Part) -> list[str]:
    """A paragraph: its heading on a line of its own, then one statement a line."""
    lines = [telling.sentence(speak.say(fact)) for fact in part.facts]
    return lines if part.title in UNTITLED else [heading(speak, part), *lines]


def heading(speak: Words, part: Part) -> str:
    return speak.name("sheet", part.title)


def short(speak: Words, sheet: Sheet) -> str:
    """As many statements as two text messages hold, most useful first."""
    kept = ""
    for fact in sheet.short:
        longer = f"{kept} {telling.sentence(speak.say(fact))}".strip()
        if septets(plain(longer)) > TWO_SEGMENTS:
            break
        kept = longer
    return shorten(kept or headline(speak, sheet), TWO_SEGMENTS)


def figures(sheet: Sheet, language: Language) -> tuple[Picture, ...]:
    """What the sheet shows better than it tells."""
    drawn = []
    if sheet.plans:
        drawn.append(plans_figure(sheet, language))
    if sheet.kind in ("lab", "report") and len(sheet.counts) > 1:
        drawn.append(counts_figure(sheet, language))
    if sheet.kind == "sample" and sheet.points:
        drawn.append(sketch_figure(sheet, language))
    return tuple(drawn)


def sheet_html(sheets: Sequence[Sheet], head: str, pictures: Sequence[Picture], speak: Words) -> str:
    """The sheets as one page for a mail program."""
    blocks = [
        (heading(speak, part) if part.title not in UNTITLED else "",
         [telling.sentence(speak.say(fact)) for fact in part.facts])
        for sheet in sheets
        for part in sheet.parts
    ]  # fmt: skip
    page = templates().get_template("html/sheet.html")
    return page.render(language=speak.language, headline=head, blocks=blocks, pictures=list(pictures))


def sheet_paper(sheet: Sheet, speak: Words) -> bytes:
    """One page to print and take to the field; it need not say that it holds the sketch."""
    sections = [
        (heading(speak, part) if part.title not in UNTITLED else "",
         [telling.sentence(speak.say(fact)) for fact in part.facts if fact.key != "sample_sketch"])
        for part in sheet.parts
    ]  # fmt: skip
    return paper(
        headline(speak, sheet), [(sections, figures(sheet, speak.language))], language=speak.language, one_page=True,
        foot=speak("paper.foot"), page_word=speak("paper.page"),
    )  # fmt: skip


def compose_report(
    sheets: Sequence[Sheet],
    pictures: Sequence[Sequence[Picture]],
    person: Person,
    *,
    year: int,
    left_out: int = 0,
    language: Language | None = None,
) -> Reply:
    """A season report of one field or several: text, a page for mail programs, and a PDF for the grower.

    ``pictures`` are those of each field's season; figures of counts and plans are added here.
    """
    speak = words(language or person.language, person.timezone)
    one = len(sheets) == 1
    # Cautions are the same for all fields: said once, at the end.
    sheets = [replace(s, parts=tuple(p for p in s.parts if p.title != "caution")) for s in sheets[:-1]] + [sheets[-1]]
    heads = [headline(speak, sheet) for sheet in sheets]
    found = sum(sheet.heads[0].key == "report_head_found" for sheet in sheets)
    title = heads[0] if one else speak("report.head_many", year=str(year), count=len(sheets), found=found)
    letter = Letter()
    letter.line(title)
    blocks, shown = [], []
    for n, (sheet, head, drawn) in enumerate(zip(sheets, heads, pictures, strict=True)):
        if not one:
            letter.line(f"* {head}")
        for part in sheet.parts:
            letter.line(*told(speak, part))
        own = [
            replace(picture, content_id=f"{picture.content_id}-{n}")
            for picture in (*drawn, *figures(sheet, speak.language))
        ]
        shown += own
        blocks.append((_sections(speak, sheet), own))
    if left_out > 0:
        letter.line(speak("report.left_out", count=left_out))
    pdf = paper(
        title,
        blocks,
        language=speak.language,
        heads=[] if one else heads,
        one_page=one,
        pictures_first=True,
        foot=speak("paper.foot"),
        page_word=speak("paper.page"),
    )
    name = f"season-{year}-{sheets[0].field}" if one else f"season-{year}"
    page = templates().get_template("html/report.html")
    html = page.render(
        language=speak.language,
        headline=title,
        fields=[(None if one else head, sections, own) for head, (sections, own) in zip(heads, blocks, strict=True)],
    )
    subject = (
        speak("report.subject", year=str(year), field=sheets[0].field)
        if one
        else speak("report.subject_many", year=str(year), count=len(sheets))
    )
    brief = short(speak, sheets[0]) if one else shorten(title, TWO_SEGMENTS)
    return Reply(subject, letter.text(), brief, html, tuple(shown), documents=(Document(name, "application/pdf", pdf),))


def _sections(speak: Words, sheet: Sheet) -> list[tuple[str, list[str]]]:
    return [
        (
            heading(speak, part) if part.title not in UNTITLED else "",
            [telling.sentence(speak.say(f)) for f in part.facts],
        )
        for part in sheet.parts
    ]
