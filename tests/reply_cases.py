"""Invented outlooks to be worded: every verdict, purpose, stage and generation, and the demo scenes by hand.

The reply room computes nothing, so the numbers here need only be plausible. People appear by role.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from math import exp
from typing import get_args

from notes_bot.model import (
    Change,
    Fact,
    Females,
    Field,
    FieldToday,
    Finding,
    Held,
    Interval,
    LookAlike,
    MixDay,
    Note,
    Outlook,
    Person,
    Placed,
    Problem,
    Purpose,
    Recheck,
    ResistanceWatch,
    Resolved,
    SpotDensity,
    Stage,
    Visit,
    Where,
    Window,
)

DAY = date(2026, 6, 25)
NOW = datetime(2026, 6, 25, 19, 30, tzinfo=UTC)
SCOUT = Person(1, "first scout", "scout", "north crew", ("scout@crew.example", "+15555550101"))
SUPERVISOR = Person(9, "supervisor", "supervisor", "north crew", ("lead@crew.example",))

VERDICTS = ("seen", "too_early", "too_weak", "thin", "fair", "strong", "not_looked", "too_late")
NAMES = (
    "Old Mill East",
    "9",
    "Cañada Ñandú São João nº 4",
    "The long strip behind the second windbreak past the old elevator by the creek bend, north of the county road",
)
NONE = Females(0, 0, 0, 0, 0)


def field(number: int = 1, name: str = "Old Mill East") -> Field:
    return Field(number, name, "north crew", latitude=42.0 + number / 50, longitude=-93.5 - number / 40, acres=78.0)


def recheck(purpose: Purpose = "catch_peak", *, first: int = 5, likely: int = 9, last: int = 14) -> Recheck:
    why = {
        "first_look": Fact("first_females", {"generation": 1, "likely": "2026-07-04"}),
        "catch_peak": Fact("peak_ahead", {"generation": 1, "likely": "2026-07-04"}),
        "settle_none": Fact("none_may_be_missed", {"generation": 1, "likely": "2026-07-04"}),
        "watch_resistance": Fact("resistance_next_peak", {"generation": 2, "likely": "2026-07-04"}),
        "next_generation": Fact("next_whites", {"generation": 2, "likely": "2026-07-04"}),
        "last_look": Fact("before_roots_decline", {"likely": "2026-09-01"}),
        "asked": Fact("asked", {"date": "2026-07-04"}),
    }[purpose]
    return Recheck(DAY + timedelta(days=first), DAY + timedelta(days=likely), DAY + timedelta(days=last), purpose, why)


def note(verdict: str = "seen") -> Note:
    if verdict == "seen":
        return Note(
            field="old mill e", plants=6, method="shovel", females=Females(12, 30, 4, 0, 46), outcome="seen", stage="R2"
        )
    if verdict == "not_looked":
        return Note(field="old mill e", outcome="not_looked", tops=("yellow",))
    return Note(field="old mill e", plants=4, method="pulled", females=NONE, outcome="none_seen")


def finding(verdict: str = "seen") -> Finding:
    if verdict == "seen":
        return Finding(
            "seen",
            detection=0.9,
            infested_before=0.5,
            infested_after=0.999,
            females_per_plant=Interval(4.4, 7.7, 13.2),
            cautions=(Fact("clean_boots_and_spade"), Fact("infested_last")),
        )
    return Finding(
        verdict,  # type: ignore[arg-type] # one of the model's verdicts
        detection=0.34,
        visible=0.2,
        infested_before=0.5,
        infested_after=0.41,
        plants_needed={80: 9, 90: 13, 95: 17},
        settle=(Fact("after_rain"), Fact("use_shovel")),
    )


def outlook(
    verdict: str = "seen",
    *,
    stage: Stage = "peak",
    generation: int | None = 1,
    purpose: Purpose | None = "catch_peak",
    with_mix: bool = False,
) -> Outlook:
    return Outlook(
        as_of=DAY,
        stage=stage,
        generation=generation,
        generation_probability=None if generation is None else 0.87,
        windows=windows(),
        infested_probability=0.999 if verdict == "seen" else 0.41,
        recheck=recheck(purpose) if purpose else None,
        no_recheck=None if purpose else Fact("roots_declined", {"likely": "2026-09-01"}),
        finding=finding(verdict),
        sure="fair",
        basis=(
            Fact("temperatures_normals", {"days": 50, "place": "Ames 8 WSW IA", "km": 38}),
            Fact("planted_known", {"date": "2026-05-12"}),
            Fact("visits_used", {"count": 1, "with_colours": 1, "none_seen": 0}),
            Fact("soil_model", {"error_c": 1.0}),
        ),
        mix=mix() if with_mix else (),
    )


def windows() -> tuple[Window, ...]:
    def window(event: str, generation: int | None, first: int, likely: int, last: int) -> Window:
        days = (DAY + timedelta(days=shift) for shift in (first, likely, last))
        return Window(event, generation, *days)  # type: ignore[arg-type] # an event of the model

    return (
        window("first_white", 1, -17, -14, -11),
        window("peak", 1, -3, 1, 6),
        window("turning_tan", 1, 5, 9, 14),
        window("next_white", 2, 14, 19, 25),
        window("last_look", None, 64, 71, 79),
    )


def mix(start: date = date(2026, 5, 12), days: int = 130) -> tuple[MixDay, ...]:
    """Three flushes of females, in the form an outlook gives them: shares of the season's highest day."""

    def flush(day: int, centre: int, width: int, height: float) -> float:
        return height * exp(-(((day - centre) / width) ** 2))

    rows = [
        (
            flush(day, 38, 6, 0.5) + flush(day, 66, 9, 0.6),
            flush(day, 45, 7, 0.6) + flush(day, 73, 9, 0.8),
            flush(day, 53, 8, 0.4) + flush(day, 82, 10, 0.6),
            flush(day, 64, 14, 0.3) + flush(day, 92, 16, 0.4),
        )
        for day in range(days)
    ]
    most = max(sum(row) for row in rows)
    return tuple(MixDay(start + timedelta(days=day), *(part / most for part in row)) for day, row in enumerate(rows))


