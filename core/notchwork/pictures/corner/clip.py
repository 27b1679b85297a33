"""What of a line or an area lies within a box."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

Complexes = NDArray[np.complex128]


class Box(NamedTuple):
    """An upright box: from ``low`` to ``high``, the corners with the smallest and largest x and y."""

    low: complex
    high: complex


def area_within(polygon: Complexes, box: Box) -> Complexes:
    """The part of a polygon (m,) within a box, as one polygon; empty where there is none.

    Cut off side by side (I. Sutherland and G. Hodgman, Reentrant Polygon Clipping, Communications of the ACM 17, 1974).
    """
    found = polygon
    for turn, limit in _sides(box):
        if not len(found):
            break
        depth = limit - (found * turn).real
        found = np.array(
            [z for k in range(len(found)) for z in _kept(found[k - 1], found[k], depth[k - 1], depth[k])],
            dtype=complex,
        )
    return found


def line_within(points: Complexes, box: Box) -> Complexes:
    """A line (m,) from its first point to where it first leaves the box; empty where it begins outside."""
    outside = np.flatnonzero(
        np.max([(points * turn).real - limit for turn, limit in _sides(box)], axis=0) > 0.0
    )
    if not len(outside):
        return points
    k = int(outside[0])
    if not k:
        return points[:0]
    a, b = points[k - 1], points[k]
    shares = [
        (limit - (a * turn).real) / ((b - a) * turn).real
        for turn, limit in _sides(box)
        if (b * turn).real > limit
    ]
    return np.append(points[:k], a + min(shares) * (b - a))


def _sides(box: Box) -> list[tuple[complex, float]]:
    """For each side a turn after which the box lies left of an upright line, and where that stands."""
    return [(1 + 0j, box.high.real), (-1 + 0j, -box.low.real), (-1j, box.high.imag), (1j, -box.low.imag)]


def _kept(a: complex, b: complex, from_a: float, from_b: float) -> list[complex]:
    """What of the way from a to b is kept: where it comes in, or goes out, and b."""
    inside = [b] if from_b >= 0.0 else []
    if (from_a >= 0.0) == (from_b >= 0.0):
        return inside
    return [a + from_a / (from_a - from_b) * (b - a), *inside]
