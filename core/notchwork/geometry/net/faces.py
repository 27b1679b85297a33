"""The faces of a net: the areas its arcs enclose, and what several of them enclose together."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np

from notchwork.geometry.cubics import Complexes, Ints, points, reverse
from notchwork.geometry.measures import area
from notchwork.geometry.net.net import Net


@dataclass(frozen=True, slots=True, eq=False)
class Face:
    """A closed way round an area, counter-clockwise: its cubics (k, 4), the arc each comes from (k,), the area in mm².

    ``steps`` are the arcs in order, number 2 n for arc n walked as it is, 2 n + 1 walked backwards.
    """

    cubics: Complexes
    arcs: Ints
    area: float
    steps: tuple[int, ...]


def faces(net: Net) -> tuple[Face, ...]:
    """All faces of the net with an area inside, those beyond its outer rim left out.

    Arcs that end freely, or that have one face on both sides, bound nothing. A face that lies within another and touches
    it nowhere leaves no hole in it.
    """
    kept = _without_loose_ends(net, range(len(net.arcs)))
    while True:
        ways = _ways(net, kept)
        face_of = {step: number for number, way in enumerate(ways) for step in way}
        bridges = {arc for arc in kept if face_of[2 * arc] == face_of[2 * arc + 1]}
        if not bridges:
            break
        kept = _without_loose_ends(net, [arc for arc in kept if arc not in bridges])
    found = (_face(net, way) for way in ways)
    return tuple(face for face in found if face.area > 0.0)


def united(net: Net, some: Iterable[Face]) -> tuple[Face, ...]:
    """The rims of the area that several faces cover together; one that runs round a hole has an area below 0."""
    steps = {step for face in some for step in face.steps}
    rim = [step for step in steps if step ^ 1 not in steps]
    return tuple(_face(net, way) for way in _walked(net, sorted(rim)))


def _without_loose_ends(net: Net, arcs: Iterable[int]) -> list[int]:
    kept = set(arcs)
    at: dict[int, set[int]] = {}
    for arc in kept:
        for node in (net.arcs[arc].start, net.arcs[arc].end):
            at.setdefault(node, set()).add(arc)
    loose = [node for node, there in at.items() if _is_loose(net, node, there)]
    while loose:
        node = loose.pop()
        for arc in list(at[node]):
            kept.discard(arc)
            for end in (net.arcs[arc].start, net.arcs[arc].end):
                at[end].discard(arc)
                if _is_loose(net, end, at[end]):
                    loose.append(end)
    return sorted(kept)


def _is_loose(net: Net, node: int, arcs: set[int]) -> bool:
    return len(arcs) == 1 and any(net.arcs[arc].start != net.arcs[arc].end for arc in arcs)


def _ways(net: Net, arcs: Sequence[int]) -> list[tuple[int, ...]]:
    return _walked(net, [step for arc in arcs for step in (2 * arc, 2 * arc + 1)])


def _walked(net: Net, steps: Sequence[int]) -> list[tuple[int, ...]]:
    """Closed ways over all the steps: at each node on by the next one clockwise from the way back."""
    angle = dict(zip(steps, _angles(net, steps), strict=True))
    leaving: dict[int, list[int]] = {}
    for step in steps:
        leaving.setdefault(_tail(net, step), []).append(step)
    ways: list[tuple[int, ...]] = []
    left = set(steps)
    back = dict(zip(steps, _angles(net, [step ^ 1 for step in steps]), strict=True))
    for first in steps:
        if first not in left:
            continue
        way, step = [first], first
        left.discard(first)
        while True:
            home = back[step]
            options = leaving.get(_tail(net, step ^ 1), [])
            # Turning clockwise from the way back by least; the way back itself comes last.
            turns = {
                other: 2.0 * np.pi if other == step ^ 1 else (home - angle[other]) % (2.0 * np.pi)
                for other in options
                if other in left or other == first
            }
            if not turns:
                break
            step = min(turns, key=lambda other: turns[other])
            if step == first:
                break
            way.append(step)
            left.discard(step)
        ways.append(tuple(way))
    return ways


def _tail(net: Net, step: int) -> int:
    arc = net.arcs[step // 2]
    return arc.end if step % 2 else arc.start


def _angles(net: Net, steps: Sequence[int]) -> list[float]:
    """The direction (radians) in which each step leaves its node, seen a little way off."""
    found = []
    for step in steps:
        run = _run(net, step)
        reach = 0.02 if len(run) > 1 else 0.05
        near = points(run[:1], np.zeros(1, dtype=np.intp), np.array([reach]))[0]
        straight = run[0, 0] == run[0, 1] and run[0, 2] == run[0, 3]
        off = (run[0, 3] if straight else near) - run[0, 0]
        found.append(float(np.angle(off)))
    return found


def _run(net: Net, step: int) -> Complexes:
    cubics = net.arcs[step // 2].cubics
    return reverse(cubics) if step % 2 else cubics


def _face(net: Net, way: tuple[int, ...]) -> Face:
    runs = [_run(net, step) for step in way]
    cubics = np.concatenate(runs)
    arcs = np.repeat(np.array([step // 2 for step in way], dtype=np.intp), [len(run) for run in runs])
    return Face(cubics, arcs, area(cubics), way)
