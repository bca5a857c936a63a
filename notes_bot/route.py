"""An order to drive a day's fields in. Straight lines between coordinates; no roads are known."""

from __future__ import annotations

import math
from collections.abc import Sequence

from notes_bot.model import Field


def driving_order(fields: Sequence[Field], infested: set[int]) -> list[Field]:
    """An order to drive: clean fields first and fields with SCN last, each part by the nearest next field.

    Fields without a place come at the end of their part, by name. Distances are straight lines.
    """
    part = [_nearest_next([f for f in fields if (f.id in infested) is last]) for last in (False, True)]
    return [*part[0], *part[1]]


def _nearest_next(fields: Sequence[Field]) -> list[Field]:
    placed = [f for f in fields if f.latitude is not None and f.longitude is not None]
    rest = sorted((f for f in fields if f not in placed), key=lambda f: f.name)
    if not placed:
        return rest
    route = [max(placed, key=lambda f: (f.latitude or 0.0, f.name))]  # start in the north, whatever the list's order
    left = [f for f in placed if f is not route[0]]
    while left:
        route.append(min(left, key=lambda f: (_distance(route[-1], f), f.name)))
        left.remove(route[-1])
    return [*_uncrossed(route), *rest]


def _uncrossed(route: list[Field]) -> list[Field]:
    """The route with crossings taken out (two-opt), up to thirty fields; longer lists stay as they are."""
    if len(route) > 30:
        return route
    better = True
    while better:
        better = False
        for i in range(len(route) - 2):
            for j in range(i + 2, len(route)):
                after = route[j + 1] if j + 1 < len(route) else None
                old = _distance(route[i], route[i + 1]) + (_distance(route[j], after) if after else 0.0)
                new = _distance(route[i], route[j]) + (_distance(route[i + 1], after) if after else 0.0)
                if new < old - 1e-9:
                    route = [*route[: i + 1], *reversed(route[i + 1 : j + 1]), *route[j + 1 :]]
                    better = True
    return route


def _distance(a: Field, b: Field) -> float:
    """Kilometres between two placed fields, near enough within a county."""
    north = (a.latitude or 0.0) - (b.latitude or 0.0)
    east = ((a.longitude or 0.0) - (b.longitude or 0.0)) * math.cos(math.radians(a.latitude or 0.0))
    return 111.2 * math.hypot(north, east)
