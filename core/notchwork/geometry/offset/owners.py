"""Which edge each point of a finished cut line belongs to."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from notchwork.geometry.cubics import Bools, Complexes, Floats, Ints

UNKNOWN = -2


def first_of_equals(points: Complexes, following: Ints, rank: Ints) -> Ints:
    """For each point (m,) of closed lines its own number, or that of a neighbour at the same place with a lower rank."""
    best = np.arange(len(points))
    equal = np.flatnonzero(points == points[following])
    # A few feet may fall together in a corner; what the last tells the first takes as many rounds.
    for _ in range(4):
        ahead, behind = best[following[equal]], best[equal]
        best[equal] = np.where(rank[ahead] < rank[behind], ahead, behind)
        ahead, behind = best[following[equal]], best[equal]
        best[following[equal]] = np.where(rank[behind] < rank[ahead], behind, ahead)
    return best


def owners(position: Ints, raw_edge: Ints, raw_next: Ints, following: Ints) -> Ints:
    """The edge (m,) of each point of closed lines: -1 for a corner's construction, UNKNOWN where that must be measured.

    position are the points' numbers in the raw lines, -1 for a crossing of two raw chords: it belongs to the edge that
    owns one of them. raw_next and following are the numbers of the next raw point and of the next point.
    """
    known = position >= 0
    owner = np.where(known, raw_edge[position], UNKNOWN)
    before, raw_before = np.empty_like(following), np.empty_like(raw_next)
    before[following], raw_before[raw_next] = np.arange(len(following)), np.arange(len(raw_next))
    crossing = np.flatnonzero(~known)
    for side, along in ((following, raw_before), (before, raw_next)):
        near = position[side[crossing]]
        whole = (near >= 0) & (raw_edge[near] >= 0) & (raw_edge[near] == raw_edge[along[near]])
        owner[crossing[whole]] = raw_edge[near[whole]]
    return owner


class Stitches(NamedTuple):
    """The chords of a stitch line in walking order, with the edge of each."""

    start: Complexes
    end: Complexes
    edge: Ints

    def distances(self, points: Complexes) -> tuple[Ints, Floats]:
        """The edges (e,) there are, and the distance (m, e) in mm of each point from each of them."""
        first = np.flatnonzero(np.append(True, self.edge[1:] != self.edge[:-1]))
        chord = self.end - self.start
        offset = points[:, None] - self.start
        along = np.clip((offset * chord.conj()).real / np.abs(chord) ** 2, 0.0, 1.0)
        return self.edge[first], np.minimum.reduceat(np.abs(offset - along * chord), first, axis=1)


def measured(
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
