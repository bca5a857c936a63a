"""Attacks on the whole road: real store, desk and rounds, a listener that strangers reach, a clock set by hand.

The table in docs/security.md names these tests.
"""

from __future__ import annotations

import email
import subprocess
import threading
from collections.abc import Iterator
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import dkim
import pytest

from notes_bot.mail.identity import NoAnswer, Patient, expiry, reply_address, switch_address
from notes_bot.model import Filing
from tests.crew_kit import FIELDS, OTHER, PEOPLE, SCOUT, SUPERVISOR, US, Crew, noon
from tests.mail_samples import clients

STRANGER = "192.0.2.66"


@pytest.fixture(scope="module")
def pair(tmp_path_factory: pytest.TempPathFactory) -> tuple[bytes, bytes]:
    """The crew's DKIM key and its DNS record."""
    private = tmp_path_factory.mktemp("key") / "private.pem"
    try:
        subprocess.run(
            ["openssl", "genrsa", "-traditional", "-out", str(private), "2048"], check=True, capture_output=True
        )
        made = subprocess.run(["openssl", "rsa", "-in", str(private), "-pubout"], check=True, capture_output=True)
    except FileNotFoundError:
        pytest.skip("openssl is not installed")
    return private.read_bytes(), b"v=DKIM1; k=rsa; p=" + b"".join(made.stdout.splitlines()[1:-1])


class Town(Crew):
    """A crew whose listener strangers reach: mail needs proof."""

    def __init__(self, folder: Path, pair: tuple[bytes, bytes]) -> None:
        super().__init__(folder, noon(7, 8))
        self.pair = pair
        mail_in = replace(self.settings.mail_in, believe="proof")
        self.parts.desk.settings = replace(self.settings, mail_in=mail_in)
        records = {"sel._domainkey.crew.example.": pair[1], "sel._domainkey.evil.example.": pair[1]}
        self.parts.desk.accept = replace(self.parts.desk.accept, loopback=False, lookup=records.get)

    def write(self, text: str, sender: str = SCOUT, *, number: str = "1", **heads: str) -> bytes:
        lines = {
            "From": sender, "To": US, "Subject": "note", "Date": "Wed, 08 Jul 2026 12:00:00 -0500",
            "Message-ID": f"<{number}@phone.example>", **heads,
        }  # fmt: skip
        return "".join(f"{name.replace('_', '-')}: {value}\r\n" for name, value in lines.items()).encode() + (
            b"\r\n" + text.encode() + b"\r\n"
        )

    def sign(self, raw: bytes, domain: bytes = b"crew.example") -> bytes:
        heads = [b"from", b"to", b"subject", b"date", b"message-id"]
        return bytes(dkim.sign(raw, b"sel", domain, self.pair[0], include_headers=heads)) + raw

    def come(self, raw: bytes, *, peer: str = STRANGER, to: str = US, envelope: str = SCOUT) -> Filing:
        """One mail from outside through the road."""
        self.raw(raw, envelope, peer=peer, to=to)
        filing = self.parts.rounds.messages()[-1][1]
        assert filing is not None
        return filing

    def anything_left(self) -> bool:
        """Whether anything at all waits to be sent."""
        return bool(self.parts.outbox.due(self.clock.at + timedelta(days=365)))


@pytest.fixture
def town(tmp_path: Path, pair: tuple[bytes, bytes]) -> Iterator[Town]:
    made = Town(tmp_path, pair)
    yield made
    made.close()


NOTE = "kestrel 6 dug 12 white"


def test_the_crews_own_signed_mail_is_answered(town: Town) -> None:
    """So that the rest of these tests means something."""
    filing = town.come(town.sign(town.write(NOTE)))

    assert filing.state == "done"
    assert [mail.recipient for mail in filing.outgoing] == [SCOUT]
    assert len(town.visits(1)) == 1


