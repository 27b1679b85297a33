"""Which letter each seam has, so that one letter means one seam in every picture."""

from __future__ import annotations

from collections.abc import Mapping

from notchwork.model import Pattern

ALPHABET = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"


def letters(pattern: Pattern) -> Mapping[str, str]:
    """By seam id, in the pattern's own order: A … Z, then AA, AB …"""
    return {ident: _letter(number) for number, ident in enumerate(pattern.seams)}


def _letter(number: int) -> str:
    more, last = divmod(number, len(ALPHABET))
    return (_letter(more - 1) if more else "") + ALPHABET[last]
