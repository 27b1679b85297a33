"""Moves of the plane that keep shapes: reflections, and turns with a change of size."""

from __future__ import annotations

from typing import overload

import numpy as np

from notchwork.geometry.cubics import Complexes


@overload
def mirror(z: complex, a: complex, b: complex) -> complex: ...
@overload
def mirror(z: Complexes, a: complex, b: complex) -> Complexes: ...
def mirror(z: complex | Complexes, a: complex, b: complex) -> complex | Complexes:
    """The points z (any shape, mm) reflected across the line through a and b; ValueError if a is b."""
    if a == b:
        raise ValueError("a line to mirror across needs two different points")
    turn = (b - a) / (b - a).conjugate()
    return a + turn * np.conj(z - a)


def turn_and_scale(a0: complex, b0: complex, a1: complex, b1: complex) -> tuple[complex, complex]:
    """The turn, change of size and shift that carries a0 to a1 and b0 to b1: (m, c), with z -> m z + c.

    Raises ValueError if a0 and b0 are one point.
    """
    if a0 == b0:
        raise ValueError("a turn and scale needs two different points to start from")
    m = (b1 - a1) / (b0 - a0)
    return m, a1 - m * a0
