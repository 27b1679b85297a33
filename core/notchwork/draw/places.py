"""Points of an edge, the direction off the cloth there, and the angle at which words beside it can be read."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from notchwork.geometry import parameters_at, points
from notchwork.sewing import GradedPiece, Line, Nest

Complexes = NDArray[np.complex128]


def points_on(nest: Nest, line: Line, arcs: Sequence[float], size: int) -> Complexes:
    """The points (m,) at arc positions (mm) of a drawn line in one size, all at once."""
    assert line.rows is not None
    rows = line.rows[size]
    ends = np.cumsum(nest.arc[rows])
    at = np.searchsorted(ends, arcs, side="left").clip(0, len(ends) - 1)
    t = parameters_at(nest.cubics[rows], at, np.asarray(arcs) - (ends - nest.arc[rows])[at])
    return points(nest.cubics[rows], at, t)


def place_on(
    nest: Nest, graded: GradedPiece, line: Line, arc: float, size: int, reach: float = 0.5
) -> tuple[complex, complex]:
    """A point of an edge and the unit vector that points off the cloth there, square to what lies within reach (mm)."""
    arcs = np.clip([arc - reach, arc, arc + reach], 0.0, float(line.length[size]))
    before, at, after = points_on(nest, line, arcs.tolist(), size)
    along = after - before
    outward = -1j * graded.sense * along / abs(along) if along != 0 else 1j
    return complex(at), complex(outward)


def reading_angle(outward: complex) -> float:
    """The angle (degrees) of words along an edge that can be read from below or from the right."""
    along = outward * 1j
    if along.real < -1e-6 or (abs(along.real) <= 1e-6 and along.imag < 0):
        along = -along
    return float(np.degrees(np.angle(along)))


def inner_base(at: complex, outward: complex, height: float, gap: float) -> complex:
    """Where the base line of words of that height (mm) lies so that they stay gap (mm) inside an edge."""
    up = 1j * np.exp(1j * np.radians(reading_angle(outward)))
    # Letters whose tops point into the piece stand on the edge; others hang below it.
    hangs = (up * np.conj(outward)).real > 0
    return complex(at - (gap + (0.75 * height if hangs else 0.0)) * outward)
