"""What a drawing states in the words of the open format, because no line or sign of it shows it."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

import numpy as np

from notchwork.document import as_stated
from notchwork.drawing import Fact, Facts
from notchwork.geometry import lengths
from notchwork.model import Node
from notchwork.sewing import GradedPiece, Line, Nest
from notchwork.sewing.walks.spans import stretches_of

DRAWN = ("length", "allowance", "fold")
"""Keys of an edge that its stroke says already: by its shape, its width and its meaning."""
NODE_WORDS = ("name", "corner", "cut_corner")
"""Keys of a node that no line shows."""
SHARE_DIGITS = 5
"""Decimals of a node's share of its line: 0.01 mm on a metre."""

LineKey = tuple[str, str]


def seam_statement(nest: Nest, seam: str) -> str:
    """A seam in full."""
    return _json(as_stated(nest.pattern.seams[seam]))


def materials_statement(nest: Nest, idents: Sequence[str]) -> str | None:
    """What materials are beside their names, which stand in words on the piece; None where nothing more is known."""
    known = {ident: nest.pattern.materials[ident] for ident in idents if ident in nest.pattern.materials}
    stated = {
        ident: said
        for ident, material in known.items()
        if (said := {key: value for key, value in as_stated(material).items() if key != "name"})
    }
    return _json({"materials": stated}) if stated else None


def openings_stated(nest: Nest) -> Mapping[LineKey, Mapping[str, Any]]:
    """Every opening in full, by the first line with a shape that it takes: (piece, line)."""
    found: dict[LineKey, dict[str, Any]] = {}
    for ident, opening in nest.pattern.openings.items():
        spans = (span for row in (*(opening.sections or ()), *(opening.lips or ())) for span in row)
        keys = (s.line.key for span in spans for s in stretches_of(nest, span) if s.line.rows is not None)
        first = next(keys, None)
        if first is not None:
            found.setdefault(first, {})[ident] = as_stated(opening)
    return found


def line_statements(
    nest: Nest, graded: GradedPiece, size: int, openings: Mapping[LineKey, Mapping[str, Any]]
) -> Mapping[str, str]:
    """What each line of a piece states in a size, where it has anything to state.

    ``edge`` is what the edge states beside what is drawn; ``nodes`` are the nodes with words of their own, each with its share
    of the line's length before it, on an edge that starts ``from`` the one before; ``openings`` those that begin there.
    """
    found: dict[str, str] = {}
    for name, line in graded.lines.items():
        if line.rows is None:
            continue
        stated: dict[str, Any] = {
            "edge": dict(_edge_words(graded, line)),
            "nodes": list(_nodes(nest, graded, line, size)),
            "openings": openings.get(line.key, {}),
        }
        if stated["nodes"] and line.kind == "edge":
            stated["from"] = line.before
        if said := {key: value for key, value in stated.items() if value}:
            found[name] = _json(said)
    return found


def copied(facts: Facts, number: int) -> Facts:
    """The facts of a copy or image of what is drawn: it states nothing again."""
    kept: dict[Fact, str | float] = {key: value for key, value in facts.items() if key != "states"}
    return {**kept, "copy": float(number)}


def _edge_words(graded: GradedPiece, line: Line) -> Iterator[tuple[str, Any]]:
    edge = graded.written.edges.get(line.name) if line.kind == "edge" else None
    if edge is not None:
        yield from ((key, value) for key, value in as_stated(edge).items() if key not in DRAWN)


def _nodes(nest: Nest, graded: GradedPiece, line: Line, size: int) -> Iterator[tuple[float, Any]]:
    nodes = _written(nest, graded, line, size)
    if not any(getattr(node, key) for node in nodes for key in NODE_WORDS):
        return
    run_up = np.cumsum([0.0, *lengths(nest.cubics_of(line, size))])
    for node, share in zip(nodes, run_up / max(float(run_up[-1]), 1e-9), strict=False):
        words = {key: value for key in NODE_WORDS if (value := getattr(node, key)) is not None}
        if words:
            yield round(float(share), SHARE_DIGITS), words


def _written(nest: Nest, graded: GradedPiece, line: Line, size: int) -> Sequence[Node]:
    """The nodes of a line as written; of an edge without the corner at which the next one begins."""
    piece = graded.written
    if line.kind == "inner":
        inner = piece.inner[line.name]
        return (inner.line if inner is not None else None) or ()
    if line.kind == "cutout":
        cutout = piece.cutouts[line.name]
        return cutout.line if cutout is not None else ()
    nodes = piece.outline or (piece.outlines or {}).get(str(nest.sizes[size]), ())
    begin = next((k for k, node in enumerate(nodes) if node.edge == line.name), 0)
    ring = (*nodes[begin:], *nodes[:begin])
    stop = next((k for k, node in enumerate(ring[1:], start=1) if node.edge is not None), len(ring))
    return ring[:stop]


def _json(stated: Any) -> str:
    return json.dumps(stated, ensure_ascii=False, separators=(",", ":"))
