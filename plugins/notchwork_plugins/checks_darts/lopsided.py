"""A dart that leans: its legs stand at unlike angles to its mouth."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from notchwork.checks import check
from notchwork.findings import Angle, Finding, Place, Row, Rule, Tolerance, plain_name
from notchwork.sewing import Nest
from notchwork.sewing.shapes.darts import darts_of
from notchwork_plugins.checks_darts.legs_unequal import FINE

LEANS = Rule(
    id="darts/lopsided",
    title="A dart leans to one side",
    rationale="Legs that are to be equal stand at equal angles on the line from foot to foot. In a narrow dart the lengths "
    "hardly show it when the point has slipped aside; the angles do.",
    source="Matching darts are identical in size and angle: Association of Sewing and Design Professionals, Standards of "
    "Quality. The step of 3°: common practice, no source.",
    grade=Tolerance(warning=3.0, unit="deg"),
)

TEXT = (
    "The dart “{dart}” leans: at its feet its legs stand at {one} and {other} to the line across the mouth, "
    "{off} apart (up to {fine} is fine)."
)
HINT = "Move the point over the middle of the mouth, or a foot, until both angles are equal."


@check(LEANS, needs="shapes")
def lopsided(nest: Nest) -> Iterator[Finding]:
    for shape in darts_of(nest):
        legs = shape.leg_lengths
        unequal = bool(np.nanmax(np.abs(legs[:, 0] - legs[:, 1]), initial=0.0) > FINE)
        if shape.dart.eased or shape.line is None or unequal:
            continue  # unequal legs are told by their lengths
        rows = tuple(
            Row(
                size,
                float(one - other),
                float(one),
                float(other),
                {"one": Angle(float(one)), "other": Angle(float(other))},
            )
            for size, (one, other) in zip(nest.sizes, shape.base_angles, strict=True)
        )
        place = Place(
            piece=shape.piece,
            line=shape.line.name,
            dart=shape.name,
            point=complex(shape.apexes[nest.base, 0]),
        )
        yield Finding(LEANS, place, TEXT, HINT, {"dart": plain_name(shape.name)}, rows, (shape.piece,))
