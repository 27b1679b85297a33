"""What happens where two lines of curves meet, each meeting told once."""

from __future__ import annotations

import enum
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from notchwork.geometry.cubics import Bools, Complexes, Floats, Ints, points
from notchwork.geometry.grid import near_boxes
from notchwork.geometry.nearest import nearest
from notchwork.geometry.runs import Runs

BESIDE = 0.02
"""How far from a meeting (mm) one looks to tell a crossing from a touch."""
ALONG = 1.0
"""Curves that stay together this long (mm) lie on each other."""
JOINT = 0.05
"""A line meets itself only if it went further than this (mm) in between."""


class Meeting(enum.IntEnum):
    """How two curves meet: they change sides, keep their sides, or lie on each other for a while."""

    CROSS = 0
    TOUCH = 1
    OVERLAP = 2


class Meetings(NamedTuple):
    """Places (m,) where curves meet, in the order of the first set; a stretch of OVERLAP is two places, its ends."""

    points: Complexes
    a_rows: Ints
    a_t: Floats
    b_rows: Ints
    b_t: Floats
    kinds: NDArray[np.int8]


class Pairs(NamedTuple):
    """Places, one on each set."""

    a_row: Ints
    s: Floats
    b_row: Ints
    t: Floats

    def only(self, which: Bools | Ints) -> Pairs:
        return Pairs(self.a_row[which], self.s[which], self.b_row[which], self.t[which])


def none() -> Meetings:
    rows, t = np.zeros(0, dtype=np.intp), np.zeros(0)
    return Meetings(np.zeros(0, dtype=np.complex128), rows, t, rows, t, np.zeros(0, dtype=np.int8))


def tell(a: Runs, b: Runs, pairs: Pairs, tol: float) -> Meetings:
    """What happens at each meeting, each told once."""
    along: Bools = _overlapping(a, b, pairs, tol)
    stretches = _stretches(a, b, pairs.only(along), tol)
    single = pairs.only(~along)
    single = single.only(_not_at(points(a.cubics, single.a_row, single.s), a.cubics, stretches))
    single = single.only(_firsts(a, b, single))
    kinds = np.where(_changes_sides(a, b, single), Meeting.CROSS, Meeting.TOUCH)
    told = Pairs(*(np.concatenate(columns) for columns in zip(single, stretches, strict=True)))
    kinds = np.concatenate([kinds, np.full(len(stretches.s), Meeting.OVERLAP)]).astype(np.int8)
    order = np.lexsort((told.b_row, told.s, told.a_row))
    told, kinds = told.only(order), kinds[order]
    z = (points(a.cubics, told.a_row, told.s) + points(b.cubics, told.b_row, told.t)) / 2.0
    return Meetings(z, *told, kinds)


def _overlapping(a: Runs, b: Runs, pairs: Pairs, tol: float) -> Bools:
    """Whether the lines are still together ALONG further on, on one side at least."""
    on_a = [a.beside(pairs.a_row, pairs.s, far) for far in (ALONG, -ALONG)]
    on_b = [b.beside(pairs.b_row, pairs.t, far) for far in (ALONG, -ALONG)]
    gaps = np.stack([np.abs(p - q) for p in on_a for q in on_b])
    together: Bools = np.logical_or.reduce(gaps <= 2.0 * tol, axis=0)
    return together


def _changes_sides(a: Runs, b: Runs, pairs: Pairs) -> Bools:
    """Whether of the two arms of b exactly one leaves on the left of a."""
    base_a, base_b = points(a.cubics, pairs.a_row, pairs.s), points(b.cubics, pairs.b_row, pairs.t)
    ahead, behind = (a.beside(pairs.a_row, pairs.s, far) - base_a for far in (BESIDE, -BESIDE))
    arms = [b.beside(pairs.b_row, pairs.t, far) - base_b for far in (BESIDE, -BESIDE)]

    def turn(z: Complexes) -> Floats:
        # Zero or NaN arms (a line's end, a point) stand nowhere and make every comparison false.
        with np.errstate(invalid="ignore"):
            angle: Floats = np.mod(np.angle(z * ahead.conj()), 2.0 * np.pi)
        return angle

    sector = turn(behind)
    left = [turn(arm) < sector for arm in arms]
    whole = np.isfinite(ahead) & np.isfinite(behind) & np.isfinite(arms[0]) & np.isfinite(arms[1])
    result: Bools = whole & (left[0] != left[1])
    return result


def _firsts(a: Runs, b: Runs, pairs: Pairs) -> Bools:
    """The first of each group of pairs that lie within JOINT of each other on both lines."""
    at = a.from_start(pairs.a_row, pairs.s) + 1j * b.from_start(pairs.b_row, pairs.t)
    earlier, later = near_boxes(at, at, 1.01 * JOINT)
    near_a = a.apart(pairs.a_row[later], pairs.s[later], pairs.a_row[earlier], pairs.s[earlier]) <= JOINT
    near_b = b.apart(pairs.b_row[later], pairs.t[later], pairs.b_row[earlier], pairs.t[earlier]) <= JOINT
    together = np.stack([later, earlier], axis=1)[near_a & near_b]
    keep = np.ones(len(pairs.s), dtype=bool)
    for again, first in sorted(together.tolist()):
        keep[again] &= not keep[first]
    return keep


def _stretches(a: Runs, b: Runs, pairs: Pairs, tol: float) -> Pairs:
    """The two ends of each stretch over which a row of a lies on a row of b."""
    ends: list[tuple[int, float, int, float]] = []
    for i, j in sorted(set(zip(pairs.a_row.tolist(), pairs.b_row.tolist(), strict=True))):
        here = pairs.only((pairs.a_row == i) & (pairs.b_row == j))
        places = list(zip(here.s.tolist(), here.t.tolist(), strict=True))
        if a is not b or i != j:
            one, two = a.cubics[i : i + 1], b.cubics[j : j + 1]
            on_b, on_a = nearest(two, one[0, [0, 3]]), nearest(one, two[0, [0, 3]])
            places += [(float(s), float(on_b.t[s])) for s in (0, 1) if on_b.distance[s] <= tol]
            places += [(float(on_a.t[t]), float(t)) for t in (0, 1) if on_a.distance[t] <= tol]
        (s0, t0), (s1, t1) = min(places), max(places)
        # Rows that merely share a node with the two of a stretch meet there too: their stretch has no length.
        if s1 - s0 > 1e-9 or (a is b and i == j):
            ends += [(i, s0, j, t0), (i, s1, j, t1)]
    table = np.array(ends, dtype=np.float64).reshape(-1, 4)
    rows = table[:, [0, 2]].astype(np.intp)
    return Pairs(rows[:, 0], table[:, 1], rows[:, 1], table[:, 3])


def _not_at(z: Complexes, a: Complexes, stretches: Pairs) -> Bools:
    """Which points are no end of a stretch."""
    ends = points(a, stretches.a_row, stretches.s)
    far: Bools = np.logical_and.reduce(np.abs(z[:, None] - ends) > JOINT, axis=1)
    return far
