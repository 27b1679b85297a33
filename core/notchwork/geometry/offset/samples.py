"""Outlines seen from outside: points of the stitch line, dense enough for the line beside it, and their feet."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from notchwork.geometry.cubics import Bools, Complexes, Floats, Ints, is_straight, points, tangents
from notchwork.geometry.measures import chords_needed

MOST_PASSES = 4
STRAIGHT = 1e-6
MOST_PER_STEP = 16
KINK = 1.0
"""A turn of more than this (radians) between neighbouring samples is a corner inside a row: a cusp."""


class Samples(NamedTuple):
    """Points (m,) of closed outlines in walking order, both ends of every row among them."""

    row: Ints
    point: Complexes
    tangent: Complexes
    foot: Complexes
    """The point at the allowance, on the perpendicular to the right of the walk."""
    chord: Bools
    """Whether the stretch to the next sample follows a curve; if not, there is a joint of two rows between them."""


def take_samples(cubics: Complexes, widths: Floats, sag: float) -> Samples:
    """Samples so close that neither the stitch line nor the line of the feet strays more than sag (mm) from its chords.

    widths (n,) in mm are those of the rows (n, 4).
    """
    straight = is_straight(cubics, STRAIGHT)
    count = np.full(len(cubics), 2)
    count[~straight] = chords_needed(cubics[~straight], sag) + 1
    row = np.repeat(np.arange(len(cubics)), count)
    t = (np.arange(len(row)) - (np.cumsum(count) - count)[row]) / (count - 1)[row]
    for last in range(MOST_PASSES):
        point, tangent = _placed(cubics, straight, row, t)
        foot = point - 1j * widths[row] * tangent
        same = np.append(row[1:] == row[:-1], False)
        curved = np.flatnonzero(same & ~straight[row])
        turn, strays = np.zeros(len(row)), np.zeros(len(row))
        turn[curved] = np.abs(np.angle(tangent[curved + 1] * tangent[curved].conj()))
        strays[curved] = np.abs(foot[curved + 1] - foot[curved]) * turn[curved] / 8.0
        if last == MOST_PASSES - 1 or strays.max(initial=0.0) <= sag:
            break
        # The sag of an arc goes with the square of its length.
        steps = np.clip(np.ceil(np.sqrt(strays / sag)), 1, MOST_PER_STEP).astype(np.intp)
        which = np.repeat(np.arange(len(row)), steps)
        share = (np.arange(len(which)) - (np.cumsum(steps) - steps)[which]) / steps[which]
        row, t = row[which], t[which] + share * (np.roll(t, -1) - t)[which]
    return Samples(row, point, tangent, foot, same & (turn <= KINK))


def _placed(cubics: Complexes, straight: Bools, row: Ints, t: Floats) -> tuple[Complexes, Complexes]:
    """Points and tangents; straight rows have only their two ends, and need no polynomial."""
    start, end = cubics[row, 0], cubics[row, 3]
    point = np.where(t < 0.5, start, end)
    tangent = end - start
    curved = np.flatnonzero(~straight[row])
    plain = straight[row]
    tangent[plain] /= np.abs(tangent[plain])
    point[curved] = points(cubics, row[curved], t[curved])
    tangent[curved] = tangents(cubics, row[curved], t[curved])
    return point, tangent
