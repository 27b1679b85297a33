from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from notchwork.report.grid import grid
from notchwork.report.paper import Paper, columns, shortened, table


@given(st.text(alphabet="ab é漢 ", max_size=200), st.integers(20, 60))
def test_wrapping_keeps_every_word_and_the_width(text: str, width: int) -> None:
    lines = Paper(width).wrapped(text)
    assert " ".join(lines).split() == text.split()
    assert all(columns(line) <= width or " " not in line.strip() for line in lines)


def test_wide_signs_take_two_columns() -> None:
    assert columns("漢字") == 4
    assert columns("e\u0301") == 1


def test_figures_stand_flush_right_whatever_the_names() -> None:
    assert table([["", "S"], ["漢字", "1.0"], ["hem", "10.0"]]) == ["         S", "漢字   1.0", "hem   10.0"]


def test_no_line_is_broken_inside_a_measure() -> None:
    text = "Back is longer than Front by 15 3/4 in, or by 400.0 mm, or by 12.5 % in all."
    for width in range(20, 60):
        lines = Paper(width).wrapped(text)
        assert " ".join(lines) == text
        assert any("15 3/4 in," in line for line in lines)
        assert any("400.0 mm," in line for line in lines)


@given(st.text(alphabet="ab é漢\u0301", max_size=40), st.integers(1, 30))
def test_what_is_shortened_is_no_wider_and_begins_alike(text: str, width: int) -> None:
    short = shortened(text, width)
    assert columns(short) <= width
    assert short == text or (short.endswith("…") and text.startswith(short[:-1]) and columns(text) > width)


def test_a_very_long_name_is_shortened_at_once() -> None:
    assert shortened("L" * 10**6, 16) == "L" * 15 + "…"


@pytest.mark.parametrize("width", [40, 80])
def test_a_grid_has_every_figure_once_within_the_width(width: int) -> None:
    heads = [f"size {k}" for k in range(12)]
    figures = [f"{k}.0" for k in range(12)]
    rows = [("A heading", []), ("a very long name of an edge " * 3, figures)]
    lines = grid(heads, rows, Paper(width), 2)
    assert all(columns(line) <= width for line in lines)
    assert [word for line in lines for word in line.split() if word.endswith(".0")] == figures
