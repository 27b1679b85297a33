"""The point of a dart lies outside its piece."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np
from numpy.typing import NDArray

from notchwork.checks import check
from notchwork.findings import Finding, Place, Row, Rule, Tolerance, plain_name
from notchwork.sewing import GradedPiece, Nest
from notchwork.sewing.shapes.darts import DartShape
from notchwork.sewing.shapes.inside import outside_by
from notchwork.sewing.shapes.unfold import unfolded

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
    for ident, shapes in nest.darts.items():
        for shape, off in zip(shapes, _outside(nest, nest.pieces[ident], shapes), strict=True):
            rows = tuple(Row(size, float(by)) for size, by in zip(nest.sizes, off, strict=True))
            place = Place(piece=ident, dart=shape.name, point=complex(shape.apexes[nest.base, 0]))
            yield Finding(OUTSIDE, place, TEXT, HINT, {"dart": plain_name(shape.name)}, rows, (ident,))


def _outside(nest: Nest, graded: GradedPiece, shapes: Sequence[DartShape]) -> NDArray[np.float64]:
    """How far (mm, (darts, sizes)) the farther point of each dart lies outside the opened piece."""
    off = np.full((len(shapes), len(nest.sizes)), np.nan)
    for size in np.flatnonzero(graded.present) if shapes else ():
        points = np.array([shape.apexes[size, [0, -1]] for shape in shapes])
        outline = (
            unfolded(nest, graded, int(size)).outline()
            if graded.folds
            else nest.outline(graded.id, int(size))
        )
        by = outside_by(outline, points.ravel()).reshape(points.shape)
        off[:, size] = np.maximum(by.max(axis=1), 0.0)
    return off
