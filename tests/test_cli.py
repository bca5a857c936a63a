"""The command line: what it prints for people and for programs, and what it says when it was called wrongly."""

from __future__ import annotations

import json
import subprocess
import sys

import pytest

from notes_bot.cli import main
from notes_bot.settings import STARTER
from tests.crew_kit import SCOUT, US, Crew, noon
from tests.mail_samples import clients

NOTE = "Kestrel btm 40, 6/11, V4, moist, shovel+bucket, 6 pl: 3 0 7 2 5 0 all wht. no top symptoms. recheck 10 d"


def test_read_gives_the_note_as_data(capsys):
    """The early-white note of the demo, by the keys of the note contract."""
    assert main(["read", NOTE, "--json", "--sent", "2026-06-11"]) == 0
    reading = json.loads(capsys.readouterr().out)
    (note,) = reading["notes"]

    assert reading["language"] == "en"
    assert note["field"] == "kestrel btm 40"
    assert (note["date"], note["plants"], note["method"], note["soaked"]) == ("2026-06-11", 6, "shovel", True)
    assert note["per_plant"] == [3, 0, 7, 2, 5, 0]
    assert note["females"] == {"white": 17, "yellow": 0, "tan": 0, "brown": 0, "total": 17}
    assert (note["stage"], note["soil"]["moisture"], note["look_again"]) == ("V4", "moist", {"days": 10})
    assert note["tops"] == ["healthy"]


def test_read_tells_people_how_it_was_read(capsys):
    """Without --json the note comes back as we would write it."""
    assert main(["read", NOTE, "--sent", "2026-06-11"]) == 0

    assert capsys.readouterr().out.startswith("Read as: kestrel btm 40")


@pytest.mark.parametrize("order", ["text first", "fields first", "commas", "file"])
def test_known_fields_may_be_given_in_any_usual_way(order, tmp_path, capsys):
    """Names before or after the note, with commas, or in a file: the known field starts the second note."""
    note, names = "kestrel 6 dug 12 white. old mill 5 dug none", ["Kestrel Bottom", "Old Mill East"]
    file = tmp_path / "fields.txt"
    file.write_text("\n".join(names), "utf-8")
    given = {
        "text first": [note, "--fields", *names],
        "fields first": ["--fields", *names, note],
        "commas": [note, "--fields", ", ".join(names)],
        "file": ["--fields", str(file), "--", note],
    }[order]
    assert main(["read", "--json", "--sent", "2026-06-11", *given]) == 0

    assert [n["field"] for n in json.loads(capsys.readouterr().out)["notes"]] == ["kestrel", "old mill"]


def test_read_scores_lines_and_carries_ids_over(tmp_path, capsys):
    """One reading a line, ids kept, in the order given."""
    file = tmp_path / "notes.jsonl"
    rows = [{"id": n, "text": "kestrel dug 5 none", "sent": "2026-06-11"} for n in (7, 8)]
    file.write_text("\n".join(json.dumps(row) for row in rows), "utf-8")

    assert main(["read", "--json", "--lines", str(file)]) == 0
    assert [json.loads(line)["id"] for line in capsys.readouterr().out.splitlines()] == [7, 8]


def test_init_never_overwrites(tmp_path, capsys):
    """A settings file that is there is left as it is."""
    file = tmp_path / "notes-bot.toml"
    assert main(["init", str(file)]) == 0
    before = file.read_bytes()

    assert main(["init", str(file)]) == 2
    assert file.read_bytes() == before
    assert "is there already" in capsys.readouterr().err


def test_check_tells_what_is_wrong_with_the_settings(tmp_path, capsys):
    """The keeper sees every mistake before the service starts."""
    file = tmp_path / "notes-bot.toml"
    file.write_text("[mail_in]\nport = 'x'\n", "utf-8")

    assert main(["check", "--settings", str(file)]) == 2
    assert "write a whole number" in capsys.readouterr().err