@pytest.mark.parametrize(
    ("name", "sender"),
    [
        ("plain forgery", SCOUT),
        ("display name of a scout", f"{SCOUT} <evil@evil.example>"),
        ("quoted display name", f'"{SCOUT}" <evil@evil.example>'),
        ("look-alike letter", "sc\u043eut1@crew.example"),
        ("look-alike domain", "scout1@crew.examp1e"),
        ("look-alike as A-label", "scout1@xn--crw-hoa.example"),
        ("sub-domain", "scout1@crew.example.evil.example"),
        ("two mailboxes", f"evil@evil.example, {SCOUT}"),
        ("two From lines", f"{SCOUT}\r\nFrom: evil@evil.example"),
        ("two From lines, other order", f"evil@evil.example\r\nFrom: {SCOUT}"),
        ("group", f"crew: {SCOUT};"),
        ("route", f"<@evil.example:{SCOUT}>"),
        ("comment", f"{SCOUT} (evil@evil.example"),
        ("empty", ""),
        ("folded", "scout1@crew\r\n .example"),
        ("NUL", f"{SCOUT}\0@evil.example"),
        ("plus", "scout1+x@crew.example"),
        ("upper case without proof", SCOUT.upper()),
    ],
)
def test_forged_and_look_alike_senders_are_held_and_nothing_is_sent(town: Town, name: str, sender: str) -> None:
    """Even when signed by a domain the attacker owns; nothing is recorded, nobody is written to."""
    for raw in (town.write(NOTE, sender), town.sign(town.write(NOTE, sender, number="2"), b"evil.example")):
        filing = town.come(raw, envelope="evil@evil.example")

        assert filing.state == "held", name
        assert filing.outgoing == ()
    assert town.visits(1) == ()
    assert not town.anything_left()


def test_a_second_from_line_on_top_of_signed_mail_is_held(town: Town) -> None:
    """The signature is right, the mail is not what it seems."""
    raw = b"From: supervisor@crew.example\r\n" + town.sign(town.write(NOTE))

    assert town.come(raw).state == "held"


@pytest.mark.parametrize(
    "text", ["no, kestrel 6 dug 0 white", "undo", "wrong field, mill", "kestrel planted 1/1", "mute kestrel"]
)
def test_forged_corrections_and_commands_change_nothing(town: Town, text: str) -> None:
    """After a true note: whatever an unproved mail says about it."""
    town.come(town.sign(town.write(NOTE)))
    before = (town.visits(1), town.parts.store.field(1), town.parts.store.open_promises())
    filing = town.come(town.write(text, number="2", In_Reply_To="<1@phone.example>"))

    assert filing.state == "held"
    assert (town.visits(1), town.parts.store.field(1), town.parts.store.open_promises()) == before


def test_a_forged_release_lets_nothing_in(town: Town) -> None:
    """The supervisor's name below an unproved release of the attacker's own held note."""
    held = town.come(town.write(NOTE))
    filing = town.come(town.write(f"release {held.inbox_id}", SUPERVISOR, number="2"))

    assert (filing.state, filing.released) == ("held", ())
    assert town.visits(1) == ()


def test_a_scout_cannot_release_what_is_held(town: Town) -> None:
    """Only a supervisor may."""
    held = town.come(town.write(NOTE, OTHER))
    filing = town.come(town.sign(town.write(f"release {held.inbox_id}", number="2")))

    assert filing.released == ()


def test_replayed_signed_mail_is_recorded_and_answered_once(town: Town) -> None:
    """Bytes caught on the way and sent again, at once or a month later, even after the note was taken back."""
    raw = town.sign(town.write(NOTE))
    town.come(raw)
    town.come(town.sign(town.write("undo", number="2")))
    count = len(town.parts.outbox.due(town.clock.at + timedelta(days=365)))
    for days in (0, 30, 300):
        town.clock.walk_to(town.clock.at + timedelta(days=days))
        filing = town.come(raw)

        assert (filing.state, filing.outgoing) == ("filed", ())
        assert filing.reason.startswith("repeat")
    assert town.visits(1) == ()
    assert len(town.parts.outbox.due(town.clock.at + timedelta(days=365))) <= count


