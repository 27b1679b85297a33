"""The width that is added outside an edge."""

from __future__ import annotations

import numpy as np

from notchwork.sewing.pieces.amounts import by_size
from notchwork.sewing.pieces.graded import GradedPiece
from notchwork.sewing.pieces.lines import Floats


def stated_allowance(graded: GradedPiece, edge: str) -> Floats:
    """The allowance (mm, sizes) that is stated for an edge: its own, else the piece's; NaN where neither is."""
    written = graded.written.edges.get(edge)
    own = written.allowance if written is not None else None
    return by_size(own if own is not None else graded.written.allowance, graded.sizes)


def allowance(graded: GradedPiece, edge: str) -> Floats:
    """The allowance (mm, sizes) with which an edge is cut: what is stated, else none; none on a fold."""
    if edge in graded.folds:
        return np.zeros(len(graded.sizes))
    stated = stated_allowance(graded, edge)
    return np.where(np.isnan(stated), 0.0, stated)
