"""Running on: where a seam ends, the edges that go on into each other must make one smooth line.

Source of the rule: pin front and back at the shoulder; the armhole must be one true curve with no jog or point
(M. Conover et al., A Complete Course in Dressmaking, vol. 9, 1921-22, p. 22). The sum of the two interior angles is 180°.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal, NamedTuple

import numpy as np

from notchwork.sewing.pieces.lines import Floats
from notchwork.sewing.shapes.cloth import share_cloth
from notchwork.sewing.shapes.corners import corner_node
from notchwork.sewing.walks.marks import SideWalk
from notchwork.sewing.walks.spans import Spot
from notchwork.sewing.ways.hands import LYING_ON_EACH_OTHER
from notchwork.sewing.ways.meeting import LineKey, beyond, following

if TYPE_CHECKING:
    from notchwork.sewing.nest import Nest

STRAIGHT = 180.0
SQUARE = 90.0
SMOOTH = 5.0
"""Degrees: as much is taken for one smooth line (common practice, no source)."""


@dataclass(frozen=True, slots=True, eq=False)
class RunningOn:
    """Two edges that go on into each other where a seam ends.

    ``one`` and ``other`` are the edges beyond the seam's first and further side, ``corners`` the spots brought together,
    ``sum`` the sum (degrees, sizes) of their interior angles, ``by`` what makes them belong together. ``crossed``: the seam
    along which they follow each other has a corner of the same shape on its other side, so that it is shaped on purpose.
    """

    seam: str
    at_start: bool
    one: LineKey
    other: LineKey
    corners: tuple[Spot, Spot]
    sum: Floats
    by: Literal["seam", "folds", "finish"]
    crossed: bool

    @property
    def own_image(self) -> bool:
        """Whether a corner meets its own mirror image, as at a centre seam."""
        return self.corners[0].turned() == self.corners[1]


@dataclass(frozen=True, slots=True, eq=False)
class FoldCorner:
    """Where ``edge`` leaves a fold, at the corner ``corner``, and at what angle (degrees, sizes)."""

    piece: str
    fold: str
    edge: str
    corner: str
    angle: Floats


def running_on(nest: Nest) -> Iterator[RunningOn]:
    """Every pair of edges that must run on, at every seam's end where that is asked for."""
    followed = _followings(nest)
    for ident, sides in nest.sides.items():
        seam = nest.pattern.seams[ident]
        lying = seam.construction in ("bagged", *LYING_ON_EACH_OTHER)
        if seam.closed or seam.over or lying or ident in nest.wrong_way:
            continue
        for other in sides[1:]:
            if other.side.join is not None and other.side.join.kind == "gathered":
                continue
            for at_start in (True, False):
                yield from _at_end(nest, ident, sides[0], other, at_start, followed)


def fold_corners(nest: Nest) -> Iterator[FoldCorner]:
    """Every corner at which an edge leaves a fold, but those meant as points and those trimmed later."""
    for ident, graded in nest.pieces.items():
        if not graded.has_shape:
            continue
        for fold in graded.folds:
            line = graded.lines[fold]
            for edge, corner in ((line.before, fold), (line.after, line.after)):
                pointed = _is_point(nest, ident, corner)
                if edge not in graded.folds and not pointed and not _trimmed(nest, (ident, edge)):
                    angle = nest.corners[ident, corner].nearer_to(SQUARE)
                    yield FoldCorner(ident, fold, edge, corner, angle)


def _at_end(
    nest: Nest,
    ident: str,
    side: SideWalk,
    other_side: SideWalk,
    at_start: bool,
    followed: Mapping[frozenset[LineKey], Sequence[_Following]],
) -> Iterator[RunningOn]:
    k = 0 if at_start else -1
    first, second = side.stretches[k], other_side.stretches[k]
    spots = (first.start_spot, second.start_spot) if at_start else (first.stop_spot, second.stop_spot)
    one, other = beyond(first, at_start), beyond(second, at_start)
    if one is None or other is None or spots[0] == spots[1] or any(spot.tenth is not None for spot in spots):
        return
    along = [f for f in followed.get(frozenset((one, other)), ()) if f.seam != ident]
    by = _what_joins(nest, ident, one, other)
    quiet = any(_trimmed(nest, key) for key in (one, other)) or any(
        _is_point(nest, spot.piece, spot.line) for spot in spots
    )
    total = _sum(nest, *spots)
    if by is not None and not quiet and total is not None:
        crossed = any(_shaped_alike(nest, total, f) for f in along)
        yield RunningOn(ident, at_start, one, other, spots, total, by, crossed)


