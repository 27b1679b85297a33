"""Points of an edge, the direction off the cloth there, and the angle at which words beside it can be read."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from notchwork.drawing import Facts
from notchwork.sewing import GradedPiece, Line, Nest

Complexes = NDArray[np.complex128]


def facts_of_size(nest: Nest, size: int) -> Facts:
    """Which size a part holds for, where there are several."""
    name = nest.sizes[size]
    return {} if name is None else {"size": name}


def places_on(
    nest: Nest, graded: GradedPiece, line: Line, arcs: Sequence[float], size: int, reach: float = 0.5
) -> tuple[Complexes, Complexes]:
    """Points (m,) of an edge at arc positions (mm) and unit vectors that point off the cloth there, square to what lies
    within reach (mm)."""
    arc = np.asarray(arcs, dtype=np.float64)
    around = np.clip(np.stack([arc - reach, arc, arc + reach]), 0.0, float(line.length[size]))
    before, at, after = nest.points(line, around.ravel(), size).reshape(around.shape)
    along = after - before
    far = np.abs(along)
    unit = np.divide(along, far, out=np.full_like(along, -graded.sense), where=far > 0)
    return at, -1j * graded.sense * unit


def place_on(
    nest: Nest, graded: GradedPiece, line: Line, arc: float, size: int, reach: float = 0.5
) -> tuple[complex, complex]:
    """The same for one place."""
    at, outward = places_on(nest, graded, line, [arc], size, reach)
    return complex(at[0]), complex(outward[0])


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
