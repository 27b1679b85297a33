"""Test squares, and what wrong readings mean: each told share is computed anew from what it comes from."""

from __future__ import annotations

import pytest

from notchwork.pages import papers
from notchwork.pages.reading.scale import INCHES, METRIC, fitted, read_words, squares, wrong_readings


def test_squares_are_100_mm_and_4_in() -> None:
    """1 in is 25.4 mm (ISO 80000-3)."""
    assert [(s.side, s.words) for s in squares("mm")] == [(100.0, "100 mm"), (pytest.approx(101.6), "4 in")]
    assert [s.words for s in squares("in")] == ["4 in", "100 mm"]
    assert [s.words for s in squares("cm", 0.5)] == ["50 mm", "2 in"]


@pytest.mark.parametrize(
    ("page", "paper", "share"),
    [
        # ISO 216 and ANSI/ASME Y14.1: the side that is short decides.
        ("A4", "Letter", 279.4 / 297.0),
        ("Letter", "A4", 210.0 / 215.9),
        ("A0", "ARCH E", 1219.2 / 1189.0),
        ("ARCH E", "A0", 841.0 / 914.4),
    ],
)
def test_pages_fitted_to_other_paper(page: str, paper: str, share: float) -> None:
    (one,), (other,) = papers(page), papers(paper)
    assert fitted(one, other) == pytest.approx(share)


def test_the_table_of_wrong_readings() -> None:
    """94.07 and 97.27 mm of 100: page fitted to paper; 72, 90 and 96 to the inch (CSS Values and Units: 96 px, 72 pt) mixed up."""
    told = {reading.words: reading.share * METRIC for reading in wrong_readings(papers("A4"))}
    assert told["A4 page fitted to Letter"] == pytest.approx(94.07, abs=0.005)
    assert told["Letter page fitted to A4"] == pytest.approx(97.27, abs=0.005)
    for a, b in ((72, 96), (72, 90), (90, 96), (96, 90), (90, 72), (96, 72)):
        assert told[f"{a} px per inch taken for {b}"] == pytest.approx(100.0 * a / b)
    assert len(told) == 8
    shares = [reading.share for reading in wrong_readings(papers("A4"))]
    assert shares == sorted(shares)


def test_large_sheets_are_taken_for_each_other() -> None:
    told = {reading.words for reading in wrong_readings(papers("36 in roll"))}
    assert "A0 page fitted to ARCH E" in told
    assert "A4 page fitted to Letter" not in told


def test_readings_in_words() -> None:
    """4 in × 279.4/297 = 3.763 in, which is nearest to 3 12/16."""
    assert read_words(INCHES, 279.4 / 297.0, "in") == "3 3/4 in"
    assert read_words(METRIC, 279.4 / 297.0, "mm") == "94.1 mm"
