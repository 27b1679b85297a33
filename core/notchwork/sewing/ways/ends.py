"""Seams whose ends are exchanged: one side runs from the hem up, the other from the top down."""

from __future__ import annotations

from typing import TYPE_CHECKING

from notchwork.sewing.walks.marks import SideWalk
from notchwork.sewing.ways.meeting import LineKey, beyond

if TYPE_CHECKING:
    from notchwork.sewing.nest import Nest


Beside = tuple[LineKey, LineKey, LineKey, LineKey]
"""The edges beside start and stop of side 1, then of the further side."""


def exchanged_ends(nest: Nest, ident: str) -> tuple[int, Beside] | None:
    """The first further side whose ends are exchanged, with the edges beside all four ends.

    So it is where those edges belong together at neither end as stated, but at both with one side turned round; or where
    each side has a fold at one end and the two lie apart.
    """
    if nest.pattern.seams[ident].closed:
        return None
    one, *further = nest.sides[ident]
    for other in further:
        start, stop = _beyond_ends(one)
        other_start, other_stop = _beyond_ends(other)
        if start is None or stop is None or other_start is None or other_stop is None:
            continue
        beside = (start, stop, other_start, other_stop)
        if not _one_edge_of_two_copies(one, other) and _exchanged(nest, ident, *beside):
            return other.number, beside
    return None


def _one_edge_of_two_copies(one: SideWalk, other: SideWalk) -> bool:
    """Whether an edge is sewn to itself on another copy of the same hand: they lie the other way round by nature."""
    a, b = one.stretches[0], other.stretches[0]
    return a.line is b.line and a.span.mirrored == b.span.mirrored


def _exchanged(
    nest: Nest, ident: str, start: LineKey, stop: LineKey, other_start: LineKey, other_stop: LineKey
) -> bool:
    def together(a: LineKey, b: LineKey) -> bool:
        return nest.belonging.together(a, b, besides=ident)

    if together(start, other_start) or together(stop, other_stop):
        return False
    if together(start, other_stop) and together(stop, other_start):
        return True
    return _folds_apart(nest, start, stop, other_start, other_stop)


def _folds_apart(
    nest: Nest, start: LineKey, stop: LineKey, other_start: LineKey, other_stop: LineKey
) -> bool:
    """Whether each side has a fold at one end, and the folds lie at opposite ends: a collar turned end for end.

    At a fold a seam goes on into its mirror image, so both sides must.
    """
    one, other = (
        [nest.belonging.is_fold(edge) for edge in ends] for ends in ((start, stop), (other_start, other_stop))
    )
    return sum(one) == 1 and sum(other) == 1 and one != other


def _beyond_ends(side: SideWalk) -> tuple[LineKey | None, LineKey | None]:
    return beyond(side.stretches[0], at_start=True), beyond(side.stretches[-1], at_start=False)
