"""The winter half: laboratory counts, tests and plans of one field, from what is kept to statements by key.

Pure, on top of science/, like outlook.py for the season. Every function gives a ``Sheet``: statements by key with
their numbers, in the order they are to be read. Words and pages are made elsewhere.
"""

from __future__ import annotations

import math
import re
import zlib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from typing import Any, Literal

from notes_bot import noted
from notes_bot.model import DigPoint, EggCount, Fact, Field, Interval, Part, PlanLine, Sheet, Visit
from notes_bot.science import eggs as egg_science
from notes_bot.science import hg_type, sampling
from notes_bot.science.rotation import CROPS, ROTATION, Crop, PlanRun, compare, index_start, simulate

PlaceFrom = Literal["said", "field", "lab", "crew", "nowhere"]

LEAST_TOLD = ROTATION["floor"].value
"""Ends of ranges below this are told as "under"."""
MONTHS_ALIKE = 2
"""Samples so many months apart in the year are still taken at the same season. Judgement."""
USUAL_PLANS: tuple[tuple[str, ...], ...] = (
    ("corn", "PI 88788", "corn", "Peking"),
    ("corn", "PI 88788", "corn", "PI 88788"),
    ("corn", "corn", "corn", "PI 88788"),
)
"""Set side by side when nobody names a plan: sources in turn, one source, more years without a host."""
LETTERS = "ABCD"
SURE_OF_TYPE = 0.8
"""Below this the headline names the two likeliest types. Judgement."""


@dataclass(frozen=True, slots=True)
class Place:
    """A state or province, and how we know it."""

    name: str | None
    known_from: PlaceFrom


def place_of(said: str | None, known: Field, crew: Sequence[Field], counts: Sequence[EggCount] = ()) -> Place:
    """Whose limits apply: the place said, the field's, that of its last laboratory result, or the crew's only one."""
    if said:
        return Place(egg_science.place_name(said), "said")
    if known.place:
        return Place(egg_science.place_name(known.place), "field")
    told = [count.place for count in counts if count.place]
    if told:
        return Place(egg_science.place_name(told[-1]), "lab")
    places = {egg_science.place_name(other.place) for other in crew if other.place}
    if len(places) == 1:
        return Place(places.pop(), "crew")
    return Place(None, "nowhere")


def _place_fact(place: Place) -> list[Fact]:
    if place.known_from == "crew":
        return [Fact("place_from_crew", {"place": place.name})]
    if place.known_from == "lab":
        return [Fact("place_from_lab", {"place": place.name})]
    return []


# --- laboratory counts ----------------------------------------------------------------------------------


def egg_count(args: Mapping[str, Any], told_on: date, place: str | None) -> EggCount:
    """A count as the message told it, converted. Raises ValueError for a unit that cannot be converted."""
    on = args.get("date")
    day = date.fromisoformat(on) if isinstance(on, str) else on
    name = egg_science.place_name(str(args["place"])) if args.get("place") else None
    converted = egg_science.to_per_100cc(float(args["value"]), str(args["unit"]), name or place)
    count = EggCount(
        on=day or told_on,
        value=float(args["value"]),
        unit=str(args["unit"]),
        eggs=Interval(converted.low, converted.eggs, converted.high),
        basis=converted.basis,
        cores=args.get("cores"),
        place=name,
        next_crop=args.get("next_crop"),
        after=args.get("after"),
        day_assumed=day is None,
    )
    return replace(count, mean=_mean_behind(count))


def kept_counts(events: Sequence[tuple[date, Mapping[str, Any]]], place: str | None) -> tuple[EggCount, ...]:
    """The standing counts of a field, oldest first. A later message for the same day replaces the earlier."""
    by_day: dict[date, EggCount] = {}
    for told_on, args in events:
        if args.get("value") is None or not args.get("unit"):
            continue
        try:
            count = egg_count(args, told_on, place)
        except ValueError:
            continue  # kept before units were checked; the raw message is still there
        by_day.pop(count.on, None)
        by_day[count.on] = count
    return tuple(sorted(by_day.values(), key=lambda count: count.on))


