"""B-splines as Bézier curves, span by span, and Bézier curves of any degree as cubics.

Sources: Piegl and Tiller, The NURBS Book, chapters 2 to 5; the control points of a span are its blossom at the span's ends
(Ramshaw, 1989).
"""

from __future__ import annotations

from math import comb
from typing import TypeVar

import numpy as np

from notchwork.geometry.cubics import Complexes, Floats, Ints

CLOSE = 1e-3
"""mm by which cubics may lie beside a curve that no cubic can be."""

MOST_ROUNDS = 12
"""A span is halved so often at most."""

_AT = np.linspace(0.0, 1.0, 11)[1:-1]
"""Where a cubic is compared with the curve."""

Some = TypeVar("Some", Complexes, Floats)


def spans(knots: Floats, degree: int) -> Ints:
    """The numbers k of the intervals from knot k to knot k + 1 that the curve runs through and that are no single point."""
    k = np.arange(degree, len(knots) - degree - 1)
    return k[knots[k + 1] > knots[k]]


def blossomed(controls: Complexes, knots: Floats, degree: int) -> Complexes:
    """The control points (s, degree + 1) of each of s spans as a Bézier curve.

    ``controls`` (s, degree + 1, ...) are those that a span hangs on, ``knots`` (s, 2·degree) those about it: its own ends
    are the two in the middle.
    """
    low, high = knots[:, degree - 1], knots[:, degree]
    found = []
    for turned in range(degree + 1):
        # turned arguments are the span's end, the others its start.
        points = controls
        for level in range(1, degree + 1):
            at = high if level <= turned else low
            count = degree - level + 1
            left = knots[:, level - 1 : level - 1 + count]
            right = knots[:, degree : degree + count]
            with np.errstate(all="ignore"):
                share = (at[:, None] - left) / (right - left)
            share = share.reshape(*share.shape, *[1] * (points.ndim - 2))
            points = points[:, :-1] * (1.0 - share) + points[:, 1:] * share
        found.append(points[:, 0])
    return np.stack(found, axis=1)


def raised(beziers: Complexes) -> Complexes:
    """Bézier curves (s, n) of degree 1 to 3 as cubics (s, 4), which are the same curves."""
    while beziers.shape[1] < 4:
        n = beziers.shape[1]
        share = np.arange(1, n) / n
        inner = beziers[:, :-1] * share + beziers[:, 1:] * (1.0 - share)
        beziers = np.concatenate([beziers[:, :1], inner, beziers[:, -1:]], axis=1)
    return beziers


def approximated(points: Complexes, weights: Floats, close: Floats) -> tuple[Complexes, Ints]:
    """Rational Bézier curves (s, n) as cubics (m, 4) that lie within ``close`` (s,) of them, in order, and whose each is.

    Each cubic starts, ends and sets off as its part of the curve does; parts are halved until that is close enough.
    """
    owner = np.arange(len(points))
    place = np.zeros(len(points))
    done: list[tuple[Complexes, Ints, Floats]] = []
    weighted, wide = points * weights, 1.0
    for rounds in range(MOST_ROUNDS + 1):
        cubic = _same_ends(weighted, weights)
        with np.errstate(all="ignore"):
            off = np.abs(_values(cubic, np.ones((len(cubic), 4))) - _values(weighted, weights)).max(axis=1)
        good = (off <= close[owner]) | (rounds == MOST_ROUNDS)
        done.append((cubic[good], owner[good], place[good]))
        if good.all():
            break
        bad = ~good
        wide /= 2
        weighted = np.concatenate(_halves(weighted[bad]))
        weights = np.concatenate(_halves(weights[bad]))
        owner = np.tile(owner[bad], 2)
        place = np.concatenate([place[bad], place[bad] + wide])
    cubics, owners, places = (np.concatenate(part) for part in zip(*done, strict=True))
    order = np.lexsort((places, owners))
    return cubics[order], owners[order]


def _values(weighted: Complexes, weights: Floats) -> Complexes:
    """The points (s, t) at each of the places that are compared."""
    n = weights.shape[1] - 1
    basis = np.array([[comb(n, k) * t**k * (1 - t) ** (n - k) for k in range(n + 1)] for t in _AT]).T
    values: Complexes = (weighted @ basis) / (weights @ basis)
    return values


def _same_ends(weighted: Complexes, weights: Floats) -> Complexes:
    """The cubic (s, 4) with the same ends and velocities there."""
    n = weights.shape[1] - 1
    start, end = weighted[:, 0] / weights[:, 0], weighted[:, -1] / weights[:, -1]
    # The velocity at the start of a rational curve: n · w1 / w0 · (P1 - P0).
    first = (weighted[:, 1] - weights[:, 1] * start) / weights[:, 0] * (n / 3)
    last = (weights[:, -2] * end - weighted[:, -2]) / weights[:, -1] * (n / 3)
    return np.stack([start, start + first, end - last, end], axis=1)


def _halves(points: Some) -> tuple[Some, Some]:
    """Bézier curves cut in the middle (de Casteljau)."""
    left, right = [points[:, 0]], [points[:, -1]]
    while points.shape[1] > 1:
        points = (points[:, :-1] + points[:, 1:]) / 2
        left.append(points[:, 0])
        right.append(points[:, -1])
    return np.stack(left, axis=1), np.stack(right[::-1], axis=1)
