"""Which entities draw lines, which write words, and which are set aside or cannot be read."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Mapping

from notchwork.findings import Count, Finding, Place, Rule, safe
from notchwork_plugins.dxf.file import Entity
from notchwork_plugins.dxf.plain.polylines import is_mesh
from notchwork_plugins.dxf.plain.rules import ASIDE, NOT_READ

CURVES = frozenset(
    ("LINE", "ARC", "CIRCLE", "ELLIPSE", "SPLINE", "LWPOLYLINE", "POLYLINE", "POINT", "SOLID", "TRACE")
)
WORDS = frozenset(("TEXT", "MTEXT", "ATTRIB"))
NOT_DRAWN = frozenset(("ATTDEF", "SEQEND", "VERTEX", "VIEWPORT"))
"""What stands for nothing on the drawing: forms for texts that INSERTs fill in, ends, windows."""

_ASIDE: Mapping[str, str] = {
    "DIMENSION": "dimensions",
    "ARC_DIMENSION": "dimensions",
    "LARGE_RADIAL_DIMENSION": "dimensions",
    "HATCH": "hatches",
    "MPOLYGON": "hatches",
    "LEADER": "leaders",
    "MULTILEADER": "leaders",
    "MLEADER": "leaders",
    "TOLERANCE": "signs of tolerance",
    "XLINE": "lines without end",
    "RAY": "lines without end",
    "WIPEOUT": "covers",
    "LIGHT": "lights",
    "SUN": "lights",
}
_NOT_READ: Mapping[str, str] = {
    "3DSOLID": "bodies in space",
    "BODY": "bodies in space",
    "REGION": "regions",
    "SURFACE": "surfaces in space",
    "3DFACE": "surfaces in space",
    "MESH": "surfaces in space",
    "IMAGE": "pictures",
    "OLE2FRAME": "contents of other programs",
    "OLEFRAME": "contents of other programs",
    "ACAD_TABLE": "tables",
    "MLINE": "lines of several strokes",
    "HELIX": "curves in space",
    "SHAPE": "signs from shape files",
}
_OF_BLOCKS: Mapping[str, str] = {"*D": "dimensions", "*X": "hatches"}
"""What blocks without a name of their own hold, by how they are called."""
_ARROW = re.compile(
    r"\*.*|_(?:filled|closed\w*|dot\w*|small|origin2?|open\d*|oblique|archtick|box\w*|datum\w*|integral|none)",
    re.IGNORECASE,
)
"""Blocks that a CAD program makes by itself: arrow heads, and those that start with a star."""
_HELPING = frozenset(("DEFPOINTS",))
_LINES = 3
"""As many lines of the file are named for one sort."""


def is_made_up(name: str) -> bool:
    """Whether a block is one that a CAD program made by itself, such as an arrow head."""
    return _ARROW.fullmatch(name) is not None


class Sorts:
    """Takes away what draws no piece, and remembers it."""

    def __init__(self) -> None:
        self._count: Counter[tuple[str, str]] = Counter()
        self._lines: dict[tuple[str, str], list[int]] = {}
        self._seen: set[int] = set()

    def is_on_paper(self, entity: Entity) -> bool:
        """Whether an entity lies on a sheet for printing, and not in the drawing itself."""
        if 67 not in entity.codes or not entity.flag(67):
            return False
        if entity.kind != "VIEWPORT":
            self._take("aside", "parts on sheets for printing (paper space)", entity)
        return True

    def sets_aside(self, entity: Entity, layer: str) -> bool:
        """Whether an entity draws no piece; it is then taken away."""
        kind = entity.kind
        if layer.upper() in _HELPING:
            self._take("aside", f"parts on the layer {safe(layer)[:40]}", entity)
        elif kind in _ASIDE:
            self._take("aside", _ASIDE[kind], entity)
        elif is_mesh(entity):
            self._take("unread", "surfaces in space", entity)
        elif kind == "INSERT" and entity.text(2).strip()[:2].upper() in _OF_BLOCKS:
            self._take("aside", _OF_BLOCKS[entity.text(2).strip()[:2].upper()], entity)
        elif kind in CURVES or kind in WORDS or kind == "INSERT":
            return False
        else:
            named = _NOT_READ.get(kind) or ("surfaces in space" if kind.endswith("SURFACE") else "")
            self._take("unread", f"{named} ({safe(kind)[:30]})" if named else safe(kind)[:30], entity)
        return True

    def _take(self, what: str, sort: str, entity: Entity) -> None:
        """Each once, however often its block is placed."""
        if id(entity) in self._seen:
            return
        self._seen.add(id(entity))
        self._count[what, sort] += 1
        lines = self._lines.setdefault((what, sort), [])
        if len(lines) < _LINES:
            lines.append(entity.line)

    def findings(self) -> Iterator[Finding]:
        """One finding for each sort."""
        for (what, sort), count in self._count.items():
            rule, text, hint = _SAID[what]
            lines = [str(line) for line in self._lines[what, sort]]
            if count > len(lines):
                lines.append("more")
            where = "line" if count == 1 else "lines"
            values = {"sort": sort, "count": Count(count), "lines": tuple(lines), "where": where}
            yield Finding(rule, Place(), text, hint, values)


_SAID: Mapping[str, tuple[Rule, str, str]] = {
    "aside": (ASIDE, "Set aside: {sort}, {count} ({where} {lines}).", ""),
    "unread": (
        NOT_READ,
        "Not read: {sort}, {count} ({where} {lines}).",
        "If it belongs to a piece, draw it with lines, arcs, polylines or splines.",
    ),
}
