"""Vertices that show themselves to be nodes between cubics, though the tangent does not break there."""

from __future__ import annotations

import numpy as np

from notchwork.geometry.cubics import Ints
from notchwork.geometry.fitting.alone import Limits, alone
from notchwork.geometry.fitting.chords import Chords
from notchwork.geometry.fitting.cleaned import ROUNDED
from notchwork.geometry.fitting.jumps import REACH

BESIDE = 2
"""So many vertices beside the one at which a jump shows most may be the node."""
WINDOW = 12
"""So many vertices on either side tell which of them it is."""


def shown(chords: Chords, start: Ints, end: Ints, limits: Limits) -> tuple[Ints, Ints]:
    """The vertices inside the pieces that are nodes by what the jumps say, and the pieces (by number) in which they lie."""
    count = np.maximum(end - start - 2 * REACH + 1, 0)
    of = np.repeat(np.arange(len(start)), count)
    v = np.arange(len(of)) - np.repeat(np.cumsum(count) - count, count) + start[of] + REACH
    high = chords.jump[v]
    peak = high > ROUNDED
    for far in range(1, REACH + 1):
        for side in (-far, far):
            other = v + side
            inside = (other >= start[of] + REACH) & (other <= end[of] - REACH)
            peak &= ~inside | (high > chords.jump[other]) | ((high == chords.jump[other]) & (side > 0))
    of, v = of[peak], v[peak]
    if not v.size:
        return v, of
    return _placed(chords, v, start[of], end[of], limits), of


def _placed(chords: Chords, v: Ints, start: Ints, end: Ints, limits: Limits) -> Ints:
    """Of the vertices about each the one from which cubics follow best those before and those after."""
    low = np.maximum(start, v - WINDOW)
    high = np.minimum(end, v + WINDOW)
    low[1:] = np.maximum(low[1:], np.where(start[1:] == start[:-1], v[:-1], 0))
    high[:-1] = np.minimum(high[:-1], np.where(start[1:] == start[:-1], v[1:], high[:-1]))
    aside = np.array(sorted(range(-BESIDE, BESIDE + 1), key=abs))
    tried = np.minimum(np.maximum(v + aside[:, None], low + 1), high - 1).ravel()
    low, high = np.tile(low, len(aside)), np.tile(high, len(aside))
    off = alone(chords, np.append(low, tried), np.append(tried, high), limits).off
    worst = np.maximum(off[: len(tried)], off[len(tried) :]).reshape(len(aside), -1)
    best = worst.argmin(axis=0)
    found: Ints = tried.reshape(len(aside), -1)[best, np.arange(len(v))]
    return found