def count_cv(count: EggCount) -> float:
    """Error of the count as a share, from its cores (20 when not said)."""
    return sampling.composite_cv(count.cores or int(sampling.PRECISION["usual_cores"].value))


def _mean_behind(count: EggCount) -> Interval:
    low, high = sampling.count_interval(count.eggs.likely, count_cv(count))
    if count.eggs.likely <= 0:
        return Interval(0.0, 0.0, high)
    return Interval(
        low * count.eggs.low / count.eggs.likely, count.eggs.likely, high * count.eggs.high / count.eggs.likely
    )


def lab_sheet(known: Field, counts: Sequence[EggCount], place: Place, *, replaced: EggCount | None = None) -> Sheet:
    """The newest of a field's counts read against its place, the others and the studies."""
    count, earlier = counts[-1], counts[:-1]
    eggs, interval = count.eggs.likely, count.mean
    levels = [_level(count, place.name, condition) for condition in _conditions(count, place.name)]
    found = [fact for fact in levels if fact is not None]
    heads: tuple[Fact, ...]
    if found:
        first = found[0].values
        heads = (
            Fact(
                "lab_head",
                {
                    "field": known.name,
                    "eggs": eggs,
                    "level": first["level"],
                    "place": place.name,
                    "condition": first["condition"],
                },
            ),
        )
    elif place.name is None:
        heads = (Fact("lab_head_no_place", {"field": known.name, "eggs": eggs}),)
    else:
        heads = (Fact("lab_head_no_scale", {"field": known.name, "eggs": eggs, "place": place.name}),)
    change = _changes(count, earlier)
    again = _sample_again(count, place.name)
    parts = (
        Part("read", tuple(_as_told(count, replaced))),
        Part("means", (*_place_fact(place), *_meaning(count, interval, place.name, found))),
        Part("change", tuple(change)),
        Part("loss", tuple(_loss(count))),
        Part("next", (again, *_type_test(count, place.name))),
        Part("fix", (Fact("lab_fix", {"field": known.name}),)),
    )
    short = (heads[0], Fact("short_interval", {"interval": interval}), *change[:1], again)
    return Sheet("lab", known.name, heads, _said(parts), short, counts=tuple(counts))


def _said(parts: Sequence[Part]) -> tuple[Part, ...]:
    return tuple(part for part in parts if part.facts)


def _as_told(count: EggCount, replaced: EggCount | None) -> list[Fact]:
    facts = [
        Fact(
            "lab_read_today" if count.day_assumed else "lab_read",
            {"value": count.value, "unit": count.unit, "date": count.on.isoformat(), "cores": count.cores},
        )
    ]
    if count.basis != "as_is":
        facts.append(Fact(f"eggs_from_{count.basis}", {"eggs": count.eggs.likely, "range": count.eggs}))
    if replaced is not None:
        facts.append(Fact("lab_replaces", {"value": replaced.value, "date": replaced.on.isoformat()}))
    return facts


def _conditions(count: EggCount, place: str | None) -> tuple[egg_science.Condition, ...]:
    every = egg_science.conditions(place)
    wanted = {"soybean": "soybean_next", "other": "other_next"}.get(count.next_crop or "")
    return tuple(c for c in every if c == "any" or wanted in (None, c))


def _level(count: EggCount, place: str | None, condition: egg_science.Condition) -> Fact | None:
    eggs = count.eggs.likely
    row = egg_science.band(eggs, place, condition)
    if row is None:
        return None
    chances = egg_science.level_chances(eggs, count_cv(count), place, condition)
    others = [
        Fact("level_chance", {"level": level, "chance": chance})
        for level, chance in sorted(chances.items(), key=lambda item: -item[1])
        if level != row.level and chance >= 0.1
    ]
    return Fact(
        "egg_level",
        {
            "place": place,
            "condition": condition,
            "level": row.level,
            "low": row.low,
            "high": row.high,
            "advice": row.advice,
            "chance": chances.get(row.level, 1.0),
            "others": others,
            "as_of": row.as_of,
        },
    )


