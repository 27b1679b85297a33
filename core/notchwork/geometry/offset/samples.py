"""Outlines seen from outside: points of the stitch line, dense enough for the line beside it, and their feet."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from notchwork.geometry.cubics import Bools, Complexes, Floats, Ints, is_straight, points, tangents
from notchwork.geometry.measures import chords_needed
from notchwork.geometry.offset.corners import blunt, turns

STRAIGHT = 1e-6
MOST_PASSES = 4
MOST_PER_STEP = 16
KINK = 1.0
"""A turn of more than this (radians) between neighbouring samples is a corner inside a row: a cusp."""


class Samples(NamedTuple):
    """Points (m,) of closed outlines in walking order.

    Both ends of every row are among them, but for blunt joints of straight rows inside an edge: these are one point.
    """

    row: Ints
    point: Complexes
    tangent: Complexes
    foot: Complexes
    """The point at the allowance, on the perpendicular to the right of the walk."""
    joint: Ints
    """The samples after which another row, or a row's other side at a cusp, begins at the same point."""
    bend: Ints
    """The samples after which a curve goes on to the next one."""


def take_samples(cubics: Complexes, edge: Ints, widths: Floats, sag: float, beyond: float) -> Samples:
    """Samples so close that neither the stitch line nor the line of the feet strays more than sag (mm) from its chords.

    edge and widths (mm) are those of the rows (n, 4). beyond (mm) is how far the foot of a blunt joint may lie outside
    its allowance.
    """
    straight = is_straight(cubics, STRAIGHT)
    line, curve = np.flatnonzero(straight), np.flatnonzero(~straight)
    row, point, tangent, foot, start = _on_lines(cubics, line, edge, widths, beyond)
    if curve.size:
        on_curve, there, headed = _on_curves(cubics, widths, curve, sag)
        begins = np.append(True, on_curve[1:] != on_curve[:-1])
        row = np.concatenate([row, on_curve])
        order = np.argsort(row, kind="stable")
        row, start = row[order], np.concatenate([start, begins])[order]
        point, tangent = np.concatenate([point, there])[order], np.concatenate([tangent, headed])[order]
        foot = np.concatenate([foot, there - 1j * widths[on_curve] * headed])[order]
    joint = np.append(start[1:], True)
    if not curve.size:
        return Samples(row, point, tangent, foot, np.flatnonzero(joint), curve)
    bend = np.flatnonzero(~joint & ~straight[row])
    cusp = np.abs(np.angle(tangent[bend + 1] * tangent[bend].conj())) > KINK
    joint[bend[cusp]] = True
    return Samples(row, point, tangent, foot, np.flatnonzero(joint), bend[~cusp])


def _on_lines(
    cubics: Complexes, line: Ints, edge: Ints, widths: Floats, beyond: float
) -> tuple[Ints, Complexes, Complexes, Complexes, Bools]:
    """Rows, points, tangents and feet of the samples on the straight rows named by line, and which begin a row."""
    p = cubics if len(line) == len(cubics) else cubics[line]
    ends, feet = np.empty((len(line), 2), dtype=np.complex128), np.empty((len(line), 2), dtype=np.complex128)
    ends[:, 0], ends[:, 1] = p[:, 0], p[:, 3]
    along = ends[:, 1] - ends[:, 0]
    size = np.abs(along)
    along /= size
    width = widths[line]
    out = -1j * (width * along)
    np.add(ends, out[:, None], out=feet)
    kept = np.ones(ends.shape, dtype=bool)
    if len(line) > 1:
        on = (line[1:] == line[:-1] + 1) & (edge[line[1:]] == edge[line[:-1]])
        turn = turns(along[:-1], along[1:], along[:-1], along[1:])
        merged, run = blunt(turn, width[:-1], np.minimum(size[:-1], size[1:]), beyond)
        merged &= on
        feet[:-1, 1] += np.where(merged, run, 0.0) * along[:-1]
        kept[1:, 0] = ~merged
    keep = np.flatnonzero(kept)
    which = keep >> 1
    return line[which], ends.ravel()[keep], along[which], feet.ravel()[keep], keep & 1 == 0


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
