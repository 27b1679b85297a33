"""The width that is added outside an edge."""

from __future__ import annotations

import numpy as np

from notchwork.model import in_size
from notchwork.sewing.lines import Floats
from notchwork.sewing.pieces import GradedPiece


def allowance(graded: GradedPiece, edge: str) -> Floats:
    """An edge's allowance (mm, sizes): its own, else the piece's, else none; none on a fold."""
    written = graded.written.edges.get(edge)
    if written is not None and written.fold:
        return np.zeros(len(graded.sizes))
    stated = written.allowance if written is not None else None
    stated = stated if stated is not None else graded.written.allowance
    if stated is None:
        return np.zeros(len(graded.sizes))
    return np.array([in_size(stated, size) for size in graded.sizes], dtype=float)
