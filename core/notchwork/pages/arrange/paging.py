"""Pieces on pages in a given order: each goes on the first page that has room for it."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

from notchwork.pages.arrange.filling import Filling, Laid
from notchwork.pages.arrange.kinds import Piece
from notchwork.pages.arrange.orders import Score
from notchwork.pages.arrange.raster import Raster, Stamps

OPEN = 24
"""Pages that a piece is tried on, the latest; more would make thousands of pieces slow."""


def paged(
    pieces: Iterable[Piece], stamps: Stamps, least: Score | None = None, begun: Sequence[Filling] = ()
) -> tuple[Score, list[list[Laid]]] | None:
    """The pages that pieces fill, the begun ones first, and how good that is; None where it takes more pages than ``least``.

    Of as many pages those are better that are filled unevenly: a page with little on it may yet be saved.
    """
    pages = list(begun)
    for piece in pieces:
        for page in pages[-OPEN:]:
            lying = page.best(stamps[piece.kind])
            if lying is not None:
                page.put(piece, *lying)
                break
        else:
            page = Filling(stamps.raster)
            pages.append(page)
            if least is not None and len(pages) - len(begun) > least[0]:
                return None
            lying = page.best(stamps[piece.kind])
            assert lying is not None  # it fits a page, so it fits an empty one
            page.put(piece, *lying)
    uneven = sum(sum(each.piece.kind.area for each in page.laid) ** 2 for page in pages[len(begun) :])
    return (len(pages) - len(begun), -uneven), [page.laid for page in pages]


def least_pages(pieces: Iterable[Piece], raster: Raster) -> int:
    """No fewer pages hold the pieces, by their areas."""
    page = (raster.wide + raster.gap) * (raster.tall + raster.gap)
    return math.ceil(sum(piece.kind.solid.area for piece in pieces) / page - 1e-3)