def _what_joins(
    nest: Nest, ident: str, one: LineKey, other: LineKey
) -> Literal["seam", "folds", "finish"] | None:
    if nest.belonging.by_a_seam_or_opening(one, other, besides=ident):
        return "seam"
    if all(key[1] in nest.pieces[key[0]].folds for key in (one, other)):
        return "folds"
    if nest.belonging.finished_alike(one, other):
        return "finish"
    return None


def _sum(nest: Nest, one: Spot, other: Spot) -> Floats | None:
    """The sum of two corners' interior angles; None where a shape is not known."""
    corners = [nest.corners.get((spot.piece, spot.line)) for spot in (one, other)]
    if corners[0] is None or corners[1] is None:
        return None
    return (corners[0] + corners[1]).nearer_to(STRAIGHT)


def _trimmed(nest: Nest, key: LineKey) -> bool:
    edge = nest.pieces[key[0]].written.edges.get(key[1])
    return edge is not None and (edge.trim_to is not None or edge.trim_when is not None)


def _is_point(nest: Nest, piece: str, corner: str) -> bool:
    node = corner_node(nest.pieces[piece], corner)
    return node is not None and node.corner == "point"


class _Following(NamedTuple):
    """Two stretches that follow each other on a side of a seam: where the first stops and the next starts."""

    seam: str
    side: int
    stop: Spot
    start: Spot


def _followings(nest: Nest) -> dict[frozenset[LineKey], list[_Following]]:
    found: defaultdict[frozenset[LineKey], list[_Following]] = defaultdict(list)
    for ident, sides in nest.sides.items():
        for side in sides:
            for a, b in following(side, nest.pattern.seams[ident].closed):
                pair = frozenset((a.line.key, b.line.key))
                found[pair].append(_Following(ident, side.number, a.stop_spot, b.start_spot))
    return found


def _shaped_alike(nest: Nest, total: Floats, along: _Following) -> bool:
    """Whether two seams cross here and the one that runs through is bent alike on its other side.

    The side seam of a fitted dress bends at the waist in front as in back; a waist that is smooth in the skirt and kinked
    in the bodice does not. A lining that is like its shell bends with it and proves nothing.
    """
    partners = [
        partner
        for comparison in nest.walks[along.seam].others
        for station in comparison.pairing.stations
        if len(station.meeting) == 2
        for partner in _partner(along, comparison.side.number, station.meeting)
    ]
    for stop, start in partners:
        if _lines(nest, stop, along.stop) and _lines(nest, start, along.start):
            continue
        beside = _sum(nest, stop, start) if stop.tenth is None and start.tenth is None else None
        if beside is None:
            continue
        smooth = np.abs(beside - STRAIGHT) <= SMOOTH
        if not bool(np.any(smooth & (np.abs(total - beside) > SMOOTH))):
            return True
    return False


def _lines(nest: Nest, one: Spot, other: Spot) -> bool:
    """Whether two corners are one corner of a shell and of the lining that is like it."""
    a, b = nest.pieces[one.piece], nest.pieces[other.piece]
    return a.root == b.root and one.line == other.line and not share_cloth(a, b)


def _partner(
    along: _Following, further: int, meeting: tuple[tuple[Spot, Spot], ...]
) -> Iterator[tuple[Spot, Spot]]:
    """What the joint of one side meets on the other side."""
    here = (along.stop, along.start)
    first, second = (meeting[0][0], meeting[1][0]), (meeting[0][1], meeting[1][1])
    if along.side == 0 and first == here:
        yield second
    elif along.side == further and second == here:
        yield first
