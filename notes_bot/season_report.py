"""What a season came to: one field for its grower, and one source of resistance over all fields for the supervisor.

Pure, on top of science/ and winter.py: finished values in, a ``Sheet`` of statements out.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from notes_bot import noted
from notes_bot.model import Fact, Field, Note, Outlook, Part, Sheet, Spot, Visit
from notes_bot.science import density
from notes_bot.science.variety_watch import Pooled, pool

MOST_LOOKS = 12
"""Looks told one by one in a report; a longer season is told by its newest."""
FEW_LOOKS = 3
"""Fewer looks than this leave a season thin. Judgement."""
HALF_FEMALE = 0.5
"""Added to both counts of a ratio, so that none on the resistant plants is few and not nothing. Common practice."""
NOT_TOLD = ""
"""Source of a variety that is called resistant without one; such fields are pooled among themselves."""
MOST_FIELDS = 12
"""Fields told one by one in a watch; the most worrying first."""


def field_report(
    known: Field,
    season: Sequence[Visit],
    outlook: Outlook | None,
    lab: Sheet | None,
    hg: Sheet | None,
    plan: Sheet | None,
    *,
    year: int,
) -> Sheet:
    """One field's season: looks and how, what was found, laboratory, plan, and what is not sure.

    ``outlook`` is that of the season's last look; ``lab``, ``hg`` and ``plan`` are the newest sheets, or ``None``.
    """
    finding = outlook.finding if outlook is not None else None
    outcomes = [visit.note.outcome for visit in season]
    found = [visit for visit in season if visit.note.outcome == "seen"]
    looks = [visit for visit in season if visit.note.outcome in ("seen", "none_seen")]
    key = "report_head_found" if found else "report_head_none" if looks else "report_head_unseen"
    head = Fact(key, {"field": known.name, "year": str(year), "count": len(looks)})
    looked = [_look(visit) for visit in season[-MOST_LOOKS:]]
    if len(season) > MOST_LOOKS:
        looked.insert(0, Fact("report_earlier", {"count": len(season) - MOST_LOOKS}))
    told: list[Fact] = []
    if found:
        told.append(Fact("report_first", {"date": found[0].on.isoformat()}))
        most = max((each for visit in found if (each := _each(visit.note)) is not None), default=None)
        if most is not None:
            told.append(Fact("report_most", {"each": most}))
    elif looks and outlook is not None:
        told.append(Fact("report_chance", {"chance": outlook.infested_probability}))
    elif "not_looked" in outcomes or not looks:
        told.append(Fact("report_nothing_known", {}))
    watch = finding.resistance if finding is not None else None
    if watch is not None:
        told.append(Fact("report_resistance", {"verdict": watch.verdict, "chance": watch.probability}))
        if watch.percent_of_check is not None:
            told.append(
                Fact(
                    "report_of_check",
                    {
                        "share": watch.percent_of_check.likely,
                        "low": watch.percent_of_check.low,
                        "high": watch.percent_of_check.high,
                    },
                )
            )
    if known.variety or known.source:
        told.insert(0, Fact("report_variety", {"variety": known.variety or known.source, "source": known.source}))
    unsure = _unsure(
        looks, found, finding is not None and finding.verdict in ("thin", "too_weak", "too_early"), lab, hg
    )
    parts = [Part("looked", tuple(looked)), Part("found", tuple(told))]
    parts += [Part("lab", _taken(lab, ("read", "means", "change", "loss")))] if lab is not None else []
    parts += [Part("hg", (hg.heads[0], *_taken(hg, ("sources",))))] if hg is not None else []
    if plan is not None and plan.plans:
        ends = [fact for part in plan.parts if part.title == "plan" for fact in (part.facts[0], part.facts[-1])]
        parts.append(Part("plans", (*ends, *_taken(plan, ("differences", "limits")))))
    again = _taken(lab, ("next",)) if lab is not None else (Fact("report_sample", {}),)
    parts += [
        Part("next", again),
        Part("unsure", tuple(unsure)),
        Part("caution", (Fact("report_label", {}), Fact("sample_soil_stays", {}))),
    ]
    kept = tuple(part for part in parts if part.facts)
    return Sheet(
        "report",
        known.name,
        (head,),
        kept,
        (head, *told[:2], *again[:1]),
        counts=lab.counts if lab else (),
        plans=plan.plans if plan is not None else (),
    )


def _taken(sheet: Sheet, titles: Sequence[str]) -> tuple[Fact, ...]:
    return tuple(fact for part in sheet.parts if part.title in titles for fact in part.facts)


def _each(note: Note) -> float | None:
    total, plants = noted.note_total(note), noted.plants_dug(note)
    return total / plants if total is not None and plants else None


def _look(visit: Visit) -> Fact:
    note = visit.note
    values: dict[str, object] = {"date": visit.on.isoformat()}
    if note.outcome != "none_seen":
        values["each"] = _each(note)  # first: without it nothing else of a count is told
    values |= {"plants": noted.plants_dug(note), "method": note.method}
    if note.outcome == "not_looked":
        return Fact("report_look_not", {"date": visit.on.isoformat()})
    if note.outcome == "none_seen":
        return Fact("report_look_none", values)
    return Fact("report_look_seen", values)


def _unsure(
    looks: Sequence[Visit], found: Sequence[Visit], weak: bool, lab: Sheet | None, hg: Sheet | None
) -> list[Fact]:
    facts = []
    if len(looks) < FEW_LOOKS:
        facts.append(Fact("report_few_looks", {"count": len(looks)}))
    if weak and not found:
        facts.append(Fact("report_weak", {}))
    if lab is None:
        facts.append(Fact("report_no_lab", {}))
    elif hg is None and found:
        facts.append(Fact("report_no_hg", {}))
    facts.append(Fact("report_spots_differ", {}))
    return facts


# --- the watch over fields ------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class StripLook:
    """One look at a resistant variety beside a check strip."""

    field: str
    source: str
    year: int
    log_share: float
    """Logarithm of females per plant over those on the strip."""
    error: float
    """Its standard deviation from the counts alone."""


@dataclass(frozen=True, slots=True)
class SourceIndex:
    """FI on a source's line from a field's newest HG test, in percent."""

    field: str
    source: str
    fi: float


def strip_looks(known: Field, visits: Sequence[Visit]) -> list[StripLook]:
    """Every look of a field that can be compared with a strip, one a season: that with most females on the strip."""
    best: dict[tuple[str, int], tuple[float, StripLook]] = {}
    for visit in visits:
        variety = visit.note.variety
        source = (variety.source if variety and variety.source else None) or known.source
        strip = next((spot for spot in visit.note.spots if spot.check), None)
        resistance = (variety.resistance if variety and variety.resistance else None) or known.resistance
        if strip is None or (source is None and resistance != "resistant"):
            continue
        source = source or NOT_TOLD
        look = _compared(known.name, source, visit, strip)
        if look is not None:
            females = noted.spot_total(strip) or 0
            if females > best.get((source, visit.on.year), (-1.0, look))[0]:
                best[source, visit.on.year] = (float(females), look)
    return [look for _, look in best.values()]


def _compared(field: str, source: str, visit: Visit, strip: Spot) -> StripLook | None:
    plants, total = noted.plants_dug(visit.note), noted.note_total(visit.note)
    strip_plants, strip_total = noted.spot_plants(strip), noted.spot_total(strip)
    if not plants or total is None or not strip_plants or not strip_total:
        return None
    own = density.density(plants, total, visit.note.per_plant)
    check = density.density(strip_plants, strip_total, strip.per_plant)
    shares, chances = density.ratio_chances(own, check)
    logs = np.log(shares)
    middle = float(chances @ logs)
    error = math.sqrt(float(chances @ (logs - middle) ** 2))
    if total == 0:  # the density of none has no lower end; half a female stands for "few"
        middle = math.log((HALF_FEMALE / plants) / ((strip_total + HALF_FEMALE) / strip_plants))
        error = max(min(error, 2.0), 1.0)
    return StripLook(field, source, visit.on.year, middle, error)


def watch_sheet(looks: Sequence[StripLook], indices: Sequence[SourceIndex], *, year: int) -> Sheet:
    """Which source is slipping where: each source over its fields, then its fields, the most worrying first."""
    parts, lines = [], []
    for source in sorted({look.source for look in looks} | {index.source for index in indices}):
        own = [look for look in looks if look.source == source]
        told = source if source != NOT_TOLD else Fact("source_unknown")
        facts: list[Fact] = [Fact("watch_source", {"source": told, "fields": len({look.field for look in own})})]
        worst: Fact | None = None
        if own:
            names = sorted({look.field for look in own})
            pooled = pool(
                [look.log_share for look in own],
                [look.error for look in own],
                [names.index(look.field) for look in own],
                [float(look.year) for look in own],
                float(year),
            )
            facts += _pooled(pooled, len({look.year for look in own}))
            order = sorted(range(len(names)), key=lambda n: -pooled.groups[n].chance_slipping)
            raw = {look.field: math.exp(look.log_share) for look in sorted(own, key=lambda look: look.year)}
            for n in order[:MOST_FIELDS]:
                group = pooled.groups[n]
                standing = (
                    "slipping"
                    if group.chance_slipping > 0.5
                    else "holding"
                    if group.chance_above_holding < 0.2
                    else "watch"
                )
                facts.append(
                    Fact(
                        "watch_field",
                        {
                            "field": names[n],
                            "standing": standing,
                            "share": 100 * group.share[1],
                            "low": 100 * group.share[0],
                            "high": 100 * group.share[2],
                            "raw": 100 * raw[names[n]],
                            "chance": group.chance_slipping,
                        },
                    )
                )
            if len(order) > MOST_FIELDS:
                facts.append(Fact("watch_more", {"count": len(order) - MOST_FIELDS}))
            first = pooled.groups[order[0]]
            key = "watch_line_slips" if first.chance_slipping > 0.5 else "watch_line"
            worst = Fact(key, {"source": told, "field": names[order[0]], "share": 100 * first.share[1]})
        facts += [Fact("watch_index", {"field": i.field, "fi": i.fi}) for i in indices if i.source == source]
        lines.append(worst or facts[0])
        parts.append(Part("watch", tuple(facts)))
    if not parts:
        head = Fact("watch_nothing", {})
        return Sheet("watch", "", (head,), (Part("next", (Fact("watch_how", {}),)),), (head,))
    slips = [line for line in lines if line.key == "watch_line_slips"]
    head = (
        Fact("watch_head_slips", {"lines": [line.values["source"] for line in slips]})
        if slips
        else Fact("watch_head", {"count": len(lines)})
    )
    parts.append(Part("limits", (Fact("watch_shrunk", {}), Fact("watch_not_index", {}), Fact("watch_priors", {}))))
    return Sheet("watch", "", (head,), tuple(parts), (head, *lines))


def _pooled(pooled: Pooled, years: int) -> list[Fact]:
    facts = [
        Fact("watch_mean", {"share": 100 * pooled.mean[1], "low": 100 * pooled.mean[0], "high": 100 * pooled.mean[2]})
    ]
    if years > 1:
        key = "watch_rising" if pooled.chance_rising >= 0.9 else "watch_no_trend"
        facts.append(
            Fact(
                key,
                {
                    "yearly": pooled.yearly[1],
                    "low": pooled.yearly[0],
                    "high": pooled.yearly[2],
                    "chance": pooled.chance_rising,
                },
            )
        )
    return facts
