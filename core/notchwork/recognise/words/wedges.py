"""Darts drawn as strokes: a V, or two lines that meet, with both feet on one edge and the point inside the piece."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np
from numpy.typing import NDArray

from notchwork.drawing import Stroke
from notchwork.geometry import intersections, lengths, part, reverse
from notchwork.recognise.words.dents import LEGS, MOUTH, NICK, POINT
from notchwork.recognise.words.rim import Rim, start_way, turn_between
from notchwork.recognise.words.signs import Wedge, left_of

Complexes = NDArray[np.complex128]

TOUCH = 1.0
"""mm: how near to the outline a dart's foot must come, and the ends of its legs to each other."""


def darts_of_strokes(
    strokes: Sequence[Stroke], used: set[int], rim: Rim
) -> tuple[list[Wedge], list[tuple[int, float]]]:
    """The darts among the strokes, and small Vs as nicks (edge, arc); what was taken is entered in ``used``."""
    darts: list[Wedge] = []
    nicks: list[tuple[int, float]] = []
    for numbers, legs in _pairs_of_legs(strokes, used):
        if numbers & used:
            continue
        wedge = _wedge(rim, legs)
        if wedge is None:
            continue
        used |= numbers
        deep = np.abs(legs[:, 0] - legs[:, 3]).max()
        if deep <= NICK * 1.1 and wedge.feet[1] - wedge.feet[0] <= NICK:
            assert wedge.edge is not None
            nicks.append((wedge.edge, sum(wedge.feet) / 2))
        else:
            darts.append(wedge)
    return darts, nicks


def _pairs_of_legs(strokes: Sequence[Stroke], used: set[int]) -> Iterator[tuple[frozenset[int], Complexes]]:
    """Two runs of one cubic each that meet in a point, as legs (2, 4) that end there."""
    single: list[tuple[int, Complexes]] = []
    for k, stroke in left_of(strokes, used):
        if stroke.closed:
            continue
        if len(stroke.cubics) == 2:
            out, back = stroke.cubics[0], stroke.cubics[1]
            yield frozenset({k}), np.array([out, reverse(back[None])[0]])
        elif len(stroke.cubics) == 1:
            single.append((k, stroke.cubics[0]))
    for i, (k, one) in enumerate(single):
        for m, other in single[i + 1 :]:
            for a in (one, reverse(one[None])[0]):
                for b in (other, reverse(other[None])[0]):
                    if abs(a[3] - b[3]) <= TOUCH:
                        yield frozenset({k, m}), np.array([a, b])


def _wedge(rim: Rim, legs: Complexes) -> Wedge | None:
    """The legs as a dart of the outline; None where the point is not inside, or the feet not on one edge."""
    apex = complex(legs[:, 3].mean())
    if not rim.inside(np.array([apex]), 1.0)[0]:
        return None
    feet = [_foot(rim, leg) for leg in legs]
    if feet[0] is None or feet[1] is None or feet[0][0] != feet[1][0]:
        return None
    edge = feet[0][0]
    cut = np.array([leg for _, _, leg in (feet[0], feet[1])])
    cut[:, 3] = apex
    arcs = (feet[0][1], feet[1][1])
    arc = lengths(cut)
    narrow = turn_between(-start_way(cut[0][::-1]), -start_way(cut[1][::-1])) <= POINT
    if not narrow or abs(arcs[0] - arcs[1]) > MOUTH or abs(arcs[0] - arcs[1]) < 0.5:
        return None
    if abs(arc[0] - arc[1]) > LEGS * arc.max():
        return None
    return Wedge(edge, arcs, cut) if arcs[0] < arcs[1] else Wedge(edge, arcs[::-1], cut[::-1])


def _foot(rim: Rim, leg: Complexes) -> tuple[int, float, Complexes] | None:
    """Where a leg stands on the outline (edge, arc), and the leg from there on; None where it does not reach it."""
    met = intersections(leg[None], rim.cubics)
    if len(met.points):
        t = float(met.a_t.min())
        at = rim.near(met.points[int(met.a_t.argmin())][None])
        return int(at.edge[0]), float(at.arc[0]), part(leg, t, 1.0)
    at = rim.near(leg[:1])
    if at.distance[0] > TOUCH:
        return None
    return int(at.edge[0]), float(at.arc[0]), leg
