"""A grid of pages with the pieces in it."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cached_property
from typing import NamedTuple

import numpy as np

from notchwork.geometry import groups
from notchwork.geometry.cubics import Bools
from notchwork.pages.arrange.cells import covered
from notchwork.pages.arrange.kinds import Piece
from notchwork.pages.arrange.placed import Placed
from notchwork.pages.arrange.spread import Spread

Page = tuple[int, int]
"""Column and row in a grid; either may be negative."""


class InGrid(NamedTuple):
    """A piece as it spreads in a grid, its lower left corner on that of the raster's cell (x, y)."""

    piece: Piece
    spread: Spread
    x: int
    y: int

    @property
    def shift(self) -> complex:
        """By how much (mm) the turned kind is moved."""
        cell = self.spread.raster.cell
        return complex(self.x * cell.real, self.y * cell.imag) - self.spread.low

    @property
    def placed(self) -> Placed:
        """The piece as placed."""
        return self.piece.placed(self.spread.turn, self.shift)

    def pages(self) -> set[Page]:
        """The pages that it reaches into, by the raster: sometimes one too many."""
        spread = self.spread
        column, row = self.x // spread.columns, self.y // spread.rows
        i = np.arange(spread.rows - self.y % spread.rows, spread.reached.shape[0], spread.rows)
        j = np.arange(spread.columns - self.x % spread.columns, spread.reached.shape[1], spread.columns)
        return {(column + c, row + r) for r, c in np.argwhere(spread.reached[np.ix_(i, j)]).tolist()}

    def exact_pages(self) -> set[Page]:
        """The pages that it reaches into."""
        page, told = self.spread.page, self.pages()
        left, low = (min(each) for each in zip(*told, strict=True))
        right, high = (max(each) + 1 for each in zip(*told, strict=True))
        rings = [self.spread.turn * ring + self.shift for ring in self.piece.kind.cover.rings]
        size = complex((right - left) * page.real, (high - low) * page.imag)
        reached = covered(rings, complex(left * page.real, low * page.imag), size, page)
        return {(left + column, low + row) for row, column in np.argwhere(reached).tolist()}


class Grid:
    """Pieces in one grid of pages, and the pages that they reach into."""

    def __init__(self, lying: Iterable[InGrid]) -> None:
        self.lying = tuple(lying)
        self.used: set[Page] = set().union(*(each.pages() for each in self.lying))

    def joined_by(self, piece: InGrid) -> Grid:
        """The grid with one piece more."""
        found = Grid(())
        found.lying, found.used = (*self.lying, piece), self.used | piece.pages()
        return found

    def parts(self) -> list[list[InGrid]]:
        """What must be joined: pieces that reach into common pages, and pieces that do with those."""
        at: dict[Page, int] = {}
        shared = [(at.setdefault(page, k), k) for k, each in enumerate(self.lying) for page in each.pages()]
        return [[self.lying[k] for k in part] for part in groups(len(self.lying), shared)]

    def room(self, spread: Spread, fewer: int) -> tuple[int, int, int, int] | None:
        """Where a piece can lie beside the others so that it needs fewer new pages than ``fewer``, and as few as can be.

        New pages, then the area of the box about all pieces, then column and row of its corner; None if there is no such place.
        """
        raster, columns, rows = spread.raster, spread.columns, spread.rows
        left, low = (min(each) for each in zip(*self.used, strict=True))
        right, high = (max(each) + 1 for each in zip(*self.used, strict=True))
        x0, y0 = left * columns - spread.wide + 1, low * rows - spread.tall + 1
        wide, tall = right * columns - x0, high * rows - y0
        if wide + spread.wide + 2 > raster.stride:
            return None
        x, y = np.arange(x0, x0 + wide), np.arange(y0, y0 + tall)
        new = spread.pages[np.ix_(y % rows, x % columns)].astype(np.int16)
        down, across = spread.reached.shape
        for column, row in self.used:
            # Of each place of the piece, how it lies to this page: the place further up is the page further down.
            end_x, end_y = (column + 1) * columns, (row + 1) * rows
            ya, yb = max(y0, end_y - down + 1), min(y0 + tall, end_y + 1)
            xa, xb = max(x0, end_x - across + 1), min(x0 + wide, end_x + 1)
            reached = spread.reached[end_y - yb + 1 : end_y - ya + 1, end_x - xb + 1 : end_x - xa + 1]
            new[ya - y0 : yb - y0, xa - x0 : xb - x0] -= reached[::-1, ::-1]
        raster.work += 8 * (len(self.used) + 4) * new.size
        if not (new < fewer).any():
            return None
        new[self._taken(spread, x0, y0, wide, tall)] = 32000
        least = int(new.min())
        if least >= fewer:
            return None
        there = np.argwhere(new == least)
        box = np.array([(p.x, p.y, p.x + p.spread.wide, p.y + p.spread.tall) for p in self.lying])
        px, py = there[:, 1] + x0, there[:, 0] + y0
        width = np.maximum(px + spread.wide, box[:, 2].max()) - np.minimum(px, box[:, 0].min())
        height = np.maximum(py + spread.tall, box[:, 3].max()) - np.minimum(py, box[:, 1].min())
        size = width * height
        k = int(size.argmin())
        return least, int(size[k]), int(px[k]), int(py[k])

    def _taken(self, spread: Spread, x0: int, y0: int, wide: int, tall: int) -> Bools:
        """From which cells (tall, wide), the first of them (x0, y0), a piece would lie on another or too near to it."""
        raster, stamp = spread.raster, spread.stamp
        taken = 0
        for other in self.lying:
            forbidden = raster.forbidden(other.spread.stamp, stamp)
            taken |= forbidden << ((other.y - y0) * raster.stride + other.x - x0) >> stamp.corner
        raster.work += len(self.lying) * raster.stride * tall
        size = tall * raster.stride
        taken &= (1 << size) - 1
        bits = np.frombuffer(taken.to_bytes(-(-size // 8), "little"), dtype=np.uint8)
        found: Bools = (
            np.unpackbits(bits, bitorder="little")[:size].reshape(tall, raster.stride)[:, :wide] > 0
        )
        return found

    @cached_property
    def joins(self) -> int:
        """How many pairs of used pages are neighbours."""
        return sum(((c + 1, r) in self.used) + ((c, r + 1) in self.used) for c, r in self.used)
