"""A drawing laid out: every stroke, point and text where it lies on the sheet, at its scale, with what holds it."""

from __future__ import annotations

from collections.abc import Container, Iterable
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from notchwork.drawing import Dot, Drawing, Facts, Look, Stroke, Text
from notchwork.geometry import area, bounds, flatten, lengths

Complexes = NDArray[np.complex128]

MUCH = 10.0
"""A line shorter than so many tolerances is not closed for its ends' being near."""
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
    gaps: tuple[tuple[complex, float], ...] = ()


def placed(drawing: Drawing, groups: Container[int], scale: float, tol: float) -> Placed:
    """The parts of some of a drawing's groups (by number) on the sheet, in mm of cloth; lines whose ends lie within tol (mm)
    of each other are closed, and ``gaps`` tells where and how wide.

    Strokes without cubics are left out; numbers count the strokes of all groups all the same.
    """
    lines: list[Line] = []
    dots: list[Dot] = []
    texts: list[Text] = []
    gaps: list[tuple[complex, float]] = []
    number = 0
    for k, group in enumerate(drawing.groups):
        if k not in groups:
            number += len(group.strokes)
            continue
        within = (*group.within, group.name)
        for stroke in group.strokes:
            if len(stroke.cubics):
                cubics = (stroke.cubics + group.shift) * scale
                gap = abs(cubics[0, 0] - cubics[-1, 3])
                closed = stroke.closed
                if not closed and gap <= tol and len(cubics) > 1 and lengths(cubics).sum() > MUCH * tol:
                    closed = True
                    gaps.append((complex(cubics[0, 0]), float(gap)))
                cubics = _closed(cubics, tol) if closed else cubics
                lines.append(Line(number, cubics, closed, stroke, within, group.facts))
            number += 1
        dots += [replace(dot, at=(dot.at + group.shift) * scale) for dot in group.dots]
        texts += [moved(text, group.shift, scale) for text in group.texts]
    return Placed(tuple(lines), tuple(dots), tuple(texts), tuple(gaps))


def moved(text: Text, shift: complex, scale: float = 1.0) -> Text:
    """The same words shifted, then scaled."""
    return replace(text, at=(text.at + shift) * scale, height=text.height * scale)


def _closed(cubics: Complexes, tol: float) -> Complexes:
    """A closed line with its last row, which may have been left to be understood; a gap up to tol is closed by moving its end."""
    start, end = cubics[0, 0], cubics[-1, 3]
    if start == end:
        return cubics
    if abs(start - end) > tol:
        return np.concatenate([cubics, np.array([[end, end, start, start]])])
    shut = cubics.copy()
    straight = shut[-1, 0] == shut[-1, 1] and shut[-1, 2] == end
    shut[-1, 2] = start if straight else shut[-1, 2] + start - end
    shut[-1, 3] = start
    return shut


def boxes_apart(a: tuple[complex, complex], b: tuple[complex, complex]) -> float:
    """The distance (mm) between two upright boxes, 0 where they touch."""
    across = max(a[0].real - b[1].real, b[0].real - a[1].real, 0.0)
    up = max(a[0].imag - b[1].imag, b[0].imag - a[1].imag, 0.0)
    return abs(complex(across, up))


def box_of(lines: Iterable[Line]) -> tuple[complex, complex]:
    """The upright box about several lines."""
    boxes = np.array([line.box for line in lines])
    return (
        complex(boxes[:, 0].real.min(), boxes[:, 0].imag.min()),
        complex(boxes[:, 1].real.max(), boxes[:, 1].imag.max()),
    )
