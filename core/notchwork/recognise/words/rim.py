"""The outline of one piece in one size as a line with places: where a point lies on it, and how far."""

from __future__ import annotations

from functools import cached_property
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from notchwork.geometry import area, bounds, flatten, inside, lengths, nearest, parameters_at, part, points
from notchwork.recognise.shape import Contour

Complexes = NDArray[np.complex128]
Floats = NDArray[np.float64]
Ints = NDArray[np.intp]


FINE = 0.02


class Spots(NamedTuple):
    """For each point asked (m,): its distance (mm), the edge it is nearest to, and the arc position (mm) there on that edge."""

    distance: Floats
    edge: Ints
    arc: Floats


class Rim:
    """A contour with its arc lengths. Edges are numbered in the outline's order; arcs are in mm from an edge's start."""

    def __init__(self, contour: Contour) -> None:
        self.contour = contour
        self.cubics = contour.cubics
        self.arc = lengths(contour.cubics)
        self.run_up = np.concatenate([[0.0], np.cumsum(self.arc)])
        starts = np.array(contour.corners, dtype=np.intp)
        self.edge_of_row = np.searchsorted(starts, np.arange(len(self.cubics)), side="right") - 1
        self.starts = starts

    @property
    def count(self) -> int:
        return len(self.starts)

    @cached_property
    def sense(self) -> int:
        return 1 if area(self.cubics) >= 0 else -1

    def length(self, edge: int) -> float:
        """The arc length (mm) of an edge."""
        rows = self.contour.rows(edge)
        return float(self.run_up[rows.stop] - self.run_up[rows.start])

    def near(self, asked: Complexes) -> Spots:
        """Where each point lies on the whole outline."""
        found = nearest(self.cubics, asked)
        return self._spots(found.distance, found.row, found.t)

    def near_edge(self, edge: int, asked: Complexes) -> Spots:
        """Where each point lies on one edge."""
        rows = self.contour.rows(edge)
        found = nearest(self.cubics[rows], asked)
        return self._spots(found.distance, found.row + rows.start, found.t)

    def _spots(self, distance: Floats, row: Ints, t: Floats) -> Spots:
        edge = self.edge_of_row[row]
        begun = np.array([part(self.cubics[r], 0.0, float(s)) for r, s in zip(row, t, strict=True)]).reshape(
            -1, 4
        )
        arc = self.run_up[row] - self.run_up[self.starts[edge]] + lengths(begun)
        return Spots(distance, edge, arc)

    def point(self, edge: int, arc: float) -> complex:
        """The point at an arc position of an edge."""
        rows = self.contour.rows(edge)
        along = self.run_up[rows.start] + arc
        row = int(np.clip(np.searchsorted(self.run_up[1:], along), rows.start, rows.stop - 1))
        at = np.array([row])
        t = parameters_at(self.cubics, at, np.array([along - self.run_up[row]]))
        return complex(points(self.cubics, at, t)[0])

    def along(self, edge: int, arc: float) -> complex:
        """The unit direction of an edge at an arc position, in the outline's order."""
        length = self.length(edge)
        step = min(0.5, length / 4)
        low, high = max(arc - step, 0.0), min(arc + step, length)
        way = self.point(edge, high) - self.point(edge, low)
        return way / abs(way) if way else 1 + 0j

    def outward(self, edge: int, arc: float) -> complex:
        """The unit direction off the piece."""
        return -1j * self.sense * self.along(edge, arc)

    def is_straight(self, edge: int, within: float = 0.5) -> bool:
        """Whether an edge keeps within so many mm of its chord."""
        rows = self.contour.edge(edge)
        a, b = complex(rows[0, 0]), complex(rows[-1, 3])
        if abs(b - a) < 1e-9:
            return False
        off = np.abs(((rows - a) * np.conj(b - a) / abs(b - a)).imag)
        return bool(off.max() <= within)

    def inside(self, asked: Complexes, margin: float = 0.0) -> NDArray[np.bool_]:
        """Which points lie inside the outline by at least the margin (mm); below 0, or outside by no more than that."""
        found = inside(self._ring, asked)
        if margin == 0.0:
            return found
        # Only of points on the unlucky side is it asked how near the line is.
        doubtful = np.flatnonzero(found if margin > 0.0 else ~found)
        if len(doubtful):
            near = nearest(self.cubics, asked[doubtful]).distance
            found[doubtful] = near >= margin if margin > 0.0 else near <= -margin
        return found

    @cached_property
    def across(self) -> float:
        """mm from corner to corner of the box about it."""
        low, high = bounds(self.cubics)
        return abs(high - low)

    def polyline(self, edge: int) -> Complexes:
        """An edge as points that follow it within 0.02 mm."""
        return flatten(self.contour.edge(edge), FINE).points

    @cached_property
    def _ring(self) -> Complexes:
        return flatten(self.cubics, FINE).points


def turn_between(a: complex, b: complex) -> float:
    """The angle (degrees, 0 to 180) between two directions."""
    return float(abs(np.degrees(np.angle(b * np.conj(a))))) if a and b else 0.0


def start_way(row: Complexes) -> complex:
    """The direction in which a cubic leaves its start."""
    way = next((z - row[0] for z in row[1:] if abs(z - row[0]) > 1e-6), 0j)
    return complex(way / abs(way)) if way else 0j


def stop_way(row: Complexes) -> complex:
    """The direction in which a cubic arrives at its end."""
    return -start_way(row[::-1])
