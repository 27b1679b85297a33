"""Joints: where spans follow each other on a side, another seam or a fold must bring their corners together."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from itertools import pairwise, permutations
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from notchwork.geometry import nearest
from notchwork.sewing.walks.spans import Spot, Stretch, stretches_of
from notchwork.sewing.walks.walk import Walk
from notchwork.sewing.ways.inner_ends import ON_THE_EDGE, End, sewn_through
from notchwork.sewing.ways.meeting import following

if TYPE_CHECKING:
    from notchwork.sewing.nest import Nest


class LooseJoint(NamedTuple):
    """Two corners that follow each other on a side, or in an opening, and that nothing else brings together."""

    seam: str | None
    opening: str | None
    side: int
    before: Spot
    after: Spot


class Groups:
    """Spots that are brought together."""

    def __init__(self) -> None:
        self._parent: dict[Spot, Spot] = {}

    def find(self, spot: Spot) -> Spot:
        parent = self._parent.setdefault(spot, spot)
        if parent == spot:
            return spot
        root = self.find(parent)
        self._parent[spot] = root
        return root

    def join(self, a: Spot, b: Spot) -> None:
        """Bring two spots together, and so their images on the other hand."""
        for x, y in ((a, b), (a.turned(), b.turned())):
            self._parent[self.find(x)] = self.find(y)

    def together(self, a: Spot, b: Spot) -> bool:
        return self.find(a) == self.find(b)


def loose_joints(nest: Nest, wrong_way: Collection[str] = ()) -> Iterator[LooseJoint]:
    """Every joint that no other seam and no fold joins: by its end, or running through the ends of inner lines.

    Seams in ``wrong_way`` are known to run the wrong way: they join as stated and turned round, and their own joints
    belong to that fault.
    """
    for ident, walk in nest.walks.items():
        if ident in wrong_way:
            continue
        closed = walk.seam.closed
        joints = [
            (side.number, a, b)
            for side in walk.sides
            for a, b in following(side, closed)
            if a.stop_spot != b.start_spot and not _lapped(a, b) and not _measured(a, b)
        ]
        if joints:
            groups = brought_together(nest, ident, wrong_way)
            others = [other for other in nest.walks.values() if other.id != ident]
            for number, a, b in joints:
                if groups.together(a.stop_spot, b.start_spot) or _across_a_fold(nest, a, b):
                    continue
                if not sewn_through(nest, others, End(a, a.stop), End(b, b.start), wrong_way):
                    yield LooseJoint(ident, None, number, a.stop_spot, b.start_spot)
    yield from _loose_openings(nest, wrong_way)


def _lapped(a: Stretch, b: Stretch) -> bool:
    """A strip that follows itself is lapped, or joined before it is sewn on: tape, binding, a band."""
    return a.graded is b.graded and a.graded.is_strip


def _measured(a: Stretch, b: Stretch) -> bool:
    """Of edges that are known by their length only nobody knows which follows which round the piece."""
    return a.line.by_tape or b.line.by_tape


def _across_a_fold(nest: Nest, a: Stretch, b: Stretch) -> bool:
    """Whether a line drawn inside a piece ends on its fold, and goes on there into its own mirror image."""
    if a.line is not b.line or a.stop_spot != b.start_spot.turned() or a.line.by_tape:
        return False
    sizes = np.flatnonzero(np.isfinite(a.stop))
    return bool(len(sizes)) and all(
        any(
            float(nearest(cubics, np.array([nest.point(a.line, a.stop, int(size))])).distance[0])
            <= ON_THE_EDGE
            for fold in a.graded.folds
            if len(cubics := nest.cubics_of(a.graded.lines[fold], int(size)))
        )
        for size in sizes
    )


def _loose_openings(nest: Nest, wrong_way: Collection[str]) -> Iterator[LooseJoint]:
    for ident, opening in nest.pattern.openings.items():
        sections = [
            [stretch for span in section for stretch in stretches_of(nest, span)]
            for section in opening.sections or ()
        ]
        groups = brought_together(nest, None, wrong_way) if len(sections) > 1 else Groups()
        for number, (upper, lower) in enumerate(pairwise(sections)):
            if not any(groups.together(a.stop_spot, b.start_spot) for a in upper for b in lower):
                yield LooseJoint(None, ident, number, upper[0].stop_spot, lower[0].start_spot)


def brought_together(nest: Nest, besides: str | None, wrong_way: Collection[str]) -> Groups:
    """What all seams but one, all openings and all folds bring together."""
    groups = Groups()
    for graded in nest.pieces.values():
        for fold in graded.folds:
            for corner in (fold, graded.lines[fold].after):
                spot = Spot(graded.id, corner, None, False)
                groups.join(spot, spot.turned())
    for ident, walk in nest.walks.items():
        if ident != besides:
            _join_seam(groups, walk)
            if ident in wrong_way:
                _join_turned(groups, walk)
    for opening in nest.pattern.openings.values():
        if opening.lips is not None:
            one, other = ([s for span in lip for s in stretches_of(nest, span)] for lip in opening.lips)
            groups.join(one[0].start_spot, other[0].start_spot)
            groups.join(one[-1].stop_spot, other[-1].stop_spot)
        for section in opening.sections or ():
            stretches = [stretch for span in section for stretch in stretches_of(nest, span)]
            for layer in stretches[1:]:
                groups.join(stretches[0].start_spot, layer.start_spot)
                groups.join(stretches[0].stop_spot, layer.stop_spot)
    return groups


def _join_seam(groups: Groups, walk: Walk) -> None:
    one, *further = walk.sides
    for other in further:
        groups.join(one.stretches[0].start_spot, other.stretches[0].start_spot)
        groups.join(one.stretches[-1].stop_spot, other.stretches[-1].stop_spot)
    for comparison in walk.others:
        for station in comparison.pairing.stations[1:-1]:
            for a, b in station.meeting:
                groups.join(a, b)


def _join_turned(groups: Groups, walk: Walk) -> None:
    """Bring together what would meet with a side, or the first or last of its several spans, turned round."""
    for turned, other in permutations(walk.sides, 2):
        first, last = turned.stretches[0], turned.stretches[-1]
        groups.join(other.stretches[0].start_spot, last.stop_spot)
        groups.join(other.stretches[-1].stop_spot, first.start_spot)
        if len(turned.stretches) > 1:
            groups.join(other.stretches[0].start_spot, first.stop_spot)
            groups.join(other.stretches[-1].stop_spot, last.start_spot)
