"""Where there is room on a piece for a letter or for words, between its lines and what is written already."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from notchwork.geometry import inside

Complexes = NDArray[np.complex128]
Floats = NDArray[np.float64]

BEADS = 2.0
"""px from one point to the next of the lines that are kept clear of."""
GRID = 16
"""Places tried across a piece either way."""


class Room:
    """The inside of a closed polygon (k,) in px, with lines and boxes that are kept clear of."""

    def __init__(self, ring: Complexes) -> None:
        self.ring = ring
        x, y = (np.linspace(part.min(), part.max(), GRID + 2)[1:-1] for part in (ring.real, ring.imag))
        grid = (x[None, :] + 1j * y[:, None]).ravel()
        self._grid: Complexes = grid[inside(ring, grid)]
        self._at: Complexes = np.empty(0, dtype=complex)
        self._half: Complexes = np.empty(0, dtype=complex)
        self.take_line(np.append(ring, ring[0]))

    def with_line(self, points: Complexes) -> Room:
        """The same room with a line more."""
        other = Room.__new__(Room)
        other.ring, other._grid, other._at, other._half = self.ring, self._grid, self._at, self._half
        other.take_line(points)
        return other

    def take_line(self, points: Complexes) -> None:
        """Keep clear of a line."""
        on_it = beads(points)
        self._at = np.concatenate([self._at, on_it])
        self._half = np.concatenate([self._half, np.zeros_like(on_it)])

    def take(self, middle: complex, wide: float, tall: float) -> None:
        """Keep clear of a box."""
        self._at, self._half = np.append(self._at, middle), np.append(self._half, complex(wide, tall) / 2)

    def gaps(self, middles: Complexes, wide: float, tall: float) -> Floats:
        """How far (px) boxes about middles (m,) stay from everything; below 0 where they meet something."""
        across = np.abs(middles.real[:, None] - self._at.real) - (self._half.real + wide / 2)
        up = np.abs(middles.imag[:, None] - self._at.imag) - (self._half.imag + tall / 2)
        found: Floats = np.maximum(across, up).min(axis=1)
        return found

    def free(
        self, middles: Sequence[complex], wide: float, tall: float, gap: float, within: bool
    ) -> list[int]:
        """The numbers of the places where a box has room: on the cloth, or else off it."""
        asked = np.array(middles, dtype=complex)
        if not len(asked):
            return []
        found = (self.gaps(asked, wide, tall) >= gap) & (inside(self.ring, asked) == within)
        return np.flatnonzero(found).tolist()

    def meets_a_box(self, a: complex, b: complex) -> bool:
        """Whether a straight line runs through a box that is kept clear of."""
        boxes = self._half != 0
        if not boxes.any():
            return False
        apart = beads(np.array([a, b]))[:, None] - self._at[boxes]
        half = self._half[boxes]
        return bool(((np.abs(apart.real) < half.real) & (np.abs(apart.imag) < half.imag)).any())

    def roomiest(self, wide: float, tall: float, gap: float) -> complex | None:
        """The place on the cloth where a box is furthest from everything."""
        if not len(self._grid):
            return None
        free = self.gaps(self._grid, wide, tall)
        best = int(np.argmax(free))
        return complex(self._grid[best]) if free[best] >= gap else None

    def nearest(self, to: complex, wide: float, tall: float, gap: float) -> complex | None:
        """The place on the cloth nearest to a point where a box has room; the point itself, if it has."""
        order = np.argsort(np.abs(self._grid - to), kind="stable")
        places = [to, *self._grid[order].tolist()]
        found = self.free(places, wide, tall, gap, True)
        return complex(places[found[0]]) if found else None


def beads(points: Complexes) -> Complexes:
    """Points along a line, no further apart than BEADS."""
    if len(points) < 2:
        return points
    steps = np.diff(points)
    count = np.maximum(np.ceil(np.abs(steps) / BEADS), 1).astype(int)
    row = np.repeat(np.arange(len(steps)), count)
    share = (np.arange(len(row)) - np.repeat(np.cumsum(count) - count, count)) / count[row]
    along: Complexes = np.append(points[row] + share * steps[row], points[-1])
    return along
