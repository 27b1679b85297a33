"""From the maker's names to the place in the document."""

from __future__ import annotations

from notchwork.document.pointers import pointer
from notchwork.findings import Place
from notchwork.model import Pattern, Piece


def pointer_of(place: Place, pattern: Pattern) -> str | None:
    """The JSON pointer of the nearest thing that the document states itself; None for a place without any name."""
    if place.pointer is not None:
        return place.pointer
    for kind, ident, named in (
        ("seams", place.seam, pattern.seams),
        ("openings", place.opening, pattern.openings),
        ("notions", place.notion, pattern.notions),
        ("materials", place.material, pattern.materials),
    ):
        if ident is not None and ident in named:
            return pointer(kind, ident)
    if place.piece is not None and place.piece in pattern.pieces:
        return pointer("pieces", place.piece, *_inside(place, pattern.pieces[place.piece]))
    return None


def _inside(place: Place, piece: Piece) -> tuple[str | int, ...]:
    """The way on from the piece; nothing where the piece takes the thing over from the one it is like."""
    for kind, ident, named in (
        ("notches", place.notch, piece.notches),
        ("darts", place.dart, piece.darts),
        ("pleats", place.pleat, piece.pleats),
        ("marks", place.mark, piece.marks),
        ("edges", place.line, piece.edges),
        ("inner", place.line, piece.inner),
        ("cutouts", place.line, piece.cutouts),
    ):
        if ident is not None and ident in named:
            return (kind, ident)
    for index, node in enumerate(piece.outline or ()):
        if place.line is not None and node.edge == place.line:
            return ("outline", index)
    return ()
