"""A document's piece with what the drawing shows otherwise put into it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from notchwork.findings import plain_name
from notchwork.model import Edge, Node, Piece
from notchwork.recognise.reconcile.moved import Pair

Complexes = NDArray[np.complex128]


THINGS = {
    "notches": "notch",
    "darts": "dart",
    "pleats": "pleat",
    "inner": "line",
    "marks": "mark",
    "cutouts": "cut-out",
}


def with_outline(pair: Pair, own: Piece, drawn: Piece) -> Piece:
    """The document's piece ``own`` with its outline as ``drawn``."""
    return replace(own, **_outlines(pair, drawn))


def with_signs(pair: Pair, own: Piece) -> tuple[Piece, list[str], list[str]]:
    """The document's piece, its outline settled, with everything on it as it is drawn; what was changed, and what is no
    longer drawn, in words.

    Things that the document takes over by ``like`` are stated anew where they differ.
    """
    changes: dict[str, Any] = {}
    changed: list[str] = []
    gone: list[str] = []
    told, seen = pair.other.written, pair.one.written
    if seen.grainline is not None and _grain_moved(pair):
        changes["grainline"] = tuple(
            replace(point, at=point.at + pair.shift, grade=None) for point in seen.grainline
        )
        changed.append("its grainline")
    folds = {
        edge: False for edge in pair.other.folds if edge not in pair.one.folds and edge in pair.one.edges
    }
    folds |= {edge: True for edge in pair.one.folds if edge not in pair.other.folds}
    if folds:
        edges = dict(own.edges)
        for edge, fold in folds.items():
            edges[edge] = replace(told.edges.get(edge) or Edge(), fold=fold)
        changes["edges"] = edges
        changed.append("its folds")
    for key, words in THINGS.items():
        things, anew, missing = _things(pair, key, getattr(own, key))
        if anew or missing:
            changes[key] = things
            changed += [f"the {words} {plain_name(name)}" for name in anew]
            gone += [f"the {words} {plain_name(name)}" for name in missing]
    if seen.cut and _counts(seen) != _counts(told):
        changes["cut"] = seen.cut
        changed.append("its cut order")
    if seen.name is not None and seen.name != pair.other.name:
        changes["name"] = seen.name
        changed.append("its name")
    return (replace(own, **changes) if changes else own), changed, gone


def _counts(piece: Piece) -> Sequence[tuple[object, ...]]:
    return [
        (
            cut.materials,
            cut.count if not isinstance(cut.count, Mapping) else tuple(cut.count.items()),
            cut.mirrored,
            cut.hand,
        )
        for cut in piece.cut or ()
    ]


def _outlines(pair: Pair, drawn: Piece) -> dict[str, Any]:
    """The outline as drawn, with what the document says of nodes that are still there; sizes that are not drawn stay."""
    told = pair.told
    one_size = told.pattern.sizes is None
    if one_size:
        nodes = drawn.outline or next(iter((drawn.outlines or {}).values()), None) or _nodes_of(pair, 0)
        return {"outline": _kept(pair, 0, nodes), "outlines": None, "strip": None}
    outlines: dict[str, tuple[Node, ...]] = {}
    by_size = {b: a for a, b in pair.sizes}
    for b, name in enumerate(told.sizes):
        if not pair.other.present[b]:
            continue
        size = pair.seen.sizes[by_size[b]] if b in by_size else None
        nodes_drawn = (drawn.outlines or {}).get(str(size)) if size is not None else drawn.outline
        if nodes_drawn is None and b in by_size:
            nodes_drawn = _nodes_of(pair, by_size[b])
        if nodes_drawn is not None:
            outlines[str(name)] = _kept(pair, b, nodes_drawn)
        elif _same_edges(pair):
            outlines[str(name)] = _told_nodes(pair, b)
    return {"outline": None, "outlines": outlines, "strip": None}


def _same_edges(pair: Pair) -> bool:
    return set(pair.one.edges) == set(pair.other.edges)


def _nodes_of(pair: Pair, size: int) -> tuple[Node, ...]:
    """A strip's outline, or one of a piece without its own, as nodes."""
    nodes: list[Node] = []
    before = pair.seen.cubics_of(pair.one.lines[pair.one.edges[-1]], size)[-1]
    for edge in pair.one.edges:
        for k, row in enumerate(pair.seen.cubics_of(pair.one.lines[edge], size)):
            nodes.append(_node(row, before, edge if k == 0 else None))
            before = row
    return tuple(nodes)


def _told_nodes(pair: Pair, size: int) -> tuple[Node, ...]:
    nodes: list[Node] = []
    before = pair.told.cubics_of(pair.other.lines[pair.other.edges[-1]], size)[-1]
    for edge in pair.other.edges:
        for k, row in enumerate(pair.told.cubics_of(pair.other.lines[edge], size)):
            nodes.append(_node(row, before, edge if k == 0 else None))
            before = row
    return _with_names(pair, tuple(nodes))


def _node(row: Complexes, before: Complexes, edge: str | None) -> Node:
    at = complex(row[0])
    into = None if before[2] == before[3] else complex(before[2])
    out = None if row[1] == row[0] else complex(row[1])
    return Node(at=at, into=into, out=out, edge=edge)


def _kept(pair: Pair, size: int, nodes: Sequence[Node]) -> tuple[Node, ...]:
    """Nodes moved to the document's coordinates, with names and corners of the document's nodes."""
    shift = pair.shift
    moved = tuple(
        replace(
            node,
            at=node.at + shift,
            into=None if node.into is None else node.into + shift,
            out=None if node.out is None else node.out + shift,
        )
        for node in nodes
    )
    return _with_names(pair, moved)


