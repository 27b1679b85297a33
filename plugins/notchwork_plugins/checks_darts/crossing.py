"""Two darts of a piece cross each other."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from notchwork.checks import check
from notchwork.findings import Finding, Place, Row, Rule, Severity, plain_name
from notchwork.geometry import Meeting, intersections
from notchwork.sewing import Nest
from notchwork.sewing.shapes.darts import DartShape

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
    for shapes in nest.darts.values():
        for one, other in _near_each_other(shapes):
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


def _near_each_other(shapes: Sequence[DartShape]) -> Iterator[tuple[DartShape, DartShape]]:
    """The pairs of darts that can lie across each other: their boxes or mouths meet in some size, their points do not."""
    if len(shapes) < 2:
        return
    corners = [
        np.concatenate([shape.legs.reshape(len(shape.legs), -1), shape.feet], axis=1) for shape in shapes
    ]
    left, low = (np.stack([part(c).min(axis=1) for c in corners]) for part in (np.real, np.imag))
    right, high = (np.stack([part(c).max(axis=1) for c in corners]) for part in (np.real, np.imag))
    begin, end = np.stack([s.low for s in shapes]), np.stack([s.high for s in shapes])
    line = np.array([id(shape.line) for shape in shapes])
    points = np.stack([shape.apexes[:, [0, -1]] for shape in shapes])
    for k, one in enumerate(shapes):
        rest = slice(k + 1, None)
        boxes = (
            (left[rest] <= right[k])
            & (left[k] <= right[rest])
            & (low[rest] <= high[k])
            & (low[k] <= high[rest])
        )
        mouths = (line[rest] == line[k])[:, None] & (begin[rest] < end[k]) & (begin[k] < end[rest])
        apart = np.abs(points[rest, :, :, None] - points[k, :, None, :]).min(axis=(2, 3)) >= ONE_POINT
        for m in np.flatnonzero(((boxes | mouths) & apart).any(axis=1)).tolist():
            yield one, shapes[k + 1 + m]


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
