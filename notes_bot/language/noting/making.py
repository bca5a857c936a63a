"""The facts of one note to a Note: each kind of clause is read in the room of its matter, then all is put together."""

from __future__ import annotations

from dataclasses import replace

from notes_bot.language.clauses.context import Context
from notes_bot.language.clauses.facts import Fact
from notes_bot.language.lexicon.mistakes import place
from notes_bot.language.noting.averages import find_averaged
from notes_bot.language.noting.crop import ROOT_WORDS, top_words
from notes_bot.language.noting.days import find_day
from notes_bot.language.noting.doubts import (
    ask_for_doubt,
    ask_for_finding,
    ask_for_nodules,
    ask_for_number_words,
    ask_for_shorthand,
    ask_for_words,
    ask_for_yellow,
    check_tan,
)
from notes_bot.language.noting.in_words import told_in_words
from notes_bot.language.noting.kinds import READ
from notes_bot.language.noting.others import now_again, of_others, of_the_past
from notes_bot.language.noting.outcome import check_positive, dug_all_the_same, kept_out, outcome_of
from notes_bot.language.noting.page import FEMALE_KINDS, Page
from notes_bot.language.noting.places import Placed, over_places, settle_spots, spot, total_of_all
from notes_bot.language.noting.same import with_same
from notes_bot.language.noting.shades import shade_places
from notes_bot.language.noting.soil import moisture
from notes_bot.language.noting.strays import settle_strays
from notes_bot.model import Females, Note, Soil, Spray

_IN_PASSING = frozenset({"date", "moisture", "tops", "texture", "shades", "too_many", "spray", "stage"})
"""What is dropped where it is told of others."""


def make_note(context: Context, name: Fact | None, facts: list[Fact], header: list[Fact]) -> Note:
    """The note; complaints and remarks go to the context."""
    page = Page(context, name, facts, header)
    asides = [fact for fact in page.facts if fact.kind in _IN_PASSING and of_others(page, fact)]
    if asides:
        page.lay([fact for fact in page.facts if fact not in asides])
    for fact in asides:
        page.keep(fact)
        page.quoted.add(fact.start)
    find_day(page)
    page.averaged = find_averaged(page)
    past = [fact for fact in page.facts if fact.kind in FEMALE_KINDS and of_the_past(page, fact)]
    plants = [f for f in page.facts if f.kind == "plants"]
    then = [f for f in plants if of_the_past(page, f) and not now_again(page, f)]
    past += then if len(then) < len(plants) or past else []  # "last week: 6 plants, 3 white" is a late note
    for fact in page.facts:
        if fact in past:
            page.keep(fact)
            page.quoted.add(fact.start)
        else:
            READ[fact.kind](page, fact)
    told = [fact for fact in past if fact.kind in FEMALE_KINDS]
    if told and not any(fact.kind in FEMALE_KINDS for fact in page.facts if fact not in past):
        page.complain("doubtful", told[0])
    told_in_words(page)
    settle_strays(page)
    for scope in page.spots if page.each_place is not None else ():
        scope.plants = page.each_place if scope.plants is None else scope.plants
    for scope in (page.main, *page.spots):
        inherited = page.main.plants if not page.spots else None
        scope.spread_averages(page.context, scope.plants if scope.plants is not None else inherited)
    return _put_together(page)


def _put_together(page: Page) -> Note:
    """What the clauses told, put together; then what is to be asked about."""
    settle_spots(page)
    shade_places(page)
    for scope in (page.main, *page.spots):
        scope.color_of_one()
    total_of_all(page)
    main, main_list = page.main.females(page.context)
    counted: list[Placed] = [(scope, *scope.females(page.context)) for scope in page.spots]
    kept = [row for row in counted if row[0].said or row[0].plants is not None]
    places = [row for row in kept if not row[0].check]
    females, per_plant = main, main_list
    plants = page.main.plants if page.main.plants is not None or main_list is None else len(main_list)
    if places:
        females, per_plant, plants = over_places(page, places, main, main_list, plants)
    own = [page.main, *(scope for scope, _, _ in places)]
    mostly = tuple(dict.fromkeys(colour for scope in own for colour in scope.mostly))
    check_positive(page, own)
    shades = next((f for f in page.facts if f.kind == "shades" and f.has("COLOUR")), None)
    if females.total == 0 and mostly and shades is not None and not page.context.problems:
        page.complain("none_and_shade", shades)
    note = Note(
        field=page.name.first("FIELD") if page.name is not None else None,
        date=page.date,
        plants=plants,
        method=page.method,
        soaked=page.soaked,
        females=females,
        mostly=mostly,
        per_plant=per_plant,
        spots=tuple(spot(*row) for row in kept),
        outcome=outcome_of(page, own, females, mostly),
        soil=Soil(moisture(page), page.texture, page.ph, page.k_ppm),
        stage=page.stage,
        roots=tuple(sorted(page.roots, key=ROOT_WORDS.index)),
        tops=top_words(page),
        variety=page.variety,
        spray=page.spray if page.entry_hours is None else replace(page.spray or Spray(), entry_hours=page.entry_hours),
        look_again=page.look,
        planted=page.planted,
        too_many=any(scope.too_many for scope in own),
    )
    if note.outcome == "not_looked":
        none = note.females.total == 0
        # "no tuve pala", "the fork was in the other truck", "next time i'll do 12 plants"
        note = note if dug_all_the_same(page, note) else replace(note, method=None, plants=None)
        note = replace(note, females=Females()) if none else note  # "no luck, couldnt dig"
    note = with_same(page, note)
    check_tan(page, note)
    spoken = [*page.own, *([page.name] if page.name is not None else [])] or page.facts
    start, end = min(f.start for f in spoken), max(f.end for f in spoken)
    text = page.free_text()
    if kept_out(page, note, page.context.text[start:end] if text else ""):
        note = replace(note, outcome="not_looked", method=None)
    ask_for_words(page, note, text, start, end)
    ask_for_yellow(page, shades, mostly)
    ask_for_finding(page, note)
    ask_for_shorthand(page, note)
    ask_for_nodules(page, note)
    ask_for_doubt(page)
    ask_for_number_words(page, note)
    return replace(note, text=text, where=place(page.context.text, start, end))
