"""HG type, race and rating of a population from females counted on the indicator lines in pots.

FI, the female index, is 100 x mean females on a line / mean females on the susceptible check; 10 or more is
positive. A type describes a population on test lines; it does not count "types in the field".
Source keys are explained in docs/references.md, the model in docs/science/hg_type.md.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import product
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from notes_bot.science.density import COVERAGE, Density, log_likelihood, ratio_chances
from notes_bot.science.parameters import Known, Parameter

Floats = NDArray[np.float64]
Group = Literal["PI 88788", "Peking", "PI 437654"]
Rating = Literal["R", "MR", "MS", "S"]
Rule = Literal["at_least", "above"]


@dataclass(frozen=True, slots=True)
class Line:
    """One indicator line."""

    number: int
    name: str
    accession: str
    group: Group
    """Lines of a group rise together: one virulence, not several. Source: Colgrove2008."""
    source: str
    known: Known


# fmt: off
LINES: tuple[Line, ...] = (
    Line(1, "Peking", "PI 548402", "Peking", "Niblack2002, WisconsinTypes", "published"),
    Line(2, "PI 88788", "PI 88788", "PI 88788", "Niblack2002, WisconsinTypes", "published"),
    Line(3, "PI 90763", "PI 90763", "Peking", "Niblack2002, WisconsinTypes", "published"),
    Line(4, "PI 437654", "PI 437654", "PI 437654", "Niblack2002, WisconsinTypes", "published"),
    Line(5, "PI 209332", "PI 209332", "PI 88788", "Niblack2002, WisconsinTypes", "published"),
    Line(6, "PI 89772", "PI 89772", "Peking", "Niblack2002, WisconsinTypes", "published"),
    Line(7, "Cloud", "PI 548316", "PI 88788", "Niblack2002, WisconsinTypes", "published"),
)
NUMBERS = tuple(line.number for line in LINES)

TEST: dict[str, Parameter] = {
    row.name: row
    for row in (
        Parameter("positive", 10.0, 0.0, "FI", "WisconsinTypes", "published",
                  "10 or more; Zheng2006 writes more than 10, which differs only at exactly 10"),
        Parameter("check_females", 100.0, 0.0, "females a plant", "Niblack2002", "memory",
                  "least mean on the susceptible check; not confirmed"),
        Parameter("replicates", 5.0, 0.0, "plants", "IowaProtocol", "published",
                  "of the variety screening protocol; the figure of the 2002 test was not seen"),
        Parameter("pot_k", 4.0, 0.9, "", "", "judgement",
                  "clumping among pots of one line, log spread; replicates vary widely even with everything fixed "
                  "(RiggsSchmitt1991)"),
    )
}
# fmt: on

POSITIVE = TEST["positive"].value
SOURCES: Mapping[Group, int] = {"PI 88788": 2, "Peking": 1, "PI 437654": 4}
"""Sources of resistance on offer and the indicator line that stands for each."""


def is_positive(fi: float, rule: Rule = "at_least") -> bool:
    """Positive at FI 10 or more; `rule` "above" is the other published wording (Zheng2006), which differs at 10."""
    return fi >= POSITIVE if rule == "at_least" else fi > POSITIVE


def type_name(positive: Sequence[int]) -> str:
    """Numbers of the positive lines, rising, joined by dots; "0" when none is. Raises ValueError for other numbers."""
    if not set(positive) <= set(NUMBERS):
        raise ValueError("indicator lines are numbered 1 to 7")
    return ".".join(str(n) for n in sorted(set(positive))) or "0"


def positive_lines(name: str) -> tuple[int, ...]:
    """The numbers in a type's name. Raises ValueError for a name that no population can have."""
    bare = name.lower().removeprefix("hg").strip().removeprefix("type").strip()
    if bare == "0":
        return ()
    parts = [part.strip() for part in bare.split(".")]
    if not all(part.isdigit() for part in parts):
        raise ValueError(f"{name!r} is not an HG type")
    numbers = tuple(int(part) for part in parts)
    if not set(numbers) <= set(NUMBERS) or list(numbers) != sorted(set(numbers)):
        raise ValueError(f"{name!r} is not an HG type")
    return numbers


