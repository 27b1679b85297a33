"""Into how few cubics a stretch between two nodes is divided, and where."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from notchwork.geometry.cubics import Bools, Floats, Ints, points
from notchwork.geometry.fitting.chords import Chords
from notchwork.geometry.fitting.joint import Aim, Fit, fit
from notchwork.geometry.fitting.pieces import Beads, Pieces

SEARCHED = 48
"""While places are searched, as many vertices of a piece are looked at."""
ROUNDS = 12
"""So many steps are taken to see whether one cubic follows a piece: nearly every piece that it can follow has arrived by then."""
STARTS = ((0.15, 0.15), (0.6, 0.6), (0.15, 0.6), (0.6, 0.15))
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


def alone(
    chords: Chords, start: Ints, end: Ints, limits: Limits, shares: tuple[float, float] | None = None
) -> Alone:
    """One cubic for each piece, with tangents of its own but beside a straight line."""
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
    handle = None if shares is None else np.array(shares)[:, None] * pieces.long
    aim = Aim(0.01 * limits.stray, 0.01 * limits.stray, 20.0 * limits.stray, ROUNDS)
    found = fit(pieces, string, angles, handle, aim)
    keeps = sound(found, string, limits.off) | (end - start - 1 > SEARCHED)
    off = np.where(keeps, farthest(found, string, count), np.inf)
    a, b, c, d = found.cubics.T
    return Alone(off, found.angles[::2], found.angles[1::2], np.abs(b - a), np.abs(d - c))


def best_alone(chords: Chords, start: Ints, end: Ints, limits: Limits) -> Alone:
    """The same; what strays from its vertices is tried again from handles of other lengths."""
    best = alone(chords, start, end, limits)
    for k, shares in enumerate(STARTS):
        enough = limits.stray * (0.1 if k < 2 else 1.0)
        poor = np.flatnonzero((best.off > enough) & (end - start > 4) & ~_hopeless(chords, start, end))
        if not poor.size:
            break
        other = alone(chords, start[poor], end[poor], limits, shares)
        better = other.off < best.off[poor]
        for known, tried in zip(best, other, strict=True):
            known[poor[better]] = tried[better]
    return best


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


def divided(chords: Chords, start: Ints, end: Ints, limits: Limits) -> tuple[Ints, Ints]:
    """Stretches as pieces, in order, each of which one cubic follows within the limits."""
    done: list[tuple[Ints, Ints]] = []
    failed = [np.zeros(0, dtype=np.intp)]
    while start.size:
        good = ~_hopeless(chords, start, end)
        tried = np.flatnonzero(good)
        good[tried] = _good(chords, start[tried], end[tried], limits)
        good |= end - start == 1
        done.append((start[good], end[good]))
        start, end = start[~good], end[~good]
        failed.append(start * len(chords.z) + end)
        middle = _between(chords, start, end, limits)
        start, end = np.concatenate([start, middle]), np.concatenate([middle, end])
    if not done:
        return start, end
    start, end = (np.concatenate(column) for column in zip(*done, strict=True))
    order = np.argsort(start)
    return _merged(chords, start[order], end[order], limits, np.concatenate(failed))


def _good(chords: Chords, start: Ints, end: Ints, limits: Limits) -> Bools:
    """Which pieces one cubic follows within the limits; within half of them where it will share a tangent."""
    own = (chords.corner[start] | chords.hold_leave[start]) & (chords.corner[end] | chords.hold_arrive[end])
    off = best_alone(chords, start, end, limits).off
    good: Bools = off <= np.where(own, 1.0, 0.5) * limits.stray
    return good


def _hopeless(chords: Chords, start: Ints, end: Ints) -> Bools:
    """Which pieces turn round, or turn the other way, more often than a cubic can, which does so twice at most."""
    turns: Bools = chords.turned[end - 1] - chords.turned[start] > 2.0 * np.pi
    return turns | (chords.waves[end - 1] - chords.waves[start + 1] > 2)


def _between(chords: Chords, start: Ints, end: Ints, limits: Limits) -> Ints:
    """Where each piece is parted: where both parts are equally well fitted; in the middle while neither can be."""
    middle = (start + end) // 2
    fine = np.flatnonzero(~_hopeless(chords, start, end) & (end - start > 3))
    if fine.size:
        middle[fine] = _balanced(chords, start[fine], end[fine], limits)
    return middle


def _balanced(chords: Chords, start: Ints, end: Ints, limits: Limits) -> Ints:
    low, high = start + 1, end - 1
    while (open_ := np.flatnonzero(low < high)).size:
        a, b = start[open_], end[open_]
        middle = (low[open_] + high[open_]) // 2
        before, after = _both(chords, a, middle, b, limits)
        up = (after > before) | ((after == before) & (middle - a < b - middle))
        low[open_], high[open_] = np.where(up, middle + 1, low[open_]), np.where(up, high[open_], middle)
    best, least = low, np.full(len(low), np.inf)
    for by in (0, -1, 1):
        tried = np.clip(low + by, start + 1, end - 1)
        worst = np.maximum(*_both(chords, start, tried, end, limits))
        best, least = np.where(worst < least, tried, best), np.minimum(worst, least)
    return best


def _both(chords: Chords, start: Ints, middle: Ints, end: Ints, limits: Limits) -> tuple[Floats, Floats]:
    off = alone(chords, np.concatenate([start, middle]), np.concatenate([middle, end]), limits).off
    return off[: len(start)], off[len(start) :]


def _merged(chords: Chords, start: Ints, end: Ints, limits: Limits, failed: Ints) -> tuple[Ints, Ints]:
    """The pieces without the partings that are not needed after all; what failed as one is not tried again."""
    for turn in range(8):
        pair = np.flatnonzero((end[:-1] == start[1:]) & ~chords.node[start[1:]])
        pair = pair[pair % 2 == turn % 2]
        pair = pair[~_hopeless(chords, start[pair], end[pair + 1])]
        key = start[pair] * len(chords.z) + end[pair + 1]
        fresh = ~np.isin(key, failed)
        pair, key = pair[fresh], key[fresh]
        if not pair.size:
            continue
        good = _good(chords, start[pair], end[pair + 1], limits)
        failed = np.concatenate([failed, key[~good]])
        joined = pair[good]
        end[joined] = end[joined + 1]
        keep = np.ones(len(start), dtype=bool)
        keep[joined + 1] = False
        start, end = start[keep], end[keep]
    return start, end
