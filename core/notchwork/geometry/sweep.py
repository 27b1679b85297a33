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

    def only(self, which: Ints) -> Near:
        return Near(self.a[which], self.b[which], self.along_a[which], self.along_b[which])


AT_ONCE = 500_000
"""Pairs of boxes looked at together."""


def near_chords(
    start: Complexes, end: Complexes, split: int, reach: float, lines: Ints | None = None, few: int = 0
) -> tuple[Near, Ints]:
    """The pairs of chords that cross or come within reach (mm) of each other.

    Of the chords, the first split ones are asked against the others; with a split of 0, each against all after it but
    the very next one, with which it shares a node. ``lines`` (chords,) numbers the lines that chords belong to: once a
    line has ``few`` pairs, no more are sought on it. The second result are the lines on which that was so.
    """
    left, right = np.minimum(start.real, end.real), np.maximum(start.real, end.real) + reach
    low, high = np.minimum(start.imag, end.imag), np.maximum(start.imag, end.imag) + reach
    order = np.argsort(left, kind="stable")
    # Sorted by their left ends, each box asks those to its right that begin before it ends.
    count = np.searchsorted(left[order], right[order], side="right") - np.arange(1, len(order) + 1)
    line = np.zeros(len(order), dtype=np.intp) if lines is None else lines
    told = np.zeros(int(line.max(initial=0)) + 1, dtype=np.intp)
    found = []
    for block in _blocks(count):
        asking = block[told[line[order[block]]] < few] if few else block
        i, j = _to_the_right(asking, count[asking], order)
        i, j = np.minimum(i, j), np.maximum(i, j)
        wanted = (i < split) & (j >= split) if split else j > i + 1
        wanted &= (low[i] <= high[j]) & (low[j] <= high[i])
        near = _near(start, end, i[wanted], j[wanted], reach)
        if few:
            near = near.only(_of_each(line[near.a], few))
            told += np.bincount(line[near.a], minlength=len(told))
        found.append(near)
    near = Near(*(np.concatenate(column) for column in zip(*found, strict=True)))
    return near, np.flatnonzero(told >= few) if few else np.zeros(0, dtype=np.intp)


def _blocks(count: Ints) -> list[Ints]:
    """The boxes from left to right in blocks that have not many more than AT_ONCE pairs each."""
    whole = np.cumsum(count) // AT_ONCE
    return np.split(np.arange(len(count)), np.flatnonzero(np.diff(whole)) + 1)


def _of_each(line: Ints, few: int) -> Ints:
    """The first few places of each value."""
    order = np.argsort(line, kind="stable")
    values, first = np.unique(line[order], return_index=True)
    rank = np.arange(len(line)) - first[np.searchsorted(values, line[order])]
    return order[rank < few]


def _to_the_right(asking: Ints, count: Ints, order: Ints) -> tuple[Ints, Ints]:
    """Each box that asks with each of the next ``count`` to its right."""
    first = np.repeat(asking, count)
    second = first + 1 + np.arange(len(first)) - np.repeat(np.cumsum(count) - count, count)
    return order[first], order[second]


def _near(start: Complexes, end: Complexes, i: Ints, j: Ints, reach: float) -> Near:
    """Those of the pairs that are near."""
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


def _along(z: Complexes, start: Complexes, chord: Complexes) -> Floats:
    square = np.abs(chord) ** 2
    share = np.divide(
        ((z - start) * chord.conj()).real, square, out=np.zeros_like(square), where=square > 0.0
    )
    result: Floats = np.clip(share, 0.0, 1.0)
    return result
