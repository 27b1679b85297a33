"""The corner of a hem that is turned up: its allowance must lie flat on the neighbouring edge's own allowance."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from notchwork.geometry.cubics import Complexes, Floats, Ints
from notchwork.geometry.offset.corners import LIMIT
from notchwork.geometry.offset.samples import Samples


class Turned(NamedTuple):
    """What replaces a corner: points laid after the sample before, their edges, and the samples to leave out."""

    before: int
    points: Complexes
    edge: Ints
    dropped: Ints


def turned_up(
    samples: Samples, edge: Ints, width: Floats, before: int, after: int, hem_after: bool
) -> Turned | None:
    """The corner between two samples, turned up about the line of the hem, the edge after it or the one before.

    The neighbour's cut line is mirrored across the hem's tangent at the corner, down to the hem's own cut line. Where
    the neighbour leans over the hem, the hem's cut line ends before its perpendicular. None if the lines do not meet.
    """
    hem, side = (after, before) if hem_after else (before, after)
    corner = samples.point[hem]
    out = -samples.tangent[hem] if hem_after else samples.tangent[hem]
    reach = LIMIT * float(max(width[hem], width[side]))

    def framed(z: Complexes) -> Complexes:
        # Along the hem out of the piece, and up into it, whichever side of the corner the hem is.
        local: Complexes = np.conj(z / out) if hem_after else z / out
        return local

    hem_samples, side_samples = _from_corner(edge, hem), _from_corner(edge, side)
    away = framed(samples.tangent[side : side + 1] * (-1.0 if hem_after else 1.0))[0]
    found = _mirrored(framed(samples.foot[side_samples] - corner), complex(away), reach)
    if found is None:
        return None
    mirrored, below = found
    own = framed(samples.foot[hem_samples] - corner)
    own = np.concatenate([own[:1] + reach, own])
    met = _first_crossing(mirrored, own)
    if met is None:
        return None
    j, k, last = met
    line = np.append(mirrored[: j + 1], last)
    if abs(last) > reach:
        line = line[np.abs(line) <= reach]
        line = np.append(line, np.sqrt(reach**2 - width[hem] ** 2) - 1j * width[hem])
    owner = np.full(len(line), -1, dtype=np.intp)
    owner[-1] = edge[hem] if k > 0 else -1
    owner[0] = edge[side] if below > 0 else -1
    placed = corner + (np.conj(line) if hem_after else line) * out
    order = slice(None) if hem_after else slice(None, None, -1)
    dropped = np.concatenate([hem_samples[:k], side_samples[:below]])
    return Turned(before, placed[order], owner[order], dropped)


def _from_corner(edge: Ints, at: int) -> Ints:
    """The samples of an edge from one of its ends on."""
    own = np.flatnonzero(edge == edge[at])
    return own if own[0] == at else own[::-1]


def _mirrored(line: Complexes, away: complex, reach: float) -> tuple[Complexes, int] | None:
    """The line from where it crosses the real axis upward, mirrored downward, and how many of its points are below.

    It leaves its first point along away.
    """
    if away.imag <= 1e-3:
        return None
    below = 0
    if line[0].imag >= 0.0:
        line = np.concatenate([line[:1] - away * (line[0].imag / away.imag), line])
    else:
        above = np.flatnonzero(line.imag > 0.0)
        if not above.size:
            return None
        below = int(above[0])
        share = line[below - 1].imag / (line[below - 1].imag - line[below].imag)
        line = np.concatenate([[line[below - 1] + share * (line[below] - line[below - 1])], line[below:]])
    tail = line[-1] - line[-2]
    tail = tail / abs(tail) if abs(tail) > 0.0 else away
    line = np.append(line, line[-1] + 2.0 * reach * tail)
    return line.conj(), below


def _first_crossing(one: Complexes, two: Complexes) -> tuple[int, int, complex] | None:
    """Where polyline one first crosses polyline two: the chord of each, and the point."""
    u, v = np.diff(one)[:, None], np.diff(two)[None, :]
    offset = two[None, :-1] - one[:-1, None]
    det = (u.conj() * v).imag
    with np.errstate(divide="ignore", invalid="ignore"):
        s, t = (offset.conj() * v).imag / det, (offset.conj() * u).imag / det
        crossing = (s >= 0.0) & (s <= 1.0) & (t >= 0.0) & (t <= 1.0)
    found = np.argwhere(crossing)
    if not len(found):
        return None
    j, k = (int(i) for i in found[0])
    return j, k, complex(one[j] + s[j, k] * u[j, 0])
