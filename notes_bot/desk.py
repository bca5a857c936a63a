"""One message, start to end: the road on one page.

    kept bytes -> Message -> may it pass? -> Reading -> Resolved -> Work -> Outlook -> Reply -> one transaction

``Desk.turn`` takes one kept message through it. Whatever a writer got wrong becomes part of the answer; whatever
we got wrong is an exception, the message stays kept with its traceback, is tried once more and then set aside for
the keeper. Nothing is written before the end, and then all of it at once.
"""

from __future__ import annotations

import hashlib
import logging
import re
import traceback
from collections.abc import Callable
from dataclasses import dataclass, field, replace
from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

from rapidfuzz import distance

from notes_bot.deeds import Span, Work, obey, season_start
from notes_bot.language import lab_results, read_note, spell
from notes_bot.looking_deeds import LOOKING
from notes_bot.mail import may_pass, new_message_id, open_message, prove, write_mail, written_beneath
from notes_bot.mail.identity import (
    Accept,
    bounce_address,
    expiry,
    is_our_bounce,
    is_ours,
    reply_address,
    switch_address,
    switched,
    token_given_to,
    without_code_word,
)
from notes_bot.mail.manners import MOST_AN_HOUR, Recent
from notes_bot.mail.opening import drop_our_lines, only_mailbox, read_headers
from notes_bot.mail.papers import own_words, papers_of
from notes_bot.model import Command, Fact, Field, Filing, Message, Outgoing, Person, Placed, Proof, Reading, Reply
from notes_bot.reply import compose, compose_switched, compose_unreadable, together
from notes_bot.reply.words import one_line
from notes_bot.resolve import find_field, resolve, sent_on
from notes_bot.settings import Settings
from notes_bot.store import Kept, Store
from notes_bot.winter_deeds import WINTER

log = logging.getLogger("notes_bot")

ANSWER_LIVES = timedelta(days=5)
"""How long an answer is tried: what mail servers commonly grant each other (RFC 5321, 4.5.4.1: four to five days)."""
REMINDER_ANSWERED = timedelta(hours=36)
"""So long a bare word by text message may be meant for the reminder before it."""
MOST_IN_FULL = 2
"""Laboratory results of one table that are each told in full; of more, only what matters most."""
TRIES = 2
"""A message that fails this often is set aside with its traceback."""
PATIENCE = timedelta(hours=4)
"""How long a message waits for a name service that does not answer before it is held unproved."""


class NotYet(Exception):
    """What the message needs is not to be had now; ``until`` says when to try again."""

    def __init__(self, until: datetime) -> None:
        super().__init__(until)
        self.until = until


