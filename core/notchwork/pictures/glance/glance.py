"""All pieces of a pattern in one size, at one scale."""

from __future__ import annotations

from collections.abc import Mapping

from notchwork.checks import Verdict
from notchwork.pictures import ink
from notchwork.pictures.picture import Picture
from notchwork.sewing import Nest

WIDE = 344.0
"""px: the width of every picture."""


def glance_pictures(nest: Nest, verdict: Verdict) -> Mapping[str | None, Picture]:
    """The pattern at a glance, one picture for every size; by None where the pattern has one size only."""
    return {size: _picture(nest, verdict, number) for number, size in enumerate(nest.sizes)}


def _picture(nest: Nest, verdict: Verdict, size: int) -> Picture:
    shown = [piece.name for piece in nest.pieces.values() if piece.has_shape and piece.present[size]]
    key = f"glance-{size}"
    return Picture(
        key,
        WIDE,
        30.0,
        ink.text(8, 18, "The pattern at a glance", "head"),
        "The pattern at a glance",
        ", ".join(shown),
    )
