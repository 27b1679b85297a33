"""Which edges bear which match label."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import NamedTuple

from notchwork.geometry import bounds
from notchwork.recognise.words import PieceRead
from notchwork.recognise.words.label_words import Stated

ALIKE = 0.75
"""An outline round another is the same piece in another size where the inner one is at least so many times as wide and high."""
TOUCH = 1.0
"""mm: sizes laid in each other may have an edge in common."""


class EdgeOf(NamedTuple):
    """An edge by its piece and its number in the outline's order."""

    piece: str
    edge: int


@dataclass(slots=True)
class Labelled:
    """All edges with one label, in the order of pieces and outlines; what some of the labels state of side and join."""

    label: str
    edges: list[EdgeOf] = field(default_factory=list)
    sides: dict[EdgeOf, int] = field(default_factory=dict)
    joins: dict[EdgeOf, Stated] = field(default_factory=dict)

    @property
    def pieces(self) -> tuple[str, ...]:
        return tuple(dict.fromkeys(edge.piece for edge in self.edges))

    def of(self, *pieces: str) -> tuple[EdgeOf, ...]:
        """The labelled edges of some pieces."""
        return tuple(edge for edge in self.edges if edge.piece in pieces)


def labelled_edges(pieces: Mapping[str, PieceRead]) -> dict[str, Labelled]:
    """The labels in the order in which they are first met; a label counts once for each edge, a figure of a size not at all."""
    found: dict[str, Labelled] = {}
    figures = size_figures(pieces)
    for ident, read in pieces.items():
        for at in sorted(read.written.labels, key=lambda at: at.edge):
            if at.label.name in figures.get(ident, ()):
                continue
            group = found.setdefault(at.label.name, Labelled(at.label.name))
            edge = EdgeOf(ident, at.edge)
            if edge not in group.edges:
                group.edges.append(edge)
            if at.label.side is not None:
                group.sides[edge] = at.label.side
            if at.label.join is not None:
                group.joins[edge] = at.label.join
    return found


def size_figures(pieces: Mapping[str, PieceRead]) -> dict[str, frozenset[str]]:
    """The figures beside outlines that lie in each other, each its own: they name sizes, and no seams."""
    figures = {
        ident: frozenset(at.label.name for at in read.written.labels if at.label.name.isdigit())
        for ident, read in pieces.items()
    }
    figured = [ident for ident, own in figures.items() if own]
    return {
        ident: figures[ident]
        for ident in figured
        if any(
            not figures[ident] & figures[other]
            and (_lies_in(pieces[ident], pieces[other]) or _lies_in(pieces[other], pieces[ident]))
            for other in figured
            if other != ident
        )
    }


def _lies_in(inner: PieceRead, outer: PieceRead) -> bool:
    (low, high), (least, most) = (bounds(read.drawn.rim.cubics) for read in (inner, outer))
    size, room = high - low, most - least
    around = (
        least.real <= low.real + TOUCH
        and least.imag <= low.imag + TOUCH
        and most.real >= high.real - TOUCH
        and most.imag >= high.imag - TOUCH
    )
    return around and size.real >= ALIKE * room.real and size.imag >= ALIKE * room.imag
