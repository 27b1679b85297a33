"""Whose the points of a cut line are that its raw line could not tell: found by measuring."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from notchwork.geometry.cubics import Bools, Complexes, Floats, Ints
from notchwork.geometry.offset.union import UNKNOWN, Cut


def settle(
    cut: Cut,
    lines: Ints,
    stitches: Complexes,
    edge: Ints,
    first: Ints,
    tight: Ints,
    widths: Floats,
    tol: float,
) -> None:
    """Settle, in place, the edges of cut lines by measuring where it is needed.

    stitches (m,) are points of all stitch lines, edge the edge of each; cut line k belongs to the one numbered lines[k],
    which begins at first[lines[k]]. tight are the edges that somewhere bend tighter than their width, widths (mm) are by the edge's number.
    """
    last = np.append(first[1:], len(edge)) - 1
    owned = np.bincount(cut.edge[cut.edge >= 0], minlength=len(widths)) > 0
    for begin, size, start, end in zip(cut.first, cut.size, first[lines], last[lines], strict=True):
        here = slice(begin, begin + size)
        edges, crossing = cut.edge[here], cut.crossing[here]
        needed = crossing & (edges == UNKNOWN)
        if tight.size:
            needed |= np.isin(edges, tight)
        if not owned[edge[start:end]].all():
            needed |= crossing
        if needed.any():
            chords = Stitches.along(stitches[start : end + 1], edge[start:end])
            edges[:] = _measured(cut.points[here], edges, needed, crossing, chords, widths, tol)


class Stitches(NamedTuple):
    """The chords of a stitch line in walking order, with the edge of each."""

    start: Complexes
    end: Complexes
    edge: Ints

    @classmethod
    def along(cls, points: Complexes, edge: Ints) -> Stitches:
        """The chords from each point to the next, with their edges; what has no length is left out."""
        apart = points[:-1] != points[1:]
        return cls(points[:-1][apart], points[1:][apart], edge[apart])

    def distances(self, points: Complexes) -> tuple[Ints, Floats]:
        """The edges (e,) there are, and the distance (m, e) in mm of each point from each of them."""
        first = np.flatnonzero(np.append(True, self.edge[1:] != self.edge[:-1]))
        chord = self.end - self.start
        offset = points[:, None] - self.start
        along = np.clip((offset * chord.conj()).real / np.abs(chord) ** 2, 0.0, 1.0)
        return self.edge[first], np.minimum.reduceat(np.abs(offset - along * chord), first, axis=1)


def _measured(
    points: Complexes,
    edges: Ints,
    needed: Bools,
    crossing: Bools,
    stitches: Stitches,
    widths: Floats,
    tol: float,
) -> Ints:
    """The edges (m,) of the points of one cut line, those needed settled by measuring.

    An UNKNOWN point belongs to the edge from which it is as far as its allowance (widths, by the edge's number), if any.
    Other points keep their edge only if they are at its allowance. Among crossings, an edge that has no point at all may
    claim one that lies at its allowance too.
    """
    edges = edges.copy()
    which = np.flatnonzero(needed)
    names, far = stitches.distances(points[which])
    off = np.abs(far - widths[names])
    # The strips of a tight curve may reach past the perpendicular at its end: there they are the corner's.
    column = np.minimum(np.searchsorted(names, edges[which]), len(names) - 1)
    strays = off[np.arange(len(which)), column] > tol
    lost = (edges[which] == UNKNOWN) | ((edges[which] >= 0) & strays)
    edges[which[lost]] = np.where(off.min(axis=1) <= tol, names[off.argmin(axis=1)], -1)[lost]
    for name, apart in zip(names, off.T, strict=True):
        if (edges == name).any():
            continue
        claims = which[(apart <= tol) & crossing[which]]
        spare = [point for point in claims if edges[point] < 0 or (edges == edges[point]).sum() > 1]
        edges[spare[:1]] = name
    return edges
