"""How many pages of a grid a piece reaches into, wherever it lies in it."""

from __future__ import annotations

from functools import cached_property

import numpy as np

from notchwork.geometry.cubics import Bools, Ints
from notchwork.pages.arrange.cells import covered
from notchwork.pages.arrange.kinds import Kind
from notchwork.pages.arrange.raster import Raster, Stamp


class Spread:
    """A piece at one turn on a raster of which a page has ``columns`` x ``rows`` cells; its lower left corner lies on a cell's.

    ``reached[y, x]`` tells whether it reaches into the page whose corner lies at cell (x - columns, y - rows) seen from it.
    """

    def __init__(self, raster: Raster, columns: int, rows: int, kind: Kind, turn: complex) -> None:
        self.raster, self.columns, self.rows, self.kind, self.turn = raster, columns, rows, kind, turn
        self.page = complex(columns * raster.cell.real, rows * raster.cell.imag)
        z = turn * kind.shape.points
        low, high = complex(z.real.min(), z.imag.min()), complex(z.real.max(), z.imag.max())
        cover = covered([turn * ring for ring in kind.cover.rings], low, high - low, raster.cell)
        self.low = low
        self.tall, self.wide = cover.shape
        self.reached = _reached(cover, columns, rows)

    @cached_property
    def stamp(self) -> Stamp:
        """Its cells with half the gap round them."""
        return self.raster.stamp(self.kind, self.turn)

    @cached_property
    def pages(self) -> Ints:
        """How many pages it reaches into (rows, columns) where its corner lies that far up and right in a page."""
        return _by_offset(self._blocks.sum(axis=(0, 2)))

    @cached_property
    def joins(self) -> Ints:
        """How many pairs of these pages are neighbours, likewise."""
        blocks = self._blocks
        upright = (blocks[1:] & blocks[:-1]).sum(axis=(0, 2))
        return _by_offset(upright + (blocks[:, :, 1:] & blocks[:, :, :-1]).sum(axis=(0, 2)))

    def best(self) -> tuple[int, int, int, int]:
        """Pages, joins, and the column and row at which its corner lies in the first page, where they are fewest."""
        cost = self.pages.astype(np.int64) * (1 << 32) + self.joins
        row, column = np.unravel_index(int(cost.argmin()), cost.shape)
        return int(self.pages[row, column]), int(self.joins[row, column]), int(column), int(row)

    @property
    def _blocks(self) -> Bools:
        tall, wide = self.reached.shape
        return self.reached.reshape(tall // self.rows, self.rows, wide // self.columns, self.columns)


def _reached(cover: Bools, columns: int, rows: int) -> Bools:
    tall, wide = cover.shape
    down, across = -(-(tall + rows) // rows) * rows, -(-(wide + columns) // columns) * columns
    total = np.zeros((down + rows + 1, across + columns + 1), dtype=np.int32)
    total[rows + 1 : rows + tall + 1, columns + 1 : columns + wide + 1] = cover
    total = total.cumsum(axis=0).cumsum(axis=1)
    part = (
        total[rows:, columns:] - total[:-rows, columns:] - total[rows:, :-columns] + total[:-rows, :-columns]
    )
    found: Bools = part[:down, :across] > 0
    return found


def _by_offset(found: Ints) -> Ints:
    """From where a page begins, seen from the piece, to where the piece begins, seen from the page."""
    rows, columns = found.shape
    return found[np.ix_(-np.arange(rows) % rows, -np.arange(columns) % columns)]
