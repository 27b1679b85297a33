"""Which corners there are, and what the verdict says of each: the bend, the step, and the size in which it is worst.

What is off is decided by the verdict alone; here it is only found again, by its place and its amounts.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Literal

import numpy as np

from notchwork.checks import Graded, GradedRow, Verdict
from notchwork.findings import ROUNDING, Severity
from notchwork.pictures.corner.steps import Step, step_at
from notchwork.sewing import Nest, Spot
from notchwork.sewing.pieces.lines import Floats
from notchwork.sewing.shapes.truing import SQUARE, STRAIGHT, FoldCorner, RunningOn, fold_corners, running_on
from notchwork.sewing.ways.meeting import LineKey

KINKED, AT_FOLD = "seams/does-not-run-on", "pieces/fold-corner"
TURNED_BACK = 270.0
"""Degrees from which two edges do not go on into each other at all: nothing is told of them, and nothing drawn."""
SOUND = 2.0
"""Degrees up to which nothing is told."""

End = Literal["start", "end", "fold"]


@dataclass(frozen=True, slots=True, eq=False)
class Corner:
    """Two edges that must run on where a seam ends (``seam``), or an edge and its mirror half at a fold (None).

    ``off`` (degrees, sizes): by how much the two angles together differ from 180°; at a fold by how much either differs from
    90°. Positive: the further edge turns away from the cloth. ``bend`` is what is told of it, ``step`` of edges that end one
    further than the other. ``size`` is the size shown.
    """

    seam: str | None
    end: End
    edges: tuple[LineKey, LineKey]
    spots: tuple[Spot, Spot]
    off: Floats
    own_image: bool
    bend: Graded | None
    step: Step | None
    size: int
    sizes: tuple[str | None, ...] = field(default=(None,))

    @property
    def told(self) -> Sequence[Graded]:
        """The findings that this picture shows."""
        step = self.step.told if self.step is not None else None
        return tuple(graded for graded in (self.bend, step) if graded is not None)

    @property
    def bent(self) -> GradedRow | None:
        """What is told of the bend in the size shown."""
        return row_of(self.bend, self.sizes[self.size])

    @property
    def stepped(self) -> float:
        """By how much (mm) the further side ends beyond the first in the size shown; 0 where nothing is told of it."""
        return float(self.step.by[self.size]) if self.step is not None else 0.0

    @property
    def severity(self) -> Severity | None:
        """The worst that is told, of any size, and was not accepted; None where nothing is above info."""
        levels = [graded.severity for graded in self.told if graded.accepted is None]
        return max((level for level in levels if level >= Severity.WARNING), default=None)

    @property
    def is_off(self) -> bool:
        """Whether what is drawn of the size shown is told above info and was not accepted: what is hatched."""
        return bool(self.stepped) or speaks(self.bend, self.sizes[self.size])


def row_of(graded: Graded | None, size: str | None) -> GradedRow | None:
    """What is told of a size."""
    return next((row for row in graded.rows if row.row.size == size), None) if graded is not None else None


def speaks(graded: Graded | None, size: str | None) -> bool:
    """Whether a size is told above info and was not accepted on purpose."""
    row = row_of(graded, size)
    return (
        row is not None
        and graded is not None
        and graded.accepted is None
        and row.severity >= Severity.WARNING
    )


def corners(nest: Nest, verdict: Verdict) -> Iterator[Corner]:
    """Every corner that was checked, in the order of the seams, then of the folds."""
    unknown = _not_looked_at(verdict)
    for pair in running_on(nest):
        if any((spot.piece, KINKED) in unknown for spot in pair.corners) or KINKED not in _ran(verdict):
            continue
        bend = _told_of_pair(nest, verdict, pair)
        quiet = bend is None and pair.by == "folds" and bool(np.any(np.abs(pair.sum - STRAIGHT) > SOUND))
        if not quiet and not bool(np.any(pair.sum > TURNED_BACK)):  # a slip at a fold is shown at the fold
            yield from _at_seam(nest, verdict, pair, bend)
    for corner in fold_corners(nest):
        if (corner.piece, AT_FOLD) not in unknown and AT_FOLD in _ran(verdict):
            yield from _at_fold(nest, verdict, corner)


def _at_seam(nest: Nest, verdict: Verdict, pair: RunningOn, bend: Graded | None) -> Iterator[Corner]:
    off = pair.sum - STRAIGHT
    step = step_at(nest, verdict, pair)
    size = _shown(nest, off, bend, step)
    end: End = "start" if pair.at_start else "end"
    if size is not None:
        edges = (pair.one, pair.other)
        yield Corner(pair.seam, end, edges, pair.corners, off, pair.own_image, bend, step, size, nest.sizes)


def _at_fold(nest: Nest, verdict: Verdict, corner: FoldCorner) -> Iterator[Corner]:
    off = corner.angle - SQUARE
    told = (g for g in verdict.findings if g.rule.id == AT_FOLD)
    place = (corner.piece, corner.edge)
    point = _point(nest, corner.piece, corner.corner)
    bend = next(
        (g for g in told if any((p.piece, p.line) == place and p.point == point for p in g.places)), None
    )
    size = _shown(nest, off, bend, None)
    if size is not None:
        spot, edge = Spot(corner.piece, corner.corner, None, False), (corner.piece, corner.edge)
        yield Corner(
            None, "fold", (edge, edge), (spot, spot.turned()), off, True, bend, None, size, nest.sizes
        )


def _told_of_pair(nest: Nest, verdict: Verdict, pair: RunningOn) -> Graded | None:
    """The finding on this end of the seam; with several further sides the one with the same figures."""
    spot = pair.corners[0]
    point = _point(nest, spot.piece, spot.line)
    sums: Mapping[str | None, float] = dict(zip(nest.sizes, pair.sum.tolist(), strict=True))
    for graded in verdict.findings:
        if graded.rule.id == KINKED and all(
            _same(row.row.measured, sums[row.row.size]) for row in graded.rows
        ):
            for place in graded.places:
                if (place.seam, (place.piece, place.line), place.point) == (pair.seam, pair.one, point):
                    return graded
    return None


def _same(measured: float | None, total: float) -> bool:
    return measured is not None and abs(measured - total) <= ROUNDING


def _point(nest: Nest, piece: str, corner: str) -> complex | None:
    start = nest.cubics_of(nest.pieces[piece].lines[corner], nest.base)
    return complex(start[0, 0]) if len(start) else None


def _shown(nest: Nest, off: Floats, bend: Graded | None, step: Step | None) -> int | None:
    """The size in which the worst is told, else the drafted one; None where the corner exists in no size."""
    told = [graded for graded in (bend, step.told if step is not None else None) if graded is not None]
    told.sort(key=lambda graded: (graded.accepted is None, graded.severity), reverse=True)
    for graded in told:
        if graded.worst is not None and graded.worst.row.size in nest.sizes:
            return nest.sizes.index(graded.worst.row.size)
    known = np.flatnonzero(np.isfinite(off)).tolist()
    return nest.base if nest.base in known else next(iter(known), None)


def _ran(verdict: Verdict) -> Sequence[str]:
    return verdict.checked.checks if verdict.checked is not None else ()


def _not_looked_at(verdict: Verdict) -> frozenset[tuple[str, str]]:
    """Pieces with the checks that say nothing of them: nobody knows whether their corners are sound."""
    left_out = verdict.checked.not_run if verdict.checked is not None else ()
    return frozenset((skipped.piece, check) for skipped in left_out for check in skipped.checks)
