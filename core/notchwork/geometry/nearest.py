"""The nearest place on a run of cubics."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from notchwork.geometry.cubics import Complexes, Floats, Ints, points
from notchwork.geometry.measures import chords_needed

COARSE = 0.02
"""The polyline of the first look stays this close (mm) to the curves; its doubt is settled on the curves."""
AT_ONCE = 1_000_000
STEPS = 40
LOOKS = np.linspace(0.0, 1.0, 5)[:, None]


class Nearest(NamedTuple):
    """For each point asked (m,): the distance in mm, and the row and t of the nearest place."""

    distance: Floats
    row: Ints
    t: Floats


def nearest(cubics: Complexes, asked: Complexes) -> Nearest:
    """The nearest places on the cubics (n, 4) to the points asked (m,); ValueError without any cubic.

    The distance is right within 1e-9 mm; where several places are as near, one of them is named.
    """
    if len(cubics) == 0:
        raise ValueError("nothing is near nothing")
    asked = np.asarray(asked, dtype=np.complex128)
    count = chords_needed(cubics, COARSE)
    row = np.repeat(np.arange(len(cubics)), count)
    t0 = (np.arange(len(row)) - (np.cumsum(count) - count)[row]) / count[row]
    t1 = t0 + 1.0 / count[row]
    start, end = points(cubics, row, t0), points(cubics, row, t1)
    distance, best_row, best_t = (
        np.empty(len(asked)),
        np.empty(len(asked), dtype=np.intp),
        np.empty(len(asked)),
    )
    step = max(1, AT_ONCE // len(row))
    for k in range(0, len(asked), step):
        some = asked[k : k + step]
        far = to_chords(some, start, end)
        which, chord = np.nonzero(far <= far.min(axis=1, keepdims=True) + 2.0 * COARSE)
        found, t = refine(cubics, row[chord], t0[chord], t1[chord], some[which])
        # The first of each point's candidates, once they are sorted by distance, is its nearest.
        order = np.lexsort((found, which))
        first = order[np.searchsorted(which, np.arange(len(some)))]
        distance[k : k + step], best_row[k : k + step] = found[first], row[chord[first]]
        best_t[k : k + step] = t[first]
    return Nearest(distance, best_row, best_t)


def to_chords(asked: Complexes, start: Complexes, end: Complexes) -> Floats:
    """The distances (m, s) of points (m,) from straight lines (s,)."""
    chord = end - start
    square = np.abs(chord) ** 2
    offset = asked[:, None] - start
    along = np.divide((offset * chord.conj()).real, square, out=np.zeros(offset.shape), where=square > 0.0)
    result: Floats = np.abs(offset - np.clip(along, 0.0, 1.0) * chord)
    return result


def refine(cubics: Complexes, row: Ints, t0: Floats, t1: Floats, z: Complexes) -> tuple[Floats, Floats]:
    """The least distance of each z from its row between t0 and t1, and where it is."""
    p = cubics[row].T - z
    leave, cross, arrive = 3.0 * (p[1:] - p[:-1])
    square, cube = cross - leave, (leave - 2.0 * cross + arrive) / 3.0

    def gap_at(t: Floats) -> Complexes:
        gap: Complexes = ((cube * t + square) * t + leave) * t + p[0]
        return gap

    # Look at five places first: the slope of the distance may change its sign more than once between t0 and t1.
    look = t0 + (t1 - t0) * LOOKS
    seen = np.abs(gap_at(look))
    least, every = seen.argmin(axis=0), np.arange(len(row))
    low, high = look[np.maximum(least - 1, 0), every], look[np.minimum(least + 1, 4), every]
    t = look[least, every]
    best, best_t = seen[least, every], t
    gap = gap_at(t)
    for _ in range(STEPS):
        # In this form the speed is exactly zero at an end that has no handle.
        first = ((1.0 - t) * leave + 2.0 * t * cross) * (1.0 - t) + (t * t) * arrive
        half_second, back = 3.0 * cube * t + square, gap.conj()
        slope = (back * first).real
        bend = (first.conj() * first + 2.0 * back * half_second).real
        low, high = np.where(slope < 0.0, t, low), np.where(slope > 0.0, t, high)
        step = t - np.divide(slope, bend, out=np.full_like(slope, np.inf), where=bend > 0.0)
        new = np.where((step >= low) & (step <= high), step, (low + high) / 2.0)
        gap = gap_at(new)
        far = np.abs(gap)
        # Distances are flat at the foot: between equals the later step is the better place.
        better = far <= best + 1e-12
        best, best_t = np.where(better, far, best), np.where(better, new, best_t)
        if (np.abs(new - t) < 1e-14).all():
            break
        t = new
    return best, best_t
