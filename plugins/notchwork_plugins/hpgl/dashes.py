"""Dashes as strokes of their own: what a device makes of a line pattern is its own affair."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np
from numpy.typing import NDArray

Complexes = NDArray[np.complex128]

MOST = 100_000
"""A line with more dashes than this is drawn whole."""


def dashed(line: Complexes, dashes: Sequence[float]) -> Iterator[Complexes]:
    """The drawn parts of a polyline (mm); ``dashes`` are lengths (mm), drawn and left out in turn."""
    steps = np.abs(np.diff(line))
    arc = np.concatenate([[0.0], np.cumsum(steps)])
    whole, cycle = float(arc[-1]), float(sum(dashes))
    pattern = list(dashes) * (1 + len(dashes) % 2)
    if cycle <= 0.0 or whole / cycle * len(dashes) > MOST:
        yield line
        return
    edges = np.concatenate([[0.0], np.cumsum(pattern)])
    starts = np.arange(np.ceil(whole / edges[-1]))[:, None] * edges[-1] + edges[None, :-1:2]
    stops = starts + np.array(pattern[::2])
    for start, stop in zip(starts.ravel(), np.minimum(stops.ravel(), whole), strict=True):
        if start < whole:
            first, last = np.searchsorted(arc, (start, stop), side="right")
            inner = line[first:last][arc[first:last] < stop]
            yield np.concatenate([[_at(line, arc, start)], inner, [_at(line, arc, stop)]])


def _at(line: Complexes, arc: NDArray[np.float64], place: float) -> complex:
    return complex(np.interp(place, arc, line.real), np.interp(place, arc, line.imag))
