"""A drawing laid out: every stroke, point and text where it lies on the sheet, at its scale, with what holds it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from notchwork.drawing import Dot, Drawing, Facts, Look, Stroke, Text
from notchwork.geometry import area, bounds, flatten, lengths

Complexes = NDArray[np.complex128]

FINE = 0.05
"""The polylines that stand for curves, where only inside or outside is asked, stay this close (mm)."""


@dataclass(frozen=True, eq=False)
class Line:
    """A stroke as it lies on the sheet. ``number`` counts over all groups; ``within`` are the names round it, outermost first.

    ``cubics`` are in mm of cloth; the rows of a closed line end where it starts.
    """

    number: int
    cubics: Complexes
    closed: bool
    stroke: Stroke
    within: tuple[str, ...]
    facts: Facts

    @property
    def look(self) -> Look | None:
        return self.stroke.look

    @cached_property
    def length(self) -> float:
        return float(lengths(self.cubics).sum())

    @cached_property
    def area(self) -> float:
        """What it encloses (mm²), 0 of an open line."""
        return abs(area(self.cubics)) if self.closed else 0.0

    @cached_property
    def box(self) -> tuple[complex, complex]:
        return bounds(self.cubics)

    @property
    def size(self) -> complex:
        """Width and height of its box (mm)."""
        return self.box[1] - self.box[0]

    @property
    def middle(self) -> complex:
        return (self.box[0] + self.box[1]) / 2

    @property
    def start(self) -> complex:
        return complex(self.cubics[0, 0])

    @property
    def end(self) -> complex:
        return complex(self.cubics[-1, 3])

    @cached_property
    def polyline(self) -> Complexes:
        return flatten(self.cubics, FINE).points


@dataclass(frozen=True, eq=False)
class Placed:
    """All lines, points and texts of a drawing's groups where they lie."""

    lines: tuple[Line, ...]
    dots: tuple[Dot, ...]
    texts: tuple[Text, ...]


def placed(drawing: Drawing, scale: float = 1.0) -> Placed:
    """The drawing's parts on the sheet, in mm of cloth. Strokes without cubics are left out; numbers count them all the same."""
    lines: list[Line] = []
    dots: list[Dot] = []
    texts: list[Text] = []
    number = 0
    for group in drawing.groups:
        within = (*group.within, group.name)
        for stroke in group.strokes:
            if len(stroke.cubics):
                cubics, closed = _closed((stroke.cubics + group.shift) * scale, stroke.closed)
                lines.append(Line(number, cubics, closed, stroke, within, group.facts))
            number += 1
        dots += [replace(dot, at=(dot.at + group.shift) * scale) for dot in group.dots]
        texts += [moved(text, group.shift, scale) for text in group.texts]
    return Placed(tuple(lines), tuple(dots), tuple(texts))


def moved(text: Text, shift: complex, scale: float = 1.0) -> Text:
    """The same words shifted, then scaled."""
    return replace(text, at=(text.at + shift) * scale, height=text.height * scale)


def _closed(cubics: Complexes, closed: bool) -> tuple[Complexes, bool]:
    """A closed line with its last row, if that is left to be understood."""
    start, end = cubics[0, 0], cubics[-1, 3]
    if not closed:
        return cubics, False
    if start == end:
        return cubics, True
    if abs(start - end) < 1e-6:
        shut = cubics.copy()
        shut[-1, 2] += start - end if shut[-1, 2] == end else 0.0
        shut[-1, 3] = start
        return shut, True
    return np.concatenate([cubics, np.array([[end, end, start, start]])]), True
