"""Hands: which copy, as drawn or mirrored, lies in each half, and which seams no choice of hands can satisfy.

Lay a piece right side up and walk the span: its cloth lies left or right. Across a seam, cloth on opposite sides joins
copies of one hand; between spans that follow each other, and between layers that lie on each other, it is the reverse.
"""

from __future__ import annotations

from collections import defaultdict, deque
from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise
from typing import TYPE_CHECKING, Literal, NamedTuple

from notchwork.sewing.counts.copies import cut_in_both_hands, has_spare_copies
from notchwork.sewing.pieces.symmetry import falls_on_itself
from notchwork.sewing.walks.marks import SideWalk
from notchwork.sewing.walks.spans import Stretch

if TYPE_CHECKING:
    from notchwork.sewing.nest import Nest

LYING_ON_EACH_OTHER = ("basted", "applied")

MOST_TURNED = 3
"""Sets of seams to blame are sought up to this size."""

Copy = tuple[str, str]
"""A piece in one half: (piece, "right" | "left" | "none")."""


class _Bond(NamedTuple):
    """Two copies are of one hand (``odd`` False) or of opposite hands, as a seam (or the cut order: None) has it."""

    a: Copy
    b: Copy
    odd: bool
    seam: str | None


def against_the_rest(nest: Nest) -> list[frozenset[str]]:
    """The smallest sets of seams that stand against all others; empty where hands can be chosen.

    Several sets are equally small. Beyond three seams, one set holds every seam of a contradiction.
    """
    bonds = [*_bonds_of_cutting(nest), *_bonds_of_seams(nest)]
    first = _odd_circle(bonds, frozenset())
    if first is None:
        return []
    for size in range(1, MOST_TURNED + 1):
        found = set(_hitting(bonds, frozenset(), size))
        if found:
            return sorted(found, key=sorted)
    return [first]


def cut_in_the_wrong_hands(nest: Nest) -> Mapping[str, Literal["both", "other"]]:
    """Pieces cut in one hand only whose cut order alone stands against all seams, and in which hands they would do.

    A sleeve cut twice alike contradicts the armhole; that is no fault of the armhole. Empty where hands can be chosen.
    """
    cutting, seams = list(_bonds_of_cutting(nest)), list(_bonds_of_seams(nest))
    if _odd_circle([*cutting, *seams], frozenset()) is None:
        return {}
    found: dict[str, Literal["both", "other"]] = {}
    for ident in dict.fromkeys(bond.a[0] for bond in cutting if bond.b == AS_DRAWN):
        others = [bond for bond in cutting if bond.a[0] != ident]
        turned = [bond._replace(odd=not bond.odd) for bond in cutting if bond.a[0] == ident]
        in_pairs = [_Bond((ident, "right"), (ident, "left"), True, None)]
        if _odd_circle([*others, *turned, *seams], frozenset()) is None:
            found[ident] = "other"
        elif _odd_circle([*others, *in_pairs, *seams], frozenset()) is None:
            found[ident] = "both"
    return found


def against_itself(nest: Nest, ident: str) -> bool:
    """Whether a seam's own spans and sides contradict each other, whatever copies are cut."""
    return (
        _odd_circle([bond for bond in _bonds_of_seams(nest) if bond.seam == ident], frozenset()) is not None
    )


def _hitting(bonds: list[_Bond], without: frozenset[str], size: int) -> Iterator[frozenset[str]]:
    """Every set of ``size`` more seams without which nothing contradicts."""
    circle = _odd_circle(bonds, without)
    if circle is None:
        yield without
    elif size:
        for seam in sorted(circle):
            yield from _hitting(bonds, without | {seam}, size - 1)


def _odd_circle(bonds: list[_Bond], without: frozenset[str]) -> frozenset[str] | None:
    """The seams of a shortest circle of bonds round which the hand changes; None if there is none."""
    at: defaultdict[Copy, list[_Bond]] = defaultdict(list)
    for bond in bonds:
        if bond.seam not in without:
            at[bond.a].append(bond)
            at[bond.b].append(bond)
    best: frozenset[str] | None = None
    for root in list(at):
        circle = _odd_circle_from(root, at)
        if circle is not None and (best is None or len(circle) < len(best)):
            best = circle
    return best


