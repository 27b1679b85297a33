"""From the names of a pattern to the JSON pointer at which a thing is stated."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from notchwork.document.codec import keys_of
from notchwork.document.pointers import pointer
from notchwork.findings import Place
from notchwork.model import Node, Opening, Pattern, Piece, Side

_KEYS = {"notch": "notches", "dart": "darts", "pleat": "pleats", "mark": "marks"}


def pointer_for(pattern: Pattern, place: Place) -> str:
    """The JSON pointer (RFC 6901) of what a place names, most exactly; "" where it names nothing of the pattern.

    What a piece takes over by ``like`` is found in the piece that states it, and an edge that is only named by the node at
    which it begins, at that node.
    """
    if place.pointer is not None:
        return place.pointer
    where = Where(pattern)
    if place.seam is not None:
        return where.seam(place.seam)
    if place.piece is not None:
        for kind, key in _KEYS.items():
            name = getattr(place, kind)
            if name is not None:
                return where.in_piece(place.piece, key, name)
        return where.line(place.piece, place.line) if place.line is not None else where.piece(place.piece)
    for section in ("opening", "notion", "material"):
        if (ident := getattr(place, section)) is not None:
            return pointer(f"{section}s", ident)
    return ""


class Where:
    """The JSON pointers of the things of one pattern. Ids that the pattern does not have lead to their nearest holder."""

    def __init__(self, pattern: Pattern) -> None:
        self._pattern = pattern

    def piece(self, ident: str) -> str:
        return pointer("pieces", ident)

    def seam(self, ident: str) -> str:
        return pointer("seams", ident)

    def side(self, seam: str, side: int) -> str:
        """A side by its number from 0."""
        return pointer("seams", seam, "sides", side)

    def span(self, seam: str, side: int, span: int) -> str:
        """A span of a seam by the numbers of side and span from 0."""
        stated = self._pattern.seams[seam].sides[side]
        return self.side(seam, side) + ("" if _bare(stated) else "/spans") + pointer(span)

    def span_of_opening(self, opening: str, section: int, span: int) -> str:
        """A span of an opening by the numbers of its section (or lip) and span from 0."""
        stated: Opening = self._pattern.openings[opening]
        return pointer("openings", opening, "lips" if stated.lips is not None else "sections", section, span)

    def in_piece(self, piece: str, key: str, name: str) -> str:
        """One named notch, dart, pleat, inner line, mark, cut-out or edge (by its ``key``), where it is stated."""
        for ident, stated in self._chain(piece):
            if getattr(stated, key).get(name) is not None:
                return pointer("pieces", ident, key, name)
            if key in stated.removed or name in getattr(stated, key):
                break
        return self.piece(piece)

    def line(self, piece: str, name: str) -> str:
        """An edge, inner line or cut-out by its name: its properties, else the node at which it begins."""
        for key in ("edges", "inner", "cutouts"):
            found = self.in_piece(piece, key, name)
            if found != self.piece(piece):
                return found
        return self._node(piece, "edge", name) or self.piece(piece)

    def node(self, piece: str, name: str) -> str:
        """A named node."""
        return self._node(piece, "name", name) or self.piece(piece)

    def key_of(self, piece: str, key: str) -> str:
        """A key of a piece such as cut or outline, where it is stated."""
        for ident, stated in self._chain(piece):
            if getattr(stated, key) is not None:
                return pointer("pieces", ident, key)
        return self.piece(piece)

    def _node(self, piece: str, key: str, name: str) -> str | None:
        for at, nodes in self.lines_of(piece):
            for index, node in enumerate(nodes):
                if getattr(node, key) == name:
                    return f"{at}{pointer(index)}"
        if key == "edge" and any(stated.strip is not None for _, stated in self._chain(piece)):
            return self.key_of(piece, "strip")
        return None

    def lines_of(self, piece: str) -> Iterator[tuple[str, Sequence[Node]]]:
        """The pointers and nodes of everything a piece states by nodes."""
        for ident, stated in self._chain(piece):
            if stated.outline is not None:
                yield pointer("pieces", ident, "outline"), stated.outline
            for size, outline in (stated.outlines or {}).items():
                yield pointer("pieces", ident, "outlines", size), outline
            for key, named in (("inner", stated.inner), ("cutouts", stated.cutouts)):
                for name, line in named.items():
                    if line is not None and line.line is not None:
                        yield pointer("pieces", ident, key, name, "line"), line.line

    def _chain(self, ident: str) -> Iterator[tuple[str, Piece]]:
        """The piece and those that it is like, itself first."""
        seen = set()
        current: str | None = ident
        while current is not None and current not in seen and current in self._pattern.pieces:
            seen.add(current)
            piece = self._pattern.pieces[current]
            yield current, piece
            current = piece.like


def _bare(side: Side) -> bool:
    """Whether a side is written as a plain list of its spans."""
    return (
        side.written.isdisjoint(key.name for key in keys_of(Side))
        and not side.extra
        and side.join is None
        and side.layers == 1
    )
