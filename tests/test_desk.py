"""One message, start to end: what is recorded, what is answered, and what happens when something breaks."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from email import message_from_bytes, policy

import pytest
from icalendar import Calendar

from notes_bot.model import Person
from tests.crew_kit import OTHER, SCOUT, SUPERVISOR, Crew, noon


@pytest.fixture
def crew(tmp_path):
    crew = Crew(tmp_path, noon(7, 8))
    yield crew
    crew.close()


def test_a_note_is_recorded_answered_and_promised_a_look(crew):
    """One mail leaves a visit, one answer in its conversation and one open window."""
    filing = crew.note("kestrel 6 dug 12 white 3 yellow")

    assert [v.note.females.white for v in crew.visits(1)] == [12]
    assert crew.body(filing).startswith("Kestrel Bottom")
    (promise,) = crew.parts.store.open_promises()
    assert promise.field_id == 1
    assert promise.earliest > date(2026, 7, 8)


def test_one_bad_line_costs_one_line(crew):
    """The good fields of a message are kept; the bad one is quoted back."""
    filing = crew.note("kestrel 6 dug 12 white\nold mill 5 dug none\nkestrle nrth 5 dug 3 white")

    assert len(crew.visits(1)) == len(crew.visits(2)) == 1
    assert "kestrle nrth" in crew.body(filing)


def test_an_error_of_ours_keeps_the_message_and_its_traceback(crew, monkeypatch):
    """What we got wrong is tried once more, then set aside; the next message goes on."""
    monkeypatch.setattr("notes_bot.desk.read_note", lambda *_a, **_k: 1 / 0)
    assert crew.note("kestrel 6 dug 12 white") is None
    assert crew.parts.rounds.messages()[0][1] is None
    monkeypatch.undo()

    (stuck,) = crew.parts.store.stuck_messages()
    assert "ZeroDivisionError" in stuck.trouble
    assert b"12 white" in stuck.raw
    assert crew.note("old mill 5 dug none") is not None
    assert crew.visits(1) == ()


def test_a_failed_try_leaves_nothing_behind(crew, monkeypatch):
    """When the answer cannot be written, the visit is not recorded either; the second try does both."""
    broken = {"left": 1}
    import notes_bot.desk as desk

    real = desk.write_mail

    def sometimes(*args, **more):
        if broken["left"]:
            broken["left"] -= 1
            raise OSError("no")
        return real(*args, **more)

    monkeypatch.setattr("notes_bot.desk.write_mail", sometimes)
    assert crew.note("kestrel 6 dug 12 white") is None
    assert crew.visits(1) == ()

    ((_, filing),) = crew.parts.rounds.messages()
    assert len(crew.visits(1)) == 1
    assert len(filing.outgoing) == 1


def test_a_word_of_thanks_gets_no_mail(crew):
    """Courtesy is kept and not answered."""
    filing = crew.note("thanks!")

    assert (filing.state, filing.outgoing) == ("done", ())


def test_an_empty_or_unreadable_message_is_answered_kindly(crew):
    """Nothing understood is said, with a line that would work, and nothing is recorded."""
    filing = crew.note("")

    assert filing.outgoing
    assert all(crew.visits(n) == () for n in (1, 2, 3))


def test_a_reply_in_a_fields_conversation_needs_no_name(crew):
    """Answering our mail about a field, the note belongs to that field."""
    first = crew.note("old mill 5 dug none")
    crew.note("8 dug shovel 3 white", reply_to=first.outgoing[0].message_id)

    assert [v.note.plants for v in crew.visits(2)] == [5, 8]


def test_somebody_elses_conversation_gives_no_field(crew):
    """A Message-ID of a mail to another person is no proof of which field is meant."""
    first = crew.note("old mill 5 dug none")
    filing = crew.note("8 pl con pala 3 blancas", OTHER, reply_to=first.outgoing[0].message_id)

    assert len(crew.visits(2)) == 1
    assert len(filing.held) == 1


def test_a_held_note_is_placed_by_a_number(crew):
    """ "2" takes the second name that was offered."""
    asked = crew.note("mulberry 5 dug 3 white")
    assert asked.held
    names = asked.held[0].nearest
    crew.note("2")
    chosen = next(f for f in crew.parts.store.fields("crew") if f.name == names[1])

    assert [v.note.females.white for v in crew.visits(chosen.id)] == [3]
    assert crew.parts.store.held_notes(1) == ()


def test_a_new_field_takes_the_note_that_waited_for_it(crew):
    """Adding the field records the held note with it."""
    crew.note("mulberry hill 5 dug 3 white")
    crew.note("new field Mulberry Hill near Kestrel")
    fresh = next(f for f in crew.parts.store.fields("crew") if f.name == "Mulberry Hill")

    assert [v.note.females.white for v in crew.visits(fresh.id)] == [3]
    assert fresh.latitude == pytest.approx(42.06)


def test_a_short_form_with_another_place_never_moves_a_known_field(crew):
    """ "Add field Old Mill" with a place of its own is another field; the whole name moves the known one."""
    before = next(f for f in crew.parts.store.fields("crew") if f.name == "Old Mill East")
    filing = crew.note("add field Old Mill 42.21,-93.92")
    fields = {f.name: (f.latitude, f.longitude) for f in crew.parts.store.fields("crew")}

    assert fields["Old Mill East"] == (before.latitude, before.longitude)
    assert fields["Old Mill"] == (42.21, -93.92)
    assert "Old Mill East stays" in crew.body(filing)

    crew.note("old mill east 42.30,-93.95")
    assert next(f for f in crew.parts.store.fields("crew") if f.name == "Old Mill East").latitude == 42.30


def test_a_correction_changes_the_last_note_and_the_answer(crew):
    """ "white 14 not 12" leaves 14 standing and says so."""
    crew.note("kestrel 6 dug 12 white 3 yellow")
    filing = crew.note("white 14 not 12")

    assert [(v.note.females.white, v.note.females.total) for v in crew.visits(1)] == [(14, 17)]
    assert "14" in crew.body(filing)


def test_roots_tops_and_the_next_look_are_corrected(crew):
    """Words of roots take the place of those they stand for; the next look is told by its days."""
    crew.note("kestrel 6 dug 12 white 3 yellow, roots white and stubby, tops wilted, look again in 10 days")
    crew.note("kestrel roots were dark not white")
    crew.note("kestrel tops were stunted not wilted")
    filing = crew.note("kestrel look again in 14 days not 10")

    note = crew.visits(1)[-1].note
    assert set(note.roots) == {"stubby", "dark"} and note.tops == ("stunted",)
    assert note.look_again.days == 14
    assert "14 days" in crew.body(filing)


def test_a_next_look_told_in_days_is_known_by_its_day(crew):
    """ "In 9 days" of the 8th is "the 17th"."""
    crew.note("kestrel 6 dug 12 white, look again in 9 days")
    crew.note("back to kestrel on the 20th not the 17th")

    assert crew.visits(1)[-1].note.look_again.date == date(2026, 7, 20)
    assert "Nothing was changed" in crew.body(crew.note("back to kestrel in 5 days not 11"))


def test_what_was_sprayed_is_put_right(crew):
    """Its day stays; what we do not have is told."""
    crew.note("kestrel 6 dug 12 white, sprayed herbicide 3 days ago")
    filing = crew.note("kestrel was sprayed w fungicide, i put herbicide")

    spray = crew.visits(1)[-1].note.spray
    assert (spray.what, spray.days_ago) == ("fungicide", 3)
    assert "fungicide" in crew.body(filing)
    assert "fungicide" in crew.body(crew.note("spray at kestrel was insecticide not herbicide"))
    assert crew.visits(1)[-1].note.spray.what == "fungicide"


def test_a_correction_of_what_we_do_not_have_changes_nothing(crew):
    """If the old value is not ours, the writer is told what we have."""
    crew.note("kestrel 6 dug 12 white 3 yellow")
    filing = crew.note("white 14 not 9")

    assert [v.note.females.white for v in crew.visits(1)] == [12]
    assert "12" in crew.body(filing)


def test_one_number_for_another_is_found_in_the_last_note(crew):
    """ "Sorry, 9 not 6": the count that was 6, where only one was; else the writer is asked for its word."""
    crew.note("kestrel 6 dug 12 white 3 yellow")
    filing = crew.note("sorry, it was 14 not 12")
    assert [(v.note.plants, v.note.females.white) for v in crew.visits(1)] == [(6, 14)]
    assert "14" in crew.body(filing)

    crew.note("kestrel 6 dug 6 white 3 yellow")
    assert "which count 6 was" in crew.body(crew.note("9 not 6"))
    assert "which count 40 was" in crew.body(crew.note("9 not 40"))
    assert [(v.note.plants, v.note.females.white) for v in crew.visits(1)][-1] == (6, 6)


def test_nobody_corrects_another_scouts_note(crew):
    """A scout's correction reaches only the scout's own notes."""
    crew.note("kestrel 6 dug 12 white 3 yellow")
    crew.note("kestrel blancas 14 no 12", OTHER)

    assert [v.note.females.white for v in crew.visits(1)] == [12]


def test_a_note_in_the_wrong_field_can_be_taken_back(crew):
    """ "undo" takes the last message's note out and ends its promised look."""
    crew.note("kestrel 6 dug 12 white")
    filing = crew.note("undo")

    assert crew.visits(1) == ()
    assert crew.parts.store.open_promises() == ()
    assert "Kestrel Bottom" in crew.body(filing)