def rating(fi: float) -> Rating:
    """R below 10, MR below 30, MS to 60, S above. Source: SchmittShannon1992.

    The paper's summary does not say where exactly 30 and 60 belong; both are read as MS by convention here.
    """
    if fi < 0:
        raise ValueError("a female index cannot be negative")
    return "R" if fi < 10 else "MR" if fi < 30 else "MS" if fi <= 60 else "S"


# --- races -------------------------------------------------------------------------------------------------

_PATTERNS = {
    1: "--+-", 2: "+++-", 3: "----", 4: "++++", 5: "+-+-", 6: "+---", 7: "--++", 8: "---+",
    9: "++--", 10: "+--+", 11: "-++-", 12: "-+-+", 13: "-+--", 14: "++-+", 15: "+-++", 16: "-+++",
}  # fmt: skip
RACES: Mapping[tuple[bool, bool, bool, bool], int] = {
    (p[0] == "+", p[1] == "+", p[2] == "+", p[3] == "+"): race for race, p in _PATTERNS.items()
}
"""Race by reaction on Pickett, Peking, PI 88788, PI 90763 (RiggsSchmitt1988): pattern from memory, held against
published counts of populations; see docs/science/hg_type.md."""

FROM_MEMORY = frozenset({2, 8, 10, 11})
"""Races whose reaction on Pickett rests on memory alone."""


def race(pickett: float, peking: float, pi_88788: float, pi_90763: float) -> int:
    """Race 1-16 from the four female indices."""
    return RACES[is_positive(pickett), is_positive(peking), is_positive(pi_88788), is_positive(pi_90763)]


# --- from counts ---------------------------------------------------------------------------------------------

Counts = Sequence[float]
"""Females per plant, one number a replicate. A single mean is given with `plants`."""

_GRID = np.exp(np.linspace(math.log(0.01), math.log(5000.0), 500))
_KS = np.exp(math.log(TEST["pot_k"].value) + TEST["pot_k"].spread * np.linspace(-2.5, 2.5, 15))
_K_PRIOR = np.exp(-0.5 * np.linspace(-2.5, 2.5, 15) ** 2)


def _pots(counts: Counts, plants: int | None) -> Density:
    """Mean females per plant on one line: negative binomial between pots, flat in the logarithm of the mean."""
    means, ks = np.meshgrid(_GRID, _KS, indexing="ij")
    x = np.asarray(counts, dtype=float)
    if plants is not None and x.size == 1:
        log_l = log_likelihood(x * plants, plants * means, plants * ks)[..., 0]
    else:
        log_l = log_likelihood(x, means, ks).sum(axis=-1)
    weights = np.exp(log_l - log_l.max()) * _K_PRIOR
    chances = weights.sum(axis=1)
    return Density(_GRID, chances / chances.sum())


@dataclass(frozen=True, slots=True)
class LineIndex:
    """Female index on one line."""

    number: int
    """1-7; 0 is Pickett of the race scheme."""
    mean: float
    """Females per plant."""
    fi: float
    low: float
    high: float
    """Ends of the 80 % interval from the replicates of line and check."""
    positive: bool
    chance_positive: float
    uncertain: bool
    """True when the chance of being positive lies between 10 and 90 %."""
    at_limit: bool
    """True at exactly 10, where the two published wordings differ."""
    plants: int
    rating: Rating


@dataclass(frozen=True, slots=True)
class HgTest:
    """What a test says. `name` is ``None`` when it cannot be rated; `would_read` says what the numbers alone give."""

    check_mean: float
    check_plants: int
    lines: tuple[LineIndex, ...]
    not_tested: tuple[int, ...]
    name: str | None
    would_read: str | None
    troubles: tuple[str, ...]
    """Keys: no_females_on_check, check_low, few_replicates, means_only, partial."""
    chances: tuple[tuple[str, float], ...]
    """Likeliest names, given the lines tested, most likely first; the numbers' own name need not be first."""
    race: int | None
    pickett: LineIndex | None


