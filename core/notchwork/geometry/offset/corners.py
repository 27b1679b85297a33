"""What the cut line does at a corner, between the two perpendiculars raised there."""

from __future__ import annotations

import enum

import numpy as np

from notchwork.geometry.cubics import Bools, Complexes, Floats, Ints

LIMIT = 3.0
"""No construction reaches further from its corner than this many times the larger allowance."""
NO_TURN = 1e-9
NEEDLE = 3.0
BLUNT = 0.5


class Corner(enum.IntEnum):
    """How a cut line turns an outer corner.

    MITRED: both lines run on until they meet. SQUARED: a pointed corner loses its tip; the allowance of the edge that is
    sewn first ends square to it where its stitch line, run on, meets its neighbour's cut line. TURNED_UP: the allowance
    of the neighbour is mirrored across the hem's line, so that it lies flat on it when the hem is turned up.
    """

    MITRED = 0
    SQUARED = 1
    TURNED_UP = 2


def turns(before: Complexes, after: Complexes, arriving: Complexes, leaving: Complexes) -> Floats:
    """The angle (m,) in radians by which the walk turns left from one unit tangent to the next, at most half a turn.

    Where it turns back on itself, so that the tangents cannot tell a tip from a slit, the chords that arrive and leave
    decide.
    """
    turn: Floats = np.angle(after * before.conj())
    back = np.abs(turn) > NEEDLE
    turn[back] = np.copysign(np.minimum(np.abs(turn), np.pi - 1e-6), (arriving.conj() * leaving).imag)[back]
    return turn


def corner_points(
    p: Complexes, before: Complexes, after: Complexes, turn: Floats, a: Floats, b: Floats, squared: Ints
) -> tuple[Complexes, Ints]:
    """The points (m, 2) between the foot of the edge before each corner p (m,) and that of the edge after it.

    before and after are unit tangents, turn the angle between them, a and b the allowances (mm); squared says which of the two is squared off: 0
    neither, 1 the one before, 2 the one after. Also how many of the two points (m,) count.
    """
    sine, cosine = np.sin(turn), np.cos(turn)
    out_a, out_b = -1j * before, -1j * after
    limit = LIMIT * np.maximum(a, b)
    with np.errstate(divide="ignore", invalid="ignore"):
        step = np.where(a == b, 0.0, (b - a) / sine)
        # How far both lines run on beyond the perpendiculars until they meet.
        run_a, run_b = np.tan(turn / 2.0) * a + step, np.tan(turn / 2.0) * b - step
        mitre = p + a * out_a + run_a * before
        far = ~(np.hypot(run_a, a) <= limit)
        down_a, down_b = p + (b / cosine) * out_a, p + (a / cosine) * out_b
        on_a, on_b = b / sine, a / sine
    result = np.stack([mitre, mitre], axis=1)
    count = np.ones(len(p), dtype=np.intp)

    # Cut straight across where the lines are as far from the corner as they may be.
    result[far, 0] = (p + a * out_a + np.sqrt(np.maximum(limit**2 - a**2, 0.0)) * before)[far]
    result[far, 1] = (p + b * out_b - np.sqrt(np.maximum(limit**2 - b**2, 0.0)) * after)[far]
    count[far] = 2

    # The narrower line would meet the wider one before its perpendicular: a step down on that perpendicular instead.
    lower, higher = run_a < 0.0, run_b < 0.0
    result[lower, 0], result[higher, 0] = down_a[lower], down_b[higher]
    count[lower | higher] = 1

    pointed = cosine < 0.0
    first = pointed & (squared == 1) & (np.hypot(on_a, a) <= limit)
    second = pointed & (squared == 2) & (np.hypot(on_b, b) <= limit)
    result[first] = np.stack([p + on_a * before + a * out_a, p + on_a * before], axis=1)[first]
    result[second] = np.stack([p - on_b * after, p - on_b * after + b * out_b], axis=1)[second]
    count[first | second] = 2

    # Inwards the line passes through the corner itself; the union then finds where both lines meet.
    inner = turn < -NO_TURN
    result[inner, 0] = p[inner]
    count[inner] = 1
    count[np.abs(turn) <= NO_TURN] = 0
    return result, count


def blunt(turn: Floats, width: Floats, shorter: Floats, sag: float) -> tuple[Bools, Floats]:
    """Which joints (m,) inside an edge are so blunt that both feet may be drawn together where their lines meet.

    shorter is the shorter neighbouring chord (mm). Also how far (mm) that point lies from the foot before, onward.
    Inwards it is at the allowance from both chords, outwards it may lie beyond by sag (mm).
    """
    run = np.tan(turn / 2.0) * width
    beyond = run * np.tan(turn / 4.0)
    which: Bools = ((turn < 0.0) | (beyond <= sag)) & (np.abs(turn) < BLUNT) & (np.abs(run) <= 0.25 * shorter)
    return which, run
