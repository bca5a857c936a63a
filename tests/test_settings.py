"""Settings: what init writes works, and every mistake is told at once with what to write."""

from __future__ import annotations

import tomllib
from datetime import date
from pathlib import Path

import pytest

from notes_bot.settings import STARTER, SettingsWrong, read_settings, settings_from


def test_what_init_writes_can_be_used_as_it_stands(tmp_path):
    """The starter file reads without a complaint and holds people and fields."""
    file = tmp_path / "notes-bot.toml"
    file.write_text(STARTER, "utf-8")
    settings = read_settings(file)

    assert [p.role for p in settings.people] == ["scout", "supervisor"]
    assert settings.fields[0].planted == date(2026, 5, 6)
    assert settings.service.folder == tmp_path / "notes-bot-data"
    assert settings.domain == "crew.example"


def test_every_remark_of_the_starter_can_be_taken_as_a_line():
    """Uncommenting all optional lines still gives settings that read."""
    lines = [
        line[2:] if line.startswith("# ") and ("=" in line or line.startswith("# [")) else line
        for line in STARTER.splitlines()
    ]
    text = "\n".join(line for line in lines if not line.startswith('way = "folder"'))
    settings = settings_from(tomllib.loads(text), Path("/somewhere"))

    assert settings.imap.host == "mail.crew.example"
    assert settings.mail_out.way == "relay"
    assert settings.weather[0].fields == ("Kestrel Bottom",)


def test_all_mistakes_come_out_together():
    """Wrong keys, kinds, zones and addresses are each named with what to write."""
    with pytest.raises(SettingsWrong) as wrong:
        settings_from(
            {
                "servise": {},
                "service": {"timezone": "Corn Belt", "adress": "x"},
                "mail_in": {"port": "8025", "believe": "all"},
                "people": [{"name": "scout", "addresses": ["not an address"], "role": "boss", "hour": 25}],
                "fields": [{"name": "a", "latitude": 142.0, "planted": "2026-05-06"}],
            },
            Path(),
        )
    told = str(wrong.value)

    assert "did you mean service?" in told
    assert "did you mean address?" in told
    assert "mail_in.port is '8025': write a whole number" in told
    assert 'write one of "loopback", "proof"' in told
    assert "neither a plain mail address nor a number" in told
    assert "write a whole hour from 0 to 23" in told
    assert "write a number from -90 to 90" in told
    assert "write a day without quotes" in told
    assert "write a zone such as America/Chicago" in told


def test_one_address_cannot_be_two_people():
    """Who wrote must never be in doubt."""
    with pytest.raises(SettingsWrong, match="belongs to both"):
        settings_from({"people": [{"name": n, "addresses": ["Same@crew.example"]} for n in ("a", "b")]}, Path())


def test_one_name_cannot_be_two_fields():
    """An alias that is another field's name is refused at the door."""
    with pytest.raises(SettingsWrong, match="names both"):
        settings_from({"fields": [{"name": "Mill"}, {"name": "Old Mill", "aliases": ["mill"]}]}, Path())


def test_a_file_that_is_not_there_says_how_to_make_one(tmp_path):
    """The first thing a keeper meets is the command that helps."""
    with pytest.raises(SettingsWrong, match="notes-bot init"):
        read_settings(tmp_path / "none.toml")
