"""What a sentence probably asks, where no rule of requests knows its words: weighed by what was learned."""

from __future__ import annotations

import math
import random
from datetime import date
from pathlib import Path

import pytest

from notes_bot.language import read_note, reader
from notes_bot.language.learn_wishes import Example, learn, of_corpus, of_way, parted, sentences, spelled
from notes_bot.language.requests import wishes
from notes_bot.language.requests.wishes import KINDS, Weights, kind_of, scale_of, signs_of, weigh
from notes_bot.model import Command, Language

SENT = date(2026, 7, 8)
FIELDS = ("Kestrel", "Dry Creek", "Tinker's", "La Tranquera", "Baixada")
WAYS = Path(__file__).parent / "corpus" / "wishes"


def _asked(text: str, language: Language = "en") -> list[Command]:
    return list(read_note(text, sent=SENT, fields=FIELDS, language=language).commands)


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("any word on kestrel", "state"),
        ("what did we find at kestrel all summer", "history"),
        ("draw me kestrels curve", "picture"),
        ("what was the egg count at kestrel again", "lab_again"),
        ("boss needs the season writeup for kestrel", "report"),
        ("where do i take the soil cores at kestrel", "sample"),
        ("give kestrel a pass this round", "skip"),
        ("quit pestering me about kestrel", "mute"),
        ("start pestering me about kestrel again", "resume"),
    ],
)
def test_a_field_is_asked_about_in_any_words(text: str, kind: str) -> None:
    (asked,) = _asked(text)

    assert kind_of(asked.kind, asked.args) == kind
    assert str(asked.args["field"]).startswith("kestrel")


@pytest.mark.parametrize(
    ("text", "language", "kind"),
    [
        ("where should i head next", "en", "due"),
        ("i have no clue how to use this thing", "en", "help"),
        ("scrap what i just sent, wrong field", "en", "take_back"),
        ("no tengo idea cómo se usa esto", "es", "help"),
        ("para dónde salgo mañana?", "es", "due"),
        ("me ajuda, não sei mexer nisso", "pt", "help"),
        ("pra onde eu vou agora?", "pt", "due"),
    ],
)
def test_what_needs_no_field_is_asked_in_any_words(text: str, language: Language, kind: str) -> None:
    assert [kind_of(command.kind, command.args) for command in _asked(text, language)] == [kind]


@pytest.mark.parametrize(
    ("text", "language", "kind", "args"),
    [
        ("message 7 is fine by me, you can let it out", "en", "release", {"number": 7}),
        ("a mensagem 7 pode liberar, eu conferi", "pt", "release", {"number": 7}),
        ("message 9 must not go out", "en", "refuse", {"number": 9}),
        ("la 9 no la mandes, está mal", "es", "refuse", {"number": 9}),
        ("would you mind texting me in spanish from now on", "en", "language", {"language": "es"}),
        ("escribime en español de ahora en más, el inglés me cuesta", "es", "language", {"language": "es"}),
        ("my fields are all over in Nebraska", "en", "place", {"place": "nebraska"}),
        ("how does that two look digging trial work", "en", "trial_help", {}),
        ("throw away the trial i entered last", "en", "trial", {"drop": True}),
        ("apaga esse último ensaio que eu mandei", "pt", "trial", {"drop": True}),
        ("which beans are getting more females than they used to", "en", "watch", {}),
        ("what hg type did kestrel come back with", "en", "hg", {"field": "kestrel"}),
        ("when i write Hawk Piece i mean Kestrel", "en", "field", {"name": "kestrel", "alias": "hawk piece"}),
    ],
)
def test_what_is_rarely_asked_is_read_with_its_value(
    text: str, language: Language, kind: str, args: dict[str, object]
) -> None:
    (asked,) = _asked(text, language)

    assert asked.kind == kind
    assert {key: value for key, value in asked.args.items() if value is not None} == args


@pytest.mark.parametrize(
    "text",
    [
        "number 7 and number 9 are fine, let them out",  # two: which of them is asked
        "the label on the jug is in spanish only",
        "the foreman says release the parking brake",
        "the seed trial at the coop is on the 12th",
    ],
)
def test_without_its_one_value_nothing_is_changed(text: str) -> None:
    assert not {c.kind for c in _asked(text)} & {"release", "refuse", "language", "place", "trial"}


def test_a_day_and_a_span_are_read_from_the_sentence() -> None:
    (friday,), (later,) = _asked("bug me about kestrel friday instead"), _asked("hold kestrel off for 4 more days")

    assert (friday.kind, friday.args["field"], friday.args["date"]) == ("move", "kestrel", date(2026, 7, 10))
    assert (later.kind, later.args["field"], later.args["days"]) == ("move", "kestrel", 4)


@pytest.mark.parametrize(
    "text",
    [
        "how's your mom doing",
        "kestrel gate was locked again",
        "told the owner of kestrel i would call him sometime",
        "kestrel stinks of hog manure",
        "summary of the coop meeting is on the counter",
        "take me off the group text",
        "he learned some spanish from the new guys",
        "kestrel looks like rattlesnake country",
    ],
)
def test_talk_asks_nothing(text: str) -> None:
    assert not [command for command in _asked(text) if command.kind != "choose"]


def test_a_note_is_never_a_wish() -> None:
    """What was seen or done is told: no words around it make a request of it."""
    reading = read_note("any word on kestrel? dug 5 plants, 3 white", sent=SENT, fields=FIELDS)

    assert reading.notes and reading.notes[0].females is not None