@dataclass
class Desk:
    """Where messages are dealt with, one at a time. Belongs to one thread, like its store."""

    store: Store
    settings: Settings
    now: Callable[[], datetime]
    accept: Accept = field(default_factory=Accept)
    """What counts as proof of a sender; its key also makes the addresses that mail comes back to."""
    prover: Callable[[Kept], Proof] | None = None
    """Gives the proof where it is known already (a message read again); else it is looked for."""
    digest: Callable[[Person, Span], Outgoing] | None = None
    """Makes the digest a supervisor asks for; set by the rounds."""

    def turn(self, kept: Kept) -> Filing | None:
        """Deal with one message; ``None`` when it was put off, or failed and was left for another try or set aside."""
        try:
            filing = self.deal_with(kept)
            self.store.keep(filing, self.now())
        except NotYet as wait:
            self.store.put_off(kept.id, wait.until, self.now())
            log.info("message %d: put off, the name service does not answer", kept.id)
            return None
        except Exception:  # noqa: BLE001 - a poison message must not stop the road; its traceback is kept
            give_up = kept.tries + 1 >= TRIES
            self.store.stuck(kept.id, traceback.format_exc(), give_up=give_up, at=self.now())
            log.error("message %d: an error of ours, kept whole%s", kept.id, "; set aside" if give_up else "")
            return None
        how = filing.reason or ("answered" if filing.outgoing else "no answer needed")
        log.info("message %d from %s: %s, %s", kept.id, filing.sender, filing.state, how)
        return filing

    def deal_with(self, kept: Kept) -> Filing:
        """Everything one message leads to. Reads the store, writes nothing."""
        opened = self.open(kept)
        message = without_code_word(opened, self.accept)
        writer = self.store.person_at(message.sender)
        if message.notice is not None:
            return self._delivery_failed(kept, message)
        switch = next((found for to in message.to if (found := switched(to, self.accept.key))), None)
        if switch is not None:
            return self._switch(kept, message, *switch)
        # A stranger proves nothing to us: no name service is asked on a stranger's behalf.
        proof = self._proof(kept, message, opened.text) if writer else Proof("none", "nobody we know")
        # What a supervisor lets through is not held again for being one of many.
        recent = None if kept.reason == "released" else self._recent(writer)
        verdict = may_pass(message, known=writer is not None, proof=proof, recent=recent)
        filed = Filing(
            kept.id,
            "held" if verdict.action == "hold" else "filed",
            verdict.reason,
            sender=message.sender,
            message_id=message.message_id,
            person_id=writer.id if writer else None,
            first_line=_first_line(message) if verdict.action == "hold" else "",
            proof=f"{proof.kind} {proof.detail}".strip() if proof.holds else "",
            shown_to=self._shown_to(kept, message, writer) if verdict.action == "hold" else "",
        )
        if writer is None or (verdict.action != "answer" and verdict.reason != "unproved"):
            return filed
        # The same message by two ways is one, though only one of the ways may prove it: a copy changes nothing.
        key = repeat_key(writer, message)
        earlier = self.store.seen_before(key)
        if earlier is not None:
            return replace(filed, state="filed", reason=f"repeat of message {earlier}", repeat_key=key, first_line="")
        if verdict.action != "answer":
            return replace(filed, repeat_key=key)

        message = self._without_our_lines(message, writer)
        work = self._work(kept, message, writer)
        results = self._results(kept, message, writer, work)
        if results:
            message = replace(message, text=own_words(message.text))
        unreadable = message.unreadable or ("" if message.text.strip() else "empty")
        beneath = None if results or work.answers else self.read_beneath(kept, message, writer, work)
        if beneath is not None:
            reply: Reply | None = self.answer(work, beneath)
        elif unreadable and not (results or work.answers):
            reply = compose_unreadable(unreadable, writer.language)
        else:
            reading = Reading(writer.language) if unreadable else self.read(message, writer, work)
            reply = self.answer(work, with_results(reading, results) if results or work.answers else reading)
        outgoing = [self._outgoing(kept, message, writer, work, reply)] if reply is not None else []
        if work.digest_asked and self.digest is not None:
            outgoing.append(self.digest(writer, work.digest_asked))
        return work.filing(
            sender=message.sender,
            message_id=message.message_id,
            repeat_key=key,
            proof=filed.proof,
            outgoing=tuple(outgoing),
        )

    # --- the steps ---

    def open(self, kept: Kept) -> Message:
        return open_message(
            kept.raw,
            arrived_at=kept.arrived_at,
            door=kept.door,
            envelope_from=kept.envelope_from,
            envelope_to=kept.envelope_to,
            ours=self._is_ours,
            gateways=self.settings.texts.mail_gateways,
        )

    def _without_our_lines(self, message: Message, writer: Person) -> Message:
        """Some programs quote without any mark: lines of the mail that is answered are not the writer's."""
        ours = self.store.sent_by_us(message.references)
        if ours is None or ours[1] != writer.id:
            return message
        return replace(message, text=drop_our_lines(message.text, ours[0]))

    def read(self, message: Message, writer: Person, work: Work) -> Reading:
        names = [name for known in work.fields for name in (known.name, *known.aliases)]
        return read_note(
            message.text, sent=work.day, fields=names, language=writer.language, day_first=writer.day_first
        )

    def read_beneath(self, kept: Kept, message: Message, writer: Person, work: Work) -> Reading | None:
        """What was written beneath lines of ours that speak of one field, or one held message, each; else ``None``."""
        ours = None if message.by_text or kept.door == "drop" else self.store.sent_by_us(message.references)
        if ours is None or ours[1] != writer.id or not ours[0]:
            return None
        stretches = [
            (_named_first(stretch.entry, work), HELD_LINE.match(stretch.entry), stretch.text)
            for stretch in written_beneath(kept.raw, ours[0])
        ]
        if not any(known or held for known, held, _ in stretches):
            return None
        found = Reading(writer.language)
        for known, held, text in stretches:
            said = self.read(replace(message, text=text), writer, work)
            if known is not None:
                said = self._about(known, text, said, message, writer, work)
            elif held is not None and not said.commands:
                numbered = self.read(replace(message, text=f"{text} {held[1]}"), writer, work)
                kinds = {command.kind for command in numbered.commands}
                said = numbered if kinds and kinds <= {"release", "refuse"} else said
            if known is None and not (said.notes or said.commands):
                continue  # "see below": what was to be said stands there
            found = Reading(
                said.language if said.notes or said.commands else found.language,
                (*found.notes, *said.notes),
                (*found.commands, *said.commands),
                (*found.problems, *said.problems),
                (*found.remarks, *said.remarks),
            )
        return found

    def _about(self, known: Field, text: str, said: Reading, message: Message, writer: Person, work: Work) -> Reading:
        """A reading of words that stand beneath a field's line: meant for that field unless they name one."""
        names = [*(note.field for note in said.notes), *(c.args.get("field") for c in said.commands)]
        if any(name and find_field(str(name), work.fields)[0] is not None for name in names):
            return said
        if not (said.notes or said.commands or said.problems):
            return said  # "thanks"
        if said.commands and not (said.notes or said.problems) and all(c.kind in MEANT_FOR_LINE for c in said.commands):
            commands = (replace(c, args={**c.args, "field": known.name}) for c in said.commands)
            return replace(said, commands=tuple(commands))
        if said.commands and not said.notes and all(c.kind not in MEANT_FOR_LINE for c in said.commands):
            return said
        return self.read(replace(message, text=f"{known.name}: {text}"), writer, work)

    def _results(self, kept: Kept, message: Message, writer: Person, work: Work) -> tuple[Command, ...]:
        """Egg counts in what came along: a table forwarded or attached. A file without one is said so."""
        found: list[Command] = []
        for paper in papers_of(kept.raw, message):
            own = lab_results(paper.lines, day_first=writer.day_first)
            if own and paper.name:
                work.answers.append(Fact("paper_results", {"name": paper.name, "count": len(own)}))
            elif paper.name:
                key = "paper_unread" if paper.trouble else "paper_nothing"
                work.answers.append(Fact(key, {"name": paper.name, "why": paper.trouble}))
            found += [each for each in own if each.args not in [other.args for other in found]]
        work.brief = len(found) > MOST_IN_FULL
        return tuple(found)

    def answer(self, work: Work, reading: Reading) -> Reply | None:
        """Record, obey, look ahead, and word it; ``None`` when there is nothing to say."""
        work.language = reading.language
        work.spell = lambda note: spell(note, work.language)
        resolved = resolve(
            reading, writer=work.writer, fields=tuple(work.fields), sent_day=work.day, thread_field=work.thread_field
        )
        for visit in resolved.visits:
            work.record(visit)
        work.held.extend(resolved.held)
        obey(work, reading, {**WINTER, **LOOKING})
        work.foresee_all()
        if work.letters and not (work.placed or resolved.problems or resolved.held or work.answers):
            return together(work.letters)
        if not (work.placed or resolved.problems or resolved.held or work.answers):
            return None  # thanks, ok: courtesy needs no mail
        return compose(
            work.language,
            replace(resolved, visits=tuple(work.placed)),
            work.outlooks,
            work.writer,
            spelled=[self._spelled(visit, work) for visit in work.placed],
            now=work.now,
            answers=[*work.answers, *(letter.text for letter in work.letters)],
            windows=work.windows(),
            organizer=self.settings.service.address,
        )

    def _spelled(self, visit: Placed, work: Work) -> str:
        """The note as read, with its day; the field's name stands in the headline already."""
        return work.spell(replace(visit.note, field=None, date=visit.on))

    def _work(self, kept: Kept, message: Message, writer: Person) -> Work:
        now = self.now()
        ours = self.store.sent_by_us(message.references)
        answered = self.store.told_in(message.references, writer.id)
        if message.by_text and answered is None:  # text messages have no threads: what is answered is what came last
            answered = self.store.last_told(writer.id, now - REMINDER_ANSWERED)
        # Who writes is there again. Should the answer come back, the person is lost once more before any reminder.
        back = [] if writer.reachable else [replace(writer, reachable=True)]
        return Work(
            store=self.store,
            writer=back[0] if back else writer,
            people=back,
            fields=list(self.store.fields(writer.crew)),
            now=now,
            day=sent_on(message.sent_at, message.arrived_at, writer.timezone),
            today=now.astimezone(ZoneInfo(writer.timezone)).date(),
            domain=self.settings.domain,
            inbox_id=kept.id,
            thread_field=ours[2] if ours is not None and ours[1] == writer.id else None,
            answered=answered,
        )

    def _outgoing(self, kept: Kept, message: Message, writer: Person, work: Work, reply: Reply) -> Outgoing:
        """The finished answer: its Message-ID comes from the message answered, so a repeat is recognisable."""
        now = self.now()
        message_id = new_message_id(self.settings.domain, f"answer-{kept.id}-{_digest(message.message_id)[:12]}")
        fields = {visit.field.id for visit in work.placed}
        field_id = fields.pop() if len(fields) == 1 else work.thread_field
        recipient = self._recipient(kept, message, writer)
        by_file = kept.door == "drop"
        raw = (
            reply.short.encode()
            if by_file
            else write_mail(
                reply if not message.by_text else Reply(reply.subject, reply.short),
                message_id=message_id,
                date=now,
                from_address=self.settings.service.address,
                from_name=self.settings.service.name,
                to=recipient,
                reply_to=self.reply_to(writer),
                in_reply_to=message.message_id,
                references=(*self._thread(field_id, writer, work), *message.references),
                kind="answer",
                by_text=message.by_text,
            )
        )
        return Outgoing(
            kind="answer",
            door="text" if by_file else "mail",
            recipient=recipient,
            # A text file is named after it, so that a repeat after a crash replaces the first.
            envelope_from=f"answer{kept.id}" if by_file else self.bounces_to(message_id),
            message_id=message_id,
            raw=raw,
            body=reply.short if message.by_text else reply.text,
            queued_at=now,
            expires_at=now + ANSWER_LIVES,
            person_id=writer.id,
            field_id=field_id,
        )

    def _recipient(self, kept: Kept, message: Message, writer: Person) -> str:
        """Only ever a registered address: the one that wrote, or its number at the gateway it came through."""
        if message.by_text and kept.door != "drop":
            return only_mailbox(read_headers(kept.raw).all("from"))[1]
        return message.sender if message.sender in writer.addresses else writer.addresses[0]

    def _thread(self, field_id: int | None, person: Person, work: Work) -> tuple[str, ...]:
        """The root of a field's conversation this season: always first, so mail programs keep it together."""
        known = work.field_by_id(field_id)
        if known is None:
            return ()
        return (thread_root(known, person, work.day, self.settings.domain),)

    def bounces_to(self, message_id: str) -> str:
        """The envelope sender of a mail: a delivery report that comes there is about that mail."""
        ours = self.settings.service.address
        return bounce_address(ours, self.accept.key, message_id) if self.accept.key else ours

    def reply_to(self, person: Person) -> str | None:
        """An address that proves who answers, where senders need proof."""
        private = self.settings.mail_in.believe == "loopback" and not self.settings.imap.host
        if private or not self.accept.key:
            return None
        return reply_address(self.settings.service.address, self.accept.key, person.id, expiry(self.now()))

    # --- judging ---

    def _proof(self, kept: Kept, message: Message, text_before: str) -> Proof:
        if kept.reason == "released":
            return Proof("released", "by a supervisor")
        if message.automatic:
            return Proof("none", "never answered, so not asked")
        if self.prover is not None:
            return self.prover(kept)
        proof = prove(kept.raw, message, accept=self.accept, door=kept.door, peer=kept.peer, text_before=text_before)
        if not proof.holds and proof.detail.startswith("later"):
            waited = max(self.now() - (kept.dealt_at or self.now()), timedelta(0))
            if waited < PATIENCE:
                raise NotYet(self.now() + min(max(waited / 2, timedelta(minutes=1)), timedelta(minutes=30)))
        return proof

    def _shown_to(self, kept: Kept, message: Message, writer: Person | None) -> str:
        """The crew whose supervisors are shown a held message: nobody else's business, and nobody's who cannot tell.

        A listed sender's crew; else that of the conversation it answers, of the person it looks like, or of the
        fields it names, where these point to one crew alone. Empty: it may be any crew's.
        """
        if writer is not None:
            return writer.crew
        people = self.store.people()
        ours = self.store.sent_by_us(message.references)
        ids = {ours[1]} if ours is not None else set()
        ids |= {token_given_to(address, self.accept.key) for address in message.to}
        by_thread = {person.crew for person in people if person.id in ids}
        if len(by_thread) == 1:
            return by_thread.pop()
        named = b" ".join(read_headers(kept.raw).all("from"))[:4096].decode("utf-8", "replace").casefold()
        alike = {person.crew for person in people if _looks_like(named, message.sender, person)}
        if len(alike) == 1:
            return alike.pop()
        words = _as_words(message.text[:2000])
        theirs = {
            crew
            for crew in self.store.crews()
            for known in self.store.fields(crew)
            for name in (known.name, *known.aliases)
            if len(name) >= 4 and _as_words(name) in words
        }
        return theirs.pop() if len(theirs) == 1 else ""

    def _recent(self, writer: Person | None) -> Recent:
        """What this person, and everybody, was answered lately."""
        if writer is None:
            return Recent()
        now = self.now()
        answers = self.store.answers_since(writer.id, now - timedelta(days=1))
        lately = [body for at, body in answers if at > now - timedelta(minutes=10)]
        return Recent(
            to_sender_in_hour=sum(at > now - timedelta(hours=1) for at, _ in answers),
            to_sender_in_day=len(answers),
            to_all_in_hour=self.store.answers_in_all_since(now - timedelta(hours=1)),
            alike_in_ten_minutes=max((lately.count(body) for body in set(lately)), default=0),
        )

    def _is_ours(self, address: str) -> bool:
        return is_ours(address, self.settings.service.address)

    def _switch(self, kept: Kept, message: Message, person_id: int, on: bool) -> Filing:
        """Reminders and digests on or off. The address alone decides: only this person was told it (RFC 2369), and
        mail programs write to it in many ways. The person hears of it once, with the way back."""
        person = self.store.person(person_id)
        filed = Filing(kept.id, "filed", "switch", sender=message.sender, message_id=message.message_id)
        if person is None or person.by_clock == on or "@" not in person.addresses[0]:
            return filed
        now = self.now()
        if len(self.store.answers_since(person.id, now - timedelta(days=1))) >= MOST_AN_HOUR:
            return replace(filed, reason="too_many")
        ours = self.settings.service.address
        back = switch_address(ours, self.accept.key, person.id, on=not on)
        reply = compose_switched(on, person.language)
        message_id = new_message_id(self.settings.domain, f"switch-{kept.id}-{_digest(message.message_id)[:12]}")
        raw = write_mail(
            reply,
            message_id=message_id,
            date=now,
            from_address=ours,
            from_name=self.settings.service.name,
            to=person.addresses[0],
            reply_to=back,
            kind="answer",
        )
        mail = Outgoing(
            kind="answer",
            door="mail",
            recipient=person.addresses[0],
            envelope_from=self.bounces_to(message_id),
            message_id=message_id,
            raw=raw,
            body=reply.text,
            queued_at=now,
            expires_at=now + ANSWER_LIVES,
            person_id=person.id,
        )
        return replace(
            filed,
            reason=f"reminders and digests {'on' if on else 'off'} for {person.name}",
            person_id=person.id,
            people=(replace(person, by_clock=on),),
            outgoing=(mail,),
        )

    def unsubscribe(self, person: Person) -> str | None:
        """The address that ends what this person gets by the clock."""
        key = self.accept.key
        return switch_address(self.settings.service.address, key, person.id, on=False) if key else None

    def _delivery_failed(self, kept: Kept, message: Message) -> Filing:
        """A bounce of our own mail: a final one marks the person unreachable, for the supervisor to see."""
        notice = message.notice
        if self.accept.key and not is_our_bounce(message, self.settings.service.address, self.accept.key):
            return Filing(
                kept.id, "filed", "a delivery report about mail we did not send", message_id=message.message_id
            )
        filed = Filing(kept.id, "filed", "delivery report", sender=message.sender, message_id=message.message_id)
        if notice is None or not notice.final:
            return filed
        ours = self.store.sent_by_us((notice.message_id,)) if notice.message_id else None
        person = self.store.person(ours[1]) if ours is not None and ours[1] is not None else None
        if person is None:
            return filed
        return replace(
            filed,
            reason=f"mail to {person.name} was returned: {notice.status} {notice.reason}".strip(),
            person_id=person.id,
            people=(replace(person, reachable=False),),
        )


