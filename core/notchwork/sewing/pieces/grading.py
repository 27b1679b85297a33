"""The grading law: from nodes drawn in the base size to cubics in every size.

A corner without a rule stays; a node inside an edge follows the turn-and-scale that carries its neighbours; a handle at a
corner turns with the straight segment on the other side, its length scaling with its segment's chord; a straight segment
stays straight. So the angle between a straight edge and a curve that meets it is the same in every size.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from notchwork.model import Node, Point

Complex = NDArray[np.complex128]
Shifts = Mapping[str, Complex]
"""Each grade rule's shift from the base size, one complex number (mm) a size."""

STRAIGHT = 0.001
"""mm: a segment whose handles lie on its chord this nearly is straight."""


class _Nodes(NamedTuple):
    """The nodes of one line as arrays of shape (n,), missing handles filled with the node itself."""

    at: Complex
    into: Complex
    out: Complex

    @classmethod
    def of(cls, nodes: Sequence[Node]) -> _Nodes:
        return cls(
            np.array([n.at for n in nodes], dtype=complex),
            np.array([n.at if n.into is None else n.into for n in nodes], dtype=complex),
            np.array([n.at if n.out is None else n.out for n in nodes], dtype=complex),
        )


def shifts_by_size(
    rules: Mapping[str, Mapping[str, Point]], sizes: Sequence[str | None]
) -> dict[str, Complex]:
    """Each rule's shift (mm) in every size; the base size, which a rule does not name, shifts by nothing."""
    return {
        name: np.array([rule.get(size, 0j) if size is not None else 0j for size in sizes], dtype=complex)
        for name, rule in rules.items()
    }


def grade_point(at: complex, rule: str | None, shifts: Shifts, count: int) -> Complex:
    """A point outside any outline in every size, shape (sizes,): moved by its rule, or where it is."""
    moved = np.full(count, at, dtype=complex)
    return moved + shifts[rule] if rule is not None else moved


def cubics_of(nodes: Sequence[Node], closed: bool) -> Complex:
    """The cubics of one line as drawn, shape (segments, 4)."""
    n = _Nodes.of(nodes)
    after = np.roll(np.arange(len(nodes)), -1)
    rows = np.stack([n.at, n.out, n.into[after], n.at[after]], axis=-1)
    return rows if closed else rows[:-1]


def grade_line(nodes: Sequence[Node], closed: bool, shifts: Shifts, count: int) -> Complex:
    """The cubics of one line in every size, shape (sizes, segments, 4).

    ``closed``: an outline or another ring; its corners are the nodes that begin an edge. The ends of an open line count
    as corners. Source: the format's own law, README of the schema, "sizes".
    """
    base = cubics_of(nodes, closed)
    if not any(node.grade for node in nodes):
        return np.broadcast_to(base, (count, *base.shape)).copy()
    n = len(nodes)
    drawn = _Nodes.of(nodes)
    anchors = [
        k for k, node in enumerate(nodes) if node.edge or node.grade or (not closed and k in (0, n - 1))
    ]
    at = np.stack(
        [grade_point(node.at, node.grade, shifts, count) for node in nodes],
        axis=-1,
    )
    turn = np.ones((count, n), dtype=complex)
    for k in range(n):
        if k not in anchors:
            before, after = _anchors_around(k, anchors)
            at[:, k], turn[:, k] = _carried(drawn.at, at, k, before, after)
    return _with_handles(drawn, at, turn, frozenset(anchors), closed)


def _anchors_around(k: int, anchors: Sequence[int]) -> tuple[int, int]:
    """The nearest anchors before and after node k, round the ring."""
    before = [a for a in anchors if a < k]
    after = [a for a in anchors if a > k]
    return (before or list(anchors))[-1], (after or list(anchors))[0]


def _carried(drawn: Complex, at: Complex, k: int, before: int, after: int) -> tuple[Complex, Complex]:
    """Where the turn-and-scale of two anchors carries node k, and by which factor it turns and scales its handles."""
    chord = drawn[after] - drawn[before]
    if chord == 0:
        return drawn[k] + at[:, before] - drawn[before], np.ones(len(at), dtype=complex)
    factor = (at[:, after] - at[:, before]) / chord
    return at[:, before] + factor * (drawn[k] - drawn[before]), factor


def _with_handles(
    drawn: _Nodes, at: Complex, turn: Complex, anchors: frozenset[int], closed: bool
) -> Complex:
    """Put the handles back on the graded nodes."""
    n = at.shape[1]
    segments = [(k, (k + 1) % n) for k in range(n if closed else n - 1)]
    straight = {k: _is_straight(drawn, k, m) for k, m in segments}
    rows = np.empty((len(at), len(segments), 4), dtype=complex)
    for row, (k, m) in enumerate(segments):
        chord, graded = drawn.at[m] - drawn.at[k], at[:, m] - at[:, k]
        rows[:, row, 0], rows[:, row, 3] = at[:, k], at[:, m]
        if straight[k]:
            along = graded / chord if chord != 0 else np.zeros(len(at))
            rows[:, row, 1] = at[:, k] + (drawn.out[k] - drawn.at[k]) * along
            rows[:, row, 2] = at[:, m] + (drawn.into[m] - drawn.at[m]) * along
            continue
        scale = np.abs(graded) / abs(chord) if chord != 0 else np.ones(len(at))
        out_turn, in_turn = turn[:, k], turn[:, m]
        if k in anchors:
            out_turn = scale * _turn_of_straight(drawn, at, (k - 1) % n, k, straight, closed or k > 0)
        if m in anchors:
            in_turn = scale * _turn_of_straight(drawn, at, m, (m + 1) % n, straight, closed or m < n - 1)
        rows[:, row, 1] = at[:, k] + (drawn.out[k] - drawn.at[k]) * out_turn
        rows[:, row, 2] = at[:, m] + (drawn.into[m] - drawn.at[m]) * in_turn
    return rows


def _is_straight(drawn: _Nodes, k: int, m: int) -> bool:
    a, b = drawn.at[k], drawn.at[m]
    chord = abs(b - a)
    for handle in (drawn.out[k], drawn.into[m]):
        if chord == 0:
            if abs(handle - a) > STRAIGHT:
                return False
            continue
        across = ((handle - a) * np.conj(b - a) / chord).imag
        along = ((handle - a) * np.conj(b - a) / chord).real
        if abs(across) > STRAIGHT or not -STRAIGHT <= along <= chord + STRAIGHT:
            return False
    return True


def _turn_of_straight(
    drawn: _Nodes, at: Complex, k: int, m: int, straight: Mapping[int, bool], there: bool
) -> Complex:
    """By what unit factor the segment from node k to m turns in each size; 1 where it is no straight segment."""
    chord, graded = drawn.at[m] - drawn.at[k], at[:, m] - at[:, k]
    if not there or not straight.get(k, False) or chord == 0 or np.any(graded == 0):
        return np.ones(len(at), dtype=complex)
    factor = graded / chord
    return np.asarray(factor / np.abs(factor))
