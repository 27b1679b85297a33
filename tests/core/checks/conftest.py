"""A small pattern in two layers and three sizes."""

from __future__ import annotations

import pytest

from notchwork.model import Edge, Pattern, Piece, Seam, Side, Sizes, Span


@pytest.fixture
def pattern() -> Pattern:
    edges = {"side": Edge(length=400.0)}

    def seam(*targets: str) -> Seam:
        return Seam(tuple(Side((Span(target),)) for target in targets))

    return Pattern(
        version="1.0",
        sizes=Sizes(("S", "M", "L"), "M"),
        pieces={
            "front": Piece(name="Front", edges=edges),
            "back": Piece(name="Back", edges=edges),
            "lining_front": Piece(name="Lining front", like="front"),
            "lining_back": Piece(name="Lining back", like="back"),
        },
        seams={
            "side": seam("front.side", "back.side"),
            "lining_side": seam("lining_front.side", "lining_back.side"),
        },
    )
