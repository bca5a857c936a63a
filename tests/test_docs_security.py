"""The security page names tests that exist: it cannot fall behind them."""

from __future__ import annotations

import re
from pathlib import Path

TESTS = Path(__file__).parent
PAGE = TESTS.parent / "docs" / "security.md"


def test_every_test_named_on_the_security_page_exists() -> None:
    """File and function; ``…::`` stands for the file named before it."""
    file, count = "", 0
    for name, function in re.findall(r"`(test_\w+\.py|…)(?:::(test_\w+))?`", PAGE.read_text("utf-8")):
        file = name if name != "…" else file
        source = (TESTS / file).read_text("utf-8")
        assert not function or f"def {function}(" in source, (file, function)
        count += 1

    assert count > 40
