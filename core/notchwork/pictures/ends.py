"""What the verdict tells of the edges beyond the end of a seam: two hems that do not fit there, a neck that is bent."""

from __future__ import annotations

from collections.abc import Iterator

from notchwork.checks import Graded
from notchwork.findings import MeasureUnit, PersonUnit, Place, Severity, measure_of, plain_name, worded
from notchwork.pictures.lettering import short
from notchwork.pictures.told import Told, severity_in
from notchwork.sewing import Comparison, Nest, Walk
from notchwork.values import frozen

LETTERS = 14
"""Of an edge's name."""


@frozen
class EndTold:
    """A finding at the start or the end of a seam in one size, with the edge beyond it and both measures (of ``unit``)."""

    at_start: bool
    graded: Graded
    severity: Severity
    edge: str
    measured: float
    expected: float
    unit: MeasureUnit

    def words(self, unit: PersonUnit) -> str:
        """ "hem: 6.0 against 10.0 mm"."""
        measures = {
            "a": measure_of(self.measured, self.unit),
            "b": measure_of(self.expected, self.unit),
            "edge": short(plain_name(self.edge), LETTERS),
        }
        return worded("{edge}: {a:bare} against {b}", measures, unit)


def told_at_ends(nest: Nest, walk: Walk, comparison: Comparison, told: Told, size: int) -> Iterator[EndTold]:
    """What is told above info of the ends of two sides in a size (by its number), once for each end and finding."""
    if not any(comparison is other for other in walk.others):
        return
    for graded in told.loud:
        severity = severity_in(graded, nest.sizes[size])
        row = next((row.row for row in graded.rows if row.row.size in (nest.sizes[size], None)), None)
        if severity is None or row is None or graded.tolerance is None:
            continue
        if row.measured is None or row.expected is None:
            continue
        places = [place for place in graded.places if place.seam == walk.id and place.line is not None]
        ends = {k: place.line or "" for place in reversed(places) for k in ends_beyond(nest, place)}
        unit = graded.rule.measured_in or graded.tolerance.unit
        for k, edge in ends.items():
            here = {side.stretches[k].graded.id for side in (comparison.one, comparison.side)}
            if here <= {*graded.finding.pieces, *(place.piece for place in places)}:
                yield EndTold(k == 0, graded, severity, edge, row.measured, row.expected, unit)


def ends_beyond(nest: Nest, named: Place) -> Iterator[int]:
    """Which ends (0, -1) of a seam's sides lie at the edge that is named and that the seam does not take."""
    sides = nest.sides.get(named.seam or "", ())
    if named.line is None or any(
        (stretch.graded.id, stretch.line.name) == (named.piece, named.line)
        for side in sides
        for stretch in side.stretches
    ):
        return
    for side in sides:
        for k in (0, -1):
            stretch = side.stretches[k]
            corner = stretch.line.corner_at(stretch.start if k == 0 else stretch.stop)
            if stretch.graded.id != named.piece or corner is None:
                continue
            if named.line in (corner, stretch.graded.lines[corner].before):
                yield k
