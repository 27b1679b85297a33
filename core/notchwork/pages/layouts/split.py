"""A piece that is larger than the sheet, on several that are joined along printed lines."""

from __future__ import annotations

import numpy as np

from notchwork.pages.arrange import Island, Placed, Shape
from notchwork.pages.joining.frame import Frame
from notchwork.pages.joining.placing import needed, plain_grid
from notchwork.pages.order import Order
from notchwork.values import frozen

_ANGLES = 180
_LEAST = 60.0
"""mm: a sheet of a roll is at least so long inside its margins, for its label."""
_SPARE = 1.0
"""mm: a sheet of a roll is cut off so much beyond what it holds."""


@frozen
class Split:
    """A piece's own grid on sheets of a frame."""

    island: Island
    frame: Frame


def split(order: Order, group: int, most: complex, is_roll: bool) -> Split:
    """A piece on few sheets of at most ``most`` mm; those of a roll are no longer than it needs."""
    shape = order.shapes[group]
    ways = (1 + 0j,) if order.turn == "drawn" else (1 + 0j, 1j)
    found = [_split(order, group, shape, way, most, is_roll) for way in ways]
    return min(found, key=lambda each: (len(each.island.cells), each.frame.size.imag))


def _split(order: Order, group: int, shape: Shape, way: complex, most: complex, is_roll: bool) -> Split:
    turned = Shape(tuple(way * ring for ring in shape.rings))
    frame = Frame(most, order.margin, order.strip)
    grid = plain_grid(group, turned, frame)
    if is_roll:
        z = turned.points
        tall = float(z.imag.max() - z.imag.min())
        # Rows of one height, so that no mark lies where a sheet is cut off.
        step = (tall - order.strip) / grid.rows
        exact = max(step + order.strip + _SPARE, _LEAST) + 2 * order.margin
        frame = Frame(complex(most.real, min(most.imag, exact)), order.margin, order.strip)
        grid = plain_grid(group, turned, frame)
    placed = Placed(group, way, grid.placed[0].shift)
    island = Island((placed,), grid.columns, grid.rows, grid.cells)
    return Split(needed(island, order.shapes, frame), frame)


def extent(shape: Shape) -> tuple[float, float]:
    """About how wide (mm) a piece is where it is turned to be as narrow as it can be, and how long it is then."""
    z = shape.points
    turns = np.exp(1j * np.pi * np.arange(_ANGLES) / _ANGLES)
    turned = turns[:, None] * z
    across = np.ptp(turned.real, axis=1)
    k = int(np.argmin(across))
    return float(across[k]), float(np.ptp(turned[k].imag))
