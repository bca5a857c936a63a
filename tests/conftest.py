"""Fixtures every test may use: a demo message by name, a played season, an option to rewrite the expected answers."""

from __future__ import annotations

from pathlib import Path

import pytest

DEMO = Path(__file__).parents[1] / "demo_messages"
REPLIES = Path(__file__).parent / "replies"


def pytest_addoption(parser):
    parser.addoption("--write-replies", action="store_true", help="rewrite tests/replies from what is answered now")


@pytest.fixture
def demo():
    """Gives the raw bytes of a demo message by its stem."""
    return lambda stem: (DEMO / f"{stem}.eml").read_bytes()
