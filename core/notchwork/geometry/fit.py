"""The direction in which an edge sets off, as the eye reads it: over a stretch, not at a point."""

from __future__ import annotations

import functools

import numpy as np

from notchwork.geometry.arctable import ArcTable
from notchwork.geometry.cubics import Complexes, Floats, Ints, points

REACH = 7.0
"""mm of the edge looked at. Common practice, no source: shorter reads a stray short handle, longer reads the curve."""
SAMPLES = 29


@functools.cache
def _slope() -> Floats:
    """Weights (SAMPLES,) that give the slope at 0 of the least-squares cubic through samples spread over [0, 1]."""
    s = np.linspace(0.0, 1.0, SAMPLES)
    weights: Floats = np.linalg.pinv(np.vander(s, 4, increasing=True))[1]
    return weights


def start_tangents_by_fit(table: ArcTable, first: Ints, last: Ints, reach: float = REACH) -> Complexes:
    """Unit tangents (m,) at the start of the edges that run from row first[k] up to, not including, row last[k].

    A cubic in arc length is fitted by least squares to the first reach mm of the edge, the whole edge if it is
    shorter, and its tangent at the start is taken. An edge without length has the tangent 0.
    """
    return _by_fit(table, first, last, reach, from_end=False)


def end_tangents_by_fit(table: ArcTable, first: Ints, last: Ints, reach: float = REACH) -> Complexes:
    """Unit tangents (m,) at the end of the same edges, in their own direction, by their last reach mm."""
    return -_by_fit(table, first, last, reach, from_end=True)


def _by_fit(table: ArcTable, first: Ints, last: Ints, reach: float, from_end: bool) -> Complexes:
    """The direction in which each edge sets off from its start, or back from its end."""
    first, last = np.asarray(first, dtype=np.intp), np.asarray(last, dtype=np.intp)
    running = np.concatenate([[0.0], np.cumsum(table.lengths)])
    far = np.minimum(reach, running[last] - running[first])
    base, step = (running[last], -far) if from_end else (running[first], far)
    distance = base[:, None] + step[:, None] * np.linspace(0.0, 1.0, SAMPLES)
    row = np.searchsorted(running, distance, side="right") - 1
    row = np.clip(row, first[:, None], last[:, None] - 1)
    t = table.parameters(row.ravel(), (distance - running[row]).ravel())
    slope = points(table.cubics, row.ravel(), t).reshape(distance.shape) @ _slope()
    size = np.abs(slope)
    unit: Complexes = np.divide(slope, size, out=np.zeros_like(slope), where=far > 1e-6)
    return unit


def start_tangent_by_fit(cubics: Complexes, reach: float = REACH) -> complex:
    """The unit tangent at the start of one edge (k, 4), as start_tangents_by_fit takes it."""
    return complex(start_tangents_by_fit(ArcTable(cubics), *_whole(cubics), reach)[0])


def end_tangent_by_fit(cubics: Complexes, reach: float = REACH) -> complex:
    """The unit tangent at the end of one edge (k, 4), in the edge's own direction."""
    return complex(end_tangents_by_fit(ArcTable(cubics), *_whole(cubics), reach)[0])


def _whole(cubics: Complexes) -> tuple[Ints, Ints]:
    return np.array([0]), np.array([len(cubics)])
