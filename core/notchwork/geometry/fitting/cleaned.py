"""A polyline as it was given, without twins: its corners, the nodes that it keeps, and where a closed one begins."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from notchwork.geometry.cubics import Bools, Complexes, Floats, Ints

TWIN = 2e-4
"""mm: vertices nearer than this are one; files round to four decimals."""
ROUNDED = 1e-3
"""mm that a vertex on a straight line may lie beside it, as files round."""
CORNER = np.radians(20.0)
"""A vertex that turns further is a corner; vertices within 0.05 mm of a radius of 10 mm turn by 11.5°."""
SUDDEN = np.radians(3.0)
"""A vertex that turns by this much more than its neighbours, and by twice as much as they, is a corner too."""
ALWAYS = np.radians(60.0)
"""A vertex that turns further is a corner even where corners are listed and it is not among them."""


class Run(NamedTuple):
    """One polyline without twins; of a closed one the last vertex repeats the first. ``source`` numbers its vertices as given.

    The ends of an open one count as corners.
    """

    z: Complexes
    source: Ints
    corner: Bools
    node: Bools
    ring: bool


def run(z: Complexes, closed: bool, corners: Ints | None, nodes: Ints | None, off: float) -> Run:
    """One polyline as given, cleaned; ValueError where a coordinate is not finite."""
    z = np.asarray(z, dtype=np.complex128)
    if not np.isfinite(z).all():
        raise ValueError("a vertex is not a finite number")
    kept, owner = _apart(z, closed)
    if len(kept) < 2:
        return Run(z[:0], kept[:0], np.zeros(0, bool), np.zeros(0, bool), False)
    p = z[kept]
    turn, before, after = _turns(p, closed)
    corner = np.zeros(len(p), dtype=bool)
    if corners is None:
        sharp = np.abs(turn)
        corner |= (sharp > CORNER) | (sharp * np.minimum(before, after) > 16.0 * off)
        corner |= _sudden(turn, before, after, closed)
    else:
        corner[owner[np.asarray(corners, dtype=np.intp)]] = True
        corner |= np.abs(turn) > ALWAYS
    node = corner.copy()
    if nodes is not None and len(nodes):
        node[owner[np.asarray(nodes, dtype=np.intp)]] = True
        if node.all():
            node = corner.copy()
    if not closed:
        node[[0, -1]] = corner[[0, -1]] = True
        return Run(p, kept, corner, node, False)
    first = _start(corner, node, before)
    order = np.arange(first, first + len(p) + 1) % len(p)
    ring = Run(p[order], kept[order], corner[order], node[order], not corner.any())
    ring.node[[0, -1]] = True
    return ring


def _apart(z: Complexes, closed: bool) -> tuple[Ints, Ints]:
    """The numbers of the vertices kept, and for each vertex the place of the one kept that stands for it."""
    count = len(z)
    keep = np.ones(count, dtype=bool)
    if count > 1 and (np.abs(np.diff(z)) <= TWIN).any():
        last, values = z[0], z.tolist()
        for k in range(1, count):
            if abs(values[k] - last) <= TWIN:
                keep[k] = False
            else:
                last = values[k]
    kept = np.flatnonzero(keep)
    owner = np.cumsum(keep) - 1
    if closed:
        while len(kept) > 1 and abs(z[kept[-1]] - z[kept[0]]) <= TWIN:
            owner[owner == len(kept) - 1] = 0
            kept = kept[:-1]
    elif len(kept) > 1:
        # The end of an open run is where it was drawn.
        kept[-1] = count - 1
    return kept, owner


def _turns(p: Complexes, closed: bool) -> tuple[Floats, Floats, Floats]:
    """By how much (radians) the run turns at each vertex, and the lengths of the chords before and after."""
    if not closed:
        step = np.diff(p)
        turn = np.zeros(len(p))
        turn[1:-1] = np.angle(step[1:] * step[:-1].conj())
        size = np.abs(step)
        return turn, np.append(0.0, size), np.append(size, 0.0)
    round_ = np.concatenate([p[-1:], p, p[:1]])
    step = round_[1:] - round_[:-1]
    size = np.abs(step)
    return np.angle(step[1:] * step[:-1].conj()), size[:-1], size[1:]


def _sudden(turn: Floats, before: Floats, after: Floats, closed: bool) -> Bools:
    """Vertices that turn quite differently from what the vertices before and after them let expect."""
    # The shorter chord is the curve's where a long line runs into it.
    span = np.maximum(np.minimum(before, after), TWIN)
    bend = turn / span
    ahead, behind = np.roll(bend, -1) * span, np.roll(bend, 1) * span
    found = np.ones(len(turn), dtype=bool)
    if not closed:
        found[:2], found[-2:] = False, False
    excess = np.minimum(np.abs(turn - ahead), np.abs(turn - behind))
    found &= excess > np.maximum(SUDDEN, 2.0 * np.maximum(np.abs(ahead), np.abs(behind)))
    found &= excess * np.minimum(before, after) > 20.0 * ROUNDED
    return found


def _start(corner: Bools, node: Bools, before: Floats) -> int:
    """Where a ring begins: as given if a node is there; else at a corner, a node, or where its longest line ends."""
    for marked in (corner, node):
        if marked.any():
            return int(np.argmax(marked))
    longest = int(np.argmax(before))
    return longest if before[longest] > 3.0 * np.median(before) else 0
