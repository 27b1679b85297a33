"""Where lines drawn inside pieces end on edges: a seam along those edges brings the ends together."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from itertools import product
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from notchwork.findings import ROUNDING
from notchwork.geometry import lengths, nearest, split
from notchwork.sewing.pieces.lines import Floats
from notchwork.sewing.walks.joins import fine_on
from notchwork.sewing.walks.marks import SideWalk
from notchwork.sewing.walks.spans import Stretch
from notchwork.sewing.walks.walk import Walk

if TYPE_CHECKING:
    from notchwork.sewing.nest import Nest

ON_THE_EDGE = 0.5
"""mm: an inner line that ends this near to an edge ends on it (the same slack as for a notch on its edge)."""


class End(NamedTuple):
    """One end of a stretch: where it stops, or where it starts."""

    stretch: Stretch
    at: Floats


def sewn_through(nest: Nest, walks: Iterable[Walk], a: End, b: End, wrong_way: Collection[str] = ()) -> bool:
    """Whether one of the seams runs through two ends of inner lines and brings them together.

    Each end lies on an edge that the seam takes, on different sides of it, equally far (in sewn length, within what is
    fine on that seam) from where the seam starts or from where it ends: that its sides are unequal is that seam's own
    fault. A flounce's line goes on across a side seam in this way. Seams in ``wrong_way`` are also taken turned round.
    """
    if a.stretch.line.kind != "inner" or b.stretch.line.kind != "inner":
        return False
    for walk in walks:
        for one, other in product(walk.sides, walk.sides):
            if one is other:
                continue
            for (at_a, turned_a), (at_b, turned_b) in product(_passed(nest, one, a), _passed(nest, other, b)):
                left_a, left_b = one.length - at_a, other.length - at_b
                pairs = [(at_a, at_b), (left_a, left_b)]
                if walk.id in wrong_way:
                    pairs += [(at_a, left_b), (left_a, at_b)]
                meets = any(_meet(walk, a_walked, b_walked) for a_walked, b_walked in pairs)
                if meets and a.stretch.span.mirrored ^ turned_a == b.stretch.span.mirrored ^ turned_b:
                    return True
    return False


def _meet(walk: Walk, at_a: Floats, at_b: Floats) -> bool:
    return not bool((np.abs(at_a - at_b) > fine_on(walk.seam) + ROUNDING).any())


def _passed(nest: Nest, side: SideWalk, end: End) -> Iterator[tuple[Floats, bool]]:
    """How far (mm, sizes) from the side's start it passes the end of an inner line, and on which copy."""
    for stretch, start in zip(side.stretches, side.starts, strict=True):
        if stretch.graded is end.stretch.graded and stretch.line.kind == "edge":
            arc = _arc_on(nest, stretch, end)
            if bool(np.any(np.isfinite(arc))) and stretch.covers(arc):
                yield start + stretch.sewn_from_start(arc), stretch.span.mirrored


def _arc_on(nest: Nest, stretch: Stretch, end: End) -> Floats:
    """The arc position (mm, sizes) on the stretch's line at which the inner line ends; NaN where it ends elsewhere."""
    arc = np.full(len(nest.sizes), np.nan)
    for size in np.flatnonzero(np.isfinite(stretch.line.length) & np.isfinite(end.at)):
        cubics = nest.cubics_of(stretch.line, int(size))
        if stretch.line.by_tape or end.stretch.line.by_tape or len(cubics) == 0:
            continue
        point = nest.point(end.stretch.line, end.at, int(size))
        found = nearest(cubics, np.array([point]))
        if found.distance[0] <= ON_THE_EDGE:
            row = int(found.row[0])
            before, _ = split(cubics[row], float(found.t[0]))
            arc[size] = float(lengths(cubics[:row]).sum() + lengths(before[None])[0])
    return arc