def _with_names(pair: Pair, nodes: tuple[Node, ...]) -> tuple[Node, ...]:
    """Names and corners by the edge and the number of the node on it, where the edge still has as many nodes; else only the
    corners'."""
    written = pair.other.written
    source = written.outline or next(iter((written.outlines or {}).values()), ())
    old, new = _by_edge(source), _by_edge(nodes)
    found = list(nodes)
    for edge, numbers in new.items():
        before = old.get(edge, [])
        alike = len(before) == len(numbers)
        for k, number in enumerate(numbers):
            if k < len(before) and (alike or k == 0):
                node = source[before[k]]
                found[number] = replace(
                    found[number],
                    name=node.name or found[number].name,
                    corner=node.corner,
                    cut_corner=node.cut_corner,
                )
    return tuple(found)


def _by_edge(nodes: Sequence[Node]) -> dict[str, list[int]]:
    """The numbers of the nodes of each edge, its first corner included."""
    first = next((k for k, node in enumerate(nodes) if node.edge is not None), None)
    found: dict[str, list[int]] = {}
    if first is None:
        return found
    edge = ""
    for step in range(len(nodes)):
        number = (first + step) % len(nodes)
        edge = nodes[number].edge or edge
        found.setdefault(edge, []).append(number)
    return found


def _grain_moved(pair: Pair) -> bool:
    mine, theirs = pair.one.grainline, pair.other.grainline
    return mine is not None and (theirs is None or pair.point_moved(mine, theirs))


def _things(pair: Pair, key: str, own: Mapping[str, Any]) -> tuple[dict[str, Any], list[str], list[str]]:
    """Named things of one kind: those of the document, those that moved or are new as drawn; the names of the latter, and of
    what is gone."""
    drawn, told = getattr(pair.one.written, key), getattr(pair.other.written, key)
    things = dict(own)
    anew: list[str] = []
    missing: list[str] = []
    for name, thing in drawn.items():
        if thing is None or (told.get(name) is not None and not _moved(pair, key, name)):
            continue
        things[name] = _as_drawn(pair, key, thing, told.get(name))
        anew.append(name)
    for name, thing in told.items():
        if thing is not None and drawn.get(name) is None and _is_drawn(pair, key, name):
            # What is taken over by "like" is removed by stating nothing for it.
            things.pop(name, None)
            if pair.told.pattern.pieces[pair.ident].like is not None:
                things[name] = None
            missing.append(name)
    return things, anew, missing


def _is_drawn(pair: Pair, key: str, name: str) -> bool:
    """Whether a thing of the document has a place that a drawing would show in the sizes that are drawn."""
    if key == "notches":
        at = pair.told.notches.get((pair.ident, name))
        return at is not None and any(np.isfinite(at[b]) for _, b in pair.sizes)
    return True


def _moved(pair: Pair, key: str, name: str) -> bool:
    mine, theirs = getattr(pair.one.written, key)[name], getattr(pair.other.written, key)[name]
    match key:
        case "notches":
            if (mine.edge, mine.kind) != (theirs.edge, theirs.kind):
                return True
            return pair.arc_moved(pair.seen.notches[pair.ident, name], pair.told.notches[pair.ident, name])
        case "darts":
            if mine.edge != theirs.edge:
                return True
            apexes = pair.one.apexes.get(name), pair.other.apexes.get(name)
            if apexes[0] is None or apexes[1] is None or pair.point_moved(apexes[0], apexes[1]):
                return True
            return _intake_moved(pair, mine.edge, name)
        case "pleats":
            return mine.edge != theirs.edge or _intake_moved(pair, mine.edge, name)
        case "marks":
            return pair.point_moved(pair.one.marks[name], pair.other.marks[name])
        case _:
            if key == "inner" and mine.parallel_to is not None and mine.parallel_to == theirs.parallel_to:
                return bool(mine.distance != theirs.distance)
            return pair.line_moved(name)


def _intake_moved(pair: Pair, edge: str | None, name: str) -> bool:
    if edge is None:
        return False
    found = [
        next((intake for intake in graded.lines[edge].intakes if intake.name == name), None)
        for graded in (pair.one, pair.other)
    ]
    a, b = found
    return a is None or b is None or pair.arc_moved(a.low, b.low) or pair.arc_moved(a.high, b.high)


def _as_drawn(pair: Pair, key: str, drawn: Any, told: Any) -> Any:
    """The thing as drawn, in the document's coordinates, with what the document says of it beside where it lies."""
    shift = pair.shift
    match key:
        case "notches":
            return drawn if told is None else replace(drawn, spacing=told.spacing, use=told.use)
        case "darts":
            moved = replace(
                drawn,
                apex=None if drawn.apex is None else drawn.apex + shift,
                apexes=None
                if drawn.apexes is None
                else tuple(replace(point, at=point.at + shift) for point in drawn.apexes),
                legs=None
                if drawn.legs is None
                else tuple(
                    replace(
                        leg,
                        out=None if leg.out is None else leg.out + shift,
                        into=None if leg.into is None else leg.into + shift,
                    )
                    for leg in drawn.legs
                ),
            )
            if told is None:
                return moved
            return replace(
                moved, press=told.press, slashed=told.slashed, eased=told.eased, open_from=told.open_from
            )
        case "marks":
            return replace(drawn, at=drawn.at + shift, kind=told.kind if told is not None else drawn.kind)
        case "inner" | "cutouts":
            if drawn.line is None:
                return drawn
            return replace(drawn, line=tuple(_shifted(node, shift) for node in drawn.line))
        case _:
            return drawn


def _shifted(node: Node, shift: complex) -> Node:
    return replace(
        node,
        at=node.at + shift,
        into=None if node.into is None else node.into + shift,
        out=None if node.out is None else node.out + shift,
    )
