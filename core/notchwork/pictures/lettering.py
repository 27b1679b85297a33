"""About how wide words are, where no one can ask the browser: for breaking lines and keeping signs apart."""

from __future__ import annotations

import unicodedata

_NARROW, _WIDE = frozenset("ijl.,:;'|!()[] 1tfrI"), frozenset("mwMW@%")
MOST_LETTERS = 22
"""Longer names end in an ellipsis; the whole name stands in the details."""


def width(said: str, size: float, bold: bool = False) -> float:
    """The width in px of words in type of a size (px), rather too wide than too narrow."""
    em = sum(_share(sign) for sign in said)
    return em * size * (1.08 if bold else 1.0)


def _share(sign: str) -> float:
    if unicodedata.combining(sign):
        return 0.0
    if unicodedata.east_asian_width(sign) in "WF":
        return 1.0
    if sign in _NARROW:
        return 0.36
    return 0.92 if sign in _WIDE else 0.7 if sign.isupper() else 0.62


def short(name: str, letters: int = MOST_LETTERS) -> str:
    """The name, cut off with an ellipsis where it has more letters."""
    return name if len(name) <= letters else name[: letters - 1].rstrip() + "…"


def lines(said: str, room: float, size: float = 12.0, bold: bool = False) -> list[str]:
    """Words broken into lines no wider than ``room`` px; a single word that is wider is cut off."""
    found: list[str] = []
    for word in said.split():
        joined = f"{found[-1]} {word}" if found else word
        if found and width(joined, size, bold) <= room:
            found[-1] = joined
        else:
            found.append(_fitting(word, room, size, bold))
    return found


def _fitting(word: str, room: float, size: float, bold: bool) -> str:
    if width(word, size, bold) <= room:
        return word
    kept = word
    while kept and width(kept + "…", size, bold) > room:
        kept = kept[:-1]
    return kept + "…"
