"""What of a piece was moved: its lines and points as drawn, against those of another nest."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from notchwork.geometry import is_straight, nearest, points
from notchwork.recognise.reconcile.fineness import LEAST
from notchwork.sewing import GradedPiece, Nest

Complexes = NDArray[np.complex128]

BEADS = 8
"""Points by which a cubic is compared where its nodes are not those of the other."""


class Pair:
    """One piece in the drawing (``seen``) and in the document (``told``), in the sizes that both have.

    ``shift`` is what takes the drawing's coordinates to the document's: a piece that was only laid elsewhere on the sheet
    has not changed.
    """

    def __init__(self, seen: Nest, told: Nest, ident: str, fine: float) -> None:
        self.seen, self.told, self.ident, self.fine = seen, told, ident, fine
        self.one: GradedPiece = seen.pieces[ident]
        self.other: GradedPiece = told.pieces[ident]
        self.sizes = _common(seen, told, self.one, self.other)
        self.shift = self._shift()
        # Where what it is shifted by was rounded too, both add up.
        self.reach = 2.0 * fine if fine > LEAST and abs(self.shift) > LEAST else fine

    def _shift(self) -> complex:
        steps = [np.zeros(0, dtype=complex)]
        for a, b in self.sizes:
            for edge in set(self.one.edges) & set(self.other.edges):
                mine, theirs = self._edge(edge, a, b)
                if len(mine) == len(theirs):
                    steps.append((theirs - mine)[:, [0, 3]].ravel())
        step = np.concatenate(steps)
        if not len(step):
            return 0j
        return complex(np.median(step.real), np.median(step.imag))

    def _edge(self, edge: str, a: int, b: int) -> tuple[Complexes, Complexes]:
        return (
            self.seen.cubics_of(self.one.lines[edge], a),
            self.told.cubics_of(self.other.lines[edge], b),
        )

    @property
    def outline_moved(self) -> bool:
        """Whether the outline has other edges, or any of them runs elsewhere, in any size."""
        if not _same_ring(self.one.edges, self.other.edges):
            return True
        return any(not self._alike(*self._edge(edge, a, b)) for a, b in self.sizes for edge in self.one.edges)

    def line_moved(self, name: str) -> bool:
        """Whether an inner line or cut-out runs elsewhere."""
        if name not in self.one.lines or name not in self.other.lines:
            return True
        return any(
            not self._alike(
                self.seen.cubics_of(self.one.lines[name], a), self.told.cubics_of(self.other.lines[name], b)
            )
            for a, b in self.sizes
        )

    def point_moved(self, mine: Complexes, theirs: Complexes) -> bool:
        """Whether points (sizes, ...) lie elsewhere in any common size."""
        if mine.shape[1:] != theirs.shape[1:]:
            return True
        off = [np.ravel(mine[a] + self.shift - theirs[b]) for a, b in self.sizes]
        return bool(off) and self._off(np.concatenate(off)) > self.reach

    def arc_moved(self, mine: NDArray[np.float64], theirs: NDArray[np.float64]) -> bool:
        """Whether places along an edge (sizes,) differ; rounded ends add up."""
        off = [abs(float(mine[a]) - float(theirs[b])) for a, b in self.sizes]
        return max((o for o in off if o == o), default=0.0) > 3.0 * self.reach

    def _alike(self, mine: Complexes, theirs: Complexes) -> bool:
        if not len(mine) or not len(theirs):
            return len(mine) == len(theirs)
        laid = mine + self.shift
        if self.fine > LEAST and _apart(laid, theirs) <= self.reach:
            # Kept roughly, a line may have come back with other nodes.
            return True
        if len(mine) != len(theirs):
            return False
        # A straight row is its ends, wherever its handles lie.
        straight = is_straight(laid, 2.0 * self.reach) & is_straight(theirs, 2.0 * self.reach)
        off = laid - theirs
        off[straight, 1:3] = 0.0
        return self._off(off.ravel()) <= self.reach

    def _off(self, off: Complexes) -> float:
        """The largest difference of a coordinate, a little less than which is arithmetic."""
        known = off[np.isfinite(off)]
        if not len(known):
            return 0.0
        return float(max(np.abs(known.real).max(), np.abs(known.imag).max())) - 1e-6


def _apart(one: Complexes, other: Complexes) -> float:
    """How far (mm) two runs lie from each other at most, as seen from points along either; ends lie at ends."""
    ends = max(abs(one[0, 0] - other[0, 0]), abs(one[-1, 3] - other[-1, 3]))
    far = (nearest(one, _beads(other)).distance, nearest(other, _beads(one)).distance)
    return float(max(ends, *(off.max() for off in far)))


def _beads(run: Complexes) -> Complexes:
    t = np.arange(BEADS) / BEADS
    return points(run, np.repeat(np.arange(len(run)), BEADS), np.tile(t, len(run)))


def _common(seen: Nest, told: Nest, one: GradedPiece, other: GradedPiece) -> list[tuple[int, int]]:
    return [
        (a, b)
        for a, size in enumerate(seen.sizes)
        for b, name in enumerate(told.sizes)
        if (size == name or len(seen.sizes) == len(told.sizes) == 1) and one.present[a] and other.present[b]
    ]


def _same_ring(one: tuple[str, ...], other: tuple[str, ...]) -> bool:
    """Whether the same edges follow each other, whichever comes first."""
    if len(one) != len(other) or not one or one[0] not in other:
        return one == other
    at = other.index(one[0])
    return one == other[at:] + other[:at]