def _meaning(count: EggCount, interval: Interval, place: str | None, levels: Sequence[Fact]) -> list[Fact]:
    eggs, cores = count.eggs.likely, count.cores
    if eggs > 0:
        facts = [Fact("egg_interval", {"interval": interval, "cores": cores})]
    else:
        facts = [Fact("egg_zero", {"high": interval.high})]
    for fact in levels:
        key = "egg_level_top" if fact.values["high"] is None else "egg_level"
        facts.append(Fact(key, fact.values))
        if fact.values["others"]:
            facts.append(
                Fact(
                    "egg_level_chances",
                    {"level": fact.values["level"], "chance": fact.values["chance"], "others": fact.values["others"]},
                )
            )
    for advice in dict.fromkeys(fact.values["advice"] for fact in levels):
        of = [fact.values["level"] for fact in levels if fact.values["advice"] == advice]
        facts.append(Fact("egg_advice", {"place": place, "advice": advice, "level": of[0]}))
    if not levels:
        if place is None:
            facts.append(Fact("egg_no_place", {}))
        elif egg_science.conditions(place):
            facts.append(Fact("egg_off_scale", {"place": place}))
        else:
            facts.append(Fact("egg_no_scale", {"place": place}))
    loses = egg_science.RESISTANT_LOSES.get(place or "")
    if loses is not None and eggs >= loses[0]:
        facts.append(Fact("egg_resistant_loses", {"place": place, "eggs": loses[0]}))
    if 0 < eggs <= 200:
        facts.append(Fact("egg_maybe_other_species", {}))
    return facts


def _changes(count: EggCount, earlier: Sequence[EggCount]) -> list[Fact]:
    if not earlier:
        return []
    then = earlier[-1]
    values = {"date": then.on.isoformat(), "then": then.eggs.likely, "now": count.eggs.likely}
    found = sampling.change(count.eggs.likely, then.eggs.likely, count_cv(count), count_cv(then))
    facts: list[Fact] = []
    if found is None:
        facts.append(Fact("egg_change_zero", values))
    else:
        times = sampling.tellable_ratio(count_cv(count), count_cv(then))
        values |= {"ratio": found.ratio, "low": found.low, "high": found.high, "times": times}
        facts.append(Fact("egg_changed" if found.changed else "egg_not_changed", values))
    if not _same_season(count.on, then.on):
        facts.append(Fact("egg_other_season", {"date": then.on.isoformat()}))
    if count.after and then.after and count.after != then.after:
        facts.append(Fact("egg_other_crop_before", {}))
    every = [*earlier, count]
    slope = sampling.trend(
        [c.on.toordinal() / 365.25 for c in every], [c.eggs.likely for c in every], [count_cv(c) for c in every]
    )
    if slope is not None:
        told = {
            "factor": slope.factor,
            "low": slope.low,
            "high": slope.high,
            "count": len(every),
            "since": every[0].on.isoformat(),
        }
        facts.append(Fact("egg_trend" if slope.real else "egg_no_trend", told))
    return facts


def _same_season(one: date, other: date) -> bool:
    apart = abs(one.month - other.month)
    return min(apart, 12 - apart) <= MONTHS_ALIKE


def _loss(count: EggCount) -> list[Fact]:
    eggs = count.eggs.likely
    if eggs <= 0:
        return []
    loss = egg_science.expected_loss(eggs)
    key = "egg_loss_little" if loss.below_tolerance else "egg_loss"
    return [
        Fact(
            key,
            {"low": loss.low_percent, "high": loss.high_percent, "studies": len(loss.studies), "none": loss.none_found},
        ),
        Fact("egg_loss_not_bushels", {}),
    ]


def _sample_again(count: EggCount, place: str | None) -> Fact:
    rule = sampling.resample(place, count.eggs.likely)
    if rule is None:
        return Fact("egg_again", {"month": count.on.isoformat()})
    if rule.years is None:
        return Fact("egg_again_crops", {"place": place, "month": count.on.isoformat()})
    first, last = (_years_on(count.on, years).isoformat() for years in rule.years)
    return Fact(
        "egg_again_year" if first == last else "egg_again_years", {"place": place, "first": first, "last": last}
    )


