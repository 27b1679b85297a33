"""Where lines meet within a tolerance: ends and corners that lie on another line, and crossings."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from notchwork.geometry.cubics import Complexes, Floats, Ints, derivatives, points
from notchwork.geometry.grid import near_boxes
from notchwork.geometry.nearest import refine
from notchwork.geometry.net.lines import Lines

FINE = 0.02
"""Chords stay this close (mm) to the curves, or a tenth of the tolerance."""
STEPS = 12
MOST_PAIRS = 5_000_000
"""Chords and places that may lie near each other; a sheet of fifty thousand strokes that barely touch has half as many, and these
take half a minute and a GB."""


class Places(NamedTuple):
    """Places (m,) on lines, and the pairs of them (k,) that are one."""

    rows: Ints
    t: Floats
    same: tuple[Ints, Ints]


def touches(lines: Lines, anchor_rows: Ints, anchor_t: Floats, tol: float) -> Places:
    """Where the anchors lie within tol of another line, or of their own far away: for each, the place on that line."""
    fine = min(FINE, tol / 10.0)
    row, t0, t1, start, end = lines.chords(fine)
    z = points(lines.cubics, anchor_rows, anchor_t)
    count = len(row)
    i, j = near_boxes(np.concatenate([start, z]), np.concatenate([end, z]), 2.0 * (tol + fine), MOST_PAIRS)
    wanted = (i < count) & (j >= count)
    chord, anchor = i[wanted], j[wanted] - count
    distance, t = refine(lines.cubics, row[chord], t0[chord], t1[chord], z[anchor])
    own = lines.of[row[chord]] == lines.of[anchor_rows[anchor]]
    here = lines.along(anchor_rows, anchor_t)
    far = lines.apart(lines.of[row[chord]], here[anchor], lines.along(row[chord], t))
    keep = (distance <= tol) & (~own | (far > 4.0 * tol))
    chord, anchor, distance, t = chord[keep], anchor[keep], distance[keep], t[keep]
    # The nearest place on each line that an anchor meets.
    order = np.lexsort((distance, lines.of[row[chord]], anchor))
    key = anchor[order] * (len(lines.first) + 1) + lines.of[row[chord[order]]]
    first = order[np.unique(key, return_index=True)[1]]
    return Places(row[chord[first]], t[first], (anchor[first], np.arange(len(first))))


def crossings(lines: Lines, tol: float) -> Places:
    """Where lines cross each other or themselves; two places for each crossing, one on either line."""
    row, t0, t1, start, end = lines.chords(min(FINE, tol / 10.0))
    i, j = near_boxes(start, end, 0.0, MOST_PAIRS)
    neighbours = (lines.of[row[i]] == lines.of[row[j]]) & (j - i <= 1)
    i, j = i[~neighbours], j[~neighbours]
    p, u, q, v = start[i], end[i] - start[i], start[j], end[j] - start[j]
    det = (u.conj() * v).imag
    # Lines that run along each other do not cross: their ends settle where they part.
    clear = np.abs(det) > 1e-3 * np.abs(u) * np.abs(v)
    with np.errstate(divide="ignore", invalid="ignore"):
        s, t = ((q - p).conj() * v).imag / det, ((q - p).conj() * u).imag / det
        cross = clear & (s >= 0.0) & (s <= 1.0) & (t >= 0.0) & (t <= 1.0)
    i, j, s, t = i[cross], j[cross], s[cross], t[cross]
    a, b = t0[i] + s * (t1 - t0)[i], t0[j] + t * (t1 - t0)[j]
    a, b = _settle(lines.cubics, row[i], a, row[j], b)
    same = lines.of[row[i]] == lines.of[row[j]]
    far = lines.apart(lines.of[row[i]], lines.along(row[i], a), lines.along(row[j], b))
    keep = ~same | (far > 4.0 * tol)
    count = int(keep.sum())
    return Places(
        np.concatenate([row[i][keep], row[j][keep]]),
        np.concatenate([a[keep], b[keep]]),
        (np.arange(count), count + np.arange(count)),
    )


def _settle(cubics: Complexes, i: Ints, s: Floats, j: Ints, t: Floats) -> tuple[Floats, Floats]:
    """Crossings of chords moved onto the curves by Newton's method; straight rows stand where they are."""
    for _ in range(STEPS):
        gap = points(cubics, j, t) - points(cubics, i, s)
        if not len(gap) or float(np.abs(gap).max()) < 1e-9:
            break
        u, v = derivatives(cubics, i, s), derivatives(cubics, j, t)
        det = (u.conj() * v).imag
        steady = np.abs(det) > 1e-9 * np.maximum(np.abs(u) * np.abs(v), 1e-12)
        det = np.where(steady, det, 1.0)
        s = np.where(steady, np.clip(s + (gap.conj() * v).imag / det, 0.0, 1.0), s)
        t = np.where(steady, np.clip(t + (gap.conj() * u).imag / det, 0.0, 1.0), t)
    return s, t
