"""Into how few cubics a stretch between two nodes is divided, and where."""

from __future__ import annotations

import numpy as np

from notchwork.geometry.cubics import Bools, Floats, Ints
from notchwork.geometry.fitting.alone import Limits, Trials, alone, hopeless
from notchwork.geometry.fitting.chords import Chords
from notchwork.geometry.fitting.nodes import shown


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
    low, high = start + 1, end - 1
    while (open_ := np.flatnonzero(low < high)).size:
        a, b = start[open_], end[open_]
        middle = (low[open_] + high[open_]) // 2
        before, after = _both(chords, a, middle, b, limits)
        up = (after > before) | ((after == before) & (middle - a < b - middle))
        low[open_], high[open_] = np.where(up, middle + 1, low[open_]), np.where(up, high[open_], middle)
    best, least = low, np.full(len(low), np.inf)
    for by in (0, -1, 1):
        tried = np.clip(low + by, start + 1, end - 1)
        worst = np.maximum(*_both(chords, start, tried, end, limits))
        best, least = np.where(worst < least, tried, best), np.minimum(worst, least)
    return best


def _both(chords: Chords, start: Ints, middle: Ints, end: Ints, limits: Limits) -> tuple[Floats, Floats]:
    off = alone(chords, np.concatenate([start, middle]), np.concatenate([middle, end]), limits).off
    return off[: len(start)], off[len(start) :]


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