def test_the_same_mail_by_two_ways_is_one_message(town: Town) -> None:
    """Through the listener and through the mailbox, with the mailbox's own headers on top."""
    raw = town.sign(town.write(NOTE))
    assert town.come(raw).state == "done"
    by_imap = b"Return-Path: <scout1@crew.example>\r\nDelivered-To: notes@crew.example\r\nReceived: by x; Mon\r\n" + raw
    town.parts.inbox.keep(
        by_imap, door="imap", peer="INBOX;UID=1", envelope_from=SCOUT, envelope_to=[US], arrived_at=town.clock.at
    )
    ((_, filing),) = town.parts.rounds.messages()

    assert filing is not None
    assert (filing.state, filing.outgoing) == ("filed", ())
    assert len(town.visits(1)) == 1


def test_a_replayed_id_with_another_text_suppresses_nothing(town: Town) -> None:
    """Somebody who knows an id cannot make us take the true note for a repeat."""
    town.come(town.write("nonsense first"))
    filing = town.come(town.sign(town.write(NOTE)))

    assert filing.state == "done"
    assert len(town.visits(1)) == 1


def test_guessed_reply_tokens_prove_nothing(town: Town) -> None:
    """A thousand guesses at the address that proves a scout; then the true one works."""
    for guess in range(1000):
        address = f"notes+{guess:024x}".translate(str.maketrans("0189", "abcd")) + "@crew.example"
        number = town.raw(town.write(NOTE, number=f"g{guess}"), SCOUT, peer=STRANGER, to=address)
        assert number
    states = {filing.state for _ in range(30) for _, filing in town.parts.rounds.messages() if filing is not None}
    assert states == {"held"}
    true = reply_address(US, town.parts.desk.accept.key, 1, expiry(town.clock.at))

    assert town.come(town.write(NOTE, number="t"), to=true).state == "done"


def test_a_token_of_one_person_is_no_proof_for_another(town: Town) -> None:
    """A scout's own reply address does not make that scout the supervisor."""
    mine = reply_address(US, town.parts.desk.accept.key, 1, expiry(town.clock.at))

    assert town.come(town.write("release 1", SUPERVISOR), to=mine).state == "held"


def test_strangers_cannot_make_us_send_mail(town: Town) -> None:
    """Forged envelope, Reply-To, Return-Path, Disposition-Notification-To: not one mail leaves."""
    victim = "victim@elsewhere.example"
    for number, heads in enumerate(
        [
            {"Reply_To": victim},
            {"Return_Path": f"<{victim}>"},
            {"Disposition_Notification_To": victim},
            {"Return_Receipt_To": victim},
            {"Errors_To": victim},
            {"Sender": SCOUT},
            {"Resent_From": SCOUT},
        ]
    ):
        town.come(town.write(NOTE, victim, number=str(number), **heads), envelope=victim)

    assert not town.anything_left()


def test_a_proved_writers_reply_to_does_not_steer_the_answer(town: Town) -> None:
    """It goes to the registered address, whatever the mail wishes."""
    filing = town.come(town.sign(town.write(NOTE, Reply_To="victim@elsewhere.example")))

    assert [mail.recipient for mail in filing.outgoing] == [SCOUT]


def test_a_forged_bounce_does_not_cut_a_scout_off(town: Town) -> None:
    """Only a report that comes to the address our mail was sent from counts."""
    answer = town.come(town.sign(town.write(NOTE))).outgoing[0]
    forged = clients.bounce(SCOUT, US, town.clock.at, answer.message_id)
    town.come(forged, envelope="")
    assert town.parts.store.person(1).reachable

    true = clients.bounce(SCOUT, US, town.clock.at, answer.message_id, reporter="mx2.example")
    town.come(true, envelope="", to=answer.envelope_from)
    assert not town.parts.store.person(1).reachable


def test_a_robot_that_answers_every_mail_is_answered_at_most_once(town: Town) -> None:
    """A listed person's holiday notice is filed; one that hides being automatic meets the limit of alike answers."""
    notice = town.sign(town.write("I am away until Monday.", Auto_Submitted="auto-replied"))
    assert town.come(notice).state == "filed"
    sent = 0
    for number in range(10):
        filing = town.come(town.sign(town.write("I am away until Monday.", number=f"r{number}")))
        sent += len(filing.outgoing)

    assert sent <= 2