def _entry(filing) -> dict[str, str]:
    mail = message_from_bytes(filing.outgoing[0].raw, policy=policy.default)
    (part,) = [part for part in mail.walk() if part.get_content_type() == "text/calendar"]
    (event,) = Calendar.from_ical(part.get_content()).walk("VEVENT")
    return {name: str(event[name]) for name in ("UID", "SEQUENCE", "STATUS")}


@pytest.mark.parametrize("ending", ["skip kestrel", "undo"])
def test_a_look_that_is_given_up_leaves_the_calendar(crew, ending):
    """The entry's UID comes back cancelled with a higher number, and a later window may use it again."""
    first = _entry(crew.note("kestrel 6 dug 12 white"))
    gone = _entry(crew.note(ending))
    again = _entry(crew.note("kestrel 8 dug 3 white 9 yellow"))

    assert first["UID"] == gone["UID"] == again["UID"]
    assert [entry["STATUS"] for entry in (first, gone, again)] == ["CONFIRMED", "CANCELLED", "CONFIRMED"]
    assert int(first["SEQUENCE"]) < int(gone["SEQUENCE"]) < int(again["SEQUENCE"])


def test_a_planting_date_told_by_mail_is_used(crew):
    """ "kestrel planted 5/20" changes the field."""
    crew.note("kestrel planted 5/20")

    assert crew.parts.store.field(1).planted == date(2026, 5, 20)


