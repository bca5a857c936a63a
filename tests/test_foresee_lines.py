"""`notes-bot foresee --json --lines FILE`: the outlook contract, line by line, whatever the lines hold."""

from __future__ import annotations

import json
from datetime import date, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from notes_bot.asdata import BadInput
from notes_bot.cli import main
from notes_bot.question import question_from_data

STAGES = {"before_first", "early", "peak", "late", "between", "declined"}
EVENTS = {"first_white", "peak", "turning_tan", "next_white", "last_look"}
GOOD = {
    "id": "kestrel", "as_of": "2026-06-24", "planted": "2026-05-06", "latitude": 42.06, "longitude": -93.87,
    "temperatures": [{"date": "2026-06-01", "tmin_c": 14, "tmax_c": 27}, {"date": "2026-06-02", "soil_mean_c": 19.5}],
    "resistance": None, "entry_closed_until": None,
    "visits": [{"date": "2026-06-11", "plants": 6, "method": "shovel", "soaked": None, "moisture": "moist",
                "texture": None, "females": {"white": 17, "yellow": 0, "tan": 0, "brown": 0, "total": 17}}],
}  # fmt: skip


def foreseen(tmp_path, capsys, *lines: object) -> tuple[int, list[dict], str]:
    """Status, answers and complaints for lines given as objects or as raw text."""
    file = tmp_path / "questions.jsonl"
    text = [line if isinstance(line, str) else json.dumps(line) for line in lines]
    file.write_text("\n".join(text) + "\n", "utf-8")
    status = main(["foresee", "--json", "--lines", str(file)])
    said = capsys.readouterr()
    return status, [json.loads(line) for line in said.out.split("\n") if line], said.err


def test_an_answer_holds_every_key_of_the_contract(tmp_path, capsys):
    """Keys, vocabularies, ordered windows and probabilities as docs/outlook.md has them."""
    status, (got,), complaints = foreseen(tmp_path, capsys, GOOD)

    assert (status, complaints) == (0, "")
    assert (got["id"], got["as_of"]) == ("kestrel", "2026-06-24")
    assert got["stage"] in STAGES
    assert got["generation"] in (1, 2, "3+", None)
    assert got["generation_probability"] is None or 0 <= got["generation_probability"] <= 1
    assert {window["event"] for window in got["windows"]} <= EVENTS
    for window in got["windows"]:
        assert set(window) == {"event", "generation", "earliest", "likely", "latest"}
        assert window["earliest"] <= window["likely"] <= window["latest"]
        assert window["generation"] in (1, 2, "3+", None)
    assert 0 <= got["infested_probability"] <= 1
    assert {"earliest", "likely", "latest", "purpose"} <= set(got["look_again"])
    assert got["basis"] and all(isinstance(line, str) for line in got["basis"])


def test_no_look_again_says_why(tmp_path, capsys):
    """After the roots are gone `look_again` is null and `why` stands beside it."""
    _, (got,), _ = foreseen(tmp_path, capsys, GOOD | {"as_of": "2026-10-20"})

    assert got["stage"] == "declined"
    assert got["look_again"] is None
    assert got["why"]


def test_a_bare_question_is_answered_from_what_is_usual(tmp_path, capsys):
    """Only the day of the question: all keys may be missing, and the basis says what was assumed."""
    status, (got,), _ = foreseen(tmp_path, capsys, {"as_of": "2026-06-24"})

    assert (status, got["id"]) == (0, None)
    assert len(got["basis"]) >= 3


