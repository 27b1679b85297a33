"""What closed lines wind about, found by pyclipr's union with the positive rule, and whose its boundary is."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from notchwork.geometry.cubics import Bools, Complexes, Floats, Ints
from notchwork.geometry.offset.snapped import GRID, Snapped, next_in

UNKNOWN = -2


class Cut(NamedTuple):
    """Closed lines end to end, in mm, each point (m,) with its edge, and where each line (k,) begins and how many points it has.

    edge is -1 for a corner's construction, UNKNOWN where it must be measured; crossing says where raw lines cross.
    """

    points: Complexes
    edge: Ints
    crossing: Bools
    first: Ints
    size: Ints


def united(raw: Snapped) -> Cut:
    """The outer boundaries of what the raw lines wind about."""
    # Far from the origin the crossings of lines would lose digits.
    origin = raw.places[raw.first]
    places = raw.places - np.repeat(origin, raw.size)
    local = np.stack([places.real, places.imag, np.arange(len(places))], axis=1)
    each = [outer_line(own) for own in np.split(local, raw.first[1:])]
    found, position = (np.concatenate(column) for column in zip(*each, strict=True))
    size = np.array([len(own) for own, _ in each], dtype=np.intp)
    first = np.cumsum(size) - size
    crossing = places[position] != found
    position[crossing] = -1
    edge = _owners(position, raw.edge, next_in(raw.first, raw.size), next_in(first, size))
    points = raw.points[position]
    points[crossing] = (np.repeat(origin, size) + found)[crossing] * GRID
    return Cut(points, edge, crossing, first, size)


def _owners(position: Ints, raw_edge: Ints, raw_next: Ints, following: Ints) -> Ints:
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


def outer_line(raw: Floats) -> tuple[Complexes, Ints]:
    """The outer boundary, counter-clockwise, of what a closed line winds about counter-clockwise at least once.

    raw (m, 3): x and y in whole grid steps, and a number for each point. Of several parts the largest is taken, holes
    are left out. The points come in grid steps too, each with the number of the raw point that it is; a crossing of two
    chords has the number of an end of one of them.
    """
    from pyclipr import Clipper, FillRule, Subject, Union  # not loaded by those who never cut

    clipper = Clipper()
    clipper.scaleFactor = 1.0
    clipper.preserveCollinear = True
    clipper.addPath(raw, Subject, False)
    paths, numbers = clipper.execute(Union, FillRule.Positive, returnZ=True)
    if not paths:
        return np.zeros(0, dtype=np.complex128), np.zeros(0, dtype=np.intp)
    lines = [np.ascontiguousarray(path).view(np.complex128)[:, 0] for path in paths]
    largest = max(range(len(lines)), key=lambda k: _area(lines[k])) if len(lines) > 1 else 0
    return lines[largest], numbers[largest].astype(np.intp)


def _area(line: Complexes) -> float:
    return float((line.conj() * np.roll(line, -1)).imag.sum())