def _years_on(day: date, years: int) -> date:
    return date(day.year + years, day.month, min(day.day, 28))


def _type_test(count: EggCount, place: str | None) -> list[Fact]:
    trigger = egg_science.HG_TRIGGER.get(place or "")
    if trigger is None or count.eggs.likely < trigger[0]:
        return []
    return [Fact("egg_type_test", {"place": place, "eggs": trigger[0]})]


# --- HG type --------------------------------------------------------------------------------------------


def hg_sheet(known: Field, args: Mapping[str, Any], place: Place) -> Sheet:
    """A test as told: counts on check and lines, indices alone, or just the type's name."""
    if args.get("type") is not None:
        return _reported_type(known, str(args["type"]))
    indices = args.get("indices")
    if indices:
        # Indices without counts: a check of 100 makes FI and count the same number; no interval is honest then.
        test = hg_type.read_test(
            [100.0],
            {int(n): [float(v)] for n, v in indices.items()},
            pickett=[float(args["pickett"])] if args.get("pickett") is not None else None,
        )
    else:
        test = hg_type.read_test(
            [float(v) for v in args["check"]],
            {int(n): [float(v) for v in counts] for n, counts in (args.get("lines") or {}).items()},
            pickett=[float(v) for v in args["pickett"]] if args.get("pickett") else None,
            plants=args.get("plants"),
        )
    return _tested(known, test, place, bare=bool(indices))


def _line_name(number: int) -> str:
    line = hg_type.LINES[number - 1]
    return line.name if line.name == line.accession or number == 1 else line.accession


def _tested(known: Field, test: hg_type.HgTest, place: Place, *, bare: bool) -> Sheet:
    chances = dict(test.chances)
    if test.name is not None:
        chance = None if bare else chances.get(test.name)
        head = Fact("hg_head", {"field": known.name, "type": test.name, "chance": chance})
        if chance is not None and chance < SURE_OF_TYPE and len(test.chances) > 1:
            either = [Fact("hg_name_chance", {"type": name, "chance": c}) for name, c in test.chances[:2]]
            head = Fact("hg_head_either", {"field": known.name, "names": either})
    elif "no_females_on_check" in test.troubles or "check_low" in test.troubles:
        head = Fact("hg_head_unrated", {"field": known.name})
    else:
        head = Fact("hg_head_partial", {"field": known.name, "type": test.would_read})
    read: list[Fact] = [] if bare else [Fact("hg_check", {"mean": test.check_mean, "plants": test.check_plants})]
    for index in test.lines:
        name = _line_name(index.number)
        values = {
            "number": index.number,
            "name": name,
            "fi": index.fi,
            "low": index.low,
            "high": index.high,
            "rating": index.rating,
            "chance": index.chance_positive,
        }
        key = "hg_line_bare" if bare else "hg_line_near" if index.uncertain else "hg_line"
        read.append(Fact(key, values))
    if test.pickett is not None:
        read.append(
            Fact(
                "hg_line_bare" if bare else "hg_pickett",
                {
                    "number": "",
                    "name": "Pickett",
                    "fi": test.pickett.fi,
                    "low": test.pickett.low,
                    "high": test.pickett.high,
                    "rating": test.pickett.rating,
                },
            )
        )
    means = [
        Fact(
            f"hg_{key}",
            {
                "plants": test.check_plants,
                "mean": test.check_mean,
                "least": 100,
                "replicates": 5,
                "read": test.would_read,
                "lines": [str(n) for n in test.not_tested],
            },
        )
        for key in test.troubles
        if not (bare and key in ("means_only", "few_replicates"))
    ]
    if bare:
        means.append(Fact("hg_indices_only", {}))
    elif len(test.chances) > 1:
        names = [Fact("hg_name_chance", {"type": name, "chance": chance}) for name, chance in test.chances]
        means.append(Fact("hg_chances", {"names": names}))
    means += [Fact("hg_at_limit", {"name": _line_name(i.number)}) for i in test.lines if i.at_limit]
    if test.race is not None:
        means.append(Fact("hg_race_memory" if test.race in hg_type.FROM_MEMORY else "hg_race", {"race": test.race}))
    rated = not {"no_females_on_check", "check_low"} & set(test.troubles)
    sources = _sources(hg_type.sources(test), place, bare=bare) if rated else []
    parts = (
        Part("read", tuple(read)),
        Part("means", tuple(means)),
        Part("sources", tuple(sources)),
        Part("limits", (Fact("hg_no_better", {}), Fact("hg_not_types", {}), Fact("hg_repeat", {})) if rated else ()),
    )
    return Sheet("hg", known.name, (head,), _said(parts), (head, *sources[:2]))


