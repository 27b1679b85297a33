"""Whether a point lies on the cloth of a piece, and how far from its stitch line."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from notchwork.geometry import flatten, nearest, windings
from notchwork.sewing.pieces.grading import Complex
from notchwork.sewing.pieces.lines import Floats


def outside_by(outline: Complex, z: Complex) -> Floats:
    """How far (mm) points (m,) lie outside a closed outline (k, 4); 0 on and inside it."""
    far = np.zeros(len(z))
    outside = np.flatnonzero(winding([outline], z) < 0.5)
    if outside.size:
        far[outside] = nearest(outline, z[outside]).distance
    return far


def winding(rings: Sequence[Complex], z: Complex) -> Floats:
    """How many times closed runs (k, 4) wind round points (m,), whichever way: 0 off the cloth, 2 where it lies double.

    A hole that runs against its outer ring takes one away.
    """
    total = np.zeros(len(z))
    for ring in rings:
        total += windings(flatten(ring, 0.02).points, z)
    return np.abs(total)
