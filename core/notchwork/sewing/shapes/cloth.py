"""Which pieces are cut from the same cloth."""

from __future__ import annotations

from notchwork.sewing.pieces.graded import GradedPiece


def share_cloth(one: GradedPiece, other: GradedPiece) -> bool:
    """Whether two pieces are cut from a common material; also where nothing is said of either. Shell and lining are not."""
    a, b = ({m for cut in piece.written.cut or () for m in cut.materials} for piece in (one, other))
    return not a or not b or bool(a & b)
