"""What a closed line winds about, found by pyclipr's union with the positive rule."""

from __future__ import annotations

import numpy as np

from notchwork.geometry.cubics import Complexes, Floats, Ints


def outer_line(raw: Floats) -> tuple[Complexes, Ints]:
    """The outer boundary, counter-clockwise, of what a closed line winds about counter-clockwise at least once.

    raw (m, 3): x and y in whole grid steps, and a number for each point. Of several parts the largest is taken, holes
    are left out. The points come in grid steps too, each with the number of the raw point that it is; a crossing of two
    chords has the number of an end of one of them.
    """
    from pyclipr import Clipper, FillRule, Subject, Union  # not loaded by those who never cut

    clipper = Clipper()
    clipper.scaleFactor = 1.0
    clipper.preserveCollinear = True
    clipper.addPath(raw, Subject, False)
    paths, numbers = clipper.execute(Union, FillRule.Positive, returnZ=True)
    if not paths:
        return np.zeros(0, dtype=np.complex128), np.zeros(0, dtype=np.intp)
    lines = [np.ascontiguousarray(path).view(np.complex128)[:, 0] for path in paths]
    largest = max(range(len(lines)), key=lambda k: _area(lines[k])) if len(lines) > 1 else 0
    return lines[largest], numbers[largest].astype(np.intp)


def _area(line: Complexes) -> float:
    return float((line.conj() * np.roll(line, -1)).imag.sum())
