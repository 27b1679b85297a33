from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from notchwork.drawing import Drawing, Group, Stroke
from notchwork.geometry import lines
from notchwork.pages import Paper, papers
from notchwork.pages.grain import turned_first
from notchwork.pages.laid_out import laid_out


def piece(name: str, angle: float | None) -> Group:
    """A rectangle of 100 x 60 mm with a grainline at an angle in degrees."""
    outline = Stroke(lines(np.array([0, 100, 100 + 60j, 60j]), closed=True), "cut", True)
    if angle is None:
        return Group(name, (outline,), facts={"name": name, "piece": name})
    along = 20 * np.exp(1j * np.radians(angle))
    grain = Stroke(lines(np.array([50 + 30j, 50 + 30j + along])), "grain", facts={"angle": angle})
    return Group(name, (outline, grain), facts={"name": name, "piece": name})


@given(st.floats(-360, 360))
def test_the_thread_runs_upward_after_at_most_a_quarter_turn(angle: float) -> None:
    (way,), then = turned_first([piece("a", angle)], "grain")
    assert then == "drawn"
    assert abs(way) == pytest.approx(1.0)
    assert abs((way * np.exp(1j * np.radians(angle))).real) < 1e-9
    assert way.real >= -1e-9


def test_only_grain_turns_first_and_only_where_there_is_one() -> None:
    assert turned_first([piece("a", 30.0)], "free") == ((1 + 0j,), "free")
    assert turned_first([piece("a", None)], "grain") == ((1 + 0j,), "drawn")


@pytest.mark.parametrize("paper", ["A4", "A0"])
def test_every_window_lays_the_thread_along_the_paper(paper: str) -> None:
    angles = {"a": 0.0, "b": 45.0, "c": 90.0, "d": -30.0}
    drawing = Drawing(tuple(piece(name, angle) for name, angle in angles.items()))
    sheets = laid_out(drawing, Paper(papers(paper), turn="grain"))
    shown = [window for sheet in sheets.sheets for window in sheet.windows]
    assert {sheets.groups[window.group].name for window in shown} == set(angles)
    for window in shown:
        angle = angles[sheets.groups[window.group].name]
        assert abs((window.turn * np.exp(1j * np.radians(angle))).real) < 1e-9
        middle = window.turn * (50 + 30j) + window.shift
        assert window.low.real < middle.real < window.high.real
        assert window.low.imag < middle.imag < window.high.imag
