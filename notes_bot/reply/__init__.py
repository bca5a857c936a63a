"""What goes out: finished values to words, pictures and calendars. Chooses what to say, never what is true."""

from notes_bot.reply.calendar import calendar_for
from notes_bot.reply.compose import (
    compose,
    compose_done,
    compose_due,
    compose_held,
    compose_help,
    compose_history,
    compose_state,
    compose_switched,
    compose_unreadable,
)
from notes_bot.reply.crew_map import crew_map
from notes_bot.reply.digest import compose_digest, drawn_by_season, told_in_full
from notes_bot.reply.figures import season_figure
from notes_bot.reply.letters import together
from notes_bot.reply.looking import compose_plan, compose_told, compose_trial
from notes_bot.reply.reminder import compose_reminder
from notes_bot.reply.week_strip import week_strip
from notes_bot.reply.winter import compose_report, compose_sheet
from notes_bot.reply.words import say

__all__ = [
    "calendar_for",
    "compose",
    "compose_digest",
    "compose_done",
    "compose_due",
    "compose_held",
    "compose_help",
    "compose_history",
    "compose_plan",
    "compose_reminder",
    "compose_report",
    "compose_sheet",
    "compose_state",
    "compose_switched",
    "compose_told",
    "compose_trial",
    "compose_unreadable",
    "crew_map",
    "drawn_by_season",
    "say",
    "season_figure",
    "together",
    "told_in_full",
    "week_strip",
]
