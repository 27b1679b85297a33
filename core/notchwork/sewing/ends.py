"""Seams whose ends are exchanged: one side runs from the hem up, the other from the top down."""

from __future__ import annotations

from typing import TYPE_CHECKING

from notchwork.sewing.marks import SideWalk
from notchwork.sewing.meeting import LineKey, beyond

if TYPE_CHECKING:
    from notchwork.sewing.nest import Nest


def ends_exchanged(nest: Nest, ident: str) -> bool:
    """Whether the edges beside a seam's ends belong together at neither end as stated, but at both with a side turned."""
    if nest.pattern.seams[ident].closed:
        return False
    one, *further = nest.sides[ident]
    return any(_exchanged(nest, ident, one, other) for other in further)


def _exchanged(nest: Nest, ident: str, one: SideWalk, other: SideWalk) -> bool:
    start, stop = _beyond_ends(one)
    other_start, other_stop = _beyond_ends(other)
    if start is None or stop is None or other_start is None or other_stop is None:
        return False

    def together(a: LineKey, b: LineKey) -> bool:
        return nest.belonging.together(a, b, besides=ident)

    return (
        not together(start, other_start)
        and not together(stop, other_stop)
        and together(start, other_stop)
        and together(stop, other_start)
    )


def _beyond_ends(side: SideWalk) -> tuple[LineKey | None, LineKey | None]:
    return beyond(side.stretches[0], at_start=True), beyond(side.stretches[-1], at_start=False)
