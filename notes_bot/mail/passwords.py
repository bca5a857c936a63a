"""Passwords for the listener: kept as scrypt hashes, checked a bounded number of times."""

from __future__ import annotations

import base64
import binascii
import hashlib
import hmac
import re
import secrets
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from typing import Literal

COST = 14
"""log2 of scrypt's N: about 16 MiB and some tens of milliseconds a try (RFC 7914 with r = 8, p = 1)."""
SALT_BYTES = 16
LEAST_LENGTH = 10
_SHAPE = re.compile(r"scrypt:(1[2-8]):([A-Za-z0-9+/=]{16,64}):([A-Za-z0-9+/=]{43,44})")

WINDOW = timedelta(minutes=10)
MOST_WRONG_A_PEER = 5
MOST_WRONG_IN_ALL = 100
"""Wrong passwords within ``WINDOW``: beyond them nothing is checked, so that guessing costs us nothing."""


def hash_password(password: str, salt: bytes | None = None) -> str:
    """One line that may stand in a settings file: ``scrypt:14:<salt>:<hash>``, both in base64."""
    salt = secrets.token_bytes(SALT_BYTES) if salt is None else salt
    made = _scrypt(password.encode("utf-8"), salt, COST)
    return f"scrypt:{COST}:{base64.b64encode(salt).decode()}:{base64.b64encode(made).decode()}"


def is_hash(text: str) -> bool:
    """Does this look like what ``hash_password`` makes?"""
    return _SHAPE.fullmatch(text) is not None


def fits(password: bytes, hashed: str) -> bool:
    """Is this the password? Never raises; a hash that cannot be read fits nothing."""
    match = _SHAPE.fullmatch(hashed)
    if match is None:
        return False
    try:
        salt, wanted = base64.b64decode(match[2], validate=True), base64.b64decode(match[3], validate=True)
    except (binascii.Error, ValueError):
        return False
    return hmac.compare_digest(_scrypt(password, salt, int(match[1])), wanted)


def _scrypt(password: bytes, salt: bytes, cost: int) -> bytes:
    return hashlib.scrypt(password, salt=salt, n=1 << cost, r=8, p=1, dklen=32, maxmem=256 * (1 << cost) * 8)


@dataclass
class Logins:
    """Users and hashed passwords. Used from one event loop; a right password is remembered, so it is slow once."""

    users: Mapping[str, str]
    now: Callable[[], datetime]
    _wrong: list[tuple[datetime, str]] = field(default_factory=list, init=False, repr=False)
    _right: dict[str, bytes] = field(default_factory=dict, init=False, repr=False)
    _key: bytes = field(default_factory=lambda: secrets.token_bytes(32), init=False, repr=False)
    _nobody: str = field(default_factory=lambda: hash_password(secrets.token_hex(16)), init=False, repr=False)

    def check(self, user: bytes, password: bytes, peer: str) -> Literal["right", "wrong", "later"]:
        """later: too many wrong ones lately, from this peer or in all; nothing was checked."""
        name, mark = user.decode("utf-8", "replace").lower(), hmac.digest(self._key, password, "sha256")
        if hmac.compare_digest(self._right.get(name, b""), mark):
            return "right"
        at = self.now()
        self._wrong = [(when, who) for when, who in self._wrong if when <= at < when + WINDOW]
        from_peer = sum(who == peer for _, who in self._wrong)
        if from_peer >= MOST_WRONG_A_PEER or len(self._wrong) >= MOST_WRONG_IN_ALL:
            return "later"
        # A name that nobody has takes as long as a wrong password.
        if fits(password, self.users.get(name, self._nobody)) and name in self.users:
            self._right[name] = mark
            return "right"
        self._wrong.append((at, peer))
        return "wrong"