def _sources(found: Sequence[hg_type.SourceOutlook], place: Place, *, bare: bool = False) -> list[Fact]:
    facts = []
    for source in found:
        standing = source.standing
        if bare and source.fi is not None:  # no replicates, so nothing can be called sure or unsure
            standing = "holds" if source.fi < 10 else "partly" if source.fi < 30 else "broken"
        beside = [str(n) for n in source.group_positive]
        key = f"source_{standing}_too" if beside and standing in ("broken", "partly") else f"source_{standing}"
        facts.append(Fact(key, {"source": source.source, "fi": source.fi, "beside": beside}))
    for source in found:
        row = hg_type.survey(place.name, source.source)
        if row is not None:
            facts.append(
                Fact(
                    "source_survey",
                    {
                        "place": row.place,
                        "when": row.when,
                        "source": row.source_of_resistance,
                        "share": row.share,
                        "count": row.populations,
                    },
                )
            )
    return facts


def _reported_type(known: Field, name: str) -> Sheet:
    """The name alone: which lines it says are positive, and what it leaves open."""
    positive = hg_type.positive_lines(name)
    head = Fact("hg_head_told", {"field": known.name, "type": name})
    lines = [_line_name(n) for n in positive]
    read = Fact("hg_told_lines", {"lines": lines}) if lines else Fact("hg_told_none", {})
    facts = []
    for source, number in hg_type.SOURCES.items():
        key = "source_told_positive" if number in positive else "source_told_negative"
        facts.append(Fact(key, {"source": source}))
    parts = (
        Part("read", (read,)),
        Part("sources", tuple(facts)),
        Part("limits", (Fact("hg_told_only", {}), Fact("hg_no_better", {}), Fact("hg_repeat", {}))),
    )
    return Sheet("hg", known.name, (head,), parts, (head, *facts))


def known_indices(args: Mapping[str, Any] | None) -> dict[hg_type.Group, float]:
    """FI on each source from the field's newest test, for a plan; a name alone gives none."""
    if not args:
        return {}
    if args.get("indices"):
        fi = {int(n): float(v) for n, v in args["indices"].items()}
    elif args.get("check"):
        mean = sum(map(float, args["check"])) / len(args["check"])
        if mean < hg_type.TEST["check_females"].value:
            return {}
        fi = {int(n): 100.0 * sum(map(float, c)) / len(c) / mean for n, c in (args.get("lines") or {}).items()}
    else:
        return {}
    return {source: fi[number] for source, number in hg_type.SOURCES.items() if number in fi}


# --- the sample plan ------------------------------------------------------------------------------------


def dig_points(visits: Sequence[Visit]) -> tuple[DigPoint, ...]:
    """Where plants were dug, from coordinates a note gives (typed, or in a shared map link)."""
    found = []
    for visit in visits:
        pairs = _PAIR.findall(visit.note.text)
        if len(pairs) == 1:
            latitude, longitude = float(pairs[0][0]), float(pairs[0][1])
            if -90 <= latitude <= 90 and -180 <= longitude <= 180 and _zone(visit) is not None:
                found.append(DigPoint(latitude, longitude, "", visit.on, _zone(visit) or "suspect", _each(visit)))
    return tuple(found)


_PAIR = re.compile(r"(-?\d{1,2}\.\d{3,})\s*°?\s*[,;/ ]\s*(-?\d{1,3}\.\d{3,})")


