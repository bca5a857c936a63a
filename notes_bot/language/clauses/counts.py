"""What was counted in one place: numbers by color, per plant or in total, and whether they agree."""

from __future__ import annotations

from dataclasses import dataclass, field

from notes_bot.language.clauses.context import Context
from notes_bot.language.clauses.facts import Fact
from notes_bot.model import COLOURS, Colour, Females

Named = tuple[tuple[int, ...], Colour | None]
"""Numbers one per plant, of one color or of all."""
ROUNDED = 0.5
"""How far an average told in words may be from what was counted: "nearly 4" of 3.8 (judgement)."""


@dataclass(slots=True)
class Scope:
    """Counts of one place of the field, of a check strip, or of the note as a whole."""

    name: str = ""
    check: bool = False
    start: int = 0
    end: int = 0
    plants: int | None = None
    positive: int | None = None
    colours: dict[Colour, int] = field(default_factory=dict)
    lists: list[Named] = field(default_factory=list)
    records: list[dict[Colour | None, int]] = field(default_factory=list)
    """Plants told one by one: counts by color, or under ``None`` without one."""
    total: int | None = None
    zeros: list[Colour] = field(default_factory=list)
    """Colors said not to be there."""
    mostly: list[Colour] = field(default_factory=list)
    rest: Colour | None = None
    """The color of all that are not counted by color."""
    rest_at: tuple[int, int] = (0, 0)
    all_of: bool = False
    none: bool = False
    too_many: bool = False
    counts: list[Fact] = field(default_factory=list)
    averages: dict[Colour | None, float] = field(default_factory=dict)
    average_at: tuple[int, int] = (0, 0)
    average_of: int | None = None
    """Plants that had so many each, where it is not said of all: "two of them had females, one white each"."""

    @property
    def counted(self) -> bool:
        """Was a number of females told here?"""
        return bool(self.colours or self.lists or self.records or self.averages or self.total is not None)

    @property
    def said(self) -> bool:
        """Was anything said of females here?"""
        return self.counted or bool(self.none or self.too_many or self.mostly or "white" in self.zeros)

    @property
    def summed(self) -> int:
        """What was counted by color, plant by plant or in a list, a total aside."""
        listed = sum(sum(values) for values, _ in self.lists)
        return sum(self.colours.values()) + listed + sum(sum(record.values()) for record in self.records)

    def shade(self, colour: Colour) -> None:
        """A color said without a number."""
        if colour not in self.mostly:
            self.mostly.append(colour)

    def spread_averages(self, context: Context, plants: int | None) -> None:
        """ "3 white per plant" on 6 plants is 18; without plants it is asked about."""
        if not self.averages:
            return
        start, end = self.average_at
        shown = " ".join(f"{value:g}" for value in self.averages.values())
        plants = self.average_of if self.average_of is not None else plants
        if plants is None:
            context.complain("how_many_plants", start, end)
            return
        for colour, value in self.averages.items():
            whole = round(value * plants)
            if colour is None and self._rounds_to(value, plants):
                return  # "38 females on ten plants, nearly 4 a plant"
            if colour is None and self.total not in (None, whole):
                context.complain("sum_mismatch", start, end, sum=whole, total=self.total)
                return  # "6 plants, 9 females, 2.5 a plant"
            if colour is None:
                self.total = whole
            else:
                self.colours[colour] = whole
        read = " ".join(str(round(value * plants)) for value in self.averages.values())
        context.mention("per_plant", start, end, text=shown, plants=plants, read=read)

    def _rounds_to(self, value: float, plants: int) -> bool:
        """Is so many a plant what was counted, rounded?"""
        told = self.summed or self.total
        if not told or not plants or told == round(value * plants):
            return False
        return abs(told / plants - value) < ROUNDED

    def females(self, context: Context) -> tuple[Females, tuple[int, ...] | None]:
        """Totals and the per-plant list, with complaints where the numbers contradict each other."""
        if len(self.records) > 1 and not self.records[-1] and self.counts:
            last = self.counts[-1]  # "second none, third three dug": what the last had is not known
            context.complain("stray_number", last.start, last.end, number=len(self.records))
        one_by_one = bool(self.records and self.counts)
        self._close_records()
        per_plant = next((values for values, colour in self.lists if colour is None), None)
        coloured = [(values, colour) for values, colour in self.lists if colour is not None]
        colours = dict(self.colours)
        for values, colour in coloured:
            colours[colour] = colours.get(colour, 0) + sum(values)
        if coloured and per_plant is None and len({len(values) for values, _ in coloured}) == 1:
            per_plant = tuple(sum(column) for column in zip(*(values for values, _ in coloured), strict=True))
        total = self._listed_total(context, per_plant, one_by_one)
        if per_plant is not None and self.plants is not None and self.positive == len(per_plant) < self.plants:
            per_plant = None
        silent = total is None and not colours and not self.mostly and not self.too_many
        if silent and "white" in self.zeros:
            total = 0
        at = self.counts[-1] if self.counts else None
        if colours and self.rest is not None and self.rest not in colours and total is not None:
            colours[self.rest] = max(0, total - sum(colours.values()))  # "31 females, 28 white, rest yellow"
            self.mostly = [colour for colour in self.mostly if colour != self.rest]
        elif colours and self.rest is not None and self.rest not in colours and total is None and not self.lists:
            context.complain("doubtful", *self.rest_at)  # "5 white and the rest yellow": how many?
        if colours:
            summed = sum(colours.values())
            if at is not None and total is not None and total != summed:
                context.complain("sum_mismatch", at.start, at.end, sum=summed, total=total)
            if at is not None and self.none and summed:
                context.complain("none_and_some", at.start, at.end, count=summed)
            full = {colour: colours.get(colour, 0) for colour in COLOURS}
            return Females(**full, total=summed), per_plant
        if at is not None and self.none and total:
            context.complain("none_and_some", at.start, at.end, count=total)
        if total == 0 or (self.none and not total):
            return Females(0, 0, 0, 0, 0), per_plant
        if total is not None and self.all_of and len(self.mostly) == 1:
            full = dict.fromkeys(COLOURS, 0)
            full[self.mostly[0]] = total
            return Females(**full, total=total), per_plant
        return Females(total=total), per_plant

    def color_of_one(self) -> None:
        """ "Só 1. Branca.": of a single female the color is no "mostly"."""
        bare = not (self.colours or self.lists or self.records or self.averages or self.positive)
        if self.total == 1 and len(self.mostly) == 1 and bare:
            self.colours[self.mostly[0]] = 1
            self.total = None
            self.mostly.clear()

    def _listed_total(self, context: Context, per_plant: tuple[int, ...] | None, one_by_one: bool) -> int | None:
        if per_plant is None:
            return self.total
        if self.positive == len(per_plant) and self.plants is not None and self.plants > len(per_plant):
            return sum(per_plant)  # "4 of 12 had females: 3, 1, 7 and 2": the others had none
        listed = next((f for f in self.counts if len(f.numbers) > 1), self.counts[-1] if one_by_one else None)
        if listed is not None and self.plants is not None and len(per_plant) != self.plants:
            shown = " ".join(map(str, per_plant))
            context.complain(
                "short_list", listed.start, listed.end, plants=self.plants, count=len(per_plant), list=shown
            )
        at = self.counts[-1] if self.counts else None
        if at is not None and self.total is not None and self.total != sum(per_plant):
            context.complain("sum_mismatch", at.start, at.end, sum=sum(per_plant), total=self.total)
        return sum(per_plant)

    def _close_records(self) -> None:
        """Plants told one by one become a list, and counts by color when every plant with females names them."""
        if not self.records:
            return
        used = {colour for record in self.records for colour in record if colour is not None}
        first = next((record for record in self.records if any(record.values())), {})
        if len(used) == 1 and None not in first:  # "5 white on the first, 0 on the second, 2 on the third"
            only = next(iter(used))
            self.records = [{only: sum(record.values())} if record else record for record in self.records]
        self.lists.append((tuple(sum(record.values()) for record in self.records), None))
        if all(colour is not None or not count for record in self.records for colour, count in record.items()):
            for record in self.records:
                for colour, count in record.items():
                    if colour is not None:
                        self.colours[colour] = self.colours.get(colour, 0) + count
        self.records = []
