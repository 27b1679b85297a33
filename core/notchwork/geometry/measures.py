"""What is measured of whole runs of cubics: area, bounds, and the polyline that stands for them."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from notchwork.geometry.cubics import Complexes, Floats, Ints, hodographs, points, runs_straight

MOST_CHORDS = 4096
"""More chords than this for one cubic are never made, whatever the tolerance."""


class Flat(NamedTuple):
    """A polyline: its points (m,) and where each lies, on ``cubics[row]`` at t."""

    points: Complexes
    rows: Ints
    t: Floats


def swept(cubics: Complexes) -> Floats:
    """Twice the area (n,) each cubic sweeps as seen from the origin, exact (Green's theorem, in Bernstein form)."""
    start, end = cubics[:, 0], cubics[:, 3]
    swept: Floats = (start.conj() * end).imag
    curve = np.flatnonzero((cubics[:, 1] != start) | (cubics[:, 2] != end))
    p = cubics[curve].T

    def cross(i: int, j: int) -> Floats:
        value: Floats = (p[i].conj() * p[j]).imag
        return value

    near = 6.0 * (cross(0, 1) + cross(2, 3))
    swept[curve] = (near + 3.0 * (cross(0, 2) + cross(1, 2) + cross(1, 3)) + cross(0, 3)) / 10.0
    return swept


def area(cubics: Complexes) -> float:
    """The signed area in mm² inside a closed outline (k, 4): positive if it runs counter-clockwise."""
    if len(cubics) == 0:
        return 0.0
    return float(swept(cubics - cubics[0, 0]).sum() / 2.0)


def areas(cubics: Complexes, starts: Ints) -> Floats:
    """Signed areas (m,) in mm² of closed outlines that follow each other in one array.

    Outline k begins at row ``starts[k]`` and ends where the next begins; none is empty.
    """
    first = np.asarray(starts, dtype=np.intp)
    if first.size == 0:
        return np.zeros(0)
    sizes = np.diff(np.append(first, len(cubics)))
    # Seen from its own first point, an outline far from the origin keeps its digits.
    near = cubics[first[0] :] - np.repeat(cubics[first, 0], sizes)[:, None]
    result: Floats = np.add.reduceat(swept(near), first - first[0]) / 2.0
    return result


def _extremes(h: Floats) -> Floats:
    """The parameters (n, 2) in [0, 1] where real quadratics in Bernstein form (n, 3) vanish; else 0 or 1."""
    square, linear, constant = h[:, 0] - 2.0 * h[:, 1] + h[:, 2], 2.0 * (h[:, 1] - h[:, 0]), h[:, 0]
    root = np.sqrt(np.maximum(linear * linear - 4.0 * square * constant, 0.0))
    stable = -0.5 * (linear + np.copysign(root, linear))
    with np.errstate(divide="ignore", invalid="ignore"):
        t = np.stack([stable / square, constant / stable], axis=1)
    result: Floats = np.clip(np.nan_to_num(t, nan=0.0), 0.0, 1.0)
    return result


def row_bounds(cubics: Complexes) -> tuple[Complexes, Complexes]:
    """Lower left and upper right corners (n,) of the smallest upright box about each cubic, exact."""
    h = hodographs(cubics)
    t = np.concatenate([_extremes(h.real), _extremes(h.imag)], axis=1)
    rows = np.repeat(np.arange(len(cubics)), 4)
    inner = points(cubics, rows, t.ravel()).reshape(-1, 4)
    reached = np.concatenate([cubics[:, [0, 3]], inner], axis=1)
    low = reached.real.min(axis=1) + 1j * reached.imag.min(axis=1)
    high = reached.real.max(axis=1) + 1j * reached.imag.max(axis=1)
    return low, high


def bounds(cubics: Complexes) -> tuple[complex, complex]:
    """Lower left and upper right corner of the smallest upright box about all the cubics; ValueError if none."""
    if len(cubics) == 0:
        raise ValueError("nothing has no bounds")
    low, high = row_bounds(cubics)
    return complex(low.real.min(), low.imag.min()), complex(high.real.max(), high.imag.max())


def chords_needed(cubics: Complexes, tol: float) -> Ints:
    """How many equal steps of t (n,) keep the chords of each cubic within tol (mm) of it (Wang's formula).

    G. Wang, The subdivision method for finding the intersection between two Bézier curves, 1984; as given in
    R. Goldman, Pyramid Algorithms, 2003, from memory.
    """
    bend = np.abs(cubics[:, :-2] - 2.0 * cubics[:, 1:-1] + cubics[:, 2:]).max(axis=1)
    count = np.clip(np.ceil(np.sqrt(0.75 * bend / tol)), 1, MOST_CHORDS).astype(np.intp)
    count[runs_straight(cubics, min(tol, 1e-6))] = 1
    needed: Ints = count
    return needed


def sampled(cubics: Complexes, count: Ints) -> Flat:
    """Points at equal steps of t, count[k] of them on row k from its start on, without its end."""
    rows = np.repeat(np.arange(len(cubics)), count)
    before = np.cumsum(count) - count
    t = (np.arange(len(rows)) - before[rows]) / count[rows]
    return Flat(points(cubics, rows, t), rows, t)


def flatten(cubics: Complexes, tol: float = 0.05) -> Flat:
    """A polyline within tol (mm) of a run of cubics that follow each other, from its start to its end.

    The end of a row and the start of the next are one point, said to be the next row's; the run's last point ends
    the last row. Of a closed outline the last point repeats the first.
    """
    flat = sampled(cubics, chords_needed(cubics, tol))
    if len(cubics) == 0:
        return flat
    return Flat(
        np.append(flat.points, cubics[-1, 3]),
        np.append(flat.rows, len(cubics) - 1),
        np.append(flat.t, 1.0),
    )
