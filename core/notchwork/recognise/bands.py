"""Bands: areas of a steady width, and along which edges they lie."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from notchwork.geometry import flatten, lengths, to_chords
from notchwork.recognise.areas import Area
from notchwork.recognise.shape import Complexes
from notchwork.recognise.widths import FINE, Floats, samples

WIDEST = 60.0
"""mm: a wider band is neither an allowance nor a turn. Common practice, no source."""
LONG = 2.5
"""A band is at least so many times longer than wide."""
STEADY = 0.05
"""The share of its width by which a band may vary."""
COVERED = 0.9
"""The share of an edge that a band lying along it covers."""


@dataclass(frozen=True, eq=False)
class Band:
    """An area of a steady width (mm) between two long edges."""

    area: Area
    width: float
    edges: tuple[Complexes, Complexes]


def as_band(area: Area, tol: float) -> Band | None:
    """The area as a band, if it is one: four corners, two opposite edges long and equally far apart all along."""
    outline = area.contour
    if len(outline.corners) != 4:
        return None
    edges = [outline.edge(k) for k in range(4)]
    long = [float(lengths(edge).sum()) for edge in edges]
    first = 0 if long[0] + long[2] >= long[1] + long[3] else 1
    one, other = edges[first], edges[first + 2]
    far = _far(one, other)
    width = float(np.median(far))
    if not 0.0 < width <= WIDEST or min(long[first], long[first + 2]) < LONG * width:
        return None
    if float(far.max() - far.min()) > max(tol, STEADY * width):
        return None
    return Band(area, width, (one, other))


def lies_along(one: Complexes, other: Complexes, tol: float) -> bool:
    """Whether two edges run along each other, each covering the most of the other."""
    return _covered(one, other, tol) and _covered(other, one, tol)


def _covered(edge: Complexes, other: Complexes, tol: float) -> bool:
    return bool((_far(edge, other) <= tol).mean() >= COVERED)


def _far(edge: Complexes, other: Complexes) -> Floats:
    """How far places along an edge lie from another."""
    ring = flatten(other, FINE).points
    return np.asarray(to_chords(samples(edge), ring[:-1], ring[1:]).min(axis=1))
