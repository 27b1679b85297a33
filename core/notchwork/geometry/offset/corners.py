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


class Between(NamedTuple):
    """What lies between the feet at corners: points (m, 2), how many of the two count (m,), and what they replace.

    replaces (m,): 0 nothing, else the foot before (BEFORE), the foot after (AFTER), or both (BOTH): they are left out. The
    first point, if it counts, then takes their place: there both cut lines meet.
    """

    points: Complexes
    many: Ints
    replaces: Ints


BEFORE, AFTER, BOTH = 1, 2, 3


def corner_points(
    p: Complexes,
    before: Complexes,
    after: Complexes,
    turn: Turns,
    a: Floats,
    b: Floats,
    room: Floats,
    squared: Ints,
) -> Between:
    """The points between the foot of the edge before each corner p (m,) and that of the edge after it.

    before and after are unit tangents, a and b the allowances (mm); room (2, m) is how far (mm) from the corner each
    edge goes nearly straight. squared says which of the two is squared off: 0 neither, 1 the one before, 2 the one
    after.
    """
    sine, cosine, half = turn
    inner = sine < -NO_TURN
    with np.errstate(divide="ignore", invalid="ignore"):
        step = np.where(a == b, 0.0, (b - a) / sine)
        # How far both lines run on beyond the perpendiculars until they meet.
        run_a, run_b = half * a + step, half * b - step
        points = np.empty((len(p), 2), dtype=np.complex128)
        points[:, 0] = p + (run_a - 1j * a) * before
        # Where a line would meet the other's perpendicular before the other's line, it steps up or down on that.
        # At a right angle beside no allowance the run is zero but for rounding, and the cosine too.
        onward = np.where(inner, -1.0, 1.0)
        lower, higher = onward * run_a < -NO_RUN, onward * run_b < -NO_RUN
        far = ~(inner | lower | higher | (np.hypot(run_a, a) <= LIMIT * np.maximum(a, b)))
    many = np.where((np.abs(sine) <= NO_TURN) & (cosine > 0.0), 0, 1)
    for which, out, width in ((lower, before, b), (higher, after, a)):
        k = np.flatnonzero(which)
        points[k, 0] = p[k] - 1j * (width[k] / cosine[k]) * out[k]
    if far.any():
        _cut_off(points, many, np.flatnonzero(far), p, before, after, a, b)
    if squared.any():
        pointed = np.flatnonzero((squared > 0) & (cosine < 0.0) & (sine > NO_TURN))
        _square_off(points, many, pointed, p, before, after, sine, a, b, squared == 1)

    # An inner line that passes through the corner itself is right however its edges go on: the union then finds where
    # they meet. But if each foot lies beside the other edge's straight stretch, the loop from where the lines meet
    # through the corner and back only winds once more about what lies beside both, and can be left out.
    bare = a + b == 0.0
    near = inner & (cosine > -NO_TURN) & (-sine * b <= room[0]) & (-sine * a <= room[1]) & ~bare
    through = np.flatnonzero(inner & ~near)
    points[through, 0] = p[through]
    replaces = np.where(near, np.where(higher, BEFORE, np.where(lower, AFTER, BOTH)), 0)

    # Without allowance a foot is the corner itself, and one point there is enough: the edge's that begins.
    many[(a * b == 0.0) & (lower | higher | inner) & ~near | bare] = 0
    replaces[bare] = BEFORE
    return Between(points, many, replaces)


def _cut_off(
    points: Complexes,
    many: Ints,
    far: Ints,
    p: Complexes,
    before: Complexes,
    after: Complexes,
    a: Floats,
    b: Floats,
) -> None:
    """Cut straight across where the lines are as far from their corners as they may be."""
    a, b = a[far], b[far]
    limit = LIMIT * np.maximum(a, b)
    points[far, 0] = p[far] + (np.sqrt(limit**2 - a**2) - 1j * a) * before[far]
    points[far, 1] = p[far] - (np.sqrt(limit**2 - b**2) + 1j * b) * after[far]
    many[far] = 2


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
    which: Bools = (turn.cosine > BLUNT) & (np.abs(run) <= 0.25 * shorter)
    # Outwards the point lies beyond by the root of run² + width², less the width.
    which &= run * np.abs(run) <= most * (most + 2.0 * width)
    return which, run