BAD_LINES = [
    ({"visits": []}, "as_of is missing"),
    ({"as_of": "1 July"}, "write a day as 2026-07-01"),
    ({"as_of": 20260701}, "write a day as 2026-07-01"),
    ({"as_of": "0001-01-01"}, "write a day from 1850 to 2200"),
    (GOOD | {"planted": "6 May"}, "planted is"),
    (GOOD | {"latitude": 420}, "write a number from -90 to 90"),
    (GOOD | {"latitude": "42 N"}, "latitude is '42 N'"),
    (GOOD | {"longitude": True}, "longitude is True"),
    ('{"as_of": "2026-07-01", "latitude": NaN}', "latitude is nan"),
    (GOOD | {"resistance": "PI 88788"}, "write one of resistant, susceptible"),
    (GOOD | {"entry_closed_until": "tomorrow"}, "entry_closed_until is 'tomorrow'"),
    (GOOD | {"visits": {"date": "2026-06-30"}}, "visits is"),
    (GOOD | {"visits": ["2026-06-30"]}, "visits: number 1 is"),
    (GOOD | {"visits": [{"plants": 5}]}, "visit 1 has no date"),
    (GOOD | {"visits": [{"date": "2026-06-20", "plants": 0}]}, "visit 1: plants is 0"),
    (GOOD | {"visits": [{"date": "2026-06-20", "plants": 2.5}]}, "visit 1: plants is 2.5"),
    (GOOD | {"visits": [{"date": "2026-06-20", "plants": "six"}]}, "visit 1: plants is 'six'"),
    (GOOD | {"visits": [{"date": "2026-06-20", "method": "spade"}]}, "write one of pulled, eased, shovel"),
    (GOOD | {"visits": [{"date": "2026-06-20", "soaked": "yes"}]}, "write true, false or null"),
    (GOOD | {"visits": [{"date": "2026-06-20", "moisture": "damp"}]}, "write one of dry, moist, wet"),
    (GOOD | {"visits": [{"date": "2026-06-20", "females": 12}]}, "visit 1: females is 12"),
    (GOOD | {"visits": [{"date": "2026-06-20", "females": {"white": -1}}]}, "females white is -1"),
    (GOOD | {"visits": [{"date": "2026-06-20", "females": {"white": 1e300}}]}, "females white is 1e+300"),
    (GOOD | {"visits": [{"date": "2026-06-20", "females": {"white": 9, "total": 5}}]}, "less than the 9"),
    (GOOD | {"visits": [{"date": "2026-06-20", "females": {"total": 5}, "outcome": "none_seen"}]}, "one or the other"),
    (GOOD | {"visits": [{"date": "2026-06-20", "mostly": "yellow"}]}, "write a list of colours"),
    (GOOD | {"visits": [{"date": "2026-06-20", "per_plant": [1, "two"]}]}, "per_plant is 'two'"),
    (GOOD | {"temperatures": {"2026-06-01": 20}}, "temperatures is"),
    (GOOD | {"temperatures": [{"tmin_c": 3, "tmax_c": 9}]}, "temperature 1 has no date"),
    (GOOD | {"temperatures": [{"date": "2026-06-01", "tmin_c": 61, "tmax_c": 86}]}, "tmin_c is 61"),
    (GOOD | {"temperatures": [{"date": "2026-06-01", "tmin_c": 27, "tmax_c": 14}]}, "the wrong way round"),
    (GOOD | {"temperatures": [{"date": "2026-06-01", "tmin_c": 150, "tmax_c": 267}]}, "write a number from -60 to 57"),
    ("[1]", "must be a JSON object"),
    ("null", "must be a JSON object"),
    ("{", "is not JSON"),
    ('{"as_of": "2026-07-01"} {"as_of": "2026-07-02"}', "is not JSON"),
    ("[" * 100_000, "is not JSON"),
]


@pytest.mark.parametrize(("line", "told"), BAD_LINES, ids=[told for _, told in BAD_LINES])
def test_a_line_that_cannot_be_used_is_told_and_costs_only_itself(tmp_path, capsys, line, told):
    """The answer in its place names the line and what is wrong; the lines about it are answered as alone."""
    _, alone, _ = foreseen(tmp_path, capsys, GOOD)
    status, got, complaints = foreseen(tmp_path, capsys, GOOD, line, GOOD)

    assert status == 2
    assert [got[0], got[2]] == alone * 2
    assert got[1]["line"] == 2
    assert told in got[1]["error"]
    assert "line 2: " in complaints and told in complaints
    assert complaints.count("\n") == 1


def test_a_bad_line_keeps_its_id(tmp_path, capsys):
    """So that a script knows whose question it was."""
    _, (got,), _ = foreseen(tmp_path, capsys, GOOD | {"as_of": None})

    assert (got["id"], got["line"]) == ("kestrel", 1)


def test_keys_nobody_knows_are_named(tmp_path, capsys):
    """A misspelt key is not passed over in silence, and the rest is answered."""
    status, (got,), complaints = foreseen(
        tmp_path, capsys, GOOD | {"plantd": "2026-05-06", "visits": [{"date": "2026-06-11", "plnts": 6}]}
    )

    assert status == 0
    assert got["ignored"] == ["plantd", "visit.plnts"]
    assert "plantd" in complaints


