"""The passes over the pieces of a message, in their order, each with what must be told for it to change anything.

A pass joins, parts or renames pieces: "v 4" becomes a stage, "twenty three" a number. Most of them live on words that
few messages hold, and a pass without its words is left out. What a message holds is gathered once, and again behind a
pass that changed something, as its pieces may be another's.
"""

from __future__ import annotations

import itertools
from collections.abc import Callable, Sequence, Set
from dataclasses import dataclass
from functools import cache, cached_property

from notes_bot.language.lexicon.joining import (
    acidity_apart,
    acidity_tenths,
    bearings,
    day_words,
    days_told_once,
    ends_and_sides,
    labelled,
    next_looks,
    number_words,
    place_words,
    planted_days,
    plants_at_places,
    spoken_lists,
    stage_words,
    staged_beans,
)
from notes_bot.language.lexicon.pieces import Piece
from notes_bot.language.lexicon.scan import NTH_ENDS
from notes_bot.language.lexicon.tokens import Draft
from notes_bot.language.lexicon.words import Table, anywhere
from notes_bot.language.names.field_groups import groups_told
from notes_bot.language.names.moving_on import more_elsewhere
from notes_bot.language.names.named_seeds import seeds_compared, seeds_named, seeds_told_of, strips_of_seeds
from notes_bot.language.passes.by_persons import by_persons
from notes_bot.language.passes.colored_things import colored_things, counted_things
from notes_bot.language.passes.columns import counts_under_colors, counts_under_letters, lists_by_color, tallied
from notes_bot.language.passes.coming_visits import days_of_events, plants_to_come, visits_promised
from notes_bot.language.passes.days_of_others import days_of_others
from notes_bot.language.passes.days_of_visits import days_of_visits
from notes_bot.language.passes.denied_roots import colors_of_no_root
from notes_bot.language.passes.denied_signs import signs_denied
from notes_bot.language.passes.dictation import heard_stages, heard_units
from notes_bot.language.passes.distances import counted_from, ends_of_months, weeks_before
from notes_bot.language.passes.dug_how import dug_by_doing
from notes_bot.language.passes.from_each_of import plants_of_each
from notes_bot.language.passes.groups import first_few, grouped
from notes_bot.language.passes.in_vain import hoped_in_vain
from notes_bot.language.passes.keyed import keyed
from notes_bot.language.passes.leaves import burnt_edges
from notes_bot.language.passes.little_letters import little_letters
from notes_bot.language.passes.marks import mark_plants, nth_plants, others_told, raised_letters
from notes_bot.language.passes.new_sentences import crop_apart, figures_of_lists, heading_one, look_apart, visits_again
from notes_bot.language.passes.none_of_else import colors_searched, nothing_else, one_denied
from notes_bot.language.passes.not_so_now import facts_of_else
from notes_bot.language.passes.on_some import on_some, ratios
from notes_bot.language.passes.other_orders import (
    colors_before_counts,
    colors_told_again,
    counted_up_to,
    counts_in_brackets,
    each_ahead,
    each_of_two_colors,
    last_of_list,
    one_and_another,
    plants_meant_again,
    plants_that_were_dug,
)
from notes_bot.language.passes.place_lists import places_listed
from notes_bot.language.passes.place_rows import places_plant_by_plant, rows_of_places
from notes_bot.language.passes.plant_ranges import plants_by_number, some_by_number
from notes_bot.language.passes.repairs import put_right
from notes_bot.language.passes.round_numbers import round_numbers
from notes_bot.language.passes.second_thoughts import (
    counts_told_anew,
    fields_put_right,
    labels_put_right,
    lists_put_right,
    none_darker,
    none_of_shades,
    nth_told_first,
    ones_denied,
    seen_apart,
    shades_absent,
    shades_denied,
    sizes_denied,
)
from notes_bot.language.passes.seed_unknown import resistance_unknown
from notes_bot.language.passes.sentences import (
    counted_there,
    each_of_shades,
    nodules_cut,
    opened_nodules,
    places_first,
    pulled_out,
    seed_ahead,
    shades_said,
    told_ahead,
)
from notes_bot.language.passes.shade_shares import shares_counted, shares_of_else
from notes_bot.language.passes.shade_sums import (
    shades_but,
    shades_doubled,
    sums_said,
    sums_that_fit,
    total_shaded,
)
from notes_bot.language.passes.shape_sizes import shapes_measured
from notes_bot.language.passes.shares import shared
from notes_bot.language.passes.small_talk import colored_creatures, colors_of_talk, figures_of_talk
from notes_bot.language.passes.told_beside import (
    check_mentioned,
    counted_behind_dug,
    dug_and_found,
    females_on_some,
    found_by_one,
    gone_on_day,
    more_than,
    of_them_told,
    only_so_many,
    roots_of_some,
    same_number,
    those_counted,
    upon_one_plant,
)
from notes_bot.language.passes.undug import no_time_for, none_dug, nor_there
from notes_bot.language.passes.unsaid import (
    all_told,
    among_colors,
    apart_from_tops,
    by_their_color,
    compared,
    counted_of_each,
    dug_in_all,
    dug_so_many,
    durations,
    each_of_them,
    ends_in_zero,
    ends_of_lists,
    entry_apart,
    females_told,
    headings,
    loosened,
    none_had,
    none_of_dug,
    none_twice,
    plants_again,
    plants_at_each,
    plants_behind_places,
    plants_by_quantity,
    plants_in_brackets,
    roots_of_the_rest,
    shade_behind,
    shades_in_letters,
    shapes_uncounted,
    total_upon,
)
from notes_bot.language.passes.wholly import wholly_shaded
from notes_bot.language.passes.wrong_keys import missed_keys, words_meant

