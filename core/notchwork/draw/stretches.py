"""Which seams take which stretch of each line of a piece."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from notchwork.sewing import Line, Nest, Stretch
from notchwork.sewing.letters import letters
from notchwork.sewing.pieces.lines import Floats


@dataclass(frozen=True, slots=True, eq=False)
class Taken:
    """A stretch of a line that a seam takes, between two arc positions (mm, sizes); ``high`` may lie beyond a ring's end.

    ``first``: no stretch of the seam comes before it.
    """

    seam: str
    letter: str
    line: Line
    low: Floats
    high: Floats
    first: bool


def taken_stretches(nest: Nest) -> Mapping[str, tuple[Taken, ...]]:
    """By piece, every stretch with a shape that a seam takes, each once for each seam, in the order of the seams."""
    found: dict[str, dict[tuple[object, ...], Taken]] = {}
    for ident, letter in letters(nest.pattern).items():
        first = True
        for side in nest.sides[ident]:
            for stretch in side.stretches:
                if stretch.line.rows is None:
                    continue
                low, high = ends_of(stretch)
                # A seam that takes both copies of an edge has one letter on it.
                key = (
                    ident,
                    stretch.line.name,
                    *np.round(np.nan_to_num(low), 1),
                    *np.round(np.nan_to_num(high), 1),
                )
                of_piece = found.setdefault(stretch.graded.id, {})
                if key not in of_piece:
                    of_piece[key] = Taken(ident, letter, stretch.line, low, high, first)
                    first = False
    return {piece: tuple(taken.values()) for piece, taken in found.items()}


def ends_of(stretch: Stretch) -> tuple[Floats, Floats]:
    """The arc positions (mm, sizes) between which a stretch lies, in its line's order; round a ring beyond its end."""
    low, high = (stretch.start, stretch.stop) if stretch.forward else (stretch.stop, stretch.start)
    if stretch.line.closed:
        high = np.where(high <= low, high + stretch.line.length, high)
    return low, high
