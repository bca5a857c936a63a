"""Reading all kept messages again: the same records, or every difference named, and a way to put them right."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import closing
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest
from sqlite_utils import Database

from notes_bot.cli import main
from notes_bot.demo import crew as demo_crew
from notes_bot.demo import play
from notes_bot.model import Proof
from notes_bot.reread import Comparison, in_words, reread
from notes_bot.service import ServiceWrong, only_one
from notes_bot.settings import STARTER, read_settings
from notes_bot.store import rebuild
from tests.crew_kit import FIELDS, OTHER, SCOUT, SUPERVISOR, Crew, noon

ALL_GONE = [f"delete from {table}" for table in rebuild.RECORDS]  # noqa: S608 - fixed text


class Summer(Crew):
    """A crew that stays awake between two mails."""

    def days(self, count: int) -> None:
        for _ in range(4 * count):
            self.clock.walk_to(self.clock.at + timedelta(hours=6))
            self.parts.rounds.messages()
            self.parts.rounds.close_windows()
            self.parts.rounds.reminders()
            self.parts.post_all()

    def unproved(self, text: str) -> int:
        """A mail in a scout's name that nothing proves: held."""
        number = self.keep(text)
        self.parts.store._db.execute("update inbox set peer = '192.0.2.9' where id = ?", [number])
        self.parts.store._db.conn.commit()
        ((_, filing),) = self.parts.rounds.messages()
        assert filing is not None
        assert (filing.state, filing.reason) == ("held", "unproved")
        return number


def live(folder: Path) -> Summer:
    """Six weeks with everything that changes records."""
    summer = Summer(folder, noon(6, 15))
    summer.note("kestrel 6 dug 12 white 3 yellow")
    summer.note("mill 5 dug none")
    summer.note("correct kestrel white 13")
    summer.days(2)
    held = summer.unproved("harrow 6 dug 2 white")
    summer.days(1)
    summer.note("nowhere 5 dug none")
    summer.note("1")
    summer.note("add field North Gate planted 5/9")
    summer.note("north gate 4 dug 1 white", OTHER)
    summer.note(f"release {held}", SUPERVISOR)
    summer.note("undo", OTHER)
    summer.parts.rounds.messages()
    summer.note("hello", "stranger@elsewhere.example")
    summer.note("hi", Precedence="bulk")
    summer.note("lab kestrel 1200 eggs per 100 cc", SUPERVISOR)
    summer.note("mute mill", SUPERVISOR)
    summer.note("español", OTHER)
    summer.days(34)
    summer.note("kestrel 6 dug 30 brown")
    summer.days(40)
    return summer


@pytest.fixture(scope="module")
def lived(tmp_path_factory: pytest.TempPathFactory) -> Path:
    summer = live(tmp_path_factory.mktemp("summer"))
    summer.close()
    return summer.settings.service.folder


@pytest.fixture
def folder(lived: Path, tmp_path: Path) -> Iterator[Path]:
    """That summer's folder, to be done with as one likes."""
    for name in ("notes.db", "token.key"):
        (tmp_path / name).write_bytes((lived / name).read_bytes())
    yield tmp_path
    assert not list(tmp_path.glob("rereading-*"))


def again(folder: Path, *, swap: bool = False) -> tuple[Comparison, Path | None]:
    settings = settings_of(folder)
    return reread(settings, lambda: noon(9, 1), swap=swap)


def settings_of(folder: Path):  # type: ignore[no-untyped-def]
    made = Crew(folder / "throw-away", noon(6, 1))
    made.close()
    return replace(made.settings, service=replace(made.settings.service, folder=folder))


def change(folder: Path, *statements: str) -> None:
    with closing(sqlite3.connect(folder / "notes.db")) as conn, conn:
        for statement in statements:
            assert conn.execute(statement).rowcount > 0, statement


def tables(folder: Path, *, but: tuple[str, ...] = ()) -> dict[str, list[tuple[object, ...]]]:
    with closing(sqlite3.connect(folder / "notes.db")) as conn:
        names = [n for (n,) in conn.execute("select name from sqlite_master where type = 'table'")]
        return {n: conn.execute(f"select * from {n}").fetchall() for n in sorted(names) if n not in but}  # noqa: S608


def test_a_summer_read_again_gives_the_same_records(folder: Path) -> None:
    """Notes, corrections, a note that waited, a released message, new fields, and windows that opened and closed."""
    before = tables(folder)
    compared, backup = again(folder)

    assert list(in_words(compared)) == [
        f"{compared.messages} messages read again, {compared.records} records compared",
        "everything agrees",
    ]
    assert compared.messages >= 15
    states = {row[0] for row in sqlite3.connect(folder / "notes.db").execute("select state from reminders")}
    assert states >= {"closed", "kept"}
    assert backup is None
    assert tables(folder) == before


