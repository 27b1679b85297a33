"""Chains: gaps that go on into each other across the seams that are stated, as the hems of two skirt pieces do."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations, product
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from notchwork.sewing.counts.gaps import Gap
from notchwork.sewing.pieces.lines import Floats, Line, agree
from notchwork.sewing.walks.marks import SideWalk
from notchwork.sewing.walks.spans import Spot, spot_on
from notchwork.sewing.ways.joints import Groups, brought_together
from notchwork.sewing.ways.meeting import LineKey

if TYPE_CHECKING:
    from notchwork.sewing.nest import Nest


class End(NamedTuple):
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
        self._sewn_to: dict[LineKey, set[LineKey]] = {}
        for sides in nest.sides.values():
            for one, other in combinations(sides, 2):
                for a, b in product(_lines(one), _lines(other)):
                    self._sewn_to.setdefault(a, set()).add(b)
                    self._sewn_to.setdefault(b, set()).add(a)

    def near(self, a: End, b: End) -> bool:
        """Whether two ends come together; of edges known by tape nobody knows where they end."""
        if a.beyond is None or b.beyond is None:
            return False
        return self._groups.together(a.spot, b.spot) or self._groups.together(a.spot, b.spot.turned())

    def going_on(self, ends: Sequence[End]) -> Iterator[tuple[int, int]]:
        """The ends, by number, that go on into each other: the edges beside them are sewn to each other there."""
        beside: dict[LineKey, list[int]] = {}
        for k, end in enumerate(ends):
            if end.beyond is not None and not end.inside:
                beside.setdefault(end.beyond, []).append(k)
        for edge, here in beside.items():
            others = (k for other in self._sewn_to.get(edge, ()) for k in beside.get(other, ()))
            for a, b in product(here, sorted(others)):
                if a < b and self.near(ends[a], ends[b]):
                    yield a, b


def _lines(side: SideWalk) -> set[LineKey]:
    return {stretch.line.key for stretch in side.stretches}


def chains_of(nest: Nest, gaps: Sequence[Gap], meeting: Meeting) -> Iterator[Chain]:
    """Gaps gathered into the lines that they are parts of."""
    ends = [end for gap in gaps for end in _ends(nest, gap)]
    links = list(meeting.going_on(ends))
    linked = {index for link in links for index in link}
    for group in components(len(gaps), [(one // 2, other // 2) for one, other in links]):
        here = [index for k in group for index in (2 * k, 2 * k + 1)]
        yield Chain(
            tuple(gaps[k] for k in group),
            tuple(ends[index] for index in here),
            tuple(ends[index] for index in here if index not in linked and not ends[index].fold),
        )


def components(count: int, links: Sequence[tuple[int, int]]) -> Iterator[list[int]]:
    """The numbers below ``count`` in sets that links hold together, each in order."""
    parent = list(range(count))

    def find(k: int) -> int:
        while parent[k] != k:
            parent[k] = parent[parent[k]]
            k = parent[k]
        return k

    for a, b in links:
        low, high = sorted((find(a), find(b)))
        parent[high] = low
    found: dict[int, list[int]] = {}
    for k in range(count):
        found.setdefault(find(k), []).append(k)
    yield from found.values()


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
