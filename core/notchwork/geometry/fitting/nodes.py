"""Where vertices show that one cubic ends and another begins: the curvature jumps there, though the tangent does not break."""

from __future__ import annotations

import numpy as np

from notchwork.geometry.cubics import Floats, Ints
from notchwork.geometry.fitting.alone import Limits, alone
from notchwork.geometry.fitting.chords import Chords
from notchwork.geometry.fitting.cleaned import ROUNDED

REACH = 3
"""From so many vertices on either side a jump is told; it shows at as many on either side."""
BESIDE = 2
"""So many vertices beside the one at which a jump shows most may be the node."""
WINDOW = 12
"""So many vertices on either side tell which of them it is."""


def jumps(chords: Chords) -> Floats:
    """By how much (mm) the bulge of the shorter chord beside each vertex changes there, as vertices on either side let expect."""
    z = chords.z
    found = np.zeros(len(z))
    if len(z) <= 2 * REACH:
        return found
    step = np.diff(z)
    size = np.maximum(np.abs(step), 1e-12)
    bend = 2.0 * np.angle(step[1:] * step[:-1].conj()) / (size[1:] + size[:-1])
    # bend[k] is that at vertex k + 1; from two of them on either side, on to the vertex between.
    v = np.arange(REACH, len(z) - REACH)
    before = bend[v - 2] + (bend[v - 2] - bend[v - 3]) * size[v - 1] / size[v - 2]
    after = bend[v] + (bend[v] - bend[v + 1]) * size[v] / size[v + 1]
    found[v] = np.abs(after - before) * np.minimum(size[v - 1], size[v]) ** 2 / 8.0
    return found


def shown(chords: Chords, jump: Floats, start: Ints, end: Ints, limits: Limits) -> tuple[Ints, Ints]:
    """The vertices inside the pieces that are nodes by what the jumps say, and the pieces (by number) in which they lie."""
    count = np.maximum(end - start - 2 * REACH + 1, 0)
    of = np.repeat(np.arange(len(start)), count)
    v = np.arange(len(of)) - np.repeat(np.cumsum(count) - count, count) + start[of] + REACH
    high = jump[v]
    peak = high > ROUNDED
    for far in range(1, REACH + 1):
        for side in (-far, far):
            other = v + side
            inside = (other >= start[of] + REACH) & (other <= end[of] - REACH)
            peak &= ~inside | (high > jump[other]) | ((high == jump[other]) & (side > 0))
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
