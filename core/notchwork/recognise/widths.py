"""How far apart two lines run, edge by edge."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from notchwork.geometry import ArcTable, lengths, nearest, points
from notchwork.recognise.shape import Complexes, Contour

SAMPLES = 17
MARGIN = 0.03
"""The share of an edge left out at either end."""


class Width(NamedTuple):
    """The distance (mm) of one edge from another line: in the middle of what was measured, and how much it varies."""

    middle: float
    varies: float


def widths_between(inner: Contour, outer: Complexes) -> tuple[Width, ...]:
    """How far each edge of a contour lies from another line (k, 4).

    Within a width of a corner, its own or that of the next edge, the line is nearer to something else: left out.
    """
    edges = [inner.edge(k) for k in range(len(inner.corners))]
    far = nearest(outer, np.concatenate([samples(edge) for edge in edges])).distance.reshape(-1, SAMPLES)
    at = np.linspace(MARGIN, 1.0 - MARGIN, SAMPLES)
    length = np.array([max(float(lengths(edge).sum()), 1e-9) for edge in edges])
    usual = np.median(far, axis=1)
    before = np.maximum(usual, np.roll(usual, 1)) / length
    after = np.maximum(usual, np.roll(usual, -1)) / length
    found: list[Width] = []
    for k, row in enumerate(far):
        clear = row[(at >= before[k]) & (at <= 1.0 - after[k])]
        if not len(clear):
            clear = row[SAMPLES // 2 : SAMPLES // 2 + 1]
        found.append(Width(float((clear.min() + clear.max()) / 2), float(clear.max() - clear.min())))
    return tuple(found)


def samples(edge: Complexes) -> Complexes:
    """Points (SAMPLES,) spread evenly along an edge, its ends left out."""
    table = ArcTable(edge)
    running = np.concatenate([[0.0], np.cumsum(table.lengths)])
    asked = running[-1] * np.linspace(MARGIN, 1.0 - MARGIN, SAMPLES)
    row = np.clip(np.searchsorted(running, asked, side="right") - 1, 0, len(edge) - 1)
    return points(edge, row, table.parameters(row, asked - running[row]))
