"""What a note says, as the science needs it: counts, plants, places, and the clues about the tops.

Pure. Nothing here weighs anything; `notes_bot.worth` does.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from datetime import date

from notes_bot.model import Females, Note, Soil, Spot, Visit
from notes_bot.science.clue_words import clues_in_text
from notes_bot.science.clues import CLUES
from notes_bot.science.detection import spread
from notes_bot.science.growth_stage import reproductive_stage, vegetative_node

# --- how many -------------------------------------------------------------------------------------------


SOME, SEVERAL, MANY = 2, 5, 20
"""Least number meant by females told without one, by "mostly yellow", and by "too many to count". Judgement."""


def females_seen(note: Note) -> int | None:
    """Females on all plants, a check strip's too; what is told without a number at its least. None: not looked."""
    if note.outcome == "not_looked":
        return None
    check = sum(spot_total(spot) or 0 for spot in note.spots if spot.check)
    main = note_total(note)
    if note.too_many:
        return max((main or 0) + check, MANY)
    if note.outcome == "seen" or note.mostly:
        return (main + check) or 1 if main is not None else check or (SEVERAL if note.mostly else SOME)
    if note.outcome == "none_seen":
        return check
    return None if main is None else main + check


def note_total(note: Note) -> int | None:
    """Females counted on all plants but a check strip's; None when none were counted."""
    total = _total(note.females, note.per_plant)
    if total is not None:
        return total
    totals = [spot_total(spot) for spot in note.spots if not spot.check]
    return sum(t or 0 for t in totals) if any(t is not None for t in totals) else None


def spot_total(spot: Spot) -> int | None:
    """Females counted at one place."""
    return _total(spot.females, spot.per_plant)


def _total(females: Females, per_plant: tuple[int, ...] | None) -> int | None:
    if females.total is not None:
        return females.total
    colours = females.by_colour()
    if colours is not None:
        return sum(colours)
    return sum(per_plant) if per_plant is not None else None


def spot_plants(spot: Spot) -> int | None:
    """Plants dug at one place."""
    return spot.plants if spot.plants is not None else len(spot.per_plant) if spot.per_plant is not None else None


def plants_dug(note: Note) -> int | None:
    """Plants of the note, a check strip's left out; None when it does not say."""
    if note.plants is not None:
        return note.plants
    if note.per_plant is not None:
        return len(note.per_plant)
    return sum(spot_plants(spot) or 0 for spot in note.spots if not spot.check) or None


def places(note: Note) -> tuple[tuple[str, int], ...]:
    """Plants by place. A note that does not say how many is taken as one plant, the least a look can be."""
    spots = [(spot.name, spot_plants(spot) or 0) for spot in note.spots if not spot.check]
    if spots and all(plants for _, plants in spots):
        return tuple(spots)
    plants = plants_dug(note)
    return spread(1 if plants is None else plants)


# --- what the tops, soil and sprays say ----------------------------------------------------------------------

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
_SPRAYS: tuple[tuple[str, re.Pattern[str], range], ...] = (
    ("glyphosate_1_3_weeks", re.compile(r"\bgly|\bgli(f|$|\b)"), range(5, 22)),
    ("glyphosate_over_3_weeks", re.compile(r"\bgly|\bgli(f|$|\b)"), range(22, 90)),
    (
        "contact_spray_lately",
        re.compile(r"\b(ppo|lactofen|acifluorfen|fomesafen|flumioxazin|sulfentrazone|saflufenacil)"),
        range(1, 31),
    ),
    (
        "als_spray_lately",
        re.compile(r"\b(als\b|imazethapyr|imazamox|cloransulam|chlorimuron|thifensulfuron)"),
        range(5, 41),
    ),
    ("dicamba_near", re.compile(r"\b(dicamba|2,?4-?d)\b"), range(3, 31)),
)
"""Clue, words for it, days after the spray on which it counts. Yellow flash: 7 to 21 days in one source, one to three
weeks in another (OhioHerbicide2023, LaBarge2011); two days' grace because a day is easily miscounted."""

_NO_TROUBLE = frozenset(
    {"older_leaves_green", "new_leaves_clean", "no_stem_band", "pith_white", "no_aphids", "slow_canopy"}
)
"""Leaf and stem clues that tell of no trouble by themselves."""
_TROUBLE = frozenset(
    {
        *("patch", "wet_rim", "straight_bands", "uneven", "spreader_strips", "planter_strips", "boom_shape"),
        *("fades_from_neighbour", "wheel_tracks", "tracks_greener", "water_stood", "nodules_few", "nodules_mushy"),
        *("bottle_brush", "sideways_roots", "root_rot", "seedling_rot", "galls", "blue_growth"),
    }
)
"""Clues of other groups that do tell of trouble."""

