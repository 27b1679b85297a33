"""Sides put together from edges: which ends lie on each other, and in which order a side can be walked."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import product
from typing import NamedTuple

from notchwork.recognise.labels.found import EdgeOf, Labelled

MOST_PIECES = 8
"""More pieces than this do not meet in one seam whose sides nobody states; the ways to divide them double with each."""


class Corner(NamedTuple):
    """A corner of a piece, by the number of the edge that starts there."""

    piece: str
    edge: int


class Walked(NamedTuple):
    """An edge as it is walked: in the outline's order (``forward``) or against it."""

    edge: EdgeOf
    forward: bool

    def turned(self) -> Walked:
        return Walked(self.edge, not self.forward)


Chain = tuple[Walked, ...]
"""One side in walking order."""


@dataclass(frozen=True, slots=True)
class Outlines:
    """What is to be known of the pieces: how many edges each has, and whether it is drawn counter-clockwise (+1) or not (-1)."""

    counts: Mapping[str, int]
    senses: Mapping[str, int]

    def start(self, walked: Walked) -> Corner:
        return self._corner(walked, walked.forward)

    def stop(self, walked: Walked) -> Corner:
        return self._corner(walked, not walked.forward)

    def cloth(self, walked: Walked) -> int:
        """+1 where the cloth lies left of the walker."""
        return self.senses[walked.edge.piece] * (1 if walked.forward else -1)

    def _corner(self, walked: Walked, first: bool) -> Corner:
        piece, edge = walked.edge
        return Corner(piece, edge if first else (edge + 1) % self.counts[piece])


class Joined:
    """Corners that seams bring together."""

    def __init__(self) -> None:
        self._parent: dict[Corner, Corner] = {}

    def find(self, corner: Corner) -> Corner:
        while (parent := self._parent.get(corner, corner)) != corner:
            corner = parent
        return corner

    def join(self, a: Corner, b: Corner) -> None:
        self._parent[self.find(a)] = self.find(b)

    def together(self, a: Corner, b: Corner) -> bool:
        return self.find(a) == self.find(b)


class Reading(NamedTuple):
    """A label as a seam: its two sides, and whether each is a ring."""

    one: Chain
    other: Chain
    rings: tuple[bool, bool]

    @property
    def closed(self) -> bool:
        return all(self.rings)


Hands = Mapping[str, bool]
"""By piece: whether the copy in one half is the mirrored one."""


def opposite(outlines: Outlines, hands: Hands, one: Walked, other: Walked) -> bool:
    """Whether two edges that are sewn to each other run as hands want it: copies of one hand have their cloth on opposite
    sides of the seam, copies of opposite hands on the same side."""
    same_hand = hands[one.edge.piece] == hands[other.edge.piece]
    return (outlines.cloth(one) != outlines.cloth(other)) == same_hand


def chains(edges: Sequence[EdgeOf], outlines: Outlines, joined: Joined, hands: Hands) -> list[Chain]:
    """Every order in which the edges follow each other so that each joint is joined and hands agree, up to its direction.

    A ring is begun at the first edge in outline order, walked forward.
    """
    if len(edges) == 1:
        return [(Walked(edges[0], True),)]
    found: list[Chain] = []

    def grow(chain: Chain) -> None:
        if len(chain) == len(edges):
            found.append(chain)
            return
        last = chain[-1]
        for edge, forward in product(edges, (True, False)):
            following = Walked(edge, forward)
            if any(edge == walked.edge for walked in chain):
                continue
            met = joined.together(outlines.stop(last), outlines.start(following))
            if met and not opposite(outlines, hands, last, following):
                grow((*chain, following))

    for edge, forward in product(edges, (True, False)):
        grow((Walked(edge, forward),))
    return _one_each(found, outlines, joined)


def _one_each(found: Iterable[Chain], outlines: Outlines, joined: Joined) -> list[Chain]:
    """Chains that are not each other walked backwards, nor one ring begun elsewhere."""
    kept: dict[frozenset[tuple[Walked, Walked]] | Chain, Chain] = {}
    for chain in found:
        if is_ring(chain, outlines, joined):
            around = zip(chain, (*chain[1:], chain[0]), strict=True)
            key: frozenset[tuple[Walked, Walked]] | Chain = frozenset(around)
            back = tuple(walked.turned() for walked in reversed(chain))
            turned: frozenset[tuple[Walked, Walked]] | Chain = frozenset(
                zip(back, (*back[1:], back[0]), strict=True)
            )
        else:
            key = chain
            turned = tuple(walked.turned() for walked in reversed(chain))
        if key not in kept and turned not in kept:
            kept[key] = chain
    return list(kept.values())


def is_ring(chain: Chain, outlines: Outlines, joined: Joined) -> bool:
    """Whether a side's last end lies on its first."""
    return joined.together(outlines.stop(chain[-1]), outlines.start(chain[0]))


def sides_of(label: Labelled) -> list[tuple[tuple[EdgeOf, ...], tuple[EdgeOf, ...]]]:
    """Every division of a label's edges into two sides that may be: as its labels state, edge by edge, piece by piece."""
    if label.sides:
        stated = {edge: label.sides[edge] for edge in label.edges if edge in label.sides}
        by_piece = {edge.piece: side for edge, side in stated.items()}
        sides = [stated.get(edge, by_piece.get(edge.piece)) for edge in label.edges]
        if None not in sides and len(set(sides)) == 2:
            one = tuple(e for e, side in zip(label.edges, sides, strict=True) if side == 1)
            return [(one, tuple(e for e in label.edges if e not in one))]
        return []
    if len(label.edges) == 2:
        return [((label.edges[0],), (label.edges[1],))]
    if len(label.pieces) > MOST_PIECES:
        return []
    first, *others = label.pieces
    divisions = []
    for choice in product((True, False), repeat=len(others)):
        with_first = (first, *(piece for piece, here in zip(others, choice, strict=True) if here))
        one = label.of(*with_first)
        other = tuple(edge for edge in label.edges if edge not in one)
        if other:
            divisions.append((one, other))
    return divisions


def readings(label: Labelled, outlines: Outlines, joined: Joined, hands: Hands) -> list[Reading]:
    """Every way in which a label is a seam with all its joints joined, the other side in the direction that hands want."""
    found = []
    for one_edges, other_edges in sides_of(label):
        for one in chains(one_edges, outlines, joined, hands):
            for other in chains(other_edges, outlines, joined, hands):
                laid = other
                if not opposite(outlines, hands, one[0], other[0]):
                    laid = tuple(walked.turned() for walked in reversed(other))
                rings = (is_ring(one, outlines, joined), is_ring(laid, outlines, joined))
                found.append(Reading(one, laid, rings))
    return found


def join_ends(reading: Reading, outlines: Outlines, joined: Joined) -> None:
    """Bring together what a seam joins at its two ends."""
    joined.join(outlines.start(reading.one[0]), outlines.start(reading.other[0]))
    joined.join(outlines.stop(reading.one[-1]), outlines.stop(reading.other[-1]))
