"""The outline moved outward, edge by edge, before its loops are taken out.

The line is laid so that every part of it winds counter-clockwise about what it covers: the piece, a strip beside each
chord, a wedge at each outer corner. What it winds about at least once is then the piece with its allowances.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from notchwork.geometry.cubics import Bools, Complexes, Floats, Ints
from notchwork.geometry.offset.corners import (
    AFTER,
    BEFORE,
    BOTH,
    NO_TURN,
    Corner,
    blunt,
    corner_points,
    turns,
)
from notchwork.geometry.offset.samples import Samples
from notchwork.geometry.offset.turned import turned_up

TIGHT = 0.05
"""A chord whose foot line is shorter than this share of it, or runs back, belongs to a curve tighter than its width."""


class Raw(NamedTuple):
    """Closed lines (m,) that may cross themselves; edge is -1 for what belongs to a corner."""

    points: Complexes
    edge: Ints
    first: Ints
    """Where each line begins."""
    tight: Ints
    """The edges that somewhere bend inward tighter than their width."""


def raw_lines(
    samples: Samples, edge: Ints, width: Floats, first: Ints, corners: Ints, after: Bools, beyond: float
) -> Raw:
    """Raw cut lines of outlines, from their samples (m,), with the edge and the width (mm) of each sample.

    first says at which sample each outline begins. corners and after are those at the start of every edge: how the
    corner is turned, and whether the edge after it is the one squared off or turned up, or else the one before it.
    beyond (mm): how far a blunt joint inside an edge may lie outside its allowance.
    """
    size, point, tangent = len(samples.point), samples.point, samples.tangent
    keep, foot, more = np.ones(size, dtype=bool), samples.foot, np.zeros(size, dtype=np.intp)

    last = np.append(first[1:], size) - 1
    a = samples.joint
    line = np.searchsorted(last, a)
    b = np.where(a == last[line], first[line], a + 1)
    arriving = point[a] - point[np.where(a == first[line], last[line], a - 1)]
    leaving = point[np.where(b == last[line], first[line], b + 1)] - point[b]
    turn = turns(tangent[a], tangent[b], arriving, leaving)
    room = np.abs([arriving, leaving])
    merged, run = blunt(turn, width[a], room.min(axis=0), beyond)
    merged &= (edge[a] == edge[b]) & (a != b)
    if merged.any():
        foot = foot.copy()
        foot[a[merged]] += (run * tangent[a])[merged]
        keep[b[merged]] = False
        a, b, turn, room = a[~merged], b[~merged], turn.only(~merged), room[:, ~merged]

    own, other, width_a, width_b = edge[a], edge[b], width[a], width[b]
    style = np.where(own != other, corners[other], Corner.MITRED)
    squared = np.where(style == Corner.SQUARED, np.where(after[other], 2, 1), 0)
    # A joint at a chord's other end may move its foot too: each has half of the chord.
    between = corner_points(point[b], tangent[a], tangent[b], turn, width_a, width_b, room / 2.0, squared)
    count, replaces = between.many, between.replaces
    keep[a[(replaces & BEFORE) > 0]] = False
    keep[b[(replaces & AFTER) > 0]] = False

    special = []
    for k in np.flatnonzero((style == Corner.TURNED_UP) & (turn.sine > NO_TURN)):
        turned = turned_up(samples, edge, width, int(a[k]), int(b[k]), bool(after[edge[b[k]]]))
        if turned is not None:
            special.append(turned)
            keep[turned.dropped] = False
            count[k] = 0
            more[turned.before] = len(turned.points)

    more[a] += count
    tight = _tight(samples, foot)
    more[tight] += 4

    block = keep + more
    start = np.cumsum(block) - block
    source = np.repeat(np.arange(size), block)
    points, owner = foot[source], edge[source]
    # Where the lines meet the point is the edge's before; one without allowance leaves it, if it has another point.
    leaves = (width_a == 0.0) & keep[a - 1] & (edge[a - 1] == own)
    met = np.where((replaces == AFTER) | ((replaces == BOTH) & leaves), other, own)
    at = start[a] + keep[a]
    for slot, whose in ((0, np.where(replaces > 0, met, -1)), (1, np.full(len(a), -1))):
        chosen = np.flatnonzero(count > slot)
        points[at[chosen] + slot] = between.points[chosen, slot]
        owner[at[chosen] + slot] = whose[chosen]
    for turned in special:
        where = start[turned.before] + keep[turned.before] + np.arange(len(turned.points))
        points[where], owner[where] = turned.points, turned.edge
    if tight.size:
        around = (start[tight] + keep[tight])[:, None] + np.arange(4)
        points[around] = _strips(point[tight], point[tight + 1], width[tight])
        owner[around], owner[around[:, 1:3]] = -1, edge[tight][:, None]
        tight = np.unique(edge[tight])
    return Raw(points, owner, start[first], tight)


def _tight(samples: Samples, foot: Complexes) -> Ints:
    """The chords of curves that need a strip of their own, since their feet run together or backward."""
    at = samples.bend
    if not at.size:
        return at
    chord = samples.point[at + 1] - samples.point[at]
    along = ((foot[at + 1] - foot[at]) * chord.conj()).real
    tight: Ints = at[(along <= TIGHT * np.abs(chord) ** 2) & (chord != 0.0)]
    return tight


def _strips(start: Complexes, end: Complexes, width: Floats) -> Complexes:
    """The way (m, 4) round the strip to the right of each chord, from its start to its end."""
    out = -1j * width * (end - start) / np.abs(end - start)
    return np.stack([start, start + out, end + out, end], axis=1)
