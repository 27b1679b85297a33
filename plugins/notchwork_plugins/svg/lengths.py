"""Lengths with their units, in user units.

Source: CSS Values and Units 4, 6.2 (an inch is 96 px, 72 pt, 6 pc, 2.54 cm); SVG 2, 8.9 (what percentages are of).
"""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from dataclasses import dataclass

from notchwork_plugins.svg.numbers import MOST, NUMBER, SPACE

PX_PER_INCH = 96.0
MM_PER_INCH = 25.4

PER_INCH: Mapping[str, float] = {"in": 1.0, "cm": 2.54, "mm": 25.4, "q": 101.6, "pt": 72.0, "pc": 6.0}
"""How many of each unit are an inch. A px is left out: what it is depends on who wrote the drawing."""

_PER_EM: Mapping[str, float] = {"em": 1.0, "ex": 0.5, "ch": 0.5}
_LENGTH = re.compile(rf"{SPACE}({NUMBER})([A-Za-z]*+|%){SPACE}")


@dataclass(frozen=True, slots=True)
class Measure:
    """A number and its unit in small letters, "" where it has none."""

    number: float
    unit: str


@dataclass(frozen=True, slots=True)
class Frame:
    """What lengths are measured against: the size of the viewport in user units, None where it is not known, and px per inch."""

    size: complex | None = None
    px_per_inch: float = PX_PER_INCH

    def share(self, along: str) -> float | None:
        """What a percentage is of: the width ("x"), the height ("y") or their quadratic mean ("")."""
        if self.size is None:
            return None
        if along == "x":
            return self.size.real
        return self.size.imag if along == "y" else abs(self.size) / math.sqrt(2.0)


def measure(text: str) -> Measure | None:
    """A length as it is written; None for anything else."""
    found = _LENGTH.fullmatch(text)
    if found is None:
        return None
    number = float(found[1])
    return Measure(number, found[2].lower()) if abs(number) <= MOST else None


def length(text: str, frame: Frame, along: str, font_size: float) -> float | None:
    """A length in user units; None where it is no length, in an unknown unit, or a share of an unknown size."""
    try:
        number = float(text)
    except ValueError:
        pass
    else:
        # What float() reads beyond SVG's own numbers: nan, inf, 1_000, and digits of other scripts.
        if abs(number) <= MOST and "_" not in text and text.isascii():
            return number
    said = measure(text)
    if said is None:
        return None
    if said.unit in ("", "px"):
        return said.number
    if said.unit == "%":
        whole = frame.share(along)
        return None if whole is None else whole * said.number / 100.0
    if said.unit in PER_INCH:
        return said.number * frame.px_per_inch / PER_INCH[said.unit]
    return said.number * _PER_EM[said.unit] * font_size if said.unit in _PER_EM else None
