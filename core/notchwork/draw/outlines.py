"""The lines of a piece: cut line, stitch line, folds, inner lines and cut-outs."""

from __future__ import annotations

from collections.abc import Container, Iterator, Sequence

import numpy as np

from notchwork.draw.places import facts_of_size
from notchwork.drawing import Fact, Meaning, Stroke
from notchwork.geometry import lines
from notchwork.model import in_size
from notchwork.sewing import GradedPiece, Nest
from notchwork.sewing.allowances import allowance
from notchwork.sewing.cutlines import CutLine

ON_FOLD = 0.02
"""mm: a cut line this near to a fold is the fold itself, and not cut."""

USES: dict[str | None, Meaning] = {
    "casing": "casing",
    "fold": "fold-back",
    "placement": "placement",
    "topstitch": "topstitch",
    "slash": "slash",
}


def edge_strokes(nest: Nest, graded: GradedPiece, size: int, opened: Container[str] = ()) -> Iterator[Stroke]:
    """Every edge of the stitch line, each with its allowance as its width; ``opened`` names the folds that are opened out."""
    for edge in graded.edges:
        facts: dict[Fact, str | float] = {"edge": edge, **facts_of_size(nest, size)}
        meaning: Meaning = "stitch"
        if edge in graded.folds:
            meaning = "opened" if edge in opened else "fold"
        else:
            facts["width"] = float(allowance(graded, edge)[size])
        yield Stroke(nest.cubics_of(graded.lines[edge], size), meaning, facts=facts)


def inner_strokes(nest: Nest, graded: GradedPiece, size: int) -> Iterator[Stroke]:
    """The lines inside a piece, and its cut-outs."""
    for name, line in graded.lines.items():
        if line.kind == "edge" or line.rows is None:
            continue
        facts: dict[Fact, str | float] = {"name": name, **facts_of_size(nest, size)}
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


def cut_strokes(
    nest: Nest, graded: GradedPiece, size: int, cut: CutLine, opened: Container[str] = ()
) -> Iterator[Stroke]:
    """The cut line, left open along folds; where it runs on beyond a fold's end, through a hem, it is a fold too."""
    facts = facts_of_size(nest, size)
    points = cut.points
    following = np.roll(points, -1)
    on_fold = np.zeros(len(points), dtype=bool)
    for fold in graded.folds:
        line = nest.cubics_of(graded.lines[fold], size)
        a, along = complex(line[0, 0]), complex(line[-1, 3] - line[0, 0])
        if along == 0:
            continue
        first, last = ((z - a) / along for z in (points, following))
        near = ON_FOLD / abs(along)
        here = (np.abs(first.imag) < near) & (np.abs(last.imag) < near)
        on_fold |= here
        beyond = here & (
            (np.minimum(first.real, last.real) < -near) | (np.maximum(first.real, last.real) > 1 + near)
        )
        for k in np.flatnonzero(beyond):
            ends = sorted((first[k].real, last[k].real))
            for low, high in ((ends[0], min(ends[1], 0.0)), (max(ends[0], 1.0), ends[1])):
                if high - low > near:
                    meaning: Meaning = "opened" if fold in opened else "fold"
                    yield Stroke(lines(a + along * np.array([low, high])), meaning, facts=facts)
    if not on_fold.any():
        if len(points):
            yield Stroke(lines(points, closed=True), "cut", True, facts)
        return
    for run in _runs(on_fold.tolist()):
        yield Stroke(lines(points[run]), "cut", facts=facts)


def _runs(left_out: Sequence[bool]) -> Iterator[list[int]]:
    """The numbers of the points of each run between segments that are left out, round the ring."""
    count = len(left_out)
    first = next(k for k in range(count) if left_out[k])
    run: list[int] = []
    for step in range(1, count + 1):
        k = (first + step) % count
        run.append(k)
        if left_out[k]:
            if len(run) > 1:
                yield run
            run = []
