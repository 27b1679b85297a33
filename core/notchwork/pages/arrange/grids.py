"""Grids of pages: pieces too large for a page, each in a grid of its own or several in one."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from functools import cached_property

import numpy as np

from notchwork.geometry.cubics import Bools
from notchwork.pages.arrange.kinds import Kind, Piece
from notchwork.pages.arrange.raster import Raster
from notchwork.pages.arrange.spread import Spread
from notchwork.pages.arrange.ways import QUARTERS, flush_ways, hull
from notchwork.pages.paper import Turn

ALONG = 32
"""Cells of the raster along a page's shorter side."""
SLANTING = 24
"""Angles that are tried in half a turn, where any are allowed."""
LEVEL = 6
"""Long sides that are laid level and upright."""


class Grids:
    """The raster of a page of wide x tall mm for some pieces, and how they spread on it."""

    def __init__(self, pieces: Sequence[Piece], wide: float, tall: float, gap: float, turn: Turn) -> None:
        side = min(wide, tall) / ALONG
        self.columns, self.rows = round(wide / side), round(tall / side)
        self.page = complex(wide, tall)
        longest = max(abs(complex(piece.kind.wide, piece.kind.tall)) for piece in pieces)
        # Room for the longest piece on either side of an island that is twice as wide.
        self.raster = Raster(
            4.0 * longest + 4.0 * wide, math.inf, gap, complex(wide / self.columns, tall / self.rows)
        )
        self.turn = turn
        self._spread: dict[tuple[Kind, complex], Spread] = {}
        self._best: dict[Kind, Spread] = {}

    def spread(self, kind: Kind, way: complex) -> Spread:
        found = self._spread.get((kind, way))
        if found is None:
            found = self._spread[kind, way] = Spread(self.raster, self.columns, self.rows, kind, way)
        return found

    def best(self, kind: Kind) -> Spread:
        """The turn at which it reaches into fewest pages of a grid of its own, then with fewest joins, then as drawn.

        A slanting turn is taken only where it saves a page.
        """
        found = self._best.get(kind)
        if found is None:
            ways = QUARTERS[: 1 if self.turn == "drawn" else 2]
            found = min((self.spread(kind, way) for way in ways), key=lambda spread: spread.best()[:2])
            pages = found.best()[0]
            least = max(2, math.ceil(kind.area / (self.page.real * self.page.imag)))
            if self.turn == "free" and pages > least:
                slanting = min(
                    (Spread(self.raster, self.columns, self.rows, kind, way) for way in _slanting(kind)),
                    key=lambda spread: spread.best()[:2],
                )
                if slanting.best()[0] < pages:
                    found = self._spread[kind, slanting.turn] = slanting
            self._best[kind] = found
        return found

    def ways(self, kind: Kind) -> list[Spread]:
        """The turns at which a piece may share a grid: the one that is best alone, and the quarter turns."""
        best = self.best(kind)
        if self.turn == "drawn":
            return [best]
        turns = [*QUARTERS, *(quarter * best.turn for quarter in QUARTERS if best.turn not in QUARTERS)]
        return [self.spread(kind, way) for way in turns]


