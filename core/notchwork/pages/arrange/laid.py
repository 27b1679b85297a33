"""Whole pieces on pages, or on one roll."""

from __future__ import annotations

import math
from collections.abc import Sequence

from notchwork.pages.arrange.placed import DoesNotFit, Placed
from notchwork.pages.arrange.shape import Shape
from notchwork.pages.paper import Turn


def arranged(
    shapes: Sequence[Shape], wide: float, tall: float, gap: float, turn: Turn = "free"
) -> tuple[tuple[Placed, ...], ...]:
    """Every piece whole on one of few pages of wide x tall mm, ``gap`` mm between any two.

    A roll, tall = inf, is one page, kept short; it begins at y = 0. Groups that draw nothing stand on none. Raises
    DoesNotFit for pieces that fit no page whole; ``fits`` tells beforehand.
    """
    if too_big := [k for k, shape in enumerate(shapes) if shape.rings and not fits(shape, wide, tall, turn)]:
        raise DoesNotFit(too_big)
    pages: list[list[Placed]] = []
    x = y = row = math.inf
    order = [k for k, shape in enumerate(shapes) if shape.rings]
    for k in order:
        way = _way(shapes[k], wide, tall, turn)
        z = way * shapes[k].points
        low, size = (
            complex(z.real.min(), z.imag.min()),
            complex(z.real.max() - z.real.min(), z.imag.max() - z.imag.min()),
        )
        if x + size.real > wide:
            x, y, row = 0.0, y + row + gap, 0.0
        if not pages or y + size.imag > tall:
            pages.append([])
            x = y = row = 0.0
        pages[-1].append(Placed(k, way, complex(x, y) - low))
        x += size.real + gap
        row = max(row, size.imag)
    return tuple(tuple(page) for page in pages)


def fits(shape: Shape, wide: float, tall: float, turn: Turn = "free") -> bool:
    """Whether a piece fits a page whole at a turn that is allowed."""
    return _way(shape, wide, tall, turn) != 0


def _way(shape: Shape, wide: float, tall: float, turn: Turn) -> complex:
    for way in (1 + 0j,) if turn == "drawn" else (1 + 0j, 1j):
        z = way * shape.points
        if z.real.max() - z.real.min() <= wide and z.imag.max() - z.imag.min() <= tall:
            return way
    return 0j