def test_a_flood_of_one_writer_is_held_after_a_while(town: Town) -> None:
    """At most twenty answers an hour to one person; the rest waits for the supervisor and is not lost."""
    states = []
    for number in range(30):
        filing = town.come(town.sign(town.write(f"kestrel 6 dug {number} white", number=f"f{number}")))
        states.append(filing.state)

    assert states.count("done") == 20
    assert states.count("held") == 10
    assert len(town.parts.store.held_messages()) == 10


def test_what_a_supervisor_lets_through_is_not_held_again_for_being_many(town: Town) -> None:
    """The limit protects from floods, not from a decision."""
    for number in range(21):
        last = town.come(town.sign(town.write(f"kestrel 6 dug {number} white", number=f"f{number}")))
    assert (last.state, last.reason) == ("held", "too_many")
    town.come(town.sign(town.write(f"release {last.inbox_id}", SUPERVISOR, number="r")))
    ((_, filing),) = town.parts.rounds.messages()

    assert filing is not None
    assert (filing.inbox_id, filing.state) == (last.inbox_id, "done")


def test_our_own_words_quoted_without_a_mark_are_not_read_as_a_note(town: Town) -> None:
    """A program that copies our mail below the answer with nothing between: not recorded, not complained about."""
    first = town.come(town.sign(town.write("kestrel 6 dug 12 white"))).outgoing[0]
    raw = town.write(f"mill 5 dug none\r\n{first.body}", number="2", In_Reply_To=first.message_id)
    filing = town.come(town.sign(raw))

    assert [visit.field_id for visit in filing.visits] == [2]


def test_one_crew_learns_nothing_of_anothers_fields(tmp_path: Path, pair: tuple[bytes, bytes]) -> None:
    """Every way to ask, by name, number, list or thread: not one name, place or date of the other crew."""
    crew = Town(tmp_path / "a", pair)
    outsider = replace(PEOPLE[0], id=9, name="outsider", crew="other", addresses=("out@crew.example",))
    secret_field = replace(FIELDS[2], id=8, name="Zenith Quarter", aliases=("zq",))
    crew.parts.store.adopt((outsider,), (secret_field, replace(FIELDS[2], id=9, name="Their Own", crew="other")))
    try:
        answer = crew.come(crew.sign(crew.write("kestrel 7 dug 613 white"))).outgoing[0]
        bodies = []
        asks = ["state kestrel", "fields", "status", "history kestrel", "kestrel 3 dug 9 white", "season kestrel", "1"]
        asks += ["undo", "kestrel none", "zenit 5 dug", "digest", "help", "why", "wrong field, kestrel", "state zq"]
        for number, ask in enumerate(asks):
            crew.clock.walk_to(crew.clock.at + timedelta(hours=1))
            heads = {"In_Reply_To": answer.message_id, "References": answer.message_id}
            filing = crew.come(crew.sign(crew.write(ask, "out@crew.example", number=f"a{number}", **heads)))
            bodies += [mail.body for mail in filing.outgoing]
            assert {mail.recipient for mail in filing.outgoing} <= {"out@crew.example"}
        told = "\n".join(bodies).casefold()
        # The asker's own words may be quoted back; what the other crew alone knows may not appear.
        for secret in ("kestrel bottom", "zenith", "first scout", "613", "42.06", "6 may"):
            assert secret not in told, secret
        assert len(crew.visits(1)) == 1
    finally:
        crew.close()


def test_attachments_never_leave(town: Town) -> None:
    """A picture sent in is kept with the raw mail and is in no mail that goes out."""
    raw = clients.with_photo(NOTE, SCOUT, US, town.clock.at)
    filing = town.come(town.sign(raw.replace(b"Subject: \r\n", b"Subject: x\r\n")))

    assert filing.state == "done"
    for mail in filing.outgoing:
        assert b"image/jpeg" not in mail.raw
        assert b"IMG_0412" not in mail.raw


