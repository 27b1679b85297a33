"""A piece that the document has as a half on a fold, and the drawing whole."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np
from numpy.typing import NDArray

from notchwork.geometry import lines, nearest, points
from notchwork.recognise.reconcile.moved import Pair
from notchwork.sewing import GradedPiece, Nest
from notchwork.sewing.shapes.cutlines import cut_lines
from notchwork.sewing.shapes.darts import darts_of
from notchwork.sewing.shapes.unfold import Move, copies

Complexes = NDArray[np.complex128]

BEADS = 12
"""Points by which a cubic is compared."""


def drawn_whole(pair: Pair) -> bool:
    """Whether what is drawn is the document's piece with its folds opened, and nothing on it was moved.

    Some files cannot say which half is the image of the other. Lines and points are compared in all sizes, whatever they are called.
    """
    if not pair.other.folds or pair.one.folds or not pair.sizes:
        return False
    return all(_same(pair, a, b) for a, b in pair.sizes)


def _same(pair: Pair, a: int, b: int) -> bool:
    moves, folded = copies(pair.told, pair.other, b)
    if len(moves) < 2:
        return False
    half = _lines(pair.told, pair.other, b, set(pair.other.edges) - folded)
    folds = [pair.told.cubics_of(pair.other.lines[edge], b) for edge in folded]
    mine = np.concatenate(_lines(pair.seen, pair.one, a, pair.one.edges))
    theirs = np.concatenate([move.of(line) for move in moves for line in half])
    # Where the middle of a whole circle is cut out, the cut line round it is all that tells.
    cut = lines(cut_lines(pair.told, [pair.ident])[pair.ident, b].points, closed=True)
    known = np.concatenate([theirs, *(move.of(line) for move in moves for line in (*folds, cut))])
    reach = 2.0 * pair.fine
    return (
        _near(mine, known, reach)
        and _near(theirs, mine, reach)
        and _same_points(
            _points(pair.seen, pair.one, a, [Move(1 + 0j, 0j, False)]),
            _points(pair.told, pair.other, b, moves),
            3.0 * pair.fine,
        )
    )


def _lines(nest: Nest, graded: GradedPiece, size: int, edges: Sequence[str] | set[str]) -> list[Complexes]:
    """The edges, and all lines on the piece."""
    drawn = [
        nest.cubics_of(line, size)
        for name, line in graded.lines.items()
        if name in edges or line.kind != "edge"
    ]
    return [*drawn, *(dart.legs[size] for dart in darts_of(nest, [graded.id]))]


def _points(nest: Nest, graded: GradedPiece, size: int, moves: Sequence[Move]) -> Complexes:
    """Notches and marks, in every copy."""
    found = np.array(list(_places(nest, graded, size)), dtype=complex)
    found = found[np.isfinite(found)]
    return np.concatenate([move.of(found) for move in moves])


def _places(nest: Nest, graded: GradedPiece, size: int) -> Iterator[complex]:
    for name, notch in graded.written.notches.items():
        if notch is not None and notch.edge in graded.lines:
            arc = nest.notches[graded.id, name][size : size + 1]
            yield complex(nest.points(graded.lines[notch.edge], arc, size)[0])
    for at in graded.marks.values():
        yield complex(at[size])


def _near(one: Complexes, other: Complexes, reach: float) -> bool:
    """Whether a run lies on another all along."""
    t = np.linspace(0.0, 1.0, BEADS)
    beads = points(one, np.repeat(np.arange(len(one)), BEADS), np.tile(t, len(one)))
    return bool(nearest(other, beads).distance.max() <= reach)


def _same_points(one: Complexes, other: Complexes, reach: float) -> bool:
    """Whether every point lies at one of the others and the other way round. Copies of one on a fold fall together."""
    if not len(one) or not len(other):
        return len(one) == len(other)
    far = np.abs(one[:, None] - other)
    return bool(max(far.min(axis=0).max(), far.min(axis=1).max()) <= reach)
