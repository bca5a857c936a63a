"""Numbers of the models: one parameter, one row, with its spread, unit, source and how well it is known.

``known`` says what a number rests on: *published* (read in the source), *fitted* (by us, to published observations
named in the note), *judgement* (no published number found) or *memory* (recalled, not read again).
Source keys are explained in docs/references.md. DD5 = degree-days above 5 C, each day's soil temperature at 10 cm
held at 30 C at most.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Known = Literal["published", "fitted", "judgement", "memory"]


@dataclass(frozen=True, slots=True)
class Parameter:
    """One number of a model."""

    name: str
    value: float
    spread: float
    """Standard deviation of the value from field to field (of its logarithm where the unit is a factor)."""
    unit: str
    source: str
    known: Known
    note: str = ""


# fmt: off
CLOCK: dict[str, Parameter] = {
    row.name: row
    for row in (
        # --- heat -------------------------------------------------------------------------------------
        Parameter("base_c", 5.0, 0.0, "C", "AlstonSchmitt1988", "published", "embryos, linear 15-30 C"),
        Parameter("upper_c", 30.0, 0.0, "C", "AlstonSchmitt1988", "published", "ceiling of the field sums"),
        Parameter("hatch_none_c", 10.0, 0.0, "C", "AlstonSchmitt1988, PurdueNematology", "published",
                  "embryos stop before hatching; juveniles move above it"),
        Parameter("hatch_full_c", 15.0, 1.5, "C", "AlstonSchmitt1988", "fitted",
                  "coolest soil in which embryos got to juveniles; 12.5 to 16 fit the sightings alike, 20 (coolest "
                  "hatch seen) does not"),
        Parameter("lethal_c", 36.0, 0.0, "C", "AlstonSchmitt1988", "published", "embryos die at the four-cell stage"),
        # --- one female -------------------------------------------------------------------------------
        Parameter("planting_to_penetration", 160.0, 48.0, "DD5", "IowaSightings", "fitted",
                  "beyond the hatch gate: Iowa sightings 25-40 d after planting, normals through our soil model, taken "
                  "as the 2nd-15th and about the 70th percentile of first whites"),
        Parameter("penetration_to_white", 250.0, 0.0, "DD5", "Lauritis1983, Melton1986", "published",
                  "mating at the egg sac 240; stage 5 at 24 C 247; field spread is in pace"),
        Parameter("white_to_yellow", 80.0, 0.0, "DD5", "Tylka2011", "judgement", "45 % of white to brown"),
        Parameter("yellow_to_tan", 60.0, 0.3, "DD5", "Tylka2011", "judgement",
                  "33 % of white to brown; spread of its logarithm: roots mostly yellow are common practice's sign "
                  "of the peak, which this split alone would hardly show"),
        Parameter("tan_to_brown", 40.0, 0.0, "DD5", "Tylka2011", "judgement", "22 % of white to brown"),
        Parameter("brown_to_lost", 80.0, 0.45, "DD5", "RiggsSchmitt1991", "judgement",
                  "mean of an exponential; chosen so that fewer females are found 35 d than 28 d after "
                  "infection"),
        # --- between females of one field -------------------------------------------------------------
        Parameter("penetration_sd", 70.0, 0.0, "DD5", "IowaSightings", "fitted", "spread of infection times"),
        Parameter("white_sd", 35.0, 0.0, "DD5", "Lauritis1983, Melton1986", "judgement"),
        Parameter("generation_sd", 55.0, 0.0, "DD5", "AlstonSchmitt1988", "judgement", "10 % of a generation"),
        Parameter("white_to_yellow_sd", 30.0, 0.0, "DD5", "Tylka2011", "judgement"),
        Parameter("yellow_to_tan_sd", 25.0, 0.0, "DD5", "Tylka2011", "judgement"),
        Parameter("tan_to_brown_sd", 20.0, 0.0, "DD5", "Tylka2011", "judgement"),
        Parameter("spread_factor", 1.0, 0.15, "factor", "", "judgement", "one field is more even than another"),
        # --- generations ------------------------------------------------------------------------------
        Parameter("first_generation", 534.0, 40.0, "DD5", "AlstonSchmitt1988", "published",
                  "June, 4 weeks; printed +-24 for one programme, widened for other sites and years"),
        Parameter("later_generation", 429.0, 35.0, "DD5", "AlstonSchmitt1988", "published",
                  "July-August, 3 weeks; printed +-24, widened likewise"),
        Parameter("pace", 1.0, 0.04, "factor", "AlstonSchmitt1988", "judgement",
                  "common to all development of a field and year"),
        Parameter("colour_pace", 1.0, 0.22, "factor", "Tylka2011", "published",
                  "white to brown in one to two weeks at about 22 C: 119-245 DD5"),
        Parameter("growth", 2.5, 0.7, "factor", "", "judgement", "females of a generation over the one before"),
        Parameter("resistant_delay", 20.0, 30.0, "DD5", "Noel1983", "judgement", "peaks delayed; amount not given"),
        # --- eggs that wait for next year ----------------------------------------------------------------
        Parameter("dormant_from_north", 244.0, 14.0, "day of year", "Hokkaido1999", "judgement",
                  "1 September from 43 degrees on: sac eggs nearly cease; the month is published, day and spread are "
                  "not"),
        Parameter("dormant_from_south", 274.0, 14.0, "day of year", "Yen1995, HillSchmitt1989", "judgement",
                  "1 October up to 38 degrees, between two reports: low by October in Missouri, 1 % in November in "
                  "North Carolina"),
        Parameter("dormant_awake", 0.07, 0.0, "share", "Yen1995, HillSchmitt1989", "fitted",
                  "eggs that hatch all the same: under 10 % until May; 1 % of eggs against 9-16 % in August-September"),
        # --- the crop ---------------------------------------------------------------------------------
        Parameter("planting_to_emergence", 125.0, 30.0, "DD5", "Iowa2021Emergence, Wisconsin2008", "fitted",
                  "90-165 F-days above 50 F are about 90-160 DD5 at 17 C"),
        Parameter("node_heat", 75.0, 75.0, "DD5", "IowaSightings", "fitted",
                  "V2 at 297, V4-V5 at 449, V6 at 561 DD5 (Iowa sightings); V counts are often off by one"),
        # --- what is seen -----------------------------------------------------------------------------
        Parameter("colour_concentration", 25.0, 0.0, "females", "", "judgement",
                  "a large count is worth about this many independent females: clumps, light, eyes"),
        Parameter("plant_lag_sd", 40.0, 0.0, "DD5", "", "judgement",
                  "females of one plant early or late together: emergence, depth, patches"),
        Parameter("clump_share", 0.5, 0.0, "share", "", "judgement",
                  "plants dug that carry most of the females, over all dug"),
        Parameter("misread_share", 0.05, 0.0, "share", "", "judgement", "called by the colour next to it"),
        Parameter("blunder_share", 0.03, 0.0, "share", "", "judgement", "counts that say nothing of the clock"),
        Parameter("total_shape", 1.5, 0.0, "", "", "judgement", "negative binomial k of one visit's total"),
        # --- temperature ------------------------------------------------------------------------------
        Parameter("soil_bias_air", 0.0, 1.0, "C", "Uscrn2020, Isws", "judgement",
                  "lagged air ran 0.3-1.2 C above soil under grass in two records, 1-2 C below it in a "
                  "network mean"),
        Parameter("soil_bias_measured", 0.0, 0.3, "C", "", "judgement", "a thermometer elsewhere in the field"),
        Parameter("soil_bias_normals", 0.0, 1.1, "C", "", "judgement", "normals of stations some way off"),
        Parameter("soil_bias_far", 0.0, 2.0, "C", "", "judgement",
                  "normals of a place assumed, from memory or more than 400 km away"),
        Parameter("soil_anomaly_sd", 0.0, 1.6, "C", "ChampionDaily, ClemsonDaily", "fitted",
                  "May-August, daily soil mean (lagged air) about its normal: heat sums of 10-90 days"),
        Parameter("season_anomaly_sd", 0.0, 0.6, "C", "ChampionDaily, ClemsonDaily", "fitted",
                  "a whole season warmer or cooler: errors of heat sums of 34-75 days from May, June and July on"),
        Parameter("soil_anomaly_days", 9.0, 0.0, "d", "ChampionDaily, ClemsonDaily", "fitted",
                  "time in which an anomaly falls to 1/e"),
    )
}
# fmt: on
"""Parameters of the nematode clock by name."""

FOUND_BY_COLOUR: dict[str, tuple[float, float, float, float]] = {
    # White, yellow, tan and brown females found, for each white one found of as many on the roots.
    # No published figure was found; females are loosely held, brown cysts most loosely: all judgement.
    "shovel": (1.0, 1.0, 0.93, 0.80),
    "eased": (1.0, 1.0, 0.87, 0.69),
    "pulled": (1.0, 1.0, 0.80, 0.56),
    "": (1.0, 1.0, 0.87, 0.69),
}
"""By method of getting the plant out; the empty key when the note does not say. How many of all are found is another
matter, and the table of `notes_bot.science.detection.RECOVERIES` alone says it."""
