"""The one database file: raw mail in, records, mail out."""

from notes_bot.model import DatabaseWrong
from notes_bot.store.inbox import ImapPlaces, Inbox, NotKept
from notes_bot.store.outbox import Outbox, Queued, Turn
from notes_bot.store.store import HeldNote, Kept, Looks, Store, Told, instant_from, instant_text, open_database
from notes_bot.store.upgrade import copy_file

__all__ = [
    "DatabaseWrong",
    "HeldNote",
    "ImapPlaces",
    "Inbox",
    "Kept",
    "Looks",
    "NotKept",
    "Outbox",
    "Queued",
    "Store",
    "Told",
    "Turn",
    "copy_file",
    "instant_from",
    "instant_text",
    "open_database",
]
