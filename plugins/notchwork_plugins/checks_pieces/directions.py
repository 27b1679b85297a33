"""Directions of straight edges and grainlines, and the angle between them."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from notchwork.sewing import Line, Nest


def chord(nest: Nest, line: Line) -> NDArray[np.complex128]:
    """From where a line begins to where it ends (mm, sizes); NaN where it does not exist."""
    found = np.full(len(nest.sizes), complex(np.nan, np.nan))
    for size in range(len(nest.sizes)):
        cubics = nest.cubics_of(line, size)
        if len(cubics):
            found[size] = cubics[-1, 3] - cubics[0, 0]
    return found


def between(a: NDArray[np.complex128], b: NDArray[np.complex128]) -> NDArray[np.float64]:
    """The angle (degrees, 0 to 90) between two lines of which it does not matter which way they run; NaN where unknown."""
    product = a * np.conj(b)
    product = np.where(product == 0, np.nan, product)
    return np.degrees(np.arctan2(np.abs(product.imag), np.abs(product.real)))
