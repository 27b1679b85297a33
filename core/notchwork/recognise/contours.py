"""Closed lines with their corners: small steps straightened, then cut into edges where the line breaks."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from notchwork.geometry import area, lengths, reverse, tangents
from notchwork.recognise.shape import Complexes, Contour, Ints

CORNER = 20.0
"""Degrees by which the tangent breaks at a corner. Common practice, no source."""

Floats = NDArray[np.float64]


class Straightened(NamedTuple):
    """A closed line without its small steps: its rows, the stroke each came from, and where steps were."""

    cubics: Complexes
    sources: Ints
    steps: tuple[complex, ...]


def contour(cubics: Complexes, sources: Ints) -> Contour:
    """A closed line (k, 4) cut into edges at its corners; it is turned so that an edge begins with its first row.

    Nothing is moved. A line without any corner is one edge that starts where it was drawn from.
    """
    corners = np.flatnonzero(np.abs(breaks(cubics)) > CORNER)
    if not len(corners):
        return Contour(cubics, (0,), sources)
    first = int(corners[0])
    turned = (corners - first).tolist()
    return Contour(np.roll(cubics, -first, axis=0), tuple(turned), np.roll(sources, -first))


def breaks(cubics: Complexes) -> Floats:
    """By how many degrees a closed line turns at the start of each row (k,), left turns above 0."""
    every = np.arange(len(cubics))
    out = tangents(cubics, every, np.zeros(len(cubics)))
    into = np.roll(tangents(cubics, every, np.ones(len(cubics))), 1)
    turn: Floats = np.degrees(np.angle(out * into.conj()))
    return turn


def straightened(cubics: Complexes, sources: Ints, tol: float) -> Straightened:
    """A closed line without rows that have no length, and without steps: rows shorter than tol (mm) between two breaks.

    What comes before and after a step is brought together in its middle. Fine polylines, which break nowhere, stay.
    """
    long = np.abs(np.diff(cubics, axis=1)).sum(axis=1) > 1e-9
    cubics, sources = cubics[long], sources[long]
    if len(cubics) < 3:
        return Straightened(cubics, sources, ())
    turn = np.abs(breaks(cubics)) > CORNER
    small = (lengths(cubics) < tol) & turn & np.roll(turn, -1)
    # Of several in a row each may be the outline of something small: only single ones are steps.
    small &= ~np.roll(small, 1) & ~np.roll(small, -1)
    steps = np.flatnonzero(small)
    if not len(steps):
        return Straightened(cubics, sources, ())
    mended = cubics.copy()
    middles = (cubics[steps, 0] + cubics[steps, 3]) / 2.0
    for k, middle in zip(steps.tolist(), middles.tolist(), strict=True):
        before, after = (k - 1) % len(cubics), (k + 1) % len(cubics)
        _end_at(mended, before, middle)
        _start_at(mended, after, middle)
    return Straightened(mended[~small], sources[~small], tuple(middles.tolist()))


def _end_at(cubics: Complexes, row: int, z: complex) -> None:
    straight = cubics[row, 0] == cubics[row, 1] and cubics[row, 2] == cubics[row, 3]
    cubics[row, 2] += z - cubics[row, 3]
    cubics[row, 3] = z
    if straight:
        cubics[row, 2] = z


def _start_at(cubics: Complexes, row: int, z: complex) -> None:
    straight = cubics[row, 0] == cubics[row, 1] and cubics[row, 2] == cubics[row, 3]
    cubics[row, 1] += z - cubics[row, 0]
    cubics[row, 0] = z
    if straight:
        cubics[row, 1] = z


def counter_clockwise(cubics: Complexes, sources: Ints) -> tuple[Complexes, Ints]:
    """The same closed line, its cloth on the left."""
    return (cubics, sources) if area(cubics) >= 0.0 else (reverse(cubics), sources[::-1])