def placed(
    verdict: str = "seen", *, number: int = 1, name: str = "Old Mill East", tops: tuple[str, ...] = ()
) -> Placed:
    told = note(verdict)
    return Placed(field(number, name), DAY, replace(told, tops=tops or told.tops))


def problem(text: str = "dug 6 12 purple", line: int = 2) -> Problem:
    return Problem(Where(line, 7, text), 'I know no colour "purple".', "dug 6: 12 white", "unknown_colour")


def remark() -> Problem:
    return Problem(Where(1, 20, "whte"), "read `whte` as white", "")


def held(*nearest: str, name: str | None = "old mll") -> Held:
    return Held(Note(field=name, plants=6, females=Females(12, 0, 0, 0, 12), outcome="seen"), nearest)


def season(number: int = 1) -> tuple[Visit, ...]:
    """A none, a count of white ones, a count at the peak."""
    return (
        Visit(1, number, date(2026, 6, 2), Note(plants=4, females=NONE, outcome="none_seen"), 1),
        Visit(2, number, date(2026, 6, 11), Note(plants=6, females=Females(17, 0, 0, 0, 17), outcome="seen"), 1),
        Visit(3, number, date(2026, 6, 23), Note(plants=6, females=Females(30, 80, 4, 0, 114), outcome="seen"), 1),
    )


def every_case() -> Iterator[tuple[str, Placed, Outlook]]:
    """Verdict by verdict, purpose by purpose, stage by stage, generation by generation, name by name."""
    for verdict in VERDICTS:
        yield verdict, placed(verdict), outlook(verdict)
    for purpose in get_args(Purpose):
        yield purpose, placed(), outlook(purpose=purpose)
    for stage in get_args(Stage):
        yield stage, placed(), outlook(stage=stage)
    for generation in (None, 1, 2, 3):
        yield f"generation {generation}", placed(), outlook(generation=generation)
    yield "no look", placed(), outlook(purpose=None)
    for name in NAMES:
        for verdict in ("seen", "too_weak"):
            yield f"{name[:12]} {verdict}", placed(verdict, name=name), outlook(verdict)
    yield from scenes()