def _zone(visit: Visit) -> Literal["infested", "clean", "suspect"] | None:
    if visit.note.outcome == "seen":
        return "infested"
    if visit.note.outcome == "none_seen":
        return "suspect" if visit.note.tops and "healthy" not in visit.note.tops else "clean"
    return "suspect" if visit.note.tops and "healthy" not in visit.note.tops else None


def _each(visit: Visit) -> float | None:
    total, plants = noted.note_total(visit.note), noted.plants_dug(visit.note)
    return total / plants if total is not None and plants else None


def sample_sheet(
    known: Field, visits: Sequence[Visit], counts: Sequence[EggCount], place: Place, *, watch: bool = False
) -> Sheet:
    """When, how many cores, how deep, in which zones, what to ask for, and what the sample can tell.

    ``visits`` are this season's; ``watch``: the resistance is slipping or to watch, a reason for a type test.
    """
    protocol, own = sampling.protocol(place.name)
    cores, depth = protocol.cores or (15, 20), protocol.depth_in or (6, 8)
    acres = known.acres
    most = (protocol.acres or (0, 20))[1]
    bags = max(1, math.ceil(acres / most)) if acres else 1
    zones = _zones(visits)
    points = dig_points(visits)
    apart = len({fact.key for fact in zones}) > 1
    values = {"field": known.name, "cores": _pair(cores), "depth": _pair(depth)}
    head = Fact("sample_head", values)
    own_page = Fact("sample_own" if own else "sample_common", {"place": place.name})
    how = [
        *_place_fact(place),
        own_page if place.name is not None else Fact("sample_no_place", {}),
        Fact("sample_when", {"when": protocol.when}),
        Fact("sample_cores", {**values, "acres": _pair(protocol.acres or (0, 20))}),
        Fact("sample_pattern", {"pattern": protocol.pattern}),
        Fact("sample_row", {}),
    ]
    if bags > 1 and acres:
        how.append(Fact("sample_bags", {"acres": acres, "bags": bags, "most": most}))
    where = list(zones)
    if apart:
        where.append(Fact("sample_zones_apart", {}))
    elif not zones:
        where.append(Fact("sample_zones_none", {}))
    if points:
        where.append(Fact("sample_sketch", {"count": len(points)}))
    ask = [Fact("sample_ask_eggs", {})]
    reason = _hg_reason(counts, place.name, watch=watch)
    if reason is not None:
        ask += [reason, Fact("sample_ask_hg", {"eggs": sampling.HG_EGGS})]
    middle = round(sum(cores) / 2)
    cv, cv_two = sampling.composite_cv(middle), sampling.composite_cv(middle, composites=2)
    low, high = sampling.count_interval(2000, cv)
    tells = [
        Fact("sample_precision", {"cores": middle, "eggs": 2000, "interval": Interval(low, 2000, high)}),
        Fact(
            "sample_tellable",
            {"times": sampling.tellable_ratio(cv, cv), "two": sampling.tellable_ratio(cv_two, cv_two)},
        ),
        Fact("sample_misses", {"chance": sampling.miss_chance(0.05, middle), "cores": middle}),
    ]
    parts = (
        Part("how", tuple(how)),
        Part("where", tuple(where)),
        Part("handle", (Fact("sample_mix", {}), Fact("sample_label", {}), Fact("sample_keep", {}))),
        Part("ask", tuple(ask)),
        Part("tells", tuple(tells)),
        Part(
            "caution", (Fact("sample_soil_stays", {}), Fact("no_soil_over_borders", {}), Fact("ask_before_digging", {}))
        ),
    )
    short = (head, Fact("sample_when", {"when": protocol.when}), Fact("sample_pattern", {"pattern": protocol.pattern}))
    return Sheet("sample", known.name, (head,), parts, short, points=points, counts=tuple(counts))


def _pair(ends: tuple[int, int]) -> str:
    return str(ends[0]) if ends[0] == ends[1] else f"{ends[0]}-{ends[1]}" if ends[0] else str(ends[1])


