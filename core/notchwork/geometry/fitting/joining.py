"""Pieces that run on into each other get one tangent where they meet, and are fitted together, chain by chain."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from notchwork.geometry.cubics import Complexes, Floats, Ints
from notchwork.geometry.fitting.alone import Alone, Limits, Trials, beads, farthest, sound
from notchwork.geometry.fitting.chords import Chords
from notchwork.geometry.fitting.joint import Aim, fit
from notchwork.geometry.fitting.pieces import Pieces

KINK = np.radians(1.5)
"""Two cubics that each follow their vertices and differ by more where a kept node parts them, meet in a kink."""
ATTEMPTS = 7
"""So often a piece that strays once it shares its tangents is halved; then its chords stay as they are."""


class Joined(NamedTuple):
    """Cubics (n, 4), the vertices at which they begin, and how far (mm) vertices lie beside each."""

    cubics: Complexes
    start: Ints
    off: Floats


def joined(
    chords: Chords, start: Ints, end: Ints, rings: list[tuple[int, int]], limits: Limits, trials: Trials
) -> Joined:
    """The pieces (in order) as cubics that go on smoothly into each other; parted further where that needs it.

    rings are the first and last vertices of runs that go on smoothly where they close.
    """
    done: list[Joined] = []
    for attempt in range(ATTEMPTS):
        if not start.size:
            break
        apart = trials.best(start, end)
        pieces, angles = _tied(chords, start, end, rings, apart, limits.stray)
        string = beads(chords, start, end)
        found = fit(
            pieces,
            string,
            angles,
            np.array([apart.out, apart.home]),
            Aim(near=0.01 * limits.stray, damp=1e-6),
        )
        good = sound(found, string, limits.off)
        off = farthest(found, string, len(start))
        single = end - start == 1
        lines = single & ~good
        found.cubics[lines, 1], found.cubics[lines, 2] = found.cubics[lines, 0], found.cubics[lines, 3]
        bad = ~single & (~good | (off > limits.stray))
        if attempt == ATTEMPTS - 1:
            done.append(_chorded(chords, start[bad], end[bad]))
            done.append(Joined(found.cubics[~bad], start[~bad], off[~bad]))
            break
        # A chain in which nothing is bad is done.
        worse = np.zeros(len(start), dtype=bool)
        worse[pieces.chain[bad]] = True
        ready = ~worse[pieces.chain]
        done.append(Joined(found.cubics[ready], start[ready], off[ready]))
        middle = (start[bad] + end[bad]) // 2
        start = np.sort(np.concatenate([start[~ready], middle]))
        end = np.sort(np.concatenate([end[~ready], middle]))
    if not done:
        return Joined(np.empty((0, 4), np.complex128), start, np.zeros(0))
    return Joined(*(np.concatenate(column) for column in zip(*done, strict=True)))


def _chorded(chords: Chords, start: Ints, end: Ints) -> Joined:
    """Where nothing smooth follows the vertices, the chords themselves."""
    far = end - start
    vertex = np.repeat(start - np.cumsum(far) + far, far) + np.arange(int(far.sum()))
    a, b = chords.z[vertex], chords.z[vertex + 1]
    return Joined(np.stack([a, a, b, b], axis=1), vertex, np.zeros(len(vertex)))


def _tied(
    chords: Chords,
    start: Ints,
    end: Ints,
    rings: list[tuple[int, int]],
    apart: Alone,
    stray: float,
) -> tuple[Pieces, Floats]:
    """The pieces with one tangent where they run on into each other; first guesses from what each has alone."""
    count = len(start)
    out, home = apart.leave, apart.arrive
    turn = np.angle(np.exp(1j * (out[1:] - home[:-1])))
    meets = (end[:-1] == start[1:]) & ~chords.corner[start[1:]]
    rich = (end - start > 4) & (apart.off <= stray / 10.0)
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
