"""What of a drawing lies in a rectangle."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from notchwork.drawing import Group
from notchwork.geometry import flatten

Complexes = NDArray[np.complex128]
Flags = NDArray[np.bool_]

_CHORDS = 0.02
"""mm: how far chords may lie beside curves."""


@dataclass(frozen=True, slots=True, eq=False)
class Traces:
    """Straight pieces from ``starts`` to ``ends`` (m,) in mm, which stand for lines, points and the boxes of words."""

    starts: Complexes
    ends: Complexes

    def moved(self, turn: complex, shift: complex) -> Traces:
        """Where a window shows them."""
        return Traces(turn * self.starts + shift, turn * self.ends + shift)

    def within(self, low: complex, high: complex) -> Traces:
        """Those that reach into a rectangle."""
        there = crossing(self.starts, self.ends, low, high)
        return Traces(self.starts[there], self.ends[there])

    def reach_into(self, low: complex, high: complex) -> int:
        """How many reach into a rectangle."""
        return int(crossing(self.starts, self.ends, low, high).sum())


def traces(group: Group) -> Traces:
    """What a group draws, in its own coordinates."""
    starts, ends = [np.zeros(0, np.complex128)], [np.zeros(0, np.complex128)]
    for stroke in group.strokes:
        if len(stroke.cubics):
            flat = flatten(stroke.cubics, _CHORDS).points
            starts += [flat[:-1], flat[-1:]]
            ends += [flat[1:], flat[:1] if stroke.closed else flat[-1:]]
    for text in group.texts:
        corners = np.array(text.box)
        starts.append(corners)
        ends.append(np.roll(corners, -1))
    dots = np.array([dot.at for dot in group.dots], np.complex128)
    return Traces(np.concatenate([*starts, dots]), np.concatenate([*ends, dots]))


def together(several: list[Traces]) -> Traces:
    """All of them as one."""
    none = np.zeros(0, np.complex128)
    return Traces(
        np.concatenate([none, *(each.starts for each in several)]),
        np.concatenate([none, *(each.ends for each in several)]),
    )


def crossing(starts: Complexes, ends: Complexes, low: complex, high: complex) -> Flags:
    """Which straight pieces share a point with a rectangle, its rim among it: each is cut to one strip, then to the other.

    What is left of a piece after that, if anything, lies in the rectangle (Liang and Barsky's way of clipping, from memory).
    """
    first, last = np.zeros(len(starts)), np.ones(len(starts))
    there = np.ones(len(starts), np.bool_)
    step = ends - starts
    for at, along, below, above in (
        (starts.real, step.real, low.real, high.real),
        (starts.imag, step.imag, low.imag, high.imag),
    ):
        still = along == 0.0
        there &= ~still | ((below <= at) & (at <= above))
        divisor = np.where(still, 1.0, along)
        a, b = (below - at) / divisor, (above - at) / divisor
        first = np.where(still, first, np.maximum(first, np.minimum(a, b)))
        last = np.where(still, last, np.minimum(last, np.maximum(a, b)))
    return there & (first <= last)
