"""The first pages: squares at their size, words that neither overlap nor leave the page, and nothing left unsaid."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from on_paper import beyond, drawn, oblong, overlapping, squares_on, words_on

from notchwork.drawing import About, CutRow, Drawing, Group, Stroke, Text
from notchwork.geometry import lines
from notchwork.pages import Paper, papers
from notchwork.pages.laid_out import laid_out
from notchwork.pages.setting.lettering import box
from notchwork.pages.sheet import Sheet

LEGEND = Group(
    "legend",
    (Stroke(lines([0, 40 + 0j]), "cut"), Stroke(lines([20 - 12j, 20 - 6j]), "notch")),
    texts=(Text(46 - 1.75j, "cut line", 5.0, "legend"), Text(46 - 10.75j, "notch", 5.0, "legend")),
    facts={"kind": "legend"},
)
SQUARE = Group(
    "test-square",
    (Stroke(lines([0, 100, 100 + 100j, 100j], closed=True), "legend", True, {"kind": "test-square"}),),
    facts={"kind": "test-square"},
)


def fronts(drawing: Drawing, paper: Paper | None = None) -> list[Sheet]:
    return [sheet for sheet in laid_out(drawing, paper).sheets if sheet.title.startswith("First page")]


@pytest.mark.parametrize("name", ["A4", "Letter", "A4+Letter", "A3", "Tabloid", "A5", "150x300 mm"])
def test_squares_are_closed_lines_of_their_size(name: str) -> None:
    """A ruler is laid from the middle of a line to the middle of the line opposite: 100 mm and 4 × 25.4 mm."""
    first = fronts(drawn(oblong("p", 100, 100)), Paper(papers(name)))[0]
    # Inside its margins A5 has 128 × 190 mm, too little for both and a title: there they have half the side.
    assert squares_on(first) == pytest.approx([50.0, 50.8] if name == "A5" else [100.0, 101.6])


@pytest.mark.parametrize("unit", ["mm", "in"])
def test_the_patterns_own_unit_comes_first(unit: str) -> None:
    said = words_on(fronts(drawn(oblong("p", 100, 100), unit=unit))[0])
    here, other = ("4 in", "100 mm") if unit == "in" else ("100 mm", "4 in")
    assert f"This square is {here} wide and {here} high, the other one {other}" in said


def test_what_must_be_on_the_first_page() -> None:
    said = words_on(fronts(drawn(oblong("yoke", 100, 100), LEGEND, SQUARE))[0])
    for words in (
        "A smock",
        "by R. Seamer · CC0-1.0",
        "Print at 100 % (“actual size”), not fitted to the page.",
        "94.1 mm 3 3/4 in A4 page fitted to Letter",
        "0.5 mm off on 100 mm is 5 mm on a metre",
        "Sew a trial garment first.",
        "yoke 2 × cotton of yoke on A (page 3)",
        "3 pages: 2 to read, 1 with the pattern (all with whole pieces).",
        "cut line",
        "For trying out.",
    ):
        assert words in said, words


def test_what_is_off_on_a_square_grows_with_the_seam() -> None:
    """Computed: 0.5 mm of 100 mm is 5 mm of 1000 mm; 1/64 in of 4 in is 9/64 in of a yard of 36 in, more than 8/64."""
    metric, inches = (words_on(fronts(drawn(oblong("p", 99, 99), unit=unit))[0]) for unit in ("mm", "in"))
    off, side, far = map(
        float, re.findall(r"([\d.]+) mm off on (\d+) mm is ([\d.]+) mm on a metre", metric)[0]
    )
    assert off / side == pytest.approx(far / 1000.0)
    assert "1/64 in off on 4 in is more than 1/8 in on a yard" in inches
    assert Fraction(1, 64) / 4 * 36 > Fraction(1, 8)


def test_the_legend_is_set_anew_and_the_single_drawings_square_is_not_there() -> None:
    sheets = laid_out(drawn(oblong("p", 100, 100), LEGEND, SQUARE))
    assert [group.name for group in sheets.groups] == ["p"]
    (first,) = fronts(drawn(oblong("p", 100, 100), LEGEND, SQUARE))
    assert {stroke.meaning for stroke in first.marks.strokes} == {"legend", "cut", "notch"}
    assert squares_on(first) == pytest.approx([100.0, 101.6])


def test_the_saving_is_said() -> None:
    """Two pieces of 120 × 120 mm take a page each in grids of their own, and lie on one together."""
    drawing = drawn(oblong("a", 120, 120), oblong("b", 120, 120))
    assert (
        "With a grid of its own for every piece there would be 2 pages of the pattern: 1 are saved."
        in words_on(fronts(drawing)[0]).replace("1 is saved", "1 are saved")
    )


NAMES = st.text(st.sampled_from("Wimäß –ogle "), min_size=1, max_size=120)


@settings(max_examples=15, deadline=None)
@given(
    st.lists(st.tuples(NAMES, st.lists(NAMES, max_size=5)), min_size=1, max_size=25),
    NAMES,
    st.text(st.sampled_from("aW \n"), max_size=1500),
    st.sampled_from(["A4", "A4+Letter", "A5", "Tabloid"]),
)
def test_words_never_overlap_and_never_leave_the_page(
    rows: list[tuple[str, list[str]]], title: str, description: str, name: str
) -> None:
    cuts = tuple(CutRow(called, "p", tuple(orders)) for called, orders in rows)
    about = About("W" * 40, "M" * 90, description, ("Wide words. " * 12,) * 4, cuts)
    drawing = replace(drawn(oblong("p", 100, 100), LEGEND, title=title), about=about)
    for sheet in fronts(drawing, Paper(papers(name))):
        assert not beyond(sheet, 10.0)
        assert not overlapping(sheet)
        for stroke in sheet.marks.strokes:
            z = stroke.cubics.ravel()
            if stroke.closed:
                # No words lie across the line of a square or a frame.
                low, high = complex(z.real.min(), z.imag.min()), complex(z.real.max(), z.imag.max())
                for text in sheet.marks.texts:
                    a, b = box(text)
                    inside = (
                        low.real <= a.real
                        and b.real <= high.real
                        and low.imag <= a.imag
                        and b.imag <= high.imag
                    )
                    apart = (
                        b.real <= low.real or a.real >= high.real or b.imag <= low.imag or a.imag >= high.imag
                    )
                    assert inside or apart, text.words
    said = "".join("".join(words_on(sheet) for sheet in fronts(drawing, Paper(papers(name)))).split())
    for called, orders in rows:
        for words in (called, *orders):
            assert "".join(words.split()) in said


def test_endless_names_and_licences_take_no_squares_and_no_page() -> None:
    endless = "Antarctica " * 900
    cuts = (CutRow(endless, "p", (endless,)),)
    drawing = replace(
        drawn(oblong("p", 100, 100), LEGEND),
        title=endless,
        about=About(endless, endless, "", (endless,), cuts),
    )
    first, *more = fronts(drawing)
    assert squares_on(first) == pytest.approx([100.0, 101.6])
    assert len(more) <= 2
    for sheet in (first, *more):
        assert not beyond(sheet, 10.0)
        assert not overlapping(sheet)
        assert sheet.marks.texts


def test_what_finds_no_room_beside_the_squares_goes_on_below_them() -> None:
    """Ten pieces fill the column beside the squares of an A4 page, and leave a legend of two rows for below."""
    groups = tuple(oblong(f"p{k}", 20, 20) for k in range(9))
    assert len(fronts(drawn(*groups, LEGEND))) == 1
