"""Several lines in one array, with what is asked of them while they are cut: chords, anchors, distances along."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from notchwork.geometry.arctable import ArcTable
from notchwork.geometry.cubics import Bools, Complexes, Floats, Ints, points, runs_straight, tangents
from notchwork.geometry.measures import chords_needed

CORNER = 20.0
"""Degrees by which a line turns at a joint that others may meet as they meet its ends."""
STRAIGHT = 1e-7
FEWEST = 2000
"""Chords a drawing is cut into at least, so that long lines do not come near everything."""


class Lines:
    """Lines (each (k, 4), k > 0) laid end to end in one array; ``of`` is the number of the line of each row.

    ``straight`` rows are run through at an even speed here, so that Newton's method does not stop at their nodes.
    """

    def __init__(self, lines: Sequence[Complexes], closed: Sequence[bool]) -> None:
        sizes = np.array([len(line) for line in lines], dtype=np.intp)
        self.straight, self.cubics = _even(np.concatenate(lines))
        self.of: Ints = np.repeat(np.arange(len(lines)), sizes)
        self.first: Ints = np.cumsum(sizes) - sizes
        self.stop: Ints = self.first + sizes
        self.closed: Bools = np.array(closed, dtype=bool)
        self.table = ArcTable(self.cubics)
        running = np.concatenate([[0.0], np.cumsum(self.table.lengths)])
        self._from: Floats = running[:-1] - running[self.first[self.of]]
        self.lengths: Floats = running[self.stop] - running[self.first]

    def along(self, rows: Ints, t: Floats) -> Floats:
        """Distances (m,) in mm from the start of their own lines."""
        where: Floats = self._from[rows] + self.table.distances(rows, t)
        return where

    def apart(self, line: Ints, one: Floats, other: Floats) -> Floats:
        """How far (m,) two places of a line, given by their distances along it, lie apart on it, the shorter way."""
        way = np.abs(one - other)
        shorter: Floats = np.where(self.closed[line], np.minimum(way, np.abs(self.lengths[line] - way)), way)
        return shorter

    def anchors(self) -> tuple[Ints, Floats, Bools]:
        """Places (row, t) that others may meet as such, and which of them are ends: the corners and ends of every line."""
        every = np.arange(len(self.cubics))
        ahead = every + 1
        last = ahead == self.stop[self.of]
        ahead = np.where(last, self.first[self.of], ahead)
        one, zero = np.ones(len(every)), np.zeros(len(every))
        out, into = tangents(self.cubics, ahead, zero), tangents(self.cubics, every, one)
        turned = np.abs(np.degrees(np.angle(out * into.conj()))) > CORNER
        open_end = last & ~self.closed[self.of]
        ends = np.flatnonzero(open_end)
        corners = np.flatnonzero(turned & ~open_end)
        row = np.concatenate([ends, self.first[self.of[ends]], corners])
        t = np.concatenate([np.ones(len(ends)), np.zeros(len(ends)), np.ones(len(corners))])
        is_end = np.arange(len(row)) < 2 * len(ends)
        return row, t, is_end

    def chords(self, fine: float) -> tuple[Ints, Floats, Floats, Complexes, Complexes]:
        """Chords within fine (mm) of the lines, none of them much longer than the others: row, t from, t to, ends."""
        lengths = self.table.lengths
        side = max(float(lengths.sum()) / max(8 * len(lengths), FEWEST), 10.0 * fine, 1e-9)
        count = np.maximum(chords_needed(self.cubics, fine), np.ceil(lengths / side)).astype(np.intp)
        row = np.repeat(np.arange(len(self.cubics)), count)
        step = np.arange(len(row)) - (np.cumsum(count) - count)[row]
        t0, t1 = step / count[row], (step + 1) / count[row]
        return row, t0, t1, points(self.cubics, row, t0), points(self.cubics, row, t1)


def _even(cubics: Complexes) -> tuple[Bools, Complexes]:
    straight = runs_straight(cubics, STRAIGHT)
    even = cubics.copy()
    third = (cubics[straight, 3] - cubics[straight, 0]) / 3.0
    even[straight, 1], even[straight, 2] = cubics[straight, 0] + third, cubics[straight, 3] - third
    return straight, even
