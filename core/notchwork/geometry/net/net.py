"""Lines cut at every place where they touch or cross: nodes, and arcs between them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import NamedTuple

import numpy as np

from notchwork.geometry.cubics import Bools, Complexes, Floats, Ints, parts, points, runs_straight
from notchwork.geometry.grid import near_boxes
from notchwork.geometry.groups import groups
from notchwork.geometry.measures import flatten
from notchwork.geometry.nearest import AT_ONCE, to_chords
from notchwork.geometry.net.lines import STRAIGHT, Lines
from notchwork.geometry.net.meets import MOST_PAIRS, crossings, touches


class Gap(NamedTuple):
    """A node at which ends were brought together: where it is, and how far (mm) they were apart."""

    at: complex
    width: float


@dataclass(frozen=True, slots=True, eq=False)
class Arc:
    """A stretch of line between two nodes: its cubics (k, 4), the nodes' numbers, and the lines it is part of.

    Several lines are named where they run along each other from node to node; the cubics are the first one's.
    """

    cubics: Complexes
    start: int
    end: int
    lines: tuple[int, ...]


@dataclass(frozen=True, slots=True, eq=False)
class Net:
    """Nodes (n,), the arcs between them, and the gaps that were closed."""

    nodes: Complexes
    arcs: tuple[Arc, ...]
    gaps: tuple[Gap, ...]


def net(lines: Sequence[Complexes], closed: Sequence[bool], tol: float) -> Net:
    """Cut lines (each a run of cubics (k, 4)) wherever they meet within tol (mm).

    Ends within tol of each other or of another line become one node; so do corners that lie on another line, and
    crossings. Nothing is moved by more than about tol; arcs that would be no longer than that fall away. Lines that run
    along each other between the same two nodes become one arc. Raises TooManyPairs where too many lie on one another.
    """
    used = [k for k, line in enumerate(lines) if len(line)]
    if not used:
        return Net(np.zeros(0, dtype=np.complex128), (), ())
    whole = Lines([lines[k] for k in used], [closed[k] for k in used])
    rows, t, node, nodes, gaps = _nodes(whole, tol)
    arcs = [
        Arc(cubics, start, end, (used[line],))
        for cubics, start, end, line in _arcs(whole, rows, t, node, nodes, tol)
    ]
    return Net(nodes, tuple(_merged(arcs, tol)), tuple(gaps))


def _nodes(lines: Lines, tol: float) -> tuple[Ints, Floats, Ints, Complexes, list[Gap]]:
    """Places on the lines (row, t), the node each belongs to, the nodes, and the gaps closed there."""
    anchor_rows, anchor_t, is_end = lines.anchors()
    at_anchors = touches(lines, anchor_rows, anchor_t, tol)
    crossed = crossings(lines, tol)
    count, beyond = len(anchor_rows), len(anchor_rows) + len(at_anchors.rows)
    rows = np.concatenate([anchor_rows, at_anchors.rows, crossed.rows])
    t = np.concatenate([anchor_t, at_anchors.t, crossed.t])
    z = points(lines.cubics, rows, t)
    near = near_boxes(z, z, tol, MOST_PAIRS)
    close = np.abs(z[near[0]] - z[near[1]]) <= tol
    one = np.concatenate([at_anchors.same[0], crossed.same[0] + beyond, near[0][close]])
    other = np.concatenate([at_anchors.same[1] + count, crossed.same[1] + beyond, near[1][close]])
    group = np.empty(len(rows), dtype=np.intp)
    for number, members in enumerate(groups(len(rows), zip(one.tolist(), other.tolist(), strict=True))):
        group[members] = number
    # A corner that nothing meets is no node; an end always is one, and a line without any needs one to start from.
    size = np.bincount(group)
    counts = (size[group] > 1) | (np.arange(len(rows)) < count) & _padded(is_end, len(rows))
    has_one = np.zeros(len(lines.first), dtype=bool)
    has_one[lines.of[rows[counts]]] = True
    lonely = np.flatnonzero(~has_one)
    rows = np.concatenate([rows[counts], lines.first[lonely]])
    t = np.concatenate([t[counts], np.zeros(len(lonely))])
    z = np.concatenate([z[counts], lines.cubics[lines.first[lonely], 0]])
    anchored = np.concatenate([(np.arange(len(counts)) < count)[counts], np.ones(len(lonely), dtype=bool)])
    ends = np.concatenate([_padded(is_end, len(counts))[counts], np.zeros(len(lonely), dtype=bool)])
    group = np.concatenate([group[counts], len(size) + np.arange(len(lonely))])
    _, node = np.unique(group, return_inverse=True)
    nodes, gaps = _settled(z, node, anchored, ends)
    return rows, t, node.astype(np.intp), nodes, gaps


def _padded(flags: Bools, size: int) -> Bools:
    return np.concatenate([flags, np.zeros(size - len(flags), dtype=bool)])


def _settled(z: Complexes, node: Ints, anchored: Bools, ends: Bools) -> tuple[Complexes, list[Gap]]:
    """Where each node lies: on the end or corner nearest to the middle of its ends and corners, else in their middle."""
    order = np.argsort(node, kind="stable")
    starts = np.append(np.flatnonzero(np.diff(node[order], prepend=-1)), len(order))
    nodes = np.empty(len(starts) - 1, dtype=np.complex128)
    gaps: list[Gap] = []
    for k, (a, b) in enumerate(zip(starts[:-1].tolist(), starts[1:].tolist(), strict=True)):
        here = order[a:b]
        firm = here[anchored[here]]
        spots = z[firm] if len(firm) else z[here]
        nodes[k] = spots[np.abs(spots - spots.mean()).argmin()] if len(firm) else spots.mean()
        if ends[here].any():
            far = float(np.abs(z[here][:, None] - z[here][None, :]).max()) if b - a < 100 else 0.0
            gaps.append(Gap(complex(nodes[k]), far))
    return nodes, gaps


def _arcs(
    lines: Lines, rows: Ints, t: Floats, node: Ints, nodes: Complexes, tol: float
) -> Iterator[tuple[Complexes, int, int, int]]:
    """The stretches of every line from node to node, their ends on the nodes."""
    along = lines.along(rows, t)
    order = np.lexsort((along, lines.of[rows]))
    starts = np.searchsorted(lines.of[rows[order]], np.arange(len(lines.first) + 1))
    for line in range(len(lines.first)):
        here = order[starts[line] : starts[line + 1]]
        cuts = [(float(along[k]), int(rows[k]), float(t[k]), int(node[k])) for k in here.tolist()]
        length = float(lines.lengths[line])
        if lines.closed[line]:
            first = cuts[0]
            cuts.append((first[0] + length, first[1], first[2], first[3]))
        for before, after in pairwise(cuts):
            if after[0] - before[0] <= 1e-9 or (before[3] == after[3] and after[0] - before[0] <= 4.0 * tol):
                continue
            cubics = _stretch(
                lines, line, before[1:3], after[1:3], after is cuts[-1] and bool(lines.closed[line])
            )
            if len(cubics):
                yield (
                    _moved(cubics, complex(nodes[before[3]]), complex(nodes[after[3]])),
                    before[3],
                    after[3],
                    line,
                )


def _stretch(
    lines: Lines, line: int, start: tuple[int, float], end: tuple[int, float], over: bool
) -> Complexes:
    """The cubics of a line from one place to another, over its closing joint if it goes that far."""
    first, stop = int(lines.first[line]), int(lines.stop[line])
    if over:
        rows = [*range(start[0], stop), *range(first, end[0] + 1)]
    else:
        rows = list(range(start[0], end[0] + 1))
    t0, t1 = np.zeros(len(rows)), np.ones(len(rows))
    t0[0], t1[-1] = start[1], end[1]
    index = np.array(rows, dtype=np.intp)
    keep = t1 - t0 > 1e-9
    index, t0, t1 = index[keep], t0[keep], t1[keep]
    cubics = parts(lines.cubics, index, t0, t1)
    straight = lines.straight[index]
    cubics[straight, 1], cubics[straight, 2] = cubics[straight, 0], cubics[straight, 3]
    return cubics


def _moved(cubics: Complexes, start: complex, end: complex) -> Complexes:
    """The same cubics with their ends brought to two nodes, handles along with them."""
    moved = cubics.copy()
    moved[0, :2] += start - cubics[0, 0]
    moved[-1, 2:] += end - cubics[-1, 3]
    moved[0, 0], moved[-1, 3] = start, end
    if len(cubics) == 1 and cubics[0, 0] == cubics[0, 1] and cubics[0, 2] == cubics[0, 3]:
        moved[0, 1], moved[0, 2] = start, end
    return moved


def _merged(arcs: Sequence[Arc], tol: float) -> Iterator[Arc]:
    """The arcs, those that run along each other between the same nodes as one."""
    alike: dict[tuple[int, int], list[Arc]] = {}
    for arc in arcs:
        others = alike.setdefault((min(arc.start, arc.end), max(arc.start, arc.end)), [])
        for k, other in enumerate(others):
            if _together(arc.cubics, other.cubics, tol):
                lines = tuple(dict.fromkeys((*other.lines, *arc.lines)))
                others[k] = Arc(other.cubics, other.start, other.end, lines)
                break
        else:
            others.append(arc)
    for group in alike.values():
        yield from group


def _together(a: Complexes, b: Complexes, tol: float) -> bool:
    """Whether two runs between the same ends stay within tol of each other."""
    if len(a) == 1 and len(b) == 1 and runs_straight(np.concatenate([a, b]), STRAIGHT).all():
        return True
    one, other = flatten(a, tol / 8.0).points, flatten(b, tol / 8.0).points
    return _beside(one, other, tol) and _beside(other, one, tol)


def _beside(z: Complexes, polyline: Complexes, tol: float) -> bool:
    """Whether every point lies within tol of a polyline."""
    step = max(1, AT_ONCE // max(1, len(polyline)))
    return all(
        bool((to_chords(z[k : k + step], polyline[:-1], polyline[1:]).min(axis=1) <= tol).all())
        for k in range(0, len(z), step)
    )
