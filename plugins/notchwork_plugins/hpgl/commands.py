"""Strokes and words as commands of HP-GL."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator, Sequence

import numpy as np

from notchwork.drawing import Text
from notchwork.drawing.drawing import ADVANCE
from notchwork_plugins.hpgl.letters import CAPITAL

PAIRS = 40
"""As many moves stand in one command: small devices have small buffers (common practice, no source)."""
END = "\x03"
"""ETX ends the words of LB until DT says otherwise, which is never said here (HP-GL/2 manuals of several makers)."""
_CELL = 1.5
"""A letter's place is one and a half times as wide as the letter (from memory of HP-GL's SI)."""


def stroke(places: Sequence[Sequence[int]], largest: int) -> str:
    """A polyline by its places (x, y) in steps. Moves are differences of rounded places, so that nothing adds up.

    No number is beyond ``largest``: a longer move is made in two.
    """
    x, y = places[0]
    lead = f"PU;PA{x},{y};"
    moves: list[str] = []
    for to_x, to_y in places[1:]:
        dx, dy = to_x - x, to_y - y
        x, y = to_x, to_y
        if -largest <= dx <= largest and -largest <= dy <= largest:
            if dx or dy:
                moves.append(f"{dx},{dy}")
        else:
            moves += [f"{dx // 2},{dy // 2}", f"{dx - dx // 2},{dy - dy // 2}"]
    if not moves:
        return f"{lead}PD;\n"
    rows = (",".join(moves[k : k + PAIRS]) for k in range(0, len(moves), PAIRS))
    return f"{lead}PR;" + "".join(f"PD{row};\n" for row in rows)


def label(text: Text, x: int, y: int) -> str:
    """Words that the device letters, begun at a place in steps."""
    high = CAPITAL * text.height / 10.0
    wide = ADVANCE * text.height / _CELL / 10.0
    run, rise = np.cos(np.radians(text.angle)), np.sin(np.radians(text.angle))
    words = plain(text.words)
    return f"PU;PA{x},{y};SI{wide:.3f},{high:.3f};DI{run:.4f},{rise:.4f};LB{words}{END};\n"


def begun_at(text: Text) -> complex:
    """Where (mm) words begin that the device letters."""
    wide = ADVANCE * text.height * len(plain(text.words))
    back = {"start": 0.0, "middle": wide / 2, "end": wide}[text.anchor]
    return text.at - back * complex(np.exp(1j * np.radians(text.angle)))


def plain(words: str) -> str:
    """Words in the letters that every device has: no control character, so that no name can end a label and command."""
    return "".join(_plain(sign) for sign in unicodedata.normalize("NFC", words))


def replaced(words: str) -> Iterator[str]:
    """The signs that ``plain`` writes as a question mark."""
    for sign in unicodedata.normalize("NFC", words):
        if sign != "?" and _plain(sign) == "?":
            yield sign


def _plain(sign: str) -> str:
    if sign.isspace() or unicodedata.category(sign) in ("Cc", "Cf", "Cs", "Zl", "Zp"):
        return " "
    if sign.isascii():
        return sign
    spelt = _SPELT.get(sign) or "".join(c for c in unicodedata.normalize("NFKD", sign) if c.isascii())
    return spelt if spelt.isprintable() and spelt else "?"


_SPELT = {
    "×": "x", "–": "-", "—": "-", "−": "-", "‘": "'", "’": "'", "“": '"', "”": '"', "„": '"', "ß": "ss", "æ": "ae",
    "Æ": "AE", "ø": "o", "Ø": "O", "œ": "oe", "Œ": "OE", "ł": "l", "Ł": "L", "đ": "d", "Đ": "D", "ð": "d", "þ": "th",
    "Þ": "Th", "ı": "i", "·": "-", "•": "*", "→": "->", "←": "<-", "⁄": "/", "½": "1/2", "¼": "1/4", "¾": "3/4",
    "«": "<<", "»": ">>",
}  # fmt: skip