EDGE = 0.1
"""A line whose chance of being positive is between this and one minus this is called uncertain. Judgement."""


def read_test(
    check: Counts,
    lines: Mapping[int, Counts],
    *,
    pickett: Counts | None = None,
    plants: int | None = None,
) -> HgTest:
    """Read a test from females per plant on the check and on each indicator line (by number, 1-7).

    A single number a line is its mean over `plants` replicates (taken as 5 when that is not said). Raises ValueError
    for empty or negative counts and for line numbers outside 1-7.
    """
    every = [check, *lines.values(), *([pickett] if pickett is not None else [])]
    if any(len(c) == 0 or min(c) < 0 for c in every):
        raise ValueError("every line needs counts that are not negative")
    if not set(lines) <= set(NUMBERS):
        raise ValueError("indicator lines are numbered 1 to 7")
    single = all(len(c) == 1 for c in every)
    told = plants if single else None
    assumed = int(TEST["replicates"].value) if single and plants is None else told
    mean = float(np.mean(check))
    behind = assumed or len(check)
    not_tested = tuple(n for n in NUMBERS if n not in lines)
    troubles: list[str] = []
    if mean == 0:
        return HgTest(0.0, behind, (), not_tested, None, None, ("no_females_on_check",), (), None, None)
    if mean < TEST["check_females"].value:
        troubles.append("check_low")
    if single and plants is None:
        troubles.append("means_only")
    if min(assumed or len(c) for c in every) < TEST["replicates"].value:
        troubles.append("few_replicates")
    if not_tested:
        troubles.append("partial")
    base = _pots(check, assumed)
    spread = {n: _pots(c, assumed) for n, c in lines.items()}
    indices = tuple(_index(n, lines[n], spread[n], mean, base, assumed) for n in sorted(lines))
    pick = _index(0, pickett, _pots(pickett, assumed), mean, base, assumed) if pickett is not None else None
    reads = type_name([i.number for i in indices if i.positive])
    valid = "check_low" not in troubles
    fi = {i.number: i.fi for i in indices}
    raced = valid and pick is not None and {1, 2, 3} <= set(fi)
    return HgTest(
        check_mean=mean,
        check_plants=behind,
        lines=indices,
        not_tested=not_tested,
        name=reads if valid and not not_tested else None,
        would_read=reads,
        troubles=tuple(troubles),
        chances=_names(spread, base) if valid else (),
        race=race(pick.fi, fi[1], fi[2], fi[3]) if raced and pick is not None else None,
        pickett=pick,
    )


def _index(number: int, counts: Counts, pots: Density, mean: float, base: Density, plants: int | None) -> LineIndex:
    own = float(np.mean(counts))
    fi = 100.0 * own / mean
    ratio = Density(*ratio_chances(pots, base))
    low, _, high = ratio.interval(COVERAGE)
    chance = ratio.chance_above(POSITIVE / 100.0)
    return LineIndex(
        number=number,
        mean=own,
        fi=fi,
        low=0.0 if own == 0 else 100.0 * low,
        high=100.0 * high,
        positive=is_positive(fi),
        chance_positive=chance,
        uncertain=EDGE < chance < 1.0 - EDGE,
        at_limit=math.isclose(fi, POSITIVE, rel_tol=1e-9),
        plants=plants or len(counts),
        rating=rating(fi),
    )


