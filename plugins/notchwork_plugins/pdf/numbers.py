"""Numbers and strings as a content stream holds them. Source: ISO 32000-1:2008, 7.3."""

from __future__ import annotations

import math

POINT = 72 / 25.4
"""Points in a mm: the unit of a page is a point (ISO 32000-1, 8.3.2.3), ours is a mm."""
DIGITS = 3
"""Decimals of a mm that are written: no printer and no cutter is as fine."""
_FINE = 9
"""Decimals of what is multiplied by lengths: of a turn or a scale; 5 m turned stay right to a millionth of a mm."""


def mm(value: float) -> str:
    """A length in mm. Raises ValueError for one that is not finite."""
    return _plain(value, DIGITS)


def fine(value: float) -> str:
    """A factor, or a length that must be exact. Raises ValueError for one that is not finite."""
    return _plain(value, _FINE)


def matrix(turn: complex, shift: complex = 0j) -> str:
    """The six numbers of z -> turn * z + shift."""
    parts = (turn.real, turn.imag, -turn.imag, turn.real, shift.real, shift.imag)
    return " ".join(map(fine, parts))


def pair(z: complex) -> str:
    """A point in mm."""
    return f"{mm(z.real)} {mm(z.imag)}"


def _plain(value: float, digits: int) -> str:
    """Without an exponent, which PDF does not know, and with no more digits than it needs."""
    if not math.isfinite(value):
        raise ValueError(f"a page cannot hold the number {value}")
    text = f"{value:.{digits}f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text
