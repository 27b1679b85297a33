"""How often a closed line winds round points, and which of them lie inside it."""

from __future__ import annotations

import numpy as np

from notchwork.geometry.cubics import Bools, Complexes, Ints

AT_ONCE = 1_000_000


def inside(ring: Complexes, z: Complexes) -> Bools:
    """Whether points (m,) lie inside a closed polyline (k,), by how often it winds round them.

    The last point is joined to the first. Points on the line itself may be told either way.
    """
    found: Bools = windings(ring, z) != 0
    return found


def windings(ring: Complexes, z: Complexes) -> Ints:
    """How often a closed polyline (k,) winds round points (m,), counter-clockwise above 0.

    The last point is joined to the first. Points on the line itself may be told either way. The work grows with the pairs
    of a point and a chord that stand at one height.
    """
    z = np.asarray(z, dtype=np.complex128)
    start, end = np.asarray(ring, dtype=np.complex128), np.roll(ring, -1)
    order = np.argsort(z.imag, kind="stable")
    height = z.imag[order]
    first = np.searchsorted(height, np.minimum(start.imag, end.imag), side="left")
    count = np.searchsorted(height, np.maximum(start.imag, end.imag), side="left") - first
    found = np.zeros(len(z), dtype=np.intp)
    block = np.cumsum(count) // AT_ONCE
    for some in np.split(np.arange(len(start)), np.flatnonzero(np.diff(block)) + 1):
        chord = np.repeat(some, count[some])
        step = np.arange(len(chord)) - np.repeat(np.cumsum(count[some]) - count[some], count[some])
        point = order[first[chord] + step]
        side = ((end[chord] - start[chord]).conj() * (z[point] - start[chord])).imag
        up = end[chord].imag > start[chord].imag
        found += np.bincount(point[up & (side > 0.0)], minlength=len(z))
        found -= np.bincount(point[~up & (side < 0.0)], minlength=len(z))
    return found
