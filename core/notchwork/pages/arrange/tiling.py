"""Tiles: pieces that fit a page stand whole on one, the others in a grid of pages."""

from __future__ import annotations

import math
from collections.abc import Sequence

from notchwork.pages.arrange.laid import arranged
from notchwork.pages.arrange.placed import Island, Placed
from notchwork.pages.arrange.shape import Shape
from notchwork.pages.arrange.ways import fits
from notchwork.pages.paper import Turn


def islands(
    shapes: Sequence[Shape], wide: float, tall: float, gap: float, turn: Turn = "free"
) -> tuple[Island, ...]:
    """Every piece in the cells of few islands; a cell is a step of wide x tall mm of the grid of pages."""
    small = [k for k, shape in enumerate(shapes) if shape.rings and fits(shape, wide, tall, turn)]
    found = []
    for k, shape in enumerate(shapes):
        if not shape.rings or k in small:
            continue
        z = shape.points
        low = complex(z.real.min(), z.imag.min())
        columns = math.ceil((z.real.max() - low.real) / wide)
        rows = math.ceil((z.imag.max() - low.imag) / tall)
        cells = frozenset((c, r) for c in range(columns) for r in range(rows))
        found.append(Island((Placed(k, 1 + 0j, -low),), columns, rows, cells))
    for page in arranged([shapes[k] for k in small], wide, tall, gap, turn):
        placed = tuple(Placed(small[each.group], each.turn, each.shift) for each in page)
        found.append(Island(placed, 1, 1, frozenset({(0, 0)})))
    return tuple(found)
