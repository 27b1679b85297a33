"""The interior angle at every corner of every piece in every size, with darts beside the corner folded shut.

Two readings are taken, because either alone is fooled: by the exact tangents, which a stray short handle turns, and by a
cubic in arc length fitted to the first millimetres of the edge, which a tight curve bends.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from notchwork.geometry import (
    end_tangent_by_fit,
    end_tangents_by_fit,
    start_tangent_by_fit,
    start_tangents_by_fit,
    tangents,
)
from notchwork.geometry.fit import REACH
from notchwork.model import Node
from notchwork.sewing.pieces.graded import GradedPiece
from notchwork.sewing.pieces.grading import Complex
from notchwork.sewing.pieces.lines import Floats, Line
from notchwork.sewing.shapes.folding import edge_shut

if TYPE_CHECKING:
    from notchwork.sewing.nest import Nest

NO_LENGTH = 1e-6

Ends = dict[tuple[str, str], Complex]
"""Unit tangents (sizes, 2) of every edge: exact, and as measured."""


@dataclass(frozen=True, slots=True, eq=False)
class Interior:
    """The interior angle of one corner in degrees, (sizes,): by ``exact`` tangents and as ``measured``."""

    exact: Floats
    measured: Floats

    def __add__(self, other: Interior) -> Interior:
        return Interior(self.exact + other.exact, self.measured + other.measured)

    def nearer_to(self, wanted: float) -> Floats:
        """Of the two readings the one that is nearer to the angle wanted, in each size."""
        nearer = np.abs(self.measured - wanted) < np.abs(self.exact - wanted)
        return np.where(nearer, self.measured, self.exact)


def corner_angles(nest: Nest) -> Mapping[tuple[str, str], Interior]:
    """The interior angle at every corner, by (piece, name of the edge that begins there)."""
    leaving, arriving = _tangents(nest)
    found = {}
    for ident, graded in nest.pieces.items():
        if not graded.has_shape:
            continue
        for name in graded.edges:
            before = (ident, graded.lines[name].before)
            turn = leaving[ident, name] * np.conj(arriving[before])
            with np.errstate(invalid="ignore"):
                interior = np.where(turn == 0, np.nan, 180.0 - graded.sense * np.degrees(np.angle(turn)))
            found[ident, name] = Interior(interior[:, 0], interior[:, 1])
    return found


def corner_node(graded: GradedPiece, edge: str) -> Node | None:
    """The node at which an edge begins, as written; None on a strip."""
    drawings = [graded.written.outline, *(graded.written.outlines or {}).values()]
    return next((node for nodes in drawings if nodes for node in nodes if node.edge == edge), None)


def _tangents(nest: Nest) -> tuple[Ends, Ends]:
    """With what tangents each edge leaves its start, and with what it arrives at its end, in its own direction."""
    edges = [
        (graded, graded.lines[name])
        for graded in nest.pieces.values()
        if graded.has_shape
        for name in graded.edges
    ]
    leaving: Ends = {line.key: np.zeros((len(nest.sizes), 2), dtype=complex) for _, line in edges}
    arriving: Ends = {line.key: np.zeros((len(nest.sizes), 2), dtype=complex) for _, line in edges}
    slots = [
        (line, size, rows)
        for _, line in edges
        for size, rows in enumerate(line.rows or ())
        if rows.stop > rows.start
    ]
    if not slots:
        return leaving, arriving
    first, last = (np.array([slot[2].start for slot in slots]), np.array([slot[2].stop for slot in slots]))
    out, into = _at_ends(nest, first, last)
    for k, (line, size, _) in enumerate(slots):
        leaving[line.key][size], arriving[line.key][size] = out[k], into[k]
    for _, line in edges:
        _shut_beside(nest, line, leaving, arriving)
    return leaving, arriving


def _at_ends(nest: Nest, first: NDArray[np.intp], last: NDArray[np.intp]) -> tuple[Complex, Complex]:
    """Tangents (m, 2) at the start and at the end of the runs from row first[k] up to, not including, last[k]."""
    cubics = nest.cubics
    stands = nest.arc <= NO_LENGTH
    begin, end = first.copy(), last - 1
    for _ in range(4):  # a node that is repeated has no direction of its own
        begin += stands[begin] & (begin + 1 < last)
        end -= stands[end] & (end > first)
    out = tangents(cubics, begin, np.zeros(len(begin)))
    into = tangents(cubics, end, np.ones(len(end)))
    out_fit = start_tangents_by_fit(nest.arc_table, first, last)
    into_fit = end_tangents_by_fit(nest.arc_table, first, last)
    return np.stack([out, out_fit], axis=1), np.stack([into, into_fit], axis=1)


def _shut_beside(nest: Nest, line: Line, leaving: Ends, arriving: Ends) -> None:
    """Read anew the end of an edge beside which a dart or pleat has to be folded shut first."""
    for size in range(len(nest.sizes)):
        for at_start in _ends_with_intakes(line, size):
            run = edge_shut(nest, line, size, from_end=not at_start)
            if not len(run):
                continue
            if at_start:
                exact = tangents(run, np.array([0]), np.zeros(1))[0]
                leaving[line.key][size] = exact, start_tangent_by_fit(run)
            else:
                exact = tangents(run, np.array([len(run) - 1]), np.ones(1))[0]
                arriving[line.key][size] = exact, end_tangent_by_fit(run)


def _ends_with_intakes(line: Line, size: int) -> Iterator[bool]:
    """True for a start and False for an end beside which something is folded away."""
    if any(intake.low[size] < REACH for intake in line.intakes):
        yield True
    if any(intake.high[size] > line.length[size] - REACH for intake in line.intakes):
        yield False
