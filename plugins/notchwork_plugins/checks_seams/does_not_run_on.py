"""Where a seam ends, two edges that go on into each other make a corner."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from notchwork.checks import check
from notchwork.findings import Angle, Finding, Place, Row, Rule, Tolerance, plain_name
from notchwork.sewing import Nest
from notchwork.sewing.shapes.truing import SQUARE, STRAIGHT, RunningOn, running_on

DESIGN = 20.0
"""Degrees from which a corner is taken as meant, where edges share no more than a finish, or half of it at a centre seam."""
MOST_DENTED = 270.0
"""Degrees from which two edges do not go on into each other at all."""
SQUARELY = 2.0
"""Degrees: an edge that leaves its fold less squarely than this is told of by its own check."""

KINKED = Rule(
    id="seams/does-not-run-on",
    title="Two edges do not run on across a seam",
    rationale="Where a seam ends, the armhole of the front goes on into the armhole of the back, and hem into hem. Sewn "
    "together the two must make one smooth line: their angles at that corner add up to 180°. Both angles are read twice, by the "
    "drawn tangents and over the first 7 mm; the reading nearer to 180° counts.",
    source="Pin front and back at the shoulder; the armhole must be one true curve with no jog or point: M. Conover et al., A "
    "Complete Course in Dressmaking, vol. 9, 1921-22, p. 22. The steps of 2° and 5°: common practice, no source.",
    grade=Tolerance(info=2.0, warning=5.0, unit="deg"),
)

MEANT = replace(KINKED, grade=Tolerance(info=2.0, unit="deg"))

TEXT = "Sewn together, {one} and {other} meet at {sum} instead of {straight}: that makes {shape} of {off} in the edge."
HINT = "Lay the two pieces together along the seam and draw one smooth line across it; if a point is meant, mark the corner as one."


@check(KINKED, needs="shapes")
def does_not_run_on(nest: Nest) -> Iterator[Finding]:
    for pair in running_on(nest):
        off = pair.sum - STRAIGHT
        if pair.by == "folds" and _told_at_the_fold(nest, pair):
            continue
        if bool(np.any(pair.sum > MOST_DENTED)):
            continue  # an edge turned back on itself, as at a vent, runs on into nothing
        rows = tuple(
            Row(
                size,
                float(by),
                float(total),
                STRAIGHT,
                {"sum": Angle(float(total)), "shape": "a dent" if by > 0 else "a point"},
            )
            for size, by, total in zip(nest.sizes, off, pair.sum, strict=True)
        )
        one, other = (
            f"{nest.pieces[piece].name} ({plain_name(line)})" for piece, line in (pair.one, pair.other)
        )
        if pair.own_image:
            other = "its mirror image"
        spot = pair.corners[0]
        start = nest.cubics_of(nest.pieces[spot.piece].lines[spot.line], nest.base)
        place = Place(
            seam=pair.seam,
            piece=pair.one[0],
            line=pair.one[1],
            point=complex(start[0, 0]) if len(start) else None,
        )
        yield Finding(
            MEANT if _is_meant(pair) else KINKED,
            place,
            TEXT,
            HINT,
            {"one": one, "other": other, "straight": Angle(STRAIGHT)},
            rows,
            tuple(dict.fromkeys((pair.one[0], pair.other[0]))),
        )


def _is_meant(pair: RunningOn) -> bool:
    """Whether a corner there is design in every size."""
    off = np.abs(pair.sum - STRAIGHT)
    least = float(np.nanmin(off)) if np.isfinite(off).any() else 0.0
    return (
        pair.crossed or (pair.by == "finish" and least > DESIGN) or (pair.own_image and least > 2.0 * DESIGN)
    )


def _told_at_the_fold(nest: Nest, pair: RunningOn) -> bool:
    """One slip of a handle at a fold is one finding."""
    off = [np.abs(nest.corners[spot.piece, spot.line].nearer_to(SQUARE) - SQUARE) for spot in pair.corners]
    return any(bool(np.any((by > SQUARELY) & (by <= DESIGN))) for by in off)
