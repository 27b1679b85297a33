"""Notches drawn as strokes: ticks across the outline, T marks, small triangles and diamonds on it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from notchwork.drawing import Stroke
from notchwork.geometry import intersections, is_straight, lengths, lines
from notchwork.recognise.words.rim import Rim, turn_between
from notchwork.recognise.words.signs import Nick, ends_of, left_of

LONGEST = 20.0
"""mm: a longer stroke is no notch."""
TOUCH = 1.0
"""mm: how near to the outline a notch must come."""
SQUARE = 40.0
"""Degrees: how far a notch may lean."""
TOGETHER = 12.5
"""mm: nicks nearer than this are one notch; 8 mm apart is usual (common practice, no source)."""
SOLID = 15.0
"""mm: a larger triangle or diamond is no notch."""


@dataclass(frozen=True, slots=True)
class _Tick:
    edge: int
    arc: float
    strokes: frozenset[int]


def notches_of(
    strokes: Sequence[Stroke], used: set[int], rim: Rim, widths: Sequence[float | None]
) -> list[Nick]:
    """The notches among the strokes; what was taken is entered in ``used``. ``widths`` are the allowances by edge (mm)."""
    ticks = [*_ticks(strokes, used, rim, widths), *_solids(strokes, used, rim)]
    for tick in ticks:
        used |= tick.strokes
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


def _ticks(
    strokes: Sequence[Stroke], used: set[int], rim: Rim, widths: Sequence[float | None]
) -> Iterator[_Tick]:
    left = [(k, s) for k, s in left_of(strokes, used) if not s.closed and lengths(s.cubics).sum() <= LONGEST]
    bars = {k: ends_of(s) for k, s in left if len(s.cubics) == 1 and is_straight(s.cubics).all()}
    for k, (a, b) in bars.items():
        place = _across(rim, a, b, widths)
        if place is None:
            continue
        cross = _bar_of(k, a, b, bars)
        yield _Tick(*place, frozenset({k} if cross is None else {k, cross}))


def _across(rim: Rim, a: complex, b: complex, widths: Sequence[float | None]) -> tuple[int, float] | None:
    """The edge and arc position at which a straight stroke stands on the outline, square to it; None where it does not.

    A tick in the allowance only is carried on to the stitch line.
    """
    if abs(b - a) < 1.0:
        return None
    near = rim.near(np.array([a, b]))
    met = intersections(lines(np.array([a, b])), rim.cubics)
    if len(met.points):
        at = rim.near(met.points[:1])
        edge, arc = int(at.edge[0]), float(at.arc[0])
    else:
        end = int(np.argmin(near.distance))
        edge, arc = int(near.edge[end]), float(near.arc[end])
        width = widths[edge] if edge < len(widths) else None
        outside = not rim.inside(np.array([a, b])).any()
        reach = max(TOUCH, (width or 0.0) + TOUCH) if outside else TOUCH
        if near.distance[end] > reach:
            return None
    lean = turn_between(b - a, rim.outward(edge, arc))
    if min(lean, 180.0 - lean) > SQUARE:
        return None
    # A stroke that ends exactly at a corner is part of the drawing of that corner, unless it points straight off it.
    length = rim.length(edge)
    return (edge, arc) if 1.0 < arc < length - 1.0 else None


def _bar_of(stem: int, a: complex, b: complex, bars: dict[int, tuple[complex, complex]]) -> int | None:
    """The stroke that lies as a bar across one end of a stem."""
    for k, (c, d) in bars.items():
        if k == stem or abs(d - c) < 0.5:
            continue
        middle = (c + d) / 2
        square = abs(90.0 - turn_between(b - a, d - c)) <= 20.0
        if square and min(abs(middle - a), abs(middle - b)) <= 0.2 * abs(d - c) + 0.3:
            return k
    return None


def _solids(strokes: Sequence[Stroke], used: set[int], rim: Rim) -> Iterator[_Tick]:
    """Small triangles and diamonds that stand on the outline."""
    for k, stroke in left_of(strokes, used):
        cubics = stroke.cubics
        a, b = ends_of(stroke)
        if (
            not (stroke.closed or abs(a - b) < 0.1)
            or len(cubics) not in (2, 3, 4)
            or not is_straight(cubics).all()
        ):
            continue
        corners = np.unique(np.round(np.concatenate([cubics[:, 0], cubics[:, 3]]), 3))
        if len(corners) not in (3, 4) or np.abs(corners - corners.mean()).max() > SOLID / 2 * 1.2:
            continue
        near = rim.near(corners)
        if near.distance.min() > TOUCH and not _straddles(rim, corners):
            continue
        at = rim.near(np.array([corners.mean()]))
        yield _Tick(int(at.edge[0]), float(at.arc[0]), frozenset({k}))


def _straddles(rim: Rim, corners: np.ndarray[tuple[int], np.dtype[np.complex128]]) -> bool:
    inside = rim.inside(corners)
    return bool(inside.any() and not inside.all())
