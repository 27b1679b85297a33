"""Long pieces are torn where they run on even, as strips and flounces do: two zigzags with nothing between."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np
from numpy.typing import NDArray

from notchwork.pictures import ink
from notchwork.pictures.glance.cloth import Cloth, Complexes
from notchwork.pictures.glance.frame import Frame
from notchwork.pictures.glance.trail import trail
from notchwork.sewing import GradedPiece, Nest

LONGEST = 190.0
"""px: what is longer is torn, if it can be."""
KEPT = 34.0
"""px of an even stretch that are kept at least."""
EVEN = 0.01
"""mm: a line that rises by less runs level."""
APART, DEEP, TOOTH = 5.0, 2.0, 4.0
"""px: between the zigzags, of their teeth sideways, and from one tooth to the next."""


def torn(
    nest: Nest, graded: GradedPiece, size: int, turn: complex, scale: float
) -> tuple[tuple[float, float], ...]:
    """The stretches (mm, of the turned piece) that are left out of a piece in one size; none where it is short or nowhere even."""
    outline = nest.outline(graded.id, size) * turn
    left, right = float(outline.real.min()), float(outline.real.max())
    excess = (right - left) * scale - LONGEST
    if excess <= KEPT:
        return ()
    even = [(a, b, (b - a) * scale - KEPT) for a, b in _even(nest, graded, size, turn, left, right)]
    found: list[tuple[float, float]] = []
    for a, b, spare in sorted(even, key=lambda stretch: -stretch[2]):
        out = min(spare, excess)
        if out <= KEPT:
            break
        found.append(((a + b - out / scale) / 2, (a + b + out / scale) / 2))
        excess -= out
    return tuple(sorted(found))


def _even(
    nest: Nest, graded: GradedPiece, size: int, turn: complex, left: float, right: float
) -> Iterator[tuple[float, float]]:
    """The stretches across which every line runs level, and on which nothing is marked."""
    x = left
    for low, high in sorted(_taken(nest, graded, size, turn)):
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
