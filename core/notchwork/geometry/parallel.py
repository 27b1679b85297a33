"""A line at a constant distance beside a run of cubics, as cubics again.

The parallel of a cubic is no cubic; it is fitted piece by piece with the tangents and speeds of the true one
(Hermite), and a piece is halved until it keeps its distance.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from notchwork.geometry.crossings import intersections, self_intersections
from notchwork.geometry.cubics import (
    NO_LENGTH,
    Bools,
    Complexes,
    Floats,
    Ints,
    as_cubics,
    derivatives,
    is_straight,
    parts,
    points,
    second_derivatives,
    tangents,
)
from notchwork.geometry.meetings import Meeting
from notchwork.geometry.nearest import nearest
from notchwork.geometry.shapes import circle, lines

FIT = 0.0005
"""mm a fitted piece may stray; half of what is promised, since it is measured at a few places only."""
MOST_HALVINGS = 12
MITRE_LIMIT = 3.0
"""Beside an outer corner the parallel runs on straight to where both sides meet, at most this many distances away."""


def parallel(cubics: ArrayLike, distance: float) -> Complexes:
    """The line at a distance (mm, positive on the left) beside an open run of cubics (k, 4), as cubics (j, 4).

    It is within 0.001 mm of its distance from the run, and straight rows stay straight. At an outer corner the two
    sides run on to where they meet, cut off at three distances. Wherever the run turns tighter than the distance, at
    inner corners and where another part of the run is nearer, the loops are left out; so nothing may remain (0, 4).
    """
    run = as_cubics(cubics)
    if distance == 0.0 or len(run) == 0:
        return run
    pieces = _fitted(run, distance)
    raw = np.concatenate(
        [row for pair in zip(pieces, _corners(run, pieces, distance), strict=True) for row in pair]
    )
    if _clear(run, raw, distance).all():
        return raw
    return _without_loops(run, raw, distance)


def _offset_speeds(run: Complexes, rows: Ints, t: Floats, distance: float) -> Floats:
    """The speed of the true parallel by t, negative where the run turns tighter than the distance."""
    first, second = derivatives(run, rows, t), second_derivatives(run, rows, t)
    speed = np.abs(first)
    still = speed <= NO_LENGTH
    bend = np.divide((first.conj() * second).imag, speed**2, out=np.zeros_like(speed), where=~still)
    if still.any():
        # Where a handle is missing the speed is zero, but the direction still turns: the limit of the quotient.
        p = run[rows[still]]
        third = 3.0 * (p[:, 3] - 3.0 * p[:, 2] + 3.0 * p[:, 1] - p[:, 0])
        square = np.abs(second[still]) ** 2
        turn = (second[still].conj() * third).imag
        bend[still] = np.divide(turn, square, out=np.zeros_like(square), where=square > NO_LENGTH)
    result: Floats = speed - distance * bend
    return result


def _fitted(run: Complexes, distance: float) -> list[Complexes]:
    """For each row of the run, the cubics that follow its parallel."""
    count = np.where(is_straight(run, 1e-6), 1, 2)
    row = np.repeat(np.arange(len(run)), count)
    t0 = (np.arange(len(row)) - (np.cumsum(count) - count)[row]) / count[row]
    t1 = t0 + 1.0 / count[row]
    done: list[tuple[Ints, Floats, Complexes]] = []
    for halvings in range(MOST_HALVINGS + 1):
        fit = _hermite(run, row, t0, t1, distance)
        good = (_stray(run, row, t0, t1, fit, distance) <= FIT) | (halvings == MOST_HALVINGS)
        done.append((row[good], t0[good], fit[good]))
        row, t0, t1 = row[~good], t0[~good], t1[~good]
        if not row.size:
            break
        middle = (t0 + t1) / 2.0
        row, t0, t1 = np.tile(row, 2), np.concatenate([t0, middle]), np.concatenate([middle, t1])
    rows, starts, fits = (np.concatenate(column) for column in zip(*done, strict=True))
    order = np.lexsort((starts, rows))
    return np.split(fits[order], np.searchsorted(rows[order], np.arange(1, len(run))))


def _hermite(run: Complexes, row: Ints, t0: Floats, t1: Floats, distance: float) -> Complexes:
    third = (t1 - t0) / 3.0
    start, end = tangents(run, row, t0), tangents(run, row, t1)
    first, last = points(run, row, t0) + 1j * distance * start, points(run, row, t1) + 1j * distance * end
    leave = third * _offset_speeds(run, row, t0, distance) * start
    arrive = third * _offset_speeds(run, row, t1, distance) * end
    return np.stack([first, first + leave, last - arrive, last], axis=1)


def _stray(run: Complexes, row: Ints, t0: Floats, t1: Floats, fit: Complexes, distance: float) -> Floats:
    """How far (mm) each fitted cubic strays from the true parallel, at the most of seven places."""
    u = np.tile(np.arange(1, 8) / 8.0, (len(fit), 1)).ravel()
    which = np.repeat(np.arange(len(fit)), 7)
    rows, t = row[which], (t0[which] + u * (t1 - t0)[which])
    z = points(fit, which, u)
    for _ in range(2):
        # The fit is a little ahead or behind in t: compare it with the parallel beside it, not with the same t.
        along = tangents(run, rows, t)
        gap = (z - points(run, rows, t) - 1j * distance * along) * along.conj()
        speed = _offset_speeds(run, rows, t, distance)
        step = np.divide(gap.real, speed, out=np.zeros_like(speed), where=np.abs(speed) > 1.0)
        t = np.clip(t + step, t0[which], t1[which])
    along = tangents(run, rows, t)
    gap = (z - points(run, rows, t) - 1j * distance * along) * along.conj()
    result: Floats = np.abs(gap).reshape(-1, 7).max(axis=1)
    return result


def _corners(run: Complexes, pieces: list[Complexes], distance: float) -> list[Complexes]:
    """The straight lines that join the parallel of each row to that of the next; of the last, none."""
    joins: list[Complexes] = []
    rows = np.arange(len(run))
    leave, arrive = tangents(run, rows, np.zeros(len(run))), tangents(run, rows, np.ones(len(run)))
    for k in range(len(run) - 1):
        a, b = complex(pieces[k][-1, 3]), complex(pieces[k + 1][0, 0])
        nodes = [a, b]
        sine, cosine = (arrive[k].conj() * leave[k + 1]).imag, (arrive[k].conj() * leave[k + 1]).real
        if sine * distance < 0.0 and abs(b - a) > 1e-6:
            reach = abs(distance) * min(abs(sine) / max(1.0 + cosine, 1e-9), np.sqrt(MITRE_LIMIT**2 - 1.0))
            nodes = [a, complex(a + reach * arrive[k]), complex(b - reach * leave[k + 1]), b]
        joins.append(_line_through(nodes))
    return [*joins, _line_through([])]


def _line_through(nodes: list[complex]) -> Complexes:
    rows = lines(np.array(nodes, dtype=np.complex128))
    apart: Complexes = rows[np.abs(rows[:, 3] - rows[:, 0]) > 1e-6]
    return apart


def _clear(run: Complexes, rows: Complexes, distance: float) -> Bools:
    """Whether each row, at its middle and beside its ends, is nowhere nearer to the run than the distance."""
    u = np.array([0.02, 0.25, 0.5, 0.75, 0.98])
    which = np.repeat(np.arange(len(rows)), len(u))
    far = nearest(run, points(rows, which, np.tile(u, len(rows)))).distance.reshape(-1, len(u))
    clear: Bools = far.min(axis=1) >= abs(distance) - 2.0 * FIT
    return clear


def _without_loops(run: Complexes, raw: Complexes, distance: float) -> Complexes:
    """The line cut wherever it meets itself, without the pieces that come too near to the run."""
    met = self_intersections(raw, closed=False)
    # Beside the run's ends it may come too near without meeting itself.
    ends = np.concatenate([circle(z, abs(distance)) for z in (run[0, 0], run[-1, 3])])
    near = intersections(raw, ends)
    crossed = near.kinds == Meeting.CROSS
    every = np.arange(len(raw))
    row = np.concatenate([every, every, met.a_rows, met.b_rows, near.a_rows[crossed]])
    t = np.concatenate([np.zeros(len(raw)), np.ones(len(raw)), met.a_t, met.b_t, near.a_t[crossed]])
    order = np.lexsort((t, row))
    row, t = row[order], t[order]
    piece = (row[1:] == row[:-1]) & (t[1:] - t[:-1] > 1e-9)
    cut = parts(raw, row[:-1][piece], t[:-1][piece], t[1:][piece])
    straight = is_straight(cut, 1e-9)
    cut[straight, 1], cut[straight, 2] = cut[straight, 0], cut[straight, 3]
    kept: Complexes = cut[_clear(run, cut, distance)]
    return kept
