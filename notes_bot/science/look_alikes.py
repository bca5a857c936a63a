"""What else it could be: a ranked list of causes from clues, with "both" as an answer of its own.

A hypothesis is a pair: is the nematode there (yes, no), and which one other cause is at work (or none, or something
not on the list). The chance of the nematode before the tops are looked at is the chance of infestation that the
roots gave (`notes_bot.science.detection`), so females, and good or poor clean looks, enter exactly once. Causes
linked with the nematode are likelier where it is; that it can spoil beans on its own makes it likelier under poor
beans.

Given a hypothesis, clues are combined as a noisy OR: a clue shows unless no cause at work, nor the background,
brings it; a clue against a cause makes it rarer unless another cause at work brings it. Clues of one group (leaf,
pattern, soil ...) come together, so the strongest of a group counts in full, the second by the power 1/sqrt(2), the
third 1/sqrt(3). A clue that was not noted is left out: missing evidence is not evidence against. Weights are rows in
`notes_bot.science.clues`; docs/science/look_alikes.md explains.
"""

from __future__ import annotations

import math
from collections.abc import Collection, Mapping
from dataclasses import dataclass

from notes_bot.science.clues import CAUSES, CLUES, LINKS, STRENGTH

SCN = "scn"
SCN_ALONE = 120.0
"""Weight of "the nematode and no other cause", where it is present, beside the commonness of the others (which sum to
about the same: before any clue, poor beans with females on them have another trouble as well every second time).
Judgement."""
UNLISTED = 40.0
"""Weight of "something else, or nothing", where it is not. Judgement."""
TOPS_PROVE, TOPS_CLEAR = 4.0, 3.0
"""All clues but the roots' together make the nematode at most so many times likelier, or less likely: only a body on a
root or a soil test confirms it, and a green canopy does not clear it (IowaStateSymptoms). Sizes are judgement."""
MOST_LIKELY = 0.95
"""No clue is surer than this under any cause."""

_BY_KEY = {clue.key: clue for clue in CLUES}
_CAUSE = {cause.key: cause for cause in CAUSES}
_LINKS = {(link.cause, link.clue): link for link in LINKS}


@dataclass(frozen=True, slots=True)
class Weighed:
    """Chances after the clues: of the nematode, of each other cause at work, and of each of these with it."""

    scn: float
    other: Mapping[str, float]
    """Cause -> chance [0-1]; with "none" and "unlisted" they sum to 1."""
    together: Mapping[str, float]
    """Cause -> chance [0-1] that it is at work and the nematode is present."""
    nothing_else: float
    """Chance that no listed cause but the nematode is at work."""

    def ranked(self) -> list[tuple[str, float]]:
        """All causes, the nematode among them, likeliest first."""
        chances = {SCN: self.scn, **self.other}
        return sorted(chances.items(), key=lambda item: (-item[1], item[0]))


def clue_ratio(clue: str, causes: Collection[str]) -> float:
    """How many times likelier `clue` is with `causes` at work than on poor beans of no particular cause.

    Noisy OR of the causes it speaks for. When it speaks for none of them, those it speaks against make it rarer; a
    clue that one cause brings is not held against another beside it. Raises KeyError for an unknown clue.
    """
    common = _BY_KEY[clue].common
    links = [link for cause in causes if (link := _LINKS.get((cause, clue)))]
    brought = [STRENGTH[link.weight] for link in links if link.direction == "for"]
    if brought:
        absent = math.prod((1.0 - min(common * size, MOST_LIKELY)) / (1.0 - common) for size in brought)
        return (1.0 - (1.0 - common) * absent) / common
    return min((1.0 / STRENGTH[link.weight] for link in links), default=1.0)


def weigh_causes(clues: Collection[str], infested: float) -> Weighed:
    """Chance of each cause given the clues noted and the chance of infestation [0-1] that the roots gave."""
    power_of = powers(clues)
    infested = min(max(infested, 0.001), 0.999)

    def log_ratio(*at_work: str) -> float:
        return sum(power * math.log(clue_ratio(clue, at_work)) for clue, power in power_of.items())

    weights: dict[tuple[bool, str], float] = {}
    for other in ("", *(cause.key for cause in CAUSES if cause.key != SCN)):
        without = log_ratio(other) if other else 0.0
        # tops alone neither prove nor clear the nematode, however many clues they pile up
        gain = (log_ratio(SCN, other) if other else log_ratio(SCN)) - without
        gain = min(max(gain, -math.log(TOPS_CLEAR)), math.log(TOPS_PROVE))
        common = _CAUSE[other].commonness if other else 1.0
        weights[False, other] = (1.0 - infested) * (common if other else UNLISTED) * math.exp(without)
        linked = common * _CAUSE[other].with_scn if other else SCN_ALONE
        weights[True, other] = infested * linked * math.exp(without + gain)
    whole = sum(weights.values())
    chances = {key: weight / whole for key, weight in weights.items()}
    return Weighed(
        scn=sum(chance for (present, _), chance in chances.items() if present),
        other={key: chances[True, key] + chances[False, key] for present, key in chances if present and key},
        together={key: chances[True, key] for present, key in chances if present and key},
        nothing_else=chances[True, ""] + chances[False, ""],
    )


