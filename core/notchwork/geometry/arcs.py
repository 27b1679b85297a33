"""Arcs of circles as cubics; every other arc and ellipse is one of them moved, turned and stretched."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from notchwork.geometry.cubics import Complexes, Ints

CLOSE = 2e-4
"""mm by which a cubic may lie beside the arc it stands for; lengths then differ by about as little."""

_ERROR_OF_QUARTER = 2.73e-4
"""Greatest radial error of the usual cubic for a quarter of a unit circle; it falls with the sixth power of the angle."""

_MOST_PARTS = 64


def unit_arcs(angles: ArrayLike, radii: ArrayLike) -> tuple[Complexes, Ints]:
    """Arcs of the unit circle, all of them starting at 1, as cubics (n, 4) one after the other, and how many each has.

    ``angles`` (m,) in radians say how far each runs, counter-clockwise; ``radii`` (m,) how large it will be in mm, so that
    its cubics lie close enough then.
    """
    angle = np.atleast_1d(np.asarray(angles, dtype=np.float64))
    radius = np.broadcast_to(np.asarray(radii, dtype=np.float64), angle.shape)
    with np.errstate(all="ignore"):
        finer = np.maximum(1.0, radius * _ERROR_OF_QUARTER / CLOSE) ** (1 / 6)
        wanted = np.abs(angle) / (np.pi / 2) * finer
    # What is no number counts as too large.
    wanted = np.where(wanted < _MOST_PARTS, wanted, _MOST_PARTS)
    count = np.maximum(1, np.ceil(wanted - 1e-9)).astype(np.intp)
    step = angle / count
    handle = np.repeat(1j * 4 / 3 * np.tan(step / 4), count)
    number = np.arange(count.sum()) - np.repeat(np.cumsum(count) - count, count)
    step = np.repeat(step, count)
    here, there = np.exp(1j * step * number), np.exp(1j * step * (number + 1))
    return np.stack([here, here * (1 + handle), there * (1 - handle), there], axis=1), count
