"""The outline moved outward, edge by edge, before its loops are taken out.

The line is laid so that every part of it winds counter-clockwise about what it covers: the piece, a strip beside each
chord, a wedge at each outer corner. What it winds about at least once is then the piece with its allowances.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from notchwork.geometry.cubics import Bools, Complexes, Floats, Ints
from notchwork.geometry.offset.corners import NO_TURN, Corner, blunt, corner_points, turns
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
    size = len(samples.point)
    following = np.arange(1, size + 1)
    following[np.append(first[1:], size) - 1] = first
    keep, foot, more = np.ones(size, dtype=bool), samples.foot.copy(), np.zeros(size, dtype=np.intp)

    a = samples.joint
    b = following[a]
    before = _previous(following)[a]
    arriving, leaving = (
        samples.point[a] - samples.point[before],
        samples.point[following[b]] - samples.point[b],
    )
    turn = turns(samples.tangent[a], samples.tangent[b], arriving, leaving)
    merged, run = blunt(turn, width[a], np.minimum(np.abs(arriving), np.abs(leaving)), beyond)
    merged &= (edge[a] == edge[b]) & (a != b)
    foot[a[merged]] += (run * samples.tangent[a])[merged]
    keep[b[merged]] = False

    a, b, turn = a[~merged], b[~merged], turn.only(~merged)
    style = np.where(edge[a] != edge[b], corners[edge[b]], Corner.MITRED)
    squared = np.where(style == Corner.SQUARED, np.where(after[edge[b]], 2, 1), 0)
    between, count = corner_points(
        samples.point[b], samples.tangent[a], samples.tangent[b], turn, width[a], width[b], squared
    )

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
    at = start + keep
    points = np.empty(int(block.sum()), dtype=np.complex128)
    owner = np.full(len(points), -1, dtype=np.intp)
    points[start[keep]], owner[start[keep]] = foot[keep], edge[keep]
    for slot in range(2):
        chosen = count > slot
        points[at[a[chosen]] + slot] = between[chosen, slot]
    for turned in special:
        where = at[turned.before] + np.arange(len(turned.points))
        points[where], owner[where] = turned.points, turned.edge
    strip = _strips(samples.point[tight], samples.point[tight + 1], width[tight])
    around = at[tight][:, None] + np.arange(4)
    points[around] = strip
    owner[around[:, 1:3]] = edge[tight][:, None]
    return Raw(points, owner, start[first], np.unique(edge[tight]))


def _previous(following: Ints) -> Ints:
    previous = np.empty_like(following)
    previous[following] = np.arange(len(following))
    return previous


def _tight(samples: Samples, foot: Complexes) -> Ints:
    """The chords of curves that need a strip of their own, since their feet run together or backward."""
    at = samples.bend
    chord = samples.point[at + 1] - samples.point[at]
    along = ((foot[at + 1] - foot[at]) * chord.conj()).real
    tight: Ints = at[(along <= TIGHT * np.abs(chord) ** 2) & (chord != 0.0)]
    return tight


def _strips(start: Complexes, end: Complexes, width: Floats) -> Complexes:
    """The way (m, 4) round the strip to the right of each chord, from its start to its end."""
    out = -1j * width * (end - start) / np.abs(end - start)
    return np.stack([start, start + out, end + out, end], axis=1)
