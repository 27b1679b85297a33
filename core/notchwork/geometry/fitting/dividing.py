"""Into how few cubics a stretch between two nodes is divided, and where."""

from __future__ import annotations

import numpy as np

from notchwork.geometry.cubics import Bools, Floats, Ints
from notchwork.geometry.fitting.chords import Chords
from notchwork.geometry.fitting.joint import Beads, Fit, Pieces, at, fit

SEARCHED = 48
"""While places are searched, as many vertices of a piece are looked at."""
NO_RING = np.zeros(0, dtype=np.intp)


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


def alone(chords: Chords, start: Ints, end: Ints) -> Pieces:
    """Pieces that share no tangents: those at their ends are free but beside a straight line."""
    count = len(start)
    held = np.empty(2 * count, dtype=bool)
    held[::2], held[1::2] = chords.hold_leave[start], chords.hold_arrive[end]
    return Pieces(
        chords.z[start],
        chords.z[end],
        chords.along[end] - chords.along[start],
        2 * np.arange(count),
        np.arange(count),
        held,
        NO_RING,
        NO_RING,
    )


def errors(chords: Chords, start: Ints, end: Ints, off: float) -> tuple[Floats, Fit]:
    """How far (mm) one cubic for each piece lies beside the vertices; infinite where it leaves its chords."""
    string = beads(chords, start, end, SEARCHED)
    angles = np.empty(2 * len(start))
    angles[::2], angles[1::2] = chords.leave[start], chords.arrive[end]
    found = fit(alone(chords, start, end), string, angles)
    whole = end - start - 1 <= SEARCHED
    bad = ~sound(found, string, off) & whole
    return np.where(bad, np.inf, farthest(found, string, len(start))), found


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
    middle, _, _ = at(found.cubics, of, (low + high) / 2.0)
    chord = b - a
    size = np.abs(chord)
    aside = np.abs(((middle - a) * chord.conj()).imag) / size
    ahead = ((middle - a) * chord.conj()).real / size
    good = (high > low) & (aside <= 3.0 * off) & (ahead > 0.0) & (ahead < size)
    keeps = np.ones(count, dtype=bool)
    keeps[of[~good]] = False
    return keeps


def divided(chords: Chords, start: Ints, end: Ints, off: float, stray: float) -> tuple[Ints, Ints]:
    """Stretches as pieces, in order, each of which one cubic follows within stray (mm)."""
    done: list[tuple[Ints, Ints]] = []
    while start.size:
        off_by, _ = errors(chords, start, end, off)
        good = (off_by <= stray) | (end - start == 1)
        done.append((start[good], end[good]))
        start, end = start[~good], end[~good]
        middle = _between(chords, start, end, off)
        start, end = np.concatenate([start, middle]), np.concatenate([middle, end])
    if not done:
        return start, end
    start, end = (np.concatenate(column) for column in zip(*done, strict=True))
    order = np.argsort(start)
    return _merged(chords, start[order], end[order], off, stray)


def _between(chords: Chords, start: Ints, end: Ints, off: float) -> Ints:
    """Where each piece is parted: where both parts are equally well fitted; in the middle while they are long."""
    turned = (chords.turned[start] + chords.turned[end - 1]) / 2.0
    middle = np.searchsorted(chords.turned, turned)
    middle = np.clip(middle, start + 1, end - 1)
    rich = chords.turned[end - 1] - chords.turned[start] > 2.0 * np.pi
    rich |= end - start > 2000
    far = end - start
    # A middle by turning may lie at the very end, where one vertex turns most.
    middle = np.where((middle - start) * 8 < far, start + far // 2, middle)
    middle = np.where((end - middle) * 8 < far, start + far // 2, middle)
    fine = np.flatnonzero(~rich & (far > 2))
    if fine.size:
        middle[fine] = _balanced(chords, start[fine], end[fine], off)
    return middle


def _balanced(chords: Chords, start: Ints, end: Ints, off: float) -> Ints:
    low, high = start + 1, end - 1
    while (low < high).any():
        middle = (low + high) // 2
        before, after = _both(chords, start, middle, end, off)
        up = (after > before) | ((after == before) & (middle - start < end - middle))
        low, high = np.where(up & (low < high), middle + 1, low), np.where(up, high, middle)
    best, least = low, np.full(len(low), np.inf)
    for by in (0, -1, 1):
        tried = np.clip(low + by, start + 1, end - 1)
        worst = np.maximum(*_both(chords, start, tried, end, off))
        best, least = np.where(worst < least, tried, best), np.minimum(worst, least)
    return best


def _both(chords: Chords, start: Ints, middle: Ints, end: Ints, off: float) -> tuple[Floats, Floats]:
    off_by, _ = errors(chords, np.concatenate([start, middle]), np.concatenate([middle, end]), off)
    return off_by[: len(start)], off_by[len(start) :]


def _merged(chords: Chords, start: Ints, end: Ints, off: float, stray: float) -> tuple[Ints, Ints]:
    """The pieces without the partings that are not needed after all."""
    fresh = ~chords.node[end]
    for turn in range(6):
        pair = np.flatnonzero(fresh[:-1] & (end[:-1] == start[1:]))
        pair = pair[pair % 2 == turn % 2] if len(pair) > 1 else pair
        if not pair.size:
            continue
        off_by, _ = errors(chords, start[pair], end[pair + 1], off)
        joined = pair[off_by <= stray]
        keep = np.ones(len(start), dtype=bool)
        keep[joined + 1] = False
        end[joined] = end[joined + 1]
        fresh[joined] = fresh[joined + 1]
        start, end, fresh = start[keep], end[keep], fresh[keep]
    return start, end
