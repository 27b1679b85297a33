"""Path data held against svgpathtools: the same lengths, ends and points, segment by segment."""

from __future__ import annotations

import math

import numpy as np
import pytest
import svgpathtools
from hypothesis import assume, example, given, reject, settings
from hypothesis import strategies as st
from svg_files import strokes

from notchwork.geometry import lengths

NUMBERS = st.floats(-300, 300).map(lambda v: f"{v:.3f}")
FLAGS = st.sampled_from("01")
SETS = {"M": 2, "L": 2, "H": 1, "V": 1, "C": 6, "S": 4, "Q": 4, "T": 2, "Z": 0}
GAPS = st.sampled_from((" ", ",", " , ", "\n"))
WITHIN = 2e-3
"""mm; arcs are met within 0.0002 mm, and lengths of many segments add up."""


@st.composite
def segments(draw: st.DrawFn) -> str:
    letter = draw(st.sampled_from("LlHhVvCcSsQqTtZzMmAa"))
    gap = draw(GAPS)
    if letter in "Aa":
        radii = [f"{draw(st.floats(5, 200)):.3f}", f"{draw(st.floats(5, 200)):.3f}"]
        return letter + gap.join(
            [*radii, draw(NUMBERS), draw(FLAGS), draw(FLAGS), draw(NUMBERS), draw(NUMBERS)]
        )
    sets = draw(st.integers(1, 3)) if letter not in "Zz" else 1
    return letter + gap.join(draw(NUMBERS) for _ in range(sets * SETS[letter.upper()]))


DATA = st.lists(segments(), min_size=1, max_size=8).map(lambda parts: "M10,20 L15 20 " + " ".join(parts))


@settings(max_examples=150, deadline=None)
@given(DATA)
@example("M10,20 L15 20 L0 0 A5 5 0 1 0 0 1")
@example("M10,20 L15 20 L0 0 A5 5 0 1 1 0 1")
def test_lengths_and_ends(data: str) -> None:
    try:
        theirs = svgpathtools.parse_path(data)
    except AssertionError:
        # Its arcs cannot start where they end.
        reject()
    arcs = [part for part in theirs if isinstance(part, svgpathtools.Arc)]
    assume(all(abs(arc.start - arc.end) > 0.1 for arc in arcs))
    found = strokes(f'<path d="{data}"/>')
    ours = sum(lengths(stroke.cubics).sum() for stroke in found)
    expected = sum(_length(part) for part in theirs)
    assert ours == pytest.approx(expected, abs=WITHIN)
    drawn = [part for part in theirs if _length(part) > 1e-6]
    if drawn:
        assert found[0].cubics[0, 0].conjugate() == pytest.approx(drawn[0].start, abs=1e-6)
        assert found[-1].cubics[-1, 3].conjugate() == pytest.approx(drawn[-1].end, abs=1e-6)


def _length(part: svgpathtools.Line) -> float:
    """Its own ``length`` of curves stops at an error of its choosing; dense chords with a third-order correction do not."""
    if isinstance(part, svgpathtools.Line):
        return abs(part.end - part.start)
    if isinstance(part, svgpathtools.Arc):
        t = np.linspace(0, 1, 4097)
        points = np.array(part.points(t)) if hasattr(part, "points") else np.array([part.point(s) for s in t])
        fine, coarse = np.abs(np.diff(points)).sum(), np.abs(np.diff(points[::2])).sum()
        return float(fine + (fine - coarse) / 3)
    control = part.bpoints()
    if len(control) == 3:
        a, h, b = control
        control = (a, (a + 2 * h) / 3, (b + 2 * h) / 3, b)
    return float(lengths(np.array([control])).sum())


@pytest.mark.parametrize("degrees", [0, 30, 77, -200])
@pytest.mark.parametrize("flags", ["0 0", "0 1", "1 0", "1 1"])
def test_arcs_lie_where_theirs_do(flags: str, degrees: int) -> None:
    data = f"M10 20 A 60 25 {degrees} {flags} 40 50"
    [arc] = svgpathtools.parse_path(data)
    [stroke] = strokes(f'<path d="{data}"/>')
    t = np.linspace(0, 1, 41)[:, None]
    u = 1 - t
    p = stroke.cubics.conj()
    ours = (u**3 * p[:, 0] + 3 * u * u * t * p[:, 1] + 3 * u * t * t * p[:, 2] + t**3 * p[:, 3]).T.ravel()
    turn = np.exp(1j * math.radians(degrees))
    local = (ours - arc.center) / turn
    off = np.abs(np.hypot(local.real / arc.radius.real, local.imag / arc.radius.imag) - 1) * 60
    assert off.max() <= 2.1e-4 * 60 / 25
    assert abs(ours[-1] - arc.end) < 1e-9