def test_words_of_a_note_cannot_become_headers_or_markup_of_an_answer(town: Town) -> None:
    """Line breaks, header names, HTML and escape sequences in field names and notes stay text."""
    text = "kestrel 6 dug 12 white\r\n<script>alert(1)</script>\r\nadd field <b>x</b>\x1b[31m\r\nBcc: victim@x.example"
    filing = town.come(town.sign(town.write(text)))

    for mail in filing.outgoing:
        head = mail.raw.split(b"\r\n\r\n")[0]
        assert b"victim" not in head
        assert b"\x1b" not in mail.raw
        assert "text/html" not in mail.raw.decode() or "<script>" not in mail.raw.decode()


def test_a_poison_message_is_set_aside_and_the_rest_goes_on(town: Town, monkeypatch: pytest.MonkeyPatch) -> None:
    """Our own bug with one message: two tries, then kept with its traceback; its neighbours are answered."""
    real = town.parts.desk.deal_with

    def fails(kept):  # type: ignore[no-untyped-def]
        if b"poison" in kept.raw:
            raise RuntimeError("a bug")
        return real(kept)

    monkeypatch.setattr(town.parts.desk, "deal_with", fails)
    poison = town.raw(town.sign(town.write("poison")), SCOUT, peer=STRANGER)
    town.raw(town.sign(town.write(NOTE, number="2")), SCOUT, peer=STRANGER)
    for _ in range(3):
        town.parts.rounds.messages()
    kept = town.parts.store.kept(poison)

    assert kept is not None
    assert (kept.state, kept.tries) == ("stuck", 2)
    assert "RuntimeError: a bug" in kept.trouble
    assert len(town.visits(1)) == 1


def silent(town: Town) -> list[str]:
    """The name service stops answering; gives the list of what it was asked."""
    asked: list[str] = []

    def away(name: str) -> bytes | None:
        asked.append(name)
        raise NoAnswer("timeout")

    town.parts.desk.accept = replace(town.parts.desk.accept, lookup=Patient(away, town.clock))
    return asked


def test_mail_waits_for_a_silent_name_service_and_is_answered_when_it_is_back(town: Town) -> None:
    """Neither believed, nor held at once, nor lost; and a correction does not overtake its note."""
    lookup = town.parts.desk.accept.lookup
    asked = silent(town)
    town.raw(town.sign(town.write("kestrel 6 dug 12 white")), SCOUT, peer=STRANGER)
    town.raw(town.sign(town.write("correct kestrel white 13", number="2")), SCOUT, peer=STRANGER)
    for _ in range(60):
        town.clock.walk_to(town.clock.at + timedelta(minutes=1))
        town.parts.rounds.messages()
    assert town.parts.store.counts() == {"inbox waiting": 2}
    assert not town.anything_left()
    assert 3 <= len(asked) <= 12
    town.parts.desk.accept = replace(town.parts.desk.accept, lookup=lookup)
    town.clock.walk_to(town.clock.at + timedelta(minutes=31))
    for _ in range(2):
        town.parts.rounds.messages()

    assert town.parts.store.counts()["inbox done"] == 2
    (visit,) = town.visits(1)
    assert visit.note.females.white == 13


def test_mail_that_waited_four_hours_for_the_name_service_is_held_with_the_reason(town: Town) -> None:
    """Then the supervisor decides."""
    silent(town)
    town.raw(town.sign(town.write(NOTE)), SCOUT, peer=STRANGER)
    while town.parts.store.counts() == {"inbox waiting": 1}:
        town.clock.walk_to(town.clock.at + timedelta(minutes=5))
        town.parts.rounds.messages()
    (held,) = town.parts.store.held_messages()

    assert (held.reason, held.sender) == ("unproved", SCOUT)
    assert timedelta(hours=4) <= town.clock.at - held.arrived_at < timedelta(hours=5)


def test_a_clock_set_back_does_not_keep_mail_waiting(town: Town) -> None:
    """What was put off a year ahead by a wrong clock is tried at once."""
    lookup, now = town.parts.desk.accept.lookup, town.clock.at
    silent(town)
    town.clock.walk_to(now + timedelta(days=365))
    town.raw(town.sign(town.write(NOTE)), SCOUT, peer=STRANGER)
    town.parts.rounds.messages()
    town.clock.at = now
    town.parts.desk.accept = replace(town.parts.desk.accept, lookup=lookup)
    town.parts.rounds.messages()

    assert town.parts.store.counts().get("inbox waiting") is None


