"""Into how few cubics a stretch between two nodes is divided, and where."""

from __future__ import annotations

import numpy as np

from notchwork.geometry.cubics import Bools, Floats, Ints
from notchwork.geometry.fitting.alone import Limits, Trials, alone, hopeless
from notchwork.geometry.fitting.chords import Chords
from notchwork.geometry.fitting.nodes import shown

AT_ONCE = 7
"""So many places are tried at once when a piece is to be parted."""


def divided(chords: Chords, start: Ints, end: Ints, limits: Limits, trials: Trials) -> tuple[Ints, Ints]:
    """Stretches as pieces, in order, each of which one cubic follows within the limits."""
    done: list[tuple[Ints, Ints]] = []
    while start.size:
        good = _good(chords, start, end, limits, trials) | (end - start == 1)
        done.append((start[good], end[good]))
        start, end = start[~good], end[~good]
        if not start.size:
            break
        middle, of = shown(chords, start, end, limits)
        rest = np.ones(len(start), dtype=bool)
        rest[of] = False
        middle = np.append(middle, _between(chords, start[rest], end[rest], limits))
        start, end = np.sort(np.append(start, middle)), np.sort(np.append(end, middle))
    if not done:
        return start, end
    start, end = (np.concatenate(column) for column in zip(*done, strict=True))
    order = np.argsort(start)
    return _merged(chords, start[order], end[order], limits, trials)


def _good(chords: Chords, start: Ints, end: Ints, limits: Limits, trials: Trials) -> Bools:
    """Which pieces one cubic follows within the limits; within half of them where it will share a tangent."""
    own = (chords.corner[start] | chords.hold_leave[start]) & (chords.corner[end] | chords.hold_arrive[end])
    good = ~hopeless(chords, start, end)
    tried = np.flatnonzero(good)
    off = trials.best(start[tried], end[tried]).off
    good[tried] = off <= np.where(own[tried], 1.0, 0.5) * limits.stray
    return good


def _between(chords: Chords, start: Ints, end: Ints, limits: Limits) -> Ints:
    """Where each piece is parted: where both parts are equally well fitted; in the middle while neither can be."""
    middle = (start + end) // 2
    fine = np.flatnonzero(~hopeless(chords, start, end) & (end - start > 3))
    if fine.size:
        middle[fine] = _balanced(chords, start[fine], end[fine], limits)
    return middle


def _balanced(chords: Chords, start: Ints, end: Ints, limits: Limits) -> Ints:
    """Ever closer about the place of several from which the worse part is followed best; about the middle of equal ones."""
    low, high = start + 1, end - 1
    best, least = (start + end) // 2, np.full(len(start), np.inf)
    share = np.linspace(0.0, 1.0, AT_ONCE)[:, None]
    while (left := np.flatnonzero(low < high)).size:
        a, b, first, last = start[left], end[left], low[left], high[left]
        tried = np.rint(first + (last - first) * share).astype(np.intp)
        worse = _worse(chords, a, tried, b, limits)
        k, one = np.lexsort((np.abs(2 * tried - a - b), worse), axis=0)[0], np.arange(len(left))
        nearer = worse[k, one] < least[left]
        best[left[nearer]], least[left[nearer]] = tried[k, one][nearer], worse[k, one][nearer]
        # Once every place has been tried there is nothing left between.
        low[left] = np.where(last - first < AT_ONCE, last, tried[np.maximum(k - 1, 0), one] + 1)
        high[left] = np.where(last - first < AT_ONCE, last, tried[np.minimum(k + 1, AT_ONCE - 1), one] - 1)
    return best


def _worse(chords: Chords, start: Ints, middle: Ints, end: Ints, limits: Limits) -> Floats:
    """How far (mm) vertices lie beside the worse of the two parts for places (k, n) at which the pieces (n,) are parted."""
    start, end = (np.broadcast_to(side, middle.shape).ravel() for side in (start, end))
    off = alone(chords, np.append(start, middle), np.append(middle, end), limits).off
    worse: Floats = off.reshape(2, *middle.shape).max(axis=0)
    return worse


def _merged(chords: Chords, start: Ints, end: Ints, limits: Limits, trials: Trials) -> tuple[Ints, Ints]:
    """The pieces without the partings that are not needed after all."""
    for turn in range(8):
        pair = np.flatnonzero((end[:-1] == start[1:]) & ~chords.node[start[1:]])
        pair = pair[pair % 2 == turn % 2]
        if not pair.size:
            continue
        joined = pair[_good(chords, start[pair], end[pair + 1], limits, trials)]
        end[joined] = end[joined + 1]
        keep = np.ones(len(start), dtype=bool)
        keep[joined + 1] = False
        start, end = start[keep], end[keep]
    return start, end
