"""Tiles: pieces that fit a page stand whole on one, the others in grids of pages."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence

from notchwork.pages.arrange.cells import covered
from notchwork.pages.arrange.filling import Laid
from notchwork.pages.arrange.grids import Grid, Grids, alone, shared
from notchwork.pages.arrange.kinds import Piece, pieces_of
from notchwork.pages.arrange.orders import Score, orders, sought
from notchwork.pages.arrange.placed import Island, Placed
from notchwork.pages.arrange.raster import Raster, Stamps
from notchwork.pages.arrange.shape import Shape
from notchwork.pages.arrange.spaces import Cell, pages_of
from notchwork.pages.arrange.ways import whole_ways
from notchwork.pages.paper import Turn

BUDGET = 3_000_000_000
"""Bits that are worked on until grids are taken as they are."""


def islands(
    shapes: Sequence[Shape], wide: float, tall: float, gap: float, turn: Turn = "free"
) -> tuple[Island, ...]:
    """Every piece on few pages, joined in islands; a page is a step of wide x tall mm of its island's grid.

    A piece that fits a page at a turn that is allowed is whole on one, with others, or in the free space of a grid where that
    saves pages; ``gap`` mm (less 2 ROUND at most) or more lie between any two. Every other piece has a grid of its own, turned
    and moved so that it reaches into few pages, or shares one where that saves pages. Of as few pages those are taken on which
    fewer joins are made and pieces stand as drawn. Never more pages than ceil(width / wide) x ceil(height / tall) of each piece
    as drawn, added up. Islands come in the order of their first groups; groups that draw nothing stand in none.
    """
    pieces = pieces_of(shapes, gap)
    ways = {piece.kind: whole_ways(piece.kind.shape, wide, tall, turn) for piece in pieces}
    small = [piece for piece in pieces if ways[piece.kind]]
    stamps = Stamps(Raster.for_pieces(small, wide, tall, gap), ways)
    layouts = _layouts([piece for piece in pieces if not ways[piece.kind]], wide, tall, gap, turn)
    tried = [(grids, pages_of(small, stamps, grids)) for grids in layouts]
    grids, pages = min(tried, key=lambda each: sum(len(grid.used) for grid in each[0]) + len(each[1].fresh))
    found = [_island(grid, k, pages.inside) for k, grid in enumerate(grids)]
    for page in pages.fresh:
        found.append(Island(_in_order(each.placed for each in page), 1, 1, frozenset({(0, 0)})))
    return tuple(sorted(found, key=lambda island: island.placed[0].group))


def _layouts(pieces: Sequence[Piece], wide: float, tall: float, gap: float, turn: Turn) -> list[list[Grid]]:
    """Each piece in a grid of its own; and, where that saves pages, several in one."""
    if not pieces:
        return [[]]
    grids = Grids(pieces, wide, tall, gap, turn)
    own = [alone(grids, piece) for piece in pieces]
    least = math.ceil(sum(piece.kind.area for piece in pieces) / (wide * tall) - 1e-9)
    pages = sum(len(grid.used) for grid in own)
    if pages <= least or len(pieces) == 1:
        return [own]

    def tried(order: Sequence[int], best: Score | None) -> tuple[Score, list[Grid]]:
        found = shared(grids, [pieces[k] for k in order])
        number = sum(len(grid.used) for grid in found)
        return (number, -len(found), sum(grid.joins for grid in found)), found

    best = sought(orders(pieces), tried, lambda k: pieces[k].kind, grids.raster, BUDGET, (least, math.inf))
    return [own, best] if sum(len(grid.used) for grid in best) < pages else [own]


def _island(grid: Grid, number: int, inside: Mapping[Cell, Sequence[Laid]]) -> Island:
    """A grid with the whole pieces in its free spaces, its first column and row used at least once."""
    wide, tall = grid.grids.page.real, grid.grids.page.imag
    large = [(piece, spread.turn, grid.shift(spread, x, y)) for piece, spread, x, y in grid.lying]
    # What the raster told too often is told exactly.
    low_column, low_row = (min(each) for each in zip(*grid.used, strict=True))
    columns, rows = (
        max(each) - low + 1
        for each, low in zip(zip(*grid.used, strict=True), (low_column, low_row), strict=True)
    )
    low = complex(low_column * wide, low_row * tall)
    rings = [turn * ring + shift for piece, turn, shift in large for ring in piece.kind.cover.rings]
    reached = covered(rings, low, complex(columns * wide, rows * tall), complex(wide, tall))
    used = {(c + low_column, r + low_row) for r in range(rows) for c in range(columns) if reached[r, c]}
    placed = [piece.placed(turn, shift) for piece, turn, shift in large]
    for (k, column, row), laid in inside.items():
        if k == number and laid:
            used.add((column, row))
            placed += (each.moved(complex(column * wide, row * tall)) for each in laid)
    low_column, low_row = (min(each) for each in zip(*used, strict=True))
    origin = complex(low_column * wide, low_row * tall)
    cells = frozenset((c - low_column, r - low_row) for c, r in used)
    return Island(
        _in_order(Placed(each.group, each.turn, each.shift - origin) for each in placed),
        max(c for c, _ in cells) + 1,
        max(r for _, r in cells) + 1,
        cells,
    )


def _in_order(placed: Iterable[Placed]) -> tuple[Placed, ...]:
    return tuple(sorted(placed, key=lambda each: each.group))
