"""Dimensions: a figure with its unit on a straight line, with lines across at its ends."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from notchwork.drawing import Text
from notchwork.geometry import is_straight
from notchwork.recognise.aside.sheet import Sheet
from notchwork.recognise.measures import measure_alone, rounding
from notchwork.recognise.placed import Line
from notchwork.recognise.scale import Gauge
from notchwork.recognise.shape import Complexes, Ints

Floats = NDArray[np.float64]

BESIDE = 3.0
"""So many heights of type a figure stands from its line at most."""
ACROSS = 0.1
"""Sine of the angle by which lines of a dimension may be off."""
ENDS = 1.2
"""So many heights of type lie between a dimension's line and those across at its ends, where its arrow heads are."""
TRIED = 6
"""So many of the lines near a figure are tried as its line, the nearest first."""


def set_dimensions_aside(sheet: Sheet) -> list[Gauge]:
    """Take away figures with their lines; what each says and what is drawn."""
    figures = [(text, stated) for text in sheet.texts if (stated := measure_alone(text.words)) is not None]
    straights = _Straights([line for line in sheet.open if _is_plain(line)]) if figures else None
    gauges: list[Gauge] = []
    for text, stated in figures:
        assert straights is not None
        found, drawn = straights.dimension(text)
        if not len(found):
            continue
        sheet.set_aside("dimension", straights.taken(found), [text])
        if drawn is not None and stated > 0:
            gauges.append(Gauge(stated, drawn, rounding(text.words), f"“{text.words}”", complex(text.at)))
    return gauges


def _is_plain(line: Line) -> bool:
    return len(line.cubics) == 1 and line.start != line.end and bool(is_straight(line.cubics)[0])


class _Straights:
    """The straight open lines of a sheet: their starts, unit vectors along them, lengths, and which are left."""

    def __init__(self, lines: Sequence[Line]) -> None:
        self._lines = lines
        self._start = np.array([line.start for line in lines], dtype=np.complex128)
        chord = np.array([line.end for line in lines], dtype=np.complex128) - self._start
        self._length = np.abs(chord)
        self._way = chord / np.maximum(self._length, 1e-12)
        self._left = np.ones(len(lines), dtype=bool)

    def taken(self, which: Ints) -> list[Line]:
        """Some of the lines, which are then gone."""
        self._left[which] = False
        return [self._lines[k] for k in which.tolist()]

    def dimension(self, text: Text) -> tuple[Ints, float | None]:
        """The lines of the dimension whose figure a text is, none if it is no such; and how far apart its ends are drawn (mm)."""
        corners = np.array(text.box)
        middle, half = complex(corners.mean()), abs(corners[1] - corners[0]) / 2
        reach = BESIDE * text.height
        near = np.flatnonzero(self._left & (self._far(middle) <= reach + half))
        off = self._off(near, middle)
        for k in near[np.lexsort((-self._length[near], off))][:TRIED].tolist():
            if self._off(np.array([k]), middle)[0] > reach:
                break
            along = complex(self._way[k])
            # Words may break the line in two.
            level = np.maximum(
                self._off_line(near, k), np.abs(((self._end[near] - self._start[k]) * np.conj(along)).imag)
            )
            parallel = np.abs((self._way[near] * np.conj(along)).imag) < ACROSS
            run = near[parallel & (level < max(0.5, 0.1 * text.height))]
            across = self._at_ends(run, along, ENDS * text.height)
            if len(across):
                at = ((self._start + self._way * self._length / 2)[across] * np.conj(along)).real
                span = float(at.max() - at.min())
                return np.concatenate([run, across]), span if len(across) > 1 and span > 1e-6 else None
        return np.zeros(0, dtype=np.intp), None

    @property
    def _end(self) -> Complexes:
        return np.asarray(self._start + self._way * self._length)

    def _far(self, z: complex) -> Floats:
        """How far each line lies from a point."""
        along = np.clip(((z - self._start) * self._way.conj()).real, 0.0, self._length)
        return np.asarray(np.abs(self._start + along * self._way - z))

    def _off(self, which: Ints, z: complex) -> Floats:
        """How far a point lies from some lines drawn on without end."""
        return np.asarray(np.abs(((z - self._start[which]) * self._way[which].conj()).imag))

    def _off_line(self, which: Ints, k: int) -> Floats:
        return np.asarray(np.abs(((self._start[which] - self._start[k]) * np.conj(self._way[k])).imag))

    def _at_ends(self, run: Ints, along: complex, reach: float) -> Ints:
        """The lines that stand across at the outer ends of a run."""
        ends = np.concatenate([self._start[run], self._end[run]])
        at = (ends * np.conj(along)).real
        middles = self._start + self._way * self._length / 2
        upright = self._left & (np.abs((self._way * np.conj(along)).real) <= ACROSS)
        found = np.zeros(len(self._start), dtype=bool)
        for tip in (complex(ends[at.argmin()]), complex(ends[at.argmax()])):
            beside = np.abs(((middles - tip) * np.conj(along)).real) <= reach
            found |= upright & beside & (self._far(tip) <= reach)
        found[run] = False
        return np.flatnonzero(found)
