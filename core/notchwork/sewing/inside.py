"""Whether a point lies on the cloth of a piece, and how far from its stitch line."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from notchwork.geometry import flatten, nearest
from notchwork.sewing.grading import Complex
from notchwork.sewing.lines import Floats


def outside_by(outline: Complex, z: Complex) -> Floats:
    """How far (mm) points (m,) lie outside a closed outline (k, 4); negative inside it."""
    distance = nearest(outline, z).distance
    return np.where(_winds_round(outline, z), -distance, distance)


def _winds_round(outline: Complex, z: Complex) -> NDArray[np.bool_]:
    """Which points the outline winds round: the turns of the line of sight to it add up to whole ones."""
    ring = flatten(outline, 0.02).points
    sight = ring[None, :] - np.asarray(z)[:, None]
    turns = np.angle(sight[:, 1:] * np.conj(sight[:, :-1])).sum(axis=1)
    return np.abs(turns) > np.pi
