"""Annotations that name what they stand on: "EDGE: side", "DART: bust | to=side"; all others are notes.

The prefixes are this program's own, in the annotation text that the convention leaves to its users.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Final

from notchwork.drawing import Meaning
from notchwork_plugins.dxf.convention.sheet import Words

LINES: Final[Mapping[str, Meaning]] = {
    "DART": "dart",
    "PLEAT": "pleat",
    "CASING": "casing",
    "LINE": "inner",
    "PLACEMENT": "placement",
    "TOPSTITCH": "topstitch",
    "SLASH": "slash",
    "FOLD BACK": "fold-back",
}
"""What the lines inside a piece are called by."""
OTHERS: Final = (
    "EDGE",
    "MARK",
    "NOTCH",
    "CUT OUT",
    "TOWARDS",
    "GRAIN",
    "MATCH",
    "LIMIT",
    "USE",
    "BIAS TO",
    "STRIP",
)
TOGETHER = 0.05
"""mm: texts this near to each other are about one thing."""
_NAMED = re.compile(rf"({'|'.join((*LINES, *OTHERS))})\s*:\s*(.*)", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Name:
    """What a text calls the thing that it stands on, and what else it says of it."""

    kind: str
    name: str
    text: Words
    more: Mapping[str, str] = field(default_factory=dict)

    @property
    def at(self) -> complex:
        return self.text.at


def named(words: Sequence[Words]) -> tuple[list[Name], list[Words]]:
    """The texts that name something, and the others."""
    names: list[Name] = []
    notes: list[Words] = []
    towards: list[Name] = []
    for text in words:
        found = _NAMED.fullmatch(text.words)
        if found is None:
            notes.append(text)
            continue
        name, *more = (part.strip() for part in found[2].split(" | "))
        pairs = (part.partition("=") for part in more)
        one = Name(found[1].upper(), name, text, {key: value for key, _, value in pairs})
        (towards if one.kind == "TOWARDS" else names).append(one)
    return [_laid(name, towards) for name in names], notes


def _laid(name: Name, towards: Sequence[Name]) -> Name:
    """The name with the edge that a pleat is laid or a dart pressed towards, where a text of its own says so at the same place."""
    if name.kind not in ("DART", "PLEAT"):
        return name
    to = next((other.name for other in towards if abs(other.at - name.at) <= TOGETHER), None)
    return name if to is None else replace(name, more={**name.more, "to": to})
