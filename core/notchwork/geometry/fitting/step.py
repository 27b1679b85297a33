"""One step towards the cubics closest to their points, all unknowns at once."""

from __future__ import annotations

import numpy as np

from notchwork.geometry.cubics import Complexes, Floats, Ints
from notchwork.geometry.fitting.chains import solved
from notchwork.geometry.fitting.pieces import Feet, Pieces, summed

SILENT = 1e-9
"""What the points say nothing about stays as it is: a weight for every unknown that bends nothing they speak of."""
LEAST = 1e-14
"""A determinant is never less than this share of what it would be if its unknowns had nothing to do with each other."""


def step(
    pieces: Pieces, of: Ints, found: Feet, directions: Complexes, handle: Floats, damp: Floats
) -> tuple[Floats, Floats, Floats]:
    """Marquardt's step, damped for each chain: the turns of the knots (radians), the growth of the handles (2, n) in mm, and
    by how much at least (mm²) the sum of squares of each piece should fall.
    """
    h, g = _equations(pieces, of, found, directions, handle)
    more = 1.0 + (damp if pieces.single else damp[pieces.chain])
    for i in range(4):
        h[i, i] *= more
    h[0, 0] += SILENT
    h[1, 1] += SILENT
    h[2, 2] += SILENT * handle[0] ** 2
    h[3, 3] += SILENT * handle[1] ** 2
    # Handles belong to one piece alone: they are taken out, and what is left ties each knot to its neighbours.
    inverse = _inverse(h[0, 0], h[0, 1], h[1, 1])
    across = h[:2, 2:]
    carried = inverse[:, :1] * across[0] + inverse[:, 1:] * across[1]
    ties = h[2:, 2:] - across[0][:, None] * carried[0] - across[1][:, None] * carried[1]
    right = g[2:] - carried[0] * g[0] - carried[1] * g[1]
    if pieces.single:
        ends = -_times(_inverse(ties[0, 0], ties[0, 1], ties[1, 1]), right)
        turn = ends.T.ravel()
    else:
        turn = _turns(pieces, ties, right)
        ends = np.array([turn[pieces.left], turn[pieces.left + 1]])
    growth = -_times(inverse, g[:2]) - _times(carried, ends)
    fall = -(g[:2] * growth).sum(axis=0) - (g[2:] * ends).sum(axis=0)
    return turn, growth, fall


def _inverse(a: Floats, b: Floats, c: Floats) -> Floats:
    """Of the symmetric matrices a b, b c."""
    whole = a * c
    return np.array([[c, -b], [-b, a]]) / np.maximum(whole - b * b, LEAST * whole)


def _times(matrix: Floats, vector: Floats) -> Floats:
    found: Floats = matrix[:, 0] * vector[0] + matrix[:, 1] * vector[1]
    return found


def _turns(pieces: Pieces, ties: Floats, right: Floats) -> Floats:
    """By how much the knots turn that pieces share."""
    left, held, count = pieces.left, pieces.held, len(pieces.held)
    diagonal = summed(ties[0, 0], left, count) + summed(ties[1, 1], left + 1, count)
    total = summed(right[0], left, count) + summed(right[1], left + 1, count)
    beside = summed(ties[0, 1], left, count)
    diagonal[held], total[held], beside[held] = 1.0, 0.0, 0.0
    beside[:-1][held[1:]] = 0.0
    return -solved(diagonal, beside, total, pieces.ring_first, pieces.ring_last)


def _equations(
    pieces: Pieces, of: Ints, found: Feet, directions: Complexes, handle: Floats
) -> tuple[Floats, Floats]:
    """Gauss's normal equations of each piece (4, 4, n) and (4, n): out handle, home handle, left knot, right knot."""
    count = len(pieces.a)
    u, speed = found.u, found.speed
    size = np.abs(speed)
    along = np.divide(speed.conj(), size, out=np.ones_like(speed), where=size > 0.0)
    # A handle moves the curve by its share; what of that goes across the curve counts. Turned, it moves its end across itself.
    share = np.array([1.0 - u, -u])
    share *= 3.0 * u * (1.0 - u)
    seen = np.take(directions, of, axis=1)
    seen *= along
    seen *= share
    arms = np.where(pieces.held[[pieces.left, pieces.left + 1]], 0.0, handle)
    off = (found.gap * along).imag
    columns = np.concatenate([seen.imag, seen.real * np.take(arms, of, axis=1), off[None]])
    h, g = np.empty((4, 4, count)), np.empty((4, count))
    for i in range(4):
        products = columns[i] * columns[i:]
        for j in range(i, 4):
            h[i, j] = h[j, i] = summed(products[j - i], of, count)
        g[i] = summed(products[4 - i], of, count)
    return h, g
