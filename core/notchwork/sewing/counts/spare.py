"""Spare copies: pieces of which more are cut than any one seam takes, as for the two layers of a collar."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from notchwork.sewing.counts.copies import copies_in_reserve
from notchwork.sewing.counts.halves import sewn_as_written

if TYPE_CHECKING:
    from notchwork.sewing.nest import Nest


def pieces_with_spare_copies(nest: Nest) -> frozenset[str]:
    """Pieces with a copy for other seams than those that take it most often.

    Two collars on the fold are an outer and an inner one, for a seam takes one of them on each of its sides. Two cuffs for
    two sleeves are not, nor are six godets that one seam takes six times: there every copy is sewn alike.
    """
    in_a_hand: Counter[str] = Counter()
    in_all: Counter[str] = Counter()
    sewn = sewn_as_written(nest)
    for ident, seam in nest.pattern.seams.items():
        passes = len(sewn[ident].passes)
        for side in seam.sides:
            for span in side.spans:
                times = seam.times * span.times
                in_a_hand[span.piece] = max(in_a_hand[span.piece], times)
                in_all[span.piece] = max(in_all[span.piece], times * passes)
    return frozenset(
        ident
        for ident, graded in nest.pieces.items()
        if copies_in_reserve(nest, graded, in_a_hand[ident], in_all[ident])
    )
