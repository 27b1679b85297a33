"""Which points lie inside a closed line."""

from __future__ import annotations

import numpy as np

from notchwork.geometry.cubics import Bools, Complexes

AT_ONCE = 1_000_000


def inside(ring: Complexes, z: Complexes) -> Bools:
    """Whether points (m,) lie inside a closed polyline (k,), by how often it winds round them.

    The last point is joined to the first. Points on the line itself may be told either way.
    """
    found = np.zeros(len(z), dtype=bool)
    ahead = np.roll(ring, -1)
    step = max(1, AT_ONCE // max(1, len(ring)))
    for k in range(0, len(z), step):
        some = z[k : k + step, None]
        up = (ring.imag <= some.imag) & (ahead.imag > some.imag)
        down = (ring.imag > some.imag) & (ahead.imag <= some.imag)
        side = ((ahead - ring).conj() * (some - ring)).imag
        found[k : k + step] = ((up & (side > 0.0)).sum(axis=1) - (down & (side < 0.0)).sum(axis=1)) != 0
    return found