def _line(text: str, language: Language = "en") -> list[wishes.Line]:  # type: ignore[name-defined]
    said = reader.plainly(text, FIELDS, language)
    return list(sentences(said, SENT, FIELDS))


def _likely(text: str) -> dict[str, float]:
    (line,) = _line(text)
    return dict(zip(KINDS, weigh(signs_of(line.ps, "en"), wishes.learned()), strict=True))


def test_likelihoods_add_up_and_say_how_sure_it_is() -> None:
    sure, unsure = _likely("where should i head next"), _likely("kestrel kestrel whatever")

    assert math.isclose(sum(sure.values()), 1.0)
    assert max(sure, key=sure.__getitem__) == "due" and sure["due"] > wishes.SHOWN
    assert all(unsure[kind] < wishes.SHOWN for kind in KINDS if kind != "none")


def test_a_name_a_number_and_a_day_stand_for_any() -> None:
    (one,), (other,) = _line("push kestrel back 3 days to friday"), _line("push dry creek back 5 days to monday")

    assert signs_of(one.ps, "en") == signs_of(other.ps, "en")


@pytest.mark.parametrize("sure", [True, False])
def test_what_changes_something_must_be_surer(monkeypatch: pytest.MonkeyPatch, sure: bool) -> None:
    (line,) = _line("zorch kestrel please")
    between = (wishes.SHOWN + wishes.CHANGED) / 2
    likely = 0.95 if sure else between
    weight = 100 * math.log(likely / ((1 - likely) / (len(KINDS) - 1))) / scale_of(signs_of(line.ps, "en"))
    weights = Weights({"1 zorch": f"{KINDS.index('mute')},{weight:.0f}"})
    monkeypatch.setattr(wishes, "learned", lambda: weights)

    assert wishes.settled(line, lambda: False) is sure
    assert [command.kind for command in line.context.commands] == ["mute"] * sure


def test_a_rule_gives_way_only_to_what_is_sure(monkeypatch: pytest.MonkeyPatch) -> None:
    (line,) = _line("zorch kestrel please")
    signs = {"1 zorch": f"{KINDS.index('history')},9000"}

    def settled(kind: str, weights: Weights) -> list[str]:
        line.context.commands.clear()
        monkeypatch.setattr(wishes, "learned", lambda: weights)
        assert wishes.settled(line, lambda: line.emit(kind, field="kestrel"))
        return [command.kind for command in line.context.commands]

    assert settled("state", Weights({})) == ["state"]
    assert settled("state", Weights(signs)) == ["history"]
    assert settled("mute", Weights(signs)) == ["mute"]


def test_what_needs_a_field_and_has_none_stays_what_it_was(monkeypatch: pytest.MonkeyPatch) -> None:
    (line,) = _line("zorch the thing")
    monkeypatch.setattr(wishes, "learned", lambda: Weights({"1 zorch": f"{KINDS.index('history')},9000"}))

    assert not wishes.settled(line, lambda: False)
    assert not line.context.commands


def test_words_are_learned_and_written_down() -> None:
    """A handful of sentences is enough to tell made-up words apart; what is kept on paper weighs the same."""
    luck = random.Random(3)
    rows = [f"{kind}\t{word} {{f}} {tail}" for kind, word in (("mute", "blurk"), ("history", "womp"), ("none", "plin"))
            for tail in ("now", "please", "again", "")]  # fmt: skip
    told = [(n, way) for n, row in enumerate(rows) for way in of_way(row, "en", "Kestrel", luck)]
    learned = [Example(signs, kind, n) for n, (signs, kind) in told]
    weights = learn(learned)
    (line,) = _line("womp dry creek pls")
    likely = weigh(signs_of(line.ps, "en"), weights)

    assert KINDS[max(range(len(KINDS)), key=likely.__getitem__)] == "history"
    assert spelled(weights).count("\n") == len(weights.signs) + 2
    assert len(list(parted(learned, parts=2))) == 2


def test_sentences_of_a_message_are_learned_by_what_they_ask() -> None:
    row = {
        "text": "Kestrel 5 plants 2 white. Show me the chart for dry creek",
        "sent": "2026-07-08",
        "fields": ["Kestrel", "Dry Creek"],
        "reading": {"notes": [{"field": "kestrel"}], "commands": [{"kind": "picture", "field": "dry creek"}]},
    }

    assert {KINDS[kind] for _, kind in of_corpus(row)} == {"picture"}


@pytest.mark.parametrize("language", ["en", "es", "pt"])
def test_the_lists_of_ways_hold_each_kind_and_no_sentence_twice(language: Language) -> None:
    rows = [row.split("\t") for row in (WAYS / f"{language}.tsv").read_text("utf-8").splitlines()]

    assert all(len(row) == 2 and row[0] in KINDS for row in rows)
    assert {row[0] for row in rows} == set(KINDS)
    assert len({row[1].lower() for row in rows}) == len(rows)


@pytest.mark.parametrize(
    ("text", "language"),
    [("si puedo hacer dos campos, ¿cuáles van primero?", "es"), ("so who is bringing the sandwiches?", "en")],
)
def test_a_question_of_which_nothing_is_read_is_answered(text: str, language: Language) -> None:
    reading = read_note(text, sent=SENT, fields=FIELDS, language=language)

    assert reading.notes or reading.commands or reading.problems
