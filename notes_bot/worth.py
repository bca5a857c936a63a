"""What the latest look is worth: joins what is kept of a field with the science of looking.

Pure: takes a `History` and, for each visit, the chance that females could be visible that day (the clock gives
it), returns a `Finding`. No clock, no chance, no files. Every key it can state is listed in `FACT_KEYS`,
`CHANGE_KEYS`, `CLUE_KEYS` and `CAUSE_KEYS`; the reply room has the words.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any, Literal

import numpy as np
from numpy.typing import NDArray

from notes_bot import noted
from notes_bot.model import (
    Change,
    Fact,
    Finding,
    History,
    Interval,
    LookAdvice,
    LookAlike,
    LookPlan,
    LookTold,
    Method,
    Moisture,
    Note,
    Resistance,
    ResistanceWatch,
    SpotDensity,
    Visit,
)
from notes_bot.own_trial import figures
from notes_bot.science import density, detection, look_alikes, virulence
from notes_bot.science.clues import CAUSE_KEYS, CLUE_KEYS
from notes_bot.science.growth_stage import reproductive_stage, vegetative_node

Floats = NDArray[np.float64]
Verdict = Literal["seen", "too_early", "too_weak", "thin", "fair", "strong", "not_looked", "too_late"]

FACT_KEYS: dict[str, Mapping[str, Any]] = {
    # Finding.settle: what would settle a doubtful "none seen", cheapest first
    "say_plants": {},  # the note did not say how many plants: tell it
    "come_back_when_visible": {"chance_percent": 10},  # too early: dates are the look-again window's
    "after_rain": {},  # come back after rain: roots tear off in dry hard ground
    "when_soil_dries": {},  # too wet and sticky to see anything
    "use_shovel": {},  # dig, do not pull
    "soak_roots": {},  # swirl the roots in a bucket of water, let them dry a few minutes
    "dig_more": {"plants": 8, "percent": 90, "places": 4},  # so many more plants, at so many places
    "more_places": {"places": 4},  # same number of plants, spread over more places
    "pinch_test": {"count": 1},  # few seen: pinch what was taken for a female; it pops, grit does not
    "soil_sample": {"when": "now"},  # when: "now", "after_harvest"
    # Finding.separating_check: the one cheapest check for the two likeliest causes
    "dig_in_and_out": {"first": "scn", "second": "iron"},  # dig inside the bad spot and in good beans beside it
    "soil_test_at_spot": {"first": "iron", "second": "scn"},  # pH, carbonate and salts where it is yellow
    "soil_and_leaf_k": {"first": "potassium", "second": "scn"},
    "leaf_test": {"first": "manganese", "second": "iron", "element": "Mn"},  # element: "Mn", "Zn", "K"
    "cut_nodules": {"first": "nitrogen", "second": "scn"},  # count nodules of 2 mm and up, cut for pink
    "wait_for_new_leaves": {"first": "glyphosate_flash", "second": "scn", "days": 12},  # days until 3 weeks from spray
    "spray_record": {"first": "als_injury", "second": "dicamba"},
    "split_stem": {"first": "sds", "second": "bsr"},  # colour of pith and wood
    "look_at_stem_base": {"first": "phytophthora", "second": "rhizoctonia"},  # band, sunken spot, specks
    "spade_root_shape": {"first": "compaction", "second": "scn"},  # roots sideways, hard layer
    "look_at_dawn": {"first": "drought", "second": "scn"},  # and after rain
    "look_under_leaves": {"first": "aphid", "second": "spider_mites"},
    "tap_on_paper": {"first": "spider_mites", "second": "drought"},
    "rub_swellings": {"first": "root_knot", "second": "scn"},  # galls stay, females come off
    "where_water_stood": {"first": "waterlogging", "second": "scn"},
    "ask_field_history": {"first": "nitrogen", "second": "carryover"},  # crop and product of last year
    # Finding.cautions
    "entry_closed": {"until": None, "hours": 12.0},  # until: aware datetime or None; hours as the note stated
    "clean_boots_and_spade": {},  # wet soil, or females found: soil moves, clean before the next field
    "infested_last": {},  # females found: clean fields first, this one last
    "ask_before_digging": {},  # near marked lines
    "thunder": {},  # the note speaks of thunder or lightning
    "road": {},  # the note speaks of a road or its shoulder
    "heat": {"tmax_c": 35},  # hot on the day of the note, or expected in the next days
    "potash_no_cure": {},  # potassium and nematode both: potash feeds the crop, it does not lower the nematode
    "no_soil_over_borders": {},  # with a soil sample: ask the lab before mailing soil out of state or abroad
    "count_is_least": {},  # "too many to count": the number is a lower bound
    "brown_fall_off": {},  # many tan and brown: some have fallen off, the count is low
    "places_differ": {"most": "oval", "least": "good beans"},  # not averaged
    # ResistanceWatch.reasons
    "above_alarm": {"per_root": 22.0, "alarm_low": 10, "alarm_high": 20},  # published field alarm, white females a root
    "below_alarm": {"per_root": 1.8, "alarm_low": 10, "alarm_high": 20},
    "near_alarm": {"per_root": 12.0, "alarm_low": 10, "alarm_high": 20},
    "against_check": {"percent": 3.0, "low": 2.0, "high": 5.0, "holding_below": 10, "slipping_above": 30},
    "no_check_strip": {},  # low numbers could also mean few nematodes
    "check_strip_low": {"per_root": 2.0},  # the susceptible strip carries few too: no pressure to judge by
    "too_few_plants": {"plants": 3},
    "weak_method": {},  # pulled or dry: the count is low for that reason alone
    "early_in_season": {},  # females are only starting to show
    "not_greenhouse_index": {},  # a field ratio is not a greenhouse female index
    "sample_for_hg_type": {},  # what to do: soil sample for an HG type test
    "chances": {"holding": 0.7, "watch": 0.2, "slipping": 0.1},
}
"""Every fact a `Finding` can state, with example values. Closed set; the reply room has the words."""

CHANGE_KEYS: dict[str, Mapping[str, Any]] = {
    "other_method": {"then": "pulled", "now": "shovel"},  # dug or washed in another way
    "other_soil": {"then": "dry", "now": "moist"},  # dry ground keeps the roots
    "other_places": {},  # places named then and now are not the same
    "other_variety": {},  # susceptible then, resistant now or the other way round
    "other_time": {"days": 27},  # so far apart that the generation alone changes the number
    "few_out": {"chance_percent": 55},  # females were only starting to show on one of the days
    "lower_bound": {},  # one of the counts was "too many to count"
}
"""Why two looks cannot be compared straight, with example values. Closed set."""

__all__ = [
    "CAUSE_KEYS",
    "CHANGE_KEYS",
    "CLUE_KEYS",
    "FACT_KEYS",
    "infested_after",
    "own_trial",
    "plan_look",
    "recovery",
    "tell_look",
    "weigh",
]


def weigh(
    history: History,
    visible: Sequence[float],
    as_of: date,
    *,
    showing: Floats | None = None,
    recoveries: Sequence[detection.Recovery] = detection.RECOVERIES,
) -> Finding:
    """What the latest visit of `history` is worth.

    `visible[i]`: chance [0-1] that any females could be visible on the roots on the day of ``history.visits[i]``
    (oldest first), from the clock. `as_of`: the day of the question, for cautions that pass. `showing`: females out on
    those days in each of the clock's equally likely states, relative to the height of the first generation, shape
    (visits, states); without it judged from `visible`. `recoveries` replaces the judgement table of chances to bring
    up and see a female (a crew's own trial, `notes_bot.science.digging_trial`). Raises ValueError when there are no
    visits or `visible` does not match them.
    """
    looks = _looks(history, visible, showing, recoveries)
    if not looks:
        raise ValueError("there is no visit to weigh")
    last = looks[-1]
    after = _infested(history, looks)
    verdict = _verdict(history, looks)
    parts = _parts(last.note)
    apart = _apart([part for part in parts if not part.check])
    clues = noted.clues(history.visits)
    weighed = look_alikes.weigh_causes(clues, after) if noted.poor_looking(clues) else None
    ranked = _ranked(weighed, clues, verdict, after, _known_before(history, looks)) if weighed else ()
    both = _both(weighed, after) if weighed else ()
    watch = _watch(last, parts, after)
    return Finding(
        verdict=verdict,
        detection=detection.look_detection(last.look) if last.looked else None,
        visible=last.look.visible if last.looked else None,
        infested_before=_infested(history, looks[:-1]),
        infested_after=after,
        prior_is_convention=_prior(history)[1],
        females_per_plant=None if apart else _whole(last.note, [part for part in parts if not part.check]),
        spots=tuple(SpotDensity(p.name, _interval(p), p.check) for p in parts if p.name),
        plants_needed=_plants_needed(last, recoveries) if last.looked else {},
        settle=_settle(last, verdict, looks, recoveries) if last.looked else (),
        resistance=watch,
        look_alikes=ranked,
        both=both,
        separating_check=_separating_check(ranked, both, clues, last.visit),
        cautions=_cautions(history, looks, as_of, apart, both, watch),
        change=_change(looks),
        overlooked=detection.overlooked(last.look) if last.count == 0 else None,
        prior=history.prior_basis if not history.found_before and history.infested_prior is not None else (),
        own=own_trial(last.note.method, last.note.soaked, last.moisture, last.texture, recoveries=recoveries)
        if last.count == 0
        else (),
    )


def infested_after(
    history: History,
    visible: Sequence[float],
    *,
    showing: Floats | None = None,
    recoveries: Sequence[detection.Recovery] = detection.RECOVERIES,
) -> float:
    """Chance [0-1] that the field is infested, after all visits; with none, what was known before the season.

    Arguments as for `weigh`.
    """
    return _infested(history, _looks(history, visible, showing, recoveries))


# --- a visit as the science sees it ----------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class _Visited:
    visit: Visit
    count: int | None
    """Females seen, check strip included; 1 when they were only said to be there; None when not looked."""
    look: detection.Look
    resistance: Resistance | None
    texture: str | None

    @property
    def note(self) -> Note:
        return self.visit.note

    @property
    def looked(self) -> bool:
        return self.count is not None

    @property
    def moisture(self) -> Moisture | None:
        return self.note.soil.moisture

    @property
    def fit_to_show(self) -> bool:
        """False where the way of looking alone makes a count low."""
        weak = self.note.method in ("pulled", "eased") or self.moisture == "dry" or "snapped" in self.note.roots
        return not weak


def _looks(
    history: History,
    visible: Sequence[float],
    showing: Floats | None,
    recoveries: Sequence[detection.Recovery],
) -> list[_Visited]:
    visits = history.visits
    if len(visible) != len(visits) or (showing is not None and len(showing) != len(visits)):
        raise ValueError(f"{len(visits)} visits need as many chances of visibility, not {len(visible)}")
    states = None if showing is None else detection.condensed(np.asarray(showing, dtype=float))
    out: list[_Visited] = []
    for i, (visit, chance) in enumerate(zip(visits, visible, strict=True)):
        if not 0.0 <= chance <= 1.0:
            raise ValueError(f"visible must lie between 0 and 1, not {chance}")
        note = visit.note
        texture = noted.last_texture(visits[: i + 1])
        day = None if states is None else tuple(states[i].tolist())
        look = detection.Look(noted.places(note), recovery(visits[: i + 1], recoveries), chance, day)
        variety = note.variety.resistance if note.variety else None
        out.append(_Visited(visit, noted.females_seen(note), look, variety or history.resistance, texture))
    return out


def recovery(
    visits: Sequence[Visit], recoveries: Sequence[detection.Recovery] = detection.RECOVERIES
) -> detection.Beta:
    """Beta(a, b) of the chance that a female on a plant dug at the latest of `visits` is brought up and seen.

    The one place from which the clock and the worth of a look take it; soil not named is as last named.
    """
    note = visits[-1].note
    return detection.recovery_beta(
        note.method,
        note.soaked,
        note.soil.moisture,
        noted.last_texture(visits),
        snapped="snapped" in note.roots,
        table=recoveries,
    )


def _prior(history: History) -> tuple[float, bool]:
    """Chance of infestation before this season's looks and whether it is only a convention."""
    if history.found_before:
        return detection.FOUND_BEFORE, False
    if history.infested_prior is not None:
        return history.infested_prior, False
    return detection.CONVENTION, True


def _infested(history: History, looks: Sequence[_Visited]) -> float:
    prior, _ = _prior(history)
    resistance = next((v.resistance for v in reversed(looks) if v.resistance), history.resistance)
    # a susceptible strip is likelier to show them than the variety the intensity speaks of: no doubt of such a find
    found = [(v.count, None if any(spot.check for spot in v.note.spots) else v.look) for v in looks if v.count]
    return detection.infested_probability(
        prior, [v.look for v in looks if v.count == 0], found, detection.INTENSITIES[resistance]
    )


def _known_before(history: History, looks: Sequence[_Visited]) -> bool:
    """True when the nematode was found here before the latest look."""
    return bool(history.found_before) or any(v.count for v in looks[:-1])


# --- the verdict and what would settle it --------------------------------------------------------------------

STRONG, FAIR, THIN = 0.9, 0.7, 0.3
"""Least chance of having shown a light infestation, timing included, for each word. Below THIN: too weak. Judgement."""
HARDLY_VISIBLE = 0.2
"""Below this chance of visibility the day was wrong, however well was dug. Judgement."""
EVEN = 0.5
"""From this chance of visibility on, a look too weak to tell is blamed on the method and not on the day. Judgement."""
LATE_DAYS = 105
"""Days after planting from which a day without visible females is past them rather than before. Judgement."""
ROOTS_GONE = 6.5
"""R stage from which roots are no longer judged (R7 is the published last; half a stage for reading error)."""
ENOUGH_LOOKS = 3
"""After so many clean looks that left a doubt, soil is told to settle it: it decides more surely than roots
(extension advice of several states). The number is judgement."""
FEW_BODIES = 3
"""Fewer than so many seen for the first time: pinch one, it may be grit. Judgement."""
PLACES = 4
"""Places a good look is spread over. General scouting advice is at least five (NDSUScout); four is judgement."""
SURE = (80, 90, 95)
"""Percent sure for which numbers of plants are given."""


def _verdict(history: History, looks: Sequence[_Visited]) -> Verdict:
    last = looks[-1]
    if last.count is None:
        return "not_looked"
    if last.count > 0:
        return "seen"
    wrong_day: Verdict = "too_late" if _past(history, looks) else "too_early"
    visible, shown = last.look.visible, detection.look_detection(last.look)
    if visible < HARDLY_VISIBLE or (visible < EVEN and shown >= THIN):
        # a day that is likelier wrong than right is the first thing to mend, unless the method is hopeless
        return wrong_day
    words: tuple[tuple[float, Verdict], ...] = ((STRONG, "strong"), (FAIR, "fair"), (THIN, "thin"))
    for least, word in words:
        if visible * shown >= least:
            return word
    return "too_weak"


def _past(history: History, looks: Sequence[_Visited]) -> bool:
    """True when females had their time already: ripe stage, a better day earlier, or late by days since planting.

    Without stage, planting date or an earlier better day the calendar decides: from the last week of August in the
    north, of February in the south.
    """
    last = looks[-1]
    stage = last.note.stage or ""
    if vegetative_node(stage) is not None:
        return False
    if (ripe := reproductive_stage(stage)) is not None:
        return ripe >= ROOTS_GONE
    if any(v.look.visible > last.look.visible + 0.2 or v.count for v in looks[:-1]):
        return True
    if history.planted is not None:
        return (last.visit.on - history.planted).days >= LATE_DAYS
    south = history.latitude is not None and history.latitude < 0
    month = (last.visit.on.month + (6 if south else 0) - 1) % 12 + 1
    return (month, last.visit.on.day) >= (8, 25)


def _plants_needed(last: _Visited, recoveries: Sequence[detection.Recovery]) -> dict[int, int]:
    plan = _plan("shovel", True, "moist", last.texture, PLACES, SURE, recoveries)
    return {percent: plants for percent, plants in plan.plants.items() if plants}


def _plan(
    method: Method,
    soaked: bool,
    moisture: Moisture,
    texture: str | None,
    places: int,
    sure: Sequence[int],
    recoveries: Sequence[detection.Recovery],
) -> LookPlan:
    recovery = detection.recovery_beta(method, soaked, moisture, texture, table=recoveries)
    plants = {percent: detection.plants_to_dig(percent / 100, recovery, places) for percent in sure}
    return LookPlan(method, soaked, places, plants)


WAYS: tuple[tuple[Method, bool], ...] = (("shovel", True), ("shovel", False), ("eased", False), ("pulled", False))
"""Ways to look that are compared, best first."""


def plan_look(
    texture: str | None = None,
    *,
    moisture: Moisture = "moist",
    places: int = PLACES,
    sure: Sequence[int] = SURE,
    way: tuple[Method, bool] | None = None,
    recoveries: Sequence[detection.Recovery] = detection.RECOVERIES,
) -> LookAdvice:
    """How many plants, by which method, to be so `sure` [%] of showing a light infestation; best method first.

    `texture`, `moisture`: the soil at the time; `places`: how many places the plants are spread over; `way`: method
    and whether roots are soaked, told first when asked for. Females are taken to be out.
    """
    ways = WAYS if way is None else (way, *(other for other in WAYS if other != way))
    plans = tuple(_plan(*each, moisture, texture, places, sure, recoveries) for each in ways)
    own = [fact for each in ways for fact in own_trial(*each, moisture, texture, recoveries=recoveries)]
    return LookAdvice(detection.condition_of(moisture, texture), plans, tuple(own))


def tell_look(
    plants: int,
    method: Method | None = None,
    soaked: bool | None = None,
    moisture: Moisture | None = None,
    texture: str | None = None,
    *,
    places: int | None = None,
    before: float = detection.CONVENTION,
    resistance: Resistance | None = None,
    recoveries: Sequence[detection.Recovery] = detection.RECOVERIES,
) -> LookTold:
    """The question asked backwards: what `plants` plants without a female tell, females being out.

    `before`: chance of infestation [0-1] to start from. What is not said of method or soil is averaged over what is
    usual. Raises ValueError for fewer than one plant.
    """
    if plants < 1:
        raise ValueError("a look needs at least one plant")
    recovery = detection.recovery_beta(method, soaked, moisture, texture, table=recoveries)
    look = detection.Look(detection.spread(plants, places), recovery)
    return LookTold(
        plants,
        len(look.places),
        method,
        soaked,
        detection=detection.look_detection(look),
        overlooked=detection.overlooked(look),
        before=before,
        after=detection.infested_probability(before, [look], intensity=detection.INTENSITIES[resistance]),
        best=_plan("shovel", True, "moist", texture, PLACES, SURE, recoveries),
        own=own_trial(method, soaked, moisture, texture, recoveries=recoveries),
    )


def own_trial(
    method: Method | None,
    soaked: bool | None,
    moisture: Moisture | None,
    texture: str | None,
    *,
    recoveries: Sequence[detection.Recovery],
) -> tuple[Fact, ...]:
    """What of such a look rests on the crew's own trial: plants behind it, its chance, and the table's before."""
    used = [row for _, row in detection.rows_for(method, soaked, moisture, texture, table=recoveries)]
    return figures([row for row in recoveries if row in used])


def _more(last: _Visited, percent: int, recoveries: Sequence[detection.Recovery]) -> int:
    """Plants still to dig, the best way, so that this look and the addition show a light infestation."""
    best = detection.recovery_beta("shovel", True, "moist", last.texture, table=recoveries)
    done = detection.Look(last.look.places, last.look.recovery)
    low, high = 0, 200
    while high - low > 1:
        plants = (low + high) // 2
        extra = detection.Look(detection.spread(plants, PLACES), best)
        enough = 1.0 - detection.none_seen_probability([done, extra], detection.LIGHT) >= percent / 100
        low, high = (low, plants) if enough else (plants, high)
    return high


def _settle(
    last: _Visited, verdict: Verdict, looks: Sequence[_Visited], recoveries: Sequence[detection.Recovery]
) -> tuple[Fact, ...]:
    after_harvest = Fact("soil_sample", {"when": "after_harvest"})
    if verdict == "seen":
        few = last.count is not None and last.count < FEW_BODIES
        first = all(not v.count for v in looks[:-1])
        counted = noted.note_total(last.note) is not None
        pinch = (Fact("pinch_test", {"count": last.count}),) if few and first and counted else ()
        late = (reproductive_stage(last.note.stage or "") or 0) >= 6
        return (*pinch, after_harvest) if late else pinch
    if verdict == "strong":
        return ()
    facts: list[Fact] = []
    if sum(v.count == 0 for v in looks) >= ENOUGH_LOOKS and last.look.visible >= FAIR:
        facts.append(Fact("soil_sample", {"when": "now"}))
    if noted.plants_dug(last.note) is None:
        facts.append(Fact("say_plants"))
    if verdict == "too_late":
        return (*facts, after_harvest)
    if verdict == "too_early" or last.look.visible < FAIR:
        facts.append(Fact("come_back_when_visible", {"chance_percent": round(100 * last.look.visible)}))
    if last.moisture == "dry":
        facts.append(Fact("after_rain"))
    elif last.moisture == "wet":
        facts.append(Fact("when_soil_dries"))
    if last.note.method != "shovel":
        facts.append(Fact("use_shovel"))
    if not last.note.soaked:
        facts.append(Fact("soak_roots"))
    if verdict != "too_early":
        if len(last.look.places) == 1 and last.look.plants >= PLACES:
            facts.append(Fact("more_places", {"places": PLACES}))
        more = {"plants": _more(last, 90, recoveries), "percent": 90, "places": PLACES}
        facts.append(Fact("dig_more", more))
    return tuple(facts)


# --- how many ----------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class _Part:
    """A place of the note with a count."""

    name: str
    plants: int
    total: int
    per_plant: tuple[int, ...] | None
    check: bool
    density: density.Density
    at_least: bool = False
    """The total is a lower bound ("too many to count")."""


def _parts(note: Note) -> tuple[_Part, ...]:
    parts = [
        _part(note, spot.name, plants, total, spot.per_plant, check=spot.check)
        for spot in note.spots
        if (plants := noted.spot_plants(spot)) and (total := noted.spot_total(spot)) is not None
    ]
    plants_all, total_all = noted.plants_dug(note), noted.note_total(note)
    if all(spot.check for spot in note.spots) and plants_all and total_all is not None and note.outcome != "not_looked":
        parts.append(_part(note, "", plants_all, total_all, note.per_plant))
    return tuple(parts)


def _part(
    note: Note, name: str, plants: int, total: int, per_plant: tuple[int, ...] | None, *, check: bool = False
) -> _Part:
    at_least = note.too_many and total > 0
    known = density.density(plants, total, per_plant, at_least=at_least)
    return _Part(name, plants, total, per_plant, check, known, at_least)


def _interval(part: _Part) -> Interval:
    """The mean counted, as the scout reckons it, in its interval; of a lower bound the middle of what it may be."""
    low, middle, high = part.density.interval()
    likely = middle if part.at_least else part.total / part.plants
    return Interval(0.0 if part.total == 0 else min(low, likely), likely, max(high, likely))


def _apart(places: Sequence[_Part]) -> tuple[str, str] | None:
    """Names of the densest and the thinnest place when they differ by more than chance, or None."""
    if len(places) < 2:
        return None
    order = sorted(places, key=lambda p: p.density.quantile(0.5))
    return (order[-1].name, order[0].name) if density.differ(order[-1].density, order[0].density) else None


def _whole(note: Note, places: Sequence[_Part]) -> Interval | None:
    """The note as one; only for places that do not differ."""
    return _interval(_joined(note, places)) if places else None


def _joined(note: Note, places: Sequence[_Part]) -> _Part:
    """Places that do not differ as one."""
    if len(places) == 1:
        return places[0]
    plants, total = sum(p.plants for p in places), sum(p.total for p in places)
    if note.too_many:
        return _part(note, "", plants, total, None)
    return _Part("", plants, total, None, False, _together(places))


# --- is the resistance holding --------------------------------------------------------------------------------


def _watch(last: _Visited, parts: Sequence[_Part], infested: float) -> ResistanceWatch | None:
    """Only for a variety sold as resistant, looked at with a count, in a field known to be infested."""
    places = [p for p in parts if not p.check]
    if last.resistance != "resistant" or not places or infested < 0.9:
        return None
    worst = max(places, key=lambda p: p.density.quantile(0.5))
    if _apart(places) is None:
        worst = _joined(last.note, places)
    check = next((p for p in parts if p.check), None)
    females = _interval(worst)
    chances = virulence.chances_per_root(worst.density)
    alarm = {
        "per_root": round(females.likely, 2),
        "alarm_low": round(virulence.ALARM_LOW),
        "alarm_high": round(virulence.ALARM_HIGH),
    }
    level = "above_alarm" if chances.slipping > 0.5 else "below_alarm" if chances.holding >= 0.8 else "near_alarm"
    reasons = [Fact(level, alarm)]
    percent = None
    if check is None:
        reasons.append(Fact("no_check_strip"))
    else:
        low, likely, high = (100 * r for r in density.ratio_interval(worst.density, check.density))
        percent = Interval(0.0 if worst.total == 0 else low, likely, high)
        reasons.append(
            Fact(
                "against_check",
                {
                    "percent": round(likely, 1),
                    "low": round(percent.low, 1),
                    "high": round(high, 1),
                    "holding_below": round(100 * virulence.RATIO_LOW),
                    "slipping_above": round(100 * virulence.RATIO_HIGH),
                },
            )
        )
        if check.density.quantile(0.5) < virulence.NO_PRESSURE:
            reasons.append(Fact("check_strip_low", {"per_root": round(check.density.quantile(0.5), 1)}))
        else:
            chances = virulence.worse(chances, virulence.chances_against_check(worst.density, check.density))
    fit = True
    if worst.plants < 5:
        fit = False
        reasons.append(Fact("too_few_plants", {"plants": worst.plants}))
    if not last.fit_to_show:
        fit = False
        reasons.append(Fact("weak_method"))
    if last.look.visible < FAIR:
        fit = False
        reasons.append(Fact("early_in_season"))
    pressure = check is None or check.density.quantile(0.5) >= virulence.NO_PRESSURE
    verdict, probability = virulence.verdict(chances, may_hold=fit and pressure)
    reasons.append(
        Fact(
            "chances",
            {
                "holding": round(chances.holding, 2),
                "watch": round(chances.watch, 2),
                "slipping": round(chances.slipping, 2),
            },
        )
    )
    if percent is not None:
        reasons.append(Fact("not_greenhouse_index"))
    if verdict == "slipping":
        reasons.append(Fact("sample_for_hg_type"))
    return ResistanceWatch(verdict, probability, females, percent, tuple(reasons))


# --- more or fewer than last time ----------------------------------------------------------------------------

SAME_TIME_DAYS = 7
"""Looks so many days apart see the same flush; a generation takes three to four weeks (AlstonSchmitt1988)."""


def _change(looks: Sequence[_Visited]) -> Change | None:
    """The latest count against the last one before it, spot by spot where both name the same places."""
    last = looks[-1]
    now = _counted(last)
    if now is None:
        return None
    for earlier in reversed(looks[:-1]):
        then = _counted(earlier)
        if then is None:
            continue
        shared = {p.name for p in now} & {p.name for p in then}
        reasons = _differences(earlier, last)
        if {p.name for p in now} != {p.name for p in then}:
            reasons.append(Fact("other_places"))
        if shared:
            now, then = ([p for p in places if p.name in shared] for places in (now, then))
        if not any(part.total for part in (*now, *then)):
            return None
        ratio = density.Density(*density.ratio_chances(_together(now), _together(then)))
        low, likely, high = ratio.interval()
        return Change(
            since=earlier.visit.on,
            ratio=Interval(low, likely, high),
            chance_more=ratio.chance_above(1.0),
            comparable=not reasons,
            reasons=tuple(reasons),
            then=None
            if _apart(then) or any(part.at_least for part in then)
            else sum(part.total for part in then) / sum(part.plants for part in then),
        )
    return None


def _counted(visited: _Visited) -> list[_Part] | None:
    """The places of a look with counts; None when nothing was counted or the day could not show anything."""
    if visited.look.visible < HARDLY_VISIBLE:
        return None
    return [part for part in _parts(visited.note) if not part.check] or None


def _together(places: Sequence[_Part]) -> density.Density:
    if len(places) == 1:
        return places[0].density
    return density.pooled([(p.plants, p.total, p.per_plant) for p in places])


def _differences(then: _Visited, now: _Visited) -> list[Fact]:
    reasons: list[Fact] = []
    ways = [(v.note.method, bool(v.note.soaked)) for v in (then, now)]
    if ways[0] != ways[1]:
        named = ["soaked" if soaked else method for method, soaked in ways]
        if named[0] == named[1]:
            named = [method for method, _ in ways]
        reasons.append(Fact("other_method", {"then": named[0], "now": named[1]}))
    if (then.moisture == "dry") != (now.moisture == "dry"):
        reasons.append(Fact("other_soil", {"then": then.moisture, "now": now.moisture}))
    if then.resistance != now.resistance:
        reasons.append(Fact("other_variety"))
    days = (now.visit.on - then.visit.on).days
    if days > SAME_TIME_DAYS:
        reasons.append(Fact("other_time", {"days": days}))
    least = min(then.look.visible, now.look.visible)
    if least < FAIR:
        reasons.append(Fact("few_out", {"chance_percent": round(100 * least)}))
    if then.note.too_many or now.note.too_many:
        reasons.append(Fact("lower_bound"))
    return reasons


# --- what else it could be --------------------------------------------------------------------------------------

MENTIONED = 0.15
"""Causes less likely than this are not named."""
AT_MOST = 4
"""Causes named."""
WORTH_SEPARATING = 0.2
"""A second cause less likely than this needs no check to tell it from the first."""
FLASH_GONE_DAYS = 21
"""Days after the spray by which yellow flash is gone (OhioHerbicide2023); a late or undated one is given a week."""


def _ranked(
    weighed: look_alikes.Weighed, clues: frozenset[str], verdict: Verdict, infested: float, known: bool
) -> tuple[LookAlike, ...]:
    out: list[LookAlike] = []
    chances = dict(weighed.ranked())
    if verdict != "not_looked":
        # after a look the roots' own chance stands: tops neither confirm nor clear the nematode
        chances[look_alikes.SCN] = infested
    for cause, chance in sorted(chances.items(), key=lambda item: (-item[1], item[0])):
        if chance < MENTIONED or len(out) == AT_MOST:
            break
        speaks_for, speaks_against = look_alikes.evidence(cause, clues)
        if cause == look_alikes.SCN:
            roots_for, roots_against = _root_evidence(verdict)
            if known and verdict != "seen":
                roots_for = ("found_earlier", *roots_for)
            speaks_for, speaks_against = roots_for + speaks_for, roots_against + speaks_against
        out.append(LookAlike(cause, chance, speaks_for, speaks_against))
    return tuple(out)


def _root_evidence(verdict: Verdict) -> tuple[tuple[str, ...], tuple[str, ...]]:
    if verdict == "seen":
        return ("females_seen",), ()
    if verdict in ("too_early", "too_late"):
        return (), ("none_seen_too_early",)
    if verdict in ("too_weak", "thin"):
        return (), ("none_seen_weak_look",)
    return ((), ("none_seen_good_look",)) if verdict in ("fair", "strong") else ((), ())


def _both(weighed: look_alikes.Weighed, infested: float) -> tuple[str, ...]:
    """The nematode and one other cause, when it is all but proven and they are likelier together than not."""
    other, chance = max(weighed.together.items(), key=lambda item: item[1])
    return (look_alikes.SCN, other) if infested >= 0.9 and chance >= 0.5 else ()


def _separating_check(
    ranked: Sequence[LookAlike], both: Sequence[str], clues: frozenset[str], last: Visit
) -> Fact | None:
    """What would tell the top two apart; where the nematode and another are both likely, that other from the next."""
    if both:
        ranked = [each for each in ranked if each.cause != look_alikes.SCN]
    if len(ranked) < 2 or ranked[1].probability < WORTH_SEPARATING:
        return None
    first, second = ranked[0].cause, ranked[1].cause
    check = look_alikes.cheapest_check(first, second, clues)
    if check is None:
        return None
    values: dict[str, Any] = {"first": first, "second": second}
    if check.key == "wait_for_new_leaves":
        days = noted.days_since_spray(last, last.on)
        values["days"] = FLASH_GONE_DAYS - days if days is not None and days < FLASH_GONE_DAYS - 2 else 7
    if check.key == "leaf_test":
        values["element"] = "Zn" if "zinc" in (first, second) and "manganese" not in (first, second) else "Mn"
    return Fact(check.key, values)


# --- cautions -----------------------------------------------------------------------------------------------------

_SPOKEN_OF: tuple[tuple[str, re.Pattern[str]], ...] = (
    (
        "ask_before_digging",
        re.compile(r"\b(pipe ?line|gas line|buried|cable|utility|power line|gasoducto|ducto|gasoduto|oleoduto)s?\b"),
    ),
    (
        "thunder",
        re.compile(
            r"\b(thunder\w*|lightning|truenos?|rel[aá]mpagos?|rayos?|tormentas?|trov(?:ão|oes|ões|oadas?)|raios?)\b"
        ),
    ),
    (
        "road",
        re.compile(
            r"\b(road ?side|(?:along|by|off|beside) the road|highway|hwy|road shoulder|banquina|carretera|"
            r"acostamento|rodovia|beira da estrada)\b"
        ),
    ),
    ("heat", re.compile(r"\b(too hot|so hot|very hot|heat|hot out|hot day|calor|muito quente|muy caliente)\b")),
)
"""Cautions a note asks for by its own words."""

HOT_C = 33.0
"""Air temperature from which heat is spoken of: 91 F, where the moderate band of the heat index begins (OshaHeat); in
damp air that band begins lower, and the service knows no humidity."""
HOT_DAYS = 3
"""Days from the note on that are looked at."""


def _cautions(
    history: History,
    looks: Sequence[_Visited],
    as_of: date,
    apart: tuple[str, str] | None,
    both: tuple[str, ...],
    watch: ResistanceWatch | None,
) -> tuple[Fact, ...]:
    last = looks[-1]
    facts = _closed(history, last.visit, as_of)
    found = bool(last.count)
    first_find = found and not _known_before(history, looks)
    if last.moisture == "wet" or first_find:
        facts.append(Fact("clean_boots_and_spade"))
    if first_find:
        facts.append(Fact("infested_last"))
    text = (last.note.text + " " + last.note.where.text).lower()
    facts += [Fact(key) for key, words in _SPOKEN_OF if words.search(text)]
    if apart is not None:
        facts.append(Fact("places_differ", {"most": apart[0], "least": apart[1]}))
    if last.note.too_many:
        facts.append(Fact("count_is_least"))
    colours = last.note.females.by_colour()
    many_brown = colours is not None and sum(colours) >= 10 and colours[3] >= 0.3 * sum(colours)
    if many_brown or "brown" in last.note.mostly:
        facts.append(Fact("brown_fall_off"))
    if "potassium" in both:
        facts.append(Fact("potash_no_cure"))
    if watch is not None and watch.verdict == "slipping":
        facts.append(Fact("no_soil_over_borders"))
    return tuple(facts)


def _closed(history: History, last: Visit, as_of: date) -> list[Fact]:
    """The restricted-entry interval that a note stated, while it may still run."""
    spray, until = last.note.spray, history.entry_closed_until
    hours = spray.entry_hours if spray else None
    if until is not None:
        return [Fact("entry_closed", {"until": until.isoformat(), "hours": hours})] if until.date() >= as_of else []
    if hours is None:
        return []
    days = noted.days_since_spray(last, as_of)
    # the hour of the spray is not known: the whole day on which the interval ends still counts as closed
    over = days is not None and days * 24 >= hours + 24
    return [] if over else [Fact("entry_closed", {"until": None, "hours": hours})]
