"""What the cut line does at a corner, between the two perpendiculars raised there."""

from __future__ import annotations

import enum
from typing import NamedTuple

import numpy as np

from notchwork.geometry.cubics import Bools, Complexes, Floats, Ints

LIMIT = 3.0
"""No construction reaches further from its corner than this many times the larger allowance."""
NO_TURN = 1e-9
NO_RUN = 1e-9
"""mm"""
NEEDLE = -0.99
"""The cosine of a turn (172°) beyond which a corner is a needle's tip or a slit's end."""
BLUNT = 0.88
"""The cosine of a turn (28°) that may be drawn as one point."""


class Corner(enum.IntEnum):
    """How a cut line turns an outer corner.

    MITRED: both lines run on until they meet. SQUARED: a pointed corner loses its tip; the allowance of the edge that is
    sewn first ends square to it where its stitch line, run on, meets its neighbour's cut line. TURNED_UP: the allowance
    of the neighbour is mirrored across the hem's line, so that it lies flat on it when the hem is turned up.
    """

    MITRED = 0
    SQUARED = 1
    TURNED_UP = 2


class Turns(NamedTuple):
    """The angles (m,) by which walks turn, positive to the left: sine, cosine, and the tangent of half the angle."""

    sine: Floats
    cosine: Floats
    half: Floats

    def only(self, which: Bools) -> Turns:
        return Turns(self.sine[which], self.cosine[which], self.half[which])


def turns(before: Complexes, after: Complexes, arriving: Complexes, leaving: Complexes) -> Turns:
    """The turns from the unit tangents before to those after.

    Where the walk turns back on itself, so that the tangents cannot tell a tip from a slit, the chords that arrive and
    leave decide.
    """
    turn = after * before.conj()
    sine, cosine = turn.imag, turn.real
    back = np.flatnonzero(cosine < NEEDLE)
    if back.size:
        side = (arriving[back].conj() * leaving[back]).imag
        sine[back] = np.copysign(np.maximum(np.abs(sine[back]), NO_TURN), side)
    return Turns(sine, cosine, sine / np.maximum(1.0 + cosine, 1e-12))


def corner_points(
    p: Complexes, before: Complexes, after: Complexes, turn: Turns, a: Floats, b: Floats, squared: Ints
) -> tuple[Complexes, Ints]:
    """The points (m, 2) between the foot of the edge before each corner p (m,) and that of the edge after it.

    before and after are unit tangents, a and b the allowances (mm); squared says which of the two is squared off: 0
    neither, 1 the one before, 2 the one after. Also how many of the two points (m,) count.
    """
    sine, cosine, half = turn
    out_a, out_b = -1j * before, -1j * after
    limit = LIMIT * np.maximum(a, b)
    with np.errstate(divide="ignore", invalid="ignore"):
        step = np.where(a == b, 0.0, (b - a) / sine)
        # How far both lines run on beyond the perpendiculars until they meet.
        run_a, run_b = half * a + step, half * b - step
        mitre = p + a * out_a + run_a * before
        far = ~(np.hypot(run_a, a) <= limit)
        down_a, down_b = p + (b / cosine) * out_a, p + (a / cosine) * out_b
    result = np.stack([mitre, mitre], axis=1)
    count = np.ones(len(p), dtype=np.intp)

    # Cut straight across where the lines are as far from the corner as they may be.
    result[far, 0] = (p + a * out_a + np.sqrt(np.maximum(limit**2 - a**2, 0.0)) * before)[far]
    result[far, 1] = (p + b * out_b - np.sqrt(np.maximum(limit**2 - b**2, 0.0)) * after)[far]
    count[far] = 2

    # The narrower line would meet the wider one before its perpendicular: a step down on that perpendicular instead.
    # At a right angle beside no allowance the run is zero but for rounding, and the cosine too.
    lower, higher = run_a < -NO_RUN, run_b < -NO_RUN
    result[lower, 0], result[higher, 0] = down_a[lower], down_b[higher]
    count[lower | higher] = 1

    pointed = np.flatnonzero((squared > 0) & (cosine < 0.0) & (sine > NO_TURN))
    if pointed.size:
        _square_off(result, count, pointed, p, before, after, sine, a, b, squared == 1)

    # Inwards the line passes through the corner itself; the union then finds where both lines meet.
    inner = sine < -NO_TURN
    result[inner, 0] = p[inner]
    count[inner] = 1
    count[(np.abs(sine) <= NO_TURN) & (cosine > 0.0)] = 0
    return result, count


def _square_off(
    result: Complexes,
    count: Ints,
    pointed: Ints,
    p: Complexes,
    before: Complexes,
    after: Complexes,
    sine: Floats,
    a: Floats,
    b: Floats,
    first: Bools,
) -> None:
    """Replace the tips of pointed corners, where the squared end stays within the limit."""
    for k in pointed.tolist():
        own, other = (a[k], b[k]) if first[k] else (b[k], a[k])
        along = before[k] if first[k] else -after[k]
        out = -1j * (before[k] if first[k] else after[k])
        # The stitch line, run on, meets the neighbour's cut line here.
        meets = p[k] + other / sine[k] * along
        if abs(meets + own * out - p[k]) <= LIMIT * max(a[k], b[k]):
            ends = (meets + own * out, meets)
            result[k] = ends if first[k] else ends[::-1]
            count[k] = 2


def blunt(turn: Turns, width: Floats, shorter: Floats, most: float) -> tuple[Bools, Floats]:
    """Which joints (m,) inside an edge are so blunt that both feet may be drawn together where their lines meet.

    shorter is the shorter neighbouring chord (mm). Also how far (mm) that point lies from the foot before, onward.
    Inwards it is at the allowance from both chords, outwards it may lie beyond by at most that (mm).
    """
    run = turn.half * width
    beyond = np.sqrt(run * run + width * width) - width
    which: Bools = (turn.cosine > BLUNT) & ((run < 0.0) | (beyond <= most)) & (np.abs(run) <= 0.25 * shorter)
    return which, run
