"""Cubics laid through points: handles, tangents and the places of the points on the curve are fitted together.

The sum of squared distances is made least by Levenberg's and Marquardt's steps (K. Levenberg 1944, D. Marquardt 1963).
Only handles and tangents are unknowns: each point lies at the foot of its perpendicular on the curve, so that its residual
counts across the curve only (variable projection, G. H. Golub & V. Pereyra 1973, in L. Kaufman's simplified form, 1975).
Setting handles and feet in turns instead (P. J. Schneider, Graphics Gems, 1990) creeps: every turn moves a point along the
curve by a little only.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import NamedTuple

import numpy as np

from notchwork.geometry.cubics import Bools, Complexes, Floats, Ints
from notchwork.geometry.fitting.pieces import Beads, Feet, Pieces, chosen, feet, summed
from notchwork.geometry.fitting.step import step

SHORTEST, LONGEST = 1e-4, 2.0
"""Handles are kept between these shares of the stretch they shape."""
ROUNDS = 40
CLOSE_ENOUGH = 1e-7
"""mm: closer to the points (in the mean) a fit need not come."""
STUCK = 1e4
"""Steps damped by more than this lead nowhere."""


class Fit(NamedTuple):
    """Cubics (n, 4), the parameters of the points on them, how far (mm) each lies beside, and the directions of the knots."""

    cubics: Complexes
    u: Floats
    beside: Floats
    angles: Floats


@dataclass(frozen=True)
class _State:
    """Where the fit of some chains stands; the numbers say which chains, pieces, beads and knots of the whole these are."""

    pieces: Pieces
    beads: Beads
    feet: Feet
    angle: Floats
    handle: Floats
    cost: Floats
    damp: Floats
    chains: Ints
    numbers: tuple[Ints, Ints, Ints]


def fit(
    pieces: Pieces,
    beads: Beads,
    angle: Floats,
    handle: Floats | None = None,
    hopeless: float = np.inf,
) -> Fit:
    """The cubics closest to the points, starting from directions of the knots (radians).

    Their handles (2, n) start from these lengths (mm); if none are given, by least squares. Chains that lie further than
    hopeless (mm) beside their points and hardly get nearer are given up.
    """
    state = _begun(pieces, beads, angle, handle)
    cubics = pieces.cubics(state.angle, state.handle)
    u, beside, angles = state.feet.u.copy(), np.abs(state.feet.gap), state.angle.copy()
    points = np.maximum(np.bincount(pieces.chain[beads.of], minlength=len(state.cost)), 1)
    for _ in range(ROUNDS):
        state, better, slow = _stepped(state)
        many = points[state.chains]
        slow |= (better < 0.05) & (state.cost > many * hopeless**2)
        going = (state.cost > many * CLOSE_ENOUGH**2) & (state.damp < STUCK) & ~slow
        if going.all():
            continue
        piece, bead, knot = state.numbers
        cubics[piece] = state.pieces.cubics(state.angle, state.handle)
        u[bead], beside[bead] = state.feet.u, np.abs(state.feet.gap)
        angles[knot] = state.angle
        if not going.any():
            return Fit(cubics, u, beside, angles)
        state = _only(state, going)
    piece, bead, knot = state.numbers
    cubics[piece] = state.pieces.cubics(state.angle, state.handle)
    u[bead], beside[bead] = state.feet.u, np.abs(state.feet.gap)
    angles[knot] = state.angle
    return Fit(cubics, u, beside, angles)


def _begun(pieces: Pieces, beads: Beads, angle: Floats, handle: Floats | None) -> _State:
    if handle is None:
        handle = _handles(pieces, beads, angle)
        near = feet(pieces.cubics(angle, handle), beads, 2)
        handle = _handles(pieces, beads._replace(u=near.u), angle)
    found = feet(pieces.cubics(angle, handle), beads, 6)
    chains = int(pieces.chain[-1]) + 1 if len(pieces.chain) else 0
    everything = (np.arange(len(pieces.a)), np.arange(len(beads.of)), np.arange(len(angle)))
    cost = _cost(pieces, beads, found, chains)
    return _State(
        pieces, beads, found, angle, handle, cost, np.full(chains, 1e-3), np.arange(chains), everything
    )


def _handles(pieces: Pieces, beads: Beads, angle: Floats) -> Floats:
    """Lengths of the handles (2, n) by linear least squares for known directions and parameters; else a third."""
    count = len(pieces.a)
    out, home = np.exp(1j * angle[pieces.left]), np.exp(1j * angle[pieces.left + 1])
    u, of = beads.u, beads.of
    v = 1.0 - u
    one, two = 3.0 * v * v * u, 3.0 * v * u * u
    rest = beads.z - (v * v * v + one) * pieces.a[of] - (two + u * u * u) * pieces.b[of]
    p, q = one * out[of], -two * home[of]
    pp, qq = summed(one * one, of, count), summed(two * two, of, count)
    pq, pr, qr = (summed((x.conj() * y).real, of, count) for x, y in ((p, q), (p, rest), (q, rest)))
    det = pp * qq - pq * pq
    good = det > 1e-6 * pp * qq
    safe = np.where(good, det, 1.0)
    found = np.stack([(pr * qq - qr * pq) / safe, (qr * pp - pr * pq) / safe])
    share = found / pieces.long
    good &= ((share > 0.02) & (share < 1.0)).all(axis=0)
    handle: Floats = np.where(good, found, pieces.long / 3.0)
    return handle


def _cost(pieces: Pieces, beads: Beads, found: Feet, chains: int) -> Floats:
    return summed(found.gap.real**2 + found.gap.imag**2, pieces.chain[beads.of], chains)


def _stepped(state: _State) -> tuple[_State, Floats, Bools]:
    """The state after a step, by which share the cost of each chain fell, and where it fell by nothing to speak of."""
    pieces, beads = state.pieces, state.beads
    turn, growth = step(pieces, beads.of, state.feet, state.angle, state.handle, state.damp)
    angle = state.angle + np.clip(turn, -0.3, 0.3)
    most = 0.3 * pieces.long
    handle = state.handle + np.clip(growth, -most, most)
    handle = np.clip(handle, SHORTEST * pieces.long, LONGEST * pieces.long)
    found = feet(pieces.cubics(angle, handle), beads._replace(u=state.feet.u), 2)
    cost = _cost(pieces, beads, found, len(state.cost))
    better = cost < state.cost
    fell = np.where(better, (state.cost - cost) / np.maximum(state.cost, 1e-300), 1.0)
    piece = better[pieces.chain]
    bead = piece[beads.of]
    stepped = replace(
        state,
        feet=chosen(bead, found, state.feet),
        angle=np.where(better[pieces.chain_of_knot], angle, state.angle),
        handle=np.where(piece, handle, state.handle),
        cost=np.where(better, cost, state.cost),
        damp=np.clip(np.where(better, state.damp * 0.1, state.damp * 8.0), 1e-12, 1e8),
    )
    return stepped, fell, fell < 1e-4


def _only(state: _State, going: Bools) -> _State:
    """The state of some chains alone: what has arrived is not worked on any more."""
    p, b = state.pieces, state.beads
    piece, knot = going[p.chain], going[p.chain_of_knot]
    bead = piece[b.of]
    chain_at, piece_at, knot_at = (np.cumsum(kept) - 1 for kept in (going, piece, knot))
    ring = knot[p.ring_first]
    pieces = Pieces(
        p.a[piece],
        p.b[piece],
        p.long[piece],
        knot_at[p.left[piece]],
        chain_at[p.chain[piece]],
        p.held[knot],
        knot_at[p.ring_first[ring]],
        knot_at[p.ring_last[ring]],
    )
    numbers = tuple(all_[kept] for all_, kept in zip(state.numbers, (piece, bead, knot), strict=True))
    return _State(
        pieces,
        Beads(b.z[bead], piece_at[b.of[bead]], b.u[bead]),
        Feet(state.feet.u[bead], state.feet.gap[bead], state.feet.speed[bead]),
        state.angle[knot],
        state.handle[:, piece],
        state.cost[going],
        state.damp[going],
        state.chains[going],
        (numbers[0], numbers[1], numbers[2]),
    )
