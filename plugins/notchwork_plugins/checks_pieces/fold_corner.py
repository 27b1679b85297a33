"""An edge does not leave the fold squarely."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

import numpy as np
from numpy.typing import NDArray

from notchwork.checks import check
from notchwork.findings import Angle, Finding, Length, Place, Row, Rule, Tolerance, plain_name
from notchwork.sewing import Nest
from notchwork.sewing.shapes.truing import SQUARE, STRAIGHT, fold_corners, running_on

DESIGN = 20.0
"""Degrees off the square from which a point at the fold is meant: a V-neck, a pointed waist."""

FIRST = 6.0
"""mm of an edge beside the fold that are drawn square to it."""

OFF = Rule(
    id="pieces/fold-corner",
    title="An edge does not leave the fold squarely",
    rationale="Opened out, an edge that leaves the fold at a little more or less than 90° has a point or a dent in the middle. "
    "More than 20° off is taken as meant, and so is a corner that the piece sewn on there answers.",
    source="Neckline, waist and hem leave a fold at 90° for 5 to 6 mm; the steps: common practice, no source.",
    grade=Tolerance(warning=2.0, unit="deg"),
)

TEXT = "Its {edge} leaves the fold ({fold}) at {angle} instead of {square}: opened out, that makes {shape} in the middle."
HINT = (
    "Draw the first {first} of the {edge} square to the fold; or mark the corner as a point if one is meant."
)


@check(OFF, needs="shapes")
def fold_corner(nest: Nest) -> Iterator[Finding]:
    answered = _answered(nest)
    for corner in fold_corners(nest):
        off = corner.angle - SQUARE
        meant = answered.get((corner.piece, corner.corner), np.zeros(len(off), dtype=bool))
        off = np.where((np.abs(off) > DESIGN) | meant, 0.0, off)
        graded = nest.pieces[corner.piece]
        rows = tuple(
            Row(
                size,
                float(by),
                float(angle),
                SQUARE,
                {"angle": Angle(float(angle)), "shape": "a dent" if by > 0 else "a point"},
            )
            for size, by, angle in zip(nest.sizes, off, corner.angle, strict=True)
        )
        values = {
            "edge": plain_name(corner.edge),
            "fold": plain_name(corner.fold),
            "square": Angle(SQUARE),
            "first": Length(FIRST),
        }
        start = nest.cubics_of(graded.lines[corner.corner], nest.base)
        place = Place(
            piece=corner.piece, line=corner.edge, point=complex(start[0, 0]) if len(start) else None
        )
        yield Finding(OFF, place, TEXT, HINT, values, rows, (corner.piece,))


def _answered(nest: Nest) -> Mapping[tuple[str, str], NDArray[np.bool_]]:
    """The corners whose point is repeated by what is sewn on there: the two folds run on as one straight line."""
    found = {}
    for pair in running_on(nest):
        if pair.by == "folds":
            for spot in pair.corners:
                found[spot.piece, spot.line] = np.abs(pair.sum - STRAIGHT) <= 2.0
    return found
