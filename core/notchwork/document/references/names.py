"""The names of one piece: its lines, what lies along each, and what a place on one may be called."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Literal

from notchwork.model import Node, Piece, Place
from notchwork.values import frozen

STRIP_EDGES = ("lower", "end", "upper", "start")

End = Literal["start", "stop"]
Token = tuple[str, str, str]
"""A place that can be told from another without measuring: piece, line and name; a corner by the edge that begins there."""


@frozen
class Line:
    """An edge, inner line or cut-out. ``before`` and ``after`` are the neighbouring edges, where there are any.

    ``nodes`` are the named nodes on it; ``starts`` and ``stops`` those names that mean its very ends.
    """

    piece: str
    name: str
    kind: Literal["edge", "inner line", "cut-out"]
    closed: bool = False
    before: str | None = None
    after: str | None = None
    nodes: frozenset[str] = frozenset()
    starts: frozenset[str] = frozenset()
    stops: frozenset[str] = frozenset()

    @property
    def unclear(self) -> str | None:
        """The neighbour that lies at both ends, which therefore says nothing."""
        return self.before if self.before == self.after and not self.closed else None

    def end_at(self, place: Place) -> End | None:
        """Which end of the line a place is, if it is one by its name alone."""
        if self.closed or place.offset is not None or place.percent is not None:
            return None
        if place.name in self.starts:
            return "start"
        return "stop" if place.name in self.stops else None

    def token(self, place: Place) -> Token | None:
        """The place as a token; None where only measuring can tell."""
        match self.end_at(place):
            case "start":
                return self.end_token("start")
            case "stop":
                return self.end_token("stop")
        if place.offset is not None or place.percent is not None:
            return None
        return (self.piece, self.name, place.name)

    def end_token(self, end: End) -> Token:
        if self.kind != "edge" or self.closed:
            return (self.piece, self.name, f"({end})")
        return (self.piece, "(corner)", (self.name if end == "start" else self.after) or "")


@dataclass(slots=True)
class Names:
    """The lines of a piece by name, and its notches, darts and pleats with the line each lies on.

    ``vague`` are names that stand but could not be read; whatever refers to them is let pass.
    """

    piece: str
    lines: dict[str, Line] = field(default_factory=dict)
    notches: dict[str, str] = field(default_factory=dict)
    intakes: dict[str, str] = field(default_factory=dict)
    vague: frozenset[str] = frozenset()

    def on(self, line: Line) -> list[str]:
        """Everything by which a place on a line may be called."""
        notches = [name for name, edge in self.notches.items() if edge == line.name]
        ends = [name for name in (line.before, line.after) if name is not None and name != line.unclear]
        return list(dict.fromkeys([*ends, *sorted(line.nodes), *notches]))

    @property
    def edges(self) -> list[str]:
        return [name for name, line in self.lines.items() if line.kind == "edge"]


def names_of(ident: str, piece: Piece, vague: frozenset[str] = frozenset()) -> Names:
    """The names of a complete piece (what it takes over by ``like`` included)."""
    names = Names(ident, vague=vague)
    for line in _edges(ident, piece):
        names.lines.setdefault(line.name, line)
    for name, inner in piece.inner.items():
        if inner is None:
            continue
        followed = names.lines.get(inner.parallel_to or "")
        if inner.line is not None:
            names.lines.setdefault(name, _drawn(ident, name, "inner line", inner.line, inner.closed))
        elif followed is not None:
            names.lines.setdefault(name, _parallel(name, followed))
        else:
            names.lines.setdefault(name, Line(ident, name, "inner line"))
    for name, cutout in piece.cutouts.items():
        if cutout is not None:
            names.lines.setdefault(name, _drawn(ident, name, "cut-out", cutout.line, True))
    names.notches = {name: notch.edge for name, notch in piece.notches.items() if notch is not None}
    intakes = {**piece.darts, **piece.pleats}
    names.intakes = {name: intake.edge or "" for name, intake in intakes.items() if intake is not None}
    return names


def outline_of(piece: Piece) -> Sequence[Node]:
    """The outline by whose nodes the edges are named: the only one, or that of the first size."""
    if piece.outline is not None:
        return piece.outline
    return next(iter((piece.outlines or {}).values()), ())


def edges_in_order(nodes: Sequence[Node]) -> tuple[str, ...]:
    return tuple(node.edge for node in nodes if node.edge is not None)


def _edges(ident: str, piece: Piece) -> Iterator[Line]:
    outline = outline_of(piece)
    if outline:
        yield from _outline_edges(ident, outline)
    elif piece.strip is not None:
        yield from _ring(ident, STRIP_EDGES, {})
    else:
        yield from _ring(ident, tuple(name for name, edge in piece.edges.items() if edge is not None), {})


def _outline_edges(ident: str, outline: Sequence[Node]) -> Iterator[Line]:
    first = next((k for k, node in enumerate(outline) if node.edge is not None), None)
    if first is None:
        return
    on: dict[str, list[str]] = {}
    corners: dict[str, str] = {}
    edge = ""
    for node in (*outline[first:], *outline[:first]):
        if node.edge is not None:
            edge = node.edge
            if node.name is not None:
                corners[edge] = node.name
        elif node.name is not None:
            on.setdefault(edge, []).append(node.name)
    yield from _ring(ident, edges_in_order((*outline[first:], *outline[:first])), corners, on)


def _ring(
    ident: str,
    edges: Sequence[str],
    corners: Mapping[str, str],
    on: Mapping[str, Sequence[str]] | None = None,
) -> Iterator[Line]:
    """The edges of a ring; ``corners`` are the names of the nodes at which they begin, ``on`` the nodes inside them."""
    for k, name in enumerate(edges):
        before, after = edges[k - 1], edges[(k + 1) % len(edges)]
        inner = (on or {}).get(name, ())
        at_start, at_stop = corners.get(name), corners.get(after)
        nodes = frozenset([*inner, *(corner for corner in (at_start, at_stop) if corner is not None)])
        if len(edges) == 1:
            yield Line(ident, name, "edge", closed=True, nodes=nodes)
            continue
        clear = before != after
        yield Line(
            ident,
            name,
            "edge",
            before=before,
            after=after,
            nodes=nodes,
            starts=frozenset(n for n in (before if clear else None, at_start) if n is not None),
            stops=frozenset(n for n in (after if clear else None, at_stop) if n is not None),
        )


def _drawn(
    ident: str, name: str, kind: Literal["inner line", "cut-out"], nodes: Sequence[Node], closed: bool
) -> Line:
    return Line(
        ident,
        name,
        kind,
        closed,
        nodes=frozenset(node.name for node in nodes if node.name is not None),
        starts=frozenset(filter(None, [nodes[0].name])),
        stops=frozenset(filter(None, [nodes[-1].name])),
    )


def _parallel(name: str, followed: Line) -> Line:
    return Line(
        followed.piece,
        name,
        "inner line",
        followed.closed,
        followed.before,
        followed.after,
        starts=followed.starts - followed.nodes,
        stops=followed.stops - followed.nodes,
    )
