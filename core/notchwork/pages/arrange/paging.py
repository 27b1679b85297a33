"""Pieces on pages in a given order: each goes on the first page that has room for it."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from itertools import chain

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
    fresh: list[Filling] = []
    for piece in pieces:
        for page in chain(begun, fresh[-OPEN:]):
            lying = page.best(stamps[piece.kind]) if page.free >= piece.kind.area else None
            if lying is not None:
                page.put(piece, *lying)
                break
        else:
            if least is not None and len(fresh) + 1 > least[0]:
                return None
            page = Filling(stamps.raster, (), stamps.raster.wide * stamps.raster.tall)
            fresh.append(page)
            lying = page.best(stamps[piece.kind])
            assert lying is not None  # it fits a page, so it fits an empty one
            page.put(piece, *lying)
    uneven = sum(sum(each.piece.kind.area for each in page.laid) ** 2 for page in fresh)
    return (len(fresh), -uneven), [page.laid for page in chain(begun, fresh)]


def least_pages(pieces: Iterable[Piece], raster: Raster) -> int:
    """No fewer pages hold the pieces, by their areas."""
    page = (raster.wide + raster.gap) * (raster.tall + raster.gap)
    return math.ceil(sum(piece.kind.solid.area for piece in pieces) / page - 1e-3)
