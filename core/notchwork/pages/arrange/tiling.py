"""Tiles: pieces that fit a page stand whole on one, the others in grids of pages."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import partial
from itertools import product

from notchwork.pages.arrange.filling import Laid
from notchwork.pages.arrange.grid import Grid, Page
from notchwork.pages.arrange.grids import Grids
from notchwork.pages.arrange.kinds import Piece, pieces_of
from notchwork.pages.arrange.orders import Score, orders, sought
from notchwork.pages.arrange.placed import Island, Placed
from notchwork.pages.arrange.raster import Raster, Stamps
from notchwork.pages.arrange.shape import Shape
from notchwork.pages.arrange.spaces import Cell, Pages, Whole
from notchwork.pages.arrange.ways import whole_ways
from notchwork.pages.paper import Turning

BUDGET = 1_500_000_000
"""Bits that are worked on until grids are taken as they are."""

FEW = 8
"""Large pieces; with more, all their turns together are too many, and there is room enough for whole ones."""


def islands(
    shapes: Sequence[Shape], wide: float, tall: float, gap: float, turn: Turning = "free"
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
    whole = Whole(small, stamps)
    best: tuple[int, list[Grid], Pages] | None = None
    for grids in _layouts([piece for piece in pieces if not ways[piece.kind]], wide, tall, gap, turn):
        if best is not None and sum(len(grid.used) for grid in grids) >= best[0]:
            continue
        pages = whole.with_spaces(grids)
        number = sum(len(grid.used) for grid in grids) + len(pages.fresh)
        if best is None or number < best[0]:
            best = number, grids, pages
    assert best is not None
    _, grids, pages = best
    found = [island for k, grid in enumerate(grids) for island in _islands(grid, k, pages.inside)]
    for page in pages.fresh:
        found.append(Island(_in_order(each.placed for each in page), 1, 1, frozenset({(0, 0)})))
    return tuple(sorted(found, key=lambda island: island.placed[0].group))


def _layouts(
    pieces: Sequence[Piece], wide: float, tall: float, gap: float, turn: Turning
) -> Iterator[list[Grid]]:
    """Each piece in a grid of its own, then several in one: the layouts to prefer first.

    What saves no page by itself, another turn or pieces side by side, may leave more room for whole pieces.
    """
    if not pieces:
        yield []
        return
    grids = Grids(pieces, wide, tall, gap, turn)
    least = math.ceil(sum(piece.kind.area for piece in pieces) / (wide * tall) - 1e-9)
    turnable = any(len(grids.best(piece.kind)) > 1 for piece in pieces)
    choices = (0, 1) if turnable and len(pieces) <= FEW else (0,)
    for choice in choices:
        yield [grids.alone(piece, choice) for piece in pieces]
    if len(pieces) > 1:
        for choice, spare in product(choices, (0, 1) if len(pieces) <= FEW else (0,)):
            yield sought(
                orders(pieces),
                partial(_shared, grids, pieces, choice, spare),
                lambda k: pieces[k].kind,
                grids.raster,
                BUDGET // (1 + 2 * spare + choice),
                (least, math.inf),
            )


def _shared(
    grids: Grids, pieces: Sequence[Piece], choice: int, spare: int, order: Sequence[int], _: Score | None
) -> tuple[Score, list[Grid]]:
    found = grids.shared([pieces[k] for k in order], choice, spare)
    parts = sum(len(grid.parts()) for grid in found)
    pages, joins = (
        sum(numbers) for numbers in zip(*((len(grid.used), grid.joins) for grid in found), strict=True)
    )
    return (pages, -parts, joins), found


def _islands(grid: Grid, number: int, inside: Mapping[Cell, Sequence[Laid]]) -> Iterator[Island]:
    """What of a grid is to be joined, with the whole pieces in its free spaces."""
    wide, tall = grid.lying[0].spread.page.real, grid.lying[0].spread.page.imag
    inner: dict[Page, list[Placed]] = {}
    for (k, column, row), laid in inside.items():
        if k == number:
            inner[column, row] = [each.moved(complex(column * wide, row * tall)) for each in laid]
    for part in grid.parts():
        # What the raster told too often is told exactly.
        used = set[Page]().union(*(each.exact_pages() for each in part))
        placed = [each.placed for each in part] + [
            each for page in sorted(used & set(inner)) for each in inner.pop(page)
        ]
        yield _island(placed, used, wide, tall)
    for page, placed in inner.items():
        yield _island(placed, {page}, wide, tall)


def _island(placed: Sequence[Placed], used: set[Page], wide: float, tall: float) -> Island:
    """Pieces and their pages, counted from the first column and row."""
    left, low = (min(each) for each in zip(*used, strict=True))
    origin = complex(left * wide, low * tall)
    cells = frozenset((column - left, row - low) for column, row in used)
    return Island(
        _in_order(Placed(each.group, each.turn, each.shift - origin) for each in placed),
        max(column for column, _ in cells) + 1,
        max(row for _, row in cells) + 1,
        cells,
    )


def _in_order(placed: Iterable[Placed]) -> tuple[Placed, ...]:
    return tuple(sorted(placed, key=lambda each: each.group))
