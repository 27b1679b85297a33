"""Plain shapes as cubics."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from notchwork.geometry.cubics import Complexes


def lines(nodes: ArrayLike, *, closed: bool = False) -> Complexes:
    """The polyline through the nodes (m,) as straight cubics: m - 1 rows, or m if it is closed."""
    start = np.asarray(nodes, dtype=np.complex128)
    end = np.roll(start, -1)
    rows = np.stack([start, start, end, end], axis=1)
    return rows if closed else rows[:-1]


def circle(center: complex, radius: float, arcs: int = 24) -> Complexes:
    """A circle from its rightmost point, counter-clockwise, as equal arcs (arcs, 4).

    24 arcs are within 4e-9 of the radius, 4 within 3e-4; the handles are 4/3 tan(a/4) radii long for an arc of the
    angle a, so that its middle lies on the circle (from memory of L. Piegl and W. Tiller, The NURBS Book, 1997).
    """
    nodes = np.exp(2j * np.pi * np.arange(arcs + 1) / arcs)
    handle = 4j / 3.0 * np.tan(np.pi / (2.0 * arcs))
    start, end = nodes[:-1], nodes[1:]
    unit = np.stack([start, start + handle * start, end - handle * end, end], axis=1)
    return (center + radius * unit).astype(np.complex128)
