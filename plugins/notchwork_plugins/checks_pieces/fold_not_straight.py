"""A fold that is no straight line."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from notchwork.checks import check
from notchwork.findings import Finding, Length, Place, Row, Rule, Tolerance, plain_name
from notchwork.geometry import flatten
from notchwork.sewing import Line, Nest

BENT = Rule(
    id="pieces/fold-not-straight",
    title="A fold is not straight",
    rationale="Cloth folds along straight lines only. A piece cannot be mirrored on a curved edge.",
    source="Geometry; no outside source. The bound is what a pencil line leaves open.",
    grade=Tolerance(error=0.05),
)

TEXT = "Its fold ({fold}) is not straight: it bows out by {bow}."
HINT = "Draw the fold as one straight line, or cut the piece whole with a seam there."


@check(BENT, needs="shapes")
def fold_not_straight(nest: Nest) -> Iterator[Finding]:
    for graded in nest.pieces.values():
        for fold in graded.folds if graded.has_shape else ():
            bows = [bow(nest, graded.lines[fold], size) for size in range(len(nest.sizes))]
            rows = tuple(
                Row(size, mm, mm, 0.0, {"bow": Length(mm)}) for size, mm in zip(nest.sizes, bows, strict=True)
            )
            values = {"fold": plain_name(fold)}
            yield Finding(BENT, Place(piece=graded.id, line=fold), TEXT, HINT, values, rows, (graded.id,))


def bow(nest: Nest, line: Line, size: int) -> float:
    """How far (mm) a line lies from the straight line between its ends, at most; NaN where it does not exist."""
    cubics = nest.cubics_of(line, size)
    if not len(cubics):
        return float("nan")
    a, b = complex(cubics[0, 0]), complex(cubics[-1, 3])
    z = flatten(cubics, 0.01).points - a
    if a == b:
        return float(np.max(np.abs(z)))
    along = z * (b - a).conjugate() / abs(b - a)
    past = np.maximum(np.maximum(-along.real, along.real - abs(b - a)), 0.0)
    return float(np.max(np.hypot(along.imag, past)))
