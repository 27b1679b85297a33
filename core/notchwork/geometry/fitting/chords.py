"""What polylines show before anything is fitted to them: which chords are straight lines, and the directions at vertices."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from notchwork.geometry.cubics import Bools, Complexes, Floats, Ints
from notchwork.geometry.fitting.cleaned import ROUNDED, Run
from notchwork.geometry.fitting.jumps import jumps


class Chords(NamedTuple):
    """All runs in one array. A ``node`` is where a cubic begins or ends in any case; ``straight`` is of the chord that follows.

    ``along`` is the way (mm) up to each vertex, ``turned`` how far (radians) the runs have turned by then in all, ``waves`` how
    often the other way; ``jump`` by how much (mm) the curvature jumps there, ``jumps`` how often by more than is rounding or a
    curve's own bending. ``leave`` and ``arrive`` are directions (radians) at the vertices as a circle through three of them
    has it; where a straight line runs on into a curve (``hold``) that of the line.
    """

    z: Complexes
    along: Floats
    turned: Floats
    waves: Ints
    jump: Floats
    jumps: Ints
    corner: Bools
    node: Bools
    straight: Bools
    leave: Floats
    arrive: Floats
    hold_leave: Bools
    hold_arrive: Bools


def measured(runs: list[Run], off: float, stray: float) -> Chords:
    """What all runs show (each of two vertices at least); chords may stray up to off (mm) from the curve they stand for."""
    z = np.concatenate([one.z for one in runs])
    corner = np.concatenate([one.corner for one in runs])
    node = np.concatenate([one.node for one in runs])
    sizes = np.array([len(one.z) for one in runs])
    ends = np.cumsum(sizes)
    starts = ends - sizes
    step = np.diff(z)
    size = np.abs(step)
    inside = np.ones(len(step), dtype=bool)
    inside[ends[:-1] - 1] = False
    direction = np.angle(step)
    turn = np.zeros(len(z))
    turn[1:-1] = np.angle(step[1:] * step[:-1].conj())
    turn[starts] = turn[ends - 1] = 0.0
    rings = np.flatnonzero([one.ring for one in runs])
    for k in rings.tolist():
        # A ring turns at its start as anywhere.
        a, b = starts[k], ends[k] - 1
        turn[a] = turn[b] = np.angle(step[a] * step[b - 1].conj())
    straight, kinked = _straight(z, size, inside, turn, node, corner, off)
    corner = corner | kinked
    node = node | kinked
    change = np.flatnonzero(straight[1:] != straight[:-1]) + 1
    node[change] = True
    leave, arrive, hold_leave, hold_arrive = _tangents(direction, size, turn, corner, straight, inside)
    for k in rings.tolist():
        a, b = starts[k], ends[k] - 1
        if straight[a] != straight[b - 1]:
            if straight[a]:
                arrive[b], hold_arrive[b] = direction[a], True
            else:
                leave[a], hold_leave[a] = direction[b - 1], True
    jump = jumps(z)
    return Chords(
        z,
        np.append(0.0, np.cumsum(np.where(inside, size, 0.0))),
        np.cumsum(np.abs(turn)),
        _waves(turn, size, 2.0 * stray),
        jump,
        np.cumsum(jump > stray),
        corner,
        node,
        straight,
        leave,
        arrive,
        hold_leave,
        hold_arrive,
    )


def _waves(turn: Floats, size: Floats, least: float) -> Ints:
    """How often up to each vertex the runs have turned the other way; turns that bulge by less (mm) are passed over."""
    lateral = np.zeros(len(turn))
    lateral[1:-1] = np.abs(turn[1:-1]) * size[:-1] * size[1:] / (size[:-1] + size[1:])
    marked = np.flatnonzero(lateral > least)
    swing = np.zeros(len(turn), dtype=np.intp)
    swing[marked[1:]] = turn[marked[1:]] * turn[marked[:-1]] < 0.0
    return np.cumsum(swing)


def _straight(
    z: Complexes, size: Floats, inside: Bools, turn: Floats, node: Bools, corner: Bools, off: float
) -> tuple[Bools, Bools]:
    """Which chords are straight lines, and which vertices are corners between two lines though they turn by little."""
    count = len(size)
    turning = np.abs(turn)
    lateral = np.zeros(len(z))
    lateral[1:-1] = turning[1:-1] * size[:-1] * size[1:] / (size[:-1] + size[1:])
    flat = (lateral <= ROUNDED) & (turning < 0.05) & ~node
    first = np.flatnonzero(inside & ~np.append(False, flat[1:-1] & inside[:-1]))
    last = np.append(first[1:] - 1, count - 1)
    last = last - ~inside[last]
    a, b = first, last + 1
    chord = z[b] - z[a]
    length = np.maximum(np.abs(chord), 1e-12)
    group = np.repeat(np.arange(len(a)), b - a)
    vertex = np.arange(len(group)) + np.repeat(a - np.append(0, np.cumsum(b - a)[:-1]), b - a)
    aside = np.abs(((z[vertex] - z[a][group]) * chord[group].conj()).imag) / length[group]
    stray = np.zeros(len(a))
    np.maximum.at(stray, group, aside)
    # Beyond either end: how sharply the run turns there, if that belongs to a curve, and the chords that follow.
    open_a, open_b = ~(corner[a] | (turning[a] == 0.0)), ~(corner[b] | (turning[b] == 0.0))
    next_a, next_b = size[np.maximum(a - 1, 0)], size[np.minimum(b, count - 1)]
    beyond_a = np.where(open_a, np.where(open_b, next_a, _near(size, inside, a - 1, -1)), 0.0)
    beyond_b = np.where(open_b, np.where(open_a, next_b, _near(size, inside, b, 1)), 0.0)

    def bend(share: float) -> tuple[Floats, Floats]:
        at_a = np.where(open_a, turning[a] / (length * share + next_a / 2.0), 0.0)
        at_b = np.where(open_b, turning[b] / (length * share + next_b / 2.0), 0.0)
        return at_a, at_b

    bend_a, bend_b = bend(0.5)
    sag = np.maximum(bend_a, bend_b) * length**2 / 8.0
    waves = open_a & open_b & (turn[a] * turn[b] < 0.0)
    thin = stray <= 2.0 * ROUNDED
    found = thin & (sag > np.where(waves, 6.0, 2.0) * off)
    usual = 2.0 * (b - a + 1) * np.maximum(beyond_a, beyond_b)
    found |= thin & (length > usual) & (sag > 5.0 * ROUNDED) & (open_a | open_b)
    lone = ~open_a & ~open_b
    found |= thin & lone
    found |= (b - a == 1) & node[a] & node[b]
    soft_a, soft_b = bend(1.0 / 6.0)
    both = open_a & open_b
    would = np.maximum(soft_a, soft_b) * length**2 * np.where(both, 0.012, 0.05)
    found |= (b - a > 2) & thin & (would > 5.0 * np.maximum(stray, ROUNDED))
    straight = np.zeros(count, dtype=bool)
    straight[vertex] = found[group]
    kinked = np.zeros(len(z), dtype=bool)
    kinked[1:-1] = (
        straight[1:] & straight[:-1] & inside[1:] & inside[:-1] & ~flat[1:-1] & (turning[1:-1] > 0.01)
    )
    return straight, kinked


def _near(size: Floats, inside: Bools, k: Ints, step: int) -> Floats:
    """The longer of two chords that follow each other from k on."""
    longest = np.zeros(len(k))
    good = np.ones(len(k), dtype=bool)
    for far in range(2):
        at = k + far * step
        good &= (at >= 0) & (at < len(size))
        at = np.clip(at, 0, len(size) - 1)
        good &= inside[at]
        longest = np.where(good, np.maximum(longest, size[at]), longest)
    return longest


def _tangents(
    direction: Floats, size: Floats, turn: Floats, corner: Bools, straight: Bools, inside: Bools
) -> tuple[Floats, Floats, Bools, Bools]:
    """Directions in which vertices are left and arrived at, and whether they are those of a straight line beside."""
    count = len(turn)
    before, after = np.append(size[:1], size), np.append(size, size[-1:])
    share = before / (before + after)
    leave = np.append(direction, direction[-1:]) - turn * (1.0 - share)
    arrive = np.append(direction[:1], direction) + turn * share
    alone = corner | (turn == 0.0)
    edge_out = alone.copy()
    edge_in = alone.copy()
    edge_out[1:] |= straight[: count - 1] & inside
    edge_in[:-1] |= straight & inside
    # Beside an end the chord turns by half of what it turns at its other end: a circle through three points.
    by_next = np.zeros(count)
    by_next[:-1] = turn[1:] * size / (size + after[1:])
    by_last = np.zeros(count)
    by_last[1:] = turn[:-1] * size / (size + before[:-1])
    alone_out = np.append(direction, direction[-1:]) - by_next
    alone_in = np.append(direction[:1], direction) + by_last
    leave = np.where(edge_out, alone_out, leave)
    arrive = np.where(edge_in, alone_in, arrive)
    hold_leave, hold_arrive = np.zeros(count, dtype=bool), np.zeros(count, dtype=bool)
    line_in, line_out = np.append(direction[:1], direction), np.append(direction, direction[-1:])

    def agree(one: Floats, other: Floats, bend: Floats) -> Bools:
        apart = np.abs(np.angle(np.exp(1j * (one - other))))
        near: Bools = apart <= np.radians(1.0) + np.abs(bend)
        return near

    joins = np.zeros(count, dtype=bool)
    joins[1:-1] = inside[1:] & inside[:-1] & ~corner[1:-1]
    hold_leave[1:-1] = joins[1:-1] & straight[:-1] & ~straight[1:]
    hold_leave &= agree(leave, line_in, by_next)
    hold_arrive[1:-1] = joins[1:-1] & straight[1:] & ~straight[:-1]
    hold_arrive &= agree(arrive, line_out, by_last)
    leave = np.where(hold_leave, line_in, leave)
    arrive = np.where(hold_arrive, line_out, arrive)
    return leave, arrive, hold_leave, hold_arrive
