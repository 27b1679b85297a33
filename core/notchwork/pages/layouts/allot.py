"""Which pieces go on which of the large sheets."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from notchwork.pages.arrange import Placed, arranged, fits
from notchwork.pages.joining.frame import Frame
from notchwork.pages.joining.placing import GAP, Laid, laid_on_tiles, renamed
from notchwork.pages.layouts.split import split
from notchwork.pages.order import Order

HEADER = 14.0
"""mm kept free at the top of every sheet but the first, for words."""


@dataclass(frozen=True, slots=True, eq=False)
class Whole:
    """A sheet of whole pieces: where they lie from its lower left margin, and how much is kept free above them (mm)."""

    placed: tuple[Placed, ...]
    head: float


@dataclass(frozen=True, slots=True, eq=False)
class Allotted:
    """Sheets of whole pieces, then grids of sheets that are joined, each with its own frame.

    ``head`` is how high the matter of the first page stands on the first sheet, None if it has pages of its own. ``large``
    are the pieces that fit no sheet whole.
    """

    wholes: tuple[Whole, ...]
    grids: tuple[tuple[Laid, Frame], ...]
    head: float | None
    large: tuple[int, ...]

    @property
    def joined(self) -> int:
        """How many sheets stand in grids."""
        return sum(laid.pages for laid, _ in self.grids)


def allotted(order: Order, page: complex, head: float | None) -> Allotted:
    """Pieces on few sheets of at most ``page`` mm: whole where they fit one, in grids where not."""
    is_roll = math.isinf(order.page.imag)
    wide, tall = (page - 2 * complex(order.margin, order.margin)).real, page.imag - 2 * order.margin
    there = [k for k, shape in enumerate(order.shapes) if shape.rings]
    small = [k for k in there if fits(order.shapes[k], wide, tall - HEADER, order.turn)]
    large = tuple(k for k in there if k not in small)
    kept = HEADER if head is None else head
    if is_roll and small:
        (roll,) = _arranged(order, small, wide, math.inf)
        if kept + length(order, roll) <= tall:
            return Allotted((Whole(roll, kept),), _rolled(order, large, page), head, large)
    wholes: list[Whole] = []
    rest = small
    if head is not None:
        fitting = [k for k in small if fits(order.shapes[k], wide, tall - head, order.turn)]
        first = _arranged(order, fitting, wide, tall - head)[0] if fitting else ()
        wholes.append(Whole(first, head))
        rest = [k for k in small if k not in {each.group for each in first}]
    if large and not is_roll:
        # Sheets that are joined have room for others too.
        return Allotted(tuple(wholes), _gridded(order, sorted([*rest, *large])), head, large)
    wholes += (Whole(placed, HEADER) for placed in _arranged(order, rest, wide, tall - HEADER))
    return Allotted(tuple(wholes), _rolled(order, large, page), head, large)


def length(order: Order, placed: Sequence[Placed]) -> float:
    """How far up (mm) placed pieces reach."""
    reach = (float((p.turn * order.shapes[p.group].points + p.shift).imag.max()) for p in placed)
    return max(reach, default=0.0)


def _gridded(order: Order, which: Sequence[int]) -> tuple[tuple[Laid, Frame], ...]:
    laid = laid_on_tiles([order.shapes[k] for k in which], order.frame, order.turn)
    joined = tuple(
        type(island)(renamed(island.placed, which), island.columns, island.rows, island.cells)
        for island in laid.joined
    )
    alone = tuple(renamed(page, which) for page in laid.alone)
    return ((Laid(joined, alone, laid.plain), order.frame),)


def _rolled(order: Order, large: Sequence[int], page: complex) -> tuple[tuple[Laid, Frame], ...]:
    splits = (split(order, k, page, is_roll=True) for k in large)
    return tuple((Laid((each.island,), (), 0), each.frame) for each in splits)


def _arranged(order: Order, which: Sequence[int], wide: float, tall: float) -> list[tuple[Placed, ...]]:
    pages = arranged([order.shapes[k] for k in which], wide, tall, GAP, order.turn)
    return [renamed(page, which) for page in pages]
