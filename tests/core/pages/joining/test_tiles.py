"""Tiles: nothing is lost between pages, pages that are joined fit, and every word on them is true."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from on_paper import (
    beyond,
    common_marks,
    drawings,
    drawn,
    joins,
    mark_tips,
    oblong,
    overlapping,
    uncovered,
    windows_of,
    words_on,
)

from notchwork.drawing import Drawing
from notchwork.pages import Join, Paper, Turn, papers
from notchwork.pages.laid_out import laid_out

JOINS: st.SearchStrategy[Join] = st.sampled_from(["overlap", "butt"])
TURNS: st.SearchStrategy[Turn] = st.sampled_from(["free", "quarter", "drawn"])
PAPERS = st.sampled_from(["A4", "Letter", "A4+Letter", "A3", "300x400 mm", "A5"])
few = settings(max_examples=8, deadline=None)


@few
@given(drawings(), PAPERS, JOINS, TURNS)
def test_every_line_is_on_some_page(drawing: Drawing, name: str, join: Join, turn: Turn) -> None:
    assert uncovered(laid_out(drawing, Paper(papers(name), join=join, turn=turn))) == 0


@few
@given(drawings(3), JOINS)
def test_pages_of_a_piece_are_windows_of_one_drawing(drawing: Drawing, join: Join) -> None:
    """All turned alike, and shifted by whole steps of the grid: joined, they make one drawing."""
    paper = Paper(papers("A4"), join=join)
    sheets = laid_out(drawing, paper)
    strip = 0.0 if join == "butt" else 10.0
    wide, tall = 190.0 - strip, 277.0 - strip
    for k in range(len(sheets.groups)):
        found = windows_of(sheets, k)
        assert len({w.turn for w in found}) == 1
        assert abs(abs(found[0].turn) - 1.0) < 1e-12
        for w in found:
            off = w.shift - found[0].shift
            assert abs(off.real / wide - round(off.real / wide)) < 1e-9
            assert abs(off.imag / tall - round(off.imag / tall)) < 1e-9


@few
@given(drawings(3), PAPERS, JOINS)
def test_marks_of_neighbours_fall_on_each_other(drawing: Drawing, name: str, join: Join) -> None:
    """Two marks for every line of joining, at the same two points of the pattern on both pages; the words name both, both ways."""
    sheets = laid_out(drawing, Paper(papers(name), join=join))
    by_label = {sheet.label: sheet for sheet in sheets.sheets if sheet.label}
    named = set().union(*(joins(sheet) for sheet in sheets.sheets))
    assert named == {(b, a) for a, b in named}
    for sheet in sheets.sheets:
        assert all(own == sheet.label for own, _ in joins(sheet))
        assert len(set(mark_tips(sheet))) == 2 * len(joins(sheet))
    for a, b in named:
        assert common_marks(by_label[a], by_label[b]) in (2, None)


@few
@given(drawings(4), PAPERS, JOINS, st.sampled_from([6.0, 10.0, 15.0]))
def test_nothing_stands_in_the_margins_or_over_other_words(
    drawing: Drawing, name: str, join: Join, margin: float
) -> None:
    sheets = laid_out(drawing, Paper(papers(name), join=join, margin=margin))
    for sheet in sheets.sheets:
        assert not beyond(sheet, margin)
        assert not overlapping(sheet)
        for w in sheet.windows:
            assert w.low.real >= margin
            assert w.low.imag >= margin
            assert w.high.real <= sheet.size.real - margin
            assert w.high.imag <= sheet.size.imag - margin


@few
@given(drawings(4))
def test_labels_and_numbers_are_told_on_every_page(drawing: Drawing) -> None:
    sheets = laid_out(drawing)
    labels = [sheet.label for sheet in sheets.sheets if sheet.windows]
    assert len(set(labels)) == len(labels)
    total = len(sheets.sheets)
    for number, sheet in enumerate(sheets.sheets, 1):
        if sheet.windows:
            said = words_on(sheet)
            assert f"page {number} of {total}" in said
            assert sheet.label in [text.words for text in sheet.marks.texts]
            assert ("Nothing is joined to this page." in said) == (not joins(sheet))


def test_a_piece_that_fits_a_page_is_whole_on_one() -> None:
    """190 × 277 mm is what margins of 10 mm leave of A4, strips of joining among it; a line's width and rounding spare 2 mm."""
    sheets = laid_out(drawn(oblong("just", 187.0, 274.0)))
    assert [len(sheet.windows) for sheet in sheets.sheets if sheet.windows] == [1]
    assert uncovered(sheets) == 0


def test_pages_lie_down_where_that_saves_some_and_pieces_may_not_be_turned() -> None:
    piece = oblong("wide", 270.0, 180.0)
    kept = [s for s in laid_out(drawn(piece), Paper(turn="drawn")).sheets if s.windows]
    assert [sheet.size for sheet in kept] == [297 + 210j]
    turned = [s for s in laid_out(drawn(piece), Paper(turn="quarter")).sheets if s.windows]
    assert [sheet.size for sheet in turned] == [210 + 297j]
    tall = [s for s in laid_out(drawn(oblong("tall", 180.0, 270.0)), Paper(turn="drawn")).sheets if s.windows]
    assert [sheet.size for sheet in tall] == [210 + 297j]


def test_pages_for_two_papers_have_what_is_common_to_both() -> None:
    """ISO 216: A4 is 210 × 297 mm. ANSI/ASME Y14.1, from memory of it: Letter is 215.9 × 279.4 mm."""
    for sheet in laid_out(drawn(oblong("p", 100, 900)), Paper(papers("letter+a4"))).sheets:
        assert sheet.size == pytest.approx(210 + 279.4j)


def test_paper_follows_the_pattern_unless_it_is_named() -> None:
    metric, inches = oblong("p", 100, 100), oblong("p", 100, 100)
    assert laid_out(drawn(metric)).sheets[0].size == pytest.approx(210 + 297j)
    assert laid_out(drawn(inches, unit="in")).sheets[0].size == pytest.approx(215.9 + 279.4j)


@few
@given(drawings(4))
def test_never_more_pages_than_a_grid_for_every_piece(drawing: Drawing) -> None:
    """With strips of 10 mm between pages of 190 × 277 mm: the first holds that, every other one 10 mm less."""
    pages = sum(bool(sheet.windows) for sheet in laid_out(drawing).sheets)
    plain = 0
    for group in drawing.groups:
        low, high = group.bounds or (0j, 0j)
        # 1.7 mm: what a shape may reach beyond its lines (pages.arrange.shape).
        size = high - low + complex(3.4, 3.4)
        plain += int(np.ceil(max(1, (size.real - 10) / 180)) * np.ceil(max(1, (size.imag - 10) / 267)))
    assert pages <= plain


def test_the_list_of_pieces_names_their_pages() -> None:
    sheets = laid_out(drawn(oblong("big", 500, 700), oblong("small", 50, 50), oblong("long", 60, 800)))
    said = " ".join(words_on(sheet) for sheet in sheets.sheets if not sheet.windows)
    for k, group in enumerate(sheets.groups):
        numbers = [n for n, sheet in enumerate(sheets.sheets, 1) if any(w.group == k for w in sheet.windows)]
        runs = said[said.index(f"of {group.name} on ") :].partition("(page")[2].partition(")")[0].lstrip("s ")
        told: list[int] = []
        for run in runs.split(", "):
            first, _, last = run.partition("–")
            told += range(int(first), int(last or first) + 1)
        assert told == numbers
