"""Long pieces are torn where they run on even, as strips and flounces do: two zigzags with nothing between."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from notchwork.geometry import bounds
from notchwork.pictures import ink
from notchwork.pictures.glance.cloth import Cloth, Complexes
from notchwork.pictures.glance.frame import Frame
from notchwork.pictures.trail import trail
from notchwork.sewing import GradedPiece, Nest

LONGEST = 190.0
"""px: what is longer is torn, if it can be."""
KEPT = 34.0
"""px of an even stretch that are kept at least."""
EVEN = 0.01
"""mm: a line that rises by less runs level."""
APART, DEEP, TOOTH = 5.0, 2.0, 4.0
"""px: between the zigzags, of their teeth sideways, and from one tooth to the next."""


@dataclass(frozen=True, slots=True)
class Extent:
    """A turned piece in one size: from its left to its right end and how tall it is (mm), and the stretches across which every
    line runs level and on which nothing is marked."""

    left: float
    right: float
    tall: float
    even: tuple[tuple[float, float], ...]

    def torn(self, scale: float) -> tuple[tuple[float, float], ...]:
        """The stretches (mm) that are left out at a scale of so many px a mm, as few as do."""
        excess = (self.right - self.left) * scale - LONGEST
        found: list[tuple[float, float]] = []
        for a, b in sorted(self.even, key=lambda stretch: stretch[0] - stretch[1]):
            out = min((b - a) * scale - KEPT, excess)
            if out <= KEPT:
                break
            found.append(((a + b - out / scale) / 2, (a + b + out / scale) / 2))
            excess -= out
        return tuple(sorted(found))

    def drawn(self, scale: float) -> complex:
        """Its width and height in px."""
        left_out = sum(b - a for a, b in self.torn(scale))
        return complex(self.right - self.left - left_out, self.tall) * scale


def extent_of(nest: Nest, graded: GradedPiece, size: int, turn: complex) -> Extent:
    """The extent of a piece in a size in which it exists, turned by a unit factor."""
    low, high = bounds(nest.outline(graded.id, size) * turn)
    even = tuple(_even(_taken(nest, graded, size, turn), low.real, high.real))
    return Extent(low.real, high.real, high.imag - low.imag, even)


def _even(taken: Iterable[tuple[float, float]], left: float, right: float) -> Iterator[tuple[float, float]]:
    x = left
    for low, high in sorted(taken):
        if low > x:
            yield x, min(low, right)
        x = max(x, high)
    if right > x:
        yield x, right


def _taken(nest: Nest, graded: GradedPiece, size: int, turn: complex) -> Iterator[tuple[float, float]]:
    """From where to where something is, but for level lines, of which the ends count alone."""
    cubics = [nest.cubics_of(line, size) for line in graded.lines.values() if line.rows is not None]
    legs = [shape.legs[size] for shape in nest.darts[graded.id]]
    rows = np.concatenate(cubics + legs) * turn
    rows = rows[np.isfinite(rows).all(axis=1)]
    level = np.ptp(rows.imag, axis=1) < EVEN
    low, high = rows.real.min(axis=1), rows.real.max(axis=1)
    yield from zip(low[~level].tolist(), high[~level].tolist(), strict=True)
    points: list[Complexes] = [rows[level][:, [0, 3]].ravel()]
    points += [at[size : size + 1] * turn for at in graded.marks.values()]
    for line in graded.lines.values():
        arcs = [a for intake in line.intakes for a in (intake.low, intake.high)]
        arcs += [
            nest.notches[graded.id, name]
            for name, notch in graded.written.notches.items()
            if notch is not None and notch.edge == line.name
        ]
        known = np.array([arc[size] for arc in arcs if np.isfinite(arc[size])])
        if line.rows is not None and len(known):
            points.append(nest.points(line, known, size) * turn)
    for x in np.concatenate(points).real.tolist():
        yield x, x


def tear_marks(frame: Frame, there: Cloth) -> Iterator[str]:
    """Drawn over everything at each tear."""
    for x in tears_at(frame):
        around = there.ring if there.cut is None else there.cut
        top, bottom = float(around.imag.min()) - 2.0, float(around.imag.max()) + 2.0
        y = np.linspace(top, bottom, max(3, round((bottom - top) / TOOTH)))
        zigzag: Complexes = x + DEEP * np.resize([1.0, -1.0], len(y)) + 1j * y
        left, right = zigzag - APART / 2, zigzag + APART / 2
        yield ink.path(trail(np.concatenate([left, right[::-1]]), closed=True), "cloth")
        yield ink.path(trail(left) + trail(right), "tick")


def tears_at(frame: Frame) -> Sequence[float]:
    """Where each tear is drawn, in px across."""
    starts: NDArray[np.complex128] = np.array([low for low, _ in frame.tears]) * np.conj(frame.turn) + 0j
    return frame.of(starts).real.tolist() if len(starts) else []
