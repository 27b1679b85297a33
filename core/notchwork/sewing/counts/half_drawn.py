"""Pieces that seem to be drawn by half: their seams need both halves, and a straight edge waits for nothing but a fold."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

from notchwork.model import Edge, Piece
from notchwork.sewing.counts.accounts import Account
from notchwork.sewing.counts.copies import cut_in_both_hands
from notchwork.sewing.counts.gaps import Gap, gaps_of
from notchwork.sewing.pieces.lines import Floats, Line

if TYPE_CHECKING:
    from notchwork.sewing.nest import Nest

STRAIGHT = 0.05
"""mm by which a straight edge may be longer than the way between its corners."""


def half_drawn(nest: Nest) -> Mapping[str, str]:
    """By piece, the edge that nothing takes and that must be a fold, for the copies to suffice.

    Such a piece is cut in one hand only, its seams need as many of the other hand (or go on into its image, and nothing
    joins the two there), and one of its edges is whole, straight and bare. Of several such edges the one at which other
    seams go on into the other half; else nothing is said.
    """
    found: dict[str, str] = {}
    for ident, account in nest.accounts.items():
        if not _cut_in_one_hand(account) or not _needs_its_image(nest, account):
            continue
        edges = [gap.line for gap in gaps_of(nest) if gap.line.piece == ident and _bare(nest, gap)]
        crossed = [line for line in edges if _goes_on_beyond(nest, line)]
        for lines in (edges, crossed):
            if len(lines) == 1:
                found[ident] = lines[0].name
    return found


def on_the_fold(piece: Piece, edge: str | None) -> Piece:
    """The piece with an edge on the fold; unchanged without an edge."""
    if edge is None:
        return piece
    stated = piece.edges.get(edge) or Edge()
    return replace(piece, edges={**piece.edges, edge: replace(stated, fold=True)})


def _cut_in_one_hand(account: Account) -> bool:
    graded = account.graded
    drawn = graded.has_shape and not account.exempt and not graded.folds
    return drawn and cut_in_both_hands(graded) is False


def _needs_its_image(nest: Nest, account: Account) -> bool:
    ident = account.graded.id
    return (
        nest.wrongly_cut.get(ident) == "both"
        or _halves_lacking(account)
        or any(j.after.piece == ident and j.before == j.after.turned() for j in nest.open_joints)
    )


def _halves_lacking(account: Account) -> bool:
    """Whether copies are lacking in such a way that each would do for both halves."""
    cut = account.cut
    if cut is None:
        return False
    needs = [need for need in _needs(account) if bool(np.any(cut.lacking(*need) > 0))]
    return bool(needs) and all(bool(np.all(one + other <= 2.0 * cut.total)) for one, other in needs)


def _needs(account: Account) -> Iterator[tuple[Floats, Floats]]:
    """What every seam, and all that use an edge up together, need of either hand, at every interval."""
    for edge in account.graded.edges:
        for interval in account.intervals(edge):
            yield interval.times(False, resting=False), interval.times(True, resting=False)
            one, other = interval.seams(False), interval.seams(True)
            nothing = np.zeros_like(interval.low)
            for seam in dict.fromkeys((*one, *other)):
                yield one.get(seam, nothing), other.get(seam, nothing)


def _bare(nest: Nest, gap: Gap) -> bool:
    if gap.hand is not None or not gap.whole or not bool(np.all(gap.bare | ~np.isfinite(gap.line.length))):
        return False
    return all(
        float(gap.line.length[k]) - abs(complex(cubics[-1, 3] - cubics[0, 0])) <= STRAIGHT
        for k in range(len(nest.sizes))
        if len(cubics := nest.cubics_of(gap.line, k))
    )


def _goes_on_beyond(nest: Nest, line: Line) -> bool:
    """Whether an edge beside it is followed, on a side of a seam, by its own image."""
    return any(
        nest.belonging.by_a_seam_or_opening((line.piece, n), (line.piece, n))
        for n in (line.before, line.after)
    )
