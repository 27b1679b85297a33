"""What the maker calls a piece or a seam."""

from __future__ import annotations

from notchwork.findings import plain_name
from notchwork.model import Pattern


def piece_name(pattern: Pattern, ident: str) -> str:
    """The piece's name as its maker wrote it (its own, never that of the piece it is like), else its id in words."""
    piece = pattern.pieces.get(ident)
    return piece.name if piece is not None and piece.name else _sentence_case(plain_name(ident))


def seam_name(pattern: Pattern, ident: str) -> str:
    """The seam's name as its maker wrote it, else its id in words: "side" is "Side seam"."""
    seam = pattern.seams.get(ident)
    if seam is not None and seam.name:
        return seam.name
    words = _sentence_case(plain_name(ident))
    return words if "seam" in words.lower().split() else f"{words} seam"


def _sentence_case(words: str) -> str:
    return words[:1].upper() + words[1:]
