"""Rows that follow each other as one line, to be walked beyond the end of a row."""

from __future__ import annotations

import numpy as np

from notchwork.geometry.arctable import ArcTable
from notchwork.geometry.cubics import Complexes, Floats, Ints, points


class Runs:
    """Cubics (n, 4) seen as lines: a row that begins within tol (mm) of where the one before it ends goes on from it.

    If the last row of a line ends where the line's first row begins, the line is a ring.
    """

    def __init__(self, cubics: Complexes, tol: float, closed: bool = True) -> None:
        self.table = ArcTable(cubics)
        self.cubics = self.table.cubics
        self._from = np.concatenate([[0.0], np.cumsum(self.table.lengths)])
        gap = np.abs(self.cubics[1:, 0] - self.cubics[:-1, 3]) > tol
        first = np.flatnonzero(np.concatenate([[True], gap])) if len(cubics) else np.zeros(0, dtype=np.intp)
        last = np.append(first[1:], len(cubics)) - 1
        line = np.cumsum(np.concatenate([[0], gap])) if len(cubics) else first
        self._begin, self._stop = self._from[first][line], self._from[last + 1][line]
        meets = np.abs(self.cubics[last, 3] - self.cubics[first, 0]) <= tol
        self._ring = (meets & closed)[line]
        self._first, self._last = first[line], last[line]

    def position(self, rows: Ints, t: Floats) -> Floats:
        """Distances (m,) in mm along all rows laid end to end."""
        where: Floats = self._from[rows] + self.table.distances(rows, t)
        return where

    def from_start(self, rows: Ints, t: Floats) -> Floats:
        """Distances (m,) as of ``position``, on a ring the shorter way from its start: near places have near distances."""
        begin, stop = self._begin[rows], self._stop[rows]
        at = self.position(rows, t)
        shorter: Floats = np.where(self._ring[rows], np.minimum(at, begin + stop - at), at)
        return shorter

    def apart(self, rows: Ints, t: Floats, other_rows: Ints, other_t: Floats) -> Floats:
        """How far (m,) one walks from one place to the other, the shorter way; infinite between two lines."""
        way = np.abs(self.position(rows, t) - self.position(other_rows, other_t))
        whole = self._stop[rows] - self._begin[rows]
        way = np.where(self._ring[rows], np.minimum(way, np.abs(whole - way)), way)
        result: Floats = np.where(self._first[rows] == self._first[other_rows], way, np.inf)
        return result

    def beside(self, rows: Ints, t: Floats, far: float) -> Complexes:
        """The points (m,) far (mm, negative is back) along their lines from the places given; NaN beyond an end."""
        begin, stop = self._begin[rows], self._stop[rows]
        at = self.position(rows, t) + far
        beyond = (at < begin) | (at > stop)
        with np.errstate(invalid="ignore", divide="ignore"):
            at = np.where(self._ring[rows] & beyond, begin + np.mod(at - begin, stop - begin), at)
        at = np.clip(at, begin, stop)
        row = np.clip(np.searchsorted(self._from, at, side="right") - 1, self._first[rows], self._last[rows])
        z = points(self.cubics, row, self.table.parameters(row, at - self._from[row]))
        z[beyond & ~self._ring[rows]] = np.nan
        return z
