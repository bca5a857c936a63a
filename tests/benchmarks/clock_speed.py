"""How long the clock takes: one field on one core, and a whole crew's fields on all of them.

    python -m tests.benchmarks.clock_speed [fields] [workers]

Set OMP_NUM_THREADS=1 to keep one core one core.
"""

from __future__ import annotations

import multiprocessing
import resource
import sys
import time
from datetime import date, timedelta
from functools import cache

import numpy as np

from notes_bot.model import Climate, DayTemperature, Females, History, Note, Visit
from notes_bot.outlook import foresee
from notes_bot.weather import climate_at

AS_OF = date(2024, 7, 3)


@cache
def temperatures() -> tuple[DayTemperature, ...]:
    draw = np.random.default_rng(4)
    start = date(2024, 4, 1)
    rows = []
    for i in range((AS_OF - start).days + 8):
        day = start + timedelta(days=i)
        middle = 9 + 0.15 * i + 3 * draw.normal()
        rows.append(DayTemperature(day, middle - 6, middle + 6, forecast=day > AS_OF))
    return tuple(rows)


@cache
def climate() -> Climate:
    return climate_at(42.0, -93.5)


def history(number: int) -> History:
    """A field with none, one, two or three visits by colour, no two alike."""
    draw = np.random.default_rng(number)
    planted = date(2024, 5, 1) + timedelta(days=int(draw.integers(0, 25)))
    visits = []
    for i in range(number % 4):
        on = AS_OF - timedelta(days=10 * (number % 4 - 1 - i) + int(draw.integers(0, 3)))
        shares = draw.dirichlet((4 - i, 2, 1, 0.5 + i))
        counts = tuple(int(n) for n in draw.multinomial(int(draw.integers(0, 60)), shares))
        outcome = "seen" if sum(counts) else "none_seen"
        note = Note(plants=6, method="shovel", females=Females(*counts, sum(counts)), outcome=outcome)
        visits.append(Visit(i, number, on, note, 1))
    return History(42.0, -93.5, planted, visits=tuple(visits))


def one(number: int) -> str:
    return foresee(history(number), temperatures(), climate(), AS_OF).stage


def milliseconds(fields: int = 100) -> float:
    """Processor time of one field, mean over fields of none to three visits."""
    known = [history(i) for i in range(fields)]
    for i in range(4):
        one(i)
    start = time.process_time()
    for case in known:
        foresee(case, temperatures(), climate(), AS_OF)
    return 1000 * (time.process_time() - start) / fields


def main() -> None:
    fields = int(sys.argv[1]) if len(sys.argv) > 1 else 10_000
    workers = int(sys.argv[2]) if len(sys.argv) > 2 else multiprocessing.cpu_count()
    sys.stdout.write(f"one field, one core: {milliseconds():.1f} ms\n")
    start = time.perf_counter()
    with multiprocessing.Pool(workers) as pool:
        for _ in pool.imap_unordered(one, range(fields), chunksize=50):
            pass
    took = time.perf_counter() - start
    own = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    child = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss
    sys.stdout.write(
        f"{fields} fields, {workers} workers: {took:.1f} s, {(own + workers * child) / 1024:.0f} MB at most\n"
    )


if __name__ == "__main__":
    main()
