"""What is left of a document once all that the schema refuses is taken out, so that its references can be judged too."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Any

from notchwork.document.schemafaults import suggested, unknown_keys
from notchwork.document.validity import NAMED_SECTIONS, SchemaError, is_valid

_MAPS = ("edges", "notches", "darts", "pleats", "inner", "marks", "cutouts")
_NAMING = frozenset({*_MAPS, "outline", "outlines", "strip", "like", "edge", "name", "line"})
"""Keys of a piece by which its names come to be; where one is misspelt, nobody knows which names were meant."""

_NAMELESS_IN_NODE = frozenset({"at", "in", "out", "grade", "corner", "cut_corner"})
_SHAPES = ("outline", "outlines", "strip", "like")

Way = tuple[str | int, ...]


@dataclass(slots=True)
class Doubt:
    """What cannot be judged because its statement is faulty.

    ``known`` names the things of each section as the document was written, the faulty ones included. ``pieces`` are those
    whose inner names are not known; ``within`` holds single names of a piece that stand, though what they are could not
    be read. ``sizes``: the sizes are not known.
    """

    known: dict[str, frozenset[str]]
    pieces: set[str] = field(default_factory=set)
    within: dict[str, set[str]] = field(default_factory=dict)
    sizes: bool = False


def no_doubt(document: dict[str, Any]) -> Doubt:
    return Doubt({key: frozenset(document.get(key, ())) for key in NAMED_SECTIONS})


def remains(document: dict[str, Any], errors: Iterable[SchemaError]) -> Doubt | None:
    """Take out of ``document`` (which is changed) what is faulty, and say what cannot be judged for it.

    None where too little is left to judge anything, such as after a misspelt section.
    """
    if not all(isinstance(document.get(key, {}), dict) for key in NAMED_SECTIONS):
        return None
    doubt = no_doubt(document)
    for error in errors:
        if error.at == ("pieces",):
            return None
        if error.keyword == "additionalProperties":
            for key in unknown_keys(error):
                meant = suggested(error, key)
                if not error.at and meant in NAMED_SECTIONS:
                    return None
                if error.at[:1] == ("pieces",) and meant in _NAMING:
                    doubt.pieces.add(str(error.at[1]))
                _drop(document, (*error.at, key))
        else:
            _take_out(document, _place(error), doubt)
    document.setdefault("notchwork", "1.0")
    return doubt if is_valid(document) else None


def _place(error: SchemaError) -> Way:
    if error.keyword == "required":
        return (*error.at, error.detail["property"])
    if error.keyword == "propertyNames":
        return (*error.at, error.detail["error"].instance)
    return error.at


def _take_out(document: dict[str, Any], at: Way, doubt: Doubt) -> None:
    """Take out the smallest thing that can be spared, and note what is not known for want of it."""
    if at[:1] != ("pieces",):
        doubt.sizes |= at[:1] == ("sizes",)
        _drop(document, at[:2] if at and at[0] in NAMED_SECTIONS else at[:1])
        return
    ident, key = str(at[1]), str(at[2]) if len(at) > 2 else ""
    if key in _MAPS and len(at) > 3:
        doubt.within.setdefault(ident, set()).add(str(at[3]))
        _drop(document, at[:4])
    elif key in _SHAPES and (node := _nameless(at)):
        _drop(document, node)
        if node[-1] == "at" and isinstance(holder := _holder(document, node), dict):
            holder["at"] = [0, 0]
    elif key and key not in _NAMING:
        _drop(document, at[:3])
    else:
        doubt.pieces.add(ident)
        _drop(document, at[:2])


def _nameless(at: Way) -> Way | None:
    """The way to a key of a node that gives no name, if the fault lies in one."""
    for end in (5, 6):
        if len(at) >= end and isinstance(at[end - 2], int) and at[end - 1] in _NAMELESS_IN_NODE:
            return at[:end]
    return None


def _drop(document: dict[str, Any], at: Way) -> None:
    holder = _holder(document, at)
    if isinstance(holder, dict) and at:
        holder.pop(str(at[-1]), None)


def _holder(document: Any, at: Way) -> Any:
    """What holds the value at the end of a way; None where an earlier fault has taken it out already."""
    for part in at[:-1]:
        inside = isinstance(document, dict) and part in document
        listed = isinstance(document, list) and isinstance(part, int) and part < len(document)
        if not inside and not listed:
            return None
        document = document[part]
    return document
