"""Places as SARIF states them: the file and its line, the thing by a full name and by its JSON pointer, and what stays the same.

Section numbers are those of SARIF 2.1.0, from memory.
"""

from __future__ import annotations

import json
import os
from hashlib import sha256
from pathlib import Path
from typing import Any
from urllib.parse import quote

from notchwork.findings import Place
from notchwork.report.outcome import Outcome

_KINDS = ("seam", "notch", "dart", "pleat", "mark", "opening", "notion", "material", "line")
"""What a place may name besides a piece, the first that is there."""

_RESERVED = {"%": "%25", "/": "%2F", ":": "%3A"}


class Files:
    """The files of one log by their URIs, each of which is told once (3.14.15)."""

    def __init__(self) -> None:
        self._known: dict[str, tuple[int, dict[str, Any]]] = {}

    def location(self, name: str) -> dict[str, Any]:
        """A file by its URI and its place in the list."""
        uri = _uri(name)
        number, _ = self._known.setdefault(uri, (len(self._known), {"location": {"uri": uri}}))
        return {"uri": uri, "index": number}

    def describe(self, name: str, properties: dict[str, Any]) -> None:
        """What is to be said of a file as a whole."""
        _, told = self._known[self.location(name)["uri"]]
        told["properties"] = properties

    def listed(self) -> list[dict[str, Any]]:
        """The list of all files."""
        return [told for _, told in self._known.values()]


def location(outcome: Outcome, place: Place, files: Files) -> dict[str, Any]:
    """A place in the file, and what it is called in the pattern."""
    line = outcome.line_of(place)
    physical = {"artifactLocation": files.location(outcome.name)}
    named = _names(place, outcome.pointer_of(place))
    return {
        "physicalLocation": physical | ({"region": {"startLine": line}} if line is not None else {}),
        **({"logicalLocations": named} if named else {}),
    }


def line_location(name: str, line: int | None, column: int | None, files: Files) -> dict[str, Any]:
    """A place of which no more is known than the line and the column."""
    physical = {"artifactLocation": files.location(name)}
    region = {"startLine": line, "startColumn": column}
    stated = {key: value for key, value in region.items() if value is not None}
    return {"physicalLocation": physical | ({"region": stated} if line is not None else {})}


def full_name(place: Place) -> str:
    """The ids of a place as one name, "front/seam:side"; nothing where it names nothing. What divides ids is escaped in them."""
    piece, inner = place.piece, _inner(place)
    parts = [_escaped(piece)] if piece is not None else []
    return "/".join([*parts, f"{inner[0]}:{_escaped(inner[1])}"] if inner is not None else parts)


def fingerprint(rule: str, place: Place, seen: dict[str, int]) -> str:
    """The same for the same fault at the same thing, however it is worded and however much it is off (3.27.17).

    On which of its pieces a seam's fault shows depends on how much it is off. ``seen`` counts those of one file, so that
    several faults of one rule at one thing stay apart by their order.
    """
    thing = f"seam:{_escaped(place.seam)}" if place.seam is not None else full_name(place)
    named = json.dumps([rule, thing, place.pointer])
    seen[named] = seen.get(named, 0) + 1
    return sha256(f"{named}{seen[named]}".encode()).hexdigest()[:32]


def _names(place: Place, pointer: str | None) -> list[dict[str, Any]]:
    """The thing's full name (3.33.5), and its JSON pointer."""
    inner = _inner(place) or ("piece", place.piece)
    found: list[dict[str, Any]] = []
    if inner[1] is not None:
        found.append({"name": inner[1], "fullyQualifiedName": full_name(place), "kind": inner[0]})
    if pointer is not None:
        found.append({"fullyQualifiedName": pointer, "kind": "value"})
    return found


def _inner(place: Place) -> tuple[str, str] | None:
    stated = ((kind, getattr(place, kind)) for kind in _KINDS)
    return next(((kind, ident) for kind, ident in stated if ident is not None), None)


def _escaped(ident: str) -> str:
    return "".join(_RESERVED.get(sign, sign) for sign in ident)


def _uri(name: str) -> str:
    """A relative path stays relative, so that it is found wherever the files lie; an absolute one is a file URI (RFC 8089)."""
    path = Path(name)
    return path.as_uri() if path.is_absolute() else quote(os.fsencode(path.as_posix()))
