"""Cubic Bézier curves as rows of an array: where they are, how they run, and how to cut them.

A cubic is a row of four complex control points ``x + iy`` in mm, y upward; an array of n of them has the shape
``(n, 4)``. A straight line is the cubic whose handles lie on its end nodes: ``[a, a, b, b]``. Functions that take
``rows`` and ``t`` answer for many places at once: place k lies on ``cubics[rows[k]]`` at the parameter ``t[k]``.
"""

from __future__ import annotations

from typing import TypeAlias

import numpy as np
from numpy.typing import ArrayLike, NDArray

Complexes: TypeAlias = NDArray[np.complex128]
Floats: TypeAlias = NDArray[np.float64]
Ints: TypeAlias = NDArray[np.intp]
Bools: TypeAlias = NDArray[np.bool_]

NO_LENGTH = 1e-6
"""A handle shorter than this (mm) is no handle: its direction would be rounding noise."""


def as_cubics(cubics: ArrayLike) -> Complexes:
    """The same curves as a complex array (n, 4); ValueError if they are of another shape or not finite."""
    array = np.asarray(cubics, dtype=np.complex128)
    if array.ndim != 2 or array.shape[1] != 4:
        raise ValueError(f"cubics are rows of 4 control points, not an array of shape {array.shape}")
    if not np.isfinite(array).all():
        raise ValueError("a control point is not a finite number")
    return array


def hodographs(cubics: Complexes) -> Complexes:
    """The derivative of each cubic by t as a quadratic in Bernstein form, (n, 3), mm per unit of t."""
    return 3.0 * (cubics[:, 1:] - cubics[:, :-1])


def points(cubics: Complexes, rows: Ints, t: Floats) -> Complexes:
    """The points (m,) at the parameters t of the cubics named by rows, in mm."""
    p = cubics[rows]
    u = 1.0 - t
    return (
        (u * u * u) * p[:, 0]
        + (3.0 * u * u * t) * p[:, 1]
        + (3.0 * u * t * t) * p[:, 2]
        + (t * t * t) * p[:, 3]
    )


def derivatives(cubics: Complexes, rows: Ints, t: Floats) -> Complexes:
    """The derivative by t (m,) in mm; its direction is that of the curve, its length the speed."""
    p = cubics[rows]
    u = 1.0 - t
    return 3.0 * (
        (u * u) * (p[:, 1] - p[:, 0]) + (2.0 * u * t) * (p[:, 2] - p[:, 1]) + (t * t) * (p[:, 3] - p[:, 2])
    )


def second_derivatives(cubics: Complexes, rows: Ints, t: Floats) -> Complexes:
    """The second derivative by t (m,) in mm."""
    p = cubics[rows]
    return 6.0 * ((1.0 - t) * (p[:, 0] - 2.0 * p[:, 1] + p[:, 2]) + t * (p[:, 1] - 2.0 * p[:, 2] + p[:, 3]))


def tangents(cubics: Complexes, rows: Ints, t: Floats) -> Complexes:
    """Unit tangents (m,) in the direction of growing t.

    Where the speed is zero (a missing handle, a cusp) the limit is taken: at the end of a row the direction it
    arrives with, everywhere else the one it leaves with. That is the direction to the next control point that lies
    apart. A row that is a single point has the tangent 0.
    """
    direction = derivatives(cubics, rows, t)
    still = np.abs(direction) <= NO_LENGTH
    if still.any():
        p, at = cubics[rows[still]], np.asarray(t)[still]
        second = second_derivatives(cubics, rows[still], at)
        third = 6.0 * (p[:, 3] - 3.0 * p[:, 2] + 3.0 * p[:, 1] - p[:, 0])
        arriving = np.where(at >= 1.0 - NO_LENGTH, -1.0, 1.0)
        limit = np.where(np.abs(second) > NO_LENGTH, arriving * second, third)
        direction[still] = np.where(np.abs(limit) > NO_LENGTH, limit, 0.0)
    size = np.abs(direction)
    unit: Complexes = np.divide(direction, size, out=np.zeros_like(direction), where=size > 0.0)
    return unit


