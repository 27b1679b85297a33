"""Distances along cubics and the parameters at which they are reached, for many places at once."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from notchwork.geometry.arclength import certified_stretches, gauss, sums
from notchwork.geometry.cubics import Floats, Ints, as_cubics

PANELS, NODES = 8, 8
CLOSE = 1e-10
"""Newton's method stops within this distance (mm) of the one asked for."""
CHUNK = 4096
"""Questions worked on at once, so that their nodes stay in the processor's cache."""
MOST_STEPS = 60


class ArcTable:
    """Arc lengths of cubics (n, 4) at the ends of short stretches, to be asked repeatedly.

    Every answer is within 1e-6 mm along the curve. Raises ValueError for an array that holds no cubics.
    """

    def __init__(self, cubics: ArrayLike) -> None:
        self.cubics = as_cubics(cubics)
        found = certified_stretches(self.cubics, PANELS, (NODES,))
        order = np.lexsort((found.start, found.row))
        self._row, self._start, self._end = found.row[order], found.start[order], found.end[order]
        self._length, h = found.length[order], found.hodograph[order]
        self._end_speeds = np.abs(h[:, [0, 2]])
        self._powers = np.stack(
            [h[:, 0], 2.0 * (h[:, 1] - h[:, 0]), h[:, 0] - 2.0 * h[:, 1] + h[:, 2]], axis=1
        )
        self._first = np.searchsorted(self._row, np.arange(len(self.cubics) + 1))
        self._running = np.concatenate([[0.0], np.cumsum(self._length)])
        self.lengths = sums(self._length, self._row, len(self.cubics))

    def parameters(self, rows: Ints, distances: Floats) -> Floats:
        """The parameters (m,) at the distances (m,) in mm from the start of their rows.

        A distance before the row's start or beyond its end gives 0 or 1.
        """
        row, asked = np.asarray(rows, dtype=np.intp), np.asarray(distances, dtype=np.float64)
        t = np.empty(len(row))
        for k in range(0, len(row), CHUNK):
            t[k : k + CHUNK] = self._parameters(row[k : k + CHUNK], asked[k : k + CHUNK])
        return t

    def distances(self, rows: Ints, t: Floats) -> Floats:
        """The arc lengths (m,) in mm from the start of their rows to the parameters t (m,) in [0, 1]."""
        row, at = np.asarray(rows, dtype=np.intp), np.asarray(t, dtype=np.float64)
        found = np.searchsorted(self._row + self._start, row + at, side="right") - 1
        stretch = np.clip(found, self._first[row], self._first[row + 1] - 1)
        start, end = self._start[stretch], self._end[stretch]
        length, _ = self._length_and_speed(stretch, (at - start) / (end - start))
        reached: Floats = self._running[stretch] - self._running[self._first[row]] + length
        return reached

    def _length_and_speed(self, stretch: Ints, u: Floats) -> tuple[Floats, Floats]:
        """Arc length of each stretch from its start to u in [0, 1], and the speed at u."""
        nodes, weights, _ = gauss(NODES)
        # The last column is u itself, where Newton's method wants the speed.
        at = np.append(nodes, 1.0) ** np.arange(3)[:, None]
        powers = self._powers[stretch] * u[:, None] ** np.arange(3)
        x, y = powers.real @ at, powers.imag @ at
        speed = np.sqrt(x * x + y * y)
        return u * (speed[:, :-1] @ weights), speed[:, -1]

    def _parameters(self, row: Ints, distance: Floats) -> Floats:
        before = self._running[self._first[row]]
        found = np.searchsorted(self._running, before + np.maximum(distance, 0.0), side="right") - 1
        stretch = np.clip(found, self._first[row], self._first[row + 1] - 1)
        length = self._length[stretch]
        goal = np.clip(distance - (self._running[stretch] - before), 0.0, length)
        u = self._first_guess(stretch, goal)
        low, high = np.zeros_like(u), np.ones_like(u)
        open_ = np.flatnonzero((goal > 0.0) & (goal < length))
        u[goal >= length] = 1.0
        for _ in range(MOST_STEPS):
            if not open_.size:
                break
            at = u[open_]
            reached, speed = self._length_and_speed(stretch[open_], at)
            over = reached - goal[open_]
            low[open_] = np.where(over < 0.0, at, low[open_])
            high[open_] = np.where(over > 0.0, at, high[open_])
            step = at - np.divide(over, speed, out=np.full_like(over, np.inf), where=speed > 0.0)
            inside = (step > low[open_]) & (step < high[open_])
            far = np.abs(over) > CLOSE
            u[open_] = np.where(far, np.where(inside, step, (low[open_] + high[open_]) / 2.0), at)
            open_ = open_[far]
        start, end = self._start[stretch], self._end[stretch]
        t: Floats = start + u * (end - start)
        t[distance <= 0.0] = 0.0
        t[distance >= self.lengths[row]] = 1.0
        return t

    def _first_guess(self, stretch: Ints, goal: Floats) -> Floats:
        """Where the goal would be if the speed changed evenly from the stretch's start to its end."""
        length = self._length[stretch]
        speeds = self._end_speeds[stretch]
        total = speeds.sum(axis=1)
        scale = np.divide(2.0 * length, total, out=np.ones_like(length), where=total > 0.0)
        first, last = speeds[:, 0] * scale, speeds[:, 1] * scale
        root = np.sqrt(np.maximum(first * first + 2.0 * (last - first) * goal, 0.0))
        guess = np.divide(2.0 * goal, first + root, out=np.full_like(goal, 0.5), where=first + root > 0.0)
        clipped: Floats = np.clip(guess, 0.0, 1.0)
        return clipped


def parameters_at(cubics: ArrayLike, rows: Ints, distances: Floats) -> Floats:
    """The parameters (m,) at the distances (m,) in mm from the start of the cubics named by rows (m,).

    Clamped to [0, 1]; within 1e-6 mm along the curve. Only the rows asked for are measured: hold an ArcTable if
    you ask again.
    """
    array = as_cubics(cubics)
    used, where = np.unique(np.asarray(rows, dtype=np.intp), return_inverse=True)
    return ArcTable(array[used]).parameters(where, distances)