Walk = Callable[[Draft, Table], list[Piece]]
"""A pass as it is done: the pieces of the draft, changed."""


@dataclass(frozen=True)
class OneOf:
    """Several things, set apart by blanks, one of which must be told."""

    kinds: str = ""
    """Kinds of piece (number, day), or what a word may mean (COLOUR); "nth" is a number like "1st", "ending" a word
    that ends in figures, "day+" and "PLANTS+" what is told more than once."""
    manners: str = ""
    """Manners of words, of any language."""
    begun: str = ""
    """Manners of phrases that may be told in several pieces: their first words."""
    texts: str = ""
    """Words and signs as they stand."""

    @cached_property
    def marks(self) -> frozenset[str]:
        """All of them, as :func:`told_in` names them."""
        words = itertools.chain.from_iterable(map(anywhere, self.manners.split()))
        firsts = (phrase.split(" ")[0] for manner in self.begun.split() for phrase in anywhere(manner))
        return frozenset((*self.kinds.split(), *words, *firsts, *self.texts.split()))


@dataclass(frozen=True, slots=True)
class Pass:
    """One walk over the pieces, and what must be told: one of each of its needs."""

    walk: Walk
    needs: tuple[OneOf, ...] = ()


def _shape(walk: Callable[[list[Piece]], list[Piece]]) -> Walk:
    """A walk that looks at nothing but the pieces."""
    return lambda draft, _: walk(draft.pieces)


def _words(walk: Callable[[list[Piece], Table], list[Piece]]) -> Walk:
    """A walk that looks words up."""
    return lambda draft, made: walk(draft.pieces, made)


def _fields(walk: Callable[[list[Piece], Table, tuple[str, ...]], list[Piece]]) -> Walk:
    """A walk that minds the crew's names."""
    return lambda draft, made: walk(draft.pieces, made, draft.fields)


def _text(walk: Callable[[list[Piece], Table, str], list[Piece]]) -> Walk:
    """A walk that minds how words are written."""
    return lambda draft, made: walk(draft.pieces, made, draft.text)


def _right(draft: Draft, made: Table) -> list[Piece]:
    """What was put right, its slips told."""
    pieces, slips = put_right(draft.pieces, made)
    draft.slips += slips
    return pieces


_DENIALS = "didn't couldn't don't wasn't weren't can't haven't hadn't doesn't isn't ain't wouldn't"
"""Denials cut short, which deny by their end."""

