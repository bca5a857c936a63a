"""What speaks for and against each cause of yellow or stunted soybeans, as rows of data.

Three tables and nothing else: the causes with how often they are the reason for a call, the clues a note can
hold, and the links between them with a weight, a source key (docs/references.md) and how far the source was
read. No published likelihood ratios exist for any of these links: directions come from the sources, the sizes
(`STRENGTH`) are judgement. How they are combined is in `notes_bot.science.look_alikes`.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Group = Literal["leaf", "pattern", "timing", "spray", "soil", "root", "stem", "tissue", "pest"]
Weight = Literal["sign", "high", "medium", "low"]
Direction = Literal["for", "against"]
Verified = Literal["full text", "part", "second-hand", "abstract", "memory", "judgement"]

JUDGEMENT = "judgement"
"""Source key of a row that rests on nobody's print."""

STRENGTH: dict[Weight, float] = {"sign": 100.0, "high": 8.0, "medium": 3.5, "low": 1.8}
"""How many times likelier a clue is under its cause than without it (one over it, for "against"). A "sign" is the thing
itself or nearly so: the insect, the gall, the rotted stem that gives a disease its name. Nothing counts more than a
sign. Judgement."""


@dataclass(frozen=True, slots=True)
class Cause:
    """One thing that makes beans yellow, short or sick.

    ``commonness`` is the weight of this cause among calls about poor-looking beans before any clue is known
    (judgement; only ratios matter; none for the nematode, whose chance comes from the roots). ``with_scn`` is how
    many times likelier the cause is where soybean cyst nematode is present than where it is not (1 = no link
    known): that there is a link is the source's, the size is judgement.
    """

    key: str
    words: str
    commonness: float
    with_scn: float = 1.0
    source: str = JUDGEMENT
    verified: Verified = "judgement"


@dataclass(frozen=True, slots=True)
class Clue:
    """One thing that can be seen, measured or looked up. ``common`` is the chance to see it on poor-looking beans
    of no particular cause (judgement); clues of one ``group`` tend to come together and count less each."""

    key: str
    group: Group
    common: float
    words: str


@dataclass(frozen=True, slots=True)
class Link:
    """A clue speaks for or against a cause."""

    cause: str
    clue: str
    direction: Direction
    weight: Weight
    source: str
    verified: Verified


CAUSES: tuple[Cause, ...] = (
    Cause("scn", "soybean cyst nematode", 0.0),
    Cause("iron", "iron chlorosis", 12, 1.5, "Pedersen2010", "abstract"),
    Cause("potassium", "potassium shortage", 12, 1.5, "Smith2001", "abstract"),
    Cause("nitrogen", "nitrogen shortage or poor nodulation", 10, 1.3, "IowaStateSymptoms", "part"),
    Cause("manganese", "manganese shortage", 5),
    Cause("zinc", "zinc shortage", 1, 1.0, "OMAFRA2025", "full text"),
    Cause("glyphosate_flash", "yellow flash after glyphosate", 6),
    Cause("ppo_burn", "contact herbicide burn (PPO type)", 5),
    Cause("als_injury", "ALS herbicide injury", 3),
    Cause("dicamba", "dicamba or a like growth regulator", 5),
    Cause("carryover", "herbicide carryover or a dirty tank", 4),
    Cause("compaction", "compaction", 7, 1.2),
    Cause("waterlogging", "standing water", 7, 1.0, "Slack1972", "abstract"),
    Cause("drought", "drought", 8, 1.5, "SoybeanDigestScn2013", "second-hand"),
    Cause("phytophthora", "Phytophthora root and stem rot", 5),
    Cause("rhizoctonia", "Rhizoctonia root rot", 3, 1.3, "NebraskaRhizoctonia", "part"),
    Cause("pythium", "Pythium seedling rot", 2),
    Cause("fusarium", "Fusarium root rot", 3, 1.2),
    Cause("sds", "sudden death syndrome", 6, 2.0, "Westphal2014", "abstract"),
    Cause("bsr", "brown stem rot", 3, 1.8, "Tabor2003", "abstract"),
    Cause("charcoal_rot", "charcoal rot", 3, 1.4, "Todd1987", "abstract"),
    Cause("aphid", "soybean aphid", 4),
    Cause("spider_mites", "spider mites", 4),
    Cause("root_knot", "root-knot nematode", 3, 1.2),
)

