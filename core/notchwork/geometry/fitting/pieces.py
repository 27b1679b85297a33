"""What is fitted to what: cubics between knots, and the points that lie between their ends."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from notchwork.geometry.cubics import Bools, Complexes, Floats, Ints

POWERS = np.array(
    [[1.0, 0.0, 0.0, 0.0], [-3.0, 3.0, 0.0, 0.0], [3.0, -6.0, 3.0, 0.0], [-1.0, 3.0, -3.0, 1.0]]
)
"""From the points of a cubic to its coefficients of 1, u, u² and u³."""


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
    def single(self) -> bool:
        """Whether no piece shares a knot with another."""
        return len(self.held) == 2 * len(self.a)

    @property
    def chain_of_knot(self) -> Ints:
        """The chain of each knot."""
        found = np.zeros(len(self.held), dtype=np.intp)
        found[self.left], found[self.left + 1] = self.chain, self.chain
        return found

    def directions(self, angle: Floats) -> Complexes:
        """The directions (2, n) in which the pieces set off and arrive, as vectors of length 1."""
        at = np.exp(1j * angle)
        found: Complexes = np.array([at[self.left], at[self.left + 1]])
        return found

    def cubics(self, directions: Complexes, handle: Floats) -> Complexes:
        """The points (4, n) of the cubics with these directions and lengths (mm) of their handles (2, n)."""
        out, home = directions * handle
        return np.array([self.a, self.a + out, self.b - home, self.b])


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

    @property
    def squares(self) -> Floats:
        """Squared distances (mm²) of the points."""
        found: Floats = self.gap.real**2 + self.gap.imag**2
        return found


def feet(cubics: Complexes, z: Complexes, of: Ints, u: Floats, rounds: int) -> Feet:
    """By as many of Gauss's steps, from these parameters of the points, on the cubics (4, n)."""
    c0, c1, c2, c3 = np.take(POWERS @ cubics, of, axis=1)
    c0 -= z
    twice, thrice = 2.0 * c2, 3.0 * c3
    for k in range(rounds + 1):
        gap = ((c3 * u + c2) * u + c1) * u + c0
        speed = (thrice * u + twice) * u + c1
        if k == rounds:
            break
        x, y = speed.real, speed.imag
        ahead = (gap.real * x + gap.imag * y) / (x * x + y * y + 1e-30)
        u = u - np.minimum(np.maximum(ahead, -0.2), 0.2)
        np.minimum(np.maximum(u, 0.0, out=u), 1.0, out=u)
    return Feet(u, gap, speed)


def summed(values: Floats, of: Ints, count: int) -> Floats:
    """The sum (count,) of the values of each."""
    # Of nothing at all numpy counts in integers.
    return np.bincount(of, values, count).astype(np.float64, copy=False)
