"""How far apart two lines run, edge by edge."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from notchwork.geometry import flatten, lengths, nearest, tangents
from notchwork.recognise.shape import Complexes, Contour

SAMPLES = 17
FINE = 0.001
"""mm: places on an edge are that near to it."""
MARGIN = 0.03
"""The share of an edge left out at either end."""
SHARPEST = 0.5
"""The sine of the flattest turn that is reckoned with: edges may run on smoothly, too."""

Floats = NDArray[np.float64]


class Width(NamedTuple):
    """The distance (mm) of one edge from another line: in the middle of what was measured, and how much it varies."""

    middle: float
    varies: float


def widths_between(inner: Contour, outer: Complexes) -> tuple[Width, ...]:
    """How far each edge of a contour lies from another line (k, 4).

    Within a width of a corner, its own or that of the next edge, the line is nearer to something else: left out. At a corner
    that is not square that reaches further, at a turn of t by 1 / sin(t).
    """
    edges = [inner.edge(k) for k in range(len(inner.corners))]
    far = nearest(outer, np.concatenate([samples(edge) for edge in edges])).distance.reshape(-1, SAMPLES)
    at = np.linspace(MARGIN, 1.0 - MARGIN, SAMPLES)
    length = np.array([max(float(lengths(edge).sum()), 1e-9) for edge in edges])
    usual = np.median(far, axis=1)
    reach = 1.0 / np.maximum(np.abs(np.sin(_turns(edges))), SHARPEST)
    before = reach * np.maximum(usual, np.roll(usual, 1)) / length
    after = np.roll(reach, -1) * np.maximum(usual, np.roll(usual, -1)) / length
    found: list[Width] = []
    for k, row in enumerate(far):
        clear = row[(at >= before[k]) & (at <= 1.0 - after[k])]
        if not len(clear):
            clear = row[SAMPLES // 2 : SAMPLES // 2 + 1]
        found.append(Width(float((clear.min() + clear.max()) / 2), float(clear.max() - clear.min())))
    return tuple(found)


def _turns(edges: Sequence[Complexes]) -> Floats:
    """By how much (radians) a contour turns where each of its edges begins."""
    first, last = np.array([edge[0] for edge in edges]), np.array([edge[-1] for edge in edges])
    rows = np.arange(len(edges))
    leaving, arriving = tangents(first, rows, np.zeros(len(rows))), tangents(last, rows, np.ones(len(rows)))
    return np.asarray(np.angle(leaving * np.roll(arriving, 1).conj()))


def samples(edge: Complexes) -> Complexes:
    """Points (SAMPLES,) spread evenly along an edge, its ends left out."""
    return spread(edge, np.linspace(MARGIN, 1.0 - MARGIN, SAMPLES))


def spread(run: Complexes, shares: Floats) -> Complexes:
    """The points at shares (m,) of a run's length, within FINE of the run."""
    corners = flatten(run, FINE).points
    along = np.concatenate([[0.0], np.cumsum(np.abs(np.diff(corners)))])
    asked = along[-1] * shares
    return np.asarray(np.interp(asked, along, corners.real) + 1j * np.interp(asked, along, corners.imag))
