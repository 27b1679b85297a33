"""The layers of the sewn-products convention by number, and which tag of a notch says what.

From memory of ASTM D6673-10, not checked against a copy: what is read here follows it, and does not claim to conform. Edition
and trade differ in places, so each assumption stands here by its name, once.
"""

from __future__ import annotations

from typing import Final

BOUNDARY: Final = 1
"""The cut line of a piece; its texts are on this layer too, and so are free notes."""
TURNS: Final = 2
CURVES: Final = 3
NOTCHES: Final = 4
GRADE_REFERENCE: Final = 5
MIRROR: Final = 6
GRAIN: Final = 7
INTERNAL: Final = 8
STRIPES: Final = 9
PLAIDS: Final = 10
CUT_OUTS: Final = 11
BLANK: Final = 12
DRILL_HOLES: Final = 13
SEW_LINES: Final = 14
ANNOTATION: Final = 15
T_NOTCHES: Final = 80
CASTLE_NOTCHES: Final = 81
CHECK_NOTCHES: Final = 82
U_NOTCHES: Final = 83
QUALITY: Final = frozenset({84, 85, 86, 87})
"""Curves against which a reader may check how it interpolates: of boundaries, internal lines, cut-outs and sew lines."""

NOTCH_SHAPES: Final = {
    NOTCHES: "V or slit",
    T_NOTCHES: "T",
    CASTLE_NOTCHES: "castle",
    CHECK_NOTCHES: "check",
    U_NOTCHES: "U",
}
OUTLINES: Final = frozenset({BOUNDARY, SEW_LINES})
LINES: Final = frozenset({BOUNDARY, MIRROR, GRAIN, INTERNAL, STRIPES, PLAIDS, CUT_OUTS, SEW_LINES})
"""The layers on which polylines and lines are something of a piece."""
POINTS: Final = frozenset({TURNS, CURVES, DRILL_HOLES, *NOTCH_SHAPES})

LEFT_OUT: Final = {
    GRADE_REFERENCE: "a reference for grading, which rules and sizes need no more",
    BLANK: "the convention leaves this layer blank",
    **dict.fromkeys(QUALITY, "a curve that only checks another"),
}
"""What is left out, and why."""

NOTCH_DEPTH: Final = 30
"""The tag of a notch that holds how deep it is cut; 0 where that is not said."""
NOTCH_WIDTH: Final = 39
NOTCH_ANGLE: Final = 50
"""The tag that holds the direction (degrees, counter-clockwise from the right) in which a notch runs; square to the boundary where it
is missing."""

ONE_NOTCH: Final = 13.0
"""mm: nicks no further apart on one edge are one double or triple notch; 1/4 to 1/2 in is usual. Common practice, no source."""


def number_of(layer: str) -> int | None:
    """The number that a layer's name is ("1", "01"), None where it is none."""
    name = layer.strip()
    return int(name) if name.isascii() and name.isdigit() and len(name) <= 4 else None
