"""Ids out of words: unique, without dots, as their maker wrote them where that can be."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Collection

LONGEST = 40

_MADE_UP = re.compile(
    r"(?:svg|path|rect|g|use|text|tspan|group|layer|shape|object|polygon|polyline|line|circle|ellipse|image|element|block)"
    r"[\s_-]*\d*(?:[\s_-]+\d+)*",
    re.IGNORECASE,
)
_OF_A_LINE = re.compile(
    r"(?:.*[\W_])?(?:cut(?:ting)?|stitch(?:ing)?|sew(?:ing)?|seam)[\s_-]*lines?", re.IGNORECASE
)


def is_made_up(name: str) -> bool:
    """Whether a name is none of a piece: one that a drawing program gives by itself ("rect40597", "Layer 1"), or one that
    says what a layer's lines are ("size M cut line")."""
    plain = name.strip()
    said = _MADE_UP.fullmatch(plain) or _OF_A_LINE.fullmatch(plain)
    return said is not None or not any(c.isalpha() for c in name)


def slug(words: str) -> str:
    """Words as an id: "Inferior panel" is "inferior_panel"; "" where nothing is left."""
    plain = unicodedata.normalize("NFC", words).lower()
    joined = re.sub(r"[^\w]+", "_", plain, flags=re.UNICODE).strip("_")
    return joined[:LONGEST].rstrip("_")


def valid(name: str) -> str:
    """A name that was given as an id, changed only as far as the format needs."""
    kept = re.sub(r"[.#\x00-\x1f\x7f]+", "_", name).strip()
    return f"_{kept}" if kept.startswith("x-") else kept


def unique(wanted: str, taken: Collection[str], number: int = 2) -> str:
    """The name, with a number behind it, that one or a higher, where it is taken."""
    if wanted not in taken:
        return wanted
    while f"{wanted}_{number}" in taken:
        number += 1
    return f"{wanted}_{number}"
