"""Runs of cubics as paths of a content stream; cubics stay cubics. Source: ISO 32000-1:2008, 8.5.2."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from notchwork.drawing import Stroke
from notchwork.drawing.drawing import Complexes
from notchwork.geometry import is_straight
from notchwork_plugins.pdf.numbers import UM, um

BREAK = 1e-6
"""mm: a cubic that begins further than this from where the one before it ends is a new run."""
_STRAIGHT = 0.5 / UM
"""mm: what lies this near its chord cannot be told from it in µm."""
_QUARTER = 4 * (2**0.5 - 1) / 3
"""How far the handles of a quarter of a circle reach, as a share of its radius."""


def paths(strokes: Sequence[Stroke], shift: complex) -> list[str]:
    """The path of each stroke, moved by ``shift`` (mm). Raises ValueError for a number that is not finite.

    All strokes are turned into numbers at once: a drawing has thousands of short ones.
    """
    if not strokes:
        return []
    cubics: Complexes = np.concatenate([stroke.cubics.reshape(-1, 4) for stroke in strokes])
    if not np.isfinite(cubics).all():
        raise ValueError("a page cannot hold a number that is not finite")
    rows = np.rint((cubics + shift).view(np.float64) * UM).astype(np.int64).tolist()
    straight = is_straight(cubics, _STRAIGHT).tolist()
    apart = np.ones(len(cubics), bool)
    apart[1:] = np.abs(cubics[1:, 0] - cubics[:-1, 3]) > BREAK
    begins = apart.tolist()
    found, first = [], 0
    for stroke in strokes:
        end = first + len(stroke.cubics)
        if end > first:
            begins[first] = True
        found.append(_path(rows[first:end], straight[first:end], begins[first:end], stroke.closed))
        first = end
    return found


def spot(centre: complex, radius: float) -> str:
    """A circle; lengths in mm."""
    turns = (1, 1j, -1, -1j)
    arcs = [[centre + radius * turn * z for z in (1, 1 + _QUARTER * 1j, _QUARTER + 1j, 1j)] for turn in turns]
    return _path(
        [[um(v) for z in arc for v in (z.real, z.imag)] for arc in arcs],
        [False] * 4,
        [True] + [False] * 3,
        True,
    )


def _path(rows: list[list[int]], straight: list[bool], begins: list[bool], closed: bool) -> str:
    parts = []
    last = len(rows) - 1
    # The last side of a polygon is what closing draws.
    spared = (
        last
        if closed and last > 0 and straight[last] and rows[last][6:] == rows[0][:2] and not any(begins[1:])
        else -1
    )
    for k, (x, y, ax, ay, bx, by, ex, ey) in enumerate(rows):
        if begins[k]:
            parts.append(f"{x} {y} m ")
        if not straight[k]:
            parts.append(f"{ax} {ay} {bx} {by} {ex} {ey} c ")
        elif k != spared:
            parts.append(f"{ex} {ey} l ")
    return "".join(parts) + ("h " if closed and parts else "")
