"""Whole pieces on pages of their own, and in what grids leave free."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from notchwork.pages.arrange.cells import covered
from notchwork.pages.arrange.filling import Filling, Laid, Lying
from notchwork.pages.arrange.grid import Grid
from notchwork.pages.arrange.kinds import Piece
from notchwork.pages.arrange.orders import orders, sought
from notchwork.pages.arrange.paging import least_pages, paged
from notchwork.pages.arrange.raster import Raster, Stamp, Stamps

BUDGET = 600_000_000
"""Bits that are worked on until pages are taken as they are, once for pages alone and once with the spaces in grids."""
SPACES = 32
"""Pages of grids that are looked at, the emptiest first."""

Cell = tuple[int, int, int]
"""A page of a grid: the grid's number, column and row."""


class Pages(NamedTuple):
    """What lies on each page that whole pieces have for themselves, and in pages of grids."""

    fresh: list[list[Laid]]
    inside: dict[Cell, list[Laid]]


class Whole:
    """Pieces that fit a page, and the few pages that they need by themselves."""

    def __init__(self, pieces: Sequence[Piece], stamps: Stamps) -> None:
        self._pieces, self._stamps = pieces, stamps
        self._fresh = self._laid([], least_pages(pieces, stamps.raster)) if pieces else []

    def with_spaces(self, grids: Sequence[Grid]) -> Pages:
        """The pieces on few pages, and in grids' free spaces as far as that saves pages."""
        alone = Pages(self._fresh, {})
        if not self._pieces:
            return alone
        raster = self._stamps.raster
        spaces = _spaces(grids, raster, min(piece.kind.area for piece in self._pieces))
        if not spaces:
            return alone
        begun = [(stamp, free) for _, stamp, free in spaces]
        mixed = self._laid(begun, 0)
        number = len(mixed) - len(spaces)
        if number >= len(self._fresh):
            return alone
        # Pages are needed anyway: they are filled before a piece goes into a grid.
        for order in orders(self._pieces):
            pages = [Filling(raster) for _ in range(number)] + _begun(raster, begun)
            done = paged([self._pieces[k] for k in order], self._stamps, (0,), pages)
            if done is not None:
                mixed = done[1][number:] + done[1][:number]
                break
        inside = {cell: laid for (cell, *_), laid in zip(spaces, mixed, strict=False) if laid}
        return Pages([page for page in mixed[len(spaces) :] if page], inside)

    def _laid(self, begun: Sequence[tuple[Stamp, float]], least: int) -> list[list[Laid]]:
        pieces, stamps = self._pieces, self._stamps
        return sought(
            orders(pieces),
            lambda order, best: paged([pieces[k] for k in order], stamps, best, _begun(stamps.raster, begun)),
            lambda k: pieces[k].kind,
            stamps.raster,
            BUDGET,
            (least, math.inf),
        )


def _begun(raster: Raster, spaces: Sequence[tuple[Stamp, float]]) -> list[Filling]:
    return [Filling(raster, [Lying(stamp, 0)], free) for stamp, free in spaces]


def _spaces(grids: Sequence[Grid], raster: Raster, least: float) -> list[tuple[Cell, Stamp, float]]:
    """The pages of grids with free space of ``least`` mm² or more: what is taken on them, and how much (mm²) is free."""
    around = complex(raster.gap, raster.gap) / 2
    page = complex(raster.wide, raster.tall)
    found = []
    for k, grid in enumerate(grids):
        rings = [
            each.spread.turn * ring + each.shift
            for each in grid.lying
            for ring in each.piece.kind.solid.rings
        ]
        for column, row in sorted(grid.used):
            low = complex(column * page.real, row * page.imag) - around
            taken = covered(rings, low, page + 2 * around, raster.cell)
            free = float((~taken).sum()) * raster.cell.real * raster.cell.imag
            if free >= least:
                found.append(
                    ((k, column, row), raster.stamp_of(taken, 1 + 0j, -around, page + 2 * around), free)
                )
    return sorted(found, key=lambda each: -each[2])[:SPACES]
