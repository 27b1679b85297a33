"""About how wide words are, where no one can ask the browser: for breaking lines and keeping signs apart."""

from __future__ import annotations

import re
import unicodedata
from functools import lru_cache

_NARROW, _WIDE = frozenset("ijl.,:;'|!()[] 1tfrI"), frozenset("mwMW@%")
_UNSEEN = frozenset("\u2068\u2069")
MOST_LETTERS = 22
"""Longer names end in an ellipsis; the whole name stands in the details."""

_ENDLESS = re.compile(r"(\S{400})\S+")
"""Longer than any word, and than most sentences of writing that has no spaces."""


def clipped(said: str) -> str:
    """What is said, with an ellipsis in the place of the rest of any word that never ends."""
    return _ENDLESS.sub(r"\1…", said)


_BREAKS = re.compile("[ \t\r\n]+")
"""Where a line may end: not at a space that is not to be broken, as between a figure and its unit."""


_RIGHT_TO_LEFT = "\u0590-\u08ff\ufb1d-\ufdff\ufe70-\ufefc\U00010800-\U00010fff\U0001e800-\U0001eeff"
_WORD = rf"(?<!\w)\w*[{_RIGHT_TO_LEFT}](?:[^\s,;:()“”]*[\w{_RIGHT_TO_LEFT}])?"
_TURNED = re.compile(rf"{_WORD}(?:\s+{_WORD})*")


def isolated(said: str) -> str:
    """The same words, where those that are written from right to left draw no figure beside them to their other side.

    They are set between a first strong isolate and its end (Unicode Standard Annex 9, section 2.4).
    """
    return _TURNED.sub("\u2068\\g<0>\u2069", said)


def width(said: str, size: float, bold: bool = False) -> float:
    """The width in px of words in type of a size (px), rather too wide than too narrow."""
    em = sum(map(_share, said))
    return em * size * (1.08 if bold else 1.0)


@lru_cache(maxsize=4096)
def _share(sign: str) -> float:
    if unicodedata.combining(sign) or sign in _UNSEEN:
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
    for word in filter(None, _BREAKS.split(said)):
        joined = f"{found[-1]} {word}" if found else word
        if found and width(joined, size, bold) <= room:
            found[-1] = joined
        else:
            found.append(fitting(word, room, size, bold))
    return found


def fitting(word: str, room: float, size: float = 12.0, bold: bool = False) -> str:
    """The words, cut off with an ellipsis where they are wider than ``room`` px."""
    # In one pass, since a name may be as long as its maker likes.
    if len(word) <= room and width(word, size, bold) <= room:
        return word
    room -= width("…", size, bold)
    kept = 0
    for sign in word:
        room -= width(sign, size, bold)
        if room < 0.0:
            break
        kept += 1
    return word[:kept].rstrip() + "…" if kept < len(word) else word
