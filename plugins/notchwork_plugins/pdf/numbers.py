"""Numbers as a content stream holds them. Source: ISO 32000-1:2008, 7.3.3.

Lengths are written as whole µm, finer than any printer or cutter: short, quick to write, and the same on every machine.
"""

from __future__ import annotations

import math

UM = 1000
"""µm in a mm."""
POINT = 72 / 25.4
"""Points in a mm: a page counts in points (ISO 32000-1, 8.3.2.3)."""
_FINE = 9
"""Decimals of what multiplies lengths: 5 m turned stay right to a millionth of a mm."""


def um(value: float) -> int:
    """A length in mm as µm. Raises ValueError for one that is not finite."""
    return round(_finite(value) * UM)


def pair(z: complex) -> str:
    """A point in mm."""
    return f"{um(z.real)} {um(z.imag)}"


def fine(value: float) -> str:
    """A factor, or a length that must be exact: no exponent, which PDF does not know, and no more digits than it needs.

    Raises ValueError for one that is not finite.
    """
    text = f"{_finite(value):.{_FINE}f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def matrix(turn: complex, shift: complex = 0j) -> str:
    """The six numbers of z -> turn * z + shift, ``shift`` in mm."""
    across, up = fine(turn.real), fine(turn.imag)
    return f"{across} {up} {fine(-turn.imag)} {across} {pair(shift)}"


def _finite(value: float) -> float:
    if not math.isfinite(value):
        raise ValueError(f"a page cannot hold the number {value}")
    return value
