"""What pages are called."""

from __future__ import annotations

LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"
"""Without I and O, which are taken for figures."""


def column_name(k: int) -> str:
    """The k-th column, from 0: A … Z, AA, AB …"""
    name = ""
    k += 1
    while k:
        k, letter = divmod(k - 1, len(LETTERS))
        name = LETTERS[letter] + name
    return name
