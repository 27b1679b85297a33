"""The strokes of one piece with everything that is asked of them again and again, computed once for all."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from notchwork.drawing import Stroke
from notchwork.geometry import is_straight, lengths
from notchwork.recognise.words.rim import Rim

Complexes = NDArray[np.complex128]
Floats = NDArray[np.float64]
Ints = NDArray[np.intp]
Bools = NDArray[np.bool_]


class Sketch:
    """Strokes on a piece, by their numbers; ``used`` are those of which something was made already.

    All arrays have a row for each stroke. ``ends`` (n, 2) are starts and stops; ``length`` (n,) is in mm; ``distance``,
    ``edge``, ``arc`` and ``within`` (n, 2) say where those ends lie: how far (mm) from the outline, at which place of which
    edge, and whether inside.
    """

    def __init__(self, strokes: Sequence[Stroke], rim: Rim) -> None:
        self.strokes = tuple(strokes)
        self.rim = rim
        self.used: set[int] = {k for k, stroke in enumerate(self.strokes) if not len(stroke.cubics)}
        self.rows = np.array([len(stroke.cubics) for stroke in self.strokes], dtype=np.intp)
        self.closed = np.array([stroke.closed for stroke in self.strokes], dtype=bool)
        drawn = [stroke.cubics for stroke in self.strokes if len(stroke.cubics)]
        self.cubics = np.concatenate([np.empty((0, 4), complex), *drawn])
        self.owner = np.repeat(np.arange(len(self.strokes)), self.rows)
        self.arc_of_row = lengths(self.cubics)
        self.straight_row = np.asarray(is_straight(self.cubics), dtype=bool)
        self.length = np.bincount(self.owner, self.arc_of_row, len(self.strokes))
        bent = np.bincount(self.owner, ~self.straight_row, len(self.strokes))
        self.is_straight = (bent == 0) & (self.rows > 0)
        self.ends = np.zeros((len(self.strokes), 2), complex)
        there = self.rows > 0
        last = np.cumsum(self.rows)
        self.ends[there, 0] = self.cubics[(last - self.rows)[there], 0]
        self.ends[there, 1] = self.cubics[last[there] - 1, 3]

    @property
    def is_line(self) -> Bools:
        """Which strokes are one straight row."""
        found: Bools = (self.rows == 1) & self.is_straight & ~self.closed
        return found

    def left(self, which: Bools | None = None) -> list[int]:
        """The numbers of the strokes (of those marked) that nothing was made of yet."""
        numbers = range(len(self.strokes)) if which is None else np.flatnonzero(which).tolist()
        return [k for k in numbers if k not in self.used]

    def first_row(self, number: int) -> Complexes:
        """The first cubic (4,) of a stroke."""
        row: Complexes = self.strokes[number].cubics[0]
        return row

    @cached_property
    def _places(self) -> tuple[Floats, Ints, Floats, Bools]:
        if not len(self.strokes):
            nothing = np.zeros((0, 2))
            return nothing, nothing.astype(np.intp), nothing, nothing.astype(bool)
        asked = self.ends.ravel()
        spots = self.rim.near(asked)
        shape = self.ends.shape
        inside = self.rim.inside(asked)
        return (
            spots.distance.reshape(shape),
            spots.edge.reshape(shape),
            spots.arc.reshape(shape),
            inside.reshape(shape),
        )

    @property
    def distance(self) -> Floats:
        return self._places[0]

    @property
    def edge(self) -> Ints:
        return self._places[1]

    @property
    def arc(self) -> Floats:
        return self._places[2]

    @property
    def within(self) -> Bools:
        return self._places[3]
