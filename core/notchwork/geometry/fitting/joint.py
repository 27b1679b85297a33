"""Cubics laid through points: handles, tangents and the places of the points on the curve are fitted together.

The sum of squared distances is made least by Levenberg's and Marquardt's steps (K. Levenberg 1944, D. Marquardt 1963).
Only handles and tangents are unknowns: each point lies at the foot of its perpendicular on the curve, so that its residual
counts across the curve only (variable projection, G. H. Golub & V. Pereyra 1973, in L. Kaufman's simplified form, 1975).
Every step is taken, even one that leads further off, and the nearest place visited is kept (after the nonmonotone searches of
L. Grippo, F. Lampariello & S. Lucidi 1986): where few points leave a bent valley, that takes half as many steps.
Setting handles and feet in turns instead (P. J. Schneider, Graphics Gems, 1990) creeps: every turn moves a point along the
curve by a little only.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from notchwork.geometry.cubics import Bools, Complexes, Floats, Ints
from notchwork.geometry.fitting.pieces import Beads, Feet, Pieces, feet, summed
from notchwork.geometry.fitting.step import step

SHORTEST, LONGEST = 1e-4, 2.0
"""Handles are kept between these shares of the stretch they shape."""
SLOW = 1e-3
"""A step that promises less than this share of what is left is not worth taking."""


class Aim(NamedTuple):
    """When a chain is left as it is, by distances (mm) of its points in the mean.

    Nearer than ``enough`` it need not come. Nearer than ``near`` it goes on only while a step takes half of the sum of squares
    away, further than ``hopeless`` only while a step takes 5 % away. No chain is given more than ``rounds`` steps; the first
    is damped by ``damp``.
    """

    enough: float = 1e-7
    near: float = 1e-7
    hopeless: float = np.inf
    rounds: int = 40
    damp: float = 1e-3


class Fit(NamedTuple):
    """Cubics (n, 4), the parameters of the points on them, how far (mm) each lies beside, and the directions of the knots."""

    cubics: Complexes
    u: Floats
    beside: Floats
    angles: Floats


@dataclass(slots=True, eq=False)
class _State:
    """Where the fit of some chains stands; the numbers say which pieces, beads and knots of the whole these are.

    ``least`` is the least sum of squares (mm²) of each chain so far.
    """

    pieces: Pieces
    z: Complexes
    of: Ints
    feet: Feet
    angle: Floats
    handle: Floats
    directions: Complexes
    cost: Floats
    damp: Floats
    least: Floats
    points: Floats
    numbers: tuple[Ints, Ints, Ints]


def fit(
    pieces: Pieces, beads: Beads, angle: Floats, handle: Floats | None = None, aim: Aim | None = None
) -> Fit:
    """The cubics closest to the points, starting from directions of the knots (radians).

    Their handles (2, n) start from these lengths (mm); if none are given, by least squares.
    """
    aim = aim or Aim()
    state, cubics = _begun(pieces, beads, angle, handle, aim.damp)
    found = Fit(cubics.T.copy(), state.feet.u.copy(), np.abs(state.feet.gap), state.angle.copy())
    for _ in range(aim.rounds):
        going = _stepped(state, aim, found)
        left = int(np.count_nonzero(going))
        if left == 0:
            break
        # Chains that have arrived are dropped when enough of them have.
        if 4 * left <= 3 * len(going):
            state = _only(state, going)
    return found


def _begun(
    pieces: Pieces, beads: Beads, angle: Floats, handle: Floats | None, damp: float
) -> tuple[_State, Complexes]:
    z, of, u = beads
    directions = pieces.directions(angle)
    if handle is None:
        handle = _handles(pieces, beads, directions)
        near = feet(pieces.cubics(directions, handle), z, of, u, 2)
        handle = _handles(pieces, beads._replace(u=near.u), directions)
    cubics = pieces.cubics(directions, handle)
    found = feet(cubics, z, of, u, 6)
    chains = int(pieces.chain[-1]) + 1 if len(pieces.chain) else 0
    chain = pieces.chain[of]
    cost = summed(found.squares, chain, chains)
    state = _State(
        pieces,
        z,
        of,
        found,
        angle,
        handle,
        directions,
        cost,
        np.full(chains, damp),
        cost,
        np.maximum(np.bincount(chain, minlength=chains), 1.0),
        (np.arange(len(pieces.a)), np.arange(len(of)), np.arange(len(angle))),
    )
    return state, cubics


def _handles(pieces: Pieces, beads: Beads, directions: Complexes) -> Floats:
    """Lengths of the handles (2, n) by linear least squares for known directions and parameters; else a third."""
    count = len(pieces.a)
    u, of = beads.u, beads.of
    v = 1.0 - u
    one, two = 3.0 * v * v * u, 3.0 * v * u * u
    rest = beads.z - (v * v * v + one) * pieces.a[of] - (two + u * u * u) * pieces.b[of]
    out, home = np.take(directions, of, axis=1)
    p, q = one * out, -two * home
    pp, qq = summed(one * one, of, count), summed(two * two, of, count)
    pq, pr, qr = (summed((x.conj() * y).real, of, count) for x, y in ((p, q), (p, rest), (q, rest)))
    det = pp * qq - pq * pq
    good = det > 1e-6 * pp * qq
    safe = np.where(good, det, 1.0)
    found = np.array([(pr * qq - qr * pq) / safe, (qr * pp - pr * pq) / safe])
    share = found / pieces.long
    good &= ((share > 0.02) & (share < 1.0)).all(axis=0)
    handle: Floats = np.where(good, found, pieces.long / 3.0)
    return handle


def _stepped(state: _State, aim: Aim, found: Fit) -> Bools:
    """One step, noted where it led nearer than any before; which chains are worth another."""
    pieces, old = state.pieces, state.cost
    turn, growth, promised = step(pieces, state.of, state.feet, state.directions, state.handle, state.damp)
    of_bead = state.of
    if not pieces.single:
        promised = summed(promised, pieces.chain, len(old))
        of_bead = pieces.chain[of_bead]
    most = 0.3 * pieces.long
    handle = state.handle + np.minimum(np.maximum(growth, -most), most)
    state.handle = np.minimum(np.maximum(handle, SHORTEST * pieces.long), LONGEST * pieces.long)
    state.angle = state.angle + np.minimum(np.maximum(turn, -0.3), 0.3)
    state.directions = pieces.directions(state.angle)
    cubics = pieces.cubics(state.directions, state.handle)
    state.feet = feet(cubics, state.z, state.of, state.feet.u, 2)
    cost = state.cost = summed(state.feet.squares, of_bead, len(old))
    better = cost < state.least
    _noted(found, state, cubics, better)
    state.least = np.minimum(cost, state.least)
    # A step is trusted as far as the last one kept its promise. One that leads further off is taken all the same: from
    # there the next comes back further along a bent valley than small steps within it would.
    fell = old - cost
    state.damp = state.damp * np.where(
        fell > 0.75 * promised, 0.1, np.where(fell < 0.25 * promised, 4.0, 1.0)
    )
    np.maximum(state.damp, 1e-12, out=state.damp)
    mean = state.least / state.points
    going: Bools = (mean > aim.enough**2) & (promised > SLOW * old)
    going &= (mean > aim.near**2) | (fell > 0.5 * old)
    going &= (mean < aim.hopeless**2) | ~better | (fell > 0.05 * old)
    return going


def _noted(found: Fit, state: _State, cubics: Complexes, better: Bools) -> None:
    piece, bead, knot = state.numbers
    if better.all():
        found.cubics[piece] = cubics.T
        found.u[bead], found.beside[bead] = state.feet.u, np.abs(state.feet.gap)
        found.angles[knot] = state.angle
    elif better.any():
        good = better[state.pieces.chain]
        found.cubics[piece[good]] = cubics[:, good].T
        near, turned = good[state.of], better[state.pieces.chain_of_knot]
        bead = bead[near]
        found.u[bead], found.beside[bead] = state.feet.u[near], np.abs(state.feet.gap[near])
        found.angles[knot[turned]] = state.angle[turned]


def _only(state: _State, going: Bools) -> _State:
    """The state of some chains alone: what has arrived is not worked on any more."""
    p = state.pieces
    piece, knot = going[p.chain], going[p.chain_of_knot]
    bead = piece[state.of]
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
    numbers = state.numbers
    return _State(
        pieces,
        state.z[bead],
        piece_at[state.of[bead]],
        Feet(state.feet.u[bead], state.feet.gap[bead], state.feet.speed[bead]),
        state.angle[knot],
        state.handle[:, piece],
        state.directions[:, piece],
        state.cost[going],
        state.damp[going],
        state.least[going],
        state.points[going],
        (numbers[0][piece], numbers[1][bead], numbers[2][knot]),
    )
