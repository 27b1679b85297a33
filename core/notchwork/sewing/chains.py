"""Chains: gaps that go on into each other across the seams that are stated, as the hems of two skirt pieces do."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations, product
from typing import TYPE_CHECKING

import numpy as np

from notchwork.sewing.gaps import Gap
from notchwork.sewing.joints import Groups, brought_together
from notchwork.sewing.lines import Floats, Line, agree
from notchwork.sewing.meeting import LineKey
from notchwork.sewing.spans import Spot, spot_on

if TYPE_CHECKING:
    from notchwork.sewing.nest import Nest


@dataclass(frozen=True, slots=True)
class End:
    """Where a gap ends: the spot, and the edge that goes on there (its own, ``inside`` an edge; None by tape).

    ``fold``: a fold goes on there, so the gap goes on into its own image.
    """

    spot: Spot
    beyond: LineKey | None
    inside: bool
    fold: bool


@dataclass(frozen=True, slots=True, eq=False)
class Chain:
    """Gaps in the pattern's order that one finished line runs along; ``free`` are its ends, none in a ring or at a fold."""

    gaps: tuple[Gap, ...]
    ends: tuple[End, ...]
    free: tuple[End, ...]

    @property
    def length(self) -> Floats:
        """mm that a seam along it would sew, in every size."""
        total: Floats = np.sum([gap.sewn_length for gap in self.gaps], axis=0)
        return total


class Meeting:
    """What the stated seams bring together, whichever copy or half is meant."""

    def __init__(self, nest: Nest) -> None:
        self._groups: Groups = brought_together(nest, None, nest.wrong_way)
        self._sewn = {
            frozenset((a.line.key, b.line.key))
            for sides in nest.sides.values()
            for one, other in combinations(sides, 2)
            for a, b in product(one.stretches, other.stretches)
        }

    def near(self, a: End, b: End) -> bool:
        """Whether two ends come together; of edges known by tape nobody knows where they end."""
        if a.beyond is None or b.beyond is None:
            return False
        return self._groups.together(a.spot, b.spot) or self._groups.together(a.spot, b.spot.turned())

    def go_on(self, a: End, b: End) -> bool:
        """Whether two ends go on into each other: the edges beside them are sewn to each other there."""
        if a.inside or b.inside or a.beyond is None or b.beyond is None:
            return False
        return frozenset((a.beyond, b.beyond)) in self._sewn and self.near(a, b)


def chains_of(nest: Nest, gaps: Sequence[Gap], meeting: Meeting) -> Iterator[Chain]:
    """Gaps gathered into the lines that they are parts of."""
    ends = [_ends(nest, gap) for gap in gaps]
    every = [(k, end) for k, pair in enumerate(ends) for end in pair]
    links = [
        (one, other)
        for one, other in combinations(range(len(every)), 2)
        if meeting.go_on(every[one][1], every[other][1])
    ]
    linked = {index for link in links for index in link}
    for group in components(len(gaps), [(every[one][0], every[other][0]) for one, other in links]):
        yield Chain(
            tuple(gaps[k] for k in group),
            tuple(end for k in group for end in ends[k]),
            tuple(
                end
                for index, (k, end) in enumerate(every)
                if k in group and index not in linked and not end.fold
            ),
        )


def components(count: int, links: Sequence[tuple[int, int]]) -> Iterator[list[int]]:
    """The numbers below ``count`` in sets that links hold together, each in order."""
    parent = list(range(count))

    def find(k: int) -> int:
        while parent[k] != k:
            k = parent[k]
        return k

    for a, b in links:
        low, high = sorted((find(a), find(b)))
        parent[high] = low
    roots = [find(k) for k in range(count)]
    for root in dict.fromkeys(roots):
        yield [k for k in range(count) if roots[k] == root]


def _ends(nest: Nest, gap: Gap) -> tuple[End, End]:
    line = gap.line
    return (
        _end(nest, line, gap.low, np.zeros_like(gap.low), line.before),
        _end(nest, line, gap.high, line.length, line.after),
    )


def _end(nest: Nest, line: Line, at: Floats, corner: Floats, neighbour: str) -> End:
    at_corner = agree(at, corner)
    spot = spot_on(line, at, False)
    if line.by_tape or line.kind != "edge":
        return End(spot, None, not at_corner, False)
    if not at_corner:
        return End(spot, line.key, True, False)
    return End(spot, (line.piece, neighbour), False, neighbour in nest.pieces[line.piece].folds)
