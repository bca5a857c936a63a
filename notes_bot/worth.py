"""What the latest look is worth: joins what is kept of a field with the science of looking.

Pure: takes a `History` and, for each visit, the chance that females could be visible that day (the clock gives
it), returns a `Finding`. No clock, no chance, no files.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any, Literal

from notes_bot.model import (
    Fact,
    Females,
    Finding,
    History,
    Interval,
    LookAlike,
    Method,
    Moisture,
    Note,
    Resistance,
    ResistanceWatch,
    Soil,
    Spot,
    SpotDensity,
    Visit,
)
from notes_bot.science import density, detection, look_alikes, virulence
from notes_bot.science.clue_words import clues_in_text
from notes_bot.science.clues import CAUSE_KEYS, CLUE_KEYS, CLUES

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

__all__ = ["CAUSE_KEYS", "CLUE_KEYS", "FACT_KEYS", "infested_after", "weigh"]


def weigh(
    history: History, visible: Sequence[float], as_of: date, *, recoveries: Sequence[detection.Recovery] | None = None
) -> Finding:
    """What the latest visit of `history` is worth.

    `visible[i]`: chance [0-1] that any females could be visible on the roots on the day of ``history.visits[i]``
    (oldest first), from the clock. `as_of`: the day of the question, for cautions that pass. `recoveries` replaces
    the judgement table of chances to bring up and see a female (a crew's own trial). Raises ValueError when there
    are no visits or `visible` does not match them.
    """
    looks = _looks(history, visible, recoveries or detection.RECOVERIES)
    if not looks:
        raise ValueError("there is no visit to weigh")
    last = looks[-1]
    before, after = _infested(history, looks[:-1]), _infested(history, looks)
    found = last.count is not None and last.count > 0
    verdict = _verdict(history, looks)
    parts = _parts(last.note)
    places = [spot for spot in parts if not spot.check]
    apart = _apart(places)
    clues = _clues(history, last)
    weighed = look_alikes.weigh_causes(clues, after) if _poor_looking(clues) else None
    ranked = _ranked(weighed, clues, verdict) if weighed else ()
    both = _both(weighed, after) if weighed else ()
    watch = _watch(last, parts, after)
    return Finding(
        verdict=verdict,
        detection=detection.look_detection(last.look) if last.looked else None,
        visible=last.visible if last.looked else None,
        infested_before=before,
        infested_after=after,
        prior_is_convention=_prior(history)[1],
        females_per_plant=None if apart else _whole(last.note, places),
        spots=tuple(
            SpotDensity(part.name, _interval(part.density, part.total), part.check) for part in parts if part.name
        ),
        plants_needed=_plants_needed(last) if last.looked else {},
        settle=_settle(last, verdict, looks) if last.looked else (),
        resistance=watch,
        look_alikes=ranked,
        both=both,
        separating_check=_separating_check(ranked, clues, last),
        cautions=_cautions(history, looks, found, as_of, apart, both, watch),
    )


def infested_after(
    history: History, visible: Sequence[float], *, recoveries: Sequence[detection.Recovery] | None = None
) -> float:
    """Chance [0-1] that the field is infested, after all visits; with none, what was known before the season.

    Arguments as for `weigh`.
    """
    return _infested(history, _looks(history, visible, recoveries or detection.RECOVERIES))


# --- a visit as the science sees it ----------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class _Visited:
    visit: Visit
    visible: float
    looked: bool
    count: int | None
    """Females seen, check strip included; 1 when they were only said to be there; None when not looked."""
    look: detection.Look
    resistance: Resistance | None
    method: Method | None
    moisture: Moisture | None
    texture: str | None

    @property
    def note(self) -> Note:
        return self.visit.note


def _looks(history: History, visible: Sequence[float], recoveries: Sequence[detection.Recovery]) -> list[_Visited]:
    if len(visible) != len(history.visits):
        raise ValueError(f"{len(history.visits)} visits need as many chances of visibility, not {len(visible)}")
    out: list[_Visited] = []
    texture: str | None = None
    for visit, chance in zip(history.visits, visible, strict=True):
        if not 0.0 <= chance <= 1.0:
            raise ValueError(f"visible must lie between 0 and 1, not {chance}")
        note = visit.note
        texture = note.soil.texture or texture
        count = _count(note)
        snapped = "snapped" in note.roots
        beta = detection.recovery_beta(
            note.method, note.soaked, note.soil.moisture, texture, snapped=snapped, table=recoveries
        )
        variety = note.variety.resistance if note.variety else None
        out.append(
            _Visited(
                visit,
                chance,
                count is not None,
                count,
                detection.Look(_places(note), beta, chance),
                variety or history.resistance,
                note.method,
                note.soil.moisture,
                texture,
            )
        )
    return out


def _count(note: Note) -> int | None:
    """Females seen on all plants, check strip too; None when nobody looked."""
    if note.outcome == "not_looked":
        return None
    check = sum(_spot_total(spot) or 0 for spot in note.spots if spot.check)
    main = _total(note.females, note.per_plant)
    if main is None:
        totals = [_spot_total(spot) for spot in note.spots if not spot.check]
        main = sum(t or 0 for t in totals) if any(t is not None for t in totals) else None
    if note.outcome == "seen" or note.mostly or note.too_many:
        return max((main or 0) + check, 1)
    if note.outcome == "none_seen":
        return check
    return None if main is None else main + check


def _total(females: Females, per_plant: tuple[int, ...] | None) -> int | None:
    if females.total is not None:
        return females.total
    colours = females.by_colour()
    if colours is not None:
        return sum(colours)
    return sum(per_plant) if per_plant is not None else None


def _spot_total(spot: Spot) -> int | None:
    return _total(spot.females, spot.per_plant)


def _plants(note: Note) -> int | None:
    if note.plants is not None:
        return note.plants
    if note.per_plant is not None:
        return len(note.per_plant)
    known = [spot.plants or len(spot.per_plant or ()) for spot in note.spots if not spot.check]
    return sum(known) or None


def _places(note: Note) -> tuple[tuple[str, int], ...]:
    """Plants by place; a note that does not say how many is taken as one plant, the least a look can be."""
    spots = [(s.name, s.plants or len(s.per_plant or ())) for s in note.spots if not s.check]
    if spots and all(plants for _, plants in spots):
        return tuple(spots)
    plants = _plants(note)
    return detection.spread(1 if plants is None else plants)


def _prior(history: History) -> tuple[float, bool]:
    """Chance of infestation before this season's looks and whether it is only a convention."""
    if history.found_before:
        return detection.FOUND_BEFORE, False
    return detection.CONVENTION, True


def _infested(history: History, looks: Sequence[_Visited]) -> float:
    prior, _ = _prior(history)
    resistance = next((v.resistance for v in reversed(looks) if v.resistance), history.resistance)
    return detection.infested_probability(
        prior,
        [v.look for v in looks if v.count == 0],
        max((v.count for v in looks if v.count is not None), default=None),
        detection.INTENSITIES[resistance],
    )


# --- the verdict and what would settle it --------------------------------------------------------------------

STRONG, FAIR, THIN = 0.9, 0.7, 0.3
"""Least chance of having shown a light infestation, timing included, for each word. Below THIN: too weak. Judgement."""
HARDLY_VISIBLE = 0.2
"""Below this chance of visibility the day was wrong, however well was dug. Judgement."""
LATE_DAYS = 105
"""Days after planting from which a day without visible females is past them rather than before. Judgement."""


def _verdict(history: History, looks: Sequence[_Visited]) -> Verdict:
    last = looks[-1]
    if last.count is None:
        return "not_looked"
    if last.count > 0:
        return "seen"
    wrong_day: Verdict = "too_late" if _past(history, looks) else "too_early"
    if last.visible < HARDLY_VISIBLE:
        return wrong_day
    shown = detection.look_detection(last.look)
    if last.visible * shown >= STRONG:
        return "strong"
    if last.visible * shown >= FAIR:
        return "fair"
    if last.visible * shown >= THIN:
        return "thin"
    return "too_weak" if shown <= last.visible else wrong_day


def _past(history: History, looks: Sequence[_Visited]) -> bool:
    """True when females had their time already: ripe stage, a better day earlier, or late by days since planting.

    Without stage, planting date or an earlier better day the calendar decides: from the last week of August in the
    north, of February in the south.
    """
    last = looks[-1]
    stage = _stage(last.note.stage)
    if stage is not None:
        return stage[0] == "R" and stage[1] >= 6.5
    if any(v.visible > last.visible + 0.2 or (v.count or 0) > 0 for v in looks[:-1]):
        return True
    if history.planted is not None:
        return (last.visit.on - history.planted).days >= LATE_DAYS
    south = history.latitude is not None and history.latitude < 0
    months_on = (last.visit.on.month + (6 if south else 0) - 1) % 12 + 1
    return (months_on, last.visit.on.day) >= (8, 25)


def _stage(stage: str | None) -> tuple[str, float] | None:
    """("V", 2.5) or ("R", 3.0); VE and VC count as V0."""
    if not stage:
        return None
    letter, number = stage[0].upper(), stage[1:].upper()
    if letter == "V" and number in ("E", "C"):
        return "V", 0.0
    try:
        return (letter, float(number)) if letter in "VR" else None
    except ValueError:
        return None


def _best_recovery(last: _Visited) -> detection.Beta:
    """The best a crew can do here: a shovel, moist soil, roots soaked."""
    return detection.recovery_beta("shovel", True, "moist", last.texture)


def _plants_needed(last: _Visited) -> dict[int, int]:
    best = _best_recovery(last)
    needed = {percent: detection.plants_to_dig(percent / 100, best, PLACES) for percent in (80, 90, 95)}
    return {percent: plants for percent, plants in needed.items() if plants is not None}


PLACES = 4
"""Places a good look is spread over. General scouting advice is at least five (NDSUScout); four is judgement."""


def _more(last: _Visited, percent: int) -> int:
    """Plants still to dig, the best way, so that this look and the addition show a light infestation."""
    best, done = _best_recovery(last), detection.Look(last.look.places, last.look.recovery, 1.0)
    for plants in range(1, 200):
        extra = detection.Look(detection.spread(plants, PLACES), best, 1.0)
        if 1.0 - detection.none_seen_probability([done, extra], detection.LIGHT) >= percent / 100:
            return plants
    return 200


def _settle(last: _Visited, verdict: Verdict, looks: Sequence[_Visited]) -> tuple[Fact, ...]:
    if verdict == "seen":
        few = last.count is not None and last.count < detection.NEVER_CLEARS
        first = all(not v.count for v in looks[:-1])
        counted = last.note.females.total is not None or last.note.per_plant is not None
        pinch = (Fact("pinch_test", {"count": last.count}),) if few and first and counted else ()
        stage = _stage(last.note.stage)
        late = stage is not None and stage[0] == "R" and stage[1] >= 6
        return (*pinch, Fact("soil_sample", {"when": "after_harvest"})) if late else pinch
    if verdict == "strong":
        return ()
    facts: list[Fact] = []
    if _plants(last.note) is None:
        facts.append(Fact("say_plants"))
    if verdict == "too_late":
        return (*facts, Fact("soil_sample", {"when": "after_harvest"}))
    if verdict == "too_early" or last.visible < FAIR:
        facts.append(Fact("come_back_when_visible", {"chance_percent": round(100 * last.visible)}))
    if last.moisture == "dry":
        facts.append(Fact("after_rain"))
    elif last.moisture == "wet":
        facts.append(Fact("when_soil_dries"))
    if last.method != "shovel":
        facts.append(Fact("use_shovel"))
    if not last.note.soaked:
        facts.append(Fact("soak_roots"))
    if verdict != "too_early":
        facts.append(Fact("dig_more", {"plants": _more(last, 90), "percent": 90, "places": PLACES}))
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


def _parts(note: Note) -> tuple[_Part, ...]:
    parts = []
    for spot in note.spots:
        plants, total = spot.plants or len(spot.per_plant or ()), _spot_total(spot)
        if plants and total is not None:
            parts.append(
                _Part(
                    spot.name,
                    plants,
                    total,
                    spot.per_plant,
                    spot.check,
                    density.density(plants, total, spot.per_plant, at_least=note.too_many and total > 0),
                )
            )
    main = [spot for spot in note.spots if not spot.check]
    plants_all, total_all = _plants(note), _total(note.females, note.per_plant)
    if not main and plants_all and total_all is not None and note.outcome != "not_looked":
        whole = density.density(plants_all, total_all, note.per_plant, at_least=note.too_many and total_all > 0)
        parts.append(_Part("", plants_all, total_all, note.per_plant, False, whole))
    return tuple(parts)


def _interval(known: density.Density, total: int) -> Interval:
    low, likely, high = known.interval()
    return Interval(0.0 if total == 0 else low, likely, high)


def _apart(places: Sequence[_Part]) -> tuple[str, str] | None:
    """Names of the densest and the thinnest place when they differ by more than chance, or None."""
    if len(places) < 2:
        return None
    order = sorted(places, key=lambda p: p.density.quantile(0.5))
    return (order[-1].name, order[0].name) if density.differ(order[-1].density, order[0].density) else None


def _whole(note: Note, places: Sequence[_Part]) -> Interval | None:
    """The note as one; only for places that do not differ."""
    if not places:
        return None
    if len(places) == 1:
        return _interval(places[0].density, places[0].total)
    total = sum(p.total for p in places)
    if note.too_many:
        return _interval(density.density(sum(p.plants for p in places), total, at_least=total > 0), total)
    return _interval(density.pooled([(p.plants, p.total, p.per_plant) for p in places]), total)


# --- is the resistance holding --------------------------------------------------------------------------------


def _watch(last: _Visited, parts: Sequence[_Part], infested: float) -> ResistanceWatch | None:
    """Only for a variety sold as resistant, looked at with a count, in a field known to be infested."""
    places = [p for p in parts if not p.check]
    if last.resistance != "resistant" or not places or infested < 0.9:
        return None
    worst = max(places, key=lambda p: p.density.quantile(0.5))
    if _apart(places) is None and len(places) > 1:
        joined = density.pooled([(p.plants, p.total, p.per_plant) for p in places])
        worst = _Part("", sum(p.plants for p in places), sum(p.total for p in places), None, False, joined)
    check = next((p for p in parts if p.check), None)
    per_root = worst.density.quantile(0.5)
    chances = virulence.chances_per_root(worst.density)
    alarm = {
        "per_root": round(per_root, 1),
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
    if last.method in ("pulled", "eased") or last.moisture == "dry" or "snapped" in last.note.roots:
        fit = False
        reasons.append(Fact("weak_method"))
    if last.visible < FAIR:
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
    return ResistanceWatch(verdict, probability, _interval(worst.density, worst.total), percent, tuple(reasons))


# --- what else it could be --------------------------------------------------------------------------------------

_TOPS: dict[str, str] = {
    "yellow": "yellow",
    "interveinal_new": "new_leaves_yellow_veins_green",
    "edges_old": "old_edges_yellow",
    "flash_bands": "straight_bands",
    "stunted": "stunted",
    "uneven": "uneven",
    "patch": "patch",
    "ring": "wet_rim",
    "wilted": "wilted",
    "early_ripe": "early_ripe",
}
_ROOTS: dict[str, str] = {
    "white": "roots_white",
    "dark": "roots_dark_short",
    "fine": "roots_dark_short",
    "stubby": "roots_dark_short",
    "nodules_few": "nodules_few",
    "nodules_many": "nodules_fine",
    "nodules_pink": "nodules_fine",
    "nodules_brown": "nodules_mushy",
}
_SPRAYS: tuple[tuple[str, str], ...] = (
    ("glyphosate", r"\bgly|\bgli(f|$|\b)"),
    ("contact_spray_lately", r"\b(ppo|lactofen|acifluorfen|fomesafen|flumioxazin|sulfentrazone|saflufenacil)"),
    ("als_spray_lately", r"\b(als|imazethapyr|imazamox|cloransulam|chlorimuron|thifensulfuron)"),
    ("dicamba_near", r"\b(dicamba|2,?4-?d)\b"),
)
_FOR_FREE = frozenset(
    {"older_leaves_green", "new_leaves_clean", "no_stem_band", "pith_white", "no_aphids", "slow_canopy"}
)
"""Clues that tell of no trouble by themselves."""
_TROUBLE = frozenset(
    {
        *("patch", "wet_rim", "straight_bands", "uneven", "spreader_strips", "planter_strips", "boom_shape"),
        *("fades_from_neighbour", "wheel_tracks", "tracks_greener", "water_stood", "nodules_few", "nodules_mushy"),
        *("bottle_brush", "sideways_roots", "root_rot", "seedling_rot", "galls", "blue_growth"),
    }
)
"""Clues outside leaf, stem, test and pest that do."""
_LOW_K, _AMPLE_K = 130.0, 200.0
"""Soil-test potassium, ppm: low below the first, ample above the second. Critical levels differ by state (105 to 170);
these leave the disputed middle out (MichiganPotassium2018, PmnPotassium2017)."""


def _clues(history: History, last: _Visited) -> frozenset[str]:
    """Clue keys the latest note names, with soil tests and sprays from earlier notes of the season."""
    note = last.note
    clues = set(clues_in_text("\n".join({note.text, note.where.text})))
    clues |= {_TOPS[word] for word in note.tops if word in _TOPS}
    clues |= {_ROOTS[word] for word in note.roots if word in _ROOTS}
    clues |= _soil_clues([v.note.soil for v in history.visits], last.texture)
    clues |= _stage_clues(note.stage)
    clues |= _spray_clues(history.visits, last.visit)
    if note.soil.moisture == "dry":
        clues.add("dry_spell")
    if note.soil.moisture == "wet" and last.texture and "clay" in last.texture:
        clues.add("heavy_wet")
    if "new_leaves_yellow_veins_green" in clues:
        clues.discard("new_leaves_all_yellow")
    if clues & {"new_leaves_yellow_veins_green", "new_leaves_all_yellow", "old_edges_yellow", "whole_leaf_pale"}:
        clues.discard("yellow")
    return frozenset(clues)


def _soil_clues(soils: Sequence[Soil], texture: str | None) -> set[str]:
    clues: set[str] = set()
    ph = next((s.ph for s in reversed(soils) if s.ph is not None), None)
    k_ppm = next((s.k_ppm for s in reversed(soils) if s.k_ppm is not None), None)
    light = texture is not None and ("sand" in texture and "clay" not in texture)
    if light:
        clues.add("sandy")
    if ph is not None:
        clues |= {"ph_above_7_3"} if ph > 7.3 else {"ph_below_7"} if ph < 7.0 else set()
        if ph < 5.5 or ph > 8.0:
            clues.add("ph_extreme")
        if ph < 5.8:
            clues.add("ph_below_5_8")
        if ph > 6.2 and (light or texture == "muck"):
            clues.add("ph_above_6_2_light")
    if k_ppm is not None:
        clues |= {"k_low"} if k_ppm < _LOW_K else {"k_ample"} if k_ppm > _AMPLE_K else set()
    return clues


def _stage_clues(stage: str | None) -> set[str]:
    known = _stage(stage)
    if known is None:
        return set()
    letter, number = known
    if letter == "V":
        return {"before_flower", "stage_v1_v3"} if number <= 3 else {"before_flower"}
    return {"after_flower", "pods_filling"} if 3.5 <= number <= 7 else {"after_flower"}


def _spray_clues(visits: Sequence[Visit], last: Visit) -> set[str]:
    clues: set[str] = set()
    for visit in visits:
        spray = visit.note.spray
        days = _days_since(visit, last)
        if spray is None or days is None or days < 0:
            continue
        for kind, pattern in _SPRAYS:
            if spray.what and re.search(pattern, spray.what.lower()):
                if kind == "glyphosate":
                    clues |= (
                        {"glyphosate_1_3_weeks"}
                        if 5 <= days <= 21
                        else {"glyphosate_over_3_weeks"}
                        if days > 21
                        else set()
                    )
                elif days <= 30:
                    clues.add(kind)
    return clues


def _days_since(visit: Visit, last: Visit) -> int | None:
    """Days from the spray that `visit` tells of to the last visit."""
    spray = visit.note.spray
    if spray is None:
        return None
    if spray.date is not None:
        return (last.on - spray.date).days
    return None if spray.days_ago is None else (last.on - visit.on).days + spray.days_ago


def _poor_looking(clues: frozenset[str]) -> bool:
    groups = {clue.key: clue.group for clue in CLUES}
    return any(c in _TROUBLE or (groups[c] in ("leaf", "stem", "tissue", "pest") and c not in _FOR_FREE) for c in clues)


MENTIONED = 0.1
"""Causes less likely than this are not named."""
AT_MOST = 4
"""Causes named."""
WORTH_SEPARATING = 0.15
"""A second cause less likely than this needs no check to tell it from the first."""


def _ranked(weighed: look_alikes.Weighed, clues: frozenset[str], verdict: Verdict) -> tuple[LookAlike, ...]:
    out: list[LookAlike] = []
    for cause, chance in weighed.ranked():
        if chance < MENTIONED or len(out) == AT_MOST:
            break
        speaks_for, speaks_against = look_alikes.evidence(cause, clues)
        if cause == look_alikes.SCN:
            roots_for, roots_against = _root_evidence(verdict)
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


def _separating_check(ranked: Sequence[LookAlike], clues: frozenset[str], last: _Visited) -> Fact | None:
    if len(ranked) < 2 or ranked[1].probability < WORTH_SEPARATING:
        return None
    first, second = ranked[0].cause, ranked[1].cause
    check = look_alikes.cheapest_check(first, second, clues)
    if check is None:
        return None
    values: dict[str, Any] = {"first": first, "second": second}
    if check.key == "wait_for_new_leaves":
        days = [d for d in (_days_since(last.visit, last.visit),) if d is not None]
        values["days"] = max(21 - days[0], 3) if days else 14
    if check.key == "leaf_test":
        values["element"] = "Zn" if "zinc" in (first, second) and "manganese" not in (first, second) else "Mn"
    return Fact(check.key, values)


# --- cautions -----------------------------------------------------------------------------------------------------

_BURIED = re.compile(r"\b(pipe ?line|gas line|buried|cable|utility|power line|gasoducto|ducto|gasoduto|oleoduto)\b")


def _cautions(
    history: History,
    looks: Sequence[_Visited],
    found: bool,
    as_of: date,
    apart: tuple[str, str] | None,
    both: tuple[str, ...],
    watch: ResistanceWatch | None,
) -> tuple[Fact, ...]:
    last, facts = looks[-1], []
    spray = last.note.spray
    closed = history.entry_closed_until
    if closed is not None and closed.date() >= as_of:
        hours = spray.entry_hours if spray else None
        facts.append(Fact("entry_closed", {"until": closed.isoformat(), "hours": hours}))
    elif closed is None and spray is not None and spray.entry_hours is not None:
        facts.append(Fact("entry_closed", {"until": None, "hours": spray.entry_hours}))
    first_find = found and not history.found_before and all(not v.count for v in looks[:-1])
    if last.moisture == "wet" or first_find:
        facts.append(Fact("clean_boots_and_spade"))
    if first_find:
        facts.append(Fact("infested_last"))
    if _BURIED.search((last.note.text + " " + last.note.where.text).lower()):
        facts.append(Fact("ask_before_digging"))
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
