"""Which seams run the wrong way: by hands, or by ends exchanged."""

from __future__ import annotations

from collections.abc import Container
from typing import TYPE_CHECKING, NamedTuple

from notchwork.sewing.names import edge_name
from notchwork.sewing.ways.ends import exchanged_ends
from notchwork.sewing.ways.hands import against_itself, against_the_rest
from notchwork.sewing.ways.joints import loose_joints

if TYPE_CHECKING:
    from notchwork.sewing.nest import Nest


class WrongWay(NamedTuple):
    """A seam that runs the wrong way.

    ``side`` is the number of the further side concerned. ``ends``: what lies beside its start and stop on side 1, then on
    the further side, in words, where its ends are exchanged. ``within``: its own spans contradict each other. ``among``:
    the seams of which one runs the wrong way, where nothing tells which; they share one finding.
    """

    seam: str
    side: int
    ends: tuple[str, str, str, str] | None
    within: bool
    among: tuple[str, ...] = ()


def wrong_way_seams(nest: Nest) -> list[WrongWay]:
    """Every seam that runs the wrong way: those whose ends are exchanged, and the smallest set that hands speak against.

    Of several equally small sets the one is blamed for which other evidence speaks; where none does, one of them runs the
    wrong way and nobody knows which. None is blamed where a cut order is.
    """
    exchanged = {ident: hit for ident in nest.walks if (hit := exchanged_ends(nest, ident)) is not None}
    sets = against_the_rest(nest)
    if nest.wrongly_cut:
        sets = [blamed for blamed in sets if blamed <= set(exchanged)]
    if len(sets) > 1:
        evidence = [sum(_evidence(nest, ident, exchanged) for ident in blamed) for blamed in sets]
        sets = [blamed for blamed, speaks in zip(sets, evidence, strict=True) if speaks == max(evidence)]
    blamed = frozenset().union(*sets)
    among = tuple(ident for ident in nest.walks if ident in blamed) if len(sets) > 1 else ()
    found = []
    for ident in nest.walks:
        if ident in exchanged:
            side, edges = exchanged[ident]
            words = tuple(edge_name(edge[1]) for edge in edges)
            found.append(WrongWay(ident, side, (words[0], words[1], words[2], words[3]), False))
        elif ident in blamed:
            found.append(WrongWay(ident, 1, None, against_itself(nest, ident), among))
    return found


def _evidence(nest: Nest, ident: str, exchanged: Container[str]) -> int:
    """How much besides hands says that a seam runs the wrong way: ends, marks that cross, joints left open."""
    crossed = any(comparison.pairing.crossed for comparison in nest.walks[ident].others)
    open_joints = any(joint.seam == ident for joint in loose_joints(nest))
    return 4 * (ident in exchanged) + 2 * crossed + open_joints
