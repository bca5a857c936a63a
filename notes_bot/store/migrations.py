"""The tables, in order, one function each step. Applying them again is harmless."""

from __future__ import annotations

from sqlite_utils import Database, Migrations

steps = Migrations("notes_bot")


@steps()
def m001_mail(db: Database) -> None:
    """Raw mail in and out. Instants are ISO 8601 UTC text with microseconds, so text order is time order."""
    db.table("inbox").create(
        {
            "id": int,
            "arrived_at": str,
            "door": str,  # smtp, imap, drop
            "peer": str,  # address of the other end, mailbox and UID, or file name
            "envelope_from": str,
            "envelope_to": str,  # JSON list
            "raw": bytes,
            "state": str,  # waiting, done, held, filed, stuck
            "reason": str,  # why held, filed or stuck
            "tries": int,
            "trouble": str,  # traceback of the last failure
            "finished_at": str,
            "message_id": str,
            "sender": str,
            "person_id": int,
            "first_line": str,  # of a held message, for the supervisor who decides
            "repeat_key": str,  # (person, Message-ID, text): the same message by two ways is one
        },
        pk="id",
        not_null={"arrived_at", "door", "raw", "state"},
        defaults={"tries": 0},
    )
    db.table("inbox").create_index(["state", "id"])
    db.table("inbox").create_index(["repeat_key"])
    db.table("inbox").create_index(["message_id"])
    db.table("outbox").create(
        {
            "id": int,
            "queued_at": str,
            "kind": str,  # answer, reminder, digest, notice
            "door": str,  # mail, text
            "inbox_id": int,
            "person_id": int,
            "field_id": int,
            "envelope_from": str,
            "recipient": str,
            "message_id": str,
            "raw": bytes,  # finished bytes: a retry sends the same message
            "body": str,  # the text part, so that quoted lines can be known as ours
            "state": str,  # waiting, sent, failed, expired
            "next_try_at": str,
            "expires_at": str,
            "tries": int,
            "last_error": str,
            "finished_at": str,
        },
        pk="id",
        not_null={"queued_at", "kind", "recipient", "message_id", "raw", "state", "next_try_at"},
        defaults={"tries": 0},
    )
    db.table("outbox").create_index(["state", "next_try_at"])
    db.table("outbox").create_index(["message_id"], unique=True)
    db.table("outbox").create_index(["inbox_id"])
    db.table("imap_places").create({"mailbox": str, "uidvalidity": int, "last_uid": int}, pk="mailbox")


@steps()
def m002_crew(db: Database) -> None:
    """People and fields. What the settings file names is copied here at start; what mail adds stays here."""
    db.table("people").create(
        {
            "id": int,
            "name": str,
            "role": str,
            "crew": str,
            "addresses": str,  # JSON list
            "language": str,
            "timezone": str,
            "day_first": int,
            "units": str,
            "hour": int,
            "reachable": int,
            "unreachable_since": str,
        },
        pk="id",
    )
    db.table("people").create_index(["crew", "name"], unique=True)
    db.table("fields").create(
        {
            "id": int,
            "name": str,
            "crew": str,
            "aliases": str,  # JSON list
            "latitude": float,
            "longitude": float,
            "planted": str,
            "resistance": str,
            "source": str,
            "variety": str,
            "place": str,
            "acres": float,
            "muted": int,
        },
        pk="id",
    )
    db.table("fields").create_index(["crew", "name"], unique=True)


@steps()
def m003_records(db: Database) -> None:
    """What was seen and promised. Append-only: a correction adds a row and names the row it replaces."""
    db.table("visits").create(
        {
            "id": int,
            "inbox_id": int,
            "field_id": int,
            "person_id": int,
            "day": str,
            "day_assumed": int,
            "note": str,  # JSON of model.Note
            "entry_closed_until": str,
            "recorded_at": str,
            "replaced_by": int,  # id of the visit that supersedes it; 0 = taken back
        },
        pk="id",
    )
    db.table("visits").create_index(["field_id", "day"])
    db.table("visits").create_index(["inbox_id"])
    db.table("events").create(
        {
            "id": int,
            "inbox_id": int,
            "at": str,
            "person_id": int,
            "field_id": int,
            "kind": str,  # a command's kind
            "args": str,  # JSON
        },
        pk="id",
    )
    db.table("events").create_index(["field_id", "kind"])
    db.table("held_notes").create(
        {
            "id": int,
            "inbox_id": int,
            "person_id": int,
            "note": str,
            "nearest": str,  # JSON list
            "day": str,
            "state": str,  # waiting, placed, dropped
        },
        pk="id",
    )
    db.table("held_notes").create_index(["person_id", "state"])
    db.table("reminders").create(
        {
            "id": int,
            "field_id": int,
            "person_id": int,
            "visit_id": int,
            "earliest": str,
            "likely": str,
            "latest": str,
            "purpose": str,
            "state": str,
            "uid": str,
            "sequence": int,
            "changed_at": str,
        },
        pk="id",
    )
    db.table("reminders").create_index(["state", "earliest"])
    db.table("reminders").create_index(["field_id", "state"])
    db.table("temperatures").create(
        {
            "place": str,  # the weather settings' own name for the place
            "day": str,
            "tmin_c": float,
            "tmax_c": float,
            "soil_mean_c": float,
            "forecast": int,
            "source": str,
        },
        pk=("place", "day"),
    )
    db.table("rounds").create({"what": str, "who": str, "day": str, "at": str}, pk=("what", "who", "day"))


@steps()
def m004_judged(db: Database) -> None:
    """What a message was believed by, when it was first dealt with, who is shown it, and until when it is put off."""
    inbox = db.table("inbox")
    inbox.add_column("proof", str)  # kind and detail of what proved the sender; empty when nothing did
    inbox.add_column("dealt_at", str)  # first time at the desk
    inbox.add_column("crew", str)  # whose supervisors are shown it while it is held
    inbox.add_column("not_before", str)  # waits until then (the name service was silent)
    db.execute("create index idx_inbox_put_off on inbox (not_before) where not_before is not null")


@steps()
def m005_rounds(db: Database) -> None:
    """When people want reminders, what mails speak of, how fields stood when last reckoned; indexes for the clock."""
    db.table("people").add_column("remind", str, not_null_default="morning")
    db.table("outbox").add_column("about", str)  # JSON list of field ids, in the order the mail names them
    db.table("standings").create(
        {"field_id": int, "as_of": str, "data": str},  # data: JSON of the rest of model.Standing
        pk="field_id",
    )
    db.table("reminders").create_index(["person_id", "state", "earliest"])
    db.table("reminders").create_index(["state", "latest"])
    db.table("outbox").create_index(["person_id", "queued_at"])


@steps()
def m006_crew_events(db: Database) -> None:
    """A crew's digging trials are asked for with every answer."""
    db.table("events").create_index(["kind", "person_id"])


@steps()
def m007_by_clock(db: Database) -> None:
    """Who has turned off what comes by the clock. Answers still come; the settings file has no say in it."""
    db.table("people").add_column("by_clock", int, not_null_default=1)


@steps()
def m008_rain(db: Database) -> None:
    """Rain of a day beside its temperatures, for the day of a look."""
    db.table("temperatures").add_column("rain_mm", float)
