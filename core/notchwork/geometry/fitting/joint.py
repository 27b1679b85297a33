"""Cubics laid through points: handles, tangents and the places of the points on the curve are fitted together.

The sum of squared distances is made least by Levenberg's and Marquardt's steps (K. Levenberg 1944, D. Marquardt 1963).
Only handles and tangents are unknowns: each point lies at the foot of its perpendicular on the curve, so that its residual
counts across the curve only (variable projection, G. H. Golub & V. Pereyra 1973, in L. Kaufman's simplified form, 1975).
Setting handles and feet in turns instead (P. J. Schneider, Graphics Gems, 1990) creeps: every turn moves a point along the
curve by a little only.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from notchwork.geometry.cubics import Bools, Complexes, Floats, Ints
from notchwork.geometry.fitting.chains import solved

SHORTEST, LONGEST = 1e-4, 2.0
"""Handles are kept between these shares of the stretch they shape."""
ROUNDS = 24
CLOSE_ENOUGH = 1e-7
"""mm: closer to the points (in the mean) a fit need not come."""


class Pieces(NamedTuple):
    """What is to be fitted: piece k runs from ``a[k]`` to ``b[k]`` and turns at its ends to knots ``left``, ``left + 1``.

    Knots are directions (radians). A knot that is ``held`` keeps its own. Pieces of one ``chain`` share knots and are
    accepted together; rings share their first knot and their last.
    """

    a: Complexes
    b: Complexes
    long: Floats
    left: Ints
    chain: Ints
    held: Bools
    ring_first: Ints
    ring_last: Ints


class Beads(NamedTuple):
    """The points between the ends: point j belongs to piece ``of[j]``, in order; at the parameter ``u[j]``."""

    z: Complexes
    of: Ints
    u: Floats


class Fit(NamedTuple):
    """Cubics (n, 4), the parameters of the points on them, and how far (mm) each point lies beside."""

    cubics: Complexes
    u: Floats
    beside: Floats
    angles: Floats


def curves(pieces: Pieces, angle: Floats, handle: Floats) -> Complexes:
    out, home = np.exp(1j * angle[pieces.left]), np.exp(1j * angle[pieces.left + 1])
    found: Complexes = np.stack(
        [pieces.a, pieces.a + handle[0] * out, pieces.b - handle[1] * home, pieces.b], axis=1
    )
    return found


def at(cubics: Complexes, of: Ints, u: Floats) -> tuple[Complexes, Complexes, Complexes]:
    """Points, first and second derivatives."""
    p = np.take(cubics, of, axis=0)
    v = 1.0 - u
    d0, d1, d2 = p[:, 1] - p[:, 0], p[:, 2] - p[:, 1], p[:, 3] - p[:, 2]
    first = 3.0 * (v * v * d0 + 2.0 * v * u * d1 + u * u * d2)
    second = 6.0 * (v * (d1 - d0) + u * (d2 - d1))
    where = v * v * (v * p[:, 0] + 3.0 * u * p[:, 1]) + u * u * (3.0 * v * p[:, 2] + u * p[:, 3])
    return where, first, second


def feet(cubics: Complexes, of: Ints, z: Complexes, u: Floats, rounds: int) -> Floats:
    """The parameters at the feet of the perpendiculars from the points, by Newton's steps from u."""
    for _ in range(rounds):
        where, first, second = at(cubics, of, u)
        gap = where - z
        square = np.abs(first) ** 2
        slope = square + (gap * second.conj()).real
        slope = np.where(slope > 0.25 * square, slope, square)
        step = np.divide((gap * first.conj()).real, slope, out=np.zeros_like(u), where=slope > 0)
        u = np.clip(u - np.clip(step, -0.2, 0.2), 0.0, 1.0)
    return u


def handles(pieces: Pieces, beads: Beads, angle: Floats) -> Floats:
    """Lengths of the handles (2, n) by linear least squares for known directions and parameters; else a third."""
    count = len(pieces.a)
    out, home = np.exp(1j * angle[pieces.left]), np.exp(1j * angle[pieces.left + 1])
    u, of = beads.u, beads.of
    v = 1.0 - u
    one, two = 3.0 * v * v * u, 3.0 * v * u * u
    rest = beads.z - (v * v * v + one) * pieces.a[of] - (two + u * u * u) * pieces.b[of]
    p, q = one * out[of], -two * home[of]
    pp, qq = _sum(one * one, of, count), _sum(two * two, of, count)
    pq, pr, qr = (_sum((x.conj() * y).real, of, count) for x, y in ((p, q), (p, rest), (q, rest)))
    det = pp * qq - pq * pq
    sound = det > 1e-6 * pp * qq
    safe = np.where(sound, det, 1.0)
    found = np.stack([(pr * qq - qr * pq) / safe, (qr * pp - pr * pq) / safe])
    share = found / pieces.long
    sound &= ((share > 0.02) & (share < 1.0)).all(axis=0)
    result: Floats = np.where(sound, found, pieces.long / 3.0)
    return result


def _sum(values: Floats, of: Ints, count: int) -> Floats:
    total: Floats = np.bincount(of, values, count)
    return total


