"""What is drawn and written on a piece so far, and how much of it a box of words would lie on."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np
from numpy.typing import NDArray

from notchwork.drawing import Text
from notchwork.geometry import points

Complexes = NDArray[np.complex128]
Box = tuple[complex, complex, complex, complex]
"""Corners (mm) from the lower left, counter-clockwise as the words run."""

BEADS = 4.0
"""mm between the points by which a line is known when room is sought."""
ROWS = (0.0, 0.5, 1.0)
"""Where across a box the rows of its points lie."""
CLEAR = 0.8
"""mm that words keep from lines and from other words."""


class Plate:
    """The lines of a piece in all sizes drawn, and the words that stand on it so far."""

    def __init__(self, strokes: Iterable[Complexes]) -> None:
        lines = [cubics for cubics in strokes if len(cubics)]
        beads: Complexes = beads_of(np.concatenate(lines)) if lines else np.empty(0, dtype=np.complex128)
        # In order of x, so that a box looks at its own column only.
        self._lines = beads[np.argsort(beads.real)]
        self._x = self._lines.real
        self._boxes: list[Complexes] = []

    def write(self, box: Box) -> None:
        """Words were set into this box."""
        a, b, _, d = box
        along = np.linspace(0.0, 1.0, int(abs(b - a) / BEADS) + 3).astype(np.complex128)
        for row in ROWS:
            beads: Complexes = a + row * (d - a) + along * (b - a)
            self._boxes.append(beads)

    @property
    def written(self) -> Complexes:
        """Points of all words so far."""
        return np.concatenate(self._boxes) if self._boxes else np.empty(0, dtype=np.complex128)

    def hits(self, box: Box) -> int:
        """How many points of lines and words lie in the box, or nearer to it than CLEAR."""
        corners = np.array(box)
        middle = corners.mean()
        reach = float(np.abs(corners.real - middle.real).max()) + CLEAR
        near = slice(*np.searchsorted(self._x, [middle.real - reach, middle.real + reach]))
        a, b, _, d = box
        wide, tall = abs(b - a) / 2 + CLEAR, abs(d - a) / 2 + CLEAR
        turn = np.conj(b - a) / abs(b - a)
        found = 0
        for z in (self._lines[near], self.written):
            off = (z - middle) * turn
            found += int(np.count_nonzero((np.abs(off.real) < wide) & (np.abs(off.imag) < tall)))
        return found

    def best(self, texts: Iterable[Text]) -> Text:
        """The first of the texts that lies on nothing, else the one that lies on least; it is then written."""
        chosen, least = None, np.inf
        for text in texts:
            hits = self.hits(text.box)
            if hits < least:
                chosen, least = text, hits
            if not hits:
                break
        if chosen is None:
            raise ValueError("there is no text to choose from")
        self.write(chosen.box)
        return chosen


def beads_of(cubics: Complexes) -> Complexes:
    """Points along a run, no further apart than BEADS."""
    polygon = np.abs(np.diff(cubics, axis=1)).sum(axis=1)
    count = np.ceil(polygon / BEADS).astype(np.intp) + 1
    rows = np.repeat(np.arange(len(cubics)), count)
    step = np.arange(len(rows)) - np.repeat(np.cumsum(count) - count, count)
    return points(cubics, rows, step / (count[rows] - 1).clip(1))
