"""Bringing the tables of an earlier release up to date: all steps in one transaction, a copy of the old file first."""

from __future__ import annotations

import os
import sqlite3
from contextlib import closing, suppress
from pathlib import Path

from sqlite_utils import Database

from notes_bot.model import DatabaseWrong
from notes_bot.store.migrations import steps


def bring_up_to_date(db: Database, path: Path | str) -> None:
    """Apply the steps that are missing. A crash in the middle leaves the old tables, whole.

    Before the first missing step a copy of the file is made beside it (``notes-before-m004_judged.db``). Two
    processes that open the file at once take turns.

    Raises:
        DatabaseWrong: the file was written by a newer release, whose tables we do not know.
        OSError, sqlite3.OperationalError: no room for the copy or the new tables; nothing was changed.
    """
    _refuse_newer(db, path)
    if not steps.pending(db):
        return
    conn = db.conn
    conn.execute("BEGIN IMMEDIATE")
    try:
        _refuse_newer(db, path)  # it may have been brought up to date, or beyond, while we waited for the lock
        missing = [step.name for step in steps.pending(db)]
        if missing and steps.applied(db):
            copy_file(path, Path(path).with_name(f"{Path(path).stem}-before-{missing[0]}.db"))
        if missing:
            steps.apply(db)
    except BaseException:
        if conn.in_transaction:
            conn.rollback()
        raise
    conn.commit()


def _refuse_newer(db: Database, path: Path | str) -> None:
    known = {step.name for step in steps._migrations}  # the library has no public list of them
    newer = [step.name for step in steps.applied(db) if step.name not in known]
    if newer:
        raise DatabaseWrong(
            f"{path} was written by a newer notes-bot (it has {newer[-1]}): install that release again, or restore"
            " the copy that was made before the upgrade"
        )


def copy_file(path: Path | str, copy: Path) -> None:
    """A whole copy of a database that may be in use; there and on the disk, or not at all.

    Raises:
        OSError, sqlite3.Error: it cannot be made.
    """
    part = copy.with_name(copy.name + ".part")
    part.unlink(missing_ok=True)
    try:
        with closing(sqlite3.connect(path)) as source, closing(sqlite3.connect(part)) as target:
            source.backup(target)
            target.execute("PRAGMA journal_mode=DELETE")
        part.chmod(0o600)
        _sync(part)
        part.replace(copy)
        _sync(copy.parent)
    except BaseException:
        with suppress(OSError):
            part.unlink(missing_ok=True)
        raise


def _sync(path: Path) -> None:
    handle = os.open(path, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
