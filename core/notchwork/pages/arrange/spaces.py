"""Whole pieces on pages of their own, and in what grids leave free."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from notchwork.pages.arrange.cells import covered
from notchwork.pages.arrange.filling import Filling, Laid, Lying
from notchwork.pages.arrange.grids import Grid
from notchwork.pages.arrange.kinds import Piece
from notchwork.pages.arrange.orders import orders, sought
from notchwork.pages.arrange.paging import least_pages, paged
from notchwork.pages.arrange.raster import Raster, Stamp, Stamps

BUDGET = 3_000_000_000
"""Bits that are worked on until pages are taken as they are, once for pages alone and once with the spaces in grids."""
SPACES = 32
"""Pages of grids that are looked at, the emptiest first."""

Cell = tuple[int, int, int]
"""A page of a grid: the grid's number, column and row."""


class Pages(NamedTuple):
    """What lies on each page that whole pieces have for themselves, and in pages of grids."""

    fresh: list[list[Laid]]
    inside: dict[Cell, list[Laid]]


def pages_of(pieces: Sequence[Piece], stamps: Stamps, grids: Sequence[Grid]) -> Pages:
    """The pieces on few pages, and in grids' free spaces as far as that saves pages."""
    if not pieces:
        return Pages([], {})

    def placed_in(begun: Sequence[tuple[Stamp, float]], least: int) -> list[list[Laid]]:
        return sought(
            orders(pieces),
            lambda order, best: paged([pieces[k] for k in order], stamps, best, _begun(stamps.raster, begun)),
            lambda k: pieces[k].kind,
            stamps.raster,
            BUDGET,
            (least, math.inf),
        )

    fresh = placed_in([], least_pages(pieces, stamps.raster))
    spaces = _spaces(grids, stamps.raster, min(piece.kind.area for piece in pieces))
    if not spaces:
        return Pages(fresh, {})
    begun = [(stamp, free) for _, stamp, free in spaces]
    mixed = placed_in(begun, 0)
    number = len(mixed) - len(spaces)
    if number >= len(fresh):
        return Pages(fresh, {})
    # Pages are needed anyway: they are filled before a piece goes into a grid.
    for order in orders(pieces):
        pages = [Filling(stamps.raster) for _ in range(number)] + _begun(stamps.raster, begun)
        score, found = paged([pieces[k] for k in order], stamps, None, pages) or ((1.0,), [])
        if score[0] == 0:
            mixed = found[number:] + found[:number]
            break
    inside = {cell: laid for (cell, *_), laid in zip(spaces, mixed, strict=False) if laid}
    return Pages([page for page in mixed[len(spaces) :] if page], inside)


def _begun(raster: Raster, spaces: Sequence[tuple[Stamp, float]]) -> list[Filling]:
    return [Filling(raster, [Lying(stamp, 0)], free) for stamp, free in spaces]


def _spaces(grids: Sequence[Grid], raster: Raster, least: float) -> list[tuple[Cell, Stamp, float]]:
    """The pages of grids with free space of ``least`` mm² or more: what is taken on them, and how much (mm²) is free."""
    around = complex(raster.gap, raster.gap) / 2
    page = complex(raster.wide, raster.tall)
    found = []
    for k, grid in enumerate(grids):
        rings = [
            spread.turn * ring + grid.shift(spread, x, y)
            for piece, spread, x, y in grid.lying
            for ring in piece.kind.solid.rings
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
