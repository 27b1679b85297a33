"""Raw lines on a grid, so that it can be told exactly where their points fall together and on which side they pass."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from notchwork.geometry.cubics import Bools, Complexes, Ints
from notchwork.geometry.offset.raw import Raw

GRID = 1e-5
"""The step of the grid (mm)."""


class Snapped(NamedTuple):
    """Closed lines end to end in which no point follows one at the same place.

    points (m,) in mm with their edges, -1 for a corner's construction; places (m,), the same in whole grid steps from
    the origin, and the steps (m,) from each to the next; first and size (k,) of every line.
    """

    points: Complexes
    edge: Ints
    places: Complexes
    steps: Complexes
    first: Ints
    size: Ints

    def only(self, lines: Bools) -> Snapped:
        """The chosen lines (k,)."""
        if lines.all():
            return self
        which = np.flatnonzero(np.repeat(lines, self.size))
        size = self.size[lines]
        return Snapped(
            self.points[which],
            self.edge[which],
            self.places[which],
            self.steps[which],
            np.cumsum(size) - size,
            size,
        )


def snapped(raw: Raw) -> Snapped:
    """Raw lines on the grid; where feet fall together one point is left, the edge's that begins there."""
    size = np.diff(np.append(raw.first, len(raw.points)))
    numbers = raw.points.view(np.float64) * (1.0 / GRID)
    places = np.rint(numbers, out=numbers).view(np.complex128)
    ahead = np.empty_like(places)
    ahead[:-1], ahead[raw.first + size - 1] = places[1:], places[raw.first]
    steps = ahead - places
    still = np.flatnonzero(steps == 0.0)
    if not still.size:
        return Snapped(raw.points, raw.edge, places, steps, raw.first, size)
    edge = _first_of_equals(raw.edge, still, next_in(raw.first, size))
    moving = np.delete(np.arange(len(places)), still)
    size = size - np.bincount(np.searchsorted(raw.first, still, side="right") - 1, minlength=len(size))
    first = np.cumsum(size) - size
    return Snapped(raw.points[moving], edge[moving], places[moving], steps[moving], first, size)


def next_in(first: Ints, count: Ints) -> Ints:
    """The number of the point after each, in closed lines that begin at first and have count points."""
    following = np.arange(1, int(count.sum()) + 1)
    real = count > 0
    following[(first + count - 1)[real]] = first[real]
    return following


def _first_of_equals(edge: Ints, equal: Ints, following: Ints) -> Ints:
    """The edges (m,), where the equal points lie at the same place as the next the edge that begins there for all of them.

    Where no allowance is, every edge so has a point. An edge's end comes next, what belongs to a corner last.
    """
    edge = edge.copy()
    same, ahead = equal, following[equal]
    involved = np.append(same, ahead)
    rank = np.full(len(edge), 2)
    rank[involved] = np.where(
        edge[involved] < 0, 2, np.where(edge[involved] == edge[following[involved]], 0, 1)
    )
    # A few feet may fall together in a corner; what the last tells the first takes as many rounds.
    for _ in range(4):
        for one, other in ((same, ahead), (ahead, same)):
            better = rank[other] < rank[one]
            edge[one[better]], rank[one[better]] = edge[other[better]], rank[other[better]]
    return edge
