"""Where a tile joins its neighbours: lines, match marks and words.

The definition, free of any program. A tile is joined to its neighbour along a straight line that is parallel to the edge of
the page and is printed on both, ``Frame.reach`` inside what is printed. Lines of joining lie ``Frame.step`` apart. On every
side that has a printed neighbour there are two match marks, at a quarter and at three quarters of the side, counted along
the line from its left or its lower end. The point that a mark marks lies on the line. Two filled triangles touch each other
there with one corner, one on the tile's own side of the line and one beyond it: an hourglass square to the line, ``HALF`` to
either side, as wide at its ends as it is high. Where less is printed beyond the line, the outer triangle is as high as there is
room; where nothing is, only the inner one is there, and the neighbour's makes it whole. Laid together, the points of both
tiles coincide, and so does every line of the pattern. Words name both tiles, the one they stand on first.
"""

from __future__ import annotations

from collections.abc import Mapping

from notchwork.pages.joining.frame import Frame, Side
from notchwork.pages.joining.touch import Traces
from notchwork.pages.paper import Join
from notchwork.pages.setting.ink import FINE, Pen
from notchwork.pages.setting.lettering import width

SHARES = (0.25, 0.75)
"""Where along a side its marks stand."""
HALF = 4.0
"""mm: how far a mark reaches to either side of the line of joining."""
BESIDE = 5.0
"""mm: words along a line of joining stand within this of it."""
_WORDS = 3.0
_CLEAR = 1.2
_PLACES = (0.5, 0.42, 0.58, 0.38, 0.62, 0.12, 0.88, 0.1, 0.9, 0.14, 0.86)
"""Where along a side the middle of its words may stand, the best first; clear of the marks."""
_OUTWARD: Mapping[Side, complex] = {"left": -1, "right": 1, "below": -1j, "above": 1j}
_LAID_ON: frozenset[Side] = frozenset({"left", "above"})
"""The sides that are cut off and laid on the neighbour, where tiles lie over each other."""


def side_ends(frame: Frame, side: Side) -> tuple[complex, complex]:
    """On the page, the ends (mm) of a side of the cell: from its left or lower end to the other."""
    low, high = frame.corner, frame.corner + frame.step
    match side:
        case "left":
            return low, complex(low.real, high.imag)
        case "right":
            return complex(high.real, low.imag), high
        case "below":
            return low, complex(high.real, low.imag)
        case "above":
            return complex(low.real, high.imag), high


def mark_points(frame: Frame, side: Side) -> tuple[complex, ...]:
    """On the page, the points (mm) that the marks of a side mark."""
    start, end = side_ends(frame, side)
    return tuple(start + share * (end - start) for share in SHARES)


def draw_joins(
    pen: Pen, frame: Frame, join: Join, own: str, neighbours: Mapping[Side, str], drawn: Traces
) -> None:
    """On every side of a tile that has a printed neighbour: the line, the marks, and words clear of what is ``drawn`` if they can be."""
    for side, other in neighbours.items():
        start, end = side_ends(frame, side)
        pen.line(start, end, width=FINE)
        outward = _OUTWARD[side]
        for point in mark_points(frame, side):
            _triangle(pen, point, -outward, HALF)
            if frame.reach:
                _triangle(pen, point, outward, min(HALF, frame.reach))
        _words(pen, frame, side, _said(side, join, own, other), drawn)


def _said(side: Side, join: Join, own: str, other: str) -> str:
    if join == "butt":
        return f"{own}: cut here, join to {other}"
    return f"{own}: cut here, lay on {other}" if side in _LAID_ON else f"{own}: {other} is laid on here"


def _triangle(pen: Pen, at: complex, towards: complex, tall: float) -> None:
    base = at + towards * tall
    pen.filled(at, base + towards * 1j * tall / 2, base - towards * 1j * tall / 2)


def _words(pen: Pen, frame: Frame, side: Side, words: str, drawn: Traces) -> None:
    start, end = side_ends(frame, side)
    inward, upright = -_OUTWARD[side], side in ("left", "right")
    # Read from below, or from the right; their top is towards ``up``.
    along, up = (1j, -1 + 0j) if upright else (1 + 0j, 1j)
    long, height = abs(end - start), _WORDS
    wide = width(words, height)
    if wide > 0.92 * long:
        height, wide = height * 0.92 * long / wide, 0.92 * long
    crowded = wide > (SHARES[1] - SHARES[0]) * long - HALF - 2 * _CLEAR
    near = HALF + 0.5 if crowded else _CLEAR
    down = near + (0.25 if inward == up else 0.8) * height
    best: tuple[int, complex] | None = None
    for share in (0.5,) if crowded else _PLACES:
        middle = start + along * share * long
        if abs(share - 0.5) * long + wide / 2 > long / 2 or _over_mark(share, long, wide):
            continue
        a = middle + inward * near - along * wide / 2
        b = middle + inward * (near + 1.05 * height) + along * wide / 2
        low, high = (
            complex(min(a.real, b.real), min(a.imag, b.imag)),
            complex(max(a.real, b.real), max(a.imag, b.imag)),
        )
        found = drawn.reach_into(low, high)
        if best is None or found < best[0]:
            best = (found, middle)
        if not found:
            break
    at = (start + along * 0.5 * long) if best is None else best[1]
    pen.words(at + inward * down, words, height, anchor="middle", angle=90.0 if upright else 0.0)


def _over_mark(share: float, long: float, wide: float) -> bool:
    return any(abs(share - mark) * long < wide / 2 + HALF / 2 + _CLEAR / 2 for mark in SHARES)
