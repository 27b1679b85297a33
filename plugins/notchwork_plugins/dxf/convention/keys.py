"""What a text of the convention says: KEY: value, in the spellings that occur, any case, with a blank after the colon or without.

The keys are from memory of ASTM D6673-10; the second spellings were seen in files.
"""

from __future__ import annotations

import re
from typing import Final

STYLE: Final = {
    "STYLE NAME": "style",
    "STYLE": "style",
    "SAMPLE SIZE": "sample size",
    "BASE SIZE": "sample size",
    "GRADE RULE TABLE": "rule table",
    "GRADING RULE TABLE": "rule table",
    "UNITS": "units",
    "UNIT": "units",
    "AUTHOR": "author",
    "CREATION DATE": "creation date",
    "CREATION TIME": "creation time",
    "VERSION": "version",
}
PIECE: Final = {
    "PIECE NAME": "piece",
    "PIECE": "piece",
    "SIZE": "size",
    "QUANTITY": "quantity",
    "QTY": "quantity",
    "MATERIAL": "material",
    "FABRIC": "material",
    "CATEGORY": "category",
    "ANNOTATION": "annotation",
}
UNITS: Final = {"METRIC": 1.0, "ENGLISH": 25.4}
"""mm in one unit of the file: METRIC is mm, ENGLISH is inches (from memory of ASTM D6673-10)."""

BOUNDARY_IS_SEWN: Final = "the boundary is the sew line, no allowance is drawn"
BOUNDARY_UNKNOWN: Final = "not known whether the boundary is the cut line or the sew line"
"""What an ANNOTATION text says of the boundary where it is no cut line; this program's own words."""

_KEYED = re.compile(r"\s*([^:：]+?)\s*[:：]\s*(.*?)\s*", re.DOTALL)
_RULE = re.compile(r"\s*#\s*(\d{1,9})\s*")


def keyed(words: str) -> tuple[str, str] | None:
    """What a text states and the value as it is written, "" where none is; None of words that begin with no key."""
    found = _KEYED.fullmatch(words)
    if found is None:
        return None
    key = " ".join(found[1].upper().replace("_", " ").split())
    known = STYLE.get(key) or PIECE.get(key)
    return None if known is None else (known, found[2])


def rule_number(words: str) -> int | None:
    """The grade rule that "# 12" refers to."""
    found = _RULE.fullmatch(words)
    return int(found[1]) if found is not None else None


def units_of(value: str) -> float | None:
    """mm in one unit, as a UNITS text states it."""
    return UNITS.get(value.strip().upper())
