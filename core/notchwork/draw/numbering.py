"""Which of the pattern's pieces a piece is, and for which sizes it is drawn."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from notchwork.drawing import Facts
from notchwork.sewing import Nest

MOST_NAMED = 6
"""More sizes than this are told by the first and the last."""


def numbers(nest: Nest) -> Mapping[str, tuple[int, int]]:
    """By piece, its number in the pattern's order and how many there are; pieces without a shape are on no paper."""
    shaped = [graded.id for graded in nest.pieces.values() if graded.has_shape]
    return {ident: (number, len(shaped)) for number, ident in enumerate(shaped, start=1)}


def numbering(number: tuple[int, int], sizes: Sequence[str]) -> tuple[str, Facts]:
    """ "piece 3 of 12, sizes S, M, L"."""
    words = f"piece {number[0]} of {number[1]}"
    if len(sizes) > MOST_NAMED:
        words += f", {len(sizes)} sizes, {sizes[0]} to {sizes[-1]}"
    elif sizes:
        words += f", size{'s' if len(sizes) > 1 else ''} {', '.join(sizes)}"
    return words, {"kind": "numbering"}
