"""Smooth curves through points that were sampled closely from curves: few cubics instead of many straight lines.

Each stretch between corners is one cubic with the tangents of the points at its ends, the lengths of its handles by least
squares (P. J. Schneider, An Algorithm for Automatically Fitting Digitized Curves, Graphics Gems, 1990); a stretch that
strays from its points is halved.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from notchwork.geometry.cubics import Bools, Complexes, Floats, Ints, is_straight

STRAY = 0.004
"""mm that a curve may lie beside the points it goes through."""
SAG = 0.005
"""mm: where a circle through three points bulges further from their chords than this, the points are corners."""
NOTHING = 1e-9
"""mm: points nearer than this are one."""


class _Points(NamedTuple):
    """All points of all runs; ``tangent`` are unit vectors, with those of corners left and arrived at apart."""

    z: Complexes
    along: Floats
    leave: Complexes
    arrive: Complexes


def smoothed(runs: Sequence[Complexes], closed: Sequence[bool], stray: float = STRAY) -> list[Complexes]:
    """For each run of points (m,) the cubics (k, 4) through its corners and close to its other points.

    A closed run is joined to its start, which is taken as a corner. The points must be sampled closely from curves
    (chords within SAG of them); lines between points further apart stay straight.
    """
    rings = [_without_twins(z, ring) for z, ring in zip(runs, closed, strict=True)]
    long = [k for k, z in enumerate(rings) if len(z) > 1]
    if not long:
        return [np.empty((0, 4), np.complex128) for _ in rings]
    ends = np.cumsum([len(rings[k]) for k in long])
    points, corner = _measured(np.concatenate([rings[k] for k in long]), ends)
    start, end = _stretches(corner, ends)
    first, cubics = _fitted(points, start, end, stray)
    straight = is_straight(cubics, stray / 10.0)
    cubics[straight, 1], cubics[straight, 2] = cubics[straight, 0], cubics[straight, 3]
    parts = np.split(cubics, np.searchsorted(first, ends[:-1]))
    found = dict(zip(long, parts, strict=True))
    return [found.get(k, np.empty((0, 4), np.complex128)) for k in range(len(rings))]


def _without_twins(z: Complexes, closed: bool) -> Complexes:
    if closed and len(z):
        z = np.append(z, z[0])
    if len(z) < 2:
        return z
    kept: Complexes = z[np.append(True, np.abs(np.diff(z)) > NOTHING)]
    return kept


def _measured(z: Complexes, ends: Ints) -> tuple[_Points, Bools]:
    """The points with their tangents, and which of them are corners."""
    step = np.diff(z)
    far = np.maximum(np.abs(step), NOTHING)
    # What leads from one run to the next is no step of either.
    unit = step / far
    apart = np.zeros(len(far), dtype=bool)
    apart[ends[:-1] - 1] = True
    turn = np.angle(unit[1:] * unit[:-1].conj())
    before, after = far[:-1], far[1:]
    corner = np.ones(len(z), dtype=bool)
    corner[1:-1] = np.abs(turn) * np.maximum(before, after) > 8.0 * SAG
    corner[1:-1] |= apart[1:] | apart[:-1]
    share = before / (before + after)
    tangent = np.empty(len(z), np.complex128)
    tangent[1:-1] = unit[:-1] * np.exp(1j * turn * share)
    leave, arrive = tangent.copy(), tangent.copy()
    # Beside a corner the chord turns by half of what it turns at its other end: a circle through three points.
    at = np.flatnonzero(corner)
    there, back = at[at < len(z) - 1], at[at > 0]
    leave[there] = _mirrored(unit[there], tangent[there + 1], corner[there + 1])
    arrive[back] = _mirrored(unit[back - 1], tangent[back - 1], corner[back - 1])
    return _Points(z, np.append(0.0, np.cumsum(far)), leave, arrive), corner


def _mirrored(chord: Complexes, tangent: Complexes, corner: Bools) -> Complexes:
    """The tangent at one end of a chord where that at its other end is known; along the chord beside a corner."""
    turned: Complexes = np.where(corner, chord, chord * chord * tangent.conj())
    return turned


def _stretches(corner: Bools, ends: Ints) -> tuple[Ints, Ints]:
    """From corner to corner: the numbers of the first and of the last point of each."""
    at = np.flatnonzero(corner)
    start, end = at[:-1], at[1:]
    inside = ~np.isin(start, ends[:-1] - 1)
    return start[inside], end[inside]


def _fitted(points: _Points, start: Ints, end: Ints, stray: float) -> tuple[Ints, Complexes]:
    """The cubics in the order of their points, and the number of the first point of each."""
    done: list[tuple[Ints, Complexes]] = []
    leave, arrive = points.leave[start], points.arrive[end]
    while start.size:
        cubics, off = _fit(points, start, end, leave, arrive)
        chord = end - start == 1
        good = chord | (off <= stray)
        cubics[chord, 1], cubics[chord, 2] = cubics[chord, 0], cubics[chord, 3]
        done.append((start[good], cubics[good]))
        start, end, leave, arrive = (part[~good] for part in (start, end, leave, arrive))
        middle = (start + end) // 2
        between = points.leave[middle]
        start, end = np.concatenate([start, middle]), np.concatenate([middle, end])
        leave, arrive = np.concatenate([leave, between]), np.concatenate([between, arrive])
    first, cubics = (np.concatenate(column) for column in zip(*done, strict=True))
    order = np.argsort(first)
    return first[order], cubics[order]


def _fit(
    points: _Points, start: Ints, end: Ints, leave: Complexes, arrive: Complexes
) -> tuple[Complexes, Floats]:
    """One cubic for each stretch, and how far (mm) it lies beside the points inside it."""
    count = end - start - 1
    which = np.repeat(np.arange(len(start)), count)
    inner = np.arange(len(which)) - np.repeat(np.cumsum(count) - count, count) + start[which] + 1
    a, b = points.z[start], points.z[end]
    length = points.along[end] - points.along[start]
    u = (points.along[inner] - points.along[start][which]) / length[which]
    cubics = np.stack([a, a + leave * length / 3, b - arrive * length / 3, b], axis=1)
    z = points.z[inner]
    for _ in range(2):
        cubics = _handles(cubics, which, u, z, leave, arrive, length)
        u = _beside(cubics, which, u, z)
    off = np.zeros(len(start))
    np.maximum.at(off, which, np.abs(_at(cubics, which, u) - z))
    return cubics, off


def _handles(
    cubics: Complexes,
    which: Ints,
    u: Floats,
    z: Complexes,
    leave: Complexes,
    arrive: Complexes,
    length: Floats,
) -> Complexes:
    """The same with the lengths of the handles that come nearest to the points; a third of the way where none do."""
    v = 1.0 - u
    one, two = 3.0 * v * v * u, 3.0 * v * u * u
    a, b = cubics[:, 0], cubics[:, 3]
    rest = z - (v * v * v + one) * a[which] - (two + u * u * u) * b[which]
    p, q = one * leave[which], -two * arrive[which]
    total = [
        np.bincount(which, weights, len(cubics))
        for weights in (
            one * one,
            (p.conj() * q).real,
            two * two,
            (p.conj() * rest).real,
            (q.conj() * rest).real,
        )
    ]
    pp, pq, qq, pr, qr = total
    det = pp * qq - pq * pq
    sound = det > 1e-9 * np.maximum(pp * qq, 1e-30)
    safe = np.where(sound, det, 1.0)
    out, into = (pr * qq - qr * pq) / safe, (qr * pp - pr * pq) / safe
    sound &= (out > 0) & (into > 0) & (out < length) & (into < length)
    out, into = np.where(sound, out, length / 3), np.where(sound, into, length / 3)
    found: Complexes = np.stack([a, a + leave * out, b - arrive * into, b], axis=1)
    return found


def _at(cubics: Complexes, which: Ints, u: Floats) -> Complexes:
    p, v = cubics[which], 1.0 - u
    uu, vv = u * u, v * v
    found: Complexes = vv * v * p[:, 0] + 3 * vv * u * p[:, 1] + 3 * v * uu * p[:, 2] + uu * u * p[:, 3]
    return found


def _beside(cubics: Complexes, which: Ints, u: Floats, z: Complexes) -> Floats:
    """The parameters nearer to the points by one step of Newton's method."""
    p, v = cubics[which], 1.0 - u
    gap = _at(cubics, which, u) - z
    first = 3 * (v * v * (p[:, 1] - p[:, 0]) + 2 * v * u * (p[:, 2] - p[:, 1]) + u * u * (p[:, 3] - p[:, 2]))
    square = np.abs(first) ** 2
    step = np.divide((gap * first.conj()).real, square, out=np.zeros_like(u), where=square > 0)
    stepped: Floats = np.clip(u - step, 0.0, 1.0)
    return stepped
