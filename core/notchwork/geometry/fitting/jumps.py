"""Where curvature jumps along vertices, though the tangent does not break: there one cubic ends and another begins."""

from __future__ import annotations

import numpy as np

from notchwork.geometry.cubics import Complexes, Floats

REACH = 3
"""From so many vertices on either side a jump is told; it shows at as many on either side."""


def jumps(z: Complexes) -> Floats:
    """By how much (mm) the bulge of the shorter chord beside each vertex changes there, as vertices on either side let expect."""
    found = np.zeros(len(z))
    if len(z) <= 2 * REACH:
        return found
    step = np.diff(z)
    size = np.maximum(np.abs(step), 1e-12)
    bend = 2.0 * np.angle(step[1:] * step[:-1].conj()) / (size[1:] + size[:-1])
    # bend[k] is that at vertex k + 1; from two of them on either side, on to the vertex between.
    v = np.arange(REACH, len(z) - REACH)
    before = bend[v - 2] + (bend[v - 2] - bend[v - 3]) * size[v - 1] / size[v - 2]
    after = bend[v] + (bend[v] - bend[v + 1]) * size[v] / size[v + 1]
    found[v] = np.abs(after - before) * np.minimum(size[v - 1], size[v]) ** 2 / 8.0
    return found
