"""A JSON pointer in words: "Piece front, node 4" for "/pieces/front/outline/3"."""

from __future__ import annotations

from collections.abc import Iterator

from notchwork.document.pointers import parts_of

_NAMED = {
    "pieces": "piece",
    "seams": "seam",
    "openings": "opening",
    "notions": "notion",
    "materials": "material",
    "girths": "girth",
    "grade_rules": "grade rule",
    "body": "body measure",
    "edges": "edge",
    "notches": "notch",
    "darts": "dart",
    "pleats": "pleat",
    "inner": "inner line",
    "marks": "mark",
    "cutouts": "cut-out",
    "outlines": "size",
    "tolerances": "tolerance",
}
_COUNTED = {
    "outline": "node",
    "line": "node",
    "cut": "cut order",
    "sides": "side",
    "spans": "span",
    "meet": "row of meeting places",
    "sections": "section",
    "lips": "lip",
    "legs": "leg",
    "feet": "foot",
    "folds": "fold",
    "order": "step",
    "accepted": "acceptance",
}
_LISTS_OF_SPANS = ("sides", "sections", "lips")


def spoken(pointer: str) -> str:
    """The words, beginning with a capital letter; empty for the whole document."""
    words = ", ".join(_words(parts_of(pointer)))
    return words[:1].upper() + words[1:]


def _words(parts: list[str]) -> Iterator[str]:
    holder, before = "", ""
    for part in parts:
        if holder in _NAMED:
            yield f"{_NAMED[holder]} {part}"
            holder, before = "", holder
        elif part.isdigit():
            yield f"{_counted(holder, before)} {int(part) + 1}"
            holder, before = "", holder
        else:
            if holder:
                yield f'"{holder}"'
            holder, before = part, before if not holder else ""
    if holder:
        yield f'"{holder}"'


def _counted(holder: str, before: str) -> str:
    if holder in _COUNTED:
        return _COUNTED[holder]
    if not holder and before in _LISTS_OF_SPANS:
        return "span"
    if not holder and before == "outlines":
        return "node"
    return "entry" if not holder else f'"{holder}" entry'
