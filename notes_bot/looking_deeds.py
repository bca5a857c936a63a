"""Commands about looks: how many plants, what they told, and the crew's own digging trial.

One deed, one function, as in deeds.py.
"""

from __future__ import annotations

from collections.abc import Mapping

from notes_bot import noted, own_trial, worth
from notes_bot.deeds import Deed, Work, field_for, state_of
from notes_bot.model import Command, Fact, Field, NewEvent
from notes_bot.reply import compose_plan, compose_told, compose_trial


def _soil_of(work: Work, known: Field | None) -> str | None:
    return noted.last_texture(work.season(known, work.today)) if known is not None else None


def _asked_field(work: Work, command: Command) -> tuple[Field | None, bool]:
    """The field a question names, or its conversation's; false when it names one that is not known."""
    if not command.args.get("field"):
        return work.field_by_id(work.thread_field), True
    known = field_for(work, command)
    return known, known is not None


def _look_plan(work: Work, command: Command) -> None:
    """How many plants, by which method, at how many places."""
    known, clear = _asked_field(work, command)
    if not clear:
        return
    args = command.args
    method, percent = args.get("method"), args.get("percent")
    advice = worth.plan_look(
        args.get("texture") or _soil_of(work, known),
        moisture=args.get("moisture") or "moist",
        places=min(max(int(args.get("places") or worth.PLACES), 1), 20),
        sure=(int(percent),) if percent else worth.SURE,
        way=(method, bool(args.get("soaked")))
        if method
        else ("shovel", False)
        if args.get("soaked") is False
        else None,
        recoveries=work.recoveries(),
    )
    outlook = work.outlook(known, work.today) if known is not None else None
    work.letters.append(compose_plan(advice, known, outlook, work.writer, year=work.today.year, language=work.language))


def _look_worth(work: Work, command: Command) -> None:
    """What so many plants told; without a number, what the last look at the field told."""
    known, clear = _asked_field(work, command)
    if not clear:
        return
    args = dict(command.args)
    if not args.get("plants"):
        known = known or field_for(work, command)
        last = work.season(known, work.today)[-1:] if known is not None else []
        if known is None or not last or not noted.plants_dug(last[0].note):
            if known is not None:
                state_of(work, Command("state", {"field": known.name}))
            return
        note = last[0].note
        args = {"plants": noted.plants_dug(note), "method": note.method, "soaked": note.soaked}
        args |= {"moisture": note.soil.moisture, "texture": note.soil.texture}
    told = worth.tell_look(
        min(int(args["plants"]), 1000),
        args.get("method"),
        args.get("soaked"),
        args.get("moisture"),
        args.get("texture") or _soil_of(work, known),
        places=args.get("places"),
        recoveries=work.recoveries(),
    )
    work.letters.append(compose_told(told, known, work.writer, year=work.today.year, language=work.language))


def _trial(work: Work, command: Command) -> None:
    """Counts of the crew's own digging trial, kept and read into its own figures; or the last sheet taken back."""
    sent = [*work.store.crew_events(work.writer.crew, "trial"), *(e.args for e in work.events if e.kind == "trial")]
    if command.args.get("drop"):
        fact = own_trial.dropped(sent)
        work.answers.append(fact)
        if fact.key == "trial_dropped":
            work.events.append(NewEvent("trial", {"drop": True}, None, work.writer.id))
        return
    known, clear = _asked_field(work, command)
    if not clear:
        return
    sheet = own_trial.sheet_from(command.args, _soil_of(work, known))
    if sheet is None:
        work.answers.append(Fact("trial_how", {}))
        return
    told = own_trial.told(sheet, [*sent, sheet])
    work.answers.extend(told)
    if told[0].key == "trial_kept":
        work.events.append(NewEvent("trial", sheet, known.id if known else None, work.writer.id))


def _trial_help(work: Work, _command: Command) -> None:
    """How to run the trial, and what the crew's own has said so far."""
    work.letters.append(compose_trial(own_trial.figures(work.recoveries()), work.language))


LOOKING: Mapping[str, Deed] = {
    "look_plan": _look_plan,
    "look_worth": _look_worth,
    "trial": _trial,
    "trial_help": _trial_help,
}
"""Deeds about looks, by kind of command."""
