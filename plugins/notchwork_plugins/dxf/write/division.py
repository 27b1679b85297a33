"""Where to divide lines that are known in several sizes so that as few chords as will do stay close to all of them."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

Complexes = NDArray[np.complex128]
Floats = NDArray[np.float64]
Ints = NDArray[np.intp]
Places: TypeAlias = Callable[[Floats], Complexes]
"""The points (sizes, m) in mm at places (m,), which run from 0 to the number of rows."""

BETWEEN = 0.97
"""Of the distance that is allowed: what is looked at may lie beside the furthest."""
EVEN = 1e-9
"""What a cell needs that does not bend, so that places in it are even."""
MOST_ROUNDS = 40


def divided(places: Places, cells: Ints, tol: float) -> tuple[Ints, Floats]:
    """The vertices of a line as row (n,) and parameter there (n,), without its end: every row's start, and as many more at even
    shares of its bend as keep each chord within tol (mm) of the line in every size.

    ``cells`` (rows,) says how finely each row is looked at.
    """
    rows = np.repeat(np.arange(len(cells)), cells)
    first = np.cumsum(cells) - cells
    looks = np.append(rows + (np.arange(len(rows)) - first[rows]) / cells[rows], float(len(cells)))
    z = places(looks)
    bend = np.concatenate([[0.0], np.cumsum(_bends(z, first, cells, tol))])
    start, end = bend[first], bend[first + cells]
    count = np.maximum(np.ceil(end - start - 1e-3), 1).astype(np.intp)
    limit = BETWEEN * tol
    for _ in range(MOST_ROUNDS):
        row = np.repeat(np.arange(len(cells)), count)
        step = np.arange(len(row)) - (np.cumsum(count) - count)[row]
        wanted = start[row] + step / count[row] * (end - start)[row]
        place = np.where(step > 0, np.interp(wanted, bend, looks), row)
        off = np.zeros(len(cells))
        np.maximum.at(off, row, _strays(places, place, looks, z))
        over = off > limit
        if not over.any():
            break
        # Twice as many chords lie a quarter as far beside the line.
        wanted_more = np.ceil(count[over] * np.sqrt(off[over] / limit)).astype(np.intp)
        count[over] = np.clip(wanted_more, count[over] + 1, 2 * count[over])
    return row, place - row


def _bends(z: Complexes, first: Ints, cells: Ints, tol: float) -> Floats:
    """How many chords each cell needs, a small part of one: a chord over m cells lies m² / 4 times as far beside the curve as the
    chord over two."""
    off = _beside(z[:, 1:-1], z[:, :-2], z[:, 2:]).max(axis=0)
    needed = np.sqrt(off / (4.0 * tol)) + EVEN
    # At a row's start there is a vertex anyhow: a corner there is no bend.
    at = np.concatenate([[0.0], needed, [0.0]])
    at[first] = 0.0
    before, after = at[:-1].copy(), at[1:].copy()
    wide = cells > 1
    before[first[wide]] = after[first[wide]]
    last = first + cells - 1
    after[last[wide]] = before[last[wide]]
    after[last[~wide]] = 0.0
    return np.asarray((before + after) / 2.0)


def _strays(places: Places, place: Floats, looks: Floats, z: Complexes) -> Floats:
    """How far (n,) the line lies from each chord in the size where it lies furthest."""
    ends = places(np.append(place, looks[-1]))
    which = np.clip(np.searchsorted(place, looks, side="right") - 1, 0, len(place) - 1)
    off = _beside(z, ends[:, which], ends[:, which + 1]).max(axis=0)
    furthest = np.zeros(len(place))
    np.maximum.at(furthest, which, off)
    return furthest


def _beside(z: Complexes, start: Complexes, end: Complexes) -> Floats:
    """How far points lie from straight lines, one for each."""
    chord, at = end - start, z - start
    square = np.abs(chord) ** 2
    share = np.divide((at * chord.conj()).real, square, out=np.zeros(square.shape), where=square > 0.0)
    return np.asarray(np.abs(at - np.clip(share, 0.0, 1.0) * chord))
