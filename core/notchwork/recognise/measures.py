"""Numbers with a unit in texts."""

from __future__ import annotations

import re

MM = {
    "mm": 1.0,
    "cm": 10.0,
    "dm": 100.0,
    "m": 1000.0,
    "in": 25.4,
    "inch": 25.4,
    "inches": 25.4,
    '"': 25.4,
    "″": 25.4,
    "''": 25.4,
    "”": 25.4,
}

_NUMBER = r"(\d+(?:[.,]\d+)?)"
_UNIT = r"(mm|cm|dm|inches|inch|in|m|\"|″|”|'')"
_MEASURE = re.compile(_NUMBER + r"\s*" + _UNIT + r"(?![a-zA-Z])", re.IGNORECASE)
_ALONE = re.compile(r"\s*[≈~]?\s*" + _NUMBER + r"\s*" + _UNIT + r"\s*", re.IGNORECASE)
_TWICE = re.compile(_NUMBER + r"\s*" + _UNIT + r"?\s*[x×*]\s*" + _NUMBER + r"\s*" + _UNIT, re.IGNORECASE)
_ALLOWANCE = re.compile(
    r"allowance|nahtzugabe|marge de couture|margen de costura|seam\s*width", re.IGNORECASE
)


def measures(words: str) -> list[float]:
    """Every length (mm) in a text; "5 x 7 cm" is two."""
    twice = _TWICE.search(words)
    if twice is not None:
        a, unit_a, b, unit_b = twice.groups()
        return [_mm(a, unit_a or unit_b), _mm(b, unit_b)]
    return [_mm(*found.groups()) for found in _MEASURE.finditer(words)]


def measure_alone(words: str) -> float | None:
    """The length (mm) that is all a text says, else None."""
    found = _ALONE.fullmatch(words)
    return None if found is None else _mm(*found.groups())


def says_allowance(words: str) -> bool:
    """Whether a text speaks of the seam allowance."""
    return _ALLOWANCE.search(words) is not None


def rounding(words: str) -> float:
    """By how much (mm) the figure in a text may be rounded: half its last digit, and half a mm at least."""
    found = _MEASURE.search(words)
    if found is None:
        return 0.5
    digits = len(found.group(1).replace(",", ".").partition(".")[2])
    return max(0.5 * 10.0**-digits * MM[found.group(2).lower()], 0.5)


def _mm(number: str, unit: str) -> float:
    return float(number.replace(",", ".")) * MM[unit.lower()]