def _names(spread: Mapping[int, Density], base: Density, most: int = 4) -> tuple[tuple[str, float], ...]:
    """Chances of the names: lines are independent once the check's mean, which all share, is given."""
    numbers = sorted(spread)
    step = math.log(base.means[1] / base.means[0])
    shift = math.log(POSITIVE / 100.0) / step
    # chance that line n lies above a tenth of each possible mean of the check
    places = np.arange(base.means.size) + shift
    above = {
        n: 1.0 - np.interp(places, np.arange(d.means.size), np.cumsum(d.chances) - d.chances / 2.0)
        for n, d in spread.items()
    }
    total = {}
    for signs in product((False, True), repeat=len(numbers)):
        weight = base.chances
        for n, sign in zip(numbers, signs, strict=True):
            weight = weight * (above[n] if sign else 1.0 - above[n])
        total[type_name([n for n, sign in zip(numbers, signs, strict=True) if sign])] = float(weight.sum())
    ranked = sorted(total.items(), key=lambda item: -item[1])
    return tuple(item for item in ranked[:most] if item[1] >= 0.01)


# --- what it means for the sources on offer ---------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class SourceOutlook:
    """One source of resistance against this population."""

    source: Group
    line: int
    fi: float | None
    """On its own line; ``None`` when that was not tested."""
    standing: Literal["holds", "uncertain", "partly", "broken", "not_tested"]
    """FI surely below 10, near it, 10-30, above 30. Source of the limits: SchmittShannon1992."""
    group_positive: tuple[int, ...]
    """Other positive lines of its group."""


def sources(test: HgTest) -> tuple[SourceOutlook, ...]:
    """How each source stands, best first. A variety holds no better than its source's line, and often worse."""
    by_number = {index.number: index for index in test.lines}
    out = []
    for name, number in SOURCES.items():
        index = by_number.get(number)
        group = tuple(
            line.number
            for line in LINES
            if line.group == name and line.number != number and line.number in by_number
            and by_number[line.number].positive
        )  # fmt: skip
        standing: Literal["holds", "uncertain", "partly", "broken", "not_tested"]
        if index is None:
            standing = "not_tested"
        elif index.uncertain:
            standing = "uncertain"
        else:
            standing = "holds" if index.fi < 10 else "partly" if index.fi < 30 else "broken"
        out.append(SourceOutlook(name, number, index.fi if index else None, standing, group))
    return tuple(sorted(out, key=lambda s: (s.fi is None, s.fi or 0.0)))


@dataclass(frozen=True, slots=True)
class Survey:
    """Share of a place's populations with FI of 10 or more on a line."""

    place: str
    when: str
    source_of_resistance: Group
    share: float
    populations: int | None
    source: str
    known: Known = "published"


SURVEYS: tuple[Survey, ...] = (
    Survey("Missouri", "2016", "PI 88788", 1.00, 28, "MissouriSurvey2016"),
    Survey("Missouri", "2016", "Peking", 0.43, 28, "MissouriSurvey2016"),
    Survey("Indiana", "2006-08", "PI 88788", 0.56, None, "Indiana2023"),
    Survey("Indiana", "2006-08", "Peking", 0.00, None, "Indiana2023"),
    Survey("Indiana", "2020", "PI 88788", 0.88, 42, "Indiana2023"),
    Survey("Indiana", "2020", "Peking", 0.14, 42, "Indiana2023"),
    Survey("Wisconsin", "about 2010", "PI 88788", 0.78, 150, "WisconsinTypes"),
    Survey("Illinois", "2025", "PI 88788", 0.70, None, "IllinoisBond2025"),
    Survey("Kentucky", "2006", "PI 88788", 0.60, None, "KentuckySampling"),
    Survey("South Dakota", "2014-15", "PI 88788", 0.30, 50, "SouthDakota2015"),
    Survey("North Dakota", "2015-17", "PI 88788", 0.25, 73, "NorthDakota2017"),
    Survey("Minnesota", "2002", "PI 88788", 0.17, 94, "Zheng2006"),
    Survey("Minnesota", "2002", "Peking", 0.011, 94, "Zheng2006"),
)
"""Newest and earlier surveys; the last row of a place and source is its newest. "About 2010" is judgement."""


def survey(place: str | None, source: Group) -> Survey | None:
    """The newest survey of that very place for that source, or ``None``."""
    return next((s for s in reversed(SURVEYS) if s.place == place and s.source_of_resistance == source), None)
