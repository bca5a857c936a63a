"""What is compiled from the word files, kept between runs.

A listener compiles its words once; ``notes-bot read`` would at every start, and that is a third of its time. So what
was made is kept in the user's cache folder, under a digest of what it was made of: a changed word file, program or
Python makes it anew. Nothing depends on it: where the folder cannot be read or written, or what lies there is
damaged, all is compiled as before.

It is a pickle, and a pickle does what it says. It lies in the user's own folder, closed to others, as the user's
Python modules do: whoever can change the one can change the other.
"""

from __future__ import annotations

import contextlib
import gc
import hashlib
import os
import pickle
import sys
import tempfile
from collections.abc import Callable, Iterator
from functools import cache
from importlib.resources import files
from pathlib import Path
from typing import TypeVar

import platformdirs

Made = TypeVar("Made")
_PROGRAM = ("lexicon/words.py", "lexicon/scan.py", "lexicon/mending.py", "passes/asides.py", "requests/asking.py")
"""Modules that compile the word files, or make something of the tables that is kept as well."""


def kept(name: str, make: Callable[[], Made]) -> Made:
    """What was made before of the same word files, else what ``make`` makes of them now, which is then kept.

    Args:
        name: what it is called in the folder.
        make: makes it; the result can be pickled.
    """
    path = place(name)
    if path is None:
        return make()
    with contextlib.suppress(Exception):  # what a pickle of another program raises is not foreseeable
        content = path.read_bytes()
        whole = memoryview(content)[SIGNED:]
        if content[:SIGNED] == _signed(whole):
            with _uncollected():
                found: Made = pickle.loads(whole)  # noqa: S301  # our own, see above
            return found
    made = make()
    whole = memoryview(pickle.dumps(made, protocol=5))
    with contextlib.suppress(OSError):
        _write(path, _signed(whole) + bytes(whole))
    return made


SIGNED = 64
"""Bytes before what is kept: what it was made of and what it holds, in one digest."""


def _signed(whole: memoryview) -> bytes:
    """Half a page torn by a power cut is no table: the digest of what was made goes with it."""
    return hashlib.blake2b(digest() + hashlib.blake2b(whole).digest(), digest_size=SIGNED).digest()


def place(name: str) -> Path | None:
    """Where something is kept; ``None`` where no folder of the user's own can be had."""
    try:
        folder = platformdirs.user_cache_path("notes_bot")
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        status = folder.stat()
    except (OSError, RuntimeError):  # RuntimeError: a user without a home
        return None
    own = not hasattr(os, "getuid") or (status.st_uid == os.getuid() and not status.st_mode & 0o022)
    return folder / name if own else None


@cache
def digest() -> bytes:
    """What the word files, the modules that compile them and this Python come to."""
    made = hashlib.blake2b(sys.version.encode())
    words = files("notes_bot.grammar.words")
    for file in sorted((file for file in words.iterdir() if file.name.endswith(".toml")), key=lambda file: file.name):
        made.update(file.read_bytes())
    for name in _PROGRAM:
        made.update((Path(__file__).parents[1] / name).read_bytes())
    return made.digest()


@contextlib.contextmanager
def _uncollected() -> Iterator[None]:
    """Without looking for garbage meanwhile: there is none, and looking takes a third of the time."""
    was = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was:
            gc.enable()


def _write(path: Path, content: bytes) -> None:
    """The whole file or none: several programs may write it at once, and the disk may be full."""
    with tempfile.NamedTemporaryFile(dir=path.parent, delete=False) as part:
        try:
            part.write(content)
            part.flush()
            Path(part.name).replace(path)
        except OSError:
            Path(part.name).unlink()
            raise
