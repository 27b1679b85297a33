"""Faces between lines that end on or cross each other, put together by the layer that draws them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterable, Sequence

import numpy as np

from notchwork.geometry import Face, Gap, Net, bounds, faces, groups, lengths, net, united
from notchwork.recognise.areas import Area, Key, point_in
from notchwork.recognise.placed import Line, boxes_apart
from notchwork.recognise.shape import Complexes
from notchwork.recognise.widths import samples

MOSTLY = 0.6
"""The share of a face's rim that belongs to one layer, for the face to be a part of what that layer draws."""
SMALL = 12.0
"""mm: what is no larger either way is a mark and no piece. Common practice, no source."""
SLIVER = 2.0
"""A face thinner than so many tolerances is none."""


def faces_between(
    areas: Sequence[Area], rims: Sequence[Line], frames: Sequence[Line], open_: Sequence[Line], tol: float
) -> tuple[list[Area], tuple[Area, ...], list[Gap], set[int]]:
    """Faces with an open line on their rim and outside every closed one, put together by what holds their lines."""
    open_ = [line for line in open_ if not _lies_in(line, areas)]
    if not open_:
        return [], (), [], set()
    lines = [
        *open_,
        *(rim for rim in (*rims, *frames) if any(boxes_apart(rim.box, line.box) <= tol for line in open_)),
    ]
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
    around = {frame.number for frame in frames}
    keyed: dict[Key, list[Face]] = {}
    waste: list[Area] = []
    for face in found:
        key, share = _belongs(face, made, lines, around)
        if share < MOSTLY and _is_framed(face, made, lines, around):
            continue  # The rest of the sheet.
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


def _is_small(face: Face) -> bool:
    """Whether a face is the inside of a nick: as a part of the rim it says more than as an area."""
    low, high = bounds(face.cubics)
    return max((high - low).real, (high - low).imag) <= SMALL


def _lies_in(line: Line, areas: Sequence[Area]) -> bool:
    """Whether a line lies in one area from end to end: it is drawn on that, and encloses nothing with its rim."""
    z = samples(line.cubics)
    z = np.concatenate([z, [line.start * 0.98 + 0.02 * z[0], line.end * 0.98 + 0.02 * z[-1]]])
    return any(boxes_apart(area.box, line.box) == 0.0 and bool(area.holds(z).all()) for area in areas)


def _lies_in_any(z: complex, areas: Sequence[Area]) -> bool:
    return any(boxes_apart(area.box, (z, z)) == 0.0 and bool(area.holds(np.array([z]))[0]) for area in areas)


def _belongs(face: Face, made: Net, lines: Sequence[Line], frames: Collection[int]) -> tuple[Key, float]:
    """What holds most of a face's rim, and the share of it; a frame's line is nobody's."""
    count: Counter[Key] = Counter()
    total = 0.0
    for arc in set(face.arcs.tolist()):
        length = float(lengths(made.arcs[arc].cubics).sum())
        total += length
        for key in {lines[k].within for k in made.arcs[arc].lines if lines[k].number not in frames}:
            count[key] += length  # type: ignore[assignment]  # a Counter of lengths
    key, most = max(count.items(), key=lambda item: item[1])
    return key, most / total if total else 0.0


def _is_framed(face: Face, made: Net, lines: Sequence[Line], frames: Collection[int]) -> bool:
    return any(lines[k].number in frames for arc in set(face.arcs.tolist()) for k in made.arcs[arc].lines)


def _abutting(some: Sequence[Face], made: Net, lines: Sequence[Line], key: Key) -> list[list[Face]]:
    """The faces in groups that share an arc of their own layer."""
    by_arc: dict[int, list[int]] = {}
    for number, face in enumerate(some):
        for arc in set(face.arcs.tolist()):
            if any(lines[k].within == key for k in made.arcs[arc].lines):
                by_arc.setdefault(arc, []).append(number)
    pairs = [(shared[0], other) for shared in by_arc.values() for other in shared[1:]]
    return [[some[k] for k in group] for group in groups(len(some), pairs)]


def _of_faces(made: Net, group: Sequence[Face], lines: Sequence[Line], key: Key) -> Area:
    rim = max(united(made, group), key=lambda face: face.area)
    parts = tuple(_of_faces(made, [face], lines, key) for face in group) if len(group) > 1 else ()
    return _area_of_face(made, rim, lines, key, parts, _between(made, group))


def _between(made: Net, group: Sequence[Face]) -> tuple[Complexes, ...]:
    """The arcs that two faces of a group share."""
    steps = {step for face in group for step in face.steps}
    return tuple(made.arcs[step // 2].cubics for step in sorted(steps) if step % 2 == 0 and step ^ 1 in steps)


def _area_of_face(
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