def _zones(visits: Sequence[Visit]) -> list[Fact]:
    """The season's dig spots as zones: infested, clean, suspect, each told with its newest look."""
    newest: dict[str, tuple[str, str, Visit, float | None]] = {}
    numbered = 0
    for visit in visits:
        main = [spot for spot in visit.note.spots if not spot.check]
        zone_of = _zone(visit)
        if len(main) > 1:
            for spot in main:
                total, plants = noted.spot_total(spot), noted.spot_plants(spot)
                if total is not None:
                    zone = "infested" if total else "clean"
                    newest[spot.name] = (spot.name, zone, visit, total / plants if plants else None)
        elif zone_of is not None:
            name = main[0].name if main else ""
            if dig_points([visit]):
                numbered += 1  # as the sketch numbers them
                name = str(numbered)
            # Looks nobody placed: the newest of each finding, so that a later "none" elsewhere hides no find.
            newest[name or zone_of] = (name, zone_of, visit, _each(visit))
    return [
        Fact(
            f"zone_{zone}" if name else f"zone_{zone}_whole", {"name": name, "date": visit.on.isoformat(), "each": each}
        )
        for name, zone, visit, each in newest.values()
    ]


def _hg_reason(counts: Sequence[EggCount], place: str | None, *, watch: bool) -> Fact | None:
    if watch:
        return Fact("hg_reason_slipping", {})
    if counts and _type_test(counts[-1], place):
        return _type_test(counts[-1], place)[0]
    return None


# --- rotation -------------------------------------------------------------------------------------------


def rotation_sheet(
    known: Field,
    plans: Sequence[Sequence[str]],
    counts: Sequence[EggCount],
    place: Place,
    *,
    today: date,
    eggs: float | None = None,
    weeds: bool = False,
    indices: Mapping[hg_type.Group, float] | None = None,
) -> Sheet:
    """Plans side by side from the last count (or the one given), on the same futures."""
    usual = not plans
    asked = [list(plan) for plan in (plans or USUAL_PLANS)]
    own_source = known.source if known.source in hg_type.SOURCES else None
    filled = any("resistant" in plan for plan in asked)
    named = [[(own_source or "PI 88788") if crop == "resistant" else crop for crop in plan] for plan in asked]
    start = eggs if eggs is not None else counts[-1].eggs.likely if counts else None
    if start is None or start <= 0:
        head = Fact("rotation_no_eggs" if start is None else "rotation_zero", {"field": known.name})
        return Sheet("rotation", known.name, (head,), (), (head,))
    cv = count_cv(counts[-1]) if eggs is None and counts else None
    seed = zlib.crc32(f"{known.id} {start:.0f}".encode())
    crops: list[list[Crop]] = [[_crop(crop) for crop in plan] for plan in named]
    runs = simulate(start, crops, seed=seed, place=place.name, indices=indices, weeds=weeds, count_cv=cv)
    first_year = today.year + (1 if today.month >= 8 else 0)
    order = sorted(range(len(runs)), key=lambda n: runs[n].years[-1].middle)
    best = order[0]
    told = [compare(runs, best, n) for n in order[1:] if len(runs[n].crops) == len(runs[best].crops)]
    parts: list[Part] = []
    lines = []
    for n, (plan, run) in enumerate(zip(named, runs, strict=True)):
        facts = [Fact("plan_name", {"letter": LETTERS[n], "crops": [_crop_word(c) for c in plan]})]
        facts += [
            Fact(
                "plan_year",
                {
                    "year": str(first_year + t),
                    "crop": _crop_word(plan[t]),
                    "low": y.low,
                    "middle": y.middle,
                    "high": y.high,
                },
            )
            for t, y in enumerate(run.years)
        ]
        parts.append(Part("plan", tuple(facts)))
        label = f"{LETTERS[n]}"
        lines.append(
            PlanLine(label, tuple((first_year + t, Interval(y.low, y.middle, y.high)) for t, y in enumerate(run.years)))
        )
    differences = [
        Fact(
            "plan_real" if c.real else "plan_alike",
            {
                "first": LETTERS[c.first],
                "second": LETTERS[c.second],
                "chance": max(c.chance_first_lower, 1 - c.chance_first_lower),
                "ratio": c.ratio,
                "low": c.ratio_low,
                "high": c.ratio_high,
            },
        )
        for c in told
    ]
    if len(runs) == 1:
        head = Fact(
            "rotation_head_one",
            {
                "field": known.name,
                "years": len(runs[0].years),
                "low": runs[0].years[-1].low,
                "high": runs[0].years[-1].high,
            },
        )
    elif not told:
        head = Fact("rotation_head_lengths", {"field": known.name, "count": len(runs)})
    elif all(c.real for c in told):
        head = Fact(
            "rotation_head_best",
            {
                "field": known.name,
                "letter": LETTERS[best],
                "years": len(runs[best].years),
                "low": runs[best].years[-1].low,
                "high": runs[best].years[-1].high,
            },
        )
    elif any(c.real for c in told):
        head = Fact(
            "rotation_head_some",
            {
                "field": known.name,
                "letters": [LETTERS[best], *(LETTERS[c.second] for c in told if not c.real)],
                "years": len(runs[best].years),
            },
        )
    else:
        head = Fact("rotation_head_none", {"field": known.name, "count": len(runs), "years": len(runs[best].years)})
    basis = _rotation_basis(start, runs, place, indices or {}, counts, given=eggs is not None, weeds=weeds)
    if filled and own_source is None:
        basis.insert(0, Fact("plan_source_assumed", {}))
    if usual:
        basis.insert(0, Fact("plan_usual", {}))
    parts += [
        Part("differences", tuple(differences)),
        Part("basis", tuple(basis)),
        Part(
            "limits", (Fact("plan_adapts", {"rise": ROTATION["adaptation"].value - 1.0}), Fact("plan_not_forecast", {}))
        ),
    ]
    ends = [
        Fact("plan_end", {"letter": LETTERS[n], "low": runs[n].years[-1].low, "high": runs[n].years[-1].high})
        for n in range(len(runs))
    ]
    short = (head, *ends, *differences[:1])
    return Sheet("rotation", known.name, (head,), _said(parts), short, counts=tuple(counts), plans=tuple(lines))


