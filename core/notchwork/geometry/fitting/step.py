"""One step towards the cubics closest to their points, all unknowns at once."""

from __future__ import annotations

import numpy as np

from notchwork.geometry.cubics import Floats, Ints
from notchwork.geometry.fitting.chains import solved
from notchwork.geometry.fitting.pieces import Feet, Pieces, summed

SILENT = 1e-9
"""What the points say nothing about stays as it is: a weight for every unknown that bends nothing they speak of."""


def step(
    pieces: Pieces, of: Ints, found: Feet, angle: Floats, handle: Floats, damp: Floats
) -> tuple[Floats, Floats]:
    """Marquardt's step, damped for each chain: the turns of the knots (radians), the growth of the handles (2, n) in mm."""
    h, g = _equations(pieces, of, found, angle, handle)
    more = 1.0 + damp[pieces.chain]
    for i, scale in enumerate((1.0, 1.0, handle[0] ** 2, handle[1] ** 2)):
        h[i, i] = more * h[i, i] + SILENT * scale
    # Handles belong to one piece alone: they are taken out, and what is left ties each knot to its neighbours.
    det = h[0, 0] * h[1, 1] - h[0, 1] ** 2
    inverse = np.stack([h[1, 1], -h[0, 1], -h[0, 1], h[0, 0]]).reshape(2, 2, -1) / det
    carried = np.einsum("ijn,jkn->ikn", inverse, h[:2, 2:])
    ties = h[2:, 2:] - np.einsum("jin,jkn->ikn", h[:2, 2:], carried)
    right = g[2:] - np.einsum("jin,jn->in", carried, g[:2])
    left, held, count = pieces.left, pieces.held, len(angle)
    diagonal = summed(ties[0, 0], left, count) + summed(ties[1, 1], left + 1, count)
    total = summed(right[0], left, count) + summed(right[1], left + 1, count)
    beside = summed(ties[0, 1], left, count)
    diagonal[held], total[held], beside[held] = 1.0, 0.0, 0.0
    beside[:-1][held[1:]] = 0.0
    turn = -solved(diagonal, beside, total, pieces.ring_first, pieces.ring_last)
    ends = np.stack([turn[left], turn[left + 1]])
    growth: Floats = -np.einsum("ijn,jn->in", inverse, g[:2]) - np.einsum("ijn,jn->in", carried, ends)
    return turn, growth


def _equations(pieces: Pieces, of: Ints, found: Feet, angle: Floats, handle: Floats) -> tuple[Floats, Floats]:
    """Gauss's normal equations of each piece (4, 4, n) and (4, n): out handle, home handle, left knot, right knot."""
    count = len(pieces.a)
    u, speed = found.u, found.speed
    size = np.abs(speed)
    across = np.divide(-1j * speed.conj(), size, out=np.ones_like(speed), where=size > 0.0)
    off = (found.gap * across).real
    v = 1.0 - u
    p = (3.0 * v * v * u) * across * np.exp(1j * angle[pieces.left])[of]
    q = (-3.0 * v * u * u) * across * np.exp(1j * angle[pieces.left + 1])[of]
    # Turning a handle moves its end across it by its length.
    columns = (
        p.real,
        q.real,
        -p.imag * np.where(pieces.held[pieces.left], 0.0, handle[0])[of],
        -q.imag * np.where(pieces.held[pieces.left + 1], 0.0, handle[1])[of],
    )
    h, g = np.empty((4, 4, count)), np.empty((4, count))
    for i, column in enumerate(columns):
        g[i] = summed(column * off, of, count)
        for j in range(i, 4):
            h[i, j] = h[j, i] = summed(column * columns[j], of, count)
    return h, g
