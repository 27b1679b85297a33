"""What a closed line winds about, found by pyclipr's union with the positive rule."""

from __future__ import annotations

import numpy as np

from notchwork.geometry.cubics import Complexes, Ints


def outer_line(raw: Complexes, begin: int) -> tuple[Complexes, Ints]:
    """The outer boundary, counter-clockwise, of what the closed line (m,) winds about counter-clockwise at least once.

    In and out are whole numbers of grid steps. Of several parts the largest is taken, holes are left out. Also, for
    each point, the number of the raw point that it is, counted from begin; for a crossing of two chords, the number of
    an end of one of them.
    """
    from pyclipr import Clipper, FillRule, Subject, Union  # not loaded by those who never cut

    clipper = Clipper()
    clipper.scaleFactor = 1.0
    clipper.preserveCollinear = True
    numbers = np.arange(begin, begin + len(raw), dtype=np.float64)
    clipper.addPath(np.stack([raw.real, raw.imag, numbers], axis=1), Subject, False)
    paths, marks = clipper.execute(Union, FillRule.Positive, returnZ=True)
    if not paths:
        return np.zeros(0, dtype=np.complex128), np.zeros(0, dtype=np.intp)
    lines = [path[:, 0] + 1j * path[:, 1] for path in paths]
    largest = max(range(len(lines)), key=lambda k: _area(lines[k])) if len(lines) > 1 else 0
    return lines[largest], marks[largest].astype(np.intp)


def _area(line: Complexes) -> float:
    return float((line.conj() * np.roll(line, -1)).imag.sum())
