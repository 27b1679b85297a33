"""What a closed line winds about, found by pyclipr's union with the positive rule."""

from __future__ import annotations

import numpy as np

from notchwork.geometry.cubics import Complexes


def outer_line(raw: Complexes) -> Complexes:
    """The outer boundary, counter-clockwise, of what the closed line (m,) winds about counter-clockwise at least once.

    In and out are whole numbers of grid steps. Of several parts the largest is taken, holes are left out.
    """
    from pyclipr import Clipper, FillRule, Subject, Union  # not loaded by those who never cut

    clipper = Clipper()
    clipper.scaleFactor = 1.0
    clipper.preserveCollinear = True
    clipper.addPath(np.ascontiguousarray(raw).view(np.float64).reshape(-1, 2), Subject, False)
    paths = clipper.execute(Union, FillRule.Positive)
    if not paths:
        return np.zeros(0, dtype=np.complex128)
    lines = [np.ascontiguousarray(path).view(np.complex128).ravel() for path in paths]
    return max(lines, key=_area) if len(lines) > 1 else lines[0]


def _area(line: Complexes) -> float:
    return float((line.conj() * np.roll(line, -1)).imag.sum())