def test_unproved_mail_is_held_and_let_through_by_the_supervisor(tmp_path):
    """From outside the private network a listed name proves nothing; one reply of the supervisor lets it in."""
    crew = Crew(tmp_path, noon(7, 8))
    try:
        heads = b"From: scout1@crew.example\r\nTo: notes@crew.example\r\nMessage-ID: <x@p.example>\r\n"
        raw = heads + b"\r\nkestrel 6 dug 12 white\r\n"
        number = crew.raw(raw, peer="192.0.2.7")
        ((_, filing),) = crew.parts.rounds.messages()
        assert (filing.state, filing.reason, filing.outgoing) == ("held", "unproved", ())
        assert crew.visits(1) == ()
        assert crew.note(f"release {number}", OTHER).released == ()

        released = crew.note(f"release {number}", SUPERVISOR)
        assert released.released == (number,)
        ((_, after),) = crew.parts.rounds.messages()
        assert after.state == "done"
        assert len(crew.visits(1)) == 1
    finally:
        crew.close()


def test_a_stranger_cannot_be_let_through(crew):
    """There is nobody to answer to, so the supervisor is told to add the person first."""
    crew.keep("kestrel 6 dug 12 white", "someone@elsewhere.example")
    crew.parts.rounds.messages()
    number = crew.parts.store.held_messages()[0].number
    filing = crew.note(f"release {number}", SUPERVISOR)

    assert filing.released == ()
    assert "someone@elsewhere.example" in crew.body(filing).lower()


def test_a_crew_sees_only_its_own_fields(tmp_path):
    """Another crew's field is unknown, and its name is not offered."""
    base = Crew(tmp_path, noon(7, 8))
    base.close()
    people = (*base.settings.people, Person(4, "outsider", "scout", "other crew", ("out@crew.example",)))
    crew = Crew(
        tmp_path / "two",
        noon(7, 8),
        replace(base.settings, people=people, service=replace(base.settings.service, folder=tmp_path / "two")),
    )
    try:
        filing = crew.note("state kestrel", "out@crew.example")
        assert "Kestrel Bottom" not in crew.body(filing)
        crew.note("kestrel 5 dug 3 white", "out@crew.example")
        assert crew.visits(1) == ()
    finally:
        crew.close()


def test_an_answer_goes_only_to_a_registered_address(crew):
    """Reply-To is somebody's wish; the answer goes to the address on the list."""
    filing = crew.note("kestrel 6 dug 12 white", Reply_To="someone@elsewhere.example")

    assert [outgoing.recipient for outgoing in filing.outgoing] == [SCOUT]


def test_a_stated_entry_interval_keeps_everybody_out(crew):
    """Sprayed today with 48 h stated: no look before it ends, and the answer says so."""
    filing = crew.note("kestrel 6 dug 12 white. sprayed today REI 48 h. recheck 1 d")
    (promise,) = crew.parts.store.open_promises()

    assert promise.earliest >= date(2026, 7, 11)
    assert "label" in crew.body(filing).lower()


def test_a_supervisor_gets_a_digest_on_request(crew):
    """ "digest" is answered with the digest, in the same transaction."""
    crew.note("kestrel 6 dug 12 white")
    filing = crew.note("digest", SUPERVISOR)

    assert [outgoing.kind for outgoing in filing.outgoing] == ["digest"]
    assert "Kestrel Bottom" in filing.outgoing[0].body


def test_a_person_who_writes_in_spanish_is_answered_in_spanish(crew):
    """The answer follows the note's language."""
    filing = crew.note("kestrel 6 plantas con pala 12 blancas 3 amarillas", OTHER)

    assert "hembras" in crew.body(filing)


@pytest.mark.parametrize(
    ("told", "answer"),
    [
        ("kestrel roots were dark not white", "roots dark"),
        ("kestrel soil was silt loam not clay", "silt loam"),
        ("kestrel was R1 not V5", "R1"),
    ],
)
def test_what_was_not_noted_is_noted_when_it_is_put_right(crew: Crew, told: str, answer: str) -> None:
    """Nothing stands in its way, and what is so is told; a count that was never noted is asked about."""
    crew.note("kestrel 6 plants, 12 white")
    body = crew.body(crew.note(told))
    assert "Corrected" in body and answer in body
    assert "Nothing was changed" in crew.body(crew.note("kestrel tan 4 not 3"))
