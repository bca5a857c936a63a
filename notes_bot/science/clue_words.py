"""Words in the free text of a note that name a clue, in English, Spanish and Portuguese.

The note language reads the common clues itself (tops, roots, soil, spray); this table catches the rarer ones that
scouts write out: what a split stem showed, webbing, galls, wheel tracks. Patterns are matched without accents and
case, on whole words. A negation just before a phrase drops it, or turns it into the opposite clue where there is one.
"""

from __future__ import annotations

import re
import unicodedata

OPPOSITE: dict[str, str] = {
    "aphids": "no_aphids",
    "chocolate_stem": "no_stem_band",
    "pith_brown": "pith_white",
    "nodules_few": "nodules_fine",
}
"""A clue that is itself told by the absence of another."""

_NEGATION = re.compile(
    r"\b(?:no|not|without|never|none|isn t|sin|ningun\w*|sem|nao|nenhum\w*)"
    r"\s+(?:(?:any|the|visible|more|signs? of|rastros? de|sinais? de)\s+)?$"
)

_NEW = r"(?:new(?:est)?|top|upper|young)"
_LVS = r"(?:leaf|leaves|lvs|lf|trifoliates?)"
_YEL = r"(?:yel(?:low(?:ing|ed)?)?|pale|chlorotic)"