def evidence(cause: str, clues: Collection[str]) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Which of `clues` speak for `cause` and which against, strongest first."""
    found = [link for clue in clues if (link := _LINKS.get((cause, clue)))]
    found.sort(key=lambda link: (-STRENGTH[link.weight], link.clue))
    return (
        tuple(link.clue for link in found if link.direction == "for"),
        tuple(link.clue for link in found if link.direction == "against"),
    )


def powers(clues: Collection[str]) -> dict[str, float]:
    """Power of each clue: falls with its place among those of its group, the most telling first."""
    out: dict[str, float] = {}
    groups: dict[str, list[str]] = {}
    for clue in sorted(set(clues)):
        groups.setdefault(_BY_KEY[clue].group, []).append(clue)
    for members in groups.values():
        members.sort(key=lambda clue: (-_telling(clue), clue))
        out |= {clue: 1.0 / math.sqrt(place) for place, clue in enumerate(members, start=1)}
    return out


def _telling(clue: str) -> float:
    return max((abs(math.log(clue_ratio(clue, [cause.key]))) for cause in CAUSES), default=0.0)


# --- the one check that would separate two causes ------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Check:
    """Something to do that comes out differently under different causes. ``effort``: 1 a look, 5 a laboratory."""

    key: str
    tells: tuple[str, ...]
    """Causes it confirms or rules out."""
    effort: int
    yields: tuple[str, ...] = ()
    """Clues it would bring: when one is already noted the check has been made."""
    apart: tuple[str, ...] = ()
    """Causes whose outcomes differ from each other as well."""
    source: str = "judgement"


CHECKS: tuple[Check, ...] = (
    Check(
        "look_under_leaves",
        ("aphid", "spider_mites"),
        1,
        ("aphids", "no_aphids"),
        ("aphid", "spider_mites"),
        "NDSUAphid2020",
    ),
    Check("tap_on_paper", ("spider_mites",), 1, ("mites",), (), "Hodgson2021"),
    Check("rub_swellings", ("root_knot",), 1, ("galls",), (), "CpnRootKnot2021"),
    Check(
        "split_stem",
        ("sds", "bsr"),
        1,
        ("pith_brown", "pith_white", "pith_white_wood_grey"),
        ("sds", "bsr"),
        "IllinoisBsr2016",
    ),
    Check(
        "look_at_stem_base",
        ("phytophthora", "rhizoctonia", "charcoal_rot", "fusarium", "pythium"),
        1,
        ("chocolate_stem", "red_sunken_spot", "grey_black_specks"),
        ("phytophthora", "rhizoctonia", "charcoal_rot", "fusarium", "pythium"),
        "NDSUPhytophthora",
    ),
    Check("cut_nodules", ("nitrogen",), 1, ("nodules_few", "nodules_fine", "nodules_mushy"), (), "MichiganNodulation"),
    Check(
        "wait_for_new_leaves",
        ("glyphosate_flash", "ppo_burn"),
        1,
        ("new_leaves_clean", "glyphosate_over_3_weeks"),
        (),
        "OhioHerbicide2023",
    ),
    Check("where_water_stood", ("waterlogging",), 1, ("water_stood",), (), "KansasWater2024"),
    Check(
        "spray_record",
        ("als_injury", "dicamba", "carryover", "ppo_burn", "glyphosate_flash"),
        2,
        (
            "glyphosate_1_3_weeks",
            "contact_spray_lately",
            "als_spray_lately",
            "dicamba_near",
            "no_spray_lately",
            "glyphosate_over_3_weeks",
        ),
        ("als_injury", "dicamba", "carryover", "ppo_burn", "glyphosate_flash"),
        "HartzlerAnderson2020",
    ),
    Check(
        "ask_field_history", ("carryover", "nitrogen"), 2, ("old_residue", "first_soybeans"), ("carryover", "nitrogen")
    ),
    Check("spade_root_shape", ("compaction",), 2, ("sideways_roots",), (), "NCStateCompaction2020"),
    Check("look_at_dawn", ("drought",), 2, ("fine_at_dawn",), (), "judgement"),
    Check("dig_in_and_out", ("scn",), 3, (), (), "DelawareScn"),
    Check("soil_test_at_spot", ("iron",), 4, ("ph_above_7_3", "ph_below_7", "carbonate_or_salt"), (), "AgviseIron"),
    Check("soil_and_leaf_k", ("potassium",), 4, ("k_low", "k_ample", "leaf_k_low"), (), "MichiganPotassium2018"),
    Check("leaf_test", ("manganese", "zinc"), 5, ("leaf_mn_low", "leaf_zn_low"), ("manganese", "zinc"), "OMAFRA2025"),
)


def cheapest_check(first: str, second: str, clues: Collection[str]) -> Check | None:
    """The least work that would come out differently under `first` and `second` and has not been done, or None."""
    for check in sorted(CHECKS, key=lambda c: c.effort):
        tells_one = (first in check.tells) != (second in check.tells)
        tells_apart = first in check.apart and second in check.apart
        if (tells_one or tells_apart) and not any(clue in clues for clue in check.yields):
            return check
    return None
