"""How far apart two lines run, edge by edge."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from notchwork.geometry import ArcTable, nearest, points
from notchwork.recognise.shape import Complexes, Contour

SAMPLES = 13
MARGIN = 0.05
"""The share of an edge left out at either end, where another edge may be nearer."""


class Width(NamedTuple):
    """The distance (mm) of one edge from another line: in the middle of what was measured, and how much it varies."""

    middle: float
    varies: float


def widths_between(inner: Contour, outer: Complexes) -> tuple[Width, ...]:
    """How far each edge of a contour lies from another line (k, 4)."""
    asked = np.concatenate([samples(inner.edge(k)) for k in range(len(inner.corners))])
    far = nearest(outer, asked).distance.reshape(-1, SAMPLES)
    return tuple(
        Width(float((low + high) / 2), float(high - low))
        for low, high in zip(far.min(axis=1), far.max(axis=1), strict=True)
    )


def samples(edge: Complexes) -> Complexes:
    """Points (SAMPLES,) spread evenly along an edge, its ends left out."""
    table = ArcTable(edge)
    running = np.concatenate([[0.0], np.cumsum(table.lengths)])
    asked = running[-1] * np.linspace(MARGIN, 1.0 - MARGIN, SAMPLES)
    row = np.clip(np.searchsorted(running, asked, side="right") - 1, 0, len(edge) - 1)
    return points(edge, row, table.parameters(row, asked - running[row]))