def curvatures(cubics: Complexes, rows: Ints, t: Floats) -> Floats:
    """Signed curvatures (m,) in 1/mm, positive where the curve turns left.

    Where the speed is zero the curvature is infinite, unless the row runs straight there: then it is 0.
    """
    first = derivatives(cubics, rows, t)
    second = second_derivatives(cubics, rows, t)
    speed = np.abs(first)
    still = speed <= NO_LENGTH
    turn = (first.conj() * second).imag
    result: Floats = np.divide(turn, speed**3, out=np.zeros_like(speed), where=~still)
    if still.any():
        p = cubics[rows[still]]
        third = 6.0 * (p[:, 3] - 3.0 * p[:, 2] + 3.0 * p[:, 1] - p[:, 0])
        bend = (second[still].conj() * third).imag
        straight = np.abs(bend) <= NO_LENGTH * (np.abs(second[still]) + np.abs(third))
        result[still] = np.where(straight, 0.0, np.copysign(np.inf, bend))
    return result


def parts(cubics: Complexes, rows: Ints, t0: Floats, t1: Floats) -> Complexes:
    """The stretches of the rows between two parameters, as cubics (m, 4); t1 < t0 gives them reversed."""
    p = cubics[rows]
    a, b = np.asarray(t0, dtype=float), np.asarray(t1, dtype=float)

    def polar(r: Floats, s: Floats, t: Floats) -> Complexes:
        # The blossom: control points of any stretch are its values at the stretch's own ends.
        first = (1.0 - r)[:, None] * p[:, :3] + r[:, None] * p[:, 1:]
        second = (1.0 - s)[:, None] * first[:, :2] + s[:, None] * first[:, 1:]
        value: Complexes = (1.0 - t) * second[:, 0] + t * second[:, 1]
        return value

    return np.stack([polar(a, a, a), polar(a, a, b), polar(a, b, b), polar(b, b, b)], axis=1)


def part(cubic: Complexes, t0: float, t1: float) -> Complexes:
    """The stretch of one cubic (4,) between two parameters, as a cubic (4,)."""
    only = np.zeros(1, dtype=np.intp)
    stretch: Complexes = parts(cubic[None, :], only, np.array([t0]), np.array([t1]))[0]
    return stretch


def split(cubic: Complexes, t: float) -> tuple[Complexes, Complexes]:
    """One cubic (4,) cut at t: the stretch before and the one after; they share the cut's point exactly."""
    before, after = part(cubic, 0.0, t), part(cubic, t, 1.0)
    after[0] = before[3]
    before[0], after[3] = cubic[0], cubic[3]
    return before, after


def reverse(cubics: Complexes) -> Complexes:
    """The same run of cubics walked from its other end: order of rows and direction of each are turned round."""
    return cubics[::-1, ::-1]


def is_straight(cubics: Complexes, tol: float = 0.001) -> Bools:
    """Which rows (n,) are straight: both handles within tol (mm) of the chord and between its ends."""
    straight: Bools = (cubics[:, 1] == cubics[:, 0]) & (cubics[:, 2] == cubics[:, 3])
    other = np.flatnonzero(~straight)
    if other.size:
        p = cubics[other]
        chord = p[:, 3:] - p[:, :1]
        size = np.abs(chord)
        along = np.divide(chord, size, out=np.ones_like(chord), where=size > 0.0)
        handle = (p[:, 1:3] - p[:, :1]) * along.conj()
        close = np.abs(handle.imag) <= tol
        both = close & (handle.real >= -tol) & (handle.real <= size + tol)
        straight[other] = both[:, 0] & both[:, 1]
    return straight


def runs_straight(cubics: Complexes, tol: float) -> Bools:
    """Which rows (n,) are straight, and run from end to end without turning back on the way."""
    ahead = (cubics[:, 2] - cubics[:, 1]) * (cubics[:, 3] - cubics[:, 0]).conj()
    runs: Bools = is_straight(cubics, tol) & (ahead.real >= 0.0)
    return runs
