"""The edges of a closed outline moved inward, each by its own width, and brought together again at the corners."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from notchwork.geometry.crossings import intersections
from notchwork.geometry.cubics import Complexes, parts, tangents
from notchwork.geometry.parallel import parallel
from notchwork.geometry.shapes import lines

FARTHEST = 4.0
"""Edges are drawn on beyond their ends by so many widths at most to meet each other."""


def inset(edges: Sequence[Complexes], widths: Sequence[float]) -> list[Complexes] | None:
    """Edges (each (k, 4)) of a closed outline, its inside on their left, moved in by their widths (mm, 0 or more).

    Neighbours are cut where they cross, or drawn on straight until they meet; where both run on in one direction at
    different widths, the first is led across to the second. None where an edge is swallowed.
    """
    if len(edges) == 1:
        moved = parallel(edges[0], widths[0])
        if not len(moved):
            return None
        moved = moved.copy()
        moved[-1, 3] = moved[0, 0]
        return [moved]
    moved_edges = [parallel(edge, width) for edge, width in zip(edges, widths, strict=True)]
    for k, after in enumerate(moved_edges):
        before = moved_edges[k - 1]
        if not len(before) or not len(after):
            return None
        met = _met(before, after, max(widths[k - 1], widths[k]))
        if met is None:
            return None
        moved_edges[k - 1], moved_edges[k] = met
    return moved_edges


def _met(before: Complexes, after: Complexes, width: float) -> tuple[Complexes, Complexes] | None:
    """Two edges that follow each other, brought to a common end."""
    end, start = complex(before[-1, 3]), complex(after[0, 0])
    if abs(end - start) < 1e-9:
        after = after.copy()
        after[0, 0] = end
        return before, after
    cut = _cut(before, after, end, FARTHEST * width)
    if cut is not None:
        return cut
    last, first = np.array([len(before) - 1]), np.array([0])
    u = complex(tangents(before, last, np.ones(1))[0])
    v = complex(tangents(after, first, np.zeros(1))[0])
    turn = (u.conjugate() * v).imag
    if abs(turn) < 1e-3:
        return np.concatenate([before, lines(np.array([end, start]))]), after
    far = ((start - end).conjugate() * v).imag / turn
    back = ((start - end).conjugate() * u).imag / turn
    reach = FARTHEST * width
    if not -1e-9 <= far <= reach or not -reach <= back <= 1e-9:
        # At a slanted corner between different widths one of the two is drawn on, and the other cut.
        if 0.0 < far <= reach and back > 0.0:
            on = np.concatenate([before, lines(np.array([end, end + reach * u]))])
            return _cut(on, after, end, reach)
        if -reach <= back < 0.0 and far < 0.0:
            return _cut(
                before, np.concatenate([lines(np.array([start - reach * v, start])), after]), end, reach
            )
        return None
    meet = end + far * u
    return (
        np.concatenate([before, lines(np.array([end, meet]))]),
        np.concatenate([lines(np.array([meet, start])), after]),
    )


def _cut(
    before: Complexes, after: Complexes, end: complex, reach: float
) -> tuple[Complexes, Complexes] | None:
    """Two edges cut where they cross within reach (mm) of a corner; None where they do not."""
    cross = intersections(before, after)
    if not len(cross.points):
        return None
    # The crossing at the corner is the last on the way in, not one on the far side of the outline.
    order = np.lexsort((cross.a_t, cross.a_rows))
    near = order[np.abs(cross.points[order] - end) <= reach + 1e-6]
    if not len(near):
        return None
    k = int(near[-1])
    return _until(before, int(cross.a_rows[k]), float(cross.a_t[k])), _from(
        after, int(cross.b_rows[k]), float(cross.b_t[k]), complex(cross.points[k])
    )


def _until(run: Complexes, row: int, t: float) -> Complexes:
    cut = parts(run, np.array([row]), np.zeros(1), np.array([t]))
    return np.concatenate([run[:row], _straightened(cut, run[row])])


def _from(run: Complexes, row: int, t: float, z: complex) -> Complexes:
    cut = _straightened(parts(run, np.array([row]), np.array([t]), np.ones(1)), run[row])
    rest = np.concatenate([cut, run[row + 1 :]])
    if rest[0, 1] == rest[0, 0]:
        rest[0, 1] = z
    rest[0, 0] = z
    return rest


def _straightened(cut: Complexes, whole: Complexes) -> Complexes:
    if whole[0] == whole[1] and whole[2] == whole[3]:
        cut[:, 1], cut[:, 2] = cut[:, 0], cut[:, 3]
    return cut
