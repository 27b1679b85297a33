"""Polylines become the smooth curves on which their vertices lie."""

from __future__ import annotations

import numpy as np

from notchwork.geometry import flatten
from notchwork.geometry.fitting import fitted

ARMHOLE = np.array(
    [
        [0, 30 - 5j, 60 - 60j, 80 - 150j],
        [80 - 150j, 94 - 213j, 60 - 260j, -20 - 270j],
    ]
)


def test_an_armhole_of_two_cubics_comes_back_as_they_were() -> None:
    flat = flatten(ARMHOLE, 0.05)
    [found] = fitted([flat.points], [False], nodes=[[int(np.searchsorted(flat.rows, 1))]])
    assert np.abs(found.cubics - ARMHOLE).max() < 0.001
    assert found.off < 1e-6
