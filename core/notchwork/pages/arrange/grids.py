"""Grids of pages: pieces too large for a page, each in a grid of its own or several in one."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

import numpy as np

from notchwork.pages.arrange.cells import count
from notchwork.pages.arrange.grid import Grid, InGrid
from notchwork.pages.arrange.kinds import Kind, Piece
from notchwork.pages.arrange.raster import Raster
from notchwork.pages.arrange.spread import Spread
from notchwork.pages.arrange.ways import QUARTERS, flush_ways, hull
from notchwork.pages.paper import Turning

ALONG = 32
"""Cells of the raster along a page's shorter side."""
SLANTING = 24
"""Angles that are tried in half a turn, where any are allowed."""
LEVEL = 6
"""Long sides that are laid level and upright."""
PROMISING = 4
"""Slanting turns that are looked at closely."""
OPEN = 6
"""Grids that a piece is tried in, the latest; more would make hundreds of pieces slow."""
MOST = 20
"""Pages of a grid that takes no more pieces: more are hard to join on a table, and save little. With 60 the demo takes 51 pages of A4,
47 of them joined in one; with 20 it takes 55."""


class Grids:
    """The raster of a page of wide x tall mm for some pieces, and how they spread on it."""

    def __init__(self, pieces: Sequence[Piece], wide: float, tall: float, gap: float, turn: Turning) -> None:
        sides = [side + gap for piece in pieces for side in (piece.kind.wide, piece.kind.tall)]
        side = min(wide, tall) / ALONG
        self.columns, self.rows = _number(wide, side, sides), _number(tall, side, sides)
        self.page = complex(wide, tall)
        longest = max(abs(complex(piece.kind.wide, piece.kind.tall)) for piece in pieces)
        # Room for the longest piece on either side of an island that is twice as wide.
        room, cell = 4.0 * (longest + wide), complex(wide / self.columns, tall / self.rows)
        self.raster = Raster(room, math.inf, gap, cell)
        self.turn = turn
        self._spread: dict[tuple[Kind, complex], Spread] = {}
        self._best: dict[Kind, list[Spread]] = {}

    def spread(self, kind: Kind, way: complex) -> Spread:
        """How a piece spreads at a turn."""
        found = self._spread.get((kind, way))
        if found is None:
            found = self._spread[kind, way] = Spread(self.raster, self.columns, self.rows, kind, way)
        return found

    def best(self, kind: Kind) -> list[Spread]:
        """The turns at which it reaches into fewest pages of a grid of its own: with fewest joins first, then as drawn.

        A slanting turn is taken only where it saves a page.
        """
        found = self._best.get(kind)
        if found is None:
            ways = QUARTERS[: 1 if self.turn == "drawn" else 2]
            found = sorted((self.spread(kind, way) for way in ways), key=lambda spread: spread.best()[:2])
            pages = found[0].best()[0]
            least = max(2, math.ceil(kind.area / (self.page.real * self.page.imag)))
            if self.turn == "free" and pages > least:
                slanting = min(self._slanting(kind), key=lambda spread: spread.best()[:2])
                if slanting.best()[0] < pages:
                    pages, found = slanting.best()[0], [slanting]
            found = self._best[kind] = [spread for spread in found if spread.best()[0] == pages]
        return found

    def _slanting(self, kind: Kind) -> list[Spread]:
        """The most promising turns of many, by a raster half as fine."""
        columns, rows = self.columns // 2, self.rows // 2
        cell = complex(self.page.real / columns, self.page.imag / rows)
        rough = Raster(self.raster.wide, math.inf, self.raster.gap, cell)
        tried = [Spread(rough, columns, rows, kind, way) for way in _slanting(kind)]
        tried.sort(key=lambda spread: spread.best()[:2])
        return [self.spread(kind, spread.turn) for spread in tried[:PROMISING]]

    def ways(self, kind: Kind) -> list[Spread]:
        """The turns at which a piece may share a grid: the one that is best alone, and the quarter turns."""
        best = self.best(kind)[0]
        if self.turn == "drawn":
            return [best]
        turns = [*QUARTERS, *(quarter * best.turn for quarter in QUARTERS if best.turn not in QUARTERS)]
        return [self.spread(kind, way) for way in turns]

    def alone(self, piece: Piece, choice: int = 0) -> Grid:
        """A piece in a grid of its own; ``choice`` counts through the turns that need as few pages."""
        ways = self.best(piece.kind)
        spread = ways[choice % len(ways)]
        _, _, x, y = spread.best()
        return Grid((InGrid(piece, spread, x, y),))

    def shared(self, pieces: Sequence[Piece], choice: int = 0, spare: int = 0) -> list[Grid]:
        """Grids for pieces in an order: each goes into one there is if that saves a page, else into one of its own.

        ``spare`` = 1 lets it go there too if that takes as many.
        """
        found: list[Grid] = []
        for piece in pieces:
            own = self.alone(piece, choice)
            best: tuple[tuple[int, int], int, Grid] | None = None
            takes = [k for k, grid in enumerate(found) if len(grid.used) < MOST]
            for k in takes[-OPEN:]:
                grid = found[k]
                for spread in self.ways(piece.kind):
                    room = grid.room(spread, best[0][0] + 1 if best else len(own.used) + spare)
                    if room is not None and (best is None or room[:2] < best[0]):
                        best = room[:2], k, grid.joined_by(InGrid(piece, spread, *room[2:]))
            if best is None:
                found.append(own)
            else:
                found[best[1]] = best[2]
        return found


def _number(page: float, side: float, lengths: Sequence[float]) -> int:
    """Into how many cells of about ``side`` mm a page is divided, so that the lengths of pieces lose least on whole cells."""

    def lost(number: int) -> float:
        cell = page / number
        return sum(count(length, cell) * cell - length for length in lengths)

    about = round(page / side)
    return min(range(about, about + about // 4 + 1), key=lambda number: (round(lost(number), 6), number))


def _slanting(kind: Kind) -> Iterator[complex]:
    for way in flush_ways(hull(kind.shape.points), LEVEL):
        yield way
        yield 1j * way
    for k in range(1, SLANTING):
        if 2 * k != SLANTING:
            yield complex(np.exp(1j * math.pi * k / SLANTING))
