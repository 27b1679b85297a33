"""Papers by name, in any case, or by size."""

from __future__ import annotations

import math
import re

from notchwork.findings import NotchworkError, listed
from notchwork.pages.paper import Size

INCH = 25.4

_SHEETS: dict[str, tuple[float, float]] = {
    # ISO 216:2007, table 1.
    "A0": (841.0, 1189.0),
    "A1": (594.0, 841.0),
    "A2": (420.0, 594.0),
    "A3": (297.0, 420.0),
    "A4": (210.0, 297.0),
    "A5": (148.0, 210.0),
    # ANSI/ASME Y14.1, from memory of it; Letter, Legal and Tabloid are its sizes too, or common practice.
    "Letter": (8.5 * INCH, 11 * INCH),
    "Legal": (8.5 * INCH, 14 * INCH),
    "Tabloid": (11 * INCH, 17 * INCH),
    "ANSI C": (17 * INCH, 22 * INCH),
    "ANSI D": (22 * INCH, 34 * INCH),
    "ANSI E": (34 * INCH, 44 * INCH),
    "ARCH C": (18 * INCH, 24 * INCH),
    "ARCH D": (24 * INCH, 36 * INCH),
    "ARCH E": (36 * INCH, 48 * INCH),
    "ARCH E1": (30 * INCH, 42 * INCH),
}
_ROLLS: dict[str, float] = {
    "36 in roll": 36 * INCH,
    "24 in roll": 24 * INCH,
    "914 mm roll": 914.0,
    "610 mm roll": 610.0,
}
"""Widths that copy shops have; common practice, no source."""

_NAMED = {
    **{name: Size(name, *size) for name, size in _SHEETS.items()},
    **{name: Size(name, wide, math.inf) for name, wide in _ROLLS.items()},
}
_UNITS = {"mm": 1.0, "cm": 10.0, "in": INCH, '"': INCH, "": 1.0}
_LEAST, _MOST = 50.0, 50_000.0
"""mm: the smallest and the largest side of a paper."""
_NUMBER = r"(\d{1,6}(?:[.,]\d{1,4})?)"
_SIZED = re.compile(rf'{_NUMBER}(mm|cm|in|")?[x×*]{_NUMBER}(mm|cm|in|")?')
_ROLL = re.compile(rf'(?:roll)?{_NUMBER}(mm|cm|in|")?(?:roll)?')


def papers(text: str) -> tuple[Size, ...]:
    """The papers that a person names, several with + between them: "A4", "a4+letter", "300x400 mm", "36 in roll".

    Raises NotchworkError for what is no paper.
    """
    return tuple(_paper(part) for part in text.split("+"))


def roll_for(wide: float) -> Size | None:
    """The narrowest usual roll of at least that width (mm); None if none is so wide."""
    usual = sorted(
        (Size(name, width, math.inf) for name, width in _ROLLS.items()), key=lambda roll: roll.wide
    )
    return next((roll for roll in usual if roll.wide >= wide), None)


def _paper(text: str) -> Size:
    plain = "".join(text.split()).lower()
    if not plain:
        raise NotchworkError(
            "The paper", "No paper is named, or none beside a +.", "Say --paper A4, or --paper A4+Letter."
        )
    for name, size in _NAMED.items():
        if plain == "".join(name.split()).lower():
            return size
    if sized := _SIZED.fullmatch(plain):
        a, unit_a, b, unit_b = sized.groups()
        unit = unit_b or unit_a or ""
        return _checked(text, _mm(a, unit_a or unit), _mm(b, unit))
    if "roll" in plain and (roll := _ROLL.fullmatch(plain)):
        return _checked(text, _mm(roll[1], roll[2] or ""), math.inf)
    raise NotchworkError(
        f"Paper “{text.strip()[:40]}”",
        "There is no paper of that name.",
        f"Name {listed(tuple(_NAMED), 'or')}, or a size such as “300x400 mm” or “30 in roll”.",
    )


def _mm(number: str, unit: str) -> float:
    return float(number.replace(",", ".")) * _UNITS[unit]


def _checked(text: str, wide: float, tall: float) -> Size:
    if not (_LEAST <= wide <= _MOST and (math.isinf(tall) or _LEAST <= tall <= _MOST)):
        raise NotchworkError(
            f"Paper “{text.strip()[:40]}”",
            "No paper has that size.",
            f"Each side lies between {_LEAST:g} mm and {_MOST / 1000:g} m; a bare number counts in mm.",
        )
    return Size(" ".join(text.split()), wide, tall)
