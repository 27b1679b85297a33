"""One sheet for a copy shop, rolls, and what happens where paper or PDF end."""

from __future__ import annotations

import math
import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from on_paper import (
    beyond,
    common_marks,
    drawings,
    drawn,
    joins,
    oblong,
    overlapping,
    squares_on,
    uncovered,
    words_on,
)

from notchwork.drawing import Drawing
from notchwork.findings import worded
from notchwork.pages import Paper, Sheets, papers
from notchwork.pages.laid_out import laid_out

MOST = 5080.0
"""mm: 14,400 units of 1/72 in, the most that a page of a PDF is long (ISO 32000-1, annex C, as told by vendors)."""


def on(name: str, drawing: Drawing, **chosen: object) -> Sheets:
    return laid_out(drawing, Paper(papers(name), **chosen))  # type: ignore[arg-type]


def told(sheets: Sheets) -> list[str]:
    return [finding.rule.id for finding in sheets.findings]


def test_everything_on_one_sheet_with_squares_and_title() -> None:
    (sheet,) = on("A0", drawn(oblong("a", 500, 700), oblong("b", 200, 300))).sheets
    assert sheet.size == 841 + 1189j
    assert [w.group for w in sheet.windows] == [0, 1] or [w.group for w in sheet.windows] == [1, 0]
    assert squares_on(sheet) == pytest.approx([100.0, 101.6])
    said = words_on(sheet)
    assert "A smock" in said
    assert "Print at 100 %" in said
    assert "This sheet holds all pieces." in said


def test_a_roll_is_as_long_as_it_must_be() -> None:
    (sheet,) = on("914mm roll", drawn(oblong("a", 800, 600), oblong("b", 800, 600))).sheets
    assert sheet.size.real == 914.0
    assert 1200.0 < sheet.size.imag < 1400.0


@settings(max_examples=8, deadline=None)
@given(
    drawings(5),
    st.sampled_from(["A0", "36 in roll", "24 in roll", "A2"]),
    st.sampled_from(["overlap", "butt"]),
)
def test_nothing_is_lost_and_nothing_leaves_the_sheet(drawing: Drawing, name: str, join: str) -> None:
    sheets = on(name, drawing, layout="sheet", join=join)
    assert uncovered(sheets) == 0
    labels = [sheet.label for sheet in sheets.sheets if sheet.label]
    assert len(set(labels)) == len(labels)
    for sheet in sheets.sheets:
        assert not beyond(sheet, 10.0)
        assert not overlapping(sheet)
        assert max(sheet.size.real, sheet.size.imag) <= MOST + 1e-9


def test_words_are_clear_of_pieces_on_the_first_sheet() -> None:
    (sheet,) = on("A0", drawn(oblong("a", 500, 700), oblong("b", 200, 300))).sheets
    top = max(w.high.imag for w in sheet.windows)
    assert all(text.at.imag > top for text in sheet.marks.texts)


def test_a_strip_longer_than_a_page_may_be_is_joined_from_several() -> None:
    sheets = on("36 in roll", drawn(oblong("strip", 120, 6000), oblong("a", 200, 200)))
    assert told(sheets) == ["pages/split-sheet", "pages/roll-length"]
    parts = [sheet for sheet in sheets.sheets if sheet.label.startswith("A")]
    assert len(parts) == math.ceil(6000 / MOST)
    assert joins(parts[0]) == {("A1", "A2")}
    assert common_marks(parts[0], parts[1]) == 2
    assert uncovered(sheets) == 0


def test_pieces_that_are_longer_together_than_a_page_may_be_stay_whole() -> None:
    sheets = on("36 in roll", drawn(*(oblong(f"p{k}", 880, 900) for k in range(8))))
    assert told(sheets) == ["pages/split-sheet", "pages/roll-length"]
    assert all(not joins(sheet) for sheet in sheets.sheets)
    assert sum(len(sheet.windows) for sheet in sheets.sheets) == 8


def test_a_piece_wider_than_the_roll_is_split_and_told_with_both_measures() -> None:
    sheets = on("24 in roll", drawn(oblong("circle", 885, 1000)))
    finding, _ = sheets.findings
    assert finding.rule.id == "pages/wider-than-paper"
    assert finding.place.piece == "circle"
    # 24 in less two margins of 10 mm is 589.6 mm; a shape reaches a little beyond its lines.
    said = worded(finding.text, finding.values)
    assert re.match(
        r"circle is at least 88[5-9]\.\d mm wide whichever way it is turned, and 24 in roll leaves 589.6 mm inside",
        said,
    )
    assert "printed on 2 sheets" in said
    assert "or take a 914 mm roll, or print tiles" in worded(finding.hint, finding.values)
    assert uncovered(sheets) == 0


def test_how_much_of_a_roll_it_takes_is_told() -> None:
    sheets = on("36 in roll", drawn(oblong("skirt", 800, 1200)))
    (finding,) = sheets.findings
    (sheet,) = sheets.sheets
    assert worded(finding.text, finding.values) == f"It takes {sheet.size.imag:.1f} mm of the 36 in roll."
    assert 1200 < sheet.size.imag < 1400


def test_a_roll_that_nobody_has_is_told_by_its_width() -> None:
    finding, _ = on("24 in roll", drawn(oblong("circle", 1000, 1100))).findings
    assert re.search(r"take a roll of 102[0-4]\.\d mm or more, or", worded(finding.hint, finding.values))


def test_a_piece_longer_than_the_sheet_is_told_by_its_length() -> None:
    """At its narrowest it would find room on A0 by its width; turned slantwise it is still too long."""
    finding, _ = on("A0", drawn(oblong("strip", 200, 2000))).findings
    assert finding.rule.id == "pages/wider-than-paper"
    assert re.match(
        r"strip is 200\d\.\d mm long, and A0 leaves 821.0 mm by 1169.0 mm",
        worded(finding.text, finding.values),
    )


def test_sheets_that_are_joined_hold_other_pieces_too() -> None:
    """A strip of 200 × 2000 mm on two sheets of A0 leaves 600 mm beside it: room for what the first sheet did not hold."""
    sheets = on("A0", drawn(oblong("strip", 200, 2000), oblong("a", 700, 900), oblong("b", 550, 800)))
    assert [sheet.label for sheet in sheets.sheets if sheet.windows] == ["1", "A1", "A2"]
    assert uncovered(sheets) == 0


def test_more_sheets_than_one_are_told() -> None:
    sheets = on("A0", drawn(oblong("a", 700, 900), oblong("b", 700, 900)))
    assert told(sheets) == ["pages/more-sheets"]
    assert "sheet 2 of 2" in words_on(sheets.sheets[1])
