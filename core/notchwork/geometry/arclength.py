"""Certified arc length of cubics, and the parameter at a given distance along them.

The derivative of a cubic, x' + iy', is a complex quadratic q(t); the speed is sqrt(q(t) q*(t)), analytic everywhere
but at the roots of q and their mirror images. Gauss-Legendre quadrature of a function analytic and at most M inside
the Bernstein ellipse of parameter rho is wrong by at most 64 M / (15 rho^(2n) (1 - rho^-2)) for n nodes
(L. N. Trefethen, Is Gauss quadrature better than Clenshaw-Curtis?, SIAM Review 50, 2008, theorem 4.5). So two square
roots bound the error of each curve before it is integrated. A curve whose bound is too large (cusp, loop, hairpin)
is cut beside the offending root and asked again. What lies within NEGLIGIBLE of its own chord is its chord.
"""

from __future__ import annotations

import functools
from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike

from notchwork.geometry.cubics import Bools, Complexes, Floats, Ints, as_cubics, hodographs

NEGLIGIBLE = 1e-8
"""Error (mm) granted to one stretch; a cusp is cut into at most some sixty of them."""
CHUNK = 512
"""Rows worked on at once: their nodes stay in the processor's cache, which is worth a factor of 3 to 6."""
BLOCK = 4 * CHUNK
RULES = (12, 20, 32)
"""Numbers of nodes: most curves of a garment are certified by the first."""
MOST_CUTS = 80


class Stretches(NamedTuple):
    """Pieces of cubics on which quadrature of the same order is certified, in no order."""

    row: Ints
    start: Floats
    end: Floats
    length: Floats
    hodograph: Complexes


@functools.cache
def gauss(nodes: int) -> tuple[Floats, Floats, Floats]:
    """Gauss-Legendre nodes and weights on [0, 1], and the quadratic Bernstein basis (3, nodes) at the nodes.

    By the eigenvalues of the Jacobi matrix (G. H. Golub and J. H. Welsch, Calculation of Gauss quadrature rules, Mathematics
    of Computation 23, 1969), since importing NumPy's polynomials takes longer than measuring a pattern.
    """
    k = np.arange(1, nodes)
    x, vectors = np.linalg.eigh(np.diag(k / np.sqrt(4.0 * k * k - 1.0), -1))
    u = (x + 1.0) / 2.0
    return u, vectors[0] ** 2, np.stack([(1.0 - u) ** 2, 2.0 * u * (1.0 - u), u**2])


class _Certificate(NamedTuple):
    """Of each stretch (n,): the ellipse in which its speed is analytic, the most the speed is there, the worst root."""

    rho: Floats
    most: Floats
    place: Floats
    """Where in [0, 1] the root that weighs most lies."""

    def bound(self, nodes: int) -> Floats:
        """The error (n,) in mm that quadrature with so many nodes cannot exceed."""
        with np.errstate(divide="ignore"):
            error: Floats = 32.0 / 15.0 * self.most * self.rho ** (-2.0 * nodes) / (1.0 - self.rho**-2.0)
        return error


def _certificate(h: Complexes) -> _Certificate:
    constant = (h[:, 0] + 2.0 * h[:, 1] + h[:, 2]) / 4.0
    linear = (h[:, 2] - h[:, 0]) / 2.0
    square = (h[:, 0] - 2.0 * h[:, 1] + h[:, 2]) / 4.0
    root = np.sqrt(linear * linear - 4.0 * square * constant)
    towards = (linear.conj() * root).real < 0.0
    stable = -0.5 * (linear + np.where(towards, -root, root))
    with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
        roots = np.stack([stable / square, constant / stable])
        # A quotient by zero means the root lies at infinity, out of harm's way; so does one beyond 1e6.
        roots[~(np.abs(roots) < 1e6)] = 1e6
    # Twice the larger half-axis of the ellipse through a root is the sum of its distances from -1 and 1.
    half_axis = (np.abs(roots - 1.0) + np.abs(roots + 1.0)) / 2.0
    nearer = half_axis[1] < half_axis[0]
    # Any smaller ellipse certifies too; 4 is ample, and keeps the bound on the speed inside it low.
    axis = np.minimum(np.where(nearer, half_axis[1], half_axis[0]), 4.0) * (1.0 - 1e-12)
    axis = np.maximum(axis, 1.0)
    most = np.abs(constant) + np.abs(linear) * axis + np.abs(square) * axis * axis
    place = (np.where(nearer, roots[1], roots[0]).real + 1.0) / 2.0
    return _Certificate(axis + np.sqrt(axis * axis - 1.0), most, place)


