"""What of polylines lies inside a frame."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

Complexes = NDArray[np.complex128]


def clipped(line: Complexes, low: complex, high: complex) -> Iterator[Complexes]:
    """The parts of a polyline inside the upright box from low to high (mm), in their order; its edge belongs to it.

    A closed line that leaves the box is not cut in two where it begins.
    """
    inside = (
        (line.real >= low.real)
        & (line.real <= high.real)
        & (line.imag >= low.imag)
        & (line.imag <= high.imag)
    )
    if inside.all():
        yield line
        return
    if len(line) > 2 and line[0] == line[-1] and inside[0]:
        # Begun outside, no part is cut in two where the line begins.
        first = int(np.flatnonzero(~inside)[0])
        line = np.concatenate([line[first:-1], line[: first + 1]])
    enters, leaves = _spans(line, low, high)
    run: list[complex] = []
    for k in np.flatnonzero(enters < leaves).tolist():
        a, step = line[k], line[k + 1] - line[k]
        start, stop = a + enters[k] * step, a + leaves[k] * step
        if run and (enters[k] > 0.0 or run[-1] != start):
            yield np.array(run)
            run = []
        run = [*run, stop] if run else [start, stop]
        if leaves[k] == 1.0:
            run[-1] = line[k + 1]
    if run:
        yield np.array(run)


def _spans(line: Complexes, low: complex, high: complex) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Where each segment enters and leaves the box, from 0 at its start to 1 at its end (Liang and Barsky, 1984)."""
    enters, leaves = np.zeros(len(line) - 1), np.ones(len(line) - 1)
    for at, least, most in ((line.real, low.real, high.real), (line.imag, low.imag, high.imag)):
        step = np.diff(at)
        with np.errstate(divide="ignore", invalid="ignore"):
            one, other = (least - at[:-1]) / step, (most - at[:-1]) / step
        level = step == 0.0
        beyond = level & ((at[:-1] < least) | (at[:-1] > most))
        enters = np.maximum(enters, np.where(level, np.where(beyond, 2.0, 0.0), np.minimum(one, other)))
        leaves = np.minimum(leaves, np.where(level, 1.0, np.maximum(one, other)))
    return enters, leaves
