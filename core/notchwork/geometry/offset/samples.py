"""Outlines seen from outside: points of the stitch line, dense enough for the line beside it, and their feet."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from notchwork.geometry.cubics import Complexes, Floats, Ints, is_straight, points, tangents
from notchwork.geometry.measures import chords_needed

STRAIGHT = 1e-6
MOST_PASSES = 4
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
    joint: Ints
    """The samples after which another row, or a row's other side at a cusp, begins at the same point."""
    bend: Ints
    """The samples after which a curve goes on to the next one."""


def take_samples(cubics: Complexes, widths: Floats, sag: float) -> Samples:
    """Samples so close that neither the stitch line nor the line of the feet strays more than sag (mm) from its chords.

    widths (n,) in mm are those of the rows (n, 4).
    """
    straight = is_straight(cubics, STRAIGHT)
    line, curve = np.flatnonzero(straight), np.flatnonzero(~straight)
    ends = cubics[line][:, [0, 3]]
    along = ends[:, 1] - ends[:, 0]
    along /= np.abs(along)
    row, point, tangent = np.repeat(line, 2), ends.ravel(), np.repeat(along, 2)
    if curve.size:
        on_curve, there, headed = _on_curves(cubics, widths, curve, sag)
        row = np.concatenate([row, on_curve])
        order = np.argsort(row, kind="stable")
        row = row[order]
        point, tangent = np.concatenate([point, there])[order], np.concatenate([tangent, headed])[order]
    foot = point - 1j * widths[row] * tangent
    new_row = np.append(row[1:] != row[:-1], True)
    bends = ~new_row & ~straight[row]
    if curve.size:
        at = np.flatnonzero(bends)
        cusp = at[np.abs(np.angle(tangent[at + 1] * tangent[at].conj())) > KINK]
        new_row[cusp], bends[cusp] = True, False
    return Samples(row, point, tangent, foot, np.flatnonzero(new_row), np.flatnonzero(bends))


def _on_curves(
    cubics: Complexes, widths: Floats, curve: Ints, sag: float
) -> tuple[Ints, Complexes, Complexes]:
    """Rows, points and tangents of the samples on the rows named by curve."""
    count = chords_needed(cubics[curve], sag) + 1
    row = np.repeat(curve, count)
    which = np.repeat(np.arange(len(curve)), count)
    t = (np.arange(len(row)) - (np.cumsum(count) - count)[which]) / (count - 1)[which]
    for _ in range(MOST_PASSES):
        point, tangent = points(cubics, row, t), tangents(cubics, row, t)
        foot = point - 1j * widths[row] * tangent
        turn = np.abs(np.angle(tangent[1:] * tangent[:-1].conj()))
        strays = np.where(row[1:] == row[:-1], np.abs(np.diff(foot)) * turn / 8.0, 0.0)
        if strays.max(initial=0.0) <= sag:
            break
        # The sag of an arc goes with the square of its length.
        steps = np.append(np.clip(np.ceil(np.sqrt(strays / sag)), 1, MOST_PER_STEP).astype(np.intp), 1)
        which = np.repeat(np.arange(len(row)), steps)
        share = (np.arange(len(which)) - (np.cumsum(steps) - steps)[which]) / steps[which]
        row, t = row[which], t[which] + share * np.append(np.diff(t), 0.0)[which]
    else:
        point, tangent = points(cubics, row, t), tangents(cubics, row, t)
    return row, point, tangent
