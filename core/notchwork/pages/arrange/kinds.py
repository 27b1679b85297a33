"""Shapes of one kind: the same lines, wherever they lie in their own coordinates."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np

from notchwork.pages.arrange.placed import Placed
from notchwork.pages.arrange.shape import Shape, grown

_DIGITS = 4
"""Digits of a mm that count: where a piece lies in its own coordinates must change nothing."""


class Kind:
    """A shape whose lower left corner is the origin, ``cover`` the area that it takes up, ``solid`` that with half the gap all round."""

    def __init__(self, shape: Shape, gap: float) -> None:
        self.shape, self.cover, self.solid = shape, grown(shape, 0.0), grown(shape, gap / 2)
        self.area = shape.area
        z = shape.points
        self.wide, self.tall = float(z.real.max()), float(z.imag.max())


class Piece:
    """A piece to be laid: its group, its kind, and where its lower left corner lies in its own coordinates."""

    def __init__(self, group: int, kind: Kind, low: complex) -> None:
        self.group, self.kind, self.low = group, kind, low

    def placed(self, turn: complex, shift: complex) -> Placed:
        """The piece where its kind, turned, is moved by ``shift``."""
        return Placed(self.group, turn, shift - turn * self.low)


def pieces_of(shapes: Iterable[Shape], gap: float) -> list[Piece]:
    """The pieces that shapes stand for, in order; what covers nothing is left out."""
    kinds: dict[tuple[bytes, ...], Kind] = {}
    pieces = []
    for group, shape in enumerate(shapes):
        if len(z := shape.points):
            low = complex(z.real.min(), z.imag.min())
            rings = tuple(np.round(ring - low, _DIGITS) + 0.0 for ring in shape.rings)
            key = tuple(ring.tobytes() for ring in rings)
            if key not in kinds:
                kinds[key] = Kind(Shape(rings), gap)
            pieces.append(Piece(group, kinds[key], low))
    return pieces
