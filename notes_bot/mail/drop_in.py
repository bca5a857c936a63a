"""The drop folder: text messages that a gateway's daemon on this machine writes as files.

A file is taken when two turns in a row see it unchanged, so a daemon that writes in place is waited for; one
that writes under a hidden name and renames is taken as soon. It is removed only after it is safely kept; a
crash in between shows it again, and the desk recognises it.
"""

from __future__ import annotations

import logging
import os
import re
import stat
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import datetime
from pathlib import Path

from notes_bot.mail.opening import phone_number, read_dropped

log = logging.getLogger(__name__)

MOST_BYTES = 256 * 1024
UNFINISHED = (".part", ".tmp", ".new", "~")
REFUSED = "refused"
"""Sub-folder for files that cannot be messages: too big, not a plain file, without a number."""

_NUMBER_IN_NAME = re.compile(r"(?:^|_)(\+?[0-9]{7,15})(?=_|\.|$)")


@dataclass
class DropFolder:
    """``keep`` is ``store.Inbox.keep``. Belongs to one thread."""

    folder: Path
    keep: Callable[..., int]
    now: Callable[[], datetime]
    _seen: dict[str, tuple[int, int, int]] = field(default_factory=dict, init=False, repr=False)

    def turn(self) -> int:
        """Take every finished file once; gives the number of messages kept.

        Raises:
            OSError: the folder cannot be read.
            Exception: whatever ``keep`` raises; the file stays and is tried again.
        """
        self.folder.mkdir(parents=True, exist_ok=True)
        there: dict[str, tuple[int, int, int]] = {}
        for entry in os.scandir(self.folder):
            if entry.name.startswith(".") or entry.name.endswith(UNFINISHED) or entry.is_dir(follow_symlinks=False):
                continue
            about = entry.stat(follow_symlinks=False)
            there[entry.name] = (about.st_ino, about.st_size, about.st_mtime_ns)
        ready = sorted(name for name, about in there.items() if self._seen.get(name) == about)
        self._seen = there
        return sum(self._take(self.folder / name) for name in ready)

    def _take(self, path: Path) -> bool:
        raw = self._content(path)
        if raw is None:
            return False
        number = read_dropped(raw)[0] or _number_in(path.name)
        if not number:
            self._refuse(path, "no number in it or in its name")
            return False
        self.keep(raw, door="drop", peer=path.name, envelope_from=number, envelope_to=(), arrived_at=self.now())
        path.unlink(missing_ok=True)
        self._seen.pop(path.name, None)
        return True

    def _content(self, path: Path) -> bytes | None:
        """The bytes of a plain file of sensible size; links and pipes are never followed or read."""
        try:
            handle = os.open(path, os.O_RDONLY | os.O_NOFOLLOW | os.O_NONBLOCK)
        except FileNotFoundError:
            return None
        except OSError as error:
            self._refuse(path, str(error.strerror))
            return None
        with os.fdopen(handle, "rb") as file:
            about = os.fstat(handle)
            if not stat.S_ISREG(about.st_mode) or about.st_size > MOST_BYTES:
                self._refuse(path, "not a plain file" if not stat.S_ISREG(about.st_mode) else "too big")
                return None
            return file.read(MOST_BYTES + 1) if about.st_size else None

    def _refuse(self, path: Path, why: str) -> None:
        log.warning("dropped file %s: %s; moved to %s", path.name, why, REFUSED)
        aside = self.folder / REFUSED
        aside.mkdir(exist_ok=True)
        path.rename(aside / path.name)


def _number_in(name: str) -> str:
    """The number in a file name such as ``IN20260706_190000_00_+15155550101_00.txt`` or ``+15155550101.txt``."""
    for found in _NUMBER_IN_NAME.finditer(name):
        if found[1].startswith("+"):
            return phone_number(found[1])
    plain = [found[1] for found in _NUMBER_IN_NAME.finditer(name) if not name.startswith("IN" + found[1])]
    return phone_number(plain[0]) if plain else ""
