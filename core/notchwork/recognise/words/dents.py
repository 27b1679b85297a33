"""Darts and nicks that are drawn into an outline: the outline is laid across their mouths."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from notchwork.geometry import area, is_straight, lengths
from notchwork.recognise.shape import Contour, Shape
from notchwork.recognise.words.rim import start_way, stop_way, turn_between

Complexes = NDArray[np.complex128]

NICK = 12.0
"""mm: a nick is no deeper and no wider; 1/8 to 1/4 in (3 to 6 mm) is usual (common practice, no source)."""
LEAST = 1.5
"""mm: what is shallower is no nick."""
MOST_ROWS = 6
GOES_ON = 35.0
"""Degrees by which the edge may turn at a mouth's feet and still be one edge."""
MOUTH = 80.0
"""mm: a wider V is the shape of the piece (a neckline), not a dart (common practice, no source)."""
POINT = 45.0
"""Degrees: the widest dart."""
LEGS = 0.25
"""How much one leg of a dart may differ from the other, as a share of the longer one."""


@dataclass(frozen=True, slots=True, eq=False)
class Dent:
    """What was drawn into an outline: a nick, or a dart with its legs (2, 4) from foot to apex. ``row`` is the mouth's row."""

    is_dart: bool
    row: int
    legs: Complexes


def without_dents(shape: Shape) -> tuple[Shape, tuple[Dent, ...]]:
    """The shape with its outline laid across the mouths of Vs and Us, and what those were.

    A V is a dart, and a small V or U a nick, only where the edge goes on across its mouth and its point lies inside.
    Where the drawing names the edges itself, nothing is looked for.
    """
    if any(name is not None for name in shape.edges):
        return shape, ()
    outline = shape.outline
    found = list(_dents(outline))
    if not found:
        return shape, ()
    return _laid_across(shape, found)


def _dents(outline: Contour) -> Iterator[tuple[int, int, bool]]:
    """First row, number of rows, and whether it is a dart; none overlap."""
    cubics = outline.cubics
    n = len(cubics)
    sense = 1.0 if area(cubics) >= 0 else -1.0
    straight = is_straight(cubics)
    taken = np.zeros(n, dtype=bool)
    arc = lengths(cubics)
    # Short dents first: a nick inside the mouth of nothing larger.
    for count in range(2, min(MOST_ROWS, n - 2) + 1):
        for first in _narrow(cubics[:, 0], count):
            rows = (first + np.arange(count)) % n
            if taken[rows].any():
                continue
            kind = _kind(cubics, rows, sense, straight, arc)
            if kind is not None:
                taken[rows] = True
                yield first, count, kind == "dart"


def _narrow(z: Complexes, count: int) -> list[int]:
    """The rows at which a dent of so many could begin, by how wide its mouth is and how far its nodes reach from there; the
    outlines of some files have a hundred thousand rows."""
    mouth = np.abs(np.roll(z, -count) - z)
    reach = np.max([np.abs(np.roll(z, -k) - z) for k in range(1, count)], axis=0)
    could = (mouth <= NICK) & (reach >= LEAST)
    if count == 2:
        could |= (mouth <= MOUTH) & (reach > NICK)
    return np.flatnonzero(could).tolist()


def _kind(
    cubics: Complexes,
    rows: NDArray[np.intp],
    sense: float,
    straight: NDArray[np.bool_],
    arc: NDArray[np.float64],
) -> str | None:
    n = len(cubics)
    a, b = complex(cubics[rows[0], 0]), complex(cubics[rows[-1], 3])
    before = stop_way(cubics[(rows[0] - 1) % n])
    after = start_way(cubics[(rows[-1] + 1) % n])
    mouth = abs(b - a)
    # A slit has no mouth: the way across it is that of the edge itself.
    across = (b - a) / mouth if mouth > 0.5 else (before + after)
    if not across or turn_between(before, across) > GOES_ON or turn_between(across, after) > GOES_ON:
        return None
    across /= abs(across)
    inner = cubics[rows[1:], 0]
    depth = ((inner - a) * np.conj(across)).imag
    inward = sense * depth
    deepest = int(np.argmax(np.abs(depth)))
    if mouth <= NICK and LEAST <= abs(depth[deepest]) <= NICK and np.all(depth * depth[deepest] >= -1e-9):
        steep = abs(depth[deepest]) >= 0.25 * max(mouth, 0.1)
        return "nick" if steep and arc[rows].sum() <= 4.0 * NICK else None
    if len(rows) == 2 and inward[0] > NICK and mouth <= MOUTH and bool(straight[rows].all()):
        legs = arc[rows]
        sharp = turn_between(a - complex(inner[0]), b - complex(inner[0])) <= POINT
        if sharp and abs(legs[0] - legs[1]) <= LEGS * legs.max():
            return "dart"
    return None


def _laid_across(shape: Shape, found: list[tuple[int, int, bool]]) -> tuple[Shape, tuple[Dent, ...]]:
    outline = shape.outline
    n = len(outline.cubics)
    inside = np.zeros(n, dtype=bool)
    feet: set[int] = set()
    for first, count, _ in found:
        inside[(first + np.arange(count)) % n] = True
        feet |= {(first + k) % n for k in range(count + 1)}
    corners = [row for row in outline.corners if row not in feet]
    at_first = {first: (count, is_dart) for first, count, is_dart in found}
    # Begin at a corner that stays, or where no dent is, so that no mouth runs over the seam of the array.
    start = corners[0] if corners else next(k for k in range(n) if not inside[k])
    rows: list[Complexes] = []
    sources: list[int] = []
    new_corners: list[int] = [] if corners else [0]
    widths: list[float | None] = []
    folds: set[int] = set()
    dents: list[Dent] = []
    edge_of = np.searchsorted(np.array(outline.corners), np.arange(n), side="right") - 1
    k = 0
    while k < n:
        row = (start + k) % n
        if row in corners:
            new_corners.append(len(rows))
        if len(widths) < len(new_corners):
            widths.append(shape.allowances[edge_of[row]] if shape.allowances else None)
            if int(edge_of[row]) in shape.folds:
                folds.add(len(new_corners) - 1)
        if row in at_first:
            count, is_dart = at_first[row]
            drawn = outline.cubics[(row + np.arange(count)) % n]
            a, b = drawn[0, 0], drawn[-1, 3]
            legs = np.array([drawn[0], drawn[-1][::-1]])
            dents.append(Dent(is_dart, len(rows), legs))
            rows.append(np.array([a, a, b, b]))
            sources.append(-1)
            k += count
        else:
            rows.append(outline.cubics[row])
            sources.append(int(outline.sources[row]))
            k += 1
    across = Contour(np.array(rows), tuple(new_corners), np.array(sources, dtype=np.intp))
    edges: tuple[str | None, ...] = (None,) * len(new_corners) if shape.edges else ()
    laid = replace(
        shape,
        outline=across,
        allowances=tuple(widths) if shape.allowances else (),
        edges=edges,
        folds=frozenset(folds),
    )
    return laid, tuple(dents)