WORDS: tuple[tuple[str, str], ...] = (
    # leaves
    ("new_leaves_yellow_veins_green", rf"{_NEW} {_LVS} {_YEL}(?: \w+)? (?:grn|green|gr) veins?"),
    ("new_leaves_yellow_veins_green", r"hojas nuevas amarillas (?:con )?nervaduras? verdes?"),
    ("new_leaves_yellow_veins_green", r"folhas novas amarelas (?:com )?nervuras? verdes?"),
    (
        "new_leaves_all_yellow",
        rf"{_NEW} {_LVS} (?:all |evenly |solid )?{_YEL}(?! (?:\w+ )?(?:grn|green|gr) veins?)(?! (?:edge|margin)s?)",
    ),
    ("new_leaves_all_yellow", r"hojas nuevas (?:todas )?amarillas(?! (?:con )?nervaduras? verdes?)"),
    ("new_leaves_all_yellow", r"folhas novas (?:todas )?amarelas(?! (?:com )?nervuras? verdes?)"),
    ("older_leaves_green", rf"(?:old(?:er)?|lower|bottom|first) {_LVS} (?:still )?(?:green|grn|fine|ok)"),
    ("old_edges_yellow", rf"(?:old(?:er)?|lower|bottom) {_LVS} (?:edge|margin)s? (?:\w+ )?(?:{_YEL}|brn|brown|burnt)"),
    ("old_edges_yellow", r"(?:edges?|margins?) of (?:the )?(?:old(?:er)?|lower|bottom) (?:leaves|lvs)"),
    ("old_edges_yellow", r"borde\w* amarillo\w* (?:en |de )?(?:las )?hojas (?:viejas|de abajo|bajas)"),
    ("old_edges_yellow", r"bordas? amarelas? (?:nas |das )?folhas (?:velhas|de baixo|baixeiras)"),
    ("upper_edges_yellow", rf"(?:upper|top|middle|mid) {_LVS} (?:edge|margin)s? (?:\w+ )?{_YEL}"),
    ("whole_leaf_pale", r"(?:whole|entire) (?:leaf|leaves|lvs|plant) (?:pale|light|yel\w*)"),
    ("whole_leaf_pale", r"(?:pale|light) green all over|veins (?:pale|yel\w*) too|verde palido|verde claro"),
    ("speckled_bronze", r"speck?led?|speckles|bronz\w+|leaf burn|burnt leaves|bronceado|bronzead[oa]s?"),
    (
        "new_leaves_clean",
        rf"(?:new(?:est)?|young) (?:growth|{_LVS}) (?:is |are |coming )?(?:clean|normal|green|fine|ok)",
    ),
    ("new_leaves_clean", r"hojas nuevas (?:limpias|sanas|verdes)|folhas novas (?:limpas|sadias|verdes)"),
    ("red_veins", r"(?:red|reddish|purple) veins?|nervaduras? rojizas?|nervuras? avermelhadas?"),
    ("cupped", r"cupp(?:ed|ing)|cup(?:ped)? leaves|acucharad[oa]s?|encarquilhad[oa]s?"),
    ("bleached_seedlings", r"bleach(?:ed|ing)|white seedlings|blanquead[oa]s?|branqueamento"),
    ("rusty_between_veins", r"rust(?:y)?(?: brown)? (?:color )?between (?:the )?veins"),
    ("blotches_veins_green_late", r"(?:blotch\w*|brown|dead|tissue)(?: \w+)? between (?:the )?(?:green |grn )?veins"),
    ("blotches_veins_green_late", r"veins (?:stay|still) (?:green|grn)"),
    ("leaflets_drop", r"leaflets? (?:drop\w*|fall\w*|off|gone)|petioles? (?:stay|left|attached|remain)|bare petioles?"),
    ("dead_leaves_hang", r"dead leaves (?:hang\w*|stay\w*|attached|on)|leaves (?:hang|stay) on"),
    ("leaves_flip", r"(?:leaves|lvs) (?:flip\w*|fold\w*|clamp\w*|turned over)|flipped (?:leaves|lvs)"),
    ("stippled", r"stippl\w+|tiny pale dots|punteado|pontuac\w+"),
    ("slow_canopy", r"rows (?:not|slow|late) (?:to )?clos\w+|(?:not|slow to) canop\w+|rows open"),
    # shape
    (
        "along_rows",
        r"(?:runs?|stretched|long) (?:w|with|along|down) (?:the )?rows?|a lo largo del surco|ao longo da linha",
    ),
    ("entrance_or_fence", r"(?:by|near|at|inside) (?:the )?(?:gate|entrance|field drive|drive)"),
    ("entrance_or_fence", r"fence ?(?:line|row)?s?"),
    ("entrance_or_fence", r"tranquera|alambrado|porteira|(?:na|da|junto a) cerca"),
    (
        "wet_rim",
        r"(?:ring|rim|halo) (?:around|round|of)|pothole (?:rim|edge)|edge of (?:the )?(?:pothole|wet (?:spot|hole))",
    ),
    ("low_spot", r"low (?:spot|area|ground|corner|end)s?|draw|swale|en el bajo|bajos|baixadas?"),
    ("straight_bands", r"straight (?:lines?|bands?|streaks?)|overlaps?|boom (?:width|pass)\w*"),
    ("straight_bands", r"sprayer (?:stop|start|pass|skip)\w*"),
    ("straight_bands", r"bandas rectas|faixas retas|sobreposic\w+|solape\w*"),
    ("wheel_tracks", r"wheel ?tracks?|tire tracks?|traffic lanes?|turn(?:ing)? rows?|huellas?|rastro de rodas?"),
    ("tracks_greener", r"(?:wheel ?)?tracks? (?:are |is )?green(?:er)?"),
    ("spreader_strips", r"spreader (?:strips?|pass\w*|width|streaks?)|fertilizer (?:strips?|streaks?)"),
    ("planter_strips", r"(?:planter|drill) (?:strips?|pass\w*|width|rows?)"),
    ("whole_field_even", r"whole field|entire field|all over the field|todo el lote|lavoura toda|talhao todo"),
    ("high_ground", r"knolls?|hill ?tops?|gravel|high (?:spots?|ground)|lomas?|morros?"),
    (
        "field_edges",
        r"(?:from|along|at|on) (?:the )?(?:field )?(?:edges?|borders?|ditch) (?:in(?:ward)?|first)|edges first",
    ),
    (
        "fades_from_neighbour",
        r"fad(?:es|ing) (?:away )?(?:from|into)|worst (?:next to|along) (?:the )?neighbo\w+|drift",
    ),
    ("boom_shape", r"(?:w|m|v) (?:shape|pattern)(?:d)?|dirty (?:boom|tank)|tank contamination"),
    ("soil_type_shape", r"follows? (?:the )?soil types?"),
    # timing and weather
    ("dry_spell", r"no rain|dry spell|(?:been )?(?:dry|drought) (?:for|\d)|sin lluvia|sem chuva|sequia|seca"),
    ("hot_dry", r"hot (?:and |n )?dry|caliente y seco|quente e seco"),
    ("soaking_rain", r"soaking rain|rain(?:ed)? (?:all|every)|long wet spell|\d+ in(?:ch(?:es)?)? (?:of )?rain"),
    (
        "water_stood",
        r"pond(?:ed|ing)|standing water|water stood|under ?water|drowned|encharcad\w+|alagad\w+|inundad\w+",
    ),
    ("cool_wet_start", r"(?:cool|cold) (?:and |n )?wet"),
    ("greens_after_rain", r"green(?:ed|s|ing)? (?:up )?after (?:the )?rain|better after rain"),
    ("fine_at_dawn", r"(?:fine|ok|normal|recover\w*) (?:at|by|in the) (?:dawn|morning|night)|recover\w* overnight"),
    ("growing_out", r"grow(?:s|ing) out|greening up|new growth greener"),
    # soil, history
    ("carbonate_or_salt", r"carbonate|cce|salts?|saline|ec \d"),
    ("overlimed", r"over ?limed?|lime (?:overlap|pile|streak)\w*|too much lime"),
    ("sandy", r"sand(?:y)?|arenos[oa]s?"),
    ("first_soybeans", r"first (?:time )?(?:soy)?beans|first year (?:soy|beans)|never (?:had )?(?:soy)?beans"),
    ("first_soybeans", r"no inoculant|not inoculated"),
    ("nitrogen_left", r"manure[d]?|after alfalfa|alfalfa (?:before|last)|residual n"),
    ("old_residue", r"carry ?over|last year s (?:herbicide|atrazine)|atrazine last|fomesafen last"),
    ("dicamba_near", r"dicamba|2 ?4 ?d\b|neighbo\w+ sprayed"),
    # roots
    ("nodules_mushy", r"(?:mushy|soft|rotten|brown) (?:nodules?|nods?)|(?:nodules?|nods?) (?:mushy|soft|rotten)"),
    (
        "nodules_few",
        r"(?:few|hardly any|poor|1|2|3|4|5) (?:nodules?|nods?)|poor nodulation|pocos nodulos|poucos nodulos",
    ),
    ("nodules_fine", r"(?:nodules?|nods?) (?:are |all )?(?:pink|good|fine|red)|pink (?:nodules?|nods?)"),
    ("nodules_fine", r"nodulos rosados|nodulos rosas"),
    ("bottle_brush", r"bottle ?brush"),
    ("sideways_roots", r"roots? (?:turn\w* |go\w* |grow\w* |run\w* )?sideways|j roots?"),
    ("sideways_roots", r"(?:seed|side ?wall) (?:slot|smear\w*)|hard ?pan|plow pan"),
    ("root_rot", r"root rot|roots? (?:rotted|rotten|rotting)|(?:brown|black) (?:tap ?root|laterals)"),
    ("seedling_rot", r"seedlings? (?:rot\w*|dead|dying|missing)|damping off"),
    ("galls", r"galls?|swellings? (?:that )?(?:don t|do not|won t) (?:rub|come) off|agallas?|galhas?"),
    ("blue_growth", r"blue (?:growth|spores?|fungus|mold|mould|fuzz)"),
    # stems
    (
        "chocolate_stem",
        r"chocolate|(?:dark )?brown (?:band|stem|lesion) (?:up )?from (?:the )?soil|stem (?:lesion|band)s?",
    ),
    ("red_sunken_spot", r"(?:red|rust|rusty|reddish)(?: brown)?(?: dry)? (?:sunken|lesion|canker)(?: \w+)?"),
    ("snaps_off", r"snap(?:s|ped|ping)? (?:off )?at (?:the )?(?:base|soil|ground)"),
    ("pith_white_wood_grey", r"(?:white pith|pith (?:is |still )?white)(?: \w+){0,3} (?:gr[ea]y|brown)"),
    ("pith_white_wood_grey", r"(?:gr[ea]y|brown)(?: \w+){0,4} (?:white pith|pith (?:is |still )?white)"),
    ("pith_white", r"white pith|pith (?:is |still )?white|medula blanca|medula branca"),
    ("pith_brown", r"brown pith|pith (?:is )?brown|medula (?:marron|parda|castanha)"),
    (
        "grey_black_specks",
        r"black specks|gr[ea]y (?:lower )?(?:stem|tap ?root)|microsclerotia|puntos negros|pontos pretos",
    ),
    ("soft_growing_point", r"growing point (?:is )?(?:soft|dark|dead|mushy)"),
    ("red_neck", r"(?:red|reddish)(?: brown)? (?:neck|hypocotyl|cotyledons?)"),
    ("short_joints", r"(?:short|stacked) (?:joints?|internodes?|nodes?)"),
    # leaf tests
    ("leaf_k_low", r"(?:leaf|tissue) (?:test )?(?:k|potassium) (?:is )?(?:low|short|[01] ?\d*)"),
    ("leaf_k_low", r"low (?:leaf|tissue) (?:k|potassium)"),
    (
        "leaf_mn_low",
        r"(?:leaf|tissue) (?:test )?(?:mn|manganese) (?:is )?(?:low|short|\d)|low (?:leaf|tissue) (?:mn|manganese)",
    ),
    ("leaf_zn_low", r"(?:leaf|tissue) (?:test )?(?:zn|zinc) (?:is )?(?:low|short|\d)|low (?:leaf|tissue) (?:zn|zinc)"),
    # insects and mites
    ("aphids", r"aphids?|honey ?dew|sooty (?:mold|mould)|sticky leaves|pulgon(?:es)?|pulgao|pulgoes"),
    ("mites", r"mites?|webbing|webs|arañuela|aranuela|acaros?|teias?"),
)
"""Clue and pattern. Judgement: the trade's words, from memory."""

_PATTERNS = tuple((clue, re.compile(rf"\b(?:{pattern})\b")) for clue, pattern in WORDS)
_INCLUDED = {"pith_white": "pith_white_wood_grey", "wheel_tracks": "tracks_greener"}
"""A clue whose words lie inside those of a stronger one gives way to it."""


def clues_in_text(text: str) -> frozenset[str]:
    """Clue keys that `text` names; empty when it names none."""
    plain = _plain(text)
    found: set[str] = set()
    for clue, pattern in _PATTERNS:
        for match in pattern.finditer(plain):
            if _NEGATION.search(plain[: match.start()]):
                if clue in OPPOSITE:
                    found.add(OPPOSITE[clue])
            else:
                found.add(clue)
    return frozenset(clue for clue in found if _INCLUDED.get(clue) not in found)


def _plain(text: str) -> str:
    bare = "".join(c for c in unicodedata.normalize("NFD", text.lower()) if not unicodedata.combining(c))
    return re.sub(r"\s+", " ", re.sub(r"[^a-z0-9%.]+|\.(?!\d)", " ", bare))
