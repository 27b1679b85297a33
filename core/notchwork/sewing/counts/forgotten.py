"""Forgotten seams: gaps that belong to each other, with the loose joints that the seam between them would join."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import combinations, permutations
from typing import TYPE_CHECKING

import numpy as np

from notchwork.sewing.counts.chains import Chain, End, Meeting, chains_of, components
from notchwork.sewing.counts.gaps import Gap
from notchwork.sewing.pieces.lines import Floats
from notchwork.sewing.walks.spans import Spot
from notchwork.sewing.ways.joints import LooseJoint

if TYPE_CHECKING:
    from notchwork.sewing.nest import Nest

FULL, EASED, EQUAL, BY_TAPE = 4.0, 1.15, 1.01, 1.03
"""How many times as long one side may be as the other: gathered, eased, plain, measured by tape (common practice, no source)."""

LAYERS = 3
"""Layers of one seam, at most: shell, lining and facing."""

MOST = 200
"""Open edges among which sides of one seam are sought; where more are left open, each is told alone.

So many are no seam that was forgotten: the seams are still to be stated, and a coat of forty pieces has fewer edges in all.
Every two are compared, a second's work for 200 and half a minute's for 1200, which anybody could write into a document.
"""


@dataclass(frozen=True, slots=True, eq=False)
class Forgotten:
    """What one seam that is not stated leaves open.

    ``sides`` are the gaps it would take, by side; one side only, where nothing tells what it is sewn to. ``joints`` are
    those that it would join.
    """

    sides: tuple[tuple[Gap, ...], ...]
    joints: tuple[LooseJoint, ...]

    @property
    def gaps(self) -> tuple[Gap, ...]:
        return tuple(gap for side in self.sides for gap in side)


_Side = list[Chain]
_Seam = list[_Side]


def forgotten_seams(nest: Nest, gaps: Sequence[Gap], joints: Sequence[LooseJoint]) -> tuple[Forgotten, ...]:
    """Every gap in one seam that was forgotten, in the pattern's order.

    Two sides belong to each other, the surest first: if a joint of another seam waits for them; if their ends meet by what
    is stated, or the same lies beyond them; if they are equally long. Gaps that go on round a corner are one side.
    """
    if not gaps:
        return ()
    loose = [frozenset((_either(joint.before), _either(joint.after))) for joint in joints]
    meeting = Meeting(nest)
    seams: list[_Seam] = [[[chain]] for chain in chains_of(nest, gaps, meeting)]
    open_edges = {gap.line.key for gap in gaps}

    def by_a_joint(a: _Side, b: _Side) -> bool:
        one, other = _spots(a), _spots(b)
        return any(
            x in one and y in other for joint in loose if len(joint) == 2 for x, y in permutations(joint)
        )

    def near(x: End, y: End) -> bool:
        return meeting.near(x, y)

    def alike(x: End, y: End) -> bool:
        if x.beyond is None or y.beyond is None or x.beyond in open_edges:
            return False
        return nest.belonging.together(x.beyond, y.beyond)

    if len(seams) <= MOST:
        seams = _joined(seams, by_a_joint, FULL)
        seams = _joined(seams, lambda a, b: _ends_agree(a, b, near), FULL)
        seams = _joined(seams, lambda a, b: _ends_agree(a, b, lambda x, y: near(x, y) or alike(x, y)), EASED)
        seams = _by_their_sum(_round_corners(seams))
        seams = _joined(seams, lambda a, b: True, EQUAL)
        seams = _joined(seams, lambda a, b: _by_tape(a) and _by_tape(b), BY_TAPE)
    order = {id(gap): k for k, gap in enumerate(gaps)}
    found = [_forgotten(seam, joints, loose) for seam in seams]
    return tuple(sorted(found, key=lambda forgotten: min(order[id(gap)] for gap in forgotten.gaps)))


def _joined(seams: list[_Seam], belong: Callable[[_Side, _Side], bool], most: float) -> list[_Seam]:
    """Seams put together whose sides belong to each other, the most equal first; a third layer only where it is as long."""
    sides = [(m, side) for m, seam in enumerate(seams) for side in seam]
    corners = [_corners(side) for _, side in sides]
    ratios = _ratios([side for _, side in sides])
    matches = sorted(
        (float(ratios[i, j]), sides[i][0], sides[j][0])
        for i, j in zip(*np.nonzero(np.triu(ratios <= most, 1)), strict=True)
        if sides[i][0] != sides[j][0] and not corners[i] & corners[j] and belong(sides[i][1], sides[j][1])
    )
    joined = {m: [m] for m in range(len(seams))}
    for ratio, m, n in matches:
        one, other = joined[m], joined[n]
        layers = (sum(len(seams[k]) for k in one), sum(len(seams[k]) for k in other))
        third = min(layers) == 1 and max(layers) == LAYERS - 1 and ratio <= EASED
        if one is not other and (max(layers) == 1 or third):
            for k in other:
                joined[k] = one
            one += other
    return [
        [side for k in sorted(group) for side in seams[k]] for m, group in joined.items() if m == min(group)
    ]


def _ratios(sides: Sequence[_Side]) -> Floats:
    """How many times as long one side is as another (sides, sides), in the size in which that is most."""
    lengths = np.nan_to_num([_length(side) for side in sides])
    one, other = lengths[:, None], lengths[None, :]
    with np.errstate(divide="ignore", invalid="ignore"):
        ratio = np.maximum(one, other) / np.minimum(one, other)
    both = (one > 0) & (other > 0)
    ratios: Floats = np.where(both.any(-1), np.max(np.where(both, ratio, 1.0), axis=-1), np.inf)
    return ratios


def _ends_agree(a: _Side, b: _Side, agree: Callable[[End, End], bool]) -> bool:
    """Whether the free ends of two sides agree one by one, in either direction; two rings have none."""
    one, other = ([end for chain in side for end in chain.free] for side in (a, b))
    return len(one) == len(other) <= 2 and any(
        all(agree(x, y) for x, y in zip(one, way, strict=True)) for way in permutations(other)
    )


def _round_corners(seams: list[_Seam]) -> list[_Seam]:
    """Seams all of whose sides go on into each other round a corner of a piece are one seam."""
    corners = [[_corners(side) for side in seam] for seam in seams]
    links = [
        (m, n)
        for (m, one), (n, other) in combinations(enumerate(corners), 2)
        if len(one) == len(other)
        and all(any(a & b for b in other) for a in one)
        and all(any(a & b for a in one) for b in other)
    ]
    joined: list[_Seam] = []
    for group in components(len(seams), links):
        sides = [list(side) for side in seams[group[0]]]
        for n in group[1:]:
            for side in seams[n]:
                into = next((known for known in sides if _corners(known) & _corners(side)), sides[0])
                into += side
        joined.append(sides)
    return joined


def _by_their_sum(seams: list[_Seam]) -> list[_Seam]:
    """By tape nothing tells what follows on what: what is left over is one seam where the longest is as long as the rest."""
    left = [seam for seam in seams if len(seam) == 1 and _by_tape(seam[0])]
    if len(left) < 3:
        return seams
    longest = max(left, key=lambda seam: float(np.nansum(_length(seam[0]))))
    rest = [chain for seam in left if seam is not longest for chain in seam[0]]
    if _ratios([longest[0], rest])[0, 1] > EASED:
        return seams
    return [*(seam for seam in seams if seam not in left), [rest, longest[0]]]


def _forgotten(seam: _Seam, joints: Sequence[LooseJoint], loose: Sequence[frozenset[Spot]]) -> Forgotten:
    ends = {spot for side in seam for spot in _spots(side)}
    explained = tuple(joint for joint, spots in zip(joints, loose, strict=True) if spots <= ends)
    return Forgotten(tuple(tuple(gap for chain in side for gap in chain.gaps) for side in seam), explained)


def _length(side: _Side) -> Floats:
    total: Floats = np.sum([chain.length for chain in side], axis=0)
    return total


def _by_tape(side: _Side) -> bool:
    return any(gap.line.by_tape for chain in side for gap in chain.gaps)


def _spots(side: _Side) -> set[Spot]:
    return {_either(end.spot) for chain in side for end in chain.ends}


def _corners(side: _Side) -> set[Spot]:
    return {_either(end.spot) for chain in side for end in chain.free}


def _either(spot: Spot) -> Spot:
    """The place on whichever copy."""
    return spot._replace(mirrored=False)