HELD_LINE = re.compile(r"[^\W\d]+ (\d+) ")
"""How a digest's line of a held message begins, in each language."""
MEANT_FOR_LINE = frozenset({"move", "mute", "resume"})
"""Commands that a bare word gives and that need a field."""


def _named_first(entry: str, work: Work) -> Field | None:
    """The field whose name a line of ours begins with."""
    named = [known for known in work.fields if entry.startswith(f"{one_line(known.name)}:")]
    return max(named, key=lambda known: len(known.name), default=None)


def with_results(reading: Reading, results: tuple[Command, ...]) -> Reading:
    """A reading with what came along; a few words over it ("see below", "results attached") are no note and no name."""
    commands = tuple(command for command in reading.commands if command.kind != "choose")
    problems = tuple(problem for problem in reading.problems if problem.kind != "nothing_read")
    return replace(reading, commands=(*commands, *results), problems=problems)


def thread_root(known: Field, person: Person, on: date, domain: str) -> str:
    """A Message-ID that no mail has: the common ancestor of all mail about a field in a season to one person."""
    return f"<field-{known.id}-{season_start(on, known.latitude).year}-{person.id}@{domain}>"


def repeat_key(writer: Person, message: Message) -> str:
    """What makes two messages the same: who, Message-ID and text (an id alone would let anyone suppress a note)."""
    return _digest(f"{writer.id}\n{message.message_id}\n{message.text}")


def _as_words(text: str) -> str:
    """Words alone, a space between, before and after, so that a whole name can be looked for."""
    return " " + " ".join(re.findall(r"\w+", text.casefold())) + " "


def _looks_like(named: str, sender: str, person: Person) -> bool:
    """Does a From line carry this person's name or address, or one that differs by a letter or two?"""
    for address in person.addresses:
        if address in named or (sender and distance.Levenshtein.distance(sender, address, score_cutoff=2) <= 2):
            return True
        local = address.partition("@")[0]
        if len(local) >= 5 and sender.partition("@")[0] == local:
            return True
    return len(person.name) >= 5 and _as_words(person.name) in _as_words(named)


def _first_line(message: Message) -> str:
    lines = (line.strip() for line in (message.text or message.subject).splitlines())
    return next((line for line in lines if line), "")[:80]


def _digest(text: str) -> str:
    return hashlib.sha256(text.encode("utf-8", "surrogatepass")).hexdigest()
