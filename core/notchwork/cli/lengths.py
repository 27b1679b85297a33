"""Lengths and numbers as they are stated on the command line."""

from __future__ import annotations

import re
from fractions import Fraction

from notchwork.findings import NotchworkError

_LENGTH = re.compile(r"\s*(\d+ \d+/\d+|\d+/\d+|\d+(?:[.,]\d+)?)\s*(mm|cm|in|\")?\s*")
_MM = {None: 1.0, "mm": 1.0, "cm": 10.0, "in": 25.4, '"': 25.4}


def length(option: str, text: str) -> float:
    """The mm that a person states for an option: 10, 10mm, 1cm, 3/8in. Raises NotchworkError for what is no length."""
    found = _LENGTH.fullmatch(text)
    if found is None:
        raise NotchworkError(f"{option} {text}", "This is no length.", "Write it as 10, 10mm, 1cm or 3/8in.")
    return _value(option, found[1]) * _MM[found[2]]


def number(option: str, text: str) -> float:
    """A number that a person states for an option: 2, 0.5, 1/4. Raises NotchworkError for what is none."""
    if re.fullmatch(r"\d+/\d+|\d+(?:[.,]\d+)?", text.strip()) is None:
        raise NotchworkError(f"{option} {text}", "This is no number.", "Write it as 2, 0.5 or 1/4.")
    return _value(option, text.strip())


def _value(option: str, text: str) -> float:
    try:
        return float(sum(Fraction(part.replace(",", ".")) for part in text.split()))
    except ZeroDivisionError as error:
        raise NotchworkError(f"{option} {text}", "Nothing can be divided by 0.") from error
