"""What a piece stands on: a shape, names told apart, the same edges in every size, and grade rules that are there."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from notchwork.document.faults import (
    BADLY_STATED,
    CONTRADICTION,
    MISSING_KEY,
    NAME_TWICE,
    NO_SHAPE,
    OUT_OF_RANGE,
    OUTLINES_UNLIKE,
    fault,
)
from notchwork.document.pointers import pointer
from notchwork.document.references.known import Known
from notchwork.document.references.names import edges_in_order, outline_of
from notchwork.findings import Finding, listed
from notchwork.model import Node, Piece

MOST_DRAWN = 1_000_000
"""Nodes of all lines of all pieces in all sizes."""


def too_much_drawn(known: Known) -> Iterator[Finding]:
    """A fault where the pieces, with what they take over by ``like``, are drawn by more nodes than any garment."""
    sizes = known.pattern.sizes
    count = sum(
        _nodes(piece, len(sizes.names) if sizes is not None else 1) for piece in known.pieces.values()
    )
    if count > MOST_DRAWN:
        yield fault(
            OUT_OF_RANGE,
            "/pieces",
            "all pieces in all sizes have {count} nodes together; at most {most} are possible.",
            "Draw curves with fewer nodes and longer handles.",
            count=f"{count:,}",
            most=f"{MOST_DRAWN:,}",
        )


def _nodes(piece: Piece, sizes: int) -> int:
    lines = [
        line.line for named in (piece.inner, piece.cutouts) for line in named.values() if line is not None
    ]
    graded = sum(len(nodes) for nodes in (piece.outline, *lines) if nodes is not None)
    return sizes * graded + sum(len(nodes) for nodes in (piece.outlines or {}).values())


def shape_faults(known: Known, ident: str, piece: Piece) -> Iterator[Finding]:
    """Every fault in what a complete piece is built on."""
    yield from _shape(known, ident, piece)
    yield from _folds(known, ident, piece)
    yield from _twice(known, ident, piece)
    yield from _outlines(known, ident, piece)
    yield from _grades(known, ident, piece)


def _shape(known: Known, ident: str, piece: Piece) -> Iterator[Finding]:
    """A piece needs an outline with edges, a strip, or edges of known length."""
    edges = {name: edge for name, edge in piece.edges.items() if edge is not None}
    drawn = piece.outline is not None or piece.outlines is not None
    if drawn and not edges_in_order(outline_of(piece)):
        key = "outline" if piece.outline is not None else "outlines"
        yield fault(
            NO_SHAPE,
            known.where.key_of(ident, key),
            "no node begins an edge.",
            'Give each node that is a corner an "edge" with the name of the edge that begins there.',
        )
    if drawn or piece.strip is not None:
        for name, edge in edges.items():
            if edge.length is not None:
                yield fault(
                    CONTRADICTION,
                    f"{known.where.in_piece(ident, 'edges', name)}/length",
                    "the length of an edge that is drawn is stated too.",
                    "Leave the length away: it follows from the drawing.",
                )
    elif not edges and not known.names[ident].vague:
        yield fault(
            NO_SHAPE,
            pointer("pieces", ident),
            "the piece has no shape.",
            'Give it an "outline", a "strip", or "edges" with lengths measured by tape.',
        )
    else:
        for name, edge in edges.items():
            if edge.length is None:
                yield fault(
                    MISSING_KEY,
                    known.where.in_piece(ident, "edges", name),
                    'the piece has no outline, so "length" is missing.',
                    "Measure the edge along the stitch line by tape.",
                )


def only_folds(known: Known, ident: str, piece: Piece) -> bool:
    """Whether every edge of a piece is a fold."""
    edges = known.names[ident].edges
    return bool(edges) and all((edge := piece.edges.get(name)) is not None and edge.fold for name in edges)


def _folds(known: Known, ident: str, piece: Piece) -> Iterator[Finding]:
    """A piece that is cut out has edges that are cut."""
    if only_folds(known, ident, piece):
        yield fault(
            CONTRADICTION,
            pointer("pieces", ident),
            "every edge is a fold, so nothing is left to cut along.",
            'Say "fold" only of the edge on which the other half is mirrored.',
        )


def _twice(known: Known, ident: str, piece: Piece) -> Iterator[Finding]:
    """Edges, named nodes, notches, darts, inner lines and cut-outs of one piece share their names."""
    seen: dict[str, str] = {}
    for at, kind, name in _all_names(known, ident, piece):
        if name in seen:
            yield fault(
                NAME_TWICE,
                at,
                'the name "{name}" is taken: {other} of this piece has it too.',
                "Rename one of them, and whatever refers to it.",
                name=name,
                other=f"{'an' if seen[name][0] in 'aeiou' else 'a'} {seen[name]}",
            )
        seen.setdefault(name, kind)


def _all_names(known: Known, ident: str, piece: Piece) -> Iterator[tuple[str, str, str]]:
    """Every name that the piece gives in its one namespace: where, to what kind of thing, and the name."""
    where = known.where
    outlines = [nodes for nodes in (outline_of(piece),) if nodes]
    lines = dict(where.lines_of(ident))
    for nodes in outlines:
        at = next((at for at, stated in lines.items() if stated is nodes), where.piece(ident))
        for index, node in enumerate(nodes):
            if node.edge is not None:
                yield f"{at}/{index}/edge", "edge", node.edge
            if node.name is not None:
                yield f"{at}/{index}/name", "node", node.name
    if not outlines:
        for name in known.names[ident].edges:
            yield where.line(ident, name), "edge", name
    for key, kind in (
        ("notches", "notch"),
        ("darts", "dart"),
        ("inner", "inner line"),
        ("cutouts", "cut-out"),
    ):
        for name in getattr(piece, key):
            yield where.in_piece(ident, key, name), kind, name
    for key, named in (("inner", piece.inner), ("cutouts", piece.cutouts)):
        for name, line in named.items():
            for index, node in enumerate((line.line if line is not None else None) or ()):
                if node.name is not None:
                    yield f"{where.in_piece(ident, key, name)}/line/{index}/name", "node", node.name


def _outlines(known: Known, ident: str, piece: Piece) -> Iterator[Finding]:
    """Outlines by size have the same edges in the same order, and the same named nodes."""
    if not piece.outlines:
        return
    (first, base), *others = piece.outlines.items()
    at = known.where.key_of(ident, "outlines")
    for size, nodes in others:
        if _signature(nodes) != _signature(base):
            yield fault(
                OUTLINES_UNLIKE,
                f"{at}{pointer(size)}",
                "the edges are {these} in size {size}, but {those} in size {first}.",
                "Begin the same edges, and name the same nodes, in the same order in every size.",
                size=size,
                first=first,
                these=listed(_signature(nodes)),
                those=listed(_signature(base)),
            )


def _signature(nodes: tuple[Node, ...]) -> tuple[str, ...]:
    """Edges and named nodes in order, from the first edge on."""
    begin = next((k for k, node in enumerate(nodes) if node.edge is not None), 0)
    return tuple(name for node in (*nodes[begin:], *nodes[:begin]) for name in (node.edge, node.name) if name)


def _grades(known: Known, ident: str, piece: Piece) -> Iterator[Finding]:
    where = known.where
    for at, nodes in where.lines_of(ident):
        for index, node in enumerate(nodes):
            if node.grade is None:
                continue
            pointed = f"{at}/{index}/grade"
            yield from known.refers(pointed, "grade_rules", "grade rule", node.grade)
            if at.split("/")[3] == "outlines":
                yield fault(
                    CONTRADICTION,
                    pointed,
                    "the outline is given for each size, so no grade rule moves its nodes.",
                    "Leave the rule away.",
                )
        if at.split("/")[3] == "outline":
            yield from _one_spot(at, nodes)
    for key, named in (("marks", piece.marks), ("darts", piece.darts)):
        for name, thing in named.items():
            if thing is not None:
                at = f"{where.in_piece(ident, key, name)}/grade"
                yield from known.refers(at, "grade_rules", "grade rule", thing.grade)
    for index, point in enumerate(piece.grainline or ()):
        at = f"{where.key_of(ident, 'grainline')}/{index}/grade"
        yield from known.refers(at, "grade_rules", "grade rule", point.grade)
    for name, dart in piece.darts.items():
        for index, point in enumerate((dart.apexes if dart is not None else None) or ()):
            at = f"{where.in_piece(ident, 'darts', name)}/apexes/{index}/grade"
            yield from known.refers(at, "grade_rules", "grade rule", point.grade)


def _one_spot(at: str, nodes: Sequence[Node]) -> Iterator[Finding]:
    """Nodes between two corners on one spot have nothing to follow when the corners are graded."""
    anchors = [index for index, node in enumerate(nodes) if node.edge is not None or node.grade is not None]
    if not any(node.grade is not None for node in nodes):
        return
    for before, after in zip(anchors, [*anchors[1:], *anchors[:1]], strict=True):
        between = (after - before) % len(nodes) > 1
        if between and before != after and nodes[before].at == nodes[after].at:
            yield fault(
                BADLY_STATED,
                f"{at}/{(before + 1) % len(nodes)}",
                "the corners before and after this node lie on one spot, so grading cannot tell where the node goes.",
                "Give the nodes between them grade rules of their own, or draw the outline for each size.",
            )
