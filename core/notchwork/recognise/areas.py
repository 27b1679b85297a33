"""What lines enclose: closed lines, open ones put end to end, and faces between lines that end on each other."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from notchwork.drawing import Look
from notchwork.geometry import (
    Face,
    Gap,
    Net,
    area,
    bounds,
    faces,
    flatten,
    inside,
    lengths,
    net,
    to_chords,
    united,
)
from notchwork.recognise.contours import contour, counter_clockwise
from notchwork.recognise.placed import FINE, Line, boxes_apart
from notchwork.recognise.rings import joined
from notchwork.recognise.shape import Complexes, Contour, Ints
from notchwork.recognise.widths import samples

Bools = NDArray[np.bool_]
Key = tuple[str, ...]

MOSTLY = 0.6
"""The share of a face's rim that belongs to one layer, for the face to be a part of what that layer draws."""
SMALL = 12.0
"""mm: what is no larger either way is a mark and no piece. Common practice, no source."""
TICK = 40.0
"""mm: a longer stroke along another is no notch. Common practice, no source."""
LONGER = 3.0
"""The other is at least so many times as long."""
SLIVER = 2.0
"""A face thinner than so many tolerances is none."""


@dataclass(frozen=True, eq=False)
class Area:
    """An area with its rim, counter-clockwise: the cubics (k, 4), the stroke of each, the lines it is made of and what holds it.

    ``parts`` are the faces between open strokes of which it was put together, ``seams`` all lines between parts.
    """

    cubics: Complexes
    sources: Ints
    lines: frozenset[int]
    within: Key
    look: Look | None
    names: tuple[str, ...] = ()
    parts: tuple[Area, ...] = ()
    seams: tuple[Complexes, ...] = ()

    @cached_property
    def size(self) -> float:
        """mm² it covers."""
        return abs(area(self.cubics))

    @cached_property
    def around(self) -> float:
        """mm round it."""
        return float(lengths(self.cubics).sum())

    @cached_property
    def box(self) -> tuple[complex, complex]:
        return bounds(self.cubics)

    @cached_property
    def polyline(self) -> Complexes:
        return flatten(self.cubics, FINE).points[:-1]

    @cached_property
    def contour(self) -> Contour:
        return contour(self.cubics, self.sources)

    @cached_property
    def edges(self) -> tuple[tuple[Complexes, float], ...]:
        """Each edge with its length (mm)."""
        edges = [self.contour.edge(k) for k in range(len(self.contour.corners))]
        return tuple((edge, float(lengths(edge).sum())) for edge in edges)

    @property
    def filling(self) -> str | None:
        return None if self.look is None else self.look.filling

    def holds(self, z: Complexes) -> Bools:
        """Which points (m,) lie inside."""
        return inside(self.polyline, z)


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
    marks = tuple(line for line in lines if line.closed and max(line.size.real, line.size.imag) <= SMALL)
    closed = [line for line in lines if line.closed and line not in marks]
    areas = [_of([(line, False)]) for line in closed]
    ticks = ticks_on(lines, tol)
    left = [line for line in lines if not line.closed and line not in ticks]
    gaps: list[tuple[complex, float]] = []
    # Pens of different colours are as good as layers to tell what goes on where several lines meet.
    rings, left = _rings(left, lambda line: (*line.within, str(line.look and line.look.line)), tol)
    more_rings, left = _rings(left, lambda line: line.within, tol)
    rings += more_rings
    for way in rings:
        found = joined(way)
        gaps.append((found.gap_at, found.gap))
        areas.append(_of(way))
    more, waste, meshed, used = _faces(
        areas, [*closed, *(line for way in rings for line, _ in way)], left, tol
    )
    gaps += [(gap.at, gap.width) for gap in meshed]
    loose = tuple(line for line in [*left, *ticks] if line.number not in used)
    return Enclosed((*areas, *more), marks, loose, tuple(gaps), waste)


def ticks_on(lines: Sequence[Line], tol: float) -> list[Line]:
    """Short open lines that lie along a longer one all the way: notches, not a part of it drawn twice."""
    found: list[Line] = []
    for line in lines:
        if line.closed or line.length > TICK:
            continue
        z = np.concatenate([samples(line.cubics), [line.start, line.end]])
        for other in lines:
            if other.length >= LONGER * line.length and boxes_apart(other.box, line.box) <= tol:
                ring = other.polyline
                if bool((to_chords(z, ring[:-1], ring[1:]).min(axis=1) <= tol).all()):
                    found.append(line)
                    break
    return found


def _is_small(face: Face) -> bool:
    """Whether a face is the inside of a nick: as a part of the rim it says more than as an area."""
    low, high = bounds(face.cubics)
    return max((high - low).real, (high - low).imag) <= SMALL


def _of(way: Sequence[tuple[Line, bool]]) -> Area:
    found = joined(way) if len(way) > 1 else None
    line = way[0][0]
    cubics = line.cubics if found is None else found.cubics
    sources = np.full(len(cubics), line.number, dtype=np.intp) if found is None else found.sources
    cubics, sources = counter_clockwise(cubics, sources)
    names = tuple(str(one.stroke.facts["name"]) for one, _ in way if "name" in one.stroke.facts)
    return Area(
        cubics,
        np.asarray(sources),
        frozenset(one.number for one, _ in way),
        line.within,
        line.look,
        names,
    )


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


