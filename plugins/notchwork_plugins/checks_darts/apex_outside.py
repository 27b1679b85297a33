"""The point of a dart lies outside its piece."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from notchwork.checks import check
from notchwork.findings import Finding, Place, Row, Rule, Tolerance, plain_name
from notchwork.sewing import Nest
from notchwork.sewing.darts import DartShape, darts_of
from notchwork.sewing.inside import outside_by
from notchwork.sewing.unfold import unfolded

OUTSIDE = Rule(
    id="darts/apex-outside",
    title="The point of a dart lies outside its piece",
    rationale="A dart ends on the cloth. A point outside the piece is drawn wrong, or was left behind when the piece was graded.",
    source="Follows from what a dart is; no outside source.",
    grade=Tolerance(error=0.05),
)

TEXT = "The point of the dart “{dart}” lies {off} outside the piece."
HINT = "Move the point on to the piece; if it is right in the size it was drafted in, give it a grade rule."


@check(OUTSIDE, needs="shapes")
def apex_outside(nest: Nest) -> Iterator[Finding]:
    for shape in darts_of(nest):
        off = [_outside(nest, shape, size) for size in range(len(nest.sizes))]
        rows = tuple(Row(size, by) for size, by in zip(nest.sizes, off, strict=True))
        place = Place(piece=shape.piece, dart=shape.name, point=complex(shape.apexes[nest.base, 0]))
        yield Finding(OUTSIDE, place, TEXT, HINT, {"dart": plain_name(shape.name)}, rows, (shape.piece,))


def _outside(nest: Nest, shape: DartShape, size: int) -> float:
    graded = nest.pieces[shape.piece]
    if not graded.present[size]:
        return float("nan")
    outline = unfolded(nest, graded, size).outline() if graded.folds else nest.outline(graded.id, size)
    return max(0.0, float(np.max(outside_by(outline, shape.apexes[size]))))