LOW_K_PPM, AMPLE_K_PPM = 130.0, 200.0
"""Soil-test potassium: low below the first, ample above the second. Critical levels differ by state (105 to 170 ppm);
these leave the disputed middle out (MichiganPotassium2018, PmnPotassium2017)."""

_GROUP = {clue.key: clue.group for clue in CLUES}


def clues(visits: Sequence[Visit]) -> frozenset[str]:
    """Clue keys that the last of `visits` names, with soil tests, texture and sprays of the earlier ones."""
    last = visits[-1]
    note = last.note
    texture = last_texture(visits)
    found = set(clues_in_text(note.text) | clues_in_text(note.where.text))
    found |= {_TOPS[word] for word in note.tops if word in _TOPS}
    found |= {_ROOTS[word] for word in note.roots if word in _ROOTS}
    found |= _soil_clues([visit.note.soil for visit in visits], texture)
    found |= _stage_clues(note.stage or "")
    found |= _spray_clues(visits)
    if note.soil.moisture == "dry":
        found.add("dry_spell")
    if note.soil.moisture == "wet" and texture is not None and "clay" in texture:
        found.add("heavy_wet")
    # what is said more exactly is not counted again in general words
    if "new_leaves_yellow_veins_green" in found:
        found.discard("new_leaves_all_yellow")
    if found & {"new_leaves_yellow_veins_green", "new_leaves_all_yellow", "old_edges_yellow", "whole_leaf_pale"}:
        found.discard("yellow")
    return frozenset(found)


def poor_looking(found: frozenset[str]) -> bool:
    """True when clues tell of beans that look wrong, so that a cause is asked for."""
    return any(
        clue in _TROUBLE or (_GROUP[clue] in ("leaf", "stem", "tissue", "pest") and clue not in _NO_TROUBLE)
        for clue in found
    )


def last_texture(visits: Sequence[Visit]) -> str | None:
    """The latest soil texture a note of the season named."""
    return next((v.note.soil.texture for v in reversed(visits) if v.note.soil.texture), None)


def days_since_spray(visit: Visit, on: date) -> int | None:
    """Days from the spray that the note of `visit` tells of to the day `on`; None when it tells of no day."""
    spray = visit.note.spray
    if spray is None:
        return None
    if spray.date is not None:
        return (on - spray.date).days
    return None if spray.days_ago is None else (on - visit.on).days + spray.days_ago


def _soil_clues(soils: Sequence[Soil], texture: str | None) -> set[str]:
    found: set[str] = set()
    ph = next((s.ph for s in reversed(soils) if s.ph is not None), None)
    k_ppm = next((s.k_ppm for s in reversed(soils) if s.k_ppm is not None), None)
    light = texture is not None and "sand" in texture and "clay" not in texture
    if light:
        found.add("sandy")
    if ph is not None:
        if ph > 7.3:
            found.add("ph_above_7_3")
        if ph < 7.0:
            found.add("ph_below_7")
        if ph < 5.5 or ph > 8.0:
            found.add("ph_extreme")
        if ph < 5.8:
            found.add("ph_below_5_8")
        if ph > 6.2 and (light or texture == "muck"):
            found.add("ph_above_6_2_light")
    if k_ppm is not None and k_ppm < LOW_K_PPM:
        found.add("k_low")
    if k_ppm is not None and k_ppm > AMPLE_K_PPM:
        found.add("k_ample")
    return found


def _stage_clues(stage: str) -> set[str]:
    node, reproductive = vegetative_node(stage), reproductive_stage(stage)
    if node is not None:
        return {"before_flower", "stage_v1_v3"} if node <= 3 else {"before_flower"}
    if reproductive is None:
        return set()
    return {"after_flower", "pods_filling"} if reproductive >= 3.5 else {"after_flower"}


def _spray_clues(visits: Sequence[Visit]) -> set[str]:
    found = set()
    for visit in visits:
        days, spray = days_since_spray(visit, visits[-1].on), visit.note.spray
        if spray is None or spray.what is None or days is None:
            continue
        found |= {clue for clue, words, when in _SPRAYS if days in when and words.search(spray.what.lower())}
    return found
