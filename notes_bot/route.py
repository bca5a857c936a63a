"""An order to drive a day's fields in. Straight lines between coordinates; no roads are known."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from notes_bot.model import Field

MOST_UNCROSSED = 30
"""Longer lists keep the order of the nearest next field."""


def driving_order(fields: Sequence[Field], infested: set[int]) -> list[Field]:
    """An order to drive: clean fields first and fields with SCN last, each part by the nearest next field.

    The way to the fields with SCN goes on from the last clean one. Fields without a place come at the end of their
    part, by name. Distances are straight lines.
    """
    clean = _nearest_next([f for f in fields if f.id not in infested])
    placed = [f for f in clean if _placed(f)]
    return [*clean, *_nearest_next([f for f in fields if f.id in infested], placed[-1] if placed else None)]


def way_km(order: Sequence[Field]) -> float:
    """Kilometres of straight lines through the fields with a place, in the order given."""
    return sum(_distance(a, b) for a, b in pairwise(f for f in order if _placed(f)))


def _placed(known: Field) -> bool:
    return known.latitude is not None and known.longitude is not None


def _nearest_next(fields: Sequence[Field], after: Field | None = None) -> list[Field]:
    """The fields from ``after`` on, or from the northernmost where nothing comes before."""
    rest = sorted((f for f in fields if not _placed(f)), key=lambda f: f.name)
    left = sorted((f for f in fields if _placed(f)), key=lambda f: (-(f.latitude or 0.0), f.name))
    route = [left.pop(0)] if left and after is None else []
    while left:
        last = route[-1] if route else after
        nearest = min(left, key=lambda f: (_distance(last, f), f.name))
        route.append(nearest)
        left.remove(nearest)
    return [*_uncrossed(route, after), *rest]


def _uncrossed(route: list[Field], after: Field | None) -> list[Field]:
    """The route with crossings taken out: each stretch is turned round where that makes the way shorter (two-opt)."""
    if len(route) > MOST_UNCROSSED:
        return route
    better = True
    while better:
        better = False
        for i in range(len(route) - 1):
            before = route[i - 1] if i else after
            for j in range(i + 1, len(route)):
                following = route[j + 1] if j + 1 < len(route) else None
                old = _distance(before, route[i]) + _distance(route[j], following)
                new = _distance(before, route[j]) + _distance(route[i], following)
                if new < old - 1e-9:
                    route = [*route[:i], *reversed(route[i : j + 1]), *route[j + 1 :]]
                    better = True
    return route


def _distance(a: Field | None, b: Field | None) -> float:
    """Kilometres between two placed fields, near enough within a county; 0 from or to nowhere."""
    if a is None or b is None:
        return 0.0
    north = (a.latitude or 0.0) - (b.latitude or 0.0)
    east = ((a.longitude or 0.0) - (b.longitude or 0.0)) * math.cos(math.radians(a.latitude or 0.0))
    return 111.2 * math.hypot(north, east)
