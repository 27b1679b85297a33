"""Numbers, words and names as R12 holds them; ezdxf is the reference for how its escapes are read."""

from __future__ import annotations

import math

import pytest
from ezdxf.lldxf.encoding import decode_dxf_unicode
from hypothesis import example, given
from hypothesis import strategies as st

from notchwork_plugins.dxf.write import tags
from notchwork_plugins.dxf.write.names import MOST, Names

ANYTHING = st.text(st.characters(codec=None, exclude_categories=[]), max_size=400)


@pytest.mark.parametrize(
    ("value", "digits", "text"),
    [
        (0.0, 4, "0.0"),
        (-0.00001, 4, "0.0"),
        (12.0, 4, "12.0"),
        (-4.10004, 4, "-4.1"),
        (1 / 3, 6, "0.333333"),
        (1e9, 4, "1000000000.0"),
        (0.0001, 4, "0.0001"),
    ],
)
def test_numbers_are_short_and_never_in_exponents(value: float, digits: int, text: str) -> None:
    assert tags.number(value, digits) == text


@given(st.floats(-1e6, 1e6))
def test_numbers_are_exact_to_their_digits(value: float) -> None:
    assert float(tags.number(value, 4)) == pytest.approx(value, abs=0.50001e-4)


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_what_is_not_finite_is_never_written(value: float) -> None:
    with pytest.raises(ValueError, match="cannot hold"):
        tags.number(value, 4)


@given(ANYTHING)
@example("Rücken")
@example("\\U+0041 and \\M+18140")
@example("line\nbreak\r\x00\x85\u2028end")
@example("^J")
@example("\ud800 half")
@example("👗 gown")
def test_words_are_plain_and_read_as_they_were(words: str) -> None:
    written = tags.escaped(words)
    assert written.isascii()
    assert written.isprintable()
    assert "^" not in written
    # A character beyond the basic plane comes back as the two halves by which DXF writes it, half a character as U+FFFD.
    back = decode_dxf_unicode(written).encode("utf-16", "surrogatepass").decode("utf-16")
    halves = "".join("\ufffd" if "\ud800" <= c <= "\udfff" else c for c in words)
    meant = "".join(" " if c < " " or "\x7f" <= c <= "\x9f" or c in "\u2028\u2029" else c for c in halves)
    assert back.split() == meant.split()


@given(ANYTHING)
@example("x" * 600)
@example("Ä" * 100)
@example("👗" * 60)
def test_long_words_have_room_in_strings(words: str) -> None:
    assert len(tags.fitted(words)) <= tags.MOST_LETTERS
    lines = tags.in_lines(words)
    assert all(len(tags.escaped(line)) <= tags.MOST_LETTERS for line in lines)
    meant = tags.escaped(words).replace(" ", "")
    assert "".join(tags.escaped(line) for line in lines).replace(" ", "") == meant


def test_words_that_are_cut_short_end_in_an_ellipsis_and_with_whole_letters() -> None:
    assert tags.fitted("Ä" * 100) == "\\U+00C4" * 34 + "\\U+2026"
    assert tags.fitted("a" * tags.MOST_LETTERS) == "a" * tags.MOST_LETTERS
    assert tags.in_lines("one two") == ["one two"]


def test_names_of_blocks_are_plain_short_and_each_given_once() -> None:
    names = Names()
    assert names.of("front", "M") == "FRONT-M"
    assert names.of("front", "M") == "FRONT_2-M"
    assert names.of("Rücken 1/2", "UK 8") == "RUCKEN_1_2-UK_8"
    assert names.of("袖", None) == "PIECE"
    assert names.of("袖", "小") == "PIECE-SIZE"
    assert names.of("*Model_Space", None) == "MODEL_SPACE"
    assert names.of("$Paper_Space", None) == "PAPER_SPACE"


@given(st.lists(st.tuples(ANYTHING, st.none() | ANYTHING), max_size=8))
def test_any_names_make_names_of_blocks(pairs: list[tuple[str, str | None]]) -> None:
    names = Names()
    given_out = [names.of(piece, size) for piece, size in [*pairs, *pairs]]
    assert len(set(given_out)) == len(given_out)
    for name in given_out:
        # DXF reference of Release 12: 31 letters, A-Z 0-9 _ - $.
        assert 0 < len(name) <= MOST == 31
        assert set(name) <= set("ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789_-$")
