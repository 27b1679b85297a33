"""What is fitted to what: cubics between knots, and the points that lie between their ends."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from notchwork.geometry.cubics import Bools, Complexes, Floats, Ints


class Pieces(NamedTuple):
    """Piece k runs from ``a[k]`` to ``b[k]``, is about ``long[k]`` mm long, and has the knots ``left[k]``, ``left[k] + 1``.

    Knots are directions (radians); one that is ``held`` keeps its own. Pieces of one ``chain`` follow each other and share
    knots. A ring's first knot and its last are the same.
    """

    a: Complexes
    b: Complexes
    long: Floats
    left: Ints
    chain: Ints
    held: Bools
    ring_first: Ints
    ring_last: Ints

    @property
    def chain_of_knot(self) -> Ints:
        """The chain of each knot."""
        found = np.zeros(len(self.held), dtype=np.intp)
        found[self.left], found[self.left + 1] = self.chain, self.chain
        return found

    def cubics(self, angle: Floats, handle: Floats) -> Complexes:
        """The cubics (n, 4) with these directions of the knots (radians) and lengths (mm) of the handles (2, n)."""
        out, home = np.exp(1j * angle[self.left]), np.exp(1j * angle[self.left + 1])
        found: Complexes = np.stack(
            [self.a, self.a + handle[0] * out, self.b - handle[1] * home, self.b], axis=1
        )
        return found


class Beads(NamedTuple):
    """Points strung between the ends: point j belongs to piece ``of[j]``, in order, at about the parameter ``u[j]``."""

    z: Complexes
    of: Ints
    u: Floats


class Feet(NamedTuple):
    """Where the perpendiculars from the points meet the curves: parameters, ways from the points (mm), derivatives there."""

    u: Floats
    gap: Complexes
    speed: Complexes


def feet(cubics: Complexes, beads: Beads, rounds: int) -> Feet:
    """By as many of Newton's steps, from the parameters of the beads."""
    a, b, c, d = cubics.T
    of, u = beads.of, beads.u
    c1, c2, c3 = (np.take(k, of) for k in (3.0 * (b - a), 3.0 * (a - 2.0 * b + c), d - a + 3.0 * (b - c)))
    start = np.take(a, of) - beads.z
    for k in range(rounds + 1):
        gap = start + u * (c1 + u * (c2 + u * c3))
        speed = c1 + u * (2.0 * c2 + 3.0 * u * c3)
        if k == rounds:
            break
        square = speed.real**2 + speed.imag**2
        slope = square + (gap * (2.0 * c2 + 6.0 * u * c3).conj()).real
        slope = np.where(slope > 0.25 * square, slope, square + 1e-30)
        u = np.clip(u - np.clip((gap * speed.conj()).real / slope, -0.2, 0.2), 0.0, 1.0)
    return Feet(u, gap, speed)


def chosen(which: Bools, these: Feet, others: Feet) -> Feet:
    """These where the mask is set, the others elsewhere."""
    return Feet(
        np.where(which, these.u, others.u),
        np.where(which, these.gap, others.gap),
        np.where(which, these.speed, others.speed),
    )


def summed(values: Floats, of: Ints, count: int) -> Floats:
    """The sum (count,) of the values of each."""
    return np.bincount(of, values, count).astype(np.float64)
