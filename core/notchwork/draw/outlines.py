"""The lines of a piece: cut line, stitch line, folds, inner lines and cut-outs."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from notchwork.drawing import Facts, Meaning, Stroke
from notchwork.geometry import lines
from notchwork.sewing import GradedPiece, Nest
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


def outline_strokes(nest: Nest, graded: GradedPiece, size: int, cut: CutLine) -> Iterator[Stroke]:
    """Cut line, then every edge of the stitch line, then what lies inside."""
    of_size = facts_of_size(nest, size)
    yield from _cut_strokes(nest, graded, size, cut, of_size)
    for edge in graded.edges:
        meaning: Meaning = "fold" if edge in graded.folds else "stitch"
        yield Stroke(
            nest.cubics_of(graded.lines[edge], size), meaning, facts={"edge": edge, "name": edge, **of_size}
        )
    for name, line in graded.lines.items():
        if line.kind == "edge" or line.rows is None:
            continue
        inner = graded.written.inner.get(name)
        of_line: Facts = {"name": name, **of_size}
        use = "cut" if line.kind == "cutout" else USES.get(inner.use if inner is not None else None, "inner")
        yield Stroke(nest.cubics_of(line, size), use, line.closed, of_line)


def facts_of_size(nest: Nest, size: int) -> Facts:
    """Which size a part holds for, where there are several."""
    name = nest.sizes[size]
    return {} if name is None else {"size": name}


def _cut_strokes(nest: Nest, graded: GradedPiece, size: int, cut: CutLine, facts: Facts) -> Iterator[Stroke]:
    """The cut line, left open along folds; where it runs on beyond a fold's end, through a hem, it is a fold too."""
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
                    yield Stroke(lines(a + along * np.array([low, high])), "fold", facts=facts)
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
