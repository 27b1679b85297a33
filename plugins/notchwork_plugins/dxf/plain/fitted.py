"""The curve through points that a SPLINE passes, where a file gives these alone.

The DXF Reference does not lay down how the curve runs between them. It is taken as the cubic spline over the chords, which is
what general CAD draws by default (from memory; common practice, no source): it sets off in the stated directions, as fast as
the chords are long, and is straightened out at ends without one.
"""

from __future__ import annotations

import numpy as np

from notchwork.geometry.cubics import Complexes, Floats


def through(points: Complexes, start: complex | None, end: complex | None, closed: bool) -> Complexes:
    """The cubics through points (n,); ``start`` and ``end`` are the directions there, None where they are free.

    Points that repeat the one before are left out; a single one gives no curve at all.
    """
    keep = np.append(True, points[1:] != points[:-1])
    points = points[keep]
    if closed and len(points) > 1 and points[0] != points[-1]:
        points = np.append(points, points[0])
    if len(points) < 2:
        return np.empty((0, 4), np.complex128)
    chord = np.abs(np.diff(points))
    slopes = _slopes(points, chord, start, end, closed and len(points) > 3)
    step = chord / 3
    here, there = points[:-1], points[1:]
    return np.stack([here, here + step * slopes[:-1], there - step * slopes[1:], there], axis=1)


def _slopes(
    points: Complexes, chord: Floats, start: complex | None, end: complex | None, ring: bool
) -> Complexes:
    """The derivative (n,) by chord length at each point, so that the second one is continuous."""
    n = len(points)
    slope = np.diff(points) / chord
    matrix = np.zeros((3, n))
    right = np.zeros(n, np.complex128)
    before, after = chord[:-1], chord[1:]
    matrix[0, 1:-1], matrix[1, 1:-1], matrix[2, 1:-1] = after, 2 * (before + after), before
    right[1:-1] = 3 * (after * slope[:-1] + before * slope[1:])
    if ring:
        return _around(chord, slope)
    for row, direction, nearest, place in ((0, start, slope[0], 2), (n - 1, end, slope[-1], 0)):
        if direction:
            matrix[1, row], right[row] = 1.0, direction / abs(direction)
        else:
            matrix[1, row], matrix[place, row], right[row] = 2.0, 1.0, 3 * nearest
    return _solved(matrix, right)


def _around(chord: Floats, slope: Complexes) -> Complexes:
    """The same of a closed curve: its first point is its last."""
    n = len(slope)
    before = np.roll(chord, 1)
    matrix = np.stack([chord, 2 * (before + chord), before])
    right = 3 * (chord * np.roll(slope, 1) + before * slope)
    # The two corners of the cyclic matrix are taken off and put back as a change of rank one (Sherman and Morrison).
    gamma = -matrix[1, 0]
    low, high = matrix[2, -1], matrix[0, 0]
    matrix[1, 0] -= gamma
    matrix[1, -1] -= low * high / gamma
    change = np.zeros(n, np.complex128)
    change[0], change[-1] = gamma, low
    y, z = _solved(matrix, right), _solved(matrix, change)
    share = (y[0] + high / gamma * y[-1]) / (1 + z[0] + high / gamma * z[-1])
    ring = y - share * z
    return np.append(ring, ring[0])


def _solved(matrix: Floats, right: Complexes) -> Complexes:
    """The solution (n,) of a tridiagonal system with the diagonals below, on and above as rows of (3, n) (Thomas)."""
    below, on, above = matrix.tolist()
    value = right.tolist()
    for k in range(1, len(on)):
        share = below[k] / on[k - 1]
        on[k] -= share * above[k - 1]
        value[k] -= share * value[k - 1]
    value[-1] /= on[-1]
    for k in range(len(on) - 2, -1, -1):
        value[k] = (value[k] - above[k] * value[k + 1]) / on[k]
    return np.array(value)