def _faces(
    areas: Sequence[Area], rims: Sequence[Line], open_: Sequence[Line], tol: float
) -> tuple[list[Area], tuple[Area, ...], list[Gap], set[int]]:
    """Faces with an open line on their rim and outside every closed one, put together by what holds their lines."""
    open_ = [line for line in open_ if not _lies_in(line, areas)]
    if not open_:
        return [], (), [], set()
    lines = [*open_, *(rim for rim in rims if any(boxes_apart(rim.box, line.box) <= tol for line in open_))]
    made = net([line.cubics for line in lines], [line.closed for line in lines], tol)
    opened = len(open_)
    found = [
        face
        for face in faces(made)
        if any(k < opened for arc in set(face.arcs.tolist()) for k in made.arcs[arc].lines)
        and face.area > SLIVER * tol * float(lengths(face.cubics).sum()) / 2
        and not _is_small(face)
        and not _lies_in_any(point_in(face), areas)
    ]
    keyed: dict[Key, list[Face]] = {}
    waste: list[Area] = []
    for face in found:
        key, share = _belongs(face, made, lines)
        if share < MOSTLY:
            waste.append(_of_faces(made, [face], lines, key))
        else:
            keyed.setdefault(key, []).append(face)
    result: list[Area] = []
    used: set[int] = set()
    for key, some in keyed.items():
        for group in _abutting(some, made, lines, key):
            result.append(_of_faces(made, group, lines, key))
            used |= {
                lines[k].number
                for face in group
                for arc in set(face.arcs.tolist())
                for k in made.arcs[arc].lines
            }
    return result, tuple(waste), list(made.gaps), used


def _lies_in(line: Line, areas: Sequence[Area]) -> bool:
    """Whether a line lies in one area from end to end: it is drawn on that, and encloses nothing with its rim."""
    z = samples(line.cubics)
    z = np.concatenate([z, [line.start * 0.98 + 0.02 * z[0], line.end * 0.98 + 0.02 * z[-1]]])
    return any(boxes_apart(area.box, line.box) == 0.0 and bool(area.holds(z).all()) for area in areas)


def _lies_in_any(z: complex, areas: Sequence[Area]) -> bool:
    return any(boxes_apart(area.box, (z, z)) == 0.0 and bool(area.holds(np.array([z]))[0]) for area in areas)


def _belongs(face: Face, made: Net, lines: Sequence[Line]) -> tuple[Key, float]:
    """What holds most of a face's rim, and the share of it."""
    count: Counter[Key] = Counter()
    total = 0.0
    for arc in set(face.arcs.tolist()):
        length = float(lengths(made.arcs[arc].cubics).sum())
        total += length
        for key in {lines[k].within for k in made.arcs[arc].lines}:
            count[key] += length  # type: ignore[assignment]
    key, most = max(count.items(), key=lambda item: item[1])
    return key, most / total if total else 0.0


def _abutting(some: Sequence[Face], made: Net, lines: Sequence[Line], key: Key) -> list[list[Face]]:
    """The faces in groups that share an arc of their own layer."""
    by_arc: dict[int, list[int]] = {}
    for number, face in enumerate(some):
        for arc in set(face.arcs.tolist()):
            if any(lines[k].within == key for k in made.arcs[arc].lines):
                by_arc.setdefault(arc, []).append(number)
    parent = list(range(len(some)))

    def root(k: int) -> int:
        while parent[k] != k:
            parent[k] = parent[parent[k]]
            k = parent[k]
        return k

    for shared in by_arc.values():
        for other in shared[1:]:
            parent[root(other)] = root(shared[0])
    groups: dict[int, list[Face]] = {}
    for k, face in enumerate(some):
        groups.setdefault(root(k), []).append(face)
    return list(groups.values())


def _of_faces(made: Net, group: Sequence[Face], lines: Sequence[Line], key: Key) -> Area:
    rim = max(united(made, group), key=lambda face: face.area)
    parts = tuple(_of_faces(made, [face], lines, key) for face in group) if len(group) > 1 else ()
    return area_of_face(made, rim, lines, key, parts, _between(made, group))


def _between(made: Net, group: Sequence[Face]) -> tuple[Complexes, ...]:
    """The arcs that two faces of a group share."""
    steps = {step for face in group for step in face.steps}
    return tuple(made.arcs[step // 2].cubics for step in sorted(steps) if step % 2 == 0 and step ^ 1 in steps)


def area_of_face(
    made: Net,
    rim: Face,
    lines: Sequence[Line],
    key: Key,
    parts: tuple[Area, ...] = (),
    seams: tuple[Complexes, ...] = (),
) -> Area:
    """A rim of a net as an area; its lines are those of the net, by their place in the list."""
    owners = [_first_of(made.arcs[arc].lines, lines, key) for arc in rim.arcs.tolist()]
    sources = np.array([line.number for line in owners], dtype=np.intp)
    look = Counter(line.look for line in owners).most_common(1)[0][0]
    names = tuple(
        dict.fromkeys(str(line.stroke.facts["name"]) for line in owners if "name" in line.stroke.facts)
    )
    return Area(rim.cubics, sources, frozenset(sources.tolist()), key, look, names, parts, seams)


def _first_of(numbers: Iterable[int], lines: Sequence[Line], key: Key) -> Line:
    own = [lines[k] for k in numbers if lines[k].within == key]
    return own[0] if own else lines[min(numbers)]


def point_in(face: Face) -> complex:
    """A point inside a face, a little way off one of its longer rows."""
    ring = flatten(face.cubics, FINE).points[:-1]
    chord = np.roll(ring, -1) - ring
    for k in np.argsort(-np.abs(chord))[:6].tolist():
        for share in (0.1, 0.01, 0.001):
            z = ring[k] + chord[k] * (0.5 + 1j * share)
            if inside(ring, np.array([z]))[0]:
                return complex(z)
    return complex(ring.mean())
