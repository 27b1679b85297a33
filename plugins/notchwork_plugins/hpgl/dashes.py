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
    starts = (np.arange(np.ceil(whole / edges[-1]))[:, None] * edges[-1] + edges[None, :-1:2]).ravel()
    stops = np.minimum(starts + np.tile(pattern[::2], len(starts) // len(pattern[::2])), whole)
    starts, stops = starts[starts < whole], stops[starts < whole]
    ends = np.stack([_at(line, arc, starts), _at(line, arc, stops)], axis=1)
    # The line's own corners strictly inside a dash.
    first, last = np.searchsorted(arc, starts, side="right"), np.searchsorted(arc, stops, side="left")
    for dash, a, b in zip(ends, first.tolist(), last.tolist(), strict=True):
        yield np.concatenate([dash[:1], line[a:b], dash[1:]]) if b > a else dash


def _at(line: Complexes, arc: NDArray[np.float64], places: NDArray[np.float64]) -> Complexes:
    result: Complexes = np.interp(places, arc, line.real) + 1j * np.interp(places, arc, line.imag)
    return result
