"""Passwords of the listener: hashed, slow to guess, cheap to refuse."""

from __future__ import annotations

import hashlib
import io
import sys
from base64 import b64encode
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from notes_bot.cli import main
from notes_bot.mail import passwords
from notes_bot.mail.passwords import MOST_WRONG_A_PEER, Logins, fits, hash_password, is_hash
from notes_bot.settings import PASSWORD, STARTER

NOW = datetime(2026, 7, 6, 19, 0, tzinfo=UTC)
HASHED = hash_password("a long toy password", b"sixteen toy salt")


def test_a_password_fits_its_own_hash_and_no_other() -> None:
    """And two hashes of one password differ by their salt."""
    assert fits(b"a long toy password", HASHED)
    assert not fits(b"a long toy passwore", HASHED)
    assert hash_password("x") != hash_password("x")
    for broken in ("", "scrypt:14:::", HASHED[:-3], "plain password", HASHED.replace("14", "99")):
        assert not fits(b"a long toy password", broken)
        assert not is_hash(broken)


def test_the_hash_is_scrypt_as_the_rfc_has_it() -> None:
    """RFC 7914, section 12: "pleaseletmein", "SodiumChloride", N = 16384, r = 8, p = 1 starts 70 23 bd cb."""
    published = bytes.fromhex("7023bdcb3afd7348461c06cd81fd38ebfda8fbba904f8e3ea9b543f6545da1f2")
    made = hash_password("pleaseletmein", b"SodiumChloride").rpartition(":")[2]

    # The RFC's 64 bytes are one PBKDF2 run: its first 32 are those of a 32-byte key.
    assert made == b64encode(published).decode()
    assert hashlib.scrypt(b"pleaseletmein", salt=b"SodiumChloride", n=16384, r=8, p=1, dklen=64)[:32] == published


def test_settings_and_the_listener_agree_on_what_a_hash_is() -> None:
    """The pattern stands in both rooms, which do not know each other."""
    assert PASSWORD.pattern.replace("(", "").replace(")", "") == passwords._SHAPE.pattern.replace("(", "").replace(
        ")", ""
    )


def test_wrong_passwords_are_counted_by_peer_and_then_not_even_looked_at(monkeypatch: pytest.MonkeyPatch) -> None:
    """Whoever knows the password may come in again after ten minutes, and everybody else at once."""
    looked: list[bytes] = []
    real = passwords.fits
    monkeypatch.setattr(passwords, "fits", lambda given, hashed: looked.append(given) or real(given, hashed))
    clock = [NOW]
    logins = Logins({"scout@crew.example": HASHED}, lambda: clock[0])
    answers = [logins.check(b"scout@crew.example", b"guess", "192.0.2.6") for _ in range(MOST_WRONG_A_PEER + 20)]

    assert answers == ["wrong"] * MOST_WRONG_A_PEER + ["later"] * 20
    assert len(looked) == MOST_WRONG_A_PEER
    assert logins.check(b"scout@crew.example", b"a long toy password", "192.0.2.6") == "later"
    assert logins.check(b"Scout@crew.example", b"a long toy password", "192.0.2.7") == "right"
    assert logins.check(b"nobody", b"a long toy password", "192.0.2.8") == "wrong"
    clock[0] = NOW + timedelta(minutes=11)
    assert logins.check(b"scout@crew.example", b"a long toy password", "192.0.2.6") == "right"


def test_a_right_password_is_slow_once_and_a_changed_one_is_looked_at(monkeypatch: pytest.MonkeyPatch) -> None:
    """A phone that logs in for every note does not keep the listener busy."""
    looked: list[bytes] = []
    real = passwords.fits
    monkeypatch.setattr(passwords, "fits", lambda given, hashed: looked.append(given) or real(given, hashed))
    logins = Logins({"scout": HASHED}, lambda: NOW)
    for _ in range(10):
        assert logins.check(b"scout", b"a long toy password", "192.0.2.7") == "right"
    assert logins.check(b"scout", b"", "192.0.2.7") == "wrong"

    assert looked == [b"a long toy password", b""]


def test_the_command_makes_a_line_for_the_settings(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """From standard input; short ones are refused."""
    monkeypatch.setattr(sys, "stdin", io.StringIO("a long toy password\n"))
    assert main(["password"]) == 0
    assert fits(b"a long toy password", capsys.readouterr().out.strip())
    monkeypatch.setattr(sys, "stdin", io.StringIO("short\n"))
    assert main(["password"]) == 2
    assert "at least 10" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("lines", "told"),
    [
        ('logins = { "scout1@crew.example" = "%s" }', "needs certificate and key: a password must not travel"),
        ("require_tls = true", "without them no client can start TLS"),
        ('certificate = "c"\nkey = "k"\nlogins = { "scout1@crew.example" = "x" }', "make one with  notes-bot password"),
        ("logins = [1]", "write a table of names and texts"),
        ('certificate = "c.pem"\nkey = "k.pem"', "mail_in.certificate or key cannot be used"),
        ('certificate = "{cert}"\nkey = "{cert}"', "mail_in.certificate or key cannot be used"),
        ('certificate = "{cert}"\nkey = "{key}"\nlogins = { "phone" = "%s" }', "no address of anybody in the crew"),
        ('host = "0.0.0.0"', 'write believe = "proof"'),
    ],
)  # fmt: skip
def test_check_explains_what_is_wrong_with_the_door(
    lines: str, told: str, tmp_path: Path, certificate: tuple[Path, Path], capsys: pytest.CaptureFixture[str]
) -> None:
    """Certificates that do not fit, passwords in the clear, a door believed that others reach."""
    lines = lines.replace("%s", HASHED).replace("{cert}", str(certificate[0])).replace("{key}", str(certificate[1]))
    settings = tmp_path / "notes-bot.toml"
    starter = STARTER.replace('host = "127.0.0.1"\n', "", 1) if lines.startswith("host") else STARTER
    settings.write_text(starter.replace("[mail_in]", f"[mail_in]\n{lines}\n#", 1), "utf-8")

    assert main(["check", "--settings", str(settings)]) in (1, 2)
    said = capsys.readouterr()
    assert told in said.out + said.err


def test_check_is_content_with_a_door_that_is_right(
    tmp_path: Path, certificate: tuple[Path, Path], capsys: pytest.CaptureFixture[str]
) -> None:
    """Exit status 0 and not a word of complaint."""
    lines = f'certificate = "{certificate[0]}"\nkey = "{certificate[1]}"\nrequire_tls = true\n'
    lines += f'logins = {{ "scout1@crew.example" = "{HASHED}" }}'
    settings = tmp_path / "notes-bot.toml"
    settings.write_text(STARTER.replace("[mail_in]", f"[mail_in]\n{lines}\n#", 1), "utf-8")

    assert main(["check", "--settings", str(settings)]) == 0
    assert "in order" in capsys.readouterr().out
