"""A dart without depth."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from notchwork.checks import check
from notchwork.findings import Finding, Length, Place, Row, Rule, Tolerance, plain_name
from notchwork.sewing import Nest

SHALLOWEST = 1.0
"""mm"""

FLAT = Rule(
    id="darts/flat",
    title="A dart has no depth",
    rationale="A dart whose point lies on the line between its feet takes in cloth along the seam and shapes nothing: it cannot "
    "be sewn. Mostly the point was left where the edge is, or one coordinate is wrong.",
    source="Follows from what a dart is; no outside source.",
    quiet="Darts that are short, but longer than 1 mm.",
    grade=Tolerance(error=0.0),
)

TEXT = "The point of the dart “{dart}” lies only {depth} from the line between its feet."
DOUBLE = "The two points of the dart “{dart}” lie only {depth} from each other."
HINT = "Move the point to where the dart is to end."


@check(FLAT, needs="shapes")
def flat(nest: Nest) -> Iterator[Finding]:
    for shapes in nest.darts.values():
        for shape in shapes:
            if not (shape.depth < SHALLOWEST).any():
                continue
            rows = tuple(
                Row(
                    size,
                    max(SHALLOWEST - float(mm), 0.0),
                    float(mm),
                    SHALLOWEST,
                    {"depth": Length(float(mm))},
                )
                for size, mm in zip(nest.sizes, shape.depth, strict=True)
                if np.isfinite(mm)
            )
            text = TEXT if shape.line is not None else DOUBLE
            place = Place(piece=shape.piece, dart=shape.name, point=complex(shape.apexes[nest.base, 0]))
            yield Finding(FLAT, place, text, HINT, {"dart": plain_name(shape.name)}, rows, (shape.piece,))
