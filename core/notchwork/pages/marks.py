"""Where a tile joins its neighbours: lines, match marks and words.

The definition, free of any program. A tile is joined to its neighbour along a straight line that is parallel to the edge of
the page and is printed on both, ``Frame.reach`` inside what is printed. Lines of joining lie ``Frame.step`` apart. On every
side that has a printed neighbour there are two match marks, at a quarter and at three quarters of the side, counted along
the line from its left or its lower end. The point that a mark marks lies on the line. Two filled triangles touch each other
there with one corner, one on the tile's own side of the line and one beyond it: an hourglass square to the line, ``HALF`` to
either side, as wide at its ends as it is high. Where nothing is printed beyond the line, only the inner triangle is there, and
the neighbour's makes it whole. Laid together, the points of both tiles coincide, and so does every line of the pattern.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from notchwork.pages.frame import Frame
from notchwork.pages.ink import FINE, Pen

Side = Literal["left", "right", "below", "above"]

SHARES = (0.25, 0.75)
"""Where along a side its marks stand."""
HALF = 4.0
"""mm: how far a mark reaches to either side of the line of joining."""
WORDS = 3.2
"""mm: type along a line of joining."""
_OUTWARD: Mapping[Side, complex] = {"left": -1, "right": 1, "below": -1j, "above": 1j}


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


def draw_joins(pen: Pen, frame: Frame, own: str, neighbours: Mapping[Side, str]) -> None:
    """On every side of a tile that has a printed neighbour: the line, the marks, and words that name both."""
    for side, other in neighbours.items():
        start, end = side_ends(frame, side)
        pen.line(start, end, width=FINE)
        outward = _OUTWARD[side]
        for point in mark_points(frame, side):
            _triangle(pen, point, -outward, HALF)
            if frame.reach:
                _triangle(pen, point, outward, min(HALF, frame.reach))
        _words(pen, frame, side, f"{own} joins {other}")


def _triangle(pen: Pen, at: complex, towards: complex, tall: float) -> None:
    base = at + towards * tall
    pen.filled(at, base + towards * 1j * tall / 2, base - towards * 1j * tall / 2)


def _words(pen: Pen, frame: Frame, side: Side, words: str) -> None:
    start, end = side_ends(frame, side)
    middle, outward = (start + end) / 2, _OUTWARD[side]
    # Read from the right on both upright sides, from below on the level ones.
    up = 1j if side in ("below", "above") else -1 + 0j
    gap = 1.0 if outward != up else 1.0 + 0.8 * WORDS
    base = middle - outward * (gap if outward == up else 1.0 + 0.2 * WORDS)
    pen.words(base, words, WORDS, anchor="middle", angle=0.0 if up == 1j else 90.0)