def test_a_colour_not_mentioned_beside_others_is_none_of_that_colour(tmp_path, capsys):
    """Seventeen white and nothing else said is the same as seventeen white and zeros."""
    short = GOOD | {"visits": [{"date": "2026-06-11", "plants": 6, "method": "shovel", "females": {"white": 17}}]}
    full = GOOD | {"visits": [{**short["visits"][0], "females": {"white": 17, "yellow": 0, "tan": 0, "brown": 0}}]}
    _, (first, second), _ = foreseen(tmp_path, capsys, short, full)

    assert first == second
    assert first["infested_probability"] > 0.9


def test_nothing_later_than_the_question_is_used(tmp_path, capsys):
    """Later visits and measurements change nothing; forecast days may."""
    later = GOOD | {
        "visits": [*GOOD["visits"], {"date": "2026-07-01", "plants": 6, "females": {"brown": 60}}],
        "temperatures": [*GOOD["temperatures"], {"date": "2026-06-30", "tmin_c": 22, "tmax_c": 38}],
    }
    hot = [
        {"date": str(date(2026, 6, 25) + timedelta(i)), "tmin_c": 24, "tmax_c": 38, "forecast": True} for i in range(9)
    ]
    _, (alone, with_later, with_forecast), _ = foreseen(tmp_path, capsys, GOOD, later, GOOD | {"temperatures": hot})

    assert with_later == alone
    assert with_forecast["windows"] != alone["windows"]


def test_earlier_years_among_the_temperatures_stand_for_the_weather_to_come(tmp_path, capsys):
    """Ten earlier years of readings are used as futures, and the basis says so."""
    days = [date(year, 4, 1) + timedelta(i) for year in range(2014, 2024) for i in range(190)]
    rows = [{"date": str(day), "tmin_c": 14 + day.year % 5, "tmax_c": 26 + day.year % 5} for day in days]
    _, (got,), _ = foreseen(tmp_path, capsys, GOOD | {"temperatures": rows})

    assert any("10 years of this place" in line for line in got["basis"])


def test_a_whole_note_of_the_reader_is_a_visit(tmp_path, capsys):
    """What `notes-bot read --json` prints may be put in as it is."""
    main(["read", "kestrel 6/11 dug 6 shovel, 17 white, moist", "--json", "--sent", "2026-06-11"])
    note = json.loads(capsys.readouterr().out)["notes"][0]
    status, (got,), complaints = foreseen(tmp_path, capsys, GOOD | {"visits": [note]})
    _, (plain,), _ = foreseen(tmp_path, capsys, GOOD)

    assert (status, complaints) == (0, "")
    assert got["windows"] == plain["windows"]


def test_a_file_that_is_not_there_or_no_text_is_a_sentence(tmp_path, capsys):
    """No stack of internals for a slip in a file name."""
    assert main(["foresee", "--json", "--lines", str(tmp_path / "absent.jsonl")]) == 2
    assert "cannot be read" in capsys.readouterr().err
    (tmp_path / "picture").write_bytes(b"\x89PNG\xff\xfe")
    assert main(["foresee", "--json", "--lines", str(tmp_path / "picture")]) == 2
    assert "cannot be read" in capsys.readouterr().err


def test_a_line_separator_inside_a_text_does_not_cut_the_line(tmp_path, capsys):
    """JSON allows U+2028 in a string; only a line feed ends a line."""
    _, got, _ = foreseen(tmp_path, capsys, json.dumps(GOOD | {"id": "a\u2028b"}, ensure_ascii=False))

    assert [row["id"] for row in got] == ["a\u2028b"]


JSON = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=12) | st.just("2026-06-20"),
    lambda inner: (
        st.lists(inner, max_size=3)
        | st.dictionaries(
            st.sampled_from(["date", "plants", "females", "white", "total", "tmin_c", "spots", "mostly", "soil", "x"]),
            inner,
            max_size=4,
        )
    ),
    max_leaves=8,
)


@given(st.sampled_from([*GOOD, "visit", "temperature", "females"]), JSON)
@settings(max_examples=400, deadline=None)
def test_any_value_anywhere_is_used_or_refused_with_a_sentence(key, value):
    """Random JSON in the place of any one value: a question or BadInput, never another error."""
    data = json.loads(json.dumps(GOOD))
    if key == "visit":
        data["visits"].append(value)
    elif key == "temperature":
        data["temperatures"].append(value)
    elif key == "females":
        data["visits"][0]["females"] = value
    else:
        data[key] = value
    try:
        question_from_data(data)
    except BadInput as error:
        assert len(str(error)) > 15
