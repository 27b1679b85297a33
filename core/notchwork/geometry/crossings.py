"""Where curves cross, touch, or lie on each other.

Both sets are first seen as polylines; every pair of chords that comes near is then settled on the curves themselves by
Newton's method for the least distance. What happens at a meeting is read a little way off, so that a crossing through
a node counts as one crossing.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from notchwork.geometry.arctable import parameters_at
from notchwork.geometry.cubics import Bools, Complexes, Floats, Ints, derivatives, points, runs_straight
from notchwork.geometry.measures import chords_needed
from notchwork.geometry.meetings import JOINT, Meeting, Meetings, Pairs, none, tell
from notchwork.geometry.runs import Runs
from notchwork.geometry.sweep import Near, near_chords

COARSE = 0.02
"""The polylines of the first look stay this close (mm) to the curves."""
TOUCH = 0.001
"""Curves this near (mm) touch."""
STEPS = 60
STRAIGHT = 1e-7
FEW = 200
"""Near places of one ring that are looked at first."""


class Crossing(NamedTuple):
    """Where a ring crosses itself, and the two rows that do."""

    point: complex
    row: int
    other_row: int


def intersections(a: Complexes, b: Complexes, tol: float = TOUCH) -> Meetings:
    """Where the cubics a (n, 4) meet the cubics b (k, 4); a touch is a distance up to tol (mm).

    Rows of one set that follow each other are one line: a meeting at their joint is told once.
    """
    if len(a) == 0 or len(b) == 0:
        return none()
    even_a, even_b = _even(a), _even(b)
    found = _settle(even_a, even_b, _candidates(even_a, even_b), tol)
    if not len(found.s):
        return none()
    met = tell(Runs(even_a, tol), Runs(even_b, tol), found, tol)
    return met._replace(a_t=_uneven(a, met.a_rows, met.a_t), b_t=_uneven(b, met.b_rows, met.b_t))


def self_intersections(outline: Complexes, closed: bool = True, tol: float = TOUCH) -> Meetings:
    """Where a line of cubics (n, 4) that follow each other meets itself, the joints of its rows left out.

    closed: the end of the last row is joined to the start of the first.
    """
    met, _ = _own_meetings(outline, np.zeros(len(outline), dtype=np.intp), closed, tol, 0)
    return met


def first_crossings(rings: Sequence[Complexes], tol: float = TOUCH) -> list[Crossing | None]:
    """One place at which each ring of cubics (n, 4) crosses itself; None where it does not.

    Of a ring that crosses itself everywhere only a few of the places are looked at.
    """
    found: list[Crossing | None] = [None] * len(rings)
    left = [k for k, ring in enumerate(rings) if len(ring)]
    few = FEW
    while left:
        shifts = _side_by_side([rings[k] for k in left])
        cubics = np.concatenate([rings[k] + shift for k, shift in zip(left, shifts, strict=True)])
        sizes = [len(rings[k]) for k in left]
        ring, first = np.repeat(np.arange(len(left)), sizes), np.cumsum([0, *sizes])
        met, unfinished = _own_meetings(cubics, ring, True, tol, few)
        for k in np.flatnonzero(met.kinds == Meeting.CROSS)[::-1]:
            at = int(ring[met.a_rows[k]])
            rows = int(met.a_rows[k] - first[at]), int(met.b_rows[k] - first[at])
            found[left[at]] = Crossing(complex(met.points[k] - shifts[at]), *rows)
        left = [left[k] for k in unfinished if found[left[k]] is None]
        few *= FEW
    return found


def _side_by_side(rings: Sequence[Complexes]) -> Complexes:
    """Shifts (rings,) that lay rings beside each other, so that only what belongs to one of them can meet."""
    left = np.array([float(ring.real.min()) for ring in rings])
    width = np.array([float(ring.real.max()) for ring in rings]) - left + 10.0
    shifts: Complexes = (np.cumsum(width) - width - left).astype(np.complex128)
    return shifts


def _own_meetings(
    outline: Complexes, line: Ints, closed: bool, tol: float, few: int
) -> tuple[Meetings, Ints]:
    """Where rows that follow each other meet; with ``few`` on each ``line`` (n,) only about so many near places are looked
    at, and the lines on which there are more are told."""
    if len(outline) == 0:
        return none(), np.zeros(0, dtype=np.intp)
    even = _even(outline)
    near, unfinished = _near_itself(even, line, few)
    back = _turned_back(even, closed, tol)
    if not len(near.s) and not len(back.s):
        return none(), unfinished
    found = _settle(even, even, near, tol)
    both = Pairs(*(np.concatenate(columns) for columns in zip(found, back, strict=True)))
    walked = Runs(even, tol, closed)
    apart = walked.apart(both.a_row, both.s, both.b_row, both.t) > JOINT
    if not apart.any():
        return none(), unfinished
    met = tell(walked, walked, both.only(apart), tol)
    a_t, b_t = _uneven(outline, met.a_rows, met.a_t), _uneven(outline, met.b_rows, met.b_t)
    return met._replace(a_t=a_t, b_t=b_t), unfinished


def _even(cubics: Complexes) -> Complexes:
    """The same lines, the straight ones run through at an even speed.

    With its handles on its nodes a straight row stands still there, which stops Newton's method where it matters most.
    """
    straight = runs_straight(cubics, STRAIGHT)
    even: Complexes = cubics.copy()
    chord = cubics[straight, 3] - cubics[straight, 0]
    even[straight, 1], even[straight, 2] = (
        cubics[straight, 0] + chord / 3.0,
        cubics[straight, 3] - chord / 3.0,
    )
    return even


def _uneven(cubics: Complexes, rows: Ints, t: Floats) -> Floats:
    """The parameters on the cubics as they were given of places on their even copies."""
    result = t.copy()
    which = runs_straight(cubics[rows], STRAIGHT)
    if which.any():
        chord = np.abs(cubics[rows, 3] - cubics[rows, 0])[which]
        result[which] = parameters_at(cubics, rows[which], t[which] * chord)
    return result


def _chords(cubics: Complexes) -> tuple[Ints, Floats, Floats, Complexes, Complexes]:
    count = chords_needed(cubics, COARSE)
    row = np.repeat(np.arange(len(cubics)), count)
    step = np.arange(len(row)) - (np.cumsum(count) - count)[row]
    t0, t1 = step / count[row], (step + 1) / count[row]
    return row, t0, t1, points(cubics, row, t0), points(cubics, row, t1)


def _candidates(a: Complexes, b: Complexes) -> Pairs:
    """Places where the chords of a come near those of b."""
    chords = [_chords(a), _chords(b)]
    row, t0, t1, start, end = (np.concatenate(column) for column in zip(*chords, strict=True))
    near, _ = near_chords(start, end, len(chords[0][0]), 2.0 * COARSE)
    return _places(near, row, t0, t1)


def _near_itself(cubics: Complexes, line: Ints, few: int) -> tuple[Pairs, Ints]:
    """Places where chords come near others of the same set, and the lines that have more than a few of them."""
    row, t0, t1, start, end = _chords(cubics)
    near, unfinished = near_chords(start, end, 0, 2.0 * COARSE, line[row], few)
    return _places(near, row, t0, t1), unfinished


def _places(near: Near, row: Ints, t0: Floats, t1: Floats) -> Pairs:
    s = t0[near.a] + near.along_a * (t1 - t0)[near.a]
    t = t0[near.b] + near.along_b * (t1 - t0)[near.b]
    return Pairs(row[near.a], s, row[near.b], t)


def _turned_back(cubics: Complexes, closed: bool, tol: float) -> Pairs:
    """Ends of the stretches over which a line goes back on itself at once, as it does at the tip of a slit."""
    row, t0, t1, start, end = _chords(cubics)
    there, back = (np.arange(len(row)), np.roll(np.arange(len(row)), -1))
    if not closed:
        there, back = there[:-1], back[:-1]
    out, home = end[there] - start[there], end[back] - start[back]
    share = np.divide(np.abs(out), np.abs(home), out=np.ones(len(there)), where=np.abs(home) > 0.0)
    s = np.clip(1.0 - 1.0 / np.maximum(share, 1e-12), 0.0, 1.0)
    t = np.clip(share, 0.0, 1.0)
    gap = np.abs(start[there] + s * out - start[back] - t * home)
    keep = ((out.conj() * home).real < 0.0) & (gap <= tol)
    there, back, s, t = there[keep], back[keep], s[keep], t[keep]
    return Pairs(row[there], t0[there] + s * (t1 - t0)[there], row[back], t0[back] + t * (t1 - t0)[back])


def _settle(a: Complexes, b: Complexes, pairs: Pairs, tol: float) -> Pairs:
    """The pairs moved to the least distance nearby, by damped Newton steps; those that stay apart are dropped."""
    s, t = pairs.s.copy(), pairs.t.copy()
    gap = points(a, pairs.a_row, s) - points(b, pairs.b_row, t)
    damping = np.full(len(s), 1e-6)
    open_ = np.arange(len(s))
    for _ in range(STEPS):
        if not open_.size:
            break
        i, j, f = pairs.a_row[open_], pairs.b_row[open_], gap[open_]
        a1, b1 = derivatives(a, i, s[open_]), derivatives(b, j, t[open_])
        g_s, g_t = (f.conj() * a1).real, -(f.conj() * b1).real
        grip = damping[open_] * (np.abs(a1) ** 2 + np.abs(b1) ** 2) + 1e-30
        h_ss = np.abs(a1) ** 2 + grip
        h_tt = np.abs(b1) ** 2 + grip
        h_st = -(a1.conj() * b1).real
        det = h_ss * h_tt - h_st * h_st
        down = (det > 0.0) & (h_ss > 0.0)
        det = np.where(down, det, 1.0)
        new_s = np.clip(s[open_] - (h_tt * g_s - h_st * g_t) / det, 0.0, 1.0)
        new_t = np.clip(t[open_] - (h_ss * g_t - h_st * g_s) / det, 0.0, 1.0)
        new = points(a, i, new_s) - points(b, j, new_t)
        better = down & (np.abs(new) < np.abs(f))
        moved = np.abs(new - f) + np.abs(new_s - s[open_]) + np.abs(new_t - t[open_])
        s[open_], t[open_] = np.where(better, new_s, s[open_]), np.where(better, new_t, t[open_])
        gap[open_] = np.where(better, new, f)
        damping[open_] = np.where(better, damping[open_] / 10.0, damping[open_] * 10.0)
        going = np.where(better, moved > 1e-13, damping[open_] < 1e6)
        open_ = open_[going & (np.abs(gap[open_]) > 1e-12)]
    together: Bools = np.abs(gap) <= tol
    return Pairs(pairs.a_row, s, pairs.b_row, t).only(together)
