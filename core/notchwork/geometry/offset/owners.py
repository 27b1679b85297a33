"""Which edge each point of a finished cut line belongs to."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from notchwork.geometry.cubics import Bools, Complexes, Floats, Ints

UNKNOWN = -2


def positions(raw: Complexes, raw_line: Ints, rank: Ints, found: Complexes, found_line: Ints) -> Ints:
    """For each found point (m,) the number of the raw point at the same place on the same line, or -1.

    Of several there, it is one of the lowest rank. All points are whole numbers of grid steps.
    """

    def key(z: Complexes, line: Ints) -> Ints:
        # Hashing: three odd factors, products wrapping round at 64 bits. Two places in one line have one key only if
        # their differences solve one linear congruence out of 2^64.
        x, y = z.real.astype(np.int64), z.imag.astype(np.int64)
        return x * 0x9E3779B97F4A7C1 + y * 0x2545F4914F6CDD1D + line.astype(np.int64) * 0x5851F42D4C957F2D

    known, asked = key(raw, raw_line), key(found, found_line)
    order = np.lexsort((rank, known))
    at = np.minimum(np.searchsorted(known, asked, sorter=order), len(order) - 1)
    position = order[at]
    result: Ints = np.where(known[position] == asked, position, -1)
    return result


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
    crossing: Bools,
    doubtful: Bools,
    stitches: Stitches,
    widths: Floats,
    tol: float,
) -> Ints:
    """The edges (m,) of the points of one cut line, with all that is UNKNOWN or doubtful settled by measuring.

    A crossing belongs to any edge from which it is as far as its allowance (widths, by the edge's number); an edge
    without a point of its own has the first claim. Other points keep their edge only if they are at its allowance.
    """
    edges = edges.copy()
    which = np.flatnonzero(crossing | doubtful)
    names, far = stitches.distances(points[which])
    off = np.abs(far - widths[names])
    nearest = off.argmin(axis=1)
    # The strips of a tight curve may reach past the perpendicular at its end: there they are the corner's.
    claimed = off[np.arange(len(which)), np.minimum(np.searchsorted(names, edges[which]), len(names) - 1)]
    lost = (edges[which] == UNKNOWN) | ((edges[which] >= 0) & (claimed > tol))
    edges[which[lost]] = np.where(off.min(axis=1) <= tol, names[nearest], -1)[lost]
    for column, name in enumerate(names):
        if (edges == name).any():
            continue
        claims = which[(off[:, column] <= tol) & crossing[which]]
        spare = [point for point in claims if edges[point] < 0 or (edges == edges[point]).sum() > 1]
        edges[spare[:1]] = name
    return edges
