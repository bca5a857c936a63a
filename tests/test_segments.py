"""Text messages: what fits into a segment, against another library's count."""

from __future__ import annotations

import pytest
import smsutil
from hypothesis import given
from hypothesis import strategies as st

from notes_bot.reply.segments import BASIC, EXTENSION, PART, SINGLE, first_that_fits, plain, segments, septets, shorten

GSM = "".join(sorted(BASIC | EXTENSION))


def test_the_alphabet_is_the_one_another_library_has():
    """Every character of both tables, and no other of the first 10,000, can be sent in 7 bits (oracle: smsutil)."""
    oracle = {chr(code) for code in range(10_000) if smsutil.is_valid_gsm(chr(code))}

    assert oracle - {"\x1b"} == BASIC | EXTENSION


@given(st.text(alphabet=GSM, max_size=700))
def test_segments_are_counted_as_another_library_counts_them(text: str):
    """One segment of 160 septets, else parts of 153 in which no two-septet character is split (oracle: smsutil)."""
    assert segments(text) == max(len(smsutil.split(text).parts), 1)


@given(st.text(max_size=400))
def test_plain_text_always_fits_the_alphabet(text: str):
    """Whatever people write, what we send is GSM-7."""
    septets(plain(text))


@given(st.text(max_size=400), st.integers(min_value=10, max_value=SINGLE))
def test_shortened_text_always_fits(text: str, room: int):
    """A cut text never needs more room than it was given."""
    assert septets(shorten(text, room)) <= room


@pytest.mark.parametrize(
    ("written", "sent"),
    [
        ("mañana, ¿qué lote?", "mañana, ¿qué lote?"),
        ("até amanhã, não é?", "até amanha, nao é?"),
        ("São João, ação", "Sao Joao, acao"),
        ("“20–28 Jun” … 3 °C", '"20-28 Jun" ... 3 C'),
        ("½ acre × 2 ≥ 1", "1/2 acre x 2 >= 1"),
        ("☔", "?"),
    ],
)
def test_accents_the_alphabet_lacks_are_written_without(written: str, sent: str):
    """ñ, é and ü are in the alphabet and stay; á, ã, ç and typographic marks have plain forms."""
    assert plain(written) == sent


def test_a_cut_falls_between_words_and_shows():
    """A reader sees that something was left out."""
    assert shorten("dig the south end again on Friday", 20) == "dig the south end.."


def test_a_word_without_end_is_cut_anyway():
    """One word longer than the room is cut inside."""
    assert shorten("x" * 300) == "x" * 158 + ".."


def test_the_longest_wording_that_fits_is_taken():
    """Wordings come longest first; the first that fits is sent."""
    assert first_that_fits(["a" * 170, "b" * 160, "c"]) == "b" * 160


def test_a_character_outside_the_alphabet_is_not_counted():
    """Counting septets of what cannot be sent is our own mistake."""
    with pytest.raises(ValueError, match="GSM-7"):
        septets("á")


def test_a_two_septet_character_moves_to_the_next_part_whole():
    """152 letters and a euro sign leave one septet unused at the end of the first part."""
    text = "a" * (PART - 1) + "€" + "a" * 160

    assert segments(text) == len(smsutil.split(text).parts) == 3
