"""Which cells of a fine raster closed lines cover."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from notchwork.geometry.cubics import Bools, Complexes, Floats, Ints

SLIVER = 1e-5
"""Cells that are covered by less than this share of their side are not covered: rounding must not cost a cell."""


def covered(rings: Sequence[Complexes], low: complex, size: complex, cell: complex) -> Bools:
    """Every cell (rows, columns) that the area inside some of the rings reaches into.

    ``low`` is the lower left corner of cell (0, 0), ``cell`` a cell's width and height, and ``size`` what they cover together; what
    lies beyond it is left out. A cell is told rather too often than not: only what is thinner than SLIVER is missed.
    """
    rows, columns = count(size.imag, cell.imag), count(size.real, cell.real)
    steps = np.zeros((rows, columns + 1), dtype=np.int32)
    for ring in rings:
        z = (ring.real - low.real) / cell.real + 1j * (ring.imag - low.imag) / cell.imag
        for row, left, right in (_rim(z), _inner(z)):
            first = np.clip(np.floor(left + SLIVER), 0, columns).astype(np.intp)
            last = np.clip(np.ceil(right - SLIVER), first, columns).astype(np.intp)
            there = (row >= 0) & (row < rows) & (last > first)
            np.add.at(steps, (row[there], first[there]), 1)
            np.add.at(steps, (row[there], last[there]), -1)
    found: Bools = np.cumsum(steps[:, :-1], axis=1) > 0
    return found


def count(length: float, step: float) -> int:
    """How many steps a length takes, at least one; a sliver takes none."""
    return max(1, math.ceil(length / step - 2 * SLIVER))


def _rim(z: Complexes) -> tuple[Ints, Floats, Floats]:
    """Row by row from where to where each side of a ring reaches."""
    start, end = z, np.roll(z, -1)
    down = start.imag > end.imag
    lower, upper = np.where(down, end, start), np.where(down, start, end)
    first = np.floor(lower.imag + SLIVER).astype(np.intp)
    passed = np.maximum(np.ceil(upper.imag - SLIVER).astype(np.intp) - first, 0)
    side = np.repeat(np.arange(len(z)), passed)
    row = first[side] + np.arange(len(side)) - np.repeat(np.cumsum(passed) - passed, passed)
    a, b = lower[side], upper[side]
    rise = b.imag - a.imag
    flat = rise <= 0.0
    slope = (b.real - a.real) / np.where(flat, 1.0, rise)
    ends = [a.real + slope * (np.clip(edge, a.imag, b.imag) - a.imag) for edge in (row, row + 1)]
    ends[1][flat] = b.real[flat]
    return row, np.minimum(*ends), np.maximum(*ends)


def _inner(z: Complexes) -> tuple[Ints, Floats, Floats]:
    """From where to where the middle of each row lies inside a ring."""
    start, end = z, np.roll(z, -1)
    low, high = np.minimum(start.imag, end.imag), np.maximum(start.imag, end.imag)
    first = np.ceil(low - 0.5).astype(np.intp)
    passed = np.ceil(high - 0.5).astype(np.intp) - first
    side = np.repeat(np.arange(len(z)), passed)
    row = first[side] + np.arange(len(side)) - np.repeat(np.cumsum(passed) - passed, passed)
    a, b = start[side], end[side]
    x = a.real + (b.real - a.real) * (row + 0.5 - a.imag) / (b.imag - a.imag)
    order = np.lexsort((x, row))
    return row[order][::2], x[order][::2], x[order][1::2]
