"""Which seams run the wrong way: by hands, or by ends exchanged."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from notchwork.findings import plain_name
from notchwork.sewing.ends import exchanged_ends
from notchwork.sewing.hands import against_itself, against_the_rest

if TYPE_CHECKING:
    from notchwork.sewing.nest import Nest


@dataclass(frozen=True, slots=True)
class WrongWay:
    """A seam that runs the wrong way.

    ``side`` is the number of the further side concerned. ``ends``: what lies beside its start and stop on side 1, then on
    the further side, in words, where its ends are exchanged. ``within``: its own spans contradict each other.
    """

    seam: str
    side: int
    ends: tuple[str, str, str, str] | None
    within: bool


def wrong_way_seams(nest: Nest) -> list[WrongWay]:
    """Every seam that runs the wrong way: those whose ends are exchanged, and the smallest set that hands speak against.

    Of several equally small sets the one whose ends are exchanged is blamed, else all; but none where a cut order is.
    """
    exchanged = {ident: hit for ident in nest.walks if (hit := exchanged_ends(nest, ident)) is not None}
    sets = against_the_rest(nest)
    proven = [blamed for blamed in sets if blamed <= set(exchanged)]
    by_hands = frozenset().union(*(proven or ([] if nest.wrongly_cut else sets)))
    found = []
    for ident in nest.walks:
        if ident in exchanged:
            side, edges = exchanged[ident]
            words = tuple(f"the {plain_name(edge[1])}" for edge in edges)
            found.append(WrongWay(ident, side, (words[0], words[1], words[2], words[3]), False))
        elif ident in by_hands:
            found.append(WrongWay(ident, 1, None, against_itself(nest, ident)))
    return found
