"""Openings that a seam sews shut: it joins one lip to the other over the stretch that is to stay open.

The spans of a section lie on each other. They state one lip, whose mirror image is the other; or, in an opening that belongs
to one half, both lips (front and back of a side seam). A lining or a facing sewn along a lip joins that lip to a further layer
of it, and shuts nothing. Where the two cannot be told from each other, it is taken for a layer.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations, permutations
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from notchwork.model import Opening
from notchwork.sewing.counts.accounts import Account, Interval
from notchwork.sewing.counts.clashes import clashes_of
from notchwork.sewing.counts.openings import Layer, layers_of
from notchwork.sewing.pieces.graded import Bools
from notchwork.sewing.pieces.lines import Floats, Line
from notchwork.sewing.walks.marks import SideWalk
from notchwork.sewing.walks.spans import Stretch

if TYPE_CHECKING:
    from notchwork.sewing.nest import Nest


@dataclass(frozen=True, slots=True, eq=False)
class Shut:
    """A seam joins the two ``lips`` of an opening over ``length`` (mm, sizes) that are to stay open."""

    opening: str
    seam: str
    lips: tuple[Line, Line]
    length: Floats


class _Lying(NamedTuple):
    """Which layer of an opening a stretch of a seam lies on, if on any, and whether on the other copy than that names."""

    stretch: Stretch
    layer: int | None
    other_copy: bool


def openings_sewn_shut(nest: Nest) -> Sequence[Shut]:
    """Every opening that a seam sews shut, once for each such seam, over the lip on which that is longest.

    Not of pieces cut too seldom, nor by seams that clash with others: that may be all there is to mend.
    """
    if not nest.pattern.openings:
        return ()
    clashing = frozenset[str]().union(*(clash.seams for clash in clashes_of(nest)))
    cut_too_seldom = {*nest.lacks, *nest.wrongly_cut}
    layers = {ident: layers_of(nest, opening) for ident, opening in nest.pattern.openings.items()}
    lined = _joined_to_their_images(nest)
    found: dict[tuple[str, str, Line], tuple[Line, Floats]] = {}
    for account in (a for ident, a in nest.accounts.items() if ident not in cut_too_seldom):
        for interval in (i for line in account.graded.lines for i in account.intervals(line)):
            for (ident, seam), where in _too_often(nest, account, interval, clashing).items():
                for here, there in _joined(nest, layers[ident], seam, interval):
                    if _are_lips(nest, nest.pattern.openings[ident], here, there, lined):
                        key = ident, seam, interval.line
                        length = np.where(where, interval.high - interval.low, 0.0)
                        found[key] = there.stretch.line, length + (found[key][1] if key in found else 0.0)
                        break
    longest: dict[tuple[str, str], Shut] = {}
    for (ident, seam, line), (lip, length) in found.items():
        known = longest.get((ident, seam))
        if known is None or float(np.max(length)) > float(np.max(known.length)):
            longest[ident, seam] = Shut(ident, seam, (line, lip), length)
    return tuple(longest.values())


def _too_often(
    nest: Nest, account: Account, interval: Interval, clashing: Collection[str]
) -> Mapping[tuple[str, str], Bools]:
    """The openings and seams that take more copies here than are cut, in which sizes: some copy is both open and sewn.

    Where nobody says how many are cut, whatever takes an edge takes the same copy.
    """
    found: dict[tuple[str, str], Bools] = {}
    for hand in account.hands:
        taken: dict[str, dict[str, Floats]] = {"opening": {}, "seam": {}}
        for part, where in interval.taken:
            if hand in (None, part.other_hand):
                of_kind, use = taken[part.use.kind], part.use
                times = np.where(where & interval.there, float(use.count), 0.0)
                of_kind[use.ident] = of_kind.get(use.ident, np.zeros_like(times)) + times
        available = account.available(hand)
        for ident, opened in taken["opening"].items():
            for seam, sewn in taken["seam"].items():
                if seam not in clashing and not _opens_again(nest, seam, nest.pattern.openings[ident]):
                    both = (opened > 0) & (sewn > 0)
                    where = both if available is None else both & (opened + sewn > available)
                    if bool(np.any(where)):
                        found[ident, seam] = found.get((ident, seam), np.zeros_like(where)) | where
    return found


def _opens_again(nest: Nest, seam: str, opening: Opening) -> bool:
    """Basting is drawn out once the zip is in; a gap says itself which seam closes it at last."""
    return nest.pattern.seams[seam].construction == "basted" or seam in (
        opening.closed_by,
        opening.open_until,
    )


def _joined(
    nest: Nest, layers: list[list[Layer]], seam: str, interval: Interval
) -> Iterator[tuple[_Lying, _Lying]]:
    """The middle of an interval as it lies in a section of an opening, with whatever a seam joins to it."""
    middle = (interval.low + interval.high) / 2.0
    for side in nest.sides[seam]:
        for stretch, start in zip(side.stretches, side.starts, strict=True):
            if stretch.line is interval.line and stretch.covers(middle):
                part = (start + stretch.sewn_from_start(middle)) / side.length
                for opposite, at in _opposite(nest.sides[seam], side, part):
                    for section in layers:
                        here = _lying(section, stretch, middle)
                        if here.layer is not None:
                            yield here, _lying(section, opposite, at)


def _opposite(sides: Sequence[SideWalk], side: SideWalk, part: Floats) -> Iterator[tuple[Stretch, Floats]]:
    """What lies opposite on every other side of a seam after a part (sizes) of its length, and where on its line."""
    sizes = np.flatnonzero(np.isfinite(part))
    for other in sides if len(sizes) else ():
        if other is not side:
            found = [other.stretch_at(float(part[k] * other.length[k]), int(k)) for k in sizes]
            at = np.full_like(part, np.nan)
            at[sizes] = [arc if stretch is found[0][0] else np.nan for stretch, arc in found]
            yield found[0][0], at


def _lying(section: list[Layer], stretch: Stretch, at: Floats) -> _Lying:
    """Where it lies in a section; of layers that are both copies of an edge, on the copy that the seam takes."""
    found = [
        _Lying(stretch, number, lip.span.mirrored != stretch.span.mirrored)
        for number, layer in enumerate(section)
        for lip in layer.stretches
        if lip.line is stretch.line and lip.covers(at)
    ]
    return min(found, key=lambda lying: lying.other_copy, default=_Lying(stretch, None, False))


def _are_lips(
    nest: Nest, opening: Opening, here: _Lying, there: _Lying, lined: Collection[tuple[str, str]]
) -> bool:
    """Whether two stretches that a seam joins are the two lips of an opening, and no layers of one."""
    one, other = here.stretch, there.stretch
    if opening.lips is None and one.graded is other.graded and one.line is not other.line:
        # Round a tube, or from one gore to the next; but a band's end is faced with the edge beside it.
        return other.line.name not in (one.line.before, one.line.after)
    if there.layer is None:
        return False
    if opening.lips is not None:
        return here.layer != there.layer and here.other_copy == there.other_copy
    if one.line is other.line:
        return here.other_copy != there.other_copy and not _is_lined(nest, opening, one, lined)
    return one.graded.root != other.graded.root and _joined_beyond(nest, opening, one.line, other.line)


def _is_lined(nest: Nest, opening: Opening, lip: Stretch, lined: Collection[tuple[str, str]]) -> bool:
    """Whether the mirror image of an edge may be a layer that lies under it, as in a band, a stand, a cuff or a flap.

    More copies are cut than have two lips; or it is folded in two, or joined to its image along the next edge too. A gap
    for turning lies between just these layers.
    """
    account, line = nest.accounts[lip.graded.id], lip.line
    hand = False if account.by_hand else None
    available = account.available(hand)
    if available is not None and bool(np.any(available > (2 if hand is None else 1))):
        return True
    beside = (line.before, line.after)
    return opening.kind != "gap" and any(
        name in lip.graded.folds or (lip.graded.id, name) in lined for name in beside
    )


def _joined_to_their_images(nest: Nest) -> frozenset[tuple[str, str]]:
    """The lines, by piece and name, that a seam joins to themselves on another copy."""
    return frozenset(
        stretch.line.key
        for sides in nest.sides.values()
        for one, other in combinations(sides, 2)
        for stretch in one.stretches
        if any(s.line is stretch.line and s.span.mirrored != stretch.span.mirrored for s in other.stretches)
    )


def _joined_beyond(nest: Nest, opening: Opening, one: Line, other: Line) -> bool:
    """Whether two edges are sewn to each other in the half that has no such opening: so they are its lips in this one."""
    without = {"left": "right", "right": "left"}.get(opening.half or "")
    return any(
        without in nest.sewn[ident].halves
        and nest.pattern.seams[ident].construction != "basted"
        and any(one in a and other in b for a, b in permutations(map(_lines, sides), 2))
        for ident, sides in nest.sides.items()
    )


def _lines(side: SideWalk) -> set[Line]:
    return {stretch.line for stretch in side.stretches}