def test_damage_is_named_record_by_record_and_put_right_on_request(folder: Path) -> None:
    """Lost, altered and invented records; after --replace all is as it was, nothing is sent, a copy is kept."""
    whole = tables(folder)
    change(
        folder,
        "delete from visits where inbox_id = 2",
        "update visits set note = replace(note, '13', '1300') where inbox_id = 3",
        "update visits set replaced_by = 0 where id = (select max(id) from visits)",
        "update fields set planted = '2026-04-01' where name = 'North Gate'",
        "delete from events where kind = 'lab'",
        "update reminders set latest = '2026-12-24' where state = 'kept'",
        "delete from held_notes",
    )
    damaged = tables(folder)
    compared, _ = again(folder)
    words = "\n".join(in_words(compared))

    assert not compared.same
    for told in (
        "message 2\n  read again:   visit Old Mill East 2026-06-15 (",
        "the database: visit Kestrel Bottom",
        "1300 white",
        "read again:   event Kestrel Bottom by supervisor lab",
        "North Gate\n",
        "2026-04-01",
        "window",
        "waiting note",
    ):
        assert told in words, (told, words)
    assert tables(folder) == damaged
    _, backup = again(folder, swap=True)
    assert backup is not None
    with closing(sqlite3.connect(backup)) as conn:
        assert conn.execute("select count(*) from visits").fetchone()[0] == len(damaged["visits"])
    assert again(folder)[0].same
    mended = tables(folder)
    for table in ("outbox", "people", "inbox", "temperatures", "rounds"):
        assert mended[table] == whole[table], table
    assert len(mended["visits"]) == len(whole["visits"])


def test_all_records_gone_come_back_from_the_raw_messages_alone(folder: Path) -> None:
    """Even the fields: ids are those that what was sent speaks of."""
    whole = tables(folder)
    change(folder, *ALL_GONE)
    again(folder, swap=True)
    mended = tables(folder)

    assert again(folder)[0].same
    assert {row[:3] for row in mended["fields"]} == {row[:3] for row in whole["fields"]}
    assert len(mended["visits"]) == len(whole["visits"])


def test_a_service_that_runs_may_be_compared_but_not_replaced(folder: Path) -> None:
    """Two writers of records would undo each other."""
    with closing(only_one(folder)):
        assert again(folder)[0].same
        with pytest.raises(ServiceWrong, match="stop it first"):
            again(folder, swap=True)


