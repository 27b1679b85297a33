"""Outlines seen from outside: points of the stitch line, dense enough for the line beside it, and their feet."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from notchwork.geometry.cubics import Bools, Complexes, Floats, Ints, points, tangents
from notchwork.geometry.measures import chords_needed
from notchwork.geometry.offset.corners import blunt, turns
from notchwork.geometry.offset.gathered import Rows

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


def take_samples(rows: Rows, widths: Floats, sag: float, beyond: float) -> Samples:
    """Samples so close that neither the stitch line nor the line of the feet strays more than sag (mm) from its chords.

    widths (mm) are those of the rows. beyond (mm) is how far the foot of a blunt joint may lie outside its allowance.
    """
    curve = rows.curve
    straight = np.ones(len(rows.start), dtype=bool)
    straight[curve] = False
    row, point, tangent, foot, start = _on_lines(rows, np.flatnonzero(straight), widths, beyond)
    if curve.size:
        which, there, headed = _on_curves(rows.cubics, widths[curve], sag)
        begins = np.append(True, which[1:] != which[:-1])
        row = np.concatenate([row, curve[which]])
        order = np.argsort(row, kind="stable")
        row, start = row[order], np.concatenate([start, begins])[order]
        point, tangent = np.concatenate([point, there])[order], np.concatenate([tangent, headed])[order]
        foot = np.concatenate([foot, there - 1j * widths[curve[which]] * headed])[order]
    joint = np.append(start[1:], True)
    if not curve.size:
        return Samples(row, point, tangent, foot, np.flatnonzero(joint), curve)
    bend = np.flatnonzero(~joint & ~straight[row])
    cusp = np.abs(np.angle(tangent[bend + 1] * tangent[bend].conj())) > KINK
    joint[bend[cusp]] = True
    return Samples(row, point, tangent, foot, np.flatnonzero(joint), bend[~cusp])


def _on_lines(
    rows: Rows, line: Ints, widths: Floats, beyond: float
) -> tuple[Ints, Complexes, Complexes, Complexes, Bools]:
    """Rows, points, tangents and feet of the samples on the straight rows named by line, and which begin a row.

    Every row has its end among them, and its start unless that is one point with the end of the row before.
    """
    start, end, edge = rows.start, rows.end, rows.edge
    if rows.curve.size:
        start, end, edge, widths = start[line], end[line], edge[line], widths[line]
    along = end - start
    size = np.abs(along)
    along *= 1.0 / size
    turn = turns(along[:-1], along[1:], along[:-1], along[1:])
    merged, run = blunt(turn, widths[:-1], np.minimum(size[:-1], size[1:]), beyond)
    merged &= (line[1:] == line[:-1] + 1) & (edge[1:] == edge[:-1])
    del turn, size
    # How far along and beside the row its end's foot lies, as one complex number.
    foot = np.zeros(len(line), dtype=np.complex128)
    np.negative(widths, out=foot.imag)
    np.multiply(run, merged, out=foot.real[:-1])
    foot *= along
    foot += end
    apart = np.append(True, ~merged)[: len(line)]
    del run, merged
    starts = np.flatnonzero(apart)
    which = np.repeat(np.arange(len(line)), apart + np.intp(1))
    at = starts + np.arange(len(starts))
    begins = np.zeros(len(which), dtype=bool)
    begins[at] = True
    first_feet = start[starts] - 1j * (widths[starts] * along[starts])
    along = along[which]
    foot = foot[which]
    point = end[which]
    foot[at], point[at] = first_feet, start[starts]
    return line[which], point, along, foot, begins


def _on_curves(cubics: Complexes, widths: Floats, sag: float) -> tuple[Ints, Complexes, Complexes]:
    """Rows, points and tangents of the samples on cubics (c, 4) with their widths (mm)."""
    count = chords_needed(cubics, sag) + 1
    row = np.repeat(np.arange(len(cubics)), count)
    t = (np.arange(len(row)) - (np.cumsum(count) - count)[row]) / (count - 1)[row]
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