class Grid:
    """Pieces in one grid of pages: each with its spread and the cell of its lower left corner, and the pages they reach into.

    Columns and rows of pages may be negative.
    """

    def __init__(self, grids: Grids, lying: Sequence[tuple[Piece, Spread, int, int]] = ()) -> None:
        self.grids, self.lying = grids, list(lying)
        self.used: set[tuple[int, int]] = set()
        for _, spread, x, y in lying:
            self.used |= set(_pages(grids, spread, x, y))

    def with_piece(self, piece: Piece, spread: Spread, x: int, y: int) -> Grid:
        """The grid with one piece more."""
        found = Grid(self.grids)
        found.lying = [*self.lying, (piece, spread, x, y)]
        found.used = self.used | set(_pages(self.grids, spread, x, y))
        return found

    def shift(self, spread: Spread, x: int, y: int) -> complex:
        """By how much (mm) a turned piece is moved that its lower left corner lies on a cell's."""
        cell = self.grids.raster.cell
        return complex(x * cell.real, y * cell.imag) - spread.low

    def room(self, spread: Spread, fewer: int) -> tuple[int, int, int, int] | None:
        """Where a piece can lie beside the others so that it needs fewer new pages than ``fewer``, and as few as can be.

        New pages, then the area of the box about all pieces, then column and row of its corner; None if there is no such place.
        """
        grids = self.grids
        columns, rows = grids.columns, grids.rows
        left, low = (min(each) for each in zip(*self.used, strict=True))
        right, high = (max(each) + 1 for each in zip(*self.used, strict=True))
        x0, y0 = left * columns - spread.wide + 1, low * rows - spread.tall + 1
        wide, tall = right * columns - x0, high * rows - y0
        if wide + spread.wide + 2 > grids.raster.stride:
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
        grids.raster.work += 8 * (len(self.used) + 4) * new.size
        if not (new < fewer).any():
            return None
        new[self._taken(spread, x0, y0, wide, tall)] = 32000
        least = int(new.min())
        if least >= fewer:
            return None
        there = np.argwhere(new == least)
        ends = [(a, b, a + each.wide, b + each.tall) for _, each, a, b in self.lying]
        box = np.array(ends)
        px, py = there[:, 1] + x0, there[:, 0] + y0
        width = np.maximum(px + spread.wide, box[:, 2].max()) - np.minimum(px, box[:, 0].min())
        height = np.maximum(py + spread.tall, box[:, 3].max()) - np.minimum(py, box[:, 1].min())
        size = width * height
        k = int(size.argmin())
        return least, int(size[k]), int(px[k]), int(py[k])

    def _taken(self, spread: Spread, x0: int, y0: int, wide: int, tall: int) -> Bools:
        """From which cells (tall, wide), the first of them (x0, y0), a piece would lie on another or too near to it."""
        raster, stamp = self.grids.raster, spread.stamp
        taken = 0
        for _, other, x, y in self.lying:
            forbidden = raster.forbidden(other.stamp, stamp)
            taken |= forbidden << ((y - y0) * raster.stride + x - x0) >> stamp.corner
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


def alone(grids: Grids, piece: Piece) -> Grid:
    """A piece in a grid of its own."""
    spread = grids.best(piece.kind)
    _, _, x, y = spread.best()
    return Grid(grids, [(piece, spread, x, y)])


def shared(grids: Grids, pieces: Sequence[Piece]) -> list[Grid]:
    """Grids for pieces in an order: each goes into one there is, if that saves a page, else into one of its own."""
    found: list[Grid] = []
    for piece in pieces:
        own = alone(grids, piece)
        best: tuple[tuple[int, int], int, Grid] | None = None
        for k, grid in enumerate(found):
            for spread in grids.ways(piece.kind):
                room = grid.room(spread, best[0][0] + 1 if best else len(own.used))
                if room is not None and (best is None or room[:2] < best[0]):
                    best = room[:2], k, grid.with_piece(piece, spread, *room[2:])
        if best is None:
            found.append(own)
        else:
            found[best[1]] = best[2]
    return found


def _pages(grids: Grids, spread: Spread, x: int, y: int) -> Iterator[tuple[int, int]]:
    """The pages that a piece reaches into."""
    column, row = x // grids.columns, y // grids.rows
    i = np.arange(grids.rows - y % grids.rows, spread.reached.shape[0], grids.rows)
    j = np.arange(grids.columns - x % grids.columns, spread.reached.shape[1], grids.columns)
    for r, c in np.argwhere(spread.reached[np.ix_(i, j)]).tolist():
        yield column + c, row + r


def _slanting(kind: Kind) -> Iterator[complex]:
    for way in flush_ways(hull(kind.shape.points), LEVEL):
        yield way
        yield 1j * way
    for k in range(1, SLANTING):
        if 2 * k != SLANTING:
            yield complex(np.exp(1j * math.pi * k / SLANTING))
