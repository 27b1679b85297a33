"""Darts drawn as strokes: a V, or two lines that meet, with both feet on one edge and the point inside the piece."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from notchwork.geometry import intersections, lengths, part, reverse
from notchwork.recognise.words.dents import LEGS, MOUTH, NICK, POINT
from notchwork.recognise.words.rim import stop_way, turn_between
from notchwork.recognise.words.signs import Wedge
from notchwork.recognise.words.sketch import Sketch

Complexes = NDArray[np.complex128]

TOUCH = 1.0
"""mm: how near to the outline a dart's foot must come, and the ends of its legs to each other."""


def darts_of_strokes(sketch: Sketch) -> tuple[list[Wedge], list[tuple[int, float]]]:
    """The darts among the strokes, and small Vs as nicks (edge, arc position in mm); those strokes are then used."""
    darts: list[Wedge] = []
    nicks: list[tuple[int, float]] = []
    for numbers, legs in [*_of_one_stroke(sketch), *_of_two_strokes(sketch)]:
        if numbers & sketch.used:
            continue
        wedge = _wedge(sketch, legs)
        if wedge is None or wedge.edge is None:
            continue
        sketch.used |= numbers
        deep = np.abs(legs[:, 0] - legs[:, 3]).max()
        if deep <= 1.1 * NICK and wedge.feet[1] - wedge.feet[0] <= NICK:
            nicks.append((wedge.edge, sum(wedge.feet) / 2))
        else:
            darts.append(wedge)
    return darts, nicks


def _of_one_stroke(sketch: Sketch) -> Iterator[tuple[frozenset[int], Complexes]]:
    """Strokes of two cubics as legs (2, 4) that end in their common point."""
    reaches = _reaches(sketch)
    for k in sketch.left((sketch.rows == 2) & ~sketch.closed & reaches.all(axis=1)):
        out, back = sketch.strokes[k].cubics
        legs = np.array([out, reverse(back[None])[0]])
        if _looks_like_a_dart(legs):
            yield frozenset({k}), legs


def _of_two_strokes(sketch: Sketch) -> Iterator[tuple[frozenset[int], Complexes]]:
    """Two strokes of one cubic each that meet in a point inside the piece, and reach the outline with their other ends."""
    reaches = _reaches(sketch)
    single = np.array(sketch.left((sketch.rows == 1) & ~sketch.closed), dtype=np.intp)
    tips: list[tuple[int, int]] = [
        (int(k), end)
        for k in single
        for end in (0, 1)
        if reaches[k, 1 - end] and sketch.within[k, end] and sketch.distance[k, end] > TOUCH
    ]
    at = np.array([sketch.ends[tip] for tip in tips], dtype=complex)
    for i, (k, end) in enumerate(tips):
        for j in (np.flatnonzero(np.abs(at[i + 1 :] - at[i]) <= TOUCH) + i + 1).tolist():
            m, other = tips[j]
            legs = np.array([_towards(sketch, k, end), _towards(sketch, m, other)])
            if k != m and _looks_like_a_dart(legs):
                yield frozenset({k, m}), legs


def _reaches(sketch: Sketch) -> NDArray[np.bool_]:
    """Which ends (n, 2) lie on the outline or beyond it."""
    reaches: NDArray[np.bool_] = ~sketch.within | (sketch.distance <= TOUCH)
    return reaches


def _towards(sketch: Sketch, number: int, end: int) -> Complexes:
    """A stroke's only cubic (4,), drawn towards one of its ends."""
    row = sketch.first_row(number)
    return row if end == 1 else reverse(row[None])[0]


def _looks_like_a_dart(legs: Complexes) -> bool:
    """Whether two legs are sharp and about as long, before it is asked where they stand."""
    chords = np.abs(legs[:, 3] - legs[:, 0])
    if chords.min() < 1.0 or abs(chords[0] - chords[1]) > 2.0 * LEGS * chords.max():
        return False
    return turn_between(-stop_way(legs[0]), -stop_way(legs[1])) <= POINT


def _wedge(sketch: Sketch, legs: Complexes) -> Wedge | None:
    """The legs as a dart of the outline; None where the point is not inside, or the feet are not on one edge."""
    apex = complex(legs[:, 3].mean())
    if not sketch.rim.inside(np.array([apex]), TOUCH)[0]:
        return None
    one, other = (_foot(sketch, leg) for leg in legs)
    if one is None or other is None or one[0] != other[0]:
        return None
    cut = np.array([one[2], other[2]])
    cut[:, 3] = apex
    arcs = (one[1], other[1])
    arc = lengths(cut)
    if not 0.5 <= abs(arcs[0] - arcs[1]) <= MOUTH or abs(arc[0] - arc[1]) > LEGS * arc.max():
        return None
    return Wedge(one[0], arcs, cut) if arcs[0] < arcs[1] else Wedge(one[0], arcs[::-1], cut[::-1])


def _foot(sketch: Sketch, leg: Complexes) -> tuple[int, float, Complexes] | None:
    """Where a leg stands on the outline (edge, arc), and the leg from there on; None where it does not reach it."""
    rim = sketch.rim
    met = intersections(leg[None], rim.cubics)
    if len(met.points):
        first = int(met.a_t.argmin())
        at = rim.near(met.points[first][None])
        return int(at.edge[0]), float(at.arc[0]), part(leg, float(met.a_t[first]), 1.0)
    at = rim.near(leg[:1])
    return None if at.distance[0] > TOUCH else (int(at.edge[0]), float(at.arc[0]), leg)
