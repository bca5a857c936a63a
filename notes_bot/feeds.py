"""Calendar files people can subscribe to: one a person, written anew whenever a look-again window changes.

A web server of the keeper's hands them out; the service itself opens no such door. A file's name holds a part no
stranger can guess, as anybody who knows the address can read it. What is over is no longer in the file, so a calendar
program that reads it again drops it.
"""

from __future__ import annotations

import hashlib
import hmac
from datetime import datetime
from pathlib import Path

from notes_bot.model import Person
from notes_bot.reply import calendar_for
from notes_bot.settings import Settings
from notes_bot.store import Store

FOLDER = "feeds"


def feed_name(person: Person, key: bytes) -> str:
    """The file's name: stable for a person as long as the service's key stays."""
    secret = hmac.new(key, f"feed-{person.id}".encode(), hashlib.sha256).hexdigest()[:20]
    return f"looks-{person.id}-{secret}.ics"


def write_feeds(store: Store, settings: Settings, key: bytes, now: datetime) -> list[Path]:
    """Each person's file: a scout's own open looks, all of the crew's for a supervisor."""
    folder = settings.service.folder / FOLDER
    folder.mkdir(mode=0o755, parents=True, exist_ok=True)
    written = []
    fields = {known.id: known for crew in store.crews() for known in store.fields(crew)}
    for person in store.people():
        windows = [
            (fields[promise.field_id], promise)
            for promise in store.open_promises(person.crew)
            if (person.role == "supervisor" or promise.person_id == person.id)
            and promise.field_id in fields
            and not fields[promise.field_id].muted
        ]
        address = settings.service.address
        body = calendar_for(
            windows, now=now, organizer=address, zone=person.timezone, language=person.language, feed=True
        )
        path = folder / feed_name(person, key)
        part = path.with_suffix(".part")
        part.write_bytes(body)
        part.replace(path)
        written.append(path)
    return written
