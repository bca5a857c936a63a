"""What is compiled from the word files is kept between runs, and nothing depends on it."""

from __future__ import annotations

import errno
import subprocess
import sys
from pathlib import Path

import platformdirs
import pytest

from notes_bot.language.lexicon import kept, words
from notes_bot.model import LANGUAGES


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A cache folder of the test's own, not made yet."""
    own = tmp_path / "cache"
    monkeypatch.setattr(platformdirs, "user_cache_path", lambda name: own / name)
    return own / "notes_bot"


def _made() -> list[str]:
    raise AssertionError("made anew")


def test_what_was_made_is_found_again(folder: Path) -> None:
    assert kept.kept("some", lambda: ["a"]) == ["a"]
    assert kept.kept("some", _made) == ["a"]
    assert [file.name for file in folder.iterdir()] == ["some"]


@pytest.mark.parametrize("part", [slice(0), slice(70), slice(-1), slice(1, None)])
def test_damaged_or_cut_short_it_is_made_anew(folder: Path, part: slice) -> None:
    kept.kept("some", lambda: ["a"] * 40)
    (folder / "some").write_bytes((folder / "some").read_bytes()[part])

    assert kept.kept("some", lambda: ["b"]) == ["b"]
    assert kept.kept("some", _made) == ["b"]


def test_what_does_not_fit_on_the_disk_leaves_nothing(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(*_: object) -> None:
        raise OSError(errno.ENOSPC, "no space left")

    monkeypatch.setattr(Path, "replace", full)

    assert kept.kept("some", lambda: ["a"]) == ["a"]
    assert not list(folder.iterdir())


def test_of_other_words_it_is_made_anew(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    kept.kept("some", lambda: ["a"])
    monkeypatch.setattr(kept, "digest", lambda: b"another")

    assert kept.kept("some", lambda: ["b"]) == ["b"]


def test_a_folder_others_may_write_is_left_alone(folder: Path) -> None:
    folder.mkdir(parents=True)
    folder.chmod(0o777)

    assert kept.kept("some", lambda: ["a"]) == ["a"]
    assert not list(folder.iterdir())


def test_without_a_folder_all_goes_on(folder: Path) -> None:
    folder.parent.write_text("a file where the folder would be")

    assert kept.kept("some", lambda: ["a"]) == ["a"]


def test_tables_kept_are_the_tables_compiled(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    first, again = words._tables.__wrapped__(), words._tables.__wrapped__()

    assert (folder / "words.pickle").stat().st_mode & 0o077 == 0
    for language in LANGUAGES:
        made = words.compiled(language)
        for name in words.Table.__slots__:
            assert getattr(first[language], name) == getattr(again[language], name) == getattr(made, name), name


def test_a_program_without_a_home_reads_all_the_same(tmp_path: Path) -> None:
    blocked = tmp_path / "file"
    blocked.write_text("")
    run = subprocess.run(
        [sys.executable, "-m", "notes_bot", "read", "kestrel 6 plants 3 white"],
        env={"HOME": str(blocked), "XDG_CACHE_HOME": str(blocked / "cache"), "PYTHONPATH": ":".join(sys.path)},
        capture_output=True, text=True, check=True,
    )  # fmt: skip

    assert "3 white" in run.stdout
