"""Two darts of a piece cross each other."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

import numpy as np

from notchwork.checks import check
from notchwork.findings import Finding, Place, Row, Rule, Severity, plain_name
from notchwork.geometry import Meeting, intersections
from notchwork.sewing import Nest
from notchwork.sewing.darts import DartShape, darts_of

ONE_POINT = 1.0
"""mm: darts whose points lie nearer than this meet in one point."""

CROSS = Rule(
    id="darts/crossing",
    title="Two darts cross each other",
    rationale="Cloth that is folded away by one dart cannot be folded away again by another. Darts that end in one point do "
    "so on purpose.",
    source="Follows from what a dart is; no outside source.",
    grade=Severity.ERROR,
)

TEXT = "The darts “{one}” and “{other}” lie across each other."
HINT = "Move one of them aside, shorten it, or let both end in one point."


@check(CROSS, needs="shapes")
def crossing(nest: Nest) -> Iterator[Finding]:
    shapes = list(darts_of(nest))
    for one, other in combinations(shapes, 2):
        if one.piece != other.piece:
            continue
        rows = []
        for size, name in enumerate(nest.sizes):
            point = _crosses(one, other, size)
            if point is not None:
                place = Place(piece=one.piece, dart=one.name, point=point)
                rows.append(Row(name, place=place))
        if rows:
            values = {"one": plain_name(one.name), "other": plain_name(other.name)}
            assert rows[0].place is not None
            yield Finding(CROSS, rows[0].place, TEXT, HINT, values, tuple(rows), (one.piece,))


def _crosses(one: DartShape, other: DartShape, size: int) -> complex | None:
    """Where two darts cross in one size, or lie in each other's mouth; None where they do not."""
    a, b = one.legs[size], other.legs[size]
    if not (np.isfinite(a).all() and np.isfinite(b).all()):
        return None
    apart = np.abs(one.apexes[size][:, None] - other.apexes[size][None, :])
    if float(apart.min()) < ONE_POINT:
        return None
    met = intersections(a, b)
    hits = np.flatnonzero(met.kinds == Meeting.CROSS)
    if len(hits):
        return complex(met.points[hits[0]])
    if one.line is not None and one.line is other.line:
        inner = min(one.high[size], other.high[size]) - max(one.low[size], other.low[size])
        if inner > 0.5:
            return complex(other.feet[size, 0])
    return None
