"""Which of many straight chords come near each other, without asking every pair."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from notchwork.geometry.cubics import Bools, Complexes, Floats, Ints


class Near(NamedTuple):
    """Pairs (m,) of chords, the earlier one a, and where along each (0 to 1) they come nearest."""

    a: Ints
    b: Ints
    along_a: Floats
    along_b: Floats


def _boxes_meet(start: Complexes, end: Complexes, reach: float) -> tuple[Ints, Ints]:
    """Pairs whose upright boxes come within reach: sorted by their left ends, each asks those to its right."""
    left, right = np.minimum(start.real, end.real), np.maximum(start.real, end.real) + reach
    low, high = np.minimum(start.imag, end.imag), np.maximum(start.imag, end.imag) + reach
    order = np.argsort(left, kind="stable")
    stop = np.searchsorted(left[order], right[order], side="right")
    count = stop - np.arange(1, len(order) + 1)
    first = np.repeat(np.arange(len(order)), count)
    second = first + 1 + np.arange(len(first)) - (np.cumsum(count) - count)[first]
    i, j = order[first], order[second]
    keep = (low[i] <= high[j]) & (low[j] <= high[i])
    i, j = i[keep], j[keep]
    return np.minimum(i, j), np.maximum(i, j)


def _along(z: Complexes, start: Complexes, chord: Complexes) -> Floats:
    square = np.abs(chord) ** 2
    share = np.divide(
        ((z - start) * chord.conj()).real, square, out=np.zeros_like(square), where=square > 0.0
    )
    result: Floats = np.clip(share, 0.0, 1.0)
    return result


def near_chords(start: Complexes, end: Complexes, split: int, reach: float) -> Near:
    """The pairs of chords that cross or come within reach (mm) of each other.

    Of the chords, the first split ones are asked against the others; with a split of 0, each against all after it but
    the very next one, with which it shares a node.
    """
    i, j = _boxes_meet(start, end, reach)
    wanted = (i < split) & (j >= split) if split else j > i + 1
    i, j = i[wanted], j[wanted]
    p, q, u, v = start[i], start[j], end[i] - start[i], end[j] - start[j]
    det = (u.conj() * v).imag
    offset = q - p
    with np.errstate(divide="ignore", invalid="ignore"):
        s, t = (offset.conj() * v).imag / det, (offset.conj() * u).imag / det
        crossing: Bools = (s >= 0.0) & (s <= 1.0) & (t >= 0.0) & (t <= 1.0)
    # Two chords that do not cross come nearest at an end of one of them.
    zero, one = np.zeros(len(i)), np.ones(len(i))
    on_a = np.stack([zero, one, _along(q, p, u), _along(q + v, p, u)])
    on_b = np.stack([_along(p, q, v), _along(p + u, q, v), zero, one])
    gap = np.abs(p + on_a * u - q - on_b * v)
    best, every = gap.argmin(axis=0), np.arange(len(i))
    s, t = np.where(crossing, s, on_a[best, every]), np.where(crossing, t, on_b[best, every])
    keep = crossing | (gap[best, every] <= reach)
    return Near(i[keep], j[keep], s[keep], t[keep])