def test_trace_tells_the_life_of_a_message_and_hands_out_its_pictures(tmp_path, capsys):
    """By number, by the scout's Message-ID and by our answer's; the sender's own file names stay outside."""
    settings = tmp_path / "notes-bot.toml"
    settings.write_text(STARTER, "utf-8")
    crew = Crew(tmp_path / "notes-bot-data", noon(7, 8))
    raw = clients.with_photo("kestrel 6 dug 12 white", SCOUT, US, crew.clock.at)
    crew.raw(raw)
    ((_, filing),) = crew.parts.rounds.messages()
    crew.parts.post_all()
    crew.close()
    wanted = (
        "came 2026-07-08 17:00:00 UTC by smtp from 127.0.0.1",
        "proof: private_listener 127.0.0.1",
        "visit Kestrel Bottom 2026-07-08 ",
        "12 white: stands",
        f"answer to {SCOUT} {filing.outgoing[0].message_id}: sent",
    )
    for which in ("1", filing.message_id, filing.outgoing[0].message_id):
        assert main(["trace", which, "--settings", str(settings)]) == 0
        told = capsys.readouterr().out
        for words in wanted:
            assert words in told, (words, told)
    assert main(["trace", "1", "--pictures", str(tmp_path / "pictures"), "--settings", str(settings)]) == 0
    (picture,) = (tmp_path / "pictures").iterdir()
    assert picture.name.startswith("message-1-")
    assert picture.suffix == ".jpeg"
    assert picture.read_bytes() == clients.JPEG
    capsys.readouterr()
    assert main(["trace", "99", "--settings", str(settings)]) == 2
    assert "no message 99" in capsys.readouterr().err


def test_a_message_set_aside_is_dealt_with_again_on_request(tmp_path, capsys, monkeypatch):
    """The road of a poison message: two tries, aside with its traceback, shown, and answered once the bug is mended."""
    settings = tmp_path / "notes-bot.toml"
    settings.write_text(STARTER, "utf-8")
    crew = Crew(tmp_path / "notes-bot-data", noon(7, 8))
    monkeypatch.setattr(crew.parts.desk, "read", lambda *_: 1 / 0)
    crew.keep("kestrel 6 dug 12 white")
    for _ in range(3):
        crew.parts.rounds.messages()
    assert main(["check", "--settings", str(settings)]) == 0
    told = capsys.readouterr().out
    assert "stuck 1" in told
    assert "ZeroDivisionError" in told
    assert main(["again", "1", "2", "--settings", str(settings)]) == 1
    assert "message 2 is not stuck" in capsys.readouterr().err
    monkeypatch.undo()
    ((_, filing),) = crew.parts.rounds.messages()
    crew.close()

    assert filing.outgoing[0].recipient == SCOUT
    assert main(["again", "1", "--settings", str(settings)]) == 1


def test_reading_a_note_loads_neither_store_nor_science() -> None:
    """A cold start stays short: numpy, the database and matplotlib are not even imported."""
    code = "import sys; from notes_bot.cli import main; main(['read', 'kestrel 6 pl 12 white']); print(*sys.modules)"
    loaded = subprocess.run([sys.executable, "-c", code], check=True, capture_output=True, text=True).stdout.split()

    assert not {"numpy", "sqlite_utils", "matplotlib", "notes_bot.store", "notes_bot.science"} & set(loaded)


def test_a_station_far_from_every_field_and_a_name_that_is_no_fields_are_refused(tmp_path, capsys):
    """A weather file is kept only where it can be meant: near the fields, for a field there is."""
    settings = tmp_path / "notes-bot.toml"
    settings.write_text(STARTER, "utf-8")
    head = "STATION,DATE,LATITUDE,LONGITUDE,ELEVATION,NAME,TMAX,TMIN\n"
    rows = "".join(f"USC1,2026-06-{day:02d},{{}},{{}},290,A,{80 + day % 5},{60 + day % 4}\n" for day in range(1, 28))
    here, away = tmp_path / "here.csv", tmp_path / "away.csv"
    here.write_text(head + rows.replace("{},{}", "42.03,-93.80"))
    away.write_text(head + rows.replace("{},{}", "33.1,-84.2"))

    def weather(file, *more: str) -> tuple[int, str]:
        status = main(["weather", str(file), "--settings", str(settings), "--units", "F", *more])
        said = capsys.readouterr()
        return status, said.out + said.err

    assert weather(here) == (0, f"27 days from {here} kept for all fields\n")
    status, said = weather(away)
    assert (status, "wrong station?" in said) == (2, True)
    status, said = weather(here, "--field", "Kestral Bottom")
    assert (status, "Kestrel Bottom" in said) == (2, True)
