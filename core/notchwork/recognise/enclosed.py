"""All that lines enclose: closed lines, open ones put end to end, and faces between lines that end on each other."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

import numpy as np

from notchwork.geometry import to_chords
from notchwork.recognise.areas import Area, Key, area_of
from notchwork.recognise.meshed import SMALL, faces_between
from notchwork.recognise.placed import Line, box_of
from notchwork.recognise.rings import joined
from notchwork.recognise.shape import Complexes
from notchwork.recognise.widths import samples

TICK = 40.0
"""mm: a longer stroke along another is no notch. Common practice, no source."""
LONGER = 3.0
"""The other is at least so many times as long."""


@dataclass(frozen=True, eq=False)
class Enclosed:
    """The areas, the closed lines too small for a piece, the lines of no area, gaps closed, and faces that belong to nobody."""

    areas: tuple[Area, ...]
    marks: tuple[Line, ...]
    loose: tuple[Line, ...]
    gaps: tuple[tuple[complex, float], ...]
    waste: tuple[Area, ...]


def enclosed(lines: Sequence[Line], frames: Sequence[Line], tol: float) -> Enclosed:
    """All that the lines enclose. Closed lines, and rings of lines that meet nothing else at their ends, are taken as drawn.

    ``frames`` enclose nothing themselves, but lines that end on them go on along them.
    """
    marks = tuple(line for line in lines if line.closed and _is_mark([line]))
    closed = [line for line in lines if line.closed and line not in marks]
    areas = [area_of([(line, False)]) for line in closed]
    ticks = ticks_on(lines, tol)
    left = [line for line in lines if not line.closed and line not in ticks]
    gaps: list[tuple[complex, float]] = []
    # Pens of different colours are as good as layers to tell what goes on where several lines meet.
    rings, left = _rings(left, lambda line: (*line.within, str(line.look and line.look.line)), tol)
    more_rings, left = _rings(left, lambda line: line.within, tol)
    rings += more_rings
    # What is too small for a piece stays strokes: an arrow's head.
    small = [way for way in rings if _is_mark([line for line, _ in way])]
    marks += tuple(line for way in small for line, _ in way)
    rings = [way for way in rings if way not in small]
    for way in rings:
        found = joined(way)
        gaps.append((found.gap_at, found.gap))
        areas.append(area_of(way))
    rims = [*closed, *(line for way in rings for line, _ in way)]
    more, waste, meshed, used = faces_between(areas, rims, frames, left, tol)
    gaps += [(gap.at, gap.width) for gap in meshed]
    areas += more
    left = [line for line in left if line.number not in used]
    for key in dict.fromkeys(line.within[:-1] for line in left if len(line.within) > 1):
        if any(area.within[: len(key)] == key for area in areas):
            continue
        # A block, or a group of groups, in which no layer has a piece of its own is one thing on several layers.
        own = [replace(line, within=key) for line in left if line.within[:-1] == key]
        whole, _, meshed, used = faces_between([], [], [], own, tol)
        gaps += [(gap.at, gap.width) for gap in meshed]
        areas += whole
        left = [line for line in left if line.number not in used]
    loose = (*left, *ticks)
    return Enclosed(tuple(areas), marks, loose, tuple(gaps), waste)


def _is_mark(lines: Sequence[Line]) -> bool:
    low, high = box_of(lines)
    return max((high - low).real, (high - low).imag) <= SMALL


def ticks_on(lines: Sequence[Line], tol: float) -> list[Line]:
    """Short open lines that lie along a longer one all the way: notches, not a part of it drawn twice."""
    found: list[Line] = []
    size = np.array([line.length for line in lines])
    low, high = np.array([line.box for line in lines], dtype=np.complex128).reshape(-1, 2).T
    longest = size.max(initial=0.0)
    for line in lines:
        if line.closed or line.length > min(TICK, longest / LONGER):
            continue
        # All others at once: a drawing may have ten thousands of short strokes.
        across = np.maximum(low.real - line.box[1].real, line.box[0].real - high.real)
        up = np.maximum(low.imag - line.box[1].imag, line.box[0].imag - high.imag)
        near = np.hypot(np.maximum(across, 0.0), np.maximum(up, 0.0)) <= tol
        others = np.flatnonzero(near & (size >= LONGER * line.length)).tolist()
        if others:
            z = np.concatenate([samples(line.cubics), [line.start, line.end]])
            rings = (lines[k].polyline for k in others)
            if any((to_chords(z, ring[:-1], ring[1:]).min(axis=1) <= tol).all() for ring in rings):
                found.append(line)
    return found


def _rings(
    lines: Sequence[Line], key_of: Callable[[Line], Key], tol: float
) -> tuple[list[list[tuple[Line, bool]]], list[Line]]:
    """Closed ways of lines at whose every joint just two ends of one key meet, and the lines left over."""
    partner: dict[int, int] = {}
    keys = [key_of(line) for line in lines]
    for key in dict.fromkeys(keys):
        # What else ends at a joint, on another layer, does not keep a line from going on there.
        own = np.array([k for k, other in enumerate(keys) if other == key])
        ends = np.array([z for k in own for z in (lines[k].start, lines[k].end)])
        for one, other in _partners(ends, tol).items():
            partner[int(2 * own[one // 2]) + one % 2] = int(2 * own[other // 2]) + other % 2
    rings: list[list[tuple[Line, bool]]] = []
    seen: set[int] = set()
    for first in range(len(lines)):
        if first in seen:
            continue
        way, at, tried = [(lines[first], False)], 2 * first + 1, {first}
        while True:
            if at not in partner:
                break
            other = partner[at]
            line = other // 2
            if line == first:
                if other == 2 * first and len(way) > 1:
                    rings.append(way)
                    seen |= tried
                break
            if line in tried:
                break
            tried.add(line)
            way.append((lines[line], other % 2 == 1))
            at = other ^ 1
    used = {line.number for way in rings for line, _ in way}
    return rings, [line for line in lines if line.number not in used]


def _partners(ends: Complexes, tol: float) -> dict[int, int]:
    """Which end meets which, where just two of them lie within tol of each other."""
    near: dict[int, list[int]] = {}
    order = np.argsort(ends.real, kind="stable")
    x = ends.real[order]
    stop = np.searchsorted(x, x + tol, side="right")
    for k, last in enumerate(stop.tolist()):
        i = int(order[k])
        for j in order[k + 1 : last].tolist():
            if abs(ends[i] - ends[j]) <= tol:
                near.setdefault(i, []).append(j)
                near.setdefault(j, []).append(i)
    return {
        i: js[0] for i, js in near.items() if len(js) == 1 and len(near[js[0]]) == 1 and js[0] // 2 != i // 2
    }