def scenes() -> Iterator[tuple[str, Placed, Outlook]]:
    """Visits that ask for more than one plain sentence."""
    oval = SpotDensity("oval", Interval(42.0, 56.6, 76.0))
    good = SpotDensity("good beans", Interval(10.2, 14.6, 20.9))
    yield (
        "two places apart",
        Placed(field(2, "Old Mill East"), DAY, note()),
        _with(
            Finding(
                "seen",
                females_per_plant=Interval(20.0, 35.6, 60.0),
                spots=(oval, good),
                resistance=ResistanceWatch(
                    "slipping",
                    0.86,
                    Interval(10.2, 14.6, 20.9),
                    None,
                    (
                        Fact("above_alarm", {"per_root": 14.6, "alarm_low": 10, "alarm_high": 20}),
                        Fact("no_check_strip"),
                        Fact("sample_for_hg_type"),
                    ),
                ),
                cautions=(Fact("places_differ", {"most": "oval", "least": "good beans"}),),
            ),
            "watch_resistance",
        ),
    )
    strip = SpotDensity("check strip", Interval(44.0, 54.4, 67.0), check=True)
    yield (
        "resistance holding",
        Placed(field(3, "Larkspur South eighty"), DAY, note()),
        _with(
            Finding(
                "seen",
                females_per_plant=Interval(1.1, 1.8, 2.9),
                spots=(strip,),
                resistance=ResistanceWatch(
                    "holding",
                    0.93,
                    Interval(1.1, 1.8, 2.9),
                    Interval(1.9, 3.3, 5.6),
                    (
                        Fact("against_check", {"percent": 3.3, "low": 1.9, "high": 5.6}),
                        Fact("not_greenhouse_index"),
                        Fact("below_alarm", {"per_root": 1.8, "alarm_low": 10, "alarm_high": 20}),
                        Fact("chances", {"holding": 0.93, "watch": 0.06, "slipping": 0.01}),
                    ),
                ),
            ),
            "watch_resistance",
        ),
    )
    yield (
        "yellow tops, none seen",
        placed("too_early", number=4, name="Pothole Flat", tops=("interveinal_new", "ring")),
        _with(
            Finding(
                "too_early",
                detection=0.4,
                visible=0.1,
                infested_before=0.5,
                infested_after=0.49,
                look_alikes=(
                    LookAlike(
                        "iron", 0.82, ("new_leaves_yellow_veins_green", "wet_rim", "ph_above_7_3"), ("roots_white",)
                    ),
                    LookAlike("scn", 0.09),
                    LookAlike("nitrogen", 0.06),
                ),
                separating_check=Fact("soil_test_at_spot", {"first": "iron", "second": "scn"}),
                settle=(Fact("come_back_when_visible", {"chance_percent": 10}),),
            ),
            "settle_none",
        ),
    )
    yield (
        "both at once",
        placed("seen", number=5, name="Tinker's Field", tops=("edges_old",)),
        _with(
            Finding(
                "seen",
                females_per_plant=Interval(1.0, 1.8, 3.2),
                look_alikes=(
                    LookAlike("potassium", 0.88, ("old_edges_yellow", "spreader_strips", "k_low")),
                    LookAlike("scn", 0.1),
                ),
                both=("scn", "potassium"),
                separating_check=Fact("soil_and_leaf_k", {"first": "potassium", "second": "scn"}),
                cautions=(Fact("potash_no_cure"),),
            ),
            "catch_peak",
        ),
    )
    yield (
        "closed to entry",
        placed("thin", number=6, name="Sycamore Lane"),
        _with(
            Finding(
                "thin",
                detection=0.41,
                visible=0.7,
                infested_before=0.5,
                infested_after=0.42,
                prior_is_convention=True,
                plants_needed={90: 13},
                settle=(Fact("dig_more", {"plants": 7, "percent": 90, "places": 4}),),
                cautions=(Fact("entry_closed", {"until": datetime(2026, 6, 26, 13, tzinfo=UTC), "hours": 12.0}),),
            ),
            "settle_none",
        ),
    )

    for label, comparable, chance, reasons in (
        ("many more than last time", True, 0.98, ()),
        ("much the same as last time", True, 0.6, ()),
        ("not to be compared", False, 0.99, (Fact("other_method", {"then": "pulled", "now": "shovel"}),)),
    ):
        change = Change(DAY - timedelta(days=14), Interval(1.6, 2.7, 4.4), chance, comparable, reasons)
        yield label, placed(), _with(replace(finding("seen"), change=change), "catch_peak")
    for least in (6.2, 100.0):
        weak = replace(finding("too_weak"), overlooked=least)
        yield f"overlooks {least:g} a plant", placed("too_weak"), _with(weak, "settle_none")


def _with(found: Finding, purpose: Purpose) -> Outlook:
    seen = "seen" if found.verdict == "seen" else "thin"
    return replace(outlook(seen, purpose=purpose), finding=found)


def one(visit: Placed) -> Resolved:
    return Resolved(visits=(visit,))


def crew(count: int = 14, *, changed: int = 3, with_mix: int = 0) -> tuple[FieldToday, ...]:
    """A crew's fields on one day: some found, some not settled, some never looked at; always the same ones."""
    names = ["Old Mill East", "Larkspur South eighty", "Pothole Flat", "Tinker's Field", "Harrow Ridge 3", "Back Forty"]
    statuses = ("infested", "infested", "doubtful", "not_found", "unseen")
    verdicts = {"infested": "seen", "doubtful": "too_weak", "not_found": "strong", "unseen": "not_looked"}
    fields = []
    for number in range(1, count + 1):
        name = names[number - 1] if number <= len(names) else f"Section {number}"
        status = statuses[(number * 7) % 5]
        shift = (number * 5) % 30 - 4
        again = recheck("settle_none", first=shift, likely=shift + 2, last=shift + 6)
        seen = _replaced(outlook(verdicts[status], with_mix=number <= with_mix), again, has_visit=status != "unseen")
        last = None
        if status != "unseen":
            last = Visit(number, number, DAY - timedelta(days=number % 9 + 1), note(verdicts[status]), 1)
        fields.append(
            FieldToday(
                field(number, name),
                seen,
                last,
                last_by="first scout" if last else "",
                status=status,  # type: ignore[arg-type] # one of the model's
                overdue=number == 4,
                changed=number <= changed and last is not None,
                first_find=number == 1,
                window_closed=DAY - timedelta(days=3) if number == 4 else None,
                next_by="second scout",
                visits=(last,) if last else (),
            )
        )
    return tuple(fields)


def _replaced(seen: Outlook, again: Recheck, *, has_visit: bool) -> Outlook:
    return replace(seen, recheck=again, finding=seen.finding if has_visit else None)