def test_a_crash_in_the_middle_of_the_swap_leaves_the_old_records_whole(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """All of it or nothing."""
    change(folder, "delete from visits where inbox_id = 2")
    before = tables(folder)
    monkeypatch.setattr(rebuild, "RECORDS", ("visits", "events", "no_such_table"))
    with pytest.raises(sqlite3.OperationalError):
        again(folder, swap=True)

    assert tables(folder) == before


def test_a_database_of_before_proofs_were_kept_is_read_again_too(folder: Path) -> None:
    """What was done was proved, what was held was not, what was finished late had been let through."""
    change(folder, "update inbox set proof = null, dealt_at = null, crew = null")
    compared, _ = again(folder)

    assert compared.same, "\n".join(in_words(compared))


def test_signatures_are_not_asked_again_for_keys_change(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """What proved a sender then is kept with the message; what was held then is not believed now."""
    asked: list[object] = []
    monkeypatch.setattr("notes_bot.reread.prove", lambda *a, **_: asked.append(a) or Proof("none"))

    assert again(folder)[0].same
    assert asked == []


def test_a_code_word_of_then_is_taken_off_though_it_is_another_today(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The word is not kept, only that the first word was it."""
    crew = Crew(tmp_path, noon(7, 1))
    texts = replace(crew.settings.texts, mail_gateways=("texts.example",))
    people = (replace(crew.settings.people[0], addresses=(SCOUT, "+15155550101")), *crew.settings.people[1:])
    crew.close()
    monkeypatch.setenv("NOTES_BOT_CODE_WORD", "acorn")
    settings = replace(
        crew.settings, texts=texts, people=people, mail_in=replace(crew.settings.mail_in, believe="proof")
    )
    crew = Crew(tmp_path, noon(7, 1), settings)
    raw = b"From: 5155550101@texts.example\r\nMessage-ID: <a@texts.example>\r\n\r\nacorn kestrel 6 dug 3 white\r\n"
    crew.raw(raw, "5155550101@texts.example", peer="192.0.2.9")
    ((_, filing),) = crew.parts.rounds.messages()
    crew.close()
    assert filing is not None
    assert (filing.state, filing.proof) == ("done", "code_word")
    monkeypatch.setenv("NOTES_BOT_CODE_WORD", "walnut")
    compared, _ = reread(settings, lambda: noon(9, 1))

    assert compared.same, "\n".join(in_words(compared))


def test_a_field_of_an_earlier_settings_file_is_found_again(folder: Path) -> None:
    """It stands in no message and in no file any more: the old records name it."""
    settings = replace(settings_of(folder), fields=FIELDS[1:])
    compared, _ = reread(settings, lambda: noon(9, 1))

    assert compared.same, "\n".join(in_words(compared))


def test_a_message_that_was_set_aside_and_can_be_read_now_is_told_and_recorded_but_not_answered(folder: Path) -> None:
    """After a bug is mended its messages need not be typed again."""
    change(
        folder,
        "delete from visits where inbox_id = 2",
        "delete from outbox where inbox_id = 2",
        "update inbox set state = 'stuck', reason = 'an error of the service', proof = null where id = 2",
    )
    sent = tables(folder)["outbox"]
    compared, _ = again(folder, swap=True)
    words = "\n".join(in_words(compared))

    assert "message 2\n  the database: stuck an error of the service\n  read again:   done\n" in words
    assert again(folder)[0].same
    assert tables(folder)["outbox"] == sent


def test_calendar_entries_count_upwards_after_a_swap(folder: Path) -> None:
    """A calendar ignores a change whose number is not higher than the last one it was sent."""
    with closing(sqlite3.connect(folder / "notes.db")) as conn:
        uid, highest = conn.execute("select uid, max(sequence) from reminders where field_id = 1").fetchone()
    change(folder, f"update reminders set sequence = {highest + 40} where uid = '{uid}' and sequence = {highest}")  # noqa: S608
    again(folder, swap=True)
    with closing(sqlite3.connect(folder / "notes.db")) as conn:
        (after,) = conn.execute("select max(sequence) from reminders where uid = ?", [uid]).fetchone()

    assert after == highest + 42


def test_messages_still_in_line_are_left_to_the_service(folder: Path) -> None:
    """They have no records yet."""
    change(folder, "update inbox set state = 'waiting', finished_at = null where id = (select max(id) from inbox)")
    compared, _ = again(folder)

    assert {record.at for record in (*compared.only_kept, *compared.only_reread)} <= {
        max(record.at for record in (*compared.only_kept, *compared.only_reread))
    } | {0}
    assert compared.only_reread == () or all(record.kind == "window" for record in compared.only_reread)


def test_every_table_is_either_made_again_or_taken_as_it_is(folder: Path) -> None:
    """A new table must say which of the two it is."""
    names = {name for name in Database(folder / "notes.db").table_names() if not name.startswith(("_", "sqlite_"))}

    assert names == {*rebuild.RECORDS, *rebuild.GIVEN, *rebuild.DERIVED}


def test_the_command_tells_in_words_and_by_its_exit_status(
    folder: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """0 when all agrees or was put right, 1 when something differs, 2 when it cannot be done."""
    settings = tmp_path / "notes-bot.toml"
    settings.write_text(STARTER, "utf-8")
    assert main(["reread", "--settings", str(settings)]) == 2
    assert "nothing has been kept yet" in capsys.readouterr().err
    told_by = read_settings(settings)
    told_by = replace(told_by, mail_in=replace(told_by.mail_in, port=0))
    made = Summer(tmp_path / "notes-bot-data", noon(7, 1), told_by)
    made.note("kestrel 6 dug 12 white")
    made.close()
    assert main(["reread", "--settings", str(settings)]) == 0
    assert "everything agrees" in capsys.readouterr().out
    change(tmp_path / "notes-bot-data", "delete from visits")
    assert main(["reread", "--settings", str(settings)]) == 1
    told = capsys.readouterr().out
    assert "message 1" in told
    assert "add --replace" in told
    assert main(["reread", "--replace", "--settings", str(settings)]) == 0
    assert "are in place" in capsys.readouterr().out
    assert main(["reread", "--settings", str(settings)]) == 0


@pytest.mark.heavy
def test_the_demo_season_read_again_gives_the_same_records(tmp_path: Path) -> None:
    """Three months of real mail, reminders and digests; then with all its records gone."""
    folder = tmp_path / "demo"
    assert play(folder, say=lambda _: None) == 0
    settings = demo_crew(folder)
    compared, _ = reread(settings, lambda: noon(11, 1))
    assert compared.same, "\n".join(in_words(compared))
    assert compared.records > 50
    change(folder, *ALL_GONE)
    gone, backup = reread(settings, lambda: noon(11, 1), swap=True)

    assert len(gone.only_reread) + gone.records == compared.records  # the settings' fields come back by themselves
    assert gone.only_kept == ()
    assert backup is not None
    assert reread(settings, lambda: noon(11, 1))[0].same