PASSES = (
    Pass(_words(round_numbers), (OneOf("number NUMBER_WORD"), OneOf(begun="and_odd some_more open_number"))),
    Pass(_shape(told_ahead), (OneOf("FIELD+"), OneOf("stage MOISTURE"), OneOf(manners="at"))),
    Pass(missed_keys, (OneOf("ending", texts="v r"),)),
    Pass(
        _words(signs_denied),
        (
            OneOf("NOT NONE NOT_LOOKED", "denies sign_denial", texts=_DENIALS),
            OneOf("TOP BANDS ROOTS NODULES TOPS MOISTURE stage"),
        ),
    ),
    Pass(
        _words(facts_of_else),
        (
            OneOf(
                "TOP MOISTURE TEXTURE BANDS ROOT NODULE COLOUR stage SPRAY CHEMICAL RESISTANCE SOURCE DUG TOOL SOAKED "
                "LOOK"
            ),
            OneOf(
                "AGO",
                "else_thing denies other_crop",
                "else_if else_awaited else_crop_awaited else_may_be else_others else_spray_awaited else_seed_awaited "
                "else_dig_awaited else_spray_goes else_spray_named "
                "aside_lately aside_once",
                f"? {_DENIALS}",
            ),
        ),
    ),
    Pass(_words(wholly_shaded), (OneOf("MOSTLY"), OneOf("COLOUR"), OneOf("ROOTS NODULES TOPS"))),
    Pass(_shape(shades_doubled), (OneOf("COLOUR+"), OneOf("FEMALES"))),
    Pass(_words(words_meant), (OneOf("NOT"), OneOf("FEMALES+ COLOUR+ PLANTS+ TOOL+ DUG+ ROOTS+"))),
    Pass(
        _shape(seeds_compared),
        (OneOf("RESISTANCE"), OneOf("RESISTANCE+ CHECK"), OneOf(manners="likens_to and_word", texts="x por /")),
    ),
    Pass(
        _text(seeds_named),
        (
            OneOf("VARIETY RESISTANCE SOURCE CHECK", manners="seed_crop seed_sign sows", begun="seed_called"),
            OneOf("number ending measure"),
        ),
    ),
    Pass(_text(seeds_told_of), (OneOf("FIELD"), OneOf("number"), OneOf(manners="seed_had with_word"))),
    Pass(_text(strips_of_seeds), (OneOf("CHECK VARIETY"), OneOf("number"), OneOf("PLANTS COLOUR FEMALES"))),
    Pass(_words(shapes_measured), (OneOf("TOP"), OneOf("MEASURE"), OneOf("number range NUMBER_WORD"))),
    Pass(
        _words(one_denied),
        (OneOf("NUMBER_WORD number"), OneOf("FEMALES PLANTS"), OneOf("NOT NONE NOT_LOOKED", "denies")),
    ),
    Pass(_words(nothing_else), (OneOf("NONE"), OneOf(manners="nothing_word clean_word"))),
    Pass(
        _words(ones_denied),
        (
            OneOf("COLOUR+"),
            OneOf("number NUMBER_WORD", "one_article"),
            OneOf("NOT NONE", "denies", texts=_DENIALS),
        ),
    ),
    Pass(_words(shades_absent), (OneOf("COLOUR"), OneOf("number NUMBER_WORD"), OneOf(begun="not_there"))),
    Pass(_words(colors_searched), (OneOf("NONE"), OneOf(begun="searched"), OneOf("COLOUR FEMALES"))),
    Pass(_words(colors_told_again), (OneOf("COLOUR+"), OneOf(begun="that_is", texts="("))),
    Pass(_words(last_of_list), (OneOf(begun="on_last_plant"), OneOf("number NUMBER_WORD"), OneOf(texts=","))),
    Pass(_words(resistance_unknown), (OneOf("RESISTANCE", "resistance_word"), OneOf(begun="not_known"))),
    Pass(_words(counted_up_to), (OneOf(manners="reached_word"), OneOf("number NUMBER_WORD"), OneOf("COLOUR FEMALES"))),
    Pass(_words(counts_in_brackets), (OneOf(texts="("), OneOf("number NUMBER_WORD"))),
    Pass(_words(colors_before_counts), (OneOf("COLOUR+"), OneOf(manners="counts_shade"), OneOf("number NUMBER_WORD"))),
    Pass(_words(each_of_two_colors), (OneOf("COLOUR+"), OneOf(manners="and_word"), OneOf("number NUMBER_WORD"))),
    Pass(_words(each_ahead), (OneOf("COLOUR+"), OneOf("EACH"), OneOf("number NUMBER_WORD"))),
    Pass(_words(plants_that_were_dug), (OneOf("DUG"), OneOf(manners="that_word"), OneOf("number NUMBER_WORD"))),
    Pass(
        _words(plants_meant_again),
        (OneOf("PLANTS"), OneOf("number NUMBER_WORD"), OneOf("MOSTLY COLOUR"), OneOf(manners="upon_plant upon_plants")),
    ),
    Pass(
        _words(one_and_another),
        (
            OneOf("number NUMBER_WORD NONE"),
            OneOf(begun="on_other_plant other_plant"),
            OneOf(begun="on_one_plant_of one_plant_of"),
        ),
    ),
    Pass(
        plants_of_each,
        (OneOf("PLANTS DUG"), OneOf("number NUMBER_WORD"), OneOf(manners="place_count place_unit place_dug")),
    ),
    Pass(_words(plants_by_number), (OneOf("PLANTS ending", texts="#"), OneOf("number range NUMBER_WORD"))),
    Pass(_shape(some_by_number), (OneOf("PLANTS ending"), OneOf("HAD"))),
    Pass(_text(little_letters), (OneOf("range", texts="a o e y r"),)),
    Pass(_words(counts_under_letters), (OneOf("number ratio series day"),)),
    Pass(tallied, (OneOf("COLOUR"), OneOf(texts="|"))),
    Pass(_shape(counts_under_colors), (OneOf("COLOUR+"), OneOf("number"))),
    Pass(_words(crop_apart), (OneOf("ROOTS TOPS"), OneOf(manners="copula"))),
    Pass(_words(look_apart), (OneOf("DUG TOOL"), OneOf(manners="copula"))),
    Pass(_words(heading_one), (OneOf(manners="noun_one"), OneOf(texts=":"))),
    Pass(_words(figures_of_lists), (OneOf("number"), OneOf(texts="2 4"))),
    Pass(_words(lists_by_color), (OneOf("COLOUR+"), OneOf("EACH+"))),
    Pass(_words(acidity_tenths), (OneOf("PH"), OneOf("number NUMBER_WORD"))),
    Pass(_words(groups_told), (OneOf("FIELD+"), OneOf(begun="field_group field_rest"))),
    Pass(_words(colored_creatures), (OneOf("COLOUR"), OneOf(manners="talk_creature"))),
    Pass(_words(colored_things), (OneOf("COLOUR"),)),
    Pass(_words(counted_things), (OneOf("COLOUR"), OneOf("number NUMBER_WORD"), OneOf(manners="talk_creature"))),
    Pass(
        _words(colors_of_talk),
        (
            OneOf("COLOUR"),
            OneOf(
                manners="talk_colored_thing noun_one talk_colored_body talk_they_word",
                begun="talk_hardly_any talk_all_that",
            ),
        ),
    ),
    Pass(
        _words(by_persons),
        (OneOf("number NUMBER_WORD"), OneOf("DUG HAD"), OneOf(manners="talk_person_digs talk_persons_own")),
    ),
    Pass(
        _words(upon_one_plant),
        (
            OneOf("PLANTS", texts="root"),
            OneOf(begun="part_of_count whole_of_count", texts="("),
            OneOf(begun="on_one_plant"),
        ),
    ),
    Pass(_shape(counted_behind_dug), (OneOf("DUG"), OneOf("PLANTS"), OneOf("COLOUR"), OneOf(texts=","))),
    Pass(_words(more_than), (OneOf("COLOUR"), OneOf(manners="talk_than_word"))),
    Pass(_words(dug_and_found), (OneOf("DUG"), OneOf("number NUMBER_WORD"), OneOf(manners="counted"))),
    Pass(_words(found_by_one), (OneOf(begun="part_of_count"), OneOf(manners="talk_person_digs"))),
    Pass(_words(only_so_many), (OneOf("COLOUR FEMALES"), OneOf(manners="nothing_more"))),
    Pass(_words(of_them_told), (OneOf(begun="part_of_count"),)),
    Pass(_words(those_counted), (OneOf(manners="those_plants"), OneOf(manners="of_word"), OneOf("number NUMBER_WORD"))),
    Pass(_words(roots_of_some), (OneOf(begun="part_of_count"), OneOf("ROOTS ROOT"))),
    Pass(_words(females_on_some), (OneOf(begun="part_of_count"), OneOf("FEMALES"))),
    Pass(_words(check_mentioned), (OneOf("CHECK"), OneOf(texts=":"), OneOf(manners="leaves_strip"))),
    Pass(_words(gone_on_day), (OneOf("SPRAY"), OneOf("day WEEKDAY MONTH TODAY"), OneOf(manners="who_goes"))),
    Pass(_words(same_number), (OneOf(manners="same_bare"), OneOf(manners="how_many_word"))),
    Pass(fields_put_right, (OneOf("FIELD+"), OneOf(begun="repairs spoken_repair meant_instead"))),
    Pass(nth_told_first, (OneOf("FIELD+"), OneOf("NTH ORDINAL"))),
    Pass(seen_apart, (OneOf("DUG TOOL"), OneOf("COLOUR FEMALES"), OneOf(manners="noun_one", begun="there_is"))),
    Pass(_text(hoped_in_vain), (OneOf("COLOUR FEMALES"), OneOf(begun="hoped_for if_any"))),
    Pass(_words(sizes_denied), (OneOf("COLOUR"), OneOf("NONE", begun="denies_one"), OneOf(manners="size"))),
    Pass(_words(none_darker), (OneOf("COLOUR"), OneOf("NONE"), OneOf(begun="beyond_shade"))),
    Pass(_words(none_of_shades), (OneOf("COLOUR+"), OneOf("NONE NUMBER_WORD", texts="0"))),
    Pass(shades_denied, (OneOf("COLOUR"), OneOf("NONE", begun="denies_one"))),
    Pass(_words(shades_but), (OneOf("COLOUR"), OneOf(manners="rest_word", begun="all_but"))),
    Pass(_shape(sums_that_fit), (OneOf("number"), OneOf(texts="= == ("))),
    Pass(_words(sums_said), (OneOf("COLOUR+"), OneOf(manners="leads_sum and_then", texts="= ( ,"))),
    Pass(_shape(total_shaded), (OneOf("MOSTLY"), OneOf("COLOUR"), OneOf("PLANTS DUG TOOL ABOUT"))),
    Pass(_words(keyed), (OneOf(texts=": ="),)),
    Pass(_words(acidity_apart), (OneOf("PH POTASSIUM"),)),
    Pass(_shape(labelled), (OneOf(texts=": ="), OneOf("PLANTED LOOK ENTRY SOURCE ROOTS NODULES TOPS"))),
    Pass(_words(none_of_dug), (OneOf("NOT_LOOKED"),)),
    Pass(_words(no_time_for), (OneOf("FIELD SOAKED"), OneOf(begun="no_time"))),
    Pass(_words(nor_there), (OneOf("FIELD+"), OneOf(begun="nor_word as_well"), OneOf("NOT_LOOKED NONE"))),
    Pass(_words(pulled_out), (OneOf("PLANTS"), OneOf(manners="pulled_out"))),
    Pass(_words(none_dug), (OneOf("DUG"), OneOf("NONE NOT", texts="0"))),
    Pass(_words(shades_in_letters), (OneOf("COLOUR"),)),
    Pass(heard_stages, (OneOf(manners="heard_r", texts="r v"),)),
    Pass(_words(stage_words), (OneOf("STAGE_NAME", "leaf_stage trifoliate one says_r says_v", texts="r v"),)),
    Pass(_shape(staged_beans), (OneOf("PLANTS"), OneOf("COLOUR"), OneOf("stage MOSTLY"))),
    Pass(_words(place_words), (OneOf(manners="numbered_spot", texts="a"),)),
    Pass(_words(ends_and_sides), (OneOf(manners="place_head"),)),
    Pass(_fields(bearings), (OneOf(manners="bearing"),)),
    Pass(
        _shape(plants_behind_places), (OneOf(texts="("), OneOf("SPOT CHECK place FIELD+"), OneOf("number NUMBER_WORD"))
    ),
    Pass(_words(burnt_edges), (OneOf("EDGES"),)),
    Pass(_shape(places_plant_by_plant), (OneOf("EACH"), OneOf("SPOT"), OneOf(texts=":"))),
    Pass(rows_of_places, (OneOf("SPOT", begun="part_of_field"), OneOf("number NUMBER_WORD NONE"))),
    Pass(_fields(places_listed), (OneOf("SPOT CHECK range ratio series", "direction", texts="a n s e w"),)),
    Pass(_shape(raised_letters), (OneOf("number"), OneOf(texts="a o"))),
    Pass(_words(first_few), (OneOf("nth"), OneOf(texts="1st"))),
    Pass(_shape(nth_plants), (OneOf("nth NTH ORDINAL"),)),
    Pass(_shape(none_twice), (OneOf("NONE"), OneOf(texts=","))),
    Pass(_shape(ends_in_zero), (OneOf("NONE"),)),
    Pass(_shape(ends_of_lists), (OneOf("NONE"), OneOf("PLANTS DUG"), OneOf(manners="and_word"))),
    Pass(_shape(plants_in_brackets), (OneOf("EACH", texts="n"),)),
    Pass(_words(plants_by_quantity), (OneOf(manners="quantity"), OneOf("number NUMBER_WORD"))),
    Pass(
        _words(plants_at_each),
        (OneOf("PLANTS DUG"), OneOf("EACH", manners="once_more as_well", texts="each every either both cada per por")),
    ),
    Pass(_shape(durations), (OneOf("NUMBER_WORD"), OneOf("MEASURE"))),
    Pass(_words(all_told), (OneOf(manners="all_told"), OneOf(manners="upon_plant"))),
    Pass(_words(apart_from_tops), (OneOf("COLOUR"), OneOf("TOPS LEAF"), OneOf(manners="and_word"))),
    Pass(_shape(spoken_lists), (OneOf("NONE"),)),
    Pass(heard_units, (OneOf("NUMBER_WORD"), OneOf(manners="heard_1 heard_2 heard_4 heard_8"))),
    Pass(
        _text(figures_of_talk),
        (
            OneOf("number NUMBER_WORD"),
            OneOf(
                manners="talk_event_of_year talk_machine_word talk_hours_from talk_counted_past talk_one_lead "
                "talk_takes_along lasts talk_clock_joint",
                begun="talk_year_lead talk_age_lead talk_hour_lead talk_hour_sure talk_clock_lead",
                texts="' with a as",
            ),
        ),
    ),
    Pass(_words(dug_by_doing), (OneOf("DUG"), OneOf("number range NUMBER_WORD"), OneOf(manners="doing_dig"))),
    Pass(_words(number_words), (OneOf("NUMBER_WORD", "one_of between couple"),)),
    Pass(_words(acidity_apart), (OneOf("PH POTASSIUM"),)),
    Pass(_words(ends_of_months), (OneOf("MONTH"), OneOf(begun="first_of_month last_of_month"))),
    Pass(_words(day_words), (OneOf("MONTH WEEKDAY TODAY WEEK_PART ORDINAL nth", "nth_lead day_lead"),)),
    Pass(_words(weeks_before), (OneOf("day"), OneOf(begun="week_before"))),
    Pass(
        _words(counted_from),
        (
            OneOf("SPRAY CHEMICAL PLANTED LOOK", "spray_verb put_verb"),
            OneOf("AGO", "days_since days_after_spray had_spray put_verb with_word with_letter"),
        ),
    ),
    Pass(_shape(days_told_once), (OneOf("day"), OneOf("day+", "day_lead"))),
    Pass(_words(visits_again), (OneOf("day"), OneOf("LOOK"), OneOf("FIELD"))),
    Pass(_words(planted_days), (OneOf("range", "planted_short"),)),
    Pass(labels_put_right, (OneOf("number"), OneOf("ending"), OneOf(begun="repairs stopped_repair meant_instead"))),
    Pass(lists_put_right, (OneOf("number"), OneOf(manners="points_to"), OneOf(begun="is_word should_be"))),
    Pass(counts_told_anew, (OneOf("number"), OneOf("COLOUR FEMALES"), OneOf(begun="repairs spoken_repair"))),
    Pass(_right, (OneOf("number stage"), OneOf("NOT", begun="repairs spoken_repair stopped_repair"))),
    Pass(_words(next_looks), (OneOf("day"), OneOf("LOOK", "tries"), OneOf("TOOL", "tries"))),
    Pass(_words(days_of_events), (OneOf("day"),)),
    Pass(_words(days_of_others), (OneOf("day UNIT", "nth_lead"), OneOf("FIELD"))),
    Pass(_fields(days_of_visits), (OneOf("AGO", "days_old day_led"), OneOf("FIELD"), OneOf("number NUMBER_WORD UNIT"))),
    Pass(_words(plants_to_come), (OneOf("LOOK"), OneOf("day UNIT"), OneOf("number"))),
    Pass(_words(visits_promised), (OneOf("day UNIT", "nth_lead"), OneOf(begun="sure_visit once_again"))),
    Pass(_text(places_first), (OneOf("PLANTS DUG"), OneOf("SPOT TOP", "at lies_by place_lead"))),
    Pass(_words(seed_ahead), (OneOf("RESISTANCE SOURCE VARIETY"), OneOf("PLANTS"), OneOf(texts=":"))),
    Pass(_shape(each_of_shades), (OneOf("EACH"), OneOf("COLOUR"), OneOf(texts="/"))),
    Pass(_words(counted_there), (OneOf("TOTAL"), OneOf("COLOUR"), OneOf(manners="who_counts"))),
    Pass(_words(nodules_cut), (OneOf("NODULES"), OneOf("NODULE"), OneOf("COLOUR"), OneOf(begun="when_cut"))),
    Pass(_words(opened_nodules), (OneOf("NODULES"), OneOf("NODULE"), OneOf(manners="cut_open"))),
    Pass(_words(colors_of_no_root), (OneOf("ROOTS ROOT NODULES NODULE"), OneOf("NOT"), OneOf("COLOUR"))),
    Pass(_words(shades_said), (OneOf("COLOUR"), OneOf(manners="shade_lead"))),
    Pass(_shape(none_had), (OneOf("HAD"), OneOf("NUMBER_WORD"))),
    Pass(_words(total_upon), (OneOf("number"), OneOf(texts=","), OneOf("PLANTS"), OneOf(manners="at upon_plant"))),
    Pass(_words(entry_apart), (OneOf("ENTRY"), OneOf("UNIT"), OneOf("number NUMBER_WORD"))),
    Pass(_words(shapes_uncounted), (OneOf("TOP"), OneOf(manners="at"), OneOf("COLOUR TOP GREEN VEINS EDGES"))),
    Pass(_words(shares_counted), (OneOf("COLOUR+"), OneOf("day measure", "half_word third_word quarter_word"))),
    Pass(_words(shares_of_else), (OneOf("day"), OneOf(manners="share_whole"))),
    Pass(_words(compared), (OneOf(manners="compared_with"),)),
    Pass(_words(shared), (OneOf("HAD FEMALES NONE", "infest_word negative_word"),)),
    Pass(_words(loosened), (OneOf(manners="eased_verb"),)),
    Pass(_words(each_of_them), (OneOf("PLANTS"), OneOf("HAD", "carried_word"))),
    Pass(
        _words(headings),
        (OneOf("SOAKED HAD FEMALES range ending", "times through of_word determiner size", texts="x * = ("),),
    ),
    Pass(_words(among_colors), (OneOf("COLOUR"), OneOf(manners="among"))),
    Pass(_words(shade_behind), (OneOf("COLOUR"), OneOf(manners="lone_word for_both"))),
    Pass(_words(by_their_color), (OneOf("COLOUR"), OneOf(manners="noun_one it_was"))),
    Pass(_words(roots_of_the_rest), (OneOf("ROOT"), OneOf("ROOTS"))),
    Pass(_words(dug_in_all), (OneOf("TOTAL"),)),
    Pass(_words(dug_so_many), (OneOf("DUG TOOL"), OneOf(manners="they_were"), OneOf("number NUMBER_WORD"))),
    Pass(_shape(counted_of_each), (OneOf("FIELD+"), OneOf("FEMALES"), OneOf("number"))),
    Pass(_words(females_told), (OneOf("number"), OneOf("EACH NONE ROOTS SOAKED", "gave found_behind", texts="("))),
    Pass(_words(ratios), (OneOf("number NUMBER_WORD"), OneOf("TOP", begun="of_every"))),
    Pass(_words(grouped), (OneOf("NONE EACH HAD PLANTS+", "rest_none which_plants group_verb"),)),
    Pass(
        _shape(others_told),
        (
            OneOf("PLANTS ending number day ORDINAL", "mark_noun", texts="#"),
            OneOf("NONE", texts="0"),
            OneOf(manners="rest_none rest_word rest_of_plants other_word last_plant"),
        ),
    ),
    Pass(_words(on_some), (OneOf("COLOUR FEMALES"), OneOf(manners="upon_plant other_word rest_of_plants"))),
    Pass(_words(more_elsewhere), (OneOf("FIELD+"), OneOf(manners="another_before more_word"), OneOf(manners="at"))),
    Pass(
        _words(plants_again),
        (OneOf("PLANTS DUG SPOT CHECK FIELD+"), OneOf("HAD", "another_before more_word gave upon_plant", texts="=")),
    ),
    Pass(_words(plants_at_places), (OneOf(manners="place_unit"),)),
    Pass(_shape(mark_plants)),
)
"""In the order they are done: each builds on what those before it made."""


