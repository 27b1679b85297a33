"""A page of light: grid, rulers and squares by which the beam is set."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from on_paper import drawings, drawn, oblong, overlapping, squares_on, uncovered, words_on

from notchwork.drawing import Drawing
from notchwork.pages import Paper, papers
from notchwork.pages.laid_out import laid_out
from notchwork.pages.setting.lettering import box

BEAM = Paper(layout="projector")


def test_one_page_with_everything() -> None:
    sheets = laid_out(drawn(oblong("a", 500, 700), oblong("b", 200, 300)), BEAM)
    (sheet,) = sheets.sheets
    assert {w.group for w in sheet.windows} == {0, 1}
    assert squares_on(sheet) == pytest.approx([100.0, 101.6])
    assert "100 mm" in words_on(sheet)
    assert "4 in" in words_on(sheet)
    assert sheets.bold > 1.0


def test_the_grid_has_lines_every_10_50_and_100_mm() -> None:
    (sheet,) = laid_out(drawn(oblong("a", 500, 700)), BEAM).sheets
    upright: dict[str, list[float]] = {}
    for stroke in sheet.ground.strokes:
        a, b = complex(stroke.cubics[0, 0]), complex(stroke.cubics[-1, 3])
        if a.real == b.real and stroke.look is not None:
            upright.setdefault(str(stroke.look.line), []).append(a.real)
    assert sorted(float(np.diff(x).mean()) for x in upright.values()) == pytest.approx([10.0, 50.0, 100.0])
    for x in upright.values():
        assert np.ptp(np.diff(x)) < 1e-9


def test_rulers_count_in_cm_and_inches() -> None:
    """10 cm and 4 in from the corner lie 100 and 101.6 mm from it."""
    (sheet,) = laid_out(drawn(oblong("a", 500, 700)), BEAM).sheets
    corner = min((s.cubics[0, 0] for s in sheet.ground.strokes), key=abs)
    at = {text.words: text.at for text in sheet.marks.texts if text.angle == 0.0}
    assert at["10 cm"].real - corner.real == pytest.approx(100.0)
    assert at["1 in"].real - corner.real == pytest.approx(25.4)
    assert at["4"].real - corner.real == pytest.approx(101.6)


@settings(max_examples=6, deadline=None)
@given(drawings(5))
def test_nothing_is_lost_and_nothing_leaves_the_page(drawing: Drawing) -> None:
    sheets = laid_out(drawing, BEAM)
    assert uncovered(sheets) == 0
    for sheet in sheets.sheets:
        assert not overlapping(sheet)
        for text in sheet.marks.texts:
            low, high = box(text)
            assert low.real >= 0
            assert low.imag >= 0
            assert high.real <= sheet.size.real
            assert high.imag <= sheet.size.imag


@pytest.mark.parametrize("chosen", [BEAM, Paper(papers("1200x2000 mm"), layout="projector")])
def test_no_edge_of_a_piece_lies_on_the_line_of_a_ruler(chosen: Paper) -> None:
    """Two lines of light in one place are one. Both pieces are turned so that they fill their page as well as they can."""
    (sheet,) = laid_out(drawn(oblong("a", 500, 850), oblong("b", 400, 1000)), chosen).sheets
    frame = min((s.cubics[0, 0] for s in sheet.ground.strokes), key=abs)
    corners = np.array([0, 1, 1 + 1j, 1j])
    for window, (wide, tall) in zip(sheet.windows, ((500, 850), (400, 1000)), strict=True):
        z = window.turn * (wide * corners.real + 1j * tall * corners.imag + (37 - 11j)) + window.shift
        far = sheet.size - z
        assert min(z.real.min() - frame.real, far.real.min() - frame.real) >= 11.9
        assert min(z.imag.min() - frame.imag, far.imag.min() - frame.imag) >= 11.9


def test_a_beam_of_a_size_that_is_named() -> None:
    (sheet,) = laid_out(
        drawn(oblong("a", 500, 700)), Paper(papers("1200x2000 mm"), layout="projector")
    ).sheets
    assert sheet.size == pytest.approx(2000 + 1200j)


def test_lines_can_be_bolder_still() -> None:
    plain, bold = (
        laid_out(drawn(oblong("a", 50, 70)), BEAM),
        laid_out(drawn(oblong("a", 50, 70)), Paper(layout="projector", bold=True)),
    )
    assert bold.bold > plain.bold
