"""Every reply we tell people to send is understood by the note language, in the language it is told in."""

from __future__ import annotations

import re
from datetime import date
from typing import Any

import pytest

from notes_bot.language import help_text, read_note
from notes_bot.model import LANGUAGES, Command, Field, Language, Note, Reading
from notes_bot.reply import compose_help
from notes_bot.reply.segments import SINGLE, septets
from notes_bot.reply.words import Words, words
from notes_bot.resolve import find_field

SENT = date(2026, 7, 20)
FIELDS = ["Old Mill East", "Tinker's Field", "Section 9", "Old Mill"]
NAMES = ("Old Mill East", "Tinker's Field", "Section 9")
every_language = pytest.mark.parametrize("language", LANGUAGES)
every_name = pytest.mark.parametrize("name", NAMES)


def read(line: str, language: Language) -> Reading:
    return read_note(line, sent=SENT, fields=FIELDS, day_first=language != "en")


def command(line: str, language: Language) -> tuple[str, dict[str, Any]]:
    reading = read(line, language)
    assert reading.problems == ()
    assert reading.notes == ()
    (one,) = reading.commands
    assert isinstance(one, Command)
    return one.kind, dict(one.args)


def meant(written: str | None) -> str | None:
    """The field a written name finds: the word for "field" itself may be left out of it."""
    known, _, _ = find_field(written or "", [Field(n, name, "crew") for n, name in enumerate(FIELDS, start=1)])
    return known.name if known else None


def note(line: str, language: Language) -> Note:
    reading = read(line, language)
    assert reading.problems == ()
    (one,) = reading.notes
    return one


def told(speak: Words, sentence: str) -> str:
    """What stands behind the colon of a sentence that tells what to reply."""
    return sentence.rpartition(": ")[2].strip()


@every_language
@every_name
def test_the_correction_we_suggest_corrects(name: str, language: Language):
    """``fix <field>: 8 plants`` and its translations."""
    line = words(language)("answer.wrong_example", field=name, plants=8)

    kind, args = command(line, language)

    assert (kind, meant(args["field"]), args["what"], args["value"]) == ("correct", name, "plants", 8)


@every_language
@every_name
def test_taking_back_takes_back(name: str, language: Language):
    """For a note that has no number of plants to correct."""
    kind, args = command(words(language)("answer.wrong_undo", field=name), language)

    assert (kind, meant(args["field"])) == ("take_back", name)


@every_language
@every_name
@pytest.mark.parametrize("key", ["reminder.move_example", "digest.act_example"])
def test_moving_a_look_moves_it(key: str, name: str, language: Language):
    """The field's name and a day of the week."""
    kind, args = command(words(language)(key, field=name), language)

    assert (kind, meant(args["field"]), args["date"]) == ("move", name, date(2026, 7, 24))


@every_language
def test_leaving_a_look_out_is_one_word(language: Language):
    """In answer to a reminder of one field."""
    speak = words(language)

    assert command(told(speak, speak("reminder.skip")), language) == ("move", {"skip": True})


@every_language
def test_a_new_field_is_added(language: Language):
    """The reply we suggest when no known name comes near."""
    speak = words(language)

    assert command(told(speak, speak("held.new", name="creek piece")), language) == ("field", {"name": "creek piece"})


@every_language
def test_reminders_come_back_as_told(language: Language):
    """A muted field says how to hear of it again."""
    from notes_bot.model import Fact
    from notes_bot.reply import say

    line = told(words(language), say(Fact("muted", {"field": "Old Mill East"}), language))

    assert command(line, language) == ("resume", {"field": "old mill east"})


@every_language
def test_a_held_message_is_let_through_or_dropped(language: Language):
    """The two replies a digest offers."""
    speak = words(language)
    release, _, refuse = told(speak, speak("digest.held_do", number="7")).partition(", ")

    assert command(release, language) == ("release", {"number": 7})
    assert command(refuse.partition(" ")[2], language) == ("refuse", {"number": 7})


@every_language
@pytest.mark.parametrize("key", ["unreadable.example", "unreadable.short", "help.short"])
def test_the_example_notes_are_read_whole(key: str, language: Language):
    """Field, day, stage, plants and at least two colours."""
    line = words(language)(key)
    example = line[line.index("Old Mill") :]
    read_as = note(example, language)

    assert (read_as.field, read_as.date, read_as.plants, read_as.stage) == ("old mill", date(2026, 7, 16), 6, "R2")
    assert (read_as.females.white, read_as.females.yellow) == (12, 30)


@every_language
def test_the_colours_are_the_words_the_language_writes_itself(language: Language):
    """The reader meets one word for a colour, in what we read back and in what we conclude."""
    from notes_bot.language import spell
    from notes_bot.model import Females

    written = spell(Note(plants=6, females=Females(12, 30, 4, 2, 48), outcome="seen"), language)
    for colour, count in (("white", 12), ("yellow", 30), ("tan", 4), ("brown", 2)):
        assert re.search(rf"\b{count} {words(language).name('colour', colour)}\b", written), written


@every_language
def test_help_sends_the_card_of_the_language(language: Language):
    """The card is the language's own; a text message gets one line."""
    card = help_text(None, language)
    reply = compose_help(language, card)

    assert reply.text.strip("\n") == card.strip("\n")
    assert septets(reply.short) <= SINGLE