def _odd_circle_from(root: Copy, at: dict[Copy, list[_Bond]]) -> frozenset[str] | None:
    """Breadth first over (copy, hand): reaching the root with the other hand closes an odd circle."""
    start, goal = (root, False), (root, True)
    came: dict[tuple[Copy, bool], tuple[tuple[Copy, bool], _Bond] | None] = {start: None}
    queue = deque([start])
    while queue:
        here = queue.popleft()
        if here == goal:
            seams = set()
            step = came[here]
            while step is not None:
                here, bond = step
                if bond.seam is not None:
                    seams.add(bond.seam)
                step = came[here]
            return frozenset(seams)
        copy, hand = here
        for bond in at[copy]:
            there = (bond.b if bond.a == copy else bond.a, hand ^ bond.odd)
            if there not in came:
                came[there] = (here, bond)
                queue.append(there)
    return None


AS_DRAWN: Copy = ("", "as drawn")
"""What every piece that is cut in one hand only is held against."""


def _bonds_of_cutting(nest: Nest) -> Iterator[_Bond]:
    """Cut in both hands, a piece has in the left half the opposite of its hand in the right; in one only, that one."""
    for ident, graded in nest.pieces.items():
        both = cut_in_both_hands(graded)
        if both is None or falls_on_itself(nest, graded) or has_spare_copies(nest, graded):
            continue
        if both:
            yield _Bond((ident, "right"), (ident, "left"), True, None)
            continue
        mirrored = any(cut.hand == "mirrored" for cut in graded.written.cut or ())
        for half in ("right", "left", "none"):
            yield _Bond((ident, half), AS_DRAWN, mirrored, None)


def _bonds_of_seams(nest: Nest) -> Iterator[_Bond]:
    for ident, sides in nest.sides.items():
        seam = nest.pattern.seams[ident]
        pairs = [
            (a, b, a.cloth != b.cloth)
            for side in sides
            for a, b in pairwise(side.stretches)
            if a.copy == b.copy
        ]
        for side in sides[1:] if seam.construction != "basted" else ():
            first = _deciding(_judged_against(sides, side))
            other = _deciding(side)
            if first is not None and other is not None:
                pairs.append((first, other, (first.cloth == other.cloth) != (seam.construction == "applied")))
        halves = nest.sewn[ident].halves
        for a, b, odd in pairs:
            if _decides(a) and _decides(b):
                odd_copies = odd ^ a.span.mirrored ^ b.span.mirrored
                for half in halves:
                    yield _Bond(_copy(nest, a, half, ident), _copy(nest, b, half, ident), odd_copies, ident)


def _copy(nest: Nest, stretch: Stretch, half: str, seam: str) -> Copy:
    """The copy that a seam takes in one half; where there are spare ones, a copy of its own."""
    if has_spare_copies(nest, stretch.graded):
        return (stretch.graded.id, f"{half} {seam}")
    return (stretch.graded.id, half)


def _judged_against(sides: Sequence[SideWalk], side: SideWalk) -> SideWalk:
    """Side 1; or the earlier layer that a side is like: a lining lies in its shell, whatever else the seam joins."""

    def drawn(side: SideWalk) -> list[tuple[str, str]]:
        return [(s.graded.root, s.line.name) for s in side.stretches]

    return next((other for other in sides[1 : side.number] if drawn(other) == drawn(side)), sides[0])


def _deciding(side: SideWalk) -> Stretch | None:
    return next((stretch for stretch in side.stretches if _decides(stretch)), None)


def _decides(stretch: Stretch) -> bool:
    """Inner lines have cloth on both sides, two-faced cloth serves for either hand: they decide nothing."""
    return stretch.cloth != 0 and not stretch.graded.two_faced
