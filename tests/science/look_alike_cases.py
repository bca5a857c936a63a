"""Constructed cases: what a scout might write of each cause, invented, one or more a cause.

The words are those of field notes; the clue keys are what they should come to. `infested` is the chance the roots
gave: 0.5 not looked (convention), 0.15 a fair clean look, 0.45 a weak or early one, 0.995 females seen.
`expect`: the cause to be named first, or both.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Case:
    name: str
    text: str
    noted: tuple[str, ...]
    """Clues that the note language reads itself (stage, soil, spray, tops), beside those in the text."""
    infested: float
    expect: tuple[str, ...]


V3 = ("before_flower", "stage_v1_v3")
V5 = ("before_flower",)
R2 = ("after_flower",)
R5 = ("after_flower", "pods_filling")

CASES: tuple[Case, ...] = (
    Case(
        "oval at the gate, females",
        "oval patch by the gate, runs with rows, rows not closing",
        ("patch", "stunted", *R2),
        0.995,
        ("scn",),
    ),
    Case(
        "oval, roots not looked at",
        "stretched along the rows by the fence line, short yellow beans",
        ("patch", "stunted", "yellow", *R2),
        0.5,
        ("scn",),
    ),
    Case("early ripe end, females", "one end ripening a week early", ("early_ripe", *R5), 0.995, ("scn",)),
    Case(
        "ring round a pothole",
        "new lvs yel grn veins, rim of pothole, older leaves still green",
        ("wet_rim", "ph_above_7_3", *V3),
        0.45,
        ("iron",),
    ),
    Case(
        "carbonate on the soil test", "newest leaves yellow green veins, carbonate 6 %, EC 0.6", (*V3,), 0.5, ("iron",)
    ),
    Case(
        "iron over the nematode",
        "new leaves yellow green veins, soil test carbonate high",
        ("ph_above_7_3", *V3),
        0.995,
        ("scn", "iron"),
    ),
    Case("lower edges on a low test", "lower leaves edges yellow then brown", ("k_low", *R2), 0.15, ("potassium",)),
    Case("upper edges late", "upper leaf edges yellow, no rain for weeks, tissue k low", (*R5,), 0.15, ("potassium",)),
    Case(
        "potassium over the nematode",
        "lower leaves edges brown in spreader strips",
        ("k_low", *R2),
        0.995,
        ("scn", "potassium"),
    ),
    Case(
        "few nodules on new ground",
        "whole plant pale, 3 nodules, first soybeans here",
        ("nodules_few", *V5),
        0.15,
        ("nitrogen",),
    ),
    Case(
        "planter strips, few nodules",
        "planter width strips pale, hardly any nodules, not inoculated",
        ("nodules_few", *R2),
        0.15,
        ("nitrogen",),
    ),
    Case(
        "over-limed sand",
        "new leaves yellow green veins, overlimed, wheel tracks are greener",
        ("ph_above_6_2_light", "sandy", *V5),
        0.15,
        ("manganese",),
    ),
    Case(
        "leaf manganese 9 ppm",
        "new leaves yellow green veins, leaf mn low, faded and greening up after rain",
        ("ph_above_6_2_light", *R2),
        0.15,
        ("manganese",),
    ),
    Case(
        "rust between veins on a knoll",
        "rusty brown between veins on the eroded knoll, tissue zn low",
        (*V5,),
        0.15,
        ("zinc",),
    ),
    Case(
        "bands nine days after",
        "new leaves yellow in straight bands on end rows, nodules pink",
        ("straight_bands", "glyphosate_1_3_weeks", *V5),
        0.25,
        ("glyphosate_flash",),
    ),
    Case(
        "overlap, clean roots",
        "top leaves all yellow where passes overlap",
        ("glyphosate_1_3_weeks", "roots_white", *V5),
        0.25,
        ("glyphosate_flash",),
    ),
    Case(
        "speckles days after",
        "speckled and bronzed leaves, new growth clean",
        ("contact_spray_lately", *V5),
        0.4,
        ("ppo_burn",),
    ),
    Case(
        "red necks at emergence", "red brown hypocotyl, cold and wet", ("contact_spray_lately", *V3), 0.5, ("ppo_burn",)
    ),
    Case(
        "bottle brush roots",
        "new leaves yellow, red veins, bottle brush roots, short internodes",
        (*V5,),
        0.4,
        ("als_injury",),
    ),
    Case(
        "cupped, fading from one side",
        "cupped leaves, worst next to the neighbor, fading away from the fence",
        (*V5,),
        0.5,
        ("dicamba",),
    ),
    Case("bleached at the W", "bleached seedlings in a W shape from the gate", (*V3,), 0.5, ("carryover",)),
    Case(
        "atrazine year",
        "seedlings with lower leaf edges brown, new leaves clean, carryover? follows soil type",
        (*V3,),
        0.5,
        ("carryover",),
    ),
    Case("tyre marks", "pale rows in the wheel tracks, roots turn sideways", (*V5,), 0.2, ("compaction",)),
    Case(
        "drowned corner",
        "standing water 3 days, low spot pale all over, growing point soft",
        ("whole_leaf_pale", *V5),
        0.5,
        ("waterlogging",),
    ),
    Case(
        "flipped on the knoll",
        "leaves flipped at noon on the knoll, recovers overnight",
        ("wilted", "dry_spell", "sandy", *R2),
        0.3,
        ("drought",),
    ),
    Case(
        "chocolate stems",
        "wilted, chocolate brown stem from the soil line, low clay",
        ("wilted", "heavy_wet", *R2),
        0.3,
        ("phytophthora",),
    ),
    Case(
        "red sunken spot",
        "rust red sunken lesion at soil line, plants snapping at the base",
        (*V5,),
        0.3,
        ("rhizoctonia",),
    ),
    Case("seedlings gone", "seedlings rotted in cold wet ground", (*V3,), 0.5, ("pythium",)),
    Case(
        "dark taproot, clean stem",
        "brown taproot and laterals rotting, no stem lesion",
        ("stunted", *V5),
        0.3,
        ("fusarium",),
    ),
    Case(
        "leaflets off, stalks on",
        "brown between green veins, leaflets dropping, pith white, wood grey",
        ("patch", *R5),
        0.4,
        ("sds",),
    ),
    Case(
        "blue growth, females",
        "blotches between the green veins, blue fuzz on the root",
        ("patch", *R5),
        0.995,
        ("scn", "sds"),
    ),
    Case("brown pith", "brown pith, dead leaves hang on", (*R5,), 0.4, ("bsr",)),
    Case("brown pith, females", "brown pith at the lower nodes, dead leaves hanging", (*R5,), 0.995, ("scn", "bsr")),
    Case(
        "specks under the bark",
        "grey lower stem with black specks, hot and dry",
        ("wilted", *R5),
        0.4,
        ("charcoal_rot",),
    ),
    Case("sticky leaves", "aphids under the leaves, sooty mold", ("yellow", *R2), 0.3, ("aphid",)),
    Case(
        "webbing at the ditch", "stippling from the edges in, webbing, hot dry", ("yellow", *R2), 0.3, ("spider_mites",)
    ),
    Case("galls in sand", "galls that won't rub off", ("stunted", "yellow", "sandy", *R2), 0.3, ("root_knot",)),
    # the other two languages
    Case("hierro", "hojas nuevas amarillas con nervaduras verdes en el bajo", ("ph_above_7_3", *V3), 0.45, ("iron",)),
    Case("ferro", "folhas novas amarelas com nervuras verdes na baixada", ("ph_above_7_3", *V3), 0.45, ("iron",)),
    Case("potasio", "bordes amarillos en las hojas de abajo", ("k_low", *R2), 0.15, ("potassium",)),
    Case("potassio e nematoide", "bordas amarelas nas folhas de baixo", ("k_low", *R2), 0.995, ("scn", "potassium")),
    Case("faixas", "folhas novas amarelas em faixas retas", ("glyphosate_1_3_weeks", *V5), 0.25, ("glyphosate_flash",)),
)
