"""An island drawn small: its pages as a grid with their labels, its pieces as outlines with their names."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from notchwork.drawing import Drawing, Group, Stroke
from notchwork.geometry import flatten, inside
from notchwork.pages.arrange import Placed, Shape
from notchwork.pages.joining.tiles import Plot
from notchwork.pages.setting.ink import Pen
from notchwork.pages.setting.labels import name_of
from notchwork.pages.setting.lettering import shortened, width

Complexes = NDArray[np.complex128]
Box = tuple[complex, complex]

NAME = 2.9
"""mm: type of names."""
LABEL = 3.5
"""mm: type of labels, where there is room."""
_INNER = 2.4
"""mm: type of names inside pieces."""
_CHORDS = 0.08
"""mm on the plan: how far chords may lie beside curves."""
_GRID, _OUTLINE = 0.15, 0.45
"""mm: widths of the lines round pages and round pieces."""
_HATCH = 2.2
"""mm between the lines where no page is printed."""
_TRIED = 15
"""Places tried across a piece either way."""
WHITE = "#ffffff"


def draw_island(
    pen: Pen,
    plot: Plot,
    drawing: Drawing,
    groups: Sequence[Group],
    shapes: Sequence[Shape],
    scale: float,
    corner: complex,
) -> None:
    """An island ``scale`` times as large as life, its upper left corner at ``corner``; pieces are named where there are several."""
    origin = corner - 1j * scale * plot.size.imag + scale * complex(plot.reach, plot.reach)
    for column in range(plot.columns):
        for row in range(plot.rows):
            low, high = (origin + scale * z for z in plot.cell(column, row))
            if (column, row) in plot.labels:
                pen.box(low, high, width=_GRID)
            else:
                _hatch(pen, low, high)
    for placed in plot.placed:
        _outline(pen, drawing, groups[placed.group], placed, scale, origin)
    taken = [_label(pen, plot, cell, label, scale, origin) for cell, label in plot.labels.items()]
    if len(plot.placed) > 1:
        rim = corner - 1j * scale * plot.size.imag, corner + scale * plot.size.real
        for placed in plot.placed:
            rings = [
                origin + scale * (placed.turn * ring + placed.shift) for ring in shapes[placed.group].rings
            ]
            if (box := _name(pen, name_of(groups[placed.group]), rings, taken, rim)) is not None:
                taken.append(box)


def _label(pen: Pen, plot: Plot, cell: tuple[int, int], label: str, scale: float, origin: complex) -> Box:
    low, high = (origin + scale * z for z in plot.cell(*cell))
    size = high - low
    height = min(LABEL, 0.3 * size.imag, LABEL * 0.75 * size.real / width(label, LABEL, True))
    room = complex(width(label, height, True) + 0.8, 1.1 * height) / 2
    middle = (low + high) / 2
    pen.filled(*_corners(middle - room, middle + room), colour=WHITE)
    pen.words(middle - 0.36j * height, label, height, bold=True, anchor="middle")
    # As much as the words take by their own measure, letters below the line among it.
    return middle - room - 0.15j * height, middle + room


def _name(pen: Pen, name: str, rings: Sequence[Complexes], taken: Sequence[Box], rim: Box) -> Box | None:
    """A piece's name inside it, clear of labels, of other names and of its own outline if it can be, and within the island's ``rim``.

    Where it was set; None if there is no room."""
    z = np.concatenate(rings)
    low, high = complex(z.real.min(), z.imag.min()), complex(z.real.max(), z.imag.max())
    words = shortened(name, _INNER, max(18.0, (high - low).real))
    half = complex(width(words, _INNER) / 2 + 0.3, 0.6 * _INNER)
    shares = (np.arange(_TRIED) + 0.5) / _TRIED
    x, y = np.meshgrid(low.real + shares * (high - low).real, low.imag + shares * (high - low).imag)
    middles = (x + 1j * y).ravel()
    corners = middles[:, None] + np.array([-half, half.conjugate(), half, -half.conjugate()])
    free = (
        (corners[:, 0].real >= rim[0].real)
        & (corners[:, 2].real <= rim[1].real)
        & (corners[:, 0].imag >= rim[0].imag)
        & (corners[:, 2].imag <= rim[1].imag)
    )
    for a, b in taken:
        apart = (
            (corners[:, 2].real <= a.real)
            | (corners[:, 0].real >= b.real)
            | (corners[:, 2].imag <= a.imag)
            | (corners[:, 0].imag >= b.imag)
        )
        free &= apart
    within = sum(inside(ring, corners.ravel()).reshape(corners.shape).sum(axis=1) for ring in rings)
    within = within + sum(inside(ring, middles) for ring in rings)
    # Whole inside first; then nearest to the middle of the piece.
    off = np.abs(middles - (low + high) / 2) / max(1e-9, abs(high - low))
    good = np.where(free, within - off, -np.inf)
    best = int(np.argmax(good))
    if not free[best] or within[best] < 3:
        return None
    at = complex(middles[best])
    pen.filled(*_corners(at - half, at + half), colour=WHITE)
    pen.words(at - 0.27j * _INNER, words, _INNER, anchor="middle")
    return at - half, at + half


def _corners(low: complex, high: complex) -> tuple[complex, ...]:
    return low, complex(high.real, low.imag), high, complex(low.real, high.imag)


def _hatch(pen: Pen, low: complex, high: complex) -> None:
    """Slanting lines over a cell that is not printed."""
    wide, tall = (high - low).real, (high - low).imag
    k = _HATCH
    while k < wide + tall:
        start = low + (complex(k, 0) if k <= wide else complex(wide, k - wide))
        end = low + (complex(0, k) if k <= tall else complex(k - tall, tall))
        pen.line(start, end, width=_GRID)
        k += _HATCH


def _outline(pen: Pen, drawing: Drawing, group: Group, placed: Placed, scale: float, origin: complex) -> None:
    """The line a piece is cut along, of the drafted size, as few chords."""
    for stroke in outline_strokes(drawing, group):
        flat = flatten(stroke.cubics, _CHORDS / scale).points
        z = origin + scale * (placed.turn * flat + placed.shift)
        if len(z) > 1:
            pen.line(*z.tolist(), width=_OUTLINE)
        if stroke.closed and len(z) > 1:
            pen.line(complex(z[-1]), complex(z[0]), width=_OUTLINE)


def outline_strokes(drawing: Drawing, group: Group) -> Sequence[Stroke]:
    """The strokes that show a piece's outline best: cut lines, else stitch lines, else all; of one size."""
    sizes = [drawing.base, *reversed(drawing.sizes)]
    for meanings in (("cut", "fold", "opened"), ("stitch", "fold", "opened"), None):
        fitting = [s for s in group.strokes if meanings is None or s.meaning in meanings]
        if not any(s.meaning in ("cut", "stitch", None) for s in fitting):
            continue
        for size in sizes:
            chosen = [s for s in fitting if s.facts.get("size") in (None, size)]
            if any(s.meaning != "fold" for s in chosen):
                return chosen
        return fitting
    return group.strokes