CLUES: tuple[Clue, ...] = (
    # leaves
    Clue("new_leaves_yellow_veins_green", "leaf", 0.10, "newest leaves yellow between green veins"),
    Clue("old_edges_yellow", "leaf", 0.08, "edges of the lower leaves yellow, then brown"),
    Clue("upper_edges_yellow", "leaf", 0.05, "edges of upper leaves yellow late in the season"),
    Clue("whole_leaf_pale", "leaf", 0.10, "whole leaves pale, veins too, lower ones worst"),
    Clue("new_leaves_all_yellow", "leaf", 0.06, "newest leaves evenly yellow"),
    Clue("older_leaves_green", "leaf", 0.20, "older leaves still green"),
    Clue("speckled_bronze", "leaf", 0.05, "speckles, burn or bronze on leaves"),
    Clue("new_leaves_clean", "leaf", 0.15, "leaves grown since the spray are clean"),
    Clue("red_veins", "leaf", 0.02, "reddish veins under the leaf"),
    Clue("cupped", "leaf", 0.0095, "newest leaves cupped"),
    Clue("bleached_seedlings", "leaf", 0.0095, "seedlings bleached white"),
    Clue("rusty_between_veins", "leaf", 0.03, "rusty brown between green veins"),
    Clue("blotches_veins_green_late", "leaf", 0.05, "yellow then brown between green veins, upper leaves, pods set"),
    Clue("leaflets_drop", "leaf", 0.03, "leaflets drop, stalks stay"),
    Clue("dead_leaves_hang", "leaf", 0.06, "dead leaves hang on"),
    Clue("leaves_flip", "leaf", 0.06, "leaves flip or fold at midday"),
    Clue("stippled", "leaf", 0.04, "fine pale dots, lower leaves first"),
    Clue("yellow", "leaf", 0.60, "yellow, no more said"),
    Clue("stunted", "leaf", 0.35, "short plants"),
    Clue("wilted", "leaf", 0.12, "wilted"),
    Clue("early_ripe", "leaf", 0.08, "ripens early"),
    # shape in the field
    Clue("patch", "pattern", 0.25, "round or oval patch"),
    Clue("along_rows", "pattern", 0.12, "patch stretched along the rows"),
    Clue("entrance_or_fence", "pattern", 0.12, "worst by the entrance or a fence line"),
    Clue("uneven", "pattern", 0.35, "uneven along the row"),
    Clue("wet_rim", "pattern", 0.08, "ring or rim of a wet spot"),
    Clue("low_spot", "pattern", 0.15, "low or wet ground"),
    Clue("straight_bands", "pattern", 0.08, "straight bands, overlaps, end rows"),
    Clue("wheel_tracks", "pattern", 0.08, "follows wheel tracks or turning rows"),
    Clue("tracks_greener", "pattern", 0.03, "wheel tracks greener than loose ground"),
    Clue("spreader_strips", "pattern", 0.03, "strips as wide as the spreader"),
    Clue("planter_strips", "pattern", 0.03, "strips as wide as the planter or drill"),
    Clue("whole_field_even", "pattern", 0.12, "whole field evenly"),
    Clue("high_ground", "pattern", 0.10, "knolls and light ground first"),
    Clue("field_edges", "pattern", 0.08, "from the field edges inward"),
    Clue("fades_from_neighbour", "pattern", 0.03, "strongest on one side and fading"),
    Clue("boom_shape", "pattern", 0.02, "W, M or V shape from the entrance"),
    Clue("soil_type_shape", "pattern", 0.06, "shape follows the soil type"),
    Clue("slow_canopy", "pattern", 0.12, "rows slow to close"),
    # stage and weather
    Clue("stage_v1_v3", "timing", 0.20, "first to third trifoliate"),
    Clue("before_flower", "timing", 0.45, "before flowering"),
    Clue("after_flower", "timing", 0.45, "in flower or later"),
    Clue("pods_filling", "timing", 0.25, "pods filling"),
    Clue("dry_spell", "timing", 0.25, "dry spell"),
    Clue("hot_dry", "timing", 0.12, "hot and dry"),
    Clue("soaking_rain", "timing", 0.15, "long wet spell"),
    Clue("water_stood", "timing", 0.08, "water stood for two days or more"),
    Clue("cool_wet_start", "timing", 0.10, "cool wet soil after planting"),
    Clue("greens_after_rain", "timing", 0.08, "greens after rain"),
    Clue("fine_at_dawn", "timing", 0.05, "looks fine at dawn"),
    Clue("growing_out", "timing", 0.10, "growing out of it"),
    # spray record
    Clue("glyphosate_1_3_weeks", "spray", 0.08, "glyphosate one to three weeks ago"),
    Clue("glyphosate_over_3_weeks", "spray", 0.15, "glyphosate more than three weeks ago"),
    Clue("no_spray_lately", "spray", 0.15, "nothing sprayed lately"),
    Clue("contact_spray_lately", "spray", 0.04, "a burning contact herbicide in the last weeks"),
    Clue("als_spray_lately", "spray", 0.03, "an ALS herbicide in the last weeks"),
    Clue("dicamba_near", "spray", 0.05, "dicamba or 2,4-D used here or nearby"),
    Clue("old_residue", "spray", 0.04, "last year's herbicide, dry year"),
    # soil
    Clue("ph_above_7_3", "soil", 0.20, "soil pH above 7.3"),
    Clue("ph_below_7", "soil", 0.50, "soil pH below 7"),
    Clue("ph_extreme", "soil", 0.08, "soil pH below 5.5 or above 8"),
    Clue("ph_above_6_2_light", "soil", 0.10, "pH above 6.2 on sand or muck"),
    Clue("ph_below_5_8", "soil", 0.12, "soil pH below 5.8"),
    Clue("carbonate_or_salt", "soil", 0.08, "carbonate or salts in the soil test"),
    Clue("overlimed", "soil", 0.03, "limed too heavily"),
    Clue("k_low", "soil", 0.12, "soil potassium low"),
    Clue("k_ample", "soil", 0.30, "soil potassium ample"),
    Clue("sandy", "soil", 0.20, "light or sandy soil"),
    Clue("heavy_wet", "soil", 0.12, "wet heavy ground"),
    Clue("first_soybeans", "soil", 0.05, "first soybeans here, or no inoculant"),
    Clue("nitrogen_left", "soil", 0.05, "much nitrogen left, manure or alfalfa before"),
    Clue("low_k_patch", "soil", 0.06, "only where soil potassium is low"),
    # roots
    Clue("nodules_few", "root", 0.12, "few nodules"),
    Clue("nodules_fine", "root", 0.30, "plenty of nodules, pink inside"),
    Clue("nodules_mushy", "root", 0.03, "nodules brown and soft"),
    Clue("roots_dark_short", "root", 0.12, "roots short or dark"),
    Clue("roots_white", "root", 0.30, "roots white and clean"),
    Clue("bottle_brush", "root", 0.0095, "short bottle-brush roots"),
    Clue("sideways_roots", "root", 0.04, "roots bent sideways or kept in the slot"),
    Clue("root_rot", "root", 0.0095, "brown to black rot on the lower roots"),
    Clue("seedling_rot", "root", 0.0095, "seedlings rotted"),
    Clue("galls", "root", 0.0095, "swellings that do not rub off"),
    Clue("blue_growth", "root", 0.0095, "blue growth on wet roots"),
    # stems
    Clue("chocolate_stem", "stem", 0.0095, "dark brown band up from the soil line"),
    Clue("no_stem_band", "stem", 0.30, "no band on the stem"),
    Clue("red_sunken_spot", "stem", 0.0095, "rust-red sunken spot below the soil line"),
    Clue("snaps_off", "stem", 0.03, "plants snap at the base"),
    Clue("pith_white", "stem", 0.10, "split stem: pith white"),
    Clue("pith_white_wood_grey", "stem", 0.0095, "split stem: white pith, grey-brown wood"),
    Clue("pith_brown", "stem", 0.0095, "split stem: pith brown"),
    Clue("grey_black_specks", "stem", 0.0095, "grey lower stem with black specks"),
    Clue("soft_growing_point", "stem", 0.02, "growing point soft and dark"),
    Clue("red_neck", "stem", 0.02, "red-brown seedling neck"),
    Clue("short_joints", "stem", 0.06, "short joints"),
    # leaf tests
    Clue("leaf_k_low", "tissue", 0.08, "leaf test: potassium low"),
    Clue("leaf_mn_low", "tissue", 0.0095, "leaf test: manganese low"),
    Clue("leaf_zn_low", "tissue", 0.0095, "leaf test: zinc low"),
    # insects and mites
    Clue("aphids", "pest", 0.0095, "aphids, honeydew or black mould"),
    Clue("no_aphids", "pest", 0.40, "no aphids"),
    Clue("mites", "pest", 0.0095, "webbing, or specks that move on white paper"),
)

