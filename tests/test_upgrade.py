"""An upgrade in place: from every earlier release's tables to ours, with nothing lost and no way back unseen."""

from __future__ import annotations

import json
import os
import sqlite3
import subprocess
import sys
import threading
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest
from sqlite_utils import Database

from notes_bot.cli import main
from notes_bot.store import DatabaseWrong, Store, open_database
from notes_bot.store.migrations import steps
from tests.crew_kit import Crew, noon

NAMES = [step.name for step in steps._migrations]


@pytest.fixture(scope="module")
def lived_in(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A database of this release after a few days: answered, corrected, held, filed, stuck, waiting."""
    folder = tmp_path_factory.mktemp("lived")
    crew = Crew(folder, noon(7, 8))
    try:
        crew.note("kestrel 6 dug 12 white 3 yellow")
        crew.note("correct kestrel white 13")
        crew.note("mil 5 dug none")
        crew.note("nowhere 5 dug none")
        crew.note("add field North Gate planted 5/9")
        crew.note("lab kestrel 1200 eggs per 100 cc")
        crew.note("hello", "stranger@elsewhere.example")
        crew.note("hi", Precedence="bulk")
        crew.parts.store.stuck(crew.keep("poison"), "Traceback", give_up=True, at=crew.clock.at)
        for _ in range(3):
            crew.clock.walk_to(noon(7, 9).replace(day=crew.clock.at.day + 1))
            crew.parts.rounds.turn()
            crew.parts.post_all()
        crew.keep("harrow 5 dug 2 white")
    finally:
        crew.close()
    return folder / "notes.db"


def rows(path: Path) -> dict[str, list[dict[str, Any]]]:
    """Every row of every table that this file has."""
    with closing(sqlite3.connect(path)) as conn:
        db = Database(conn)
        return {t.name: list(t.rows) for t in db.tables if not t.name.startswith(("_", "sqlite_"))}


def as_of(step: str, lived_in: Path, path: Path) -> dict[str, list[dict[str, Any]]]:
    """A file as the release before ``step`` left it: its tables and columns, with these rows as far as they fit."""
    db = Database(path)
    db.conn.execute("pragma journal_mode=wal")
    steps.apply(db, stop_before=step)
    kept: dict[str, list[dict[str, Any]]] = {}
    for name, table_rows in rows(lived_in).items():
        if name in db.table_names():
            columns = {column.name for column in db.table(name).columns}
            kept[name] = [{key: value for key, value in row.items() if key in columns} for row in table_rows]
            db.table(name).insert_all(kept[name])
    db.close()
    return kept


@pytest.mark.parametrize("step", NAMES[1:])
def test_every_earlier_release_is_upgraded_with_nothing_lost(step: str, lived_in: Path, tmp_path: Path) -> None:
    """Each row and value is there afterwards, a copy of the old file beside it, and the service goes on with it."""
    path = tmp_path / "notes.db"
    before = as_of(step, lived_in, path)
    open_database(path).close()
    after = rows(path)

    assert before["inbox"]
    assert before["outbox"]
    for name, old in before.items():
        new = after[name]
        assert [{key: row[key] for key in was} for row, was in zip(new, old, strict=True)] == old
    copy = tmp_path / f"notes-before-{step}.db"
    assert rows(copy) == before
    with closing(sqlite3.connect(copy)) as conn:
        assert conn.execute("pragma integrity_check").fetchone() == ("ok",)
    assert set(after) == set(rows(lived_in))
    crew = Crew(tmp_path, noon(7, 20))
    try:
        for _ in range(3):
            crew.parts.rounds.turn()
        filing = crew.note("kestrel 6 dug 2 brown")
        assert filing is not None
        assert filing.outgoing
        assert crew.parts.store.counts().get("inbox waiting") is None
    finally:
        crew.close()


def test_the_steps_are_only_ever_added_to() -> None:
    """Numbers run on, and the first ones are those that databases out there have."""
    assert NAMES[:3] == ["m001_mail", "m002_crew", "m003_records"]
    assert [name[:4] for name in NAMES] == [f"m{n:03d}" for n in range(1, len(NAMES) + 1)]


@pytest.mark.parametrize("step", NAMES[1:])
def test_a_crash_in_the_middle_of_an_upgrade_leaves_the_old_tables_whole(
    step: str, lived_in: Path, tmp_path: Path
) -> None:
    """kill -9 after the step's changes and before their commit; the next start upgrades as if nothing had been."""
    path = tmp_path / "notes.db"
    before = as_of(step, lived_in, path)
    code = (
        "import os, signal, sys\n"
        "from notes_bot.store import open_database, upgrade\n"
        "steps = upgrade.steps\n"
        "last = steps._migrations[-1]\n"
        "real = last.fn\n"
        "def dies(db):\n"
        "    real(db)\n"
        "    os.kill(os.getpid(), signal.SIGKILL)\n"
        "last.fn = dies\n"
        "open_database(sys.argv[1])\n"
    )
    done = subprocess.run([sys.executable, "-c", code, str(path)], check=False, timeout=60)
    assert done.returncode == -9
    assert rows(path) == before
    open_database(path).close()

    assert set(rows(path)) == set(rows(lived_in))


def test_an_upgrade_without_room_for_the_copy_changes_nothing(
    lived_in: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The error is told; the old file is as it was and no half copy stays."""
    path = tmp_path / "notes.db"
    before = as_of(NAMES[-1], lived_in, path)

    def full(_handle: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(OSError, match="No space"):
        open_database(path)

    assert rows(path) == before
    assert [file.name for file in tmp_path.iterdir() if "before" in file.name] == []


def test_two_programs_that_open_an_old_file_at_once_take_turns(lived_in: Path, tmp_path: Path) -> None:
    """One upgrades, the others wait and find it done."""
    path = tmp_path / "notes.db"
    as_of(NAMES[-1], lived_in, path)
    wrong: list[BaseException] = []

    def open_it() -> None:
        try:
            open_database(path).close()
        except Exception as error:  # noqa: BLE001 - told below
            wrong.append(error)

    threads = [threading.Thread(target=open_it) for _ in range(6)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()

    assert wrong == []


def test_a_database_of_a_newer_release_is_refused_with_a_clear_word(
    lived_in: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Neither opened nor changed; ``check`` and ``serve`` say what to do."""
    settings = tmp_path / "notes-bot.toml"
    assert main(["init", str(settings)]) == 0
    folder = tmp_path / "notes-bot-data"
    folder.mkdir()
    path = folder / "notes.db"
    with closing(sqlite3.connect(lived_in)) as source, closing(sqlite3.connect(path)) as target:
        source.backup(target)
    with closing(sqlite3.connect(path)) as conn, conn:
        conn.execute(
            "insert into _sqlite_migrations (migration_set, name, applied_at) values ('notes_bot', 'm999_later', 'x')"
        )
    before = rows(path)
    with pytest.raises(DatabaseWrong, match="newer notes-bot"):
        Store(path)
    for command in ("check", "serve"):
        assert main([command, "--settings", str(settings)]) == 2
        assert "newer notes-bot" in capsys.readouterr().err

    assert rows(path) == before


def test_a_file_that_is_no_database_is_told_as_such(tmp_path: Path) -> None:
    """Not a traceback, and the file is left alone."""
    path = tmp_path / "notes.db"
    path.write_bytes(b"this is no database" * 100)
    with pytest.raises(DatabaseWrong, match="restore the backup"):
        open_database(path)

    assert path.read_bytes() == b"this is no database" * 100


def test_a_field_renamed_by_mail_is_not_made_again_from_the_settings_file(tmp_path: Path) -> None:
    """The file still has the old name; at the next start it is the same field, under the name mail gave it."""
    crew = Crew(tmp_path, noon(7, 8))
    known = crew.parts.store.fields("crew")[1]
    (row,) = crew.parts.store._db.query("select id, aliases from fields where id = ?", [known.id])
    aliases = json.dumps([*json.loads(row["aliases"]), known.name])
    crew.parts.store._db.execute("update fields set name = 'Corner', aliases = ? where id = ?", [aliases, known.id])
    crew.parts.store._db.conn.commit()
    crew.close()
    again = Crew(tmp_path, noon(7, 9))
    names = [field.name for field in again.parts.store.fields("crew")]
    again.close()

    assert len(names) == 3
    assert "Corner" in names
