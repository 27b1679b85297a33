"""A piece whose outline encloses hardly any cloth."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from notchwork.checks import check
from notchwork.findings import Finding, Length, Place, Row, Rule, Tolerance
from notchwork.geometry import area, first_crossings
from notchwork.sewing import GradedPiece, Nest

NARROWEST = 1.0
"""mm: on the average over its length, a piece of cloth is wider than this."""

NOTHING = Rule(
    id="pieces/encloses-nothing",
    title="The outline of a piece encloses hardly any cloth",
    rationale="An outline that runs there and back on itself, or whose nodes all lie on one spot or line, is no piece that "
    "could be cut: mostly coordinates are missing, or a size was graded flat. An outline that crosses itself is told as that.",
    source="Common practice, no source.",
    quiet="Cords and straps drawn 1 mm wide and more.",
    grade=Tolerance(error=0.0),
)

TEXT = "Its outline encloses hardly any cloth: on the average it is {width} wide."
HINT = "Look at the coordinates of its nodes, and at the grade rules where it is right in another size."


@check(NOTHING, needs="shapes")
def encloses_nothing(nest: Nest) -> Iterator[Finding]:
    for graded in nest.pieces.values():
        width = mean_width(nest, graded)
        thin = np.flatnonzero(width < NARROWEST)
        crossed = first_crossings([nest.outline(graded.id, int(size)) for size in thin])
        off = {int(size) for size, crossing in zip(thin, crossed, strict=True) if crossing is None}
        if off:
            rows = tuple(
                Row(
                    name,
                    NARROWEST - float(width[size]) if size in off else 0.0,
                    float(width[size]),
                    NARROWEST,
                    {"width": Length(float(width[size]))},
                )
                for size, name in enumerate(nest.sizes)
            )
            yield Finding(NOTHING, Place(piece=graded.id), TEXT, HINT, {}, rows, (graded.id,))


def mean_width(nest: Nest, graded: GradedPiece) -> NDArray[np.float64]:
    """The area of a piece by half its outline's length (mm, sizes); NaN where it has no shape."""
    width = np.full(len(nest.sizes), np.nan)
    for size in np.flatnonzero(graded.present) if graded.has_shape else ():
        around = sum(float(graded.lines[edge].length[size]) for edge in graded.edges)
        width[size] = 2.0 * abs(area(nest.outline(graded.id, int(size)))) / around if around > 0 else 0.0
    return width