ROOT_EVIDENCE: dict[str, str] = {
    "females_seen": "females or cysts seen on the roots",
    "none_seen_good_look": "none seen by a look that should have shown them",
    "none_seen_weak_look": "none seen, but the look was too weak to say",
    "none_seen_too_early": "none seen, too early or too late for females to show",
    "found_earlier": "the nematode was found in this field before",
}
"""Evidence about the nematode itself. It enters through the chance of infestation, not through a link."""


def _rows(source: str, verified: Verified, *rows: tuple[str, str, Direction, Weight]) -> list[Link]:
    return [Link(cause, clue, direction, weight, source, verified) for cause, clue, direction, weight in rows]


LINKS: tuple[Link, ...] = (
    # soybean cyst nematode: tops only, the roots speak through detection
    *_rows("Pm879", "part", ("scn", "patch", "for", "medium"), ("scn", "slow_canopy", "for", "low")),
    *_rows("Gavassoni2001", "abstract", ("scn", "along_rows", "for", "medium")),
    *_rows(
        "Brownfield2020", "second-hand", ("scn", "entrance_or_fence", "for", "low"), ("scn", "low_spot", "for", "low")
    ),
    *_rows(
        "IowaStateSymptoms",
        "part",
        ("scn", "early_ripe", "for", "low"),
        ("scn", "nodules_few", "for", "low"),
        ("scn", "roots_dark_short", "for", "medium"),
        ("scn", "old_edges_yellow", "for", "low"),
        ("scn", "stunted", "for", "low"),
        ("scn", "yellow", "for", "low"),
    ),
    *_rows("ToddPearson1988", "abstract", ("scn", "sandy", "for", "low")),
    *_rows("Pedersen2010", "abstract", ("scn", "ph_above_7_3", "for", "low")),
    *_rows("SoybeanDigestScn2013", "second-hand", ("scn", "hot_dry", "for", "low"), ("scn", "dry_spell", "for", "low")),
    *_rows(
        JUDGEMENT,
        "judgement",
        ("scn", "whole_field_even", "against", "low"),
        ("scn", "uneven", "for", "low"),
        ("scn", "straight_bands", "against", "low"),
        ("scn", "boom_shape", "against", "low"),
    ),
    # iron chlorosis
    *_rows(
        "AndersonMallarino2021",
        "part",
        ("iron", "new_leaves_yellow_veins_green", "for", "high"),
        ("iron", "ph_above_7_3", "for", "medium"),
    ),
    *_rows("NcsrpIron", "full text", ("iron", "older_leaves_green", "for", "medium")),
    *_rows(
        "AgviseIron",
        "part",
        ("iron", "stage_v1_v3", "for", "medium"),
        ("iron", "carbonate_or_salt", "for", "high"),
        ("iron", "wet_rim", "for", "medium"),
        ("iron", "low_spot", "for", "low"),
    ),
    *_rows("DakotaFarmer2016", "second-hand", ("iron", "growing_out", "for", "medium")),
    *_rows(
        JUDGEMENT,
        "judgement",
        ("iron", "ph_below_7", "against", "high"),
        ("iron", "pods_filling", "against", "medium"),
    ),
    *_rows("memory", "memory", ("iron", "tracks_greener", "for", "low")),
    # potassium
    *_rows(
        "OhioKnox2018",
        "full text",
        ("potassium", "old_edges_yellow", "for", "high"),
        ("potassium", "dry_spell", "for", "low"),
    ),
    *_rows("Mallarino2018", "part", ("potassium", "upper_edges_yellow", "for", "high")),
    *_rows("MichiganPotassium2018", "part", ("potassium", "k_low", "for", "high")),
    *_rows("OMAFRA2025", "full text", ("potassium", "leaf_k_low", "for", "high")),
    *_rows("KentuckyTraffic", "full text", ("potassium", "wheel_tracks", "for", "medium")),
    *_rows(
        JUDGEMENT,
        "judgement",
        ("potassium", "k_ample", "against", "medium"),
        ("potassium", "spreader_strips", "for", "medium"),
        ("potassium", "low_k_patch", "for", "medium"),
        ("potassium", "sandy", "for", "low"),
    ),
    # nitrogen
    *_rows("OMAFRA2025", "full text", ("nitrogen", "whole_leaf_pale", "for", "high")),
    *_rows(
        "MichiganNodulation",
        "part",
        ("nitrogen", "nodules_few", "for", "high"),
        ("nitrogen", "first_soybeans", "for", "high"),
    ),
    *_rows("ManitobaNodulation2019", "part", ("nitrogen", "nodules_fine", "against", "high")),
    *_rows(
        "Staton2013",
        "full text",
        ("nitrogen", "ph_extreme", "for", "medium"),
        ("nitrogen", "nitrogen_left", "for", "medium"),
    ),
    *_rows("IllinoisPale", "part", ("nitrogen", "growing_out", "for", "low")),
    *_rows("MichiganSoybean2023", "part", ("nitrogen", "nodules_mushy", "for", "medium")),
    *_rows(
        JUDGEMENT,
        "judgement",
        ("nitrogen", "planter_strips", "for", "medium"),
        ("nitrogen", "whole_field_even", "for", "medium"),
    ),
    # manganese
    *_rows("Bayer2020", "part", ("manganese", "new_leaves_yellow_veins_green", "for", "medium")),
    *_rows(
        "DelawareManganese",
        "part",
        ("manganese", "ph_above_6_2_light", "for", "medium"),
        ("manganese", "overlimed", "for", "high"),
        ("manganese", "tracks_greener", "for", "high"),
    ),
    *_rows("Vyn2009", "second-hand", ("manganese", "greens_after_rain", "for", "medium")),
    *_rows("OMAFRA2025", "full text", ("manganese", "leaf_mn_low", "for", "sign")),
    *_rows("Goshen2021", "part", ("manganese", "ph_below_5_8", "against", "medium")),
    # zinc
    *_rows(
        "OMAFRA2025",
        "full text",
        ("zinc", "rusty_between_veins", "for", "high"),
        ("zinc", "high_ground", "for", "low"),
        ("zinc", "leaf_zn_low", "for", "sign"),
    ),
    # spray effects
    *_rows(
        "OhioHerbicide2023",
        "part",
        ("glyphosate_flash", "glyphosate_1_3_weeks", "for", "high"),
        ("glyphosate_flash", "glyphosate_over_3_weeks", "against", "medium"),
        ("glyphosate_flash", "growing_out", "for", "low"),
        ("ppo_burn", "speckled_bronze", "for", "high"),
        ("ppo_burn", "contact_spray_lately", "for", "high"),
        ("scn", "glyphosate_1_3_weeks", "against", "low"),
    ),
    *_rows("LaBarge2011", "full text", ("glyphosate_flash", "straight_bands", "for", "high")),
    *_rows(
        JUDGEMENT,
        "judgement",
        ("glyphosate_flash", "new_leaves_all_yellow", "for", "high"),
        ("glyphosate_flash", "no_spray_lately", "against", "high"),
        ("glyphosate_flash", "roots_white", "for", "low"),
        ("glyphosate_flash", "nodules_fine", "for", "low"),
        ("ppo_burn", "no_spray_lately", "against", "high"),
        ("als_injury", "no_spray_lately", "against", "low"),
        ("dicamba", "dicamba_near", "for", "high"),
        ("als_injury", "als_spray_lately", "for", "high"),
        ("ppo_burn", "straight_bands", "for", "low"),
        ("als_injury", "straight_bands", "for", "medium"),
        ("carryover", "straight_bands", "for", "medium"),
    ),
    *_rows(
        "SouthDakotaBurnt2025",
        "part",
        ("ppo_burn", "new_leaves_clean", "for", "high"),
        ("ppo_burn", "growing_out", "for", "medium"),
    ),
    *_rows("NebraskaPpo2017", "part", ("ppo_burn", "red_neck", "for", "high")),
    *_rows(
        "CpnAls2023",
        "full text",
        ("als_injury", "red_veins", "for", "high"),
        ("als_injury", "new_leaves_all_yellow", "for", "medium"),
        ("als_injury", "bottle_brush", "for", "sign"),
        ("als_injury", "short_joints", "for", "medium"),
        ("als_injury", "stunted", "for", "low"),
    ),
    *_rows("Dtn2021Dicamba", "second-hand", ("dicamba", "cupped", "for", "sign")),
    *_rows(
        "HartzlerAnderson2020",
        "part",
        ("dicamba", "fades_from_neighbour", "for", "high"),
        ("dicamba", "whole_field_even", "for", "low"),
        ("carryover", "soil_type_shape", "for", "medium"),
        ("carryover", "old_residue", "for", "medium"),
        ("carryover", "boom_shape", "for", "high"),
    ),
    *_rows(
        "NCStatePsii2020",
        "part",
        ("carryover", "old_edges_yellow", "for", "medium"),
        ("carryover", "new_leaves_clean", "for", "medium"),
        ("carryover", "stage_v1_v3", "for", "medium"),
    ),
    *_rows("NCStateHppd2020", "part", ("carryover", "bleached_seedlings", "for", "sign")),
    # soil structure and water
    *_rows("NCStateCompaction2020", "full text", ("compaction", "sideways_roots", "for", "high")),
    *_rows("KentuckyTraffic", "full text", ("compaction", "wheel_tracks", "for", "high")),
    *_rows("KentuckyLee2009", "full text", ("compaction", "greens_after_rain", "for", "medium")),
    *_rows(
        "KansasWater2024",
        "part",
        ("waterlogging", "water_stood", "for", "high"),
        ("waterlogging", "soft_growing_point", "for", "high"),
    ),
    *_rows(
        "IowaPonding", "part", ("waterlogging", "low_spot", "for", "medium"), ("waterlogging", "wet_rim", "for", "low")
    ),
    *_rows("MichiganSoybean2023", "part", ("waterlogging", "nodules_mushy", "for", "medium")),
    *_rows(
        JUDGEMENT,
        "judgement",
        ("waterlogging", "whole_leaf_pale", "for", "medium"),
        ("waterlogging", "dry_spell", "against", "high"),
        ("waterlogging", "high_ground", "against", "medium"),
    ),
    *_rows("SouthDakotaDrought2017", "full text", ("drought", "leaves_flip", "for", "high")),
    *_rows("DelawareScn", "full text", ("drought", "high_ground", "for", "medium")),
    *_rows(
        JUDGEMENT,
        "judgement",
        ("drought", "fine_at_dawn", "for", "high"),
        ("drought", "greens_after_rain", "for", "medium"),
        ("drought", "wilted", "for", "medium"),
        ("drought", "dry_spell", "for", "medium"),
        ("drought", "hot_dry", "for", "medium"),
        ("drought", "sandy", "for", "low"),
        ("drought", "soaking_rain", "against", "high"),
        ("drought", "water_stood", "against", "high"),
    ),
    # root and stem diseases
    *_rows(
        "NDSUPhytophthora",
        "part",
        ("phytophthora", "chocolate_stem", "for", "sign"),
        ("phytophthora", "wilted", "for", "medium"),
        ("phytophthora", "dead_leaves_hang", "for", "medium"),
    ),
    *_rows(
        "SouthDakotaPhytophthora2024",
        "part",
        ("phytophthora", "heavy_wet", "for", "medium"),
        ("phytophthora", "low_spot", "for", "low"),
    ),
    *_rows("PurduePhytophthora", "part", ("phytophthora", "no_stem_band", "against", "medium")),
    *_rows(
        "NebraskaRhizoctonia",
        "part",
        ("rhizoctonia", "red_sunken_spot", "for", "sign"),
        ("rhizoctonia", "snaps_off", "for", "medium"),
        ("rhizoctonia", "sandy", "for", "low"),
    ),
    *_rows(
        "NcsrpPhytophthora",
        "part",
        ("pythium", "seedling_rot", "for", "sign"),
        ("pythium", "cool_wet_start", "for", "medium"),
    ),
    *_rows(
        JUDGEMENT, "judgement", ("pythium", "after_flower", "against", "high"), ("pythium", "stage_v1_v3", "for", "low")
    ),
    *_rows(
        "VirginiaTechSeedling",
        "part",
        ("fusarium", "root_rot", "for", "sign"),
        ("fusarium", "no_stem_band", "for", "low"),
    ),
    *_rows(
        "IowaRootRot2001",
        "full text",
        ("fusarium", "low_spot", "for", "low"),
        ("fusarium", "growing_out", "for", "low"),
    ),
    *_rows(
        "PurdueSds",
        "part",
        ("sds", "blotches_veins_green_late", "for", "high"),
        ("sds", "leaflets_drop", "for", "high"),
        ("sds", "blue_growth", "for", "sign"),
        ("sds", "cool_wet_start", "for", "medium"),
    ),
    *_rows(
        "IllinoisSds",
        "full text",
        ("sds", "pith_white_wood_grey", "for", "sign"),
        ("sds", "before_flower", "against", "high"),
        ("sds", "pith_brown", "against", "high"),
    ),
    *_rows(
        JUDGEMENT,
        "judgement",
        ("sds", "patch", "for", "low"),
        ("sds", "pith_white", "for", "low"),
        ("sds", "root_rot", "for", "medium"),
        ("phytophthora", "root_rot", "for", "high"),
        ("pythium", "root_rot", "for", "medium"),
        ("rhizoctonia", "root_rot", "for", "medium"),
        ("sds", "after_flower", "for", "low"),
    ),
    *_rows("CpnBsr", "full text", ("bsr", "pith_brown", "for", "sign")),
    *_rows(
        "NebraskaBsr",
        "part",
        ("bsr", "dead_leaves_hang", "for", "medium"),
        ("bsr", "pods_filling", "for", "medium"),
        ("bsr", "blotches_veins_green_late", "for", "medium"),
    ),
    *_rows(
        "IllinoisBsr2016",
        "full text",
        ("bsr", "pith_white", "against", "high"),
        ("bsr", "pith_white_wood_grey", "against", "high"),
    ),
    *_rows(
        JUDGEMENT,
        "judgement",
        ("bsr", "before_flower", "against", "high"),
        ("bsr", "leaflets_drop", "against", "medium"),
        ("charcoal_rot", "before_flower", "against", "medium"),
    ),
    *_rows(
        "MichiganCharcoal",
        "full text",
        ("charcoal_rot", "grey_black_specks", "for", "sign"),
        ("charcoal_rot", "hot_dry", "for", "medium"),
    ),
    *_rows(
        "FsCharcoal",
        "part",
        ("charcoal_rot", "dead_leaves_hang", "for", "low"),
        ("charcoal_rot", "early_ripe", "for", "low"),
    ),
    # insects, mites, the other nematode
    *_rows("NDSUAphid2020", "full text", ("aphid", "aphids", "for", "sign")),
    *_rows(
        JUDGEMENT,
        "judgement",
        ("aphid", "no_aphids", "against", "high"),
        ("spider_mites", "soaking_rain", "against", "medium"),
    ),
    *_rows("Walter2004", "abstract", ("aphid", "low_k_patch", "for", "low")),
    *_rows(
        "Hodgson2021",
        "full text",
        ("spider_mites", "stippled", "for", "high"),
        ("spider_mites", "field_edges", "for", "medium"),
        ("spider_mites", "mites", "for", "sign"),
        ("spider_mites", "hot_dry", "for", "medium"),
        ("spider_mites", "speckled_bronze", "for", "medium"),
    ),
    *_rows("NCStateRootKnot", "part", ("root_knot", "galls", "for", "sign")),
    *_rows("CpnRootKnot2021", "part", ("root_knot", "sandy", "for", "medium")),
)

CAUSE_KEYS: dict[str, str] = {cause.key: cause.words for cause in CAUSES}
"""Every cause that can be named, with plain English words for it. Closed set."""

CLUE_KEYS: dict[str, str] = {clue.key: clue.words for clue in CLUES} | ROOT_EVIDENCE
"""Every clue that can be named as evidence, with plain English words for it. Closed set."""