def test_strangers_cannot_make_us_ask_the_name_service(town: Town) -> None:
    """Their own, slow name servers would keep the desk waiting."""
    asked = silent(town)
    mail = town.sign(town.write(NOTE, "evil@evil.example"), b"evil.example")
    filing = town.come(mail, envelope="evil@evil.example")

    assert (filing.state, filing.reason, asked) == ("held", "stranger", [])


def test_a_held_stranger_is_shown_to_the_crew_it_writes_to_and_to_no_other(
    tmp_path: Path, pair: tuple[bytes, bytes]
) -> None:
    """By conversation, look-alike or field names; else each supervisor sees that it is there, but not what it says."""
    two = Town(tmp_path, pair)
    theirs = replace(PEOPLE[2], id=9, name="field boss", crew="other", addresses=("boss@other.example",))
    two.parts.store.adopt((theirs,), (replace(FIELDS[0], id=9, name="Zenith Quarter", crew="other"),))
    try:
        first = two.come(two.sign(two.write(NOTE))).outgoing[0]
        cases = [
            ("kestrel bottom 40 white", "new@phone.example", {}, "crew"),
            ("zenith quarter 40 white", "new@phone.example", {}, "other"),
            ("hello", "scout1@crevv.example", {}, "crew"),
            ("hello", "boss@0ther.example", {}, "other"),
            ("hello", '"Field Boss" <x@phone.example>', {}, "other"),
            ("hello", "x@phone.example", {"In_Reply_To": first.message_id}, "crew"),
            ("40 white, who am i", "y@phone.example", {}, ""),
            ("kestrel bottom and zenith quarter", "y@phone.example", {}, ""),
        ]
        for number, (text, sender, heads, crew) in enumerate(cases):
            filing = two.come(two.write(text, sender, number=f"s{number}", **heads), envelope="x@phone.example")
            assert (filing.state, filing.shown_to) == ("held", crew), text
        ours, others = two.parts.store.held_messages("crew"), two.parts.store.held_messages("other")
        unknown = {filing.inbox_id}

        assert {m.first_line for m in ours} == {"kestrel bottom 40 white", "hello", ""}
        assert {m.first_line for m in others} == {"zenith quarter 40 white", "hello", ""}
        assert {m.number for m in ours} & {m.number for m in others} >= unknown
        assert all(m.first_line == "" and not m.by_mail for m in others if m.number in unknown)
        refused = two.come(two.sign(two.write(f"refuse {filing.inbox_id}", SUPERVISOR, number="r")))
        assert refused.refused == ()
    finally:
        two.close()


@pytest.mark.parametrize("first", ["proved", "unproved"])
def test_the_same_mail_by_two_ways_is_one_though_only_one_way_proves_it(town: Town, first: str) -> None:
    """Recorded and answered once; the copy that proves nothing leaves no decision behind, whichever came first."""
    raw = town.write(NOTE)
    ways = {"proved": town.sign(raw), "unproved": raw}
    order = [first, *(way for way in ways if way != first)]
    states = [town.come(ways[way]).state for way in order]

    assert states == (["done", "filed"] if first == "proved" else ["held", "done"])
    assert town.parts.store.counts() == {"inbox done": 1, "inbox filed": 1, "outbox waiting": 1}
    assert len(town.visits(1)) == 1
    assert town.parts.store.held_messages() == ()


def test_an_unproved_copy_with_another_text_stays_held(town: Town) -> None:
    """A known Message-ID lets nobody slip a forged note into the files unseen."""
    town.come(town.sign(town.write(NOTE)))

    assert town.come(town.write("kestrel 6 dug none")).state == "held"


