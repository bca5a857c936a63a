"""The docs cannot fall behind: examples are what is answered now, links lead somewhere, names are real."""

from __future__ import annotations

import json
import re
import shlex
import tomllib
from dataclasses import fields
from datetime import date
from pathlib import Path

import pytest

from notes_bot import settings
from notes_bot.cli import _parser, main
from notes_bot.language import read_note
from tests.conftest import REPLIES
from tests.mail_samples.season import SEASON

ROOT = Path(__file__).parents[1]
README = (ROOT / "README.md").read_text("utf-8")
PAGES = sorted([ROOT / "README.md", ROOT / "DEVELOPERS.md", *(ROOT / "docs").rglob("*.md")])
EXAMPLE = "early_white"


def _indented(text: str) -> str:
    return "\n".join(f"    {line}".rstrip() for line in text.splitlines())


def test_the_readmes_example_is_what_is_answered_now():
    """The note and the answer in the README are the demo's, word for word."""
    note = next(sent.note for sent in SEASON if sent.name == EXAMPLE)
    heads, _, answer = (REPLIES / f"{EXAMPLE}.txt").read_text("utf-8").partition("\n\n")

    assert _indented(note) in README
    assert _indented(answer.strip()) in README
    assert "look-again.ics" in heads


def test_the_readme_starts_with_the_job_in_one_paragraph_and_holds_two_commands():
    """Title, one paragraph, and two single-line commands that start from python3."""
    parts = README.split("\n\n")

    assert parts[0] == "# notes_bot"
    assert "soybean cyst nematode" in parts[1]
    assert parts[2].startswith("## ")
    commands = re.findall(r"^    (python3 -m venv .*)$", README, re.MULTILINE)
    assert [command.rpartition("&& ")[2] for command in commands] == [
        ".venv/bin/notes-bot demo",
        ".venv/bin/python -m pytest",
    ]


@pytest.mark.parametrize("page", PAGES, ids=[str(page.relative_to(ROOT)) for page in PAGES])
def test_every_link_in_the_docs_leads_somewhere(page):
    """Relative links name files that are there."""
    text = page.read_text("utf-8")
    targets = [target.partition("#")[0] for target in re.findall(r"\]\(([^)\s]+)\)", text)]
    missing = [
        t for t in targets if t and not t.startswith(("http:", "https:", "mailto:")) and not (page.parent / t).exists()
    ]

    assert missing == []


def test_every_command_in_the_docs_exists():
    """``notes-bot X`` in a code block of the docs is a command of ours, with options that parse."""
    wrong = []
    for page in PAGES:
        for line in re.findall(r"^    .*?notes-bot (.+)$", page.read_text("utf-8"), re.MULTILINE):
            words = shlex.split(re.split(r" #|\s\|", line)[0], comments=True)
            if words and not words[0].startswith("."):
                try:
                    _parser().parse_args(words)
                except SystemExit:
                    wrong.append((page.name, line))

    assert wrong == []


_LANGUAGE = (ROOT / "docs" / "language.md").read_text("utf-8")
_NOTES = re.findall(r"^    (.+)$", _LANGUAGE.partition("<!-- read -->")[2].partition("\n## ")[0], re.MULTILINE)


@pytest.mark.parametrize("line", _NOTES)
def test_every_note_of_the_language_page_reads_without_a_question(line):
    """Read with the demo crew's fields, each line is one note and nothing is asked."""
    with (ROOT / "demo_messages" / "crew.toml").open("rb") as file:
        names = [field["name"] for field in tomllib.load(file)["fields"]]
    reading = read_note(line, sent=date(2026, 8, 30), fields=names)

    assert len(reading.notes) == 1
    assert reading.problems == ()
    assert reading.notes[0].field is not None
    assert reading.notes[0].outcome is not None


@pytest.mark.parametrize(
    ("kind", "line"),
    [
        (kind.strip("`"), line)
        for kinds, lines in re.findall(
            r"^\| (`[^|]+`) \| (`[^|]+?) \|", _LANGUAGE.partition("can be asked")[2].partition("\n## ")[0], re.MULTILINE
        )
        for kind in kinds.split(", ")[:1]
        for line in re.findall(r"`([^`]+)`", lines)
    ],
)
def test_every_command_of_the_language_page_is_read_as_its_kind(kind, line):
    """The examples of the table mean what the table says."""
    reading = read_note(line, sent=date(2026, 7, 8), fields=["Kestrel Bottom", "Old Mill East", "Tinker's Field"])

    assert [command.kind for command in reading.commands] == [kind]


def test_every_section_of_the_settings_is_in_the_keepers_page():
    """docs/running.md names each section of the settings file."""
    page = (ROOT / "docs" / "running.md").read_text("utf-8")

    for section in fields(settings.Settings):
        assert f"[{section.name}]" in page, section.name


def test_the_example_of_the_outlook_page_works(capsys, tmp_path):
    """The JSON line in docs/outlook.md is answered with every key its table promises."""
    page = (ROOT / "docs" / "outlook.md").read_text("utf-8")
    line = re.search(r"echo '(\{.*\})' \| notes-bot foresee", page)[1]
    file = tmp_path / "question.jsonl"
    file.write_text(line, "utf-8")
    assert main(["foresee", "--json", "--lines", str(file)]) == 0
    answer = json.loads(capsys.readouterr().out)
    promised = re.findall(r"^\| `(\w+)`", page.partition("Out:")[2], re.MULTILINE)

    assert len(promised) >= 8
    assert set(promised) <= set(answer)


def test_every_decision_says_question_choice_and_cost():
    """A decision page without its price is not one."""
    for page in (ROOT / "docs" / "decisions").glob("*.md"):
        text = page.read_text("utf-8")
        assert all(part in text for part in ("**Question.**", "**Choice.**", "**Costs.**")), page.name


def test_nothing_in_the_project_is_real_mail_or_a_real_number():
    """Every address in demo messages and docs is under .example, every phone number 555-01xx."""
    for file in [*(ROOT / "demo_messages").iterdir(), *PAGES]:
        if not file.is_file():
            continue
        text = file.read_bytes().decode("utf-8", "replace").replace("=\n", "").replace("=\r\n", "")
        hosts = set(re.findall(r"[\w.+-]+@([\w-]+(?:\.[\w-]+)+)", text))
        assert {host for host in hosts if not host.endswith((".example", ".invalid", ".test"))} <= _OURS, file.name
        assert not re.search(r"\b\d{3}-(?!555)\d{3}-\d{4}\b|\b555-(?!01)\d{4}\b", text), file.name


_OURS: set[str] = set()
