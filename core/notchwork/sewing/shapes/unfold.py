"""Pieces opened out: what is drawn as a half or a quarter on folds, as the whole piece of cloth."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from notchwork.geometry import area, mirror, reverse
from notchwork.sewing.pieces.graded import GradedPiece
from notchwork.sewing.pieces.grading import Complex

if TYPE_CHECKING:
    from notchwork.sewing.nest import Nest

SAME = 1e-3
"""mm: images nearer than this are one image."""

MOST_COPIES = 16
"""Folds whose reflections give more copies than this (parallel folds: a tube) do not open out flat."""


class Image(NamedTuple):
    """One copy of an edge in the opened piece: its cubics in the ring's order, and which copy of what is drawn it lies on."""

    edge: str
    copy: int
    cubics: Complex


class Unfolded(NamedTuple):
    """A piece opened out in one size.

    ``rings`` are closed runs of edges; more than one where the middle is left out (a full circle from a quarter).
    ``copies`` is how many times what is drawn lies in it, ``area`` its area in mm². Folds that do not open out flat (two
    parallel ones) stay edges of the ring.
    """

    rings: tuple[tuple[Image, ...], ...]
    copies: int
    area: float

    def outline(self, ring: int = 0) -> Complex:
        """The cubics (k, 4) of one ring."""
        return np.concatenate([image.cubics for image in self.rings[ring]])


def unfolded(nest: Nest, graded: GradedPiece, size: int) -> Unfolded:
    """A piece in one size opened along its folds; as it is drawn where it has none.

    The first copy is what is drawn, in its own order and sense.
    """
    drawn = [Image(name, 0, nest.cubics_of(graded.lines[name], size)) for name in graded.edges]
    around = abs(area(np.concatenate([image.cubics for image in drawn])))
    moves, folded = copies(nest, graded, size)
    if len(moves) == 1:
        return Unfolded((tuple(drawn),), 1, around)
    runs = [run for copy, move in enumerate(moves) for run in _runs(drawn, folded, copy, move)]
    return Unfolded(tuple(_chained(runs)), len(moves), around * len(moves))


def copies(nest: Nest, graded: GradedPiece, size: int) -> tuple[list[Move], frozenset[str]]:
    """How each copy of what is drawn lies in the opened piece, the unmoved one first, and the folds that are opened."""
    axes = {
        name: (complex(line[0, 0]), complex(line[-1, 3]))
        for name in graded.folds
        if len(line := nest.cubics_of(graded.lines[name], size)) and line[0, 0] != line[-1, 3]
    }
    moves, folded = _group(list(axes.values())), frozenset(graded.folds)
    if len(moves) > MOST_COPIES:
        first = next(iter(axes))
        moves, folded = _group([axes[first]]), frozenset([first])
    return moves, folded


class Move(NamedTuple):
    """A turn with a shift, after a reflection across the x axis where ``flips``: z -> m z + c, or m conj(z) + c."""

    m: complex
    c: complex
    flips: bool

    def of(self, z: Complex) -> Complex:
        """Points (any shape) where this copy has them."""
        moved: Complex = self.m * (np.conj(z) if self.flips else z) + self.c
        return moved

    def across(self, a: complex, b: complex) -> Move:
        """This move, then a reflection across the line through a and b."""
        zero, one = (mirror(z, a, b) for z in (self.c, self.m + self.c))
        return Move(one - zero, zero, not self.flips)

    def is_one_with(self, other: Move) -> bool:
        return (
            self.flips == other.flips
            and abs(self.m - other.m) < 1e-6
            and abs(self.c - other.c) < SAME + 1e-6 * abs(self.c)
        )


def _group(axes: Sequence[tuple[complex, complex]]) -> list[Move]:
    """All moves that reflections across the axes make of each other, the unmoved first; cut short beyond MOST_COPIES."""
    found = [Move(1 + 0j, 0j, False)]
    for move in found:
        for a, b in axes:
            further = move.across(a, b)
            if not any(further.is_one_with(other) for other in found):
                found.append(further)
        if len(found) > MOST_COPIES:
            break
    return found


def _runs(drawn: Sequence[Image], folded: frozenset[str], copy: int, move: Move) -> list[list[Image]]:
    """The stretches between folds, moved; where the move is a reflection they are walked the other way."""
    first = next(k for k, image in enumerate(drawn) if image.edge in folded)
    runs: list[list[Image]] = []
    after_fold = True
    for image in [*drawn[first + 1 :], *drawn[: first + 1]]:
        if image.edge in folded:
            after_fold = True
            continue
        if after_fold:
            runs.append([])
        after_fold = False
        runs[-1].append(Image(image.edge, copy, move.of(image.cubics)))
    if not move.flips:
        return runs
    return [[Image(i.edge, copy, reverse(i.cubics)) for i in reversed(run)] for run in reversed(runs)]


def _chained(runs: list[list[Image]]) -> list[tuple[Image, ...]]:
    """Runs put together, each after the one at whose end it begins, until each ring closes."""
    left = list(runs)
    rings: list[tuple[Image, ...]] = []
    while left:
        ring = left.pop(0)
        while left:
            end = ring[-1].cubics[-1, 3]
            gaps = [abs(run[0].cubics[0, 0] - end) for run in left]
            k = int(np.argmin(gaps))
            if abs(ring[0].cubics[0, 0] - end) <= gaps[k]:
                break
            ring = ring + left.pop(k)
        rings.append(tuple(ring))
    return rings