def fit(
    pieces: Pieces, beads: Beads, angle: Floats, handle: Floats | None = None, rounds: int = ROUNDS
) -> Fit:
    """The cubics closest to the points, starting from directions of the knots (radians)."""
    count = len(pieces.a)
    if handle is None:
        handle = handles(pieces, beads, angle)
        u = feet(curves(pieces, angle, handle), beads.of, beads.z, beads.u, 2)
        handle = handles(pieces, beads._replace(u=u), angle)
    else:
        u = beads.u
    cubics = curves(pieces, angle, handle)
    u = feet(cubics, beads.of, beads.z, u, 3)
    chains = int(pieces.chain[-1]) + 1 if count else 0
    chain_of_bead = pieces.chain[beads.of]
    points = np.maximum(np.bincount(chain_of_bead, minlength=chains), 1)
    knot_chain = np.zeros(len(angle), dtype=np.intp)
    knot_chain[pieces.left], knot_chain[pieces.left + 1] = pieces.chain, pieces.chain
    cost = _sum(np.abs(at(cubics, beads.of, u)[0] - beads.z) ** 2, chain_of_bead, chains)
    damp = np.full(chains, 1e-3)
    going = np.ones(chains, dtype=bool)
    for _ in range(rounds):
        turn, stretch = _step(pieces, beads.z, beads.of, u, cubics, angle, handle, damp)
        tried_angle = angle + np.clip(turn, -0.3, 0.3)
        tried_handle = np.clip(
            handle + np.clip(stretch, -0.3 * pieces.long, 0.3 * pieces.long),
            SHORTEST * pieces.long,
            LONGEST * pieces.long,
        )
        tried = curves(pieces, tried_angle, tried_handle)
        tried_u = feet(tried, beads.of, beads.z, u, 2)
        tried_cost = _sum(np.abs(at(tried, beads.of, tried_u)[0] - beads.z) ** 2, chain_of_bead, chains)
        better = going & (tried_cost < cost)
        slow = better & (cost - tried_cost < 1e-4 * cost)
        angle = np.where(better[knot_chain], tried_angle, angle)
        taken = better[pieces.chain]
        handle = np.where(taken, tried_handle, handle)
        cubics = np.where(taken[:, None], tried, cubics)
        u = np.where(taken[beads.of], tried_u, u)
        cost = np.where(better, tried_cost, cost)
        damp = np.clip(np.where(better, damp * 0.1, damp * 8.0), 1e-12, 1e8)
        going &= (cost > points * CLOSE_ENOUGH**2) & (damp < 1e4) & ~slow
        if not going.any():
            break
    beside = np.abs(at(cubics, beads.of, u)[0] - beads.z)
    return Fit(cubics, u, beside, angle)


def _step(
    pieces: Pieces,
    z: Complexes,
    of: Ints,
    u: Floats,
    cubics: Complexes,
    angle: Floats,
    handle: Floats,
    damp: Floats,
) -> tuple[Floats, Floats]:
    """Marquardt's step: the turns of the knots and the growth of the handles (2, n)."""
    count = len(pieces.a)
    where, first, _ = at(cubics, of, u)
    size = np.abs(first)
    normal = 1j * np.divide(first, size, out=np.ones_like(first), where=size > 0)
    off = ((where - z) * normal.conj()).real
    out, home = np.exp(1j * angle[pieces.left]), np.exp(1j * angle[pieces.left + 1])
    v = 1.0 - u
    p, q = 3.0 * v * v * u * normal.conj() * out[of], -3.0 * v * u * u * normal.conj() * home[of]
    # Turning a handle moves its end across it by its length.
    columns = np.stack([p.real, q.real, -p.imag * handle[0][of], -q.imag * handle[1][of]])
    held = pieces.held
    columns[2][held[pieces.left][of]] = 0.0
    columns[3][held[pieces.left + 1][of]] = 0.0
    h = np.empty((4, 4, count))
    g = np.empty((4, count))
    for i in range(4):
        g[i] = _sum(columns[i] * off, of, count)
        for j in range(i, 4):
            h[i, j] = h[j, i] = _sum(columns[i] * columns[j], of, count)
    more = damp[pieces.chain]
    scale = np.stack([np.ones(count), np.ones(count), handle[0] ** 2, handle[1] ** 2])
    for i in range(4):
        # What the points say nothing about stays as it is.
        h[i, i] += more * h[i, i] + 1e-9 * scale[i]
    det = h[0, 0] * h[1, 1] - h[0, 1] ** 2
    inverse = np.stack([h[1, 1], -h[0, 1], -h[0, 1], h[0, 0]]).reshape(2, 2, count) / det
    tie = h[:2, 2:]
    carried = np.einsum("ijn,jkn->ikn", inverse, tie)
    schur = h[2:, 2:] - np.einsum("jin,jkn->ikn", tie, carried)
    right = g[2:] - np.einsum("jin,jn->in", carried, g[:2])
    diagonal, beside, total = np.zeros(len(angle)), np.zeros(len(angle)), np.zeros(len(angle))
    np.add.at(diagonal, pieces.left, schur[0, 0])
    np.add.at(diagonal, pieces.left + 1, schur[1, 1])
    np.add.at(total, pieces.left, right[0])
    np.add.at(total, pieces.left + 1, right[1])
    beside[pieces.left] = schur[0, 1]
    diagonal[held], total[held] = 1.0, 0.0
    beside[held] = 0.0
    beside[:-1][held[1:]] = 0.0
    turn = -solved(diagonal, beside, total, pieces.ring_first, pieces.ring_last)
    ends = np.stack([turn[pieces.left], turn[pieces.left + 1]])
    stretch = -np.einsum("ijn,jn->in", inverse, g[:2]) - np.einsum("ijn,jn->in", carried, ends)
    return turn, stretch
