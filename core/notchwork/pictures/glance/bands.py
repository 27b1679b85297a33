"""The box about what is off on an edge: hatched on the longer side, dashed and empty on the shorter one."""

from __future__ import annotations

import numpy as np

from notchwork.pictures import ink
from notchwork.pictures.glance.cloth import Complexes, along
from notchwork.pictures.glance.frame import Frame
from notchwork.pictures.glance.off import Off
from notchwork.pictures.trail import trail
from notchwork.sewing import GradedPiece, Nest
from notchwork.sewing.pieces.allowances import allowance

INSIDE, OUTSIDE = 5.0, 3.0
"""px to either side of the edge; outward as far as the allowance, if that is more."""


def band(nest: Nest, graded: GradedPiece, off: Off, size: int, frame: Frame) -> Complexes:
    """The box's closed polygon in px."""
    line = graded.lines[off.line]
    at, outward = along(nest, graded, line, off.arcs.tolist(), size, frame)
    wide = float(allowance(graded, line.name)[size]) * frame.scale if line.kind == "edge" else 0.0
    outer, inner = at + max(wide, OUTSIDE) * outward, at - INSIDE * outward
    return np.concatenate([outer, inner[::-1]])


def band_marks(off: Off, polygon: Complexes) -> str:
    """The box as a mark."""
    return ink.path(trail(polygon, closed=True), "off" if off.longer else "gone")
