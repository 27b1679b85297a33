"""Pieces in the cells of pages that are joined, or whole on pages of their own."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

import numpy as np

from notchwork.geometry import inside
from notchwork.pages.arrange import Island, Placed, Shape, arranged, fits, islands
from notchwork.pages.joining.frame import Cell, Frame, cell_corners
from notchwork.pages.joining.touch import crossing
from notchwork.pages.paper import Turning
from notchwork.values import frozen

GAP = 4.0
"""mm between pieces on a page: room for scissors."""


@frozen
class Laid:
    """Joined: islands whose cell (0, 0) lies at ``Frame.corner``. Alone: pages of whole pieces, from ``Frame.low``.

    ``plain`` is how many pages it would take if every piece, as it is drawn, had a grid of its own.
    """

    joined: tuple[Island, ...]
    alone: tuple[tuple[Placed, ...], ...]
    plain: int

    @property
    def pages(self) -> int:
        """How many pages they take."""
        return sum(len(island.cells) for island in self.joined) + len(self.alone)


def laid_on_tiles(shapes: Sequence[Shape], frame: Frame, turn: Turning) -> Laid:
    """Every piece whole on a page where it fits one, the others in few cells."""
    wide, tall = frame.usable.real, frame.usable.imag
    # A page that is joined to none has its strips for itself: a little more fits on it than in a cell.
    barely = [
        k
        for k, shape in enumerate(shapes)
        if shape.rings
        and fits(shape, wide, tall, turn)
        and not fits(shape, frame.step.real, frame.step.imag, turn)
    ]
    others = [k for k, shape in enumerate(shapes) if shape.rings and k not in barely]
    found = [
        Island(renamed(island.placed, others), island.columns, island.rows, island.cells)
        for island in islands([shapes[k] for k in others], frame.step.real, frame.step.imag, GAP, turn)
    ]
    plain = {k: plain_grid(k, shape, frame) for k, shape in enumerate(shapes) if shape.rings}
    joined = [_fewer(island, plain, shapes, frame) for island in found if len(island.cells) > 1]
    alone = [island.placed for island in found if len(island.cells) == 1]
    small = sorted([*barely, *(placed.group for page in alone for placed in page)])
    anew = [renamed(page, small) for page in arranged([shapes[k] for k in small], wide, tall, GAP, turn)]
    if len(anew) > len(alone) + len(barely):
        anew = [*alone, *((_whole(k, shapes[k], frame, turn)) for k in barely)]
    joined.sort(key=lambda island: -len(island.cells))
    return Laid(tuple(joined), tuple(anew), sum(len(island.cells) for island in plain.values()))


def plain_grid(group: int, shape: Shape, frame: Frame) -> Island:
    """A piece as it is drawn in a grid of its own; its outer cells use their strips too."""
    low, high = _bounds(shape)
    size = high - low
    columns = max(1, math.ceil((size.real - frame.strip) / frame.step.real))
    rows = max(1, math.ceil((size.imag - frame.strip) / frame.step.imag))
    shift = -low - complex(frame.reach, frame.reach)
    cells = frozenset((column, row) for column in range(columns) for row in range(rows))
    return Island((Placed(group, 1 + 0j, shift),), columns, rows, cells)


def reaches(shape: Shape, placed: Placed, cell: Cell, island: Island, frame: Frame) -> bool:
    """Whether a placed shape covers anything of a cell of an island."""
    low, high = cell_corners(cell, island.columns, island.rows, frame.step, frame.reach)
    for ring in shape.rings:
        z = placed.turn * ring + placed.shift
        if crossing(z, np.roll(z, -1), low, high).any() or inside(z, np.array([low]))[0]:
            return True
    return False


def _fewer(island: Island, plain: dict[int, Island], shapes: Sequence[Shape], frame: Frame) -> Island:
    """An island, or the plain grid of its only piece if that takes fewer pages."""
    if len(island.placed) > 1:
        return island
    own = needed(plain[island.placed[0].group], shapes, frame)
    return own if len(own.cells) < len(island.cells) else island


def needed(island: Island, shapes: Sequence[Shape], frame: Frame) -> Island:
    """An island without the cells that no piece reaches into."""
    cells = frozenset(
        cell
        for cell in island.cells
        if any(reaches(shapes[placed.group], placed, cell, island, frame) for placed in island.placed)
    )
    return replace(island, cells=cells)


def _whole(k: int, shape: Shape, frame: Frame, turn: Turning) -> tuple[Placed, ...]:
    page = arranged([shape], frame.usable.real, frame.usable.imag, GAP, turn)[0]
    return tuple(renamed(page, [k]))


def renamed(placed: Sequence[Placed], numbers: Sequence[int]) -> tuple[Placed, ...]:
    """Placed groups that were counted among some, by their numbers among all."""
    return tuple(Placed(numbers[each.group], each.turn, each.shift) for each in placed)


def _bounds(shape: Shape) -> tuple[complex, complex]:
    z = shape.points
    return complex(z.real.min(), z.imag.min()), complex(z.real.max(), z.imag.max())


def cells_in_order(island: Island) -> Iterator[Cell]:
    """Row by row from the top, each from the left: as pages are laid out to be joined."""
    yield from sorted(island.cells, key=lambda cell: (-cell[1], cell[0]))
