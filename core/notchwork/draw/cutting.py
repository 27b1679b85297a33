"""Cut lines as they are drawn: smooth, and open along folds, where nothing is cut."""

from __future__ import annotations

from collections.abc import Container, Iterator, Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from notchwork.draw.places import facts_of_size
from notchwork.drawing import Meaning, Stroke
from notchwork.geometry import lines
from notchwork.geometry.smooth import smoothed
from notchwork.sewing import GradedPiece, Nest
from notchwork.sewing.shapes.cutlines import cut_lines

Complexes = NDArray[np.complex128]
Bools = NDArray[np.bool_]

ON_FOLD = 0.02
"""mm: a cut line this near to a fold is the fold itself, and not cut."""


@dataclass(frozen=True, slots=True, eq=False)
class DrawnCut:
    """What is cut of a piece in one size, each run with whether it closes, and where it folds beyond a fold's ends."""

    runs: tuple[tuple[Complexes, bool], ...]
    beyond: tuple[tuple[str, Complexes], ...]


DrawnCuts = Mapping[tuple[str, int], DrawnCut]


def drawn_cuts(nest: Nest, pieces: Sequence[GradedPiece]) -> DrawnCuts:
    """The cut lines of the pieces in every size, by (piece, number of the size), all offset and smoothed at once."""
    found = cut_lines(nest, [graded.id for graded in pieces])
    parts: list[Complexes] = []
    closed: list[bool] = []
    counts: list[int] = []
    beyond: list[tuple[tuple[str, Complexes], ...]] = []
    for (ident, size), cut in found.items():
        on_fold, folded = _along_folds(nest, nest.pieces[ident], size, cut.points)
        beyond.append(tuple(folded))
        if on_fold.any():
            runs = [cut.points[run] for run in _runs(on_fold.tolist())]
        else:
            runs = [cut.points] if len(cut.points) else []
        parts += runs
        closed += [not on_fold.any()] * len(runs)
        counts.append(len(runs))
    drawn = list(zip(smoothed(parts, closed), closed, strict=True))
    last = np.cumsum(counts).tolist()
    return {
        key: DrawnCut(tuple(drawn[stop - count : stop]), folded)
        for key, count, stop, folded in zip(found, counts, last, beyond, strict=True)
    }


def cut_strokes(
    nest: Nest, graded: GradedPiece, size: int, cuts: DrawnCuts, opened: Container[str] = ()
) -> Iterator[Stroke]:
    """The cut line; where it runs on beyond a fold's end, through a hem, it is a fold too, opened where the fold is."""
    facts, cut = facts_of_size(nest, size), cuts[graded.id, size]
    for fold, cubics in cut.beyond:
        meaning: Meaning = "opened" if fold in opened else "fold"
        yield Stroke(cubics, meaning, facts=facts)
    for cubics, closed in cut.runs:
        yield Stroke(cubics, "cut", closed, facts)


def _along_folds(
    nest: Nest, graded: GradedPiece, size: int, points: Complexes
) -> tuple[Bools, list[tuple[str, Complexes]]]:
    """Which steps of the closed line lie on a fold's line, and its stretches beyond the fold's ends."""
    following = np.roll(points, -1)
    on_fold = np.zeros(len(points), dtype=bool)
    found: list[tuple[str, Complexes]] = []
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
                    found.append((fold, lines(a + along * np.array([low, high]))))
    return on_fold, found


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