_CROP_WORDS = {"corn": "crop_corn", "wheat": "crop_wheat", "other": "crop_other", "susceptible": "crop_susceptible"}


def _crop_word(crop: str) -> Fact | str:
    """A crop with words; a source of resistance goes by its own name everywhere."""
    return Fact(_CROP_WORDS[crop]) if crop in _CROP_WORDS else crop


def _crop(name: str) -> Crop:
    if name in ("corn", "wheat", "other"):
        return "nonhost"
    if name not in CROPS:
        raise ValueError(f"{name!r} is no crop of a plan")
    return name


def _rotation_basis(
    start: float,
    runs: Sequence[PlanRun],
    place: Place,
    indices: Mapping[hg_type.Group, float],
    counts: Sequence[EggCount],
    *,
    given: bool,
    weeds: bool,
) -> list[Fact]:
    if given or not counts:
        facts = [Fact("plan_from_given", {"eggs": start})]
    else:
        facts = [Fact("plan_from_lab", {"eggs": start, "date": counts[-1].on.isoformat()})]
    grown = [source for source in hg_type.SOURCES if any(source in run.crops for run in runs)]
    for source in grown:
        fi, _ = index_start(place.name, source, indices.get(source))
        row = hg_type.survey(place.name, source)
        if source in indices:
            facts.append(Fact("plan_fi_test", {"source": source, "fi": fi}))
        elif row is not None:
            facts.append(Fact("plan_fi_survey", {"source": source, "fi": fi, "place": row.place, "when": row.when}))
        else:
            facts.append(Fact("plan_fi_judgement", {"source": source, "fi": fi}))
    if weeds:
        facts.append(Fact("plan_weeds", {}))
    return facts


def day_of(instant_day: date, args: Mapping[str, Any]) -> date:
    """The day an event speaks of: the one it names, else the day it was told."""
    on = args.get("date")
    return date.fromisoformat(on) if isinstance(on, str) else on if isinstance(on, date) else instant_day
