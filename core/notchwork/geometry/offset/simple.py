"""Closed lines that need no union: those that neither meet themselves nor run the wrong way round.

Every line is cut into short stretches. Two that follow each other cannot meet but at their joint if all their steps go
forward along one common axis; two others cannot meet if the boxes about them are apart. What neither shows is settled
step against step; a line on which that would take longer than its union is left to the union.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from notchwork.geometry.cubics import Bools, Complexes, Floats, Ints

WORTH = 2
"""A line may have this many times as many pairs of stretches to be settled as it has stretches."""
SURE = 1e-15
"""A cross product has the right sign if it is more than this share of the products it is the difference of."""
EVERY_WAY = np.uint32(0x01010101)
SKEW = 0.25
"""The slope of the axes: along upright ones the steps round a right corner would stand still."""


def simple_lines(points: Complexes, steps: Complexes, first: Ints, size: Ints) -> Bools:
    """Which closed lines run counter-clockwise without meeting themselves; False where that is not certain.

    points (m,) are the lines end to end, in whole numbers, steps the ways from each point to the next, none of them
    zero; every line begins at first and has size points, at least one.
    """
    stretches = _cut(points, first, size)
    one, other = _unsure(steps, stretches)
    line = stretches.line[one]
    many = np.bincount(line, minlength=len(first))
    simple = (many <= WORTH * np.bincount(stretches.line, minlength=len(first))) & (size > 2)
    simple &= np.add.reduceat(points.real * steps.imag - points.imag * steps.real, first) > 0.0
    left = np.flatnonzero(simple[line])
    if left.size:
        a, b, which = _near_steps(points, steps, stretches, one[left], other[left])
        meet = _may_meet(points[a], steps[a], points[b], steps[b])
        simple[line[left[which[meet]]]] = False
    return simple


class _Boxes(NamedTuple):
    """Upright boxes (k,)."""

    left: Floats
    right: Floats
    low: Floats
    high: Floats

    def at(self, which: Ints) -> _Boxes:
        return _Boxes(self.left[which], self.right[which], self.low[which], self.high[which])

    def touch(self, other: _Boxes) -> Bools:
        """Which boxes touch those of the same number."""
        beside: Bools = (self.left <= other.right) & (other.left <= self.right)
        return beside & (self.low <= other.high) & (other.low <= self.high)


class _Stretches(NamedTuple):
    """Stretches (k,) of closed lines in walking order, about as many of each as each has steps."""

    line: Ints
    start: Ints
    """The first step."""
    stop: Ints
    following: Ints
    """The stretch after it."""
    box: _Boxes


def _cut(points: Complexes, first: Ints, size: Ints) -> _Stretches:
    long = np.ceil(np.sqrt(size)).astype(np.intp)
    count = -(-size // long)
    begin = np.cumsum(count) - count
    line = np.repeat(np.arange(len(first)), count)
    place = np.arange(len(line))
    start = (first - long * begin)[line] + long[line] * place
    following = place + 1
    following[begin + count - 1] = begin
    x, y, end = points.real.copy(), points.imag.copy(), start[following]
    box = _Boxes(
        np.minimum(np.minimum.reduceat(x, start), x[end]),
        np.maximum(np.maximum.reduceat(x, start), x[end]),
        np.minimum(np.minimum.reduceat(y, start), y[end]),
        np.maximum(np.maximum.reduceat(y, start), y[end]),
    )
    return _Stretches(line, start, np.append(start[1:], len(points)), following, box)


def _unsure(steps: Complexes, stretches: _Stretches) -> tuple[Ints, Ints]:
    """Pairs of stretches of one line, each perhaps with itself, that might meet as far as axes and boxes tell."""
    following = stretches.following
    ways = np.bitwise_or.reduceat(_not_forward(steps), stretches.start)
    alone = np.flatnonzero(ways == EVERY_WAY)
    joined = np.flatnonzero((ways | ways[following]) == EVERY_WAY)
    one, other = _near(stretches)
    apart = (other != following[one]) & (one != following[other])
    return (
        np.concatenate([one[apart], alone, joined]),
        np.concatenate([other[apart], alone, following[joined]]),
    )


def _not_forward(steps: Complexes) -> NDArray[np.uint32]:
    """For each step (m,) the ways, of four, along which it does not go forward: a byte each, 1 if it does not."""
    still = np.empty((len(steps), 4), dtype=bool)
    for column, along in enumerate((steps.real + SKEW * steps.imag, steps.imag - SKEW * steps.real)):
        np.less_equal(along, 0.0, out=still[:, 2 * column])
        np.greater_equal(along, 0.0, out=still[:, 2 * column + 1])
    return still.view(np.uint32)[:, 0]


def _near(stretches: _Stretches) -> tuple[Ints, Ints]:
    """The pairs of different stretches of one line whose boxes touch."""
    box = stretches.box
    # Beside each other, the boxes of different lines are apart; from left to right, each asks those that begin before it ends.
    beside = stretches.line * (box.right.max() - box.left.min() + 1.0)
    order = np.argsort(box.left + beside, kind="stable")
    place = np.arange(1, len(order) + 1)
    ends = np.searchsorted((box.left + beside)[order], (box.right + beside)[order], side="right")
    asks = np.repeat(place, ends - place)
    asked = np.arange(len(asks)) - np.repeat(np.cumsum(ends - place) - ends, ends - place)
    one, other = order[asks - 1], order[asked]
    touch = np.flatnonzero(box.at(one).touch(box.at(other)))
    return one[touch], other[touch]


def _near_steps(
    points: Complexes, steps: Complexes, stretches: _Stretches, one: Ints, other: Ints
) -> tuple[Ints, Ints, Ints]:
    """The pairs of different steps of pairs (k,) of stretches whose boxes touch, and the number of the pair each is of."""
    within = np.arange((stretches.stop - stretches.start).max())

    def steps_near(own: Ints, against: Ints) -> tuple[Ints, Bools]:
        step = stretches.start[own][:, None] + within
        real = step < stretches.stop[own][:, None]
        step[~real] = 0
        about = _Boxes(*(side[:, None] for side in stretches.box.at(against)))
        return step, real & _about(points[step], steps[step]).touch(about)

    a, near_a = steps_near(one, other)
    b, near_b = steps_near(other, one)
    both = near_a[:, :, None] & near_b[:, None, :]
    both &= (one != other)[:, None, None] | (within[:, None] < within)
    which, i, j = np.nonzero(both)
    a, b = a[which, i], b[which, j]
    touch = np.flatnonzero(_about(points[a], steps[a]).touch(_about(points[b], steps[b])))
    return a[touch], b[touch], which[touch]


def _about(start: Complexes, step: Complexes) -> _Boxes:
    end = start + step
    return _Boxes(
        np.minimum(start.real, end.real),
        np.maximum(start.real, end.real),
        np.minimum(start.imag, end.imag),
        np.maximum(start.imag, end.imag),
    )


def _may_meet(p: Complexes, u: Complexes, q: Complexes, v: Complexes) -> Bools:
    """Which of the steps u (m,) from p may meet the steps v from q elsewhere than at their joint; their boxes touch."""
    # Steps of which one begins where the other ends are joined; if other steps meet there too, two of them share a start.
    joined = (p + u == q) | (q + v == p)
    back = (_side(u, v) == 0.0) & ((u.conj() * v).real < 0.0)
    on_one_side = (_side(u, q - p) * _side(u, q + v - p) > 0.0) | (
        _side(v, p - q) * _side(v, p + u - q) > 0.0
    )
    may: Bools = np.where(joined, back, ~on_one_side)
    return may


def _side(along: Complexes, z: Complexes) -> Floats:
    """On which side z is, seen along a direction: 1 on the left, -1 on the right, 0 where it cannot be told."""
    one, other = along.real * z.imag, along.imag * z.real
    apart = one - other
    side: Floats = np.where(np.abs(apart) > SURE * (np.abs(one) + np.abs(other)), np.sign(apart), 0.0)
    return side
