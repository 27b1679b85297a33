"""Notches drawn as strokes: ticks across the outline, T marks, small triangles and diamonds on it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from notchwork.geometry import intersections, lines
from notchwork.recognise.words.rim import turn_between
from notchwork.recognise.words.signs import Nick
from notchwork.recognise.words.sketch import Sketch

SHORTEST, LONGEST = 1.0, 20.0
"""mm: what is shorter or longer is no notch."""
TOUCH = 1.0
"""mm: how near to the outline a notch must come."""
SQUARE = 40.0
"""Degrees: how far a notch may lean."""
TOGETHER = 12.5
"""mm: nicks nearer than this are one notch; 8 mm apart is usual (common practice, no source)."""
SOLID = 15.0
"""mm: a larger triangle or diamond is no notch."""
AT_A_CORNER = 1.0
"""mm: what stands this near to a corner is part of its drawing."""


@dataclass(frozen=True, slots=True)
class _Tick:
    edge: int
    arc: float
    strokes: frozenset[int]


def notches_of(sketch: Sketch, widths: Sequence[float | None]) -> list[Nick]:
    """The notches among the strokes, which are then used. ``widths`` are the allowances by edge (mm)."""
    ticks = [*_ticks(sketch, widths), *_solids(sketch)]
    for tick in ticks:
        sketch.used |= tick.strokes
    return grouped([(tick.edge, tick.arc) for tick in ticks])


def grouped(nicks: Sequence[tuple[int, float]]) -> list[Nick]:
    """Nicks by (edge, arc position in mm) as notches: up to three close together are one."""
    found: list[Nick] = []
    group: list[tuple[int, float]] = []
    for edge, arc in sorted(nicks):
        goes_on = group and group[-1][0] == edge and arc - group[-1][1] <= TOGETHER and len(group) < 3
        if group and not goes_on:
            found.append(Nick(group[0][0], tuple(a for _, a in group)))
            group = []
        if not group or arc - group[-1][1] > 0.2:
            group.append((edge, arc))
    if group:
        found.append(Nick(group[0][0], tuple(a for _, a in group)))
    return found


def _ticks(sketch: Sketch, widths: Sequence[float | None]) -> Iterator[_Tick]:
    short = sketch.is_line & (sketch.length >= SHORTEST) & (sketch.length <= LONGEST)
    bars = sketch.left(sketch.is_line & (sketch.length <= LONGEST))
    for k in sketch.left(short):
        place = _across(sketch, k, widths)
        if place is not None:
            cross = _bar_of(sketch, k, bars)
            yield _Tick(*place, frozenset({k} if cross is None else {k, cross}))


def _across(sketch: Sketch, number: int, widths: Sequence[float | None]) -> tuple[int, float] | None:
    """The edge and arc position at which a straight stroke stands on the outline, square to it; None where it does not.

    A tick in the allowance only is carried on to the stitch line.
    """
    rim, within = sketch.rim, sketch.within[number]
    a, b = (complex(z) for z in sketch.ends[number])
    end = int(sketch.distance[number].argmin())
    edge, arc = int(sketch.edge[number, end]), float(sketch.arc[number, end])
    if within[0] != within[1]:
        met = intersections(lines(np.array([a, b])), rim.cubics)
        if len(met.points):
            at = rim.near(met.points[:1])
            edge, arc = int(at.edge[0]), float(at.arc[0])
    else:
        width = widths[edge] if edge < len(widths) else None
        reach = TOUCH if within.any() else max(TOUCH, (width or 0.0) + TOUCH)
        if sketch.distance[number, end] > reach:
            return None
    lean = turn_between(b - a, rim.outward(edge, arc))
    if min(lean, 180.0 - lean) > SQUARE:
        return None
    return (edge, arc) if AT_A_CORNER < arc < rim.length(edge) - AT_A_CORNER else None


def _bar_of(sketch: Sketch, stem: int, bars: Sequence[int]) -> int | None:
    """The stroke that lies as a bar across one end of a stem."""
    a, b = sketch.ends[stem]
    for k in bars:
        c, d = sketch.ends[k]
        middle, wide = (c + d) / 2, abs(d - c)
        if k == stem or wide < 0.5 or min(abs(middle - a), abs(middle - b)) > 0.2 * wide + 0.3:
            continue
        if abs(90.0 - turn_between(b - a, d - c)) <= 20.0:
            return k
    return None


def _solids(sketch: Sketch) -> Iterator[_Tick]:
    """Small triangles and diamonds that stand on the outline."""
    shut = sketch.closed | (np.abs(sketch.ends[:, 0] - sketch.ends[:, 1]) < 0.1)
    small = shut & sketch.is_straight & (sketch.rows >= 2) & (sketch.rows <= 4) & (sketch.length <= 4 * SOLID)
    for k in sketch.left(small):
        cubics = sketch.strokes[k].cubics
        corners = np.unique(np.round(np.concatenate([cubics[:, 0], cubics[:, 3]]), 3))
        if len(corners) not in (3, 4) or np.abs(corners - corners.mean()).max() > 0.6 * SOLID:
            continue
        inside = sketch.rim.inside(corners)
        straddles = inside.any() and not inside.all()
        if straddles or sketch.rim.near(corners).distance.min() <= TOUCH:
            at = sketch.rim.near(np.array([corners.mean()]))
            yield _Tick(int(at.edge[0]), float(at.arc[0]), frozenset({k}))
