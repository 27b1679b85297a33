"""All sizes of a piece laid one on another."""

from __future__ import annotations

from collections.abc import Sequence

from notchwork.pictures import ink
from notchwork.pictures.picture import Picture
from notchwork.sewing import Nest


def nest_pictures(nest: Nest) -> Sequence[Picture]:
    """One picture for every piece with a shape, in the pattern's order; none where the pattern has one size only."""
    if len(nest.sizes) < 2:
        return ()
    return [
        Picture(
            f"nest-{number}",
            344.0,
            30.0,
            ink.text(8, 18, piece.name, "head"),
            f"All sizes: {piece.name}",
            piece.name,
        )
        for number, piece in enumerate(nest.pieces.values())
        if piece.has_shape
    ]
