"""Which edges belong together where seams end: the edges that go on into each other in the sewn garment."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from itertools import pairwise, product
from typing import TYPE_CHECKING

from notchwork.model import Finish, Span
from notchwork.sewing.pieces.graded import GradedPiece
from notchwork.sewing.pieces.lines import agree
from notchwork.sewing.walks.marks import SideWalk
from notchwork.sewing.walks.spans import Stretch, stretches_of

if TYPE_CHECKING:
    from notchwork.sewing.nest import Nest

LineKey = tuple[str, str]
"""A line by (piece, name)."""


class Belonging:
    """Which edges belong together, and by what.

    Two edges do if they follow each other on a side of a seam (a ring's last span is followed by its first), lie in
    following sections of one opening, carry a finish of the same kind with the same piece (or with pieces sewn to each
    other), are the lips of one opening, are both folds, or are one edge and its own image.
    """

    def __init__(self, nest: Nest) -> None:
        self._nest = nest
        self._by_seam: defaultdict[frozenset[LineKey], set[str]] = defaultdict(set)
        self._by_opening: set[frozenset[LineKey]] = set()
        self._lips: set[frozenset[LineKey]] = set()
        self._sewn_pieces: set[frozenset[str]] = set()
        for ident, sides in nest.sides.items():
            for side in sides:
                for a, b in following(side, nest.pattern.seams[ident].closed):
                    self._by_seam[frozenset((a.line.key, b.line.key))].add(ident)
            for a_side, b_side in product(sides, sides):
                self._sewn_pieces |= {frozenset(pair) for pair in product(a_side.pieces, b_side.pieces)}
        for opening in nest.pattern.openings.values():
            for upper, lower in pairwise(opening.sections or ()):
                self._by_opening |= _pairs(upper, lower)
            for lying in (*(opening.sections or ()), sum(opening.lips or (), ())):
                self._lips |= _pairs(lying, lying)

    def together(self, a: LineKey, b: LineKey, besides: str | None = None) -> bool:
        """Whether two edges belong together by anything but the seam ``besides``."""
        if a == b:
            return True
        pair = frozenset((a, b))
        return (
            bool(self._by_seam.get(pair, set()) - {besides})
            or pair in self._by_opening
            or pair in self._lips
            or self.finished_alike(a, b)
            or (self.is_fold(a) and self.is_fold(b))
        )

    def by_a_seam_or_opening(self, a: LineKey, b: LineKey, besides: str | None = None) -> bool:
        """Whether two edges follow each other on a seam's side or in an opening: more than a finish that looks alike."""
        pair = frozenset((a, b))
        return bool(self._by_seam.get(pair, set()) - {besides}) or pair in self._by_opening

    def finished_alike(self, a: LineKey, b: LineKey) -> bool:
        """Whether two edges carry a finish of one kind, with one piece or with pieces sewn to each other."""
        one, other = self._finish(a), self._finish(b)
        if one is None or other is None or one.kind != other.kind:
            return False
        if one.with_ == other.with_:
            return True
        return (
            one.with_ is not None
            and other.with_ is not None
            and frozenset((one.with_, other.with_)) in self._sewn_pieces
        )

    def _finish(self, key: LineKey) -> Finish | None:
        edge = self._nest.pieces[key[0]].written.edges.get(key[1])
        return edge.finish if edge is not None else None

    def is_fold(self, key: LineKey) -> bool:
        return key[1] in self._nest.pieces[key[0]].folds


def _pairs(some: Sequence[Span], others: Sequence[Span]) -> set[frozenset[LineKey]]:
    return {frozenset(((a.piece, a.line), (b.piece, b.line))) for a, b in product(some, others)}


def following(side: SideWalk, closed: bool) -> Iterator[tuple[Stretch, Stretch]]:
    """The stretches of a side that follow each other; in a ring the last is followed by the first."""
    yield from pairwise(side.stretches)
    if closed and side.stretches:
        yield side.stretches[-1], side.stretches[0]


def beyond(stretch: Stretch, at_start: bool) -> LineKey | None:
    """The edge that goes on where a stretch starts or stops: the neighbour at a corner, else its own edge.

    None for lines that are no edges, and where nothing but lengths is known: nobody knows what lies beside them.
    """
    line = stretch.line
    if line.kind != "edge" or line.closed or line.by_tape:
        return None
    at = stretch.start if at_start else stretch.stop
    leaves_at_zero = stretch.forward == at_start
    if not agree(at, 0.0 if leaves_at_zero else line.length):
        return line.key
    neighbour = line.before if leaves_at_zero else line.after
    return (line.piece, neighbour)


def opening_stretches(nest: Nest, graded: GradedPiece | None = None) -> Iterator[tuple[str, int, Stretch]]:
    """Every stretch of every opening: its id, the section (or lip) it lies in, and the stretch."""
    for ident, opening in nest.pattern.openings.items():
        groups: Sequence[Sequence[object]] = opening.sections or opening.lips or ()
        for number, _ in enumerate(groups):
            for span in (opening.sections or opening.lips or ())[number]:
                for stretch in stretches_of(nest, span):
                    if graded is None or stretch.graded is graded:
                        yield ident, number, stretch