def _part_of(h: Complexes, a: Floats, b: Floats) -> Complexes:
    """The hodographs of the stretches from a to b of the stretches h, each again over [0, 1]."""

    def blossom(s: Floats, t: Floats) -> Complexes:
        return (1.0 - s) * (1.0 - t) * h[:, 0] + (s * (1.0 - t) + t * (1.0 - s)) * h[:, 1] + s * t * h[:, 2]

    return np.stack([blossom(a, a), blossom(a, b), blossom(b, b)], axis=1) * (b - a)[:, None]


def _measure(h: Complexes, rules: tuple[int, ...]) -> tuple[Floats, Bools, Floats]:
    """Lengths (n,) of the stretches, which of them are certified, and where to cut the others."""
    length = np.abs(h.sum(axis=1)) / 3.0
    polygon = np.abs(h).sum(axis=1) / 3.0
    certified = polygon - length <= NEGLIGIBLE
    certificate = _certificate(h)
    for nodes in rules:
        now = np.flatnonzero(~certified & (certificate.bound(nodes) <= NEGLIGIBLE))
        if now.size:
            _, weights, basis = gauss(nodes)
            x, y = h.real[now] @ basis, h.imag[now] @ basis
            length[now] = np.sqrt(x * x + y * y) @ weights
            certified[now] = True
        if certified.all():
            break
    place = certificate.place
    # A root at a stretch's very end cannot be cut away, only crept up to.
    return length, certified, np.where((place > 0.02) & (place < 0.98), place, 0.5)


def certified_stretches(cubics: Complexes, panels: int, rules: tuple[int, ...]) -> Stretches:
    """Every cubic cut into equal panels, and these as often as it takes until one of the rules is certified."""
    count = len(cubics)
    row = np.repeat(np.arange(count), panels)
    start = np.tile(np.arange(panels) / panels, count)
    end = np.tile(np.arange(1, panels + 1) / panels, count)
    h = hodographs(cubics)
    if panels > 1:
        h = _part_of(h[row], start, end)
    done: list[Stretches] = []
    for _ in range(MOST_CUTS):
        measured = [_measure(h[k : k + CHUNK], rules) for k in range(0, len(h), CHUNK)]
        if not measured:
            break
        length, certified, place = (np.concatenate(column) for column in zip(*measured, strict=True))
        if certified.all():
            done.append(Stretches(row, start, end, length, h))
            break
        done.append(
            Stretches(row[certified], start[certified], end[certified], length[certified], h[certified])
        )
        row, start, end, h, place = (c[~certified] for c in (row, start, end, h, place))
        middle = start + place * (end - start)
        none, whole = np.zeros_like(place), np.ones_like(place)
        h = np.concatenate([_part_of(h, none, place), _part_of(h, place, whole)])
        row, start, end = np.tile(row, 2), np.concatenate([start, middle]), np.concatenate([middle, end])
    else:
        raise ValueError("the length of a curve could not be certified: its coordinates are too large")
    if not done:
        return Stretches(row, start, end, np.zeros(0), h)
    return Stretches(*(np.concatenate(column) for column in zip(*done, strict=True)))


def sums(values: Floats, row: Ints, count: int) -> Floats:
    """The sum (count,) of the values of each row."""
    return np.bincount(row, weights=values, minlength=count).astype(np.float64)


def lengths(cubics: ArrayLike) -> Floats:
    """Arc lengths (n,) in mm of the cubics (n, 4), each within 1e-6 mm; of a straight row its exact chord.

    Raises ValueError if the array has another shape or holds a number that is not finite.
    """
    array = as_cubics(cubics)
    total = np.empty(len(array))
    for k in range(0, len(array), BLOCK):
        total[k : k + BLOCK] = _lengths(array[k : k + BLOCK])
    return total


def _lengths(cubics: Complexes) -> Floats:
    chord: Floats = np.abs(cubics[:, 3] - cubics[:, 0])
    polygon = np.abs(cubics[:, 1:] - cubics[:, :-1]) @ np.ones(3)
    bent = np.flatnonzero(polygon - chord > NEGLIGIBLE)
    stretches = certified_stretches(cubics[bent], panels=1, rules=RULES)
    chord[bent] = sums(stretches.length, stretches.row, len(bent))
    return chord
