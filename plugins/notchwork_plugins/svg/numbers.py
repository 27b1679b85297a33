"""The numbers of SVG, read strictly: what is no number is found, with its place, instead of passed over.

Source: the grammars of SVG 1.1 (8.3.9, 7.6) and SVG 2 (9.3.9). Both quantifiers without backtracking and a bound on every
number keep hostile text cheap.
"""

from __future__ import annotations

import re

SPACE = r"[ \t\r\n\f]*+"
NUMBER = r"[+-]?+(?:[0-9]++\.?+[0-9]*+|\.[0-9]++)(?:[eE][+-]?+[0-9]++)?+"
GAP = rf"{SPACE}(?:,{SPACE})?+"
"""What may stand between two numbers."""

MOST = 1e9
"""Numbers beyond this (in whatever unit) belong to no drawing of cloth, and their squares would soon be beyond all bounds."""

_NUMBER = re.compile(NUMBER)
_NUMBERS = re.compile(rf"{SPACE}(?:{NUMBER}{SPACE}(?:,{SPACE}(?=[-+.0-9]))?+)*+")


class Malformed(ValueError):
    """What is wrong, as the end of a sentence, and how many characters stand before it."""

    def __init__(self, why: str, offset: int) -> None:
        super().__init__(why, offset)
        self.why = why
        self.offset = offset


def leading_numbers(text: str) -> tuple[list[float], int]:
    """The numbers a text begins with, and how far they reach; all of it where nothing else is in it.

    Raises Malformed for a number that is too large.
    """
    match = _NUMBERS.match(text)
    assert match is not None
    end = match.end()
    numbers = list(map(float, _NUMBER.findall(text, 0, end)))
    if numbers and (max(numbers) > MOST or min(numbers) < -MOST):
        raise Malformed("a number is far too large", _offset_of_large(text, end))
    return numbers, end


def all_numbers(text: str) -> list[float]:
    """All numbers of a list. Raises Malformed where there is anything else."""
    numbers, end = leading_numbers(text)
    if end < len(text):
        raise Malformed(f"“{text[end : end + 12]}” is no number", end)
    return numbers


def _offset_of_large(text: str, end: int) -> int:
    return next((m.start() for m in _NUMBER.finditer(text, 0, end) if abs(float(m[0])) > MOST), 0)
