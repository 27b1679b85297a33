"""One cubic for each piece of a polyline, with tangents of its own; what was tried is remembered."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from notchwork.geometry.cubics import Bools, Floats, Ints, points
from notchwork.geometry.fitting.chords import Chords
from notchwork.geometry.fitting.joint import Aim, Fit, fit
from notchwork.geometry.fitting.jumps import REACH
from notchwork.geometry.fitting.pieces import Beads, Pieces

SEARCHED = 48
"""While places are searched, as many vertices of a piece are looked at."""
ROUNDS = 12
"""So many steps are taken to see whether one cubic follows a piece: nearly every piece that it can follow has arrived by then."""
STARTS = np.array([(0.15, 0.15), (0.6, 0.6), (0.15, 0.6), (0.6, 0.15)])
"""Shares of a piece's length that its handles start from where least squares led nowhere."""
NO_RING = np.zeros(0, dtype=np.intp)


class Limits(NamedTuple):
    """mm by which chords stray from the curve that they stand for, and by which vertices may lie beside what is fitted."""

    off: float
    stray: float


def beads(chords: Chords, start: Ints, end: Ints, most: int | None = None) -> Beads:
    """The vertices inside the pieces, or as many of them, evenly spread, with first guesses of their parameters."""
    inner = end - start - 1
    count = inner if most is None else np.minimum(inner, most)
    of = np.repeat(np.arange(len(start)), count)
    k = np.arange(len(of)) - np.repeat(np.cumsum(count) - count, count)
    vertex = start[of] + 1 + np.floor((k + 0.5) * inner[of] / count[of]).astype(np.intp)
    begin = chords.along[start][of]
    u = (chords.along[vertex] - begin) / (chords.along[end][of] - begin)
    return Beads(chords.z[vertex], of, u)


class Alone(NamedTuple):
    """Pieces fitted each by itself: how far (mm) the vertices lie beside, infinite where the cubic leaves its chords; the
    directions (radians) in which it sets off and arrives, and the lengths (mm) of its handles.
    """

    off: Floats
    leave: Floats
    arrive: Floats
    out: Floats
    home: Floats


def alone(chords: Chords, start: Ints, end: Ints, limits: Limits, shares: Floats | None = None) -> Alone:
    """One cubic for each piece, with tangents of its own but beside a straight line.

    shares (2, n) are those of its length that its handles start from; if none are given, least squares tells.
    """
    count = len(start)
    string = beads(chords, start, end, SEARCHED)
    held, angles = np.empty(2 * count, dtype=bool), np.empty(2 * count)
    held[::2], held[1::2] = chords.hold_leave[start], chords.hold_arrive[end]
    angles[::2], angles[1::2] = chords.leave[start], chords.arrive[end]
    pieces = Pieces(
        chords.z[start],
        chords.z[end],
        chords.along[end] - chords.along[start],
        2 * np.arange(count),
        np.arange(count),
        held,
        NO_RING,
        NO_RING,
    )
    handle = None if shares is None else shares * pieces.long
    aim = Aim(0.01 * limits.stray, 0.01 * limits.stray, 20.0 * limits.stray, ROUNDS)
    found = fit(pieces, string, angles, handle, aim)
    keeps = sound(found, string, limits.off) | (end - start - 1 > SEARCHED)
    off = np.where(keeps, farthest(found, string, count), np.inf)
    a, b, c, d = found.cubics.T
    return Alone(off, found.angles[::2], found.angles[1::2], np.abs(b - a), np.abs(d - c))


def best_alone(chords: Chords, start: Ints, end: Ints, limits: Limits) -> Alone:
    """The same; what strays from its vertices is tried again from handles of other lengths."""
    best = alone(chords, start, end, limits)
    worth = (end - start > 4) & ~hopeless(chords, start, end)
    # Where the curvature jumps, there are more cubics than one, and no start will help.
    worth &= chords.jumps[np.maximum(end - REACH, start)] == chords.jumps[np.minimum(start + REACH - 1, end)]
    poor = np.flatnonzero(worth & (best.off > 0.1 * limits.stray))
    if poor.size:
        many, times = len(poor), len(STARTS)
        shares = np.repeat(STARTS.T, many, axis=1)
        other = alone(chords, np.tile(start[poor], times), np.tile(end[poor], times), limits, shares)
        tried = other.off.reshape(times, many).argmin(axis=0) * many + np.arange(many)
        better = other.off[tried] < best.off[poor]
        for known, found in zip(best, other, strict=True):
            known[poor[better]] = found[tried[better]]
    return best


class Trials:
    """Pieces fitted each by itself, each once."""

    def __init__(self, chords: Chords, limits: Limits) -> None:
        self._chords, self._limits = chords, limits
        self._keys = np.zeros(0, dtype=np.intp)
        self._found = Alone(*(np.zeros(0) for _ in Alone._fields))

    def best(self, start: Ints, end: Ints) -> Alone:
        """See best_alone."""
        keys = start * len(self._chords.z) + end
        fresh = np.flatnonzero(~np.isin(keys, self._keys))
        if fresh.size:
            found = best_alone(self._chords, start[fresh], end[fresh], self._limits)
            known = np.append(self._keys, keys[fresh])
            order = np.argsort(known, kind="stable")
            self._keys = known[order]
            self._found = Alone(
                *(np.append(old, new)[order] for old, new in zip(self._found, found, strict=True))
            )
        at = np.searchsorted(self._keys, keys)
        return Alone(*(values[at] for values in self._found))


def hopeless(chords: Chords, start: Ints, end: Ints) -> Bools:
    """Which pieces turn round, or turn the other way, more often than a cubic can, which does so twice at most."""
    turns: Bools = chords.turned[end - 1] - chords.turned[start] > 2.0 * np.pi
    return turns | (chords.waves[end - 1] - chords.waves[start + 1] > 2)


def farthest(found: Fit, string: Beads, count: int) -> Floats:
    most = np.zeros(count)
    np.maximum.at(most, string.of, found.beside)
    return most


def sound(found: Fit, string: Beads, off: float) -> Bools:
    """Whether the cubics keep near the chords between the points (all points given) and go forward all the way."""
    count = len(found.cubics)
    each = np.bincount(string.of, minlength=count) + 1
    of = np.repeat(np.arange(count), each)
    first = np.cumsum(each) - each
    low, high = np.zeros(len(of)), np.ones(len(of))
    from_end, to_end = np.ones(len(of), bool), np.ones(len(of), bool)
    from_end[first], to_end[first + each - 1] = False, False
    low[from_end] = found.u
    high[to_end] = found.u
    a, b = found.cubics[of, 0], found.cubics[of, 3]
    a[from_end], b[to_end] = string.z, string.z
    middle = points(found.cubics, of, (low + high) / 2.0)
    chord = b - a
    size = np.abs(chord)
    aside = np.abs(((middle - a) * chord.conj()).imag) / size
    ahead = ((middle - a) * chord.conj()).real / size
    good = (high > low) & (aside <= 2.0 * off) & (ahead > 0.0) & (ahead < size)
    keeps = np.ones(count, dtype=bool)
    keeps[of[~good]] = False
    return keeps
