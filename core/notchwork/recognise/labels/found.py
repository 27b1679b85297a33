"""Which edges bear which match label."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import NamedTuple

from notchwork.recognise.words import PieceRead
from notchwork.recognise.words.label_words import Stated


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
    """The labels in the order in which they are first met; a label counts once for each edge."""
    found: dict[str, Labelled] = {}
    for ident, read in pieces.items():
        for at in sorted(read.written.labels, key=lambda at: at.edge):
            group = found.setdefault(at.label.name, Labelled(at.label.name))
            edge = EdgeOf(ident, at.edge)
            if edge not in group.edges:
                group.edges.append(edge)
            if at.label.side is not None:
                group.sides[edge] = at.label.side
            if at.label.join is not None:
                group.joins[edge] = at.label.join
    return found