@cache
def _kinds() -> frozenset[str]:
    """Kinds of piece and of word that any pass asks for; "sign" and "line", of which none does, are words as well."""
    return frozenset(kind.rstrip("+") for step in PASSES for need in step.needs for kind in need.kinds.split())


@cache
def _needs() -> tuple[dict[str, int], int]:
    """What is told, with the needs it meets, and how many needs a pass has at most.

    The first need of each pass is a bit at the pass's own place, the second as far behind it as there are passes, and
    so on: what is left of all met when these blocks are laid over one another are the passes that are due. A need that
    a pass does not have is met by anything (the mark "").
    """
    most = max(len(step.needs) for step in PASSES)
    met: dict[str, int] = {}
    for n, step in enumerate(PASSES):
        for k in range(most):
            for mark in step.needs[k].marks if k < len(step.needs) else ("",):
                met[mark] = met.get(mark, 0) | 1 << (k * len(PASSES) + n)
    return met, most


def told_in(pieces: Sequence[Piece]) -> set[str]:
    """The kinds of the pieces that passes ask for, what their words may mean, and the words."""
    asked = _kinds()
    told: set[str] = set()
    for piece in pieces:
        for mark in (piece.kind, *piece.types) if piece.kind in asked else piece.types:
            told.add(f"{mark}+" if mark in told else mark)
        told.add(piece.text)
        if " " in piece.text:
            told.update(piece.text.split(" "))
        if piece.kind == "number" and piece.text.endswith(NTH_ENDS):
            told.add("nth")
        if piece.kind == "word" and piece.text[-1:].isdigit():
            told.add("ending")
    return told


def due(told: Set[str], begin: int = 0) -> list[int]:
    """The passes, from one on, that can change something where this is told: all they need is met."""
    met, most = _needs()
    all_met = met[""]
    for mark in met.keys() & told:
        all_met |= met[mark]
    left = (1 << len(PASSES)) - (1 << begin)
    for _ in range(most):
        left &= all_met
        all_met >>= len(PASSES)
    found: list[int] = []
    while left:
        last = left.bit_length() - 1
        found.append(last)
        left ^= 1 << last
    return found[::-1]


def gone_over(draft: Draft, made: Table) -> list[Piece]:
    """The pieces of a draft behind all passes; what the passes themselves tell or ask stands in the draft."""
    ahead = due(told_in(draft.pieces))
    while ahead:
        n = ahead.pop(0)
        before = draft.pieces
        draft.pieces = PASSES[n].walk(draft, made)
        if draft.pieces != before:
            ahead = due(told_in(draft.pieces), n + 1)
    return draft.pieces
