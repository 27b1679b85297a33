"""Lines as vertices that all sizes share: the k-th vertex lies at the same place of the line in every size, and in every size no
chord lies further beside the curve than was asked for.

A place of a line is the number of a cubic of its first size and the parameter there. Where a line has as many cubics between two
corners in every size, places go by these; where it has not (cut lines are smoothed size by size), by the share of the length.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from notchwork.geometry import points
from notchwork.geometry.measures import chords_needed, sampled
from notchwork_plugins.dxf.write.division import Places, divided
from notchwork_plugins.dxf.write.runs import Run

Complexes = NDArray[np.complex128]
Floats = NDArray[np.float64]
Ints = NDArray[np.intp]

ROUNDING = 1e-4
"""mm that rounding may move a vertex."""
TURNS = (10.0, 20.0, 5.0, 30.0, 2.0)
"""Degrees beyond which a bend is a corner; the first at which all sizes have as many corners is taken, since a bend may be just more
in one size and just less in another. More than 10°: common practice, no source."""
FINE = 0.01
"""mm: how closely lengths are measured where shares of them are wanted."""

INNER, CORNER, NODE = 0, 2, 3
"""What a vertex is: a point between nodes, a corner, a node of a curve. The latter two are their layers in the convention."""


class Vertices(NamedTuple):
    """The vertices (sizes, n) of a line in mm; what each is (n,); and the name of the part of the line that begins or goes on there."""

    z: Complexes
    kinds: Ints
    names: tuple[str, ...]
    closed: bool


def shared(runs: Sequence[Run], chord: float) -> Vertices | None:
    """One line in several sizes; None where it has not as many corners in all of them."""
    for limit in TURNS:
        corners = [np.flatnonzero(run.corner | (run.turns > limit)) for run in runs]
        if len({len(found) for found in corners}) == 1:
            break
    else:
        return None
    if runs[0].closed and len(corners[0]):
        runs, corners = _beginning_alike(runs, corners)
    elif not runs[0].closed:
        corners = [found[found > 0] for found in corners]
        if len({len(found) for found in corners}) > 1:
            return None
    places = _places(runs, corners)
    rows, t = divided(places, _cells(runs), chord - ROUNDING)
    kinds = np.where(t > 0.0, INNER, np.where(np.isin(rows, corners[0]), CORNER, NODE))
    found = Vertices(places(rows + t), kinds, tuple(runs[0].names[row] for row in rows), runs[0].closed)
    return found if found.closed else _ended(runs, found)


def _ended(runs: Sequence[Run], found: Vertices) -> Vertices:
    """An open line has its last point too; both its ends are corners."""
    last = np.array([[run.cubics[-1, 3]] for run in runs])
    kinds = np.append(found.kinds, CORNER)
    kinds[0] = CORNER
    return Vertices(np.concatenate([found.z, last], axis=1), kinds, (*found.names, ""), False)


def _beginning_alike(runs: Sequence[Run], corners: Sequence[Ints]) -> tuple[list[Run], list[Ints]]:
    """Closed lines that begin at a corner, in every size at the one nearest to that of the first, as seen over all corners."""
    first = runs[0].cubics[corners[0], 0]
    begun, found = [], []
    for run, corner in zip(runs, corners, strict=True):
        turned = corner[np.add.outer(np.arange(len(corner)), np.arange(len(corner))) % len(corner)]
        start = int(turned[np.abs(run.cubics[turned, 0] - first).sum(axis=1).argmin()][0])
        begun.append(
            Run(
                np.roll(run.cubics, -start, axis=0),
                np.roll(run.corner, -start),
                (*run.names[start:], *run.names[:start]),
                True,
            )
        )
        found.append(np.sort((corner - start) % len(run.cubics)))
    return begun, found


def _places(runs: Sequence[Run], corners: Sequence[Ints]) -> Places:
    """Where the places of the first size lie in every size."""
    warps = [_warp(runs[0], run, corners[0], corner) for run, corner in zip(runs, corners, strict=True)]

    def places(place: Floats) -> Complexes:
        z = np.empty((len(runs), len(place)), dtype=np.complex128)
        for k, (run, (ours, theirs)) in enumerate(zip(runs, warps, strict=True)):
            at = np.interp(place, ours, theirs)
            rows = np.minimum(at.astype(np.intp), len(run.cubics) - 1)
            z[k] = points(run.cubics, rows, at - rows)
        return z

    return places


def _warp(first: Run, run: Run, ours: Ints, theirs: Ints) -> tuple[Floats, Floats]:
    """Places of the first size, and those of another that answer them; what lies between is in proportion."""
    known: list[Floats] = []
    answers: list[Floats] = []
    for a, b, c, d in zip(
        np.append(0, ours), np.append(ours, len(first.cubics)), np.append(0, theirs), np.append(theirs, len(run.cubics)),
        strict=True,
    ):  # fmt: skip
        if b - a == d - c:
            known.append(np.array([a, b], dtype=float))
            answers.append(np.array([c, d], dtype=float))
        else:
            place, share = _lengths(first.cubics[a:b])
            other, other_share = _lengths(run.cubics[c:d])
            known.append(a + place)
            answers.append(c + np.interp(share, other_share, other))
    return np.concatenate(known), np.concatenate(answers)


def _lengths(cubics: Complexes) -> tuple[Floats, Floats]:
    """Places along a stretch, close to each other, and the share of its length that lies before each."""
    flat = sampled(cubics, 4 * chords_needed(cubics, FINE))
    z, place = np.append(flat.points, cubics[-1:, 3]), np.append(flat.rows + flat.t, len(cubics))
    along = np.concatenate([[0.0], np.cumsum(np.abs(np.diff(z)))])
    return place, along / max(along[-1], 1e-12)


def _cells(runs: Sequence[Run]) -> Ints:
    """Into how many cells the cubics of the first size are to be divided to see how all sizes bend there."""
    needed = [chords_needed(run.cubics, FINE) for run in runs]
    count = len(needed[0])
    if all(len(found) == count for found in needed):
        return np.asarray(2 * np.max(needed, axis=0))
    most = max(float(found.sum()) for found in needed) / needed[0].sum()
    return np.asarray(np.ceil(2 * max(most, 1.0) * needed[0]) + 4, dtype=np.intp)
