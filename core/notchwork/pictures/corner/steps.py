"""The step where a seam ends because one side is longer there: what a sewer has over who pins from the other end."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from notchwork.checks import Graded, Verdict
from notchwork.findings import ROUNDING, Severity
from notchwork.sewing import Comparison, Misfit, Nest, misfit
from notchwork.sewing.pieces.lines import Floats
from notchwork.sewing.shapes.truing import RunningOn
from notchwork.sewing.walks.fit import NOTHING
from notchwork.sewing.ways.meeting import beyond

LONGER = frozenset(["seams/unequal-length", "sleeves/unequal-below-notches"])
"""What is told of a side that is longer than it is to be."""


@dataclass(frozen=True, slots=True, eq=False)
class Step:
    """``by`` (mm, sizes): how far the further side ends beyond the first; 0 in sizes of which nothing is ``told``."""

    by: Floats
    told: Graded


def step_at(nest: Nest, verdict: Verdict, pair: RunningOn) -> Step | None:
    """The step at one end of a seam, where a finding above info tells of a length that is off up to this end."""
    comparison = _comparison(nest, pair)
    told = [
        graded
        for graded in verdict.at_least(Severity.WARNING)
        if graded.rule.id in LONGER and any(place.seam == pair.seam for place in graded.places)
    ]
    if comparison is None or not told:
        return None
    off = misfit(nest, nest.walks[pair.seam], comparison)
    for graded in told:
        by = np.zeros(len(nest.sizes))
        for row in graded.rows:
            size = nest.sizes.index(row.row.size) if row.row.size in nest.sizes else None
            if size is None or row.severity < Severity.WARNING:
                continue
            if abs(abs(row.row.off) - abs(float(off.length[size]))) <= ROUNDING:
                by[size] = _reaching(nest, pair, off, size)
        if by.any():
            return Step(by, graded)
    return None


def _comparison(nest: Nest, pair: RunningOn) -> Comparison | None:
    k = 0 if pair.at_start else -1
    for comparison in nest.walks[pair.seam].others:
        stretch = comparison.side.stretches[k]
        if (stretch.start_spot if pair.at_start else stretch.stop_spot) == pair.corners[1]:
            return comparison
    return None


def _reaching(nest: Nest, pair: RunningOn, off: Misfit, size: int) -> float:
    """The difference of the interval that reaches this end, if it is one of those that are off."""
    intervals = off.comparison.intervals
    interval = intervals[0 if pair.at_start else -1]
    by = float(interval.difference[size])
    if interval.full or not abs(by) >= NOTHING or by * float(off.length[size]) < 0:
        return 0.0
    return by if len(intervals) > 1 or pair.at_start == _is_left_at_start(nest, pair.seam) else 0.0


def _is_left_at_start(nest: Nest, seam: str) -> bool:
    """Where nothing meets on the way, cloth is left over at the hem, as one sews towards it; else where the walk ends."""
    return _is_hemmed(nest, seam, at_start=True) and not _is_hemmed(nest, seam, at_start=False)


def _is_hemmed(nest: Nest, seam: str, at_start: bool) -> bool:
    crossing = beyond(nest.sides[seam][0].stretches[0 if at_start else -1], at_start)
    edge = nest.pieces[crossing[0]].written.edges.get(crossing[1]) if crossing is not None else None
    return edge is not None and edge.finish is not None and edge.finish.kind == "hem"
