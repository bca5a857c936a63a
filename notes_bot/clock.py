"""The only module that asks what time it is."""

from __future__ import annotations

from datetime import UTC, date, datetime


def now() -> datetime:
    """The present instant, aware, in UTC."""
    return datetime.now(UTC)


def today() -> date:
    """The present day in UTC; callers that know a person use that person's zone instead."""
    return now().date()
