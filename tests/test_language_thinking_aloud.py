"""What a scout thinks aloud and puts right in the midst of a note."""

from __future__ import annotations

from datetime import date

import pytest

from notes_bot.language import read_note
from tests.reading_kit import CREW, SENT, note_of, reading_of


@pytest.mark.parametrize(
    ("text", "stage"),
    [
        ("Kestrel: V5. Hmm, let me count again... no, V6. 4 plants, 3 white 2 yellow, spade.", "V6"),
        ("Kestrel R2. Let me check... no, R3. 4 plants, 3 white", "R3"),
        ("Kestrel V5. A ver... no, V6. 5 plantas 2 blancas", "V6"),
        ("Kestrel V5, no, V6. 5 plantas 2 blancas", "V6"),
        ("Kestrel V5. Deixa eu conferir... não, V6. 5 plantas 2 brancas", "V6"),
    ],
)
def test_a_stage_counted_again(text, stage):
    """The last one told stands, and the answer says so."""
    assert note_of(text).stage == stage
    assert [remark.kind for remark in reading_of(text).remarks] == ["near_word"]


@pytest.mark.parametrize(
    ("text", "texture", "moisture"),
    [
        ("Kestrel, loam? No, silt loam. Yes, silt loam. 6 plants eased out by hand, 14 females", "silt_loam", None),
        ("Kestrel, sandy? no, sandy loam. 4 plants 3 white", "sandy_loam", None),
        ("Kestrel, loam. No, clay. 4 plants 3 white", "clay", None),
        ("Kestrel, clay - no, sorry, clay loam - 4 plants 3 white", "clay_loam", None),
        ("Kestrel wet. no, moist. 5 plants 2 white", None, "moist"),
        ("Kestrel franco, no, franco arenoso. 5 plantas 2 blancas", "sandy_loam", None),
        ("Kestrel arenoso? Não, argiloso. 5 plantas 2 brancas", "clay", None),
        ("Kestrel, dry, no rain. 5 plants 2 white", None, "dry"),
        ("Kestrel wet, no dry spots, 5 plants 2 white", None, "wet"),
    ],
)
def test_soil_put_right(text, texture, moisture):
    """What is only denied, or told of elsewhere, puts nothing right."""
    soil = note_of(text).soil
    assert (soil.texture, soil.moisture) == (texture, moisture)


@pytest.mark.parametrize(
    ("text", "method"),
    [
        ("Kestrel shovel, no, pulled, 5 plants 2 white", "pulled"),
        ("Kestrel pulled 5, no shovel, 2 white", "pulled"),
    ],
)
def test_a_way_of_digging_put_right(text, method):
    assert note_of(text).method == method


@pytest.mark.parametrize(
    ("text", "day"),
    [
        ("Kestrel, I went on Tuesday, no, it was Monday. 6 plants, 11 tan, 5 brown.", date(2026, 7, 6)),
        ("Kestrel went Tuesday, no it was Monday. 6 plants, 11 tan", date(2026, 7, 6)),
        ("Kestrel July 2, no it was July 3, 6 plants none", date(2026, 7, 3)),
        ("Kestrel 2 de julio, no, 3 de julio, 5 plantas 1 blanca", date(2026, 7, 3)),
        ("Kestrel fui na terça, não, foi na segunda. 5 plantas 2 brancas", date(2026, 7, 6)),
    ],
)
def test_a_day_put_right(text, day):
    assert note_of(text).date == day


@pytest.mark.parametrize(
    ("text", "days"),
    [
        ("Kestrel, look again in a week. No, make it ten days, I'm away. 5 plants today, no females.", 10),
        ("Kestrel volver en una semana. No, mejor en diez días. 5 plantas 2 blancas", 10),
        ("Kestrel olhar de novo em uma semana, não, em dez dias. 5 plantas 2 brancas", 10),
    ],
)
def test_a_next_look_put_right(text, days):
    assert note_of(text).look_again.days == days


@pytest.mark.parametrize(
    ("text", "plants"),
    [
        ("Kestrel - 6 plants with the spade... no, 5, I counted one twice. Nothing on any of them.", 5),
        ("Kestrel, 6 plants with a shovel, no, 7 plants. 3 white", 7),
        ("Kestrel dug six plants with the shovel, sorry, seven. 3 white", 7),
    ],
)
def test_plants_put_right_behind_the_tool(text, plants):
    note = note_of(text)
    assert (note.plants, note.method) == (plants, "shovel")


@pytest.mark.parametrize(
    ("text", "what", "value"),
    [
        ("R4, não R3", "stage", "R4"),
        ("Kestrel era R3 no R2", "stage", "R3"),
        ("no Kestrel eu arranquei na mão, não foi com pá", "method", "pulled"),
    ],
)
def test_what_is_only_denied_puts_nothing_right(text, what, value):
    """ "No" right before the other denies it: a correction of an earlier note."""
    (command,) = read_note(text, sent=SENT, fields=CREW).commands
    assert (command.kind, command.args["what"], command.args["value"]) == ("correct", what, value)
