"""How a further side fits side 1: which intervals are off, and by how much, in every size."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from notchwork.sewing.pieces.lines import Floats
from notchwork.sewing.walks.joins import fine_on, wanted
from notchwork.sewing.walks.walk import Comparison, Interval, Walk
from notchwork.sewing.ways.meeting import beyond

if TYPE_CHECKING:
    from notchwork.sewing.nest import Nest

LEVELLED = 15.0
"""mm: what an edge that is levelled after hanging may be longer at a seam's end (common practice, no source)."""

NOTHING = 0.5
"""mm: a difference that is not worth a word (common practice, no source)."""

SHORTEST = 5.0
"""mm: an interval shorter than this has no ratio worth judging (common practice, no source)."""


@dataclass(frozen=True, slots=True, eq=False)
class Misfit:
    """How far (mm, signed as further side less side 1; sizes) a further side is off, by kind of fault; 0 where it is not.

    ``length``: the side is too long or too short, or a plain interval of an eased side is. ``slipped``: the total is
    right but stations do not meet. ``fullness``: the ease lies outside its range; ``ratio``: the gathers or the stretch do,
    in percent of the bound. ``levelled``: what an edge that is levelled after hanging will lose; it is no part of the
    others. ``where`` and ``full_where`` hold the number of the interval that is furthest off.
    """

    length: Floats
    slipped: Floats
    fullness: Floats
    ratio: Floats
    levelled: Floats
    where: tuple[int, ...]
    full_where: tuple[int, ...]
    comparison: Comparison
    """What was judged: the comparison, or only its total."""
    plain: Floats
    """By how much (mm, signed; intervals, sizes) each interval differs in which nothing may be eased; 0 in the others."""


def misfit(nest: Nest, walk: Walk, comparison: Comparison) -> Misfit:
    """Judge one further side against what its join states.

    A seam that runs the wrong way, or whose stations cross, is judged by its total only: its intervals mean nothing.
    """
    if walk.id in nest.wrong_way or comparison.pairing.crossed:
        comparison = by_total(nest, walk, comparison)
    count = len(nest.sizes)
    fine = fine_on(walk.seam)
    plain, levelled = _plain_differences(nest, walk, comparison)
    total = _total(comparison, plain, levelled)
    worst = np.abs(plain).max(axis=0, initial=0.0)
    where = np.abs(plain).argmax(axis=0) if len(plain) else np.zeros(count, dtype=int)
    at_worst = plain[where, np.arange(count)] if len(plain) else np.zeros(count)
    nothing = np.zeros(count)
    found = Misfit(
        nothing, nothing, nothing, nothing, levelled, _ints(where), _ints(where), comparison, plain
    )
    if comparison.is_plain:
        slips = (np.abs(total) <= fine) & (worst > np.abs(total) + NOTHING)
        return replace(
            found, length=np.where(slips, nothing, total), slipped=np.where(slips, at_worst, nothing)
        )
    fullness = _outside(comparison, comparison.full)
    if comparison.wanted is not None and comparison.wanted.unit == "ratio":
        ratios, full_where = _worst_ratio(comparison)
        return replace(found, length=at_worst, ratio=ratios, full_where=_ints(full_where))
    whole = _outside(comparison, comparison.intervals)
    slips = (np.abs(whole) <= fine) & (worst > fine) & (np.abs(fullness) > NOTHING)
    mostly_plain = ~slips & (np.abs(fullness) <= NOTHING)
    if slips.any() and mostly_plain.any():
        # one fault is one finding: what it is in the worst size, it is in all
        slips_there = bool(slips[np.argmax(np.where(slips | mostly_plain, worst, 0.0))])
        slips, mostly_plain = ((slips | mostly_plain) & there for there in (slips_there, not slips_there))
    return replace(
        found,
        length=np.where(mostly_plain, at_worst, nothing),
        slipped=np.where(slips, at_worst, nothing),
        fullness=np.where(slips | mostly_plain, nothing, fullness),
    )


def by_total(nest: Nest, walk: Walk, comparison: Comparison) -> Comparison:
    """The same sides compared from end to end, as if nothing met in between."""
    stations = comparison.pairing.stations
    one, other = comparison.one.length, comparison.side.length
    whole = Interval(stations[0], stations[-1], one, other, not comparison.is_plain)
    return replace(comparison, intervals=(whole,), wanted=wanted(comparison.join, walk.seam, nest.sizes, one))


def _plain_differences(nest: Nest, walk: Walk, comparison: Comparison) -> tuple[Floats, Floats]:
    """The differences (intervals, sizes) where nothing may be eased, 0 where it may; and what hanging will level (sizes).

    What will be levelled is no difference.
    """
    nothing = np.zeros(len(nest.sizes))
    differences = np.array([nothing if i.full else i.difference for i in comparison.intervals])
    differences = np.where(np.isnan(differences), 0.0, differences)
    levelled = np.zeros(len(nest.sizes))
    for index, at_start in ((0, True), (-1, False)):
        if len(differences) and _is_levelled(nest, walk, comparison, at_start):
            excess = differences[index]
            within = np.abs(excess) <= LEVELLED
            levelled = levelled + np.where(within, excess, 0.0)
            differences[index] = np.where(within, 0.0, excess)
    return differences, levelled


def _is_levelled(nest: Nest, walk: Walk, comparison: Comparison, at_start: bool) -> bool:
    """Whether an end of the seam lies on an edge that is levelled after hanging."""
    if walk.seam.closed:
        return False
    index = 0 if at_start else -1
    for side in (comparison.one, comparison.side):
        neighbour = beyond(side.stretches[index], at_start)
        if neighbour is None:
            continue
        edge = nest.pieces[neighbour[0]].written.edges.get(neighbour[1])
        if edge is not None and edge.trim_when == "hung":
            return True
    return False


def _total(comparison: Comparison, plain: Floats, levelled: Floats) -> Floats:
    """The side's difference, by its intervals where each is known in a size, else as a whole."""
    known = np.array([np.isfinite(i.difference) for i in comparison.intervals]).all(axis=0)
    return np.where(known, plain.sum(axis=0), comparison.difference - levelled)


def _outside(comparison: Comparison, intervals: tuple[Interval, ...]) -> Floats:
    """How far the sum of some intervals lies outside the range that the join states, signed."""
    if comparison.wanted is None or comparison.wanted.unit != "mm" or not intervals:
        return np.zeros_like(comparison.difference)
    sums = np.sum([i.difference for i in intervals], axis=0)
    sign = np.where(sums < comparison.wanted.least, -1.0, 1.0)
    return np.nan_to_num(comparison.wanted.off(sums) * sign)


def _worst_ratio(comparison: Comparison) -> tuple[Floats, Floats]:
    assert comparison.wanted is not None
    offs = np.array(
        [
            np.where(
                i.full & (i.one > SHORTEST),
                comparison.wanted.off(i.ratio) * np.where(i.ratio < comparison.wanted.least, -1.0, 1.0),
                0.0,
            )
            for i in comparison.intervals
        ]
    )
    offs = np.nan_to_num(offs)
    where = np.abs(offs).argmax(axis=0)
    return offs[where, np.arange(offs.shape[1])], where


def _ints(values: Floats) -> tuple[int, ...]:
    return tuple(int(value) for value in values)
