"""How pieces are called in what people read."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping

from notchwork.model import Piece


def plain_name(ident: str) -> str:
    """An id as a person would write it: ``lining_front`` becomes ``Lining front``."""
    words = ident.replace("_", " ").replace("-", " ").strip()
    return words[:1].upper() + words[1:] if words else ident


def display_names(pieces: Mapping[str, Piece]) -> dict[str, str]:
    """Every piece's own name where it has one that no other bears, else its id in plain words."""
    bearers = Counter(piece.name for piece in pieces.values())
    return {
        ident: piece.name if piece.name is not None and bearers[piece.name] == 1 else plain_name(ident)
        for ident, piece in pieces.items()
    }
