"""Whole pieces on pages, or on one roll."""

from __future__ import annotations

import math
from collections.abc import Sequence

from notchwork.pages.arrange.filling import Filling, Laid
from notchwork.pages.arrange.kinds import Piece, pieces_of
from notchwork.pages.arrange.orders import Score, orders, sought
from notchwork.pages.arrange.paging import least_pages, paged
from notchwork.pages.arrange.placed import DoesNotFit, Placed
from notchwork.pages.arrange.raster import Raster, Stamps
from notchwork.pages.arrange.shape import Shape
from notchwork.pages.arrange.slide import slid
from notchwork.pages.arrange.ways import whole_ways
from notchwork.pages.paper import Turning

BUDGET = 1_300_000_000
"""Bits that are worked on for each piece until a layout is taken as it is: so the search ends alike on every machine."""
MOST_SOUGHT = 100
"""Pieces for which there is such a budget: for 500 small ones five times the search saved 2 of 71 pages more."""


def arranged(
    shapes: Sequence[Shape], wide: float, tall: float, gap: float, turn: Turning = "free"
) -> tuple[tuple[Placed, ...], ...]:
    """Every piece whole on one of few pages of wide x tall mm, ``gap`` mm (less 2 ROUND at most) or more between any two.

    A roll, tall = inf, is one page, kept short; it begins at y = 0. Groups that draw nothing stand on none. Raises
    DoesNotFit for pieces that fit no page whole; ``fits`` tells beforehand. The pages are in the order of their first groups.
    """
    pieces = pieces_of(shapes, gap)
    ways = {piece.kind: whole_ways(piece.kind.shape, wide, tall, turn) for piece in pieces}
    if too_big := [piece.group for piece in pieces if not ways[piece.kind]]:
        raise DoesNotFit(too_big)
    if not pieces:
        return ()
    raster = Raster.for_pieces(pieces, wide, tall, gap)
    stamps = Stamps(raster, ways)
    if math.isinf(tall):
        return (_rolled(pieces, stamps),)
    found = sought(
        orders(pieces),
        lambda order, least: paged([pieces[k] for k in order], stamps, least),
        lambda k: pieces[k].kind,
        raster,
        _budget(pieces),
        (least_pages(pieces, raster), math.inf),
    )
    pages = (tuple(sorted((each.placed for each in page), key=lambda p: p.group)) for page in found)
    return tuple(sorted(pages, key=lambda page: page[0].group))


def _rolled(pieces: Sequence[Piece], stamps: Stamps) -> tuple[Placed, ...]:
    """The pieces on a roll, kept short."""

    def tried(order: Sequence[int], least: Score | None) -> tuple[Score, list[Laid]] | None:
        page = Filling(stamps.raster)
        for k in order:
            lying = page.best(stamps[pieces[k].kind])
            assert lying is not None  # there is always room above the others
            page.put(pieces[k], *lying)
            if least is not None and page.top > least[0]:
                return None
        return (page.top,), page.laid

    found = sought(orders(pieces), tried, lambda k: pieces[k].kind, stamps.raster, _budget(pieces))
    return tuple(sorted(slid(found, stamps.raster), key=lambda placed: placed.group))


def _budget(pieces: Sequence[Piece]) -> int:
    return BUDGET * min(len(pieces), MOST_SOUGHT)
