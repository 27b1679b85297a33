"""References inside a piece: names told apart, places on its edges, materials, grade rules, and a shape to stand on."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from notchwork.document.faults import (
    BADLY_STATED,
    CIRCLE,
    CONTRADICTION,
    MISSING_KEY,
    NAME_TWICE,
    NO_SHAPE,
    OUTLINES_UNLIKE,
    fault,
)
from notchwork.document.pointers import pointer
from notchwork.document.references.known import Known
from notchwork.document.references.names import Names, edges_in_order, outline_of
from notchwork.findings import Finding, listed
from notchwork.model import Node, Piece, Place

_NAMED = ("edges", "notches", "darts", "pleats", "inner", "marks", "cutouts")


def piece_faults(known: Known) -> Iterator[Finding]:
    """Every fault inside the pieces; one that is taken over by ``like`` is told where it is stated."""
    for ident, stated in known.pattern.pieces.items():
        if stated.like is None:
            yield from _nothing_to_remove(ident, stated)
    for ident, piece in known.pieces.items():
        names = known.names[ident]
        yield from _shape(known, ident, piece)
        yield from _twice(known, ident, piece)
        yield from _outlines(known, ident, piece)
        yield from _grades(known, ident, piece)
        yield from _edges(known, ident, piece, names)
        yield from _notches(known, ident, piece, names)
        yield from _intakes(known, ident, piece, names)
        yield from _cut(known, ident, piece)
        for name, inner in piece.inner.items():
            if inner is not None:
                at = known.where.in_piece(ident, "inner", name)
                yield from _edge(known, names, f"{at}/parallel_to", inner.parallel_to)
        yield from _edge(known, names, known.where.key_of(ident, "bias_to"), piece.bias_to)


def _nothing_to_remove(ident: str, stated: Piece) -> Iterator[Finding]:
    entries = [(key, name) for key in _NAMED for name, entry in getattr(stated, key).items() if entry is None]
    for at in (*((key,) for key in sorted(stated.removed)), *entries):
        yield fault(
            BADLY_STATED,
            pointer("pieces", ident, *at),
            "null takes a thing away from the piece that this one is like, but it is like none.",
            'Leave the key away, or state "like".',
        )


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


def _edges(known: Known, ident: str, piece: Piece, names: Names) -> Iterator[Finding]:
    """Properties of edges that are there, and what their finishes name."""
    for name, edge in piece.edges.items():
        at = known.where.in_piece(ident, "edges", name)
        if edge is None:
            continue
        if name not in names.lines:
            yield known.broken(at, "edge of this piece", name, names.edges)
        if edge.finish is not None:
            with_ = edge.finish.with_
            if with_ is not None and not known.has("pieces", with_) and not known.has("notions", with_):
                pieces = sorted(known.doubt.known["pieces"] | known.doubt.known["notions"])
                yield known.broken(f"{at}/finish/with", "piece or notion", with_, pieces)
            yield from _caught(known, f"{at}/finish/caught_in", edge.finish.caught_in)


def _caught(known: Known, at: str, place: str | None) -> Iterator[Finding]:
    if place is None:
        return
    ident, dot, name = place.partition("#")[0].partition(".")
    if not dot:
        yield from known.refers(at, "seams", "seam", ident)
    elif not known.has("pieces", ident):
        yield from known.refers(at, "pieces", "piece", ident)
    elif (names := known.names.get(ident)) is not None:
        there = {*names.lines, *names.notches, *names.intakes, *names.vague}
        there |= {node for line in names.lines.values() for node in line.nodes}
        if name not in there:
            yield known.broken(at, f"place of piece {ident}", name, sorted(there))


def _edge(known: Known, names: Names, at: str, name: str | None) -> Iterator[Finding]:
    if name is not None and name not in names.edges and name not in names.vague:
        yield known.broken(at, "edge of this piece", name, names.edges)


def _notches(known: Known, ident: str, piece: Piece, names: Names) -> Iterator[Finding]:
    for name, notch in piece.notches.items():
        if notch is None:
            continue
        at = known.where.in_piece(ident, "notches", name)
        line = names.lines.get(notch.edge)
        if line is not None:
            yield from known.place(f"{at}/at", line, notch.at)
        elif notch.edge not in names.vague:
            yield known.broken(f"{at}/edge", "edge or inner line of this piece", notch.edge, names.lines)
        chain = [name]
        while (before := piece.notches.get(chain[-1])) is not None and before.at.name in names.notches:
            if before.at.name == name and name not in names.lines:
                yield fault(
                    CIRCLE,
                    f"{at}/at",
                    "notches are placed by each other in a circle: {chain}.",
                    "Place one of them by a corner.",
                    chain=" → ".join([*chain, name]),
                )
            if before.at.name in chain:
                break
            chain.append(before.at.name)


def _intakes(known: Known, ident: str, piece: Piece, names: Names) -> Iterator[Finding]:
    """Darts and pleats: their edges, feet and folds, and where they are laid."""
    stated: list[tuple[str, str, str | None, tuple[Place, ...], str, str | None]] = []
    for name, dart in piece.darts.items():
        if dart is not None:
            at = known.where.in_piece(ident, "darts", name)
            stated.append((at, "feet", dart.edge, dart.feet or (), "press", dart.press))
    for name, pleat in piece.pleats.items():
        if pleat is not None:
            at = known.where.in_piece(ident, "pleats", name)
            stated.append((at, "folds", pleat.edge, pleat.folds, "to", pleat.to))
    for at, key, edge, places, to_key, to in stated:
        line = names.lines.get(edge) if edge is not None else None
        yield from _edge(known, names, f"{at}/edge", edge if line is None or line.kind != "edge" else None)
        if line is not None:
            for index, place in enumerate(places):
                yield from known.place(f"{at}/{key}/{index}", line, place)
            if len(places) == 2 and places[0] == places[1]:
                yield fault(
                    BADLY_STATED,
                    f"{at}/{key}",
                    "both ends are the same place, so no cloth is taken away.",
                    "Name two different places.",
                )
        yield from _edge(known, names, f"{at}/{to_key}", to)


def _cut(known: Known, ident: str, piece: Piece) -> Iterator[Finding]:
    at = known.where.key_of(ident, "cut")
    for index, cut in enumerate(piece.cut or ()):
        yield from known.refers(f"{at}/{index}/material", "materials", "material", cut.material)
        for ply, material in enumerate(cut.plies or ()):
            yield from known.refers(f"{at}/{index}/plies/{ply}", "materials", "material", material)
