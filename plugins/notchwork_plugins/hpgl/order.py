"""In which order strokes are drawn, so that the pen travels little while it is up."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from notchwork_plugins.hpgl.ink import Ink

Complexes = NDArray[np.complex128]
Floats = NDArray[np.float64]

MOST_STARTS = 48
"""At as many places a closed line may be begun."""
MOST_AT_ONCE = 4000
"""Of longer lists the stretches are put in order one by one."""
WORK = 60_000_000
"""Pairs that are looked at at most: the same list always comes out in the same order."""
LEAST_GAIN = 1e-6
"""mm"""


def travel(inks: Sequence[Ink], start: complex = 0j) -> float:
    """How far (mm) the pen goes while it is up, from the start to the end of the last line."""
    far, at = 0.0, start
    for ink in inks:
        for line in ink.lines or _place(ink):
            far += abs(line[0] - at)
            at = complex(line[-1])
    return far


def ordered(inks: Sequence[Ink], start: complex = 0j) -> list[Ink]:
    """The same inks, none lost, some begun at their other end or elsewhere on a closed line; never a longer way."""
    result: list[Ink] = []
    for first in range(0, len(inks), MOST_AT_ONCE):
        here = list(inks[first : first + MOST_AT_ONCE])
        better = _tour(here, start)
        result += better if travel(better, start) < travel(here, start) else here
        start = _ends(result[-1])[1]
    return result


def _tour(inks: Sequence[Ink], start: complex) -> list[Ink]:
    tour = _nearest(inks, start)
    rounds = max(1, min(40, WORK // (4 * len(inks) * len(inks) + 1)))
    for _ in range(rounds):
        before = travel(tour, start)
        tour = _improved(tour, start)
        tour = _begun(tour, start)
        if before - travel(tour, start) < LEAST_GAIN:
            break
    return tour


def _nearest(inks: Sequence[Ink], start: complex) -> list[Ink]:
    """Always on to the nearest end, or the nearest point of a closed line."""
    which = [(k, first) for k, ink in enumerate(inks) for first in _starts(ink)]
    z = np.array([_first(inks[k], first) for k, first in which])
    owner = np.array([k for k, _ in which])
    result: list[Ink] = []
    at = start
    left = np.ones(len(z), dtype=bool)
    for _ in inks:
        far = np.where(left, np.abs(z - at), np.inf)
        k = int(far.argmin())
        left &= owner != owner[k]
        chosen, first = which[k]
        result.append(_from(inks[chosen], first))
        at = _ends(result[-1])[1]
    return result


def _starts(ink: Ink) -> list[int]:
    """Where it may begin: a number of a point on a closed line; 0, or -1 for the end, on any other."""
    if ink.closed:
        count = len(ink.lines[0]) - 1
        return list(range(0, count, -(-count // MOST_STARTS)))
    return [0] if ink.text is not None else [0, -1]


def _first(ink: Ink, at: int) -> complex:
    if ink.closed:
        return complex(ink.lines[0][at])
    return _ends(ink)[at]


def _from(ink: Ink, at: int) -> Ink:
    """The same, begun elsewhere."""
    if ink.closed:
        line = ink.lines[0]
        return ink if at == 0 else replace(ink, lines=(np.concatenate([line[at:-1], line[: at + 1]]),))
    return ink if at == 0 else _turned(ink)


def _turned(ink: Ink) -> Ink:
    return replace(ink, lines=tuple(line[::-1] for line in reversed(ink.lines)))


def _ends(ink: Ink) -> tuple[complex, complex]:
    lines = ink.lines or _place(ink)
    return complex(lines[0][0]), complex(lines[-1][-1])


def _place(ink: Ink) -> tuple[Complexes, ...]:
    assert ink.text is not None
    return (np.array([ink.text.at]),)


def _improved(tour: Sequence[Ink], start: complex) -> list[Ink]:
    """One pass of 2-opt and one of Or-opt (G. A. Croes, 1958; I. Or, 1976; from memory)."""
    way = _Way(np.array([_ends(ink) for ink in tour]), start)
    for first in range(len(tour)):
        way.turn_from(first)
    for count in (1, 2, 3):
        for first in range(len(tour) - count + 1):
            way.put_elsewhere(first, count)
    return [
        _turned(tour[k]) if back else tour[k]
        for k, back in zip(way.order.tolist(), way.turned.tolist(), strict=True)
    ]


class _Way:
    """Lines by their ends (n, 2) in the order in which they are drawn, and which are drawn backward."""

    def __init__(self, ends: Complexes, start: complex) -> None:
        self.start = start
        self.begins, self.stops = ends[:, 0].copy(), ends[:, 1].copy()
        self.order = np.arange(len(ends))
        self.turned = np.zeros(len(ends), dtype=bool)

    def turn_from(self, first: int) -> None:
        """Turn round the stretch from ``first`` on by which the way is shortened most."""
        before = self.stops[first - 1] if first else self.start
        begin, stops, follows = self.begins[first], self.stops[first:], self.begins[first + 1 :]
        gains = np.abs(before - begin) - np.abs(before - stops)
        gains[:-1] += np.abs(stops[:-1] - follows) - np.abs(begin - follows)
        best = int(gains.argmax())
        if gains[best] > LEAST_GAIN:
            stretch = slice(first, first + best + 1)
            self._set(stretch, *self._backward(stretch))

    def put_elsewhere(self, first: int, count: int) -> None:
        """Put so many from ``first`` on, either way round, where the way is shortened most."""
        here, after = slice(first, first + count), first + count
        begin, stop = self.begins[first], self.stops[after - 1]
        stops = np.concatenate([[self.start], self.stops])
        forward, backward = np.abs(stops - begin), np.abs(stops - stop)
        gaps = np.abs(stops[:-1] - self.begins)
        saved = gaps[first]
        if after < len(self.begins):
            saved += gaps[after] - abs(stops[first] - self.begins[after])
        forward[:-1] += np.abs(stop - self.begins) - gaps
        backward[:-1] += np.abs(begin - self.begins) - gaps
        costs = np.minimum(forward, backward)
        costs[first : after + 1] = np.inf
        best = int(costs.argmin())
        if saved - costs[best] > LEAST_GAIN:
            moved = self._backward(here) if backward[best] < forward[best] else self._get(here)
            if best > first:
                others, all_of_it = self._get(slice(after, best)), slice(first, best)
                self._set(all_of_it, *map(np.append, others, moved))
            else:
                others, all_of_it = self._get(slice(best, first)), slice(best, after)
                self._set(all_of_it, *map(np.append, moved, others))

    def _get(self, which: slice | NDArray[np.intp]) -> tuple[NDArray[Any], ...]:
        return self.begins[which], self.stops[which], self.order[which], self.turned[which]

    def _backward(self, which: slice) -> tuple[NDArray[Any], ...]:
        begins, stops, order, turned = (values[::-1].copy() for values in self._get(which))
        return stops, begins, order, ~turned

    def _set(self, which: slice, *values: NDArray[Any]) -> None:
        self.begins[which], self.stops[which], self.order[which], self.turned[which] = values


def _begun(tour: Sequence[Ink], start: complex) -> list[Ink]:
    """Closed lines begun where the way past them is shortest."""
    result: list[Ink] = []
    at = start
    for k, ink in enumerate(tour):
        if ink.closed:
            z = ink.lines[0][:-1]
            far = np.abs(z - at)
            if k + 1 < len(tour):
                far = far + np.abs(z - _ends(tour[k + 1])[0])
            ink = _from(ink, int(far.argmin()))
        result.append(ink)
        at = _ends(ink)[1]
    return result