def test_doors_that_bring_the_same_message_at_the_same_moment_make_one_record(town: Town) -> None:
    """Mail and mailbox at once, many times over: one visit and one answer for each message."""
    mails = [town.sign(town.write(f"kestrel 6 dug {n} white", number=f"w{n}")) for n in range(1, 7)]

    def bring(door: str) -> None:
        for raw in mails:
            town.parts.inbox.keep(
                raw, door=door, peer=STRANGER, envelope_from=SCOUT, envelope_to=[US], arrived_at=town.clock.at
            )

    threads = [threading.Thread(target=bring, args=(door,)) for door in ("smtp", "imap", "smtp", "imap")]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    while town.parts.rounds.messages():
        pass

    assert town.parts.store.counts() == {"inbox done": 6, "inbox filed": 18, "outbox waiting": 6}
    assert len(town.visits(1)) == 6


def test_who_writes_again_is_reachable_again(town: Town) -> None:
    """A mailbox that refused for a while does not cut a scout off from reminders for good."""
    scout = town.parts.store.person_at(SCOUT)
    assert scout is not None
    town.parts.store.change_person(replace(scout, reachable=False), town.clock.at)
    town.come(town.write(NOTE))
    forged = town.parts.store.person_at(SCOUT)
    town.come(town.sign(town.write(NOTE, number="2")))
    proved = town.parts.store.person_at(SCOUT)

    assert forged is not None
    assert proved is not None
    assert (forged.reachable, proved.reachable) == (False, True)


def test_reminders_and_digests_can_be_turned_off_by_one_mail_and_on_again(town: Town) -> None:
    """List-Unsubscribe (RFC 2369; the one-click way of RFC 8058 needs a web address, which we have not): told once,
    undone by an answer, known to the supervisor, and no business of the settings file."""
    supervisor = town.parts.store.person_at(SUPERVISOR)
    assert supervisor is not None
    digest = email.message_from_bytes(town.parts.rounds.digest_now(supervisor).raw)
    answer = email.message_from_bytes(town.come(town.sign(town.write(NOTE))).outgoing[0].raw)
    assert digest["List-Id"] == "<digest.crew.example>"
    assert digest["List-Unsubscribe-Post"] is None
    assert answer["List-Unsubscribe"] is None
    off = digest["List-Unsubscribe"].removeprefix("<mailto:").partition("?")[0]
    first = town.come(town.write("", SUPERVISOR, number="u1", Subject="stop"), to=off.upper())
    again = town.come(town.write("", "web-mail@provider.example", number="u2"), to=off)
    (told,) = first.outgoing
    assert (told.recipient, again.outgoing) == (SUPERVISOR, ())
    town.parts.store.adopt(town.settings.people, town.settings.fields)
    for _ in range(3 * 24):
        town.clock.walk_to(town.clock.at + timedelta(hours=1))
        assert town.parts.rounds.digests() == []
    assert "has turned reminders and digests off" in town.parts.rounds.digest_now(supervisor).body
    back = email.message_from_bytes(told.raw)["Reply-To"].partition("<")[2].rstrip(">")
    on = town.come(town.write("yes please", SUPERVISOR, number="u3"), to=back)

    assert [mail.recipient for mail in on.outgoing] == [SUPERVISOR]
    assert town.parts.store.person_at(SUPERVISOR).by_clock  # type: ignore[union-attr]


def test_nobody_turns_another_persons_mail_off_by_guessing(town: Town) -> None:
    """Changed, shortened and foreign tokens do nothing; many true ones from a finder make no flood."""
    key = town.parts.desk.accept.key
    off, on = (switch_address(US, key, 1, on=way) for way in (False, True))
    guesses = [
        off[:-20] + "a" * 8 + off[-12:],
        switch_address(US, b"other key" * 4, 1, on=False),
        US,
        "notes+q@crew.example",
    ]
    for number, guess in enumerate(guesses):
        town.come(town.write("", "evil@evil.example", number=f"g{number}"), to=guess)
    assert town.parts.store.person_at(SCOUT).by_clock  # type: ignore[union-attr]
    assert not town.anything_left()
    for number in range(60):
        town.come(town.write("", "evil@evil.example", number=f"t{number}"), to=(off, on)[number % 2])

    assert len(town.parts.outbox.due(town.clock.at + timedelta(minutes=1))) <= 20
