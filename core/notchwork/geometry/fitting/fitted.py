"""Polylines whose vertices lie on smooth curves become those curves again."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from notchwork.geometry.cubics import Bools, Complexes, Floats, Ints
from notchwork.geometry.fitting.chords import Chords, Run, measured, run
from notchwork.geometry.fitting.dividing import beads, divided, errors, farthest, sound
from notchwork.geometry.fitting.joint import Fit, Pieces, fit

OFF = 0.05
"""mm that chords stray from the curve they stand for, unless said otherwise."""
STRAY = 0.005
"""mm that the vertices may lie beside their cubic before it is parted."""
KINK = np.radians(1.5)
"""Two cubics that each follow their vertices and differ by more where they meet, meet in a kink."""


class Fitted(NamedTuple):
    """One run as cubics (k, 4), each from where the last ended.

    ``corners`` numbers the rows that begin at a corner (the ends of an open run are none); ``source[k]`` is the input vertex
    at which row k begins. Row 0 of a closed run begins at its first corner, else at its first kept node, else where its
    longest straight line ends, else at vertex 0. ``off`` (mm) is the greatest distance of a vertex from the cubics.
    """

    cubics: Complexes
    corners: Ints
    source: Ints
    off: float


def fitted(
    runs: Sequence[Complexes],
    closed: Sequence[bool],
    corners: Sequence[Sequence[int]] | None = None,
    nodes: Sequence[Sequence[int]] | None = None,
    off: float = OFF,
    stray: float = STRAY,
) -> list[Fitted]:
    """The smooth cubics on which the vertices of polylines lie, as few as follow them within stray (mm).

    runs are polylines (m,) in mm whose chords lie within off (mm) of the curves that they stand for. corners number the
    vertices of each run at which its tangent breaks; where they are not given, vertices that turn by more than 20° are, and
    those that turn further than a curve within off of its chords could. nodes number vertices that are to stay nodes, smooth
    ones; they are passed over where every vertex of a run is one. A chord between two corners or nodes is a straight line.

    Raises ValueError for a coordinate that is not finite.
    """
    many = range(len(runs))
    given = [
        run(
            runs[k],
            closed[k],
            None if corners is None else np.asarray(corners[k], dtype=np.intp),
            None if nodes is None else np.asarray(nodes[k], dtype=np.intp),
            off,
        )
        for k in many
    ]
    found = [Fitted(np.empty((0, 4), np.complex128), np.zeros(0, np.intp), np.zeros(0, np.intp), 0.0)] * len(
        given
    )
    long = [k for k in many if len(given[k].z) > 1]
    if long:
        for k, one in zip(long, _all([given[k] for k in long], off, stray), strict=True):
            found[k] = one
    return found


def _all(runs: list[Run], off: float, stray: float) -> list[Fitted]:
    chords = measured(runs, off)
    sizes = np.array([len(one.z) for one in runs])
    ends = np.cumsum(sizes)
    first_of = ends - sizes
    node = np.flatnonzero(chords.node)
    start, end = node[:-1], node[1:]
    within = ~np.isin(start, ends - 1)
    start, end = start[within], end[within]
    line = chords.straight[start]
    rings = [(first_of[k], ends[k] - 1) for k, one in enumerate(runs) if one.ring]
    start, end, line = _ring_halves(start, end, line, rings)
    bent_start, bent_end = divided(chords, start[~line], end[~line], off, stray)
    bent, bent_start, bent_end, off_by = _joined(chords, bent_start, bent_end, rings, off, stray)
    z = chords.z
    lines = np.stack([z[start[line]], z[start[line]], z[end[line]], z[end[line]]], axis=1)
    cubics = np.concatenate([lines, bent])
    begin = np.concatenate([start[line], bent_start])
    beside = np.concatenate([_beside_lines(z, start[line], end[line]), off_by])
    order = np.argsort(begin)
    cubics, begin, beside = cubics[order], begin[order], beside[order]
    bounds = np.searchsorted(begin, np.append(first_of, len(z)))
    made = []
    for k, one in enumerate(runs):
        low, high = bounds[k], bounds[k + 1]
        local = begin[low:high] - first_of[k]
        cornered = chords.corner[begin[low:high]]
        made.append(
            Fitted(
                cubics[low:high],
                np.flatnonzero(cornered),
                one.source[local],
                float(beside[low:high].max(initial=0.0)),
            )
        )
    return made


def _ring_halves(
    start: Ints, end: Ints, line: Bools, rings: list[tuple[int, int]]
) -> tuple[Ints, Ints, Bools]:
    """A ring without corners is two cubics at least: one cannot go on smoothly into itself."""
    for a, b in rings:
        k = int(np.searchsorted(start, a))
        if end[k] == b and b - a > 1:
            middle = (a + b) // 2
            start = np.insert(start, k + 1, middle)
            end = np.insert(end, k, middle)
            line = np.insert(line, k, line[k])
    return start, end, line


def _beside_lines(z: Complexes, start: Ints, end: Ints) -> Floats:
    chord = z[end] - z[start]
    of = np.repeat(np.arange(len(start)), end - start)
    vertex = np.arange(len(of)) - np.repeat(np.cumsum(end - start) - (end - start), end - start) + start[of]
    aside = np.abs(((z[vertex] - z[start][of]) * chord[of].conj()).imag) / np.maximum(
        np.abs(chord[of]), 1e-12
    )
    most = np.zeros(len(start))
    np.maximum.at(most, of, aside)
    return most


def _joined(
    chords: Chords, start: Ints, end: Ints, rings: list[tuple[int, int]], off: float, stray: float
) -> tuple[Complexes, Ints, Ints, Floats]:
    """The pieces as cubics that go on smoothly into each other; parted further where that needs it."""
    for attempt in range(8):
        if not start.size:
            break
        off_by, apart = errors(chords, start, end, off)
        pieces, angles = _tied(chords, start, end, rings, apart, off_by, stray)
        string = beads(chords, start, end)
        found: Fit = fit(pieces, string, angles)
        good = sound(found, string, off)
        off_by = farthest(found, string, len(start))
        single = end - start == 1
        bad = ~single & (~good | (off_by > (2.0 * stray if attempt else stray)))
        if not bad.any():
            flat = single & ~good
            found.cubics[flat, 1], found.cubics[flat, 2] = found.cubics[flat, 0], found.cubics[flat, 3]
            return found.cubics, start, end, off_by
        middle = (start[bad] + end[bad]) // 2
        if attempt >= 6:
            return _chorded(chords, found.cubics, start, end, off_by, bad)
        start = np.sort(np.concatenate([start, middle]))
        end = np.sort(np.concatenate([end, middle]))
    return np.empty((0, 4), np.complex128), start, end, np.zeros(0)


def _chorded(
    chords: Chords, cubics: Complexes, start: Ints, end: Ints, off_by: Floats, bad: Bools
) -> tuple[Complexes, Ints, Ints, Floats]:
    """Where nothing smooth follows the vertices, the chords themselves."""
    far = end[bad] - start[bad]
    vertex = np.repeat(start[bad] - np.cumsum(far) + far, far) + np.arange(int(far.sum()))
    z = chords.z
    lines = np.stack([z[vertex], z[vertex], z[vertex + 1], z[vertex + 1]], axis=1)
    begin = np.concatenate([start[~bad], vertex])
    order = np.argsort(begin)
    return (
        np.concatenate([cubics[~bad], lines])[order],
        begin[order],
        np.concatenate([end[~bad], vertex + 1])[order],
        np.concatenate([off_by[~bad], np.zeros(len(vertex))])[order],
    )


def _tied(
    chords: Chords,
    start: Ints,
    end: Ints,
    rings: list[tuple[int, int]],
    apart: Fit,
    off_by: Floats,
    stray: float,
) -> tuple[Pieces, Floats]:
    """The pieces with one tangent where they run on into each other; first guesses from what each has alone."""
    count = len(start)
    out, home = apart.angles[::2], apart.angles[1::2]
    turn = np.angle(np.exp(1j * (out[1:] - home[:-1])))
    meets = (end[:-1] == start[1:]) & ~chords.corner[start[1:]]
    rich = (end - start > 4) & (off_by <= stray / 10.0)
    meets &= ~(rich[1:] & rich[:-1] & (np.abs(turn) > KINK) & chords.node[start[1:]])
    chain = np.append(0, np.cumsum(~meets))
    left = np.arange(count) + chain
    knots = int(left[-1]) + 2
    angles, held = np.zeros(knots), np.zeros(knots, dtype=bool)
    angles[left + 1], held[left + 1] = home, chords.hold_arrive[end]
    angles[left], held[left] = out, chords.hold_leave[start]
    middle = np.flatnonzero(meets)
    angles[left[middle] + 1] = home[middle] + turn[middle] / 2.0
    first, last = [], []
    for a, b in rings:
        begin, finish = int(np.searchsorted(start, a)), int(np.searchsorted(end, b))
        whole = begin < count and finish < count and start[begin] == a and end[finish] == b
        if whole and finish - begin > 0 and chain[begin] == chain[finish]:
            first.append(left[begin])
            last.append(left[finish] + 1)
            across = np.angle(np.exp(1j * (out[begin] - home[finish])))
            angles[left[begin]] = angles[left[finish] + 1] = home[finish] + across / 2.0
    return (
        Pieces(
            chords.z[start],
            chords.z[end],
            chords.along[end] - chords.along[start],
            left,
            chain,
            held,
            np.array(first, dtype=np.intp),
            np.array(last, dtype=np.intp),
        ),
        angles,
    )
