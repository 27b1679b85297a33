"""The lines of a piece: stitch line, folds, inner lines and cut-outs."""

from __future__ import annotations

from collections.abc import Container, Iterator, Mapping

from notchwork.draw.places import facts_of_size
from notchwork.drawing import Fact, Meaning, Stroke
from notchwork.model import in_size
from notchwork.sewing import GradedPiece, Nest
from notchwork.sewing.pieces.allowances import allowance

USES: dict[str | None, Meaning] = {
    "casing": "casing",
    "fold": "fold-back",
    "placement": "placement",
    "topstitch": "topstitch",
    "slash": "slash",
}


def edge_strokes(
    nest: Nest,
    graded: GradedPiece,
    size: int,
    states: Mapping[str, str],
    opened: Container[str] = (),
) -> Iterator[Stroke]:
    """Every edge of the stitch line, each with its allowance as its width and with what it ``states``; ``opened`` names the
    folds that are opened out.

    An outline that is not known to be the stitch line is drawn as a cut line, which most are, and says that it is not known.
    """
    kind = graded.written.outline_is
    for edge in graded.edges:
        facts: dict[Fact, str | float] = {"edge": edge, **facts_of_size(nest, size)}
        meaning: Meaning = "stitch" if kind is None else "cut"
        if kind == "unknown":
            facts["kind"] = kind
        if edge in graded.folds:
            meaning = "opened" if edge in opened else "fold"
        else:
            facts["width"] = float(allowance(graded, edge)[size])
        if edge in states:
            facts["states"] = states[edge]
        yield Stroke(nest.cubics_of(graded.lines[edge], size), meaning, facts=facts)


def inner_strokes(nest: Nest, graded: GradedPiece, size: int, states: Mapping[str, str]) -> Iterator[Stroke]:
    """The lines inside a piece, and its cut-outs, each with what it ``states``."""
    for name, line in graded.lines.items():
        if line.kind == "edge" or line.rows is None:
            continue
        facts: dict[Fact, str | float] = {"name": name, **facts_of_size(nest, size)}
        if name in states:
            facts["states"] = states[name]
        if line.kind == "cutout":
            yield Stroke(nest.cubics_of(line, size), "cut", True, {**facts, "kind": "cutout"})
            continue
        inner = graded.written.inner[name]
        assert inner is not None
        if inner.width is not None:
            facts["width"] = in_size(inner.width, nest.sizes[size])
        if inner.parallel_to is not None and inner.distance is not None:
            facts |= {"edge": inner.parallel_to, "depth": in_size(inner.distance, nest.sizes[size])}
        yield Stroke(nest.cubics_of(line, size), USES.get(inner.use, "inner"), line.closed, facts)
