"""A page that is filled: each piece goes as low as it can, and there as far left."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from typing import NamedTuple

from notchwork.pages.arrange.kinds import Piece
from notchwork.pages.arrange.placed import Placed
from notchwork.pages.arrange.raster import Raster, Stamp

AT_WORK = 150
"""Pieces among which a new one seeks its place; on a roll with more, the gaps far below are closed."""


STEP = 20_000
"""Bits that are worked on in the time that one step takes whatever its size."""


class Lying(NamedTuple):
    """A stamp and the bit of its origin."""

    stamp: Stamp
    at: int


class Laid(NamedTuple):
    """A piece, the stamp it was laid with, and where on the page (mm) the stamp's lower left corner is."""

    piece: Piece
    stamp: Stamp
    corner: complex

    @property
    def placed(self) -> Placed:
        """The piece as placed."""
        return self.moved(0j)

    def moved(self, by: complex) -> Placed:
        """The piece as placed, moved on."""
        return self.piece.placed(self.stamp.turn, self.corner - self.stamp.low + by)


class Filling:
    """What lies on one page so far, and up to which row.

    ``taken`` is what nothing may lie on beside, ``free`` how many mm² that leaves.
    """

    def __init__(self, raster: Raster, taken: Iterable[Lying] = (), free: float = math.inf) -> None:
        self.raster, self.free = raster, free
        self.laid: list[Laid] = []
        self.top = 0
        self._floor = 0
        self._near = list(taken)
        for each in self._near:
            self.top = max(self.top, each.at // raster.stride + each.stamp.rows)

    def lowest(self, stamp: Stamp) -> int | None:
        """The lowest place for a stamp's origin, and there the leftmost; None if there is none."""
        raster, floor = self.raster, self._floor
        rows = self.top + 1 - floor
        if not math.isinf(raster.tall):
            rows = min(rows, stamp.most_rows)
        if stamp.across <= 0 or rows <= 0:
            return None
        taken, lower = 0, stamp.corner + floor * raster.stride
        for lying, at in self._near:
            forbidden, moved = raster.forbidden(lying, stamp), at - lower
            taken |= forbidden << moved if moved >= 0 else forbidden >> -moved
        raster.work += (len(self._near) + 2) * (rows * raster.stride + STEP)
        within = stamp.within(rows)
        free = within ^ (within & taken)
        return (free & -free).bit_length() - 1 + floor * raster.stride if free else None

    def put(self, piece: Piece, stamp: Stamp, at: int) -> None:
        """Lays a piece with its stamp's origin at a bit."""
        self.free -= piece.kind.area
        self.laid.append(Laid(piece, stamp, self.raster.corner(at)))
        self._near.append(Lying(stamp, at))
        self.top = max(self.top, at // self.raster.stride + stamp.rows)
        if len(self._near) > AT_WORK and math.isinf(self.raster.tall):
            ends = sorted(each.at // self.raster.stride + each.stamp.rows for each in self._near)
            self._floor = max(self._floor, ends[AT_WORK // 2])
            self._near = [
                each for each in self._near if each.at // self.raster.stride + each.stamp.rows > self._floor
            ]

    def best(self, ways: Sequence[Stamp]) -> Lying | None:
        """The turn and place of a piece that let it reach up least; among equals the first turn."""
        stride = self.raster.stride
        best, least = None, (math.inf, math.inf)
        for stamp in ways:
            at = self.lowest(stamp)
            if at is not None:
                reach = (at // stride + stamp.rows, at % stride + stamp.columns)
                if reach < least:
                    best, least = Lying(stamp, at), reach
        return best
