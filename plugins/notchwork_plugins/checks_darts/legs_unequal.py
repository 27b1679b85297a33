"""The two legs of a dart are not equally long."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from notchwork.checks import check
from notchwork.findings import Finding, Length, Place, Row, Rule, Tolerance, plain_name
from notchwork.sewing import Nest
from notchwork.sewing.shapes.darts import darts_of

FINE = 1.6

UNEQUAL = Rule(
    id="darts/unequal-legs",
    title="The legs of a dart are not equally long",
    rationale="The two legs of a dart are sewn to each other from the mouth to the point. If one is longer, the seam line makes "
    "a step at the mouth, or the point puckers. A leg that is eased on purpose says so.",
    source="Matching darts are identical in size and angle: Association of Sewing and Design Professionals, Standards of "
    "Quality. 1/16 in (1.6 mm): Threads 200, 2018, “10 Patternwork Skills”.",
    grade=Tolerance(warning=FINE),
)

TEXT = "The legs of the dart “{dart}” are {longer} and {shorter} long, {difference} apart (up to {fine} is fine)."
HINT = "Move the point or a foot until both legs are equally long, or say that the longer one is eased in."


@check(UNEQUAL, needs="shapes")
def legs_unequal(nest: Nest) -> Iterator[Finding]:
    for shape in darts_of(nest):
        if shape.dart.eased or shape.line is None:
            continue
        rows = []
        for size, (one, other) in zip(nest.sizes, shape.leg_lengths, strict=True):
            values = {
                "longer": Length(float(max(one, other))),
                "shorter": Length(float(min(one, other))),
                "difference": Length(float(abs(one - other))),
            }
            rows.append(
                Row(size, float(abs(one - other)), float(max(one, other)), float(min(one, other)), values)
            )
        place = Place(
            piece=shape.piece,
            line=shape.line.name,
            dart=shape.name,
            point=complex(shape.apexes[nest.base, 0]),
        )
        if np.isfinite([row.off for row in rows]).any():
            yield Finding(
                UNEQUAL, place, TEXT, HINT, {"dart": plain_name(shape.name)}, tuple(rows), (shape.piece,)
            )
