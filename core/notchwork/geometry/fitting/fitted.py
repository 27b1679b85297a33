"""Polylines whose vertices lie on smooth curves become those curves again."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from notchwork.geometry.cubics import Complexes, Ints

OFF = 0.05
"""mm that chords stray from the curve they stand for, unless said otherwise."""
STRAY = 0.005
"""mm that the vertices may lie beside their cubic before it is parted."""


class Fitted(NamedTuple):
    """One run as cubics (k, 4), each from where the last ended.

    ``corners`` numbers the rows that begin at a corner (the ends of an open run are none); ``source[k]`` is the input vertex
    at which row k begins. Row 0 of a closed run begins at its first corner, else at its first kept node, else where its
    longest straight line ends, else at vertex 0. ``off`` (mm) is the greatest distance of a vertex from the cubics.
    """

    cubics: Complexes
    corners: Ints
    source: Ints
    off: float


def fitted(
    runs: Sequence[Complexes],
    closed: Sequence[bool],
    corners: Sequence[Sequence[int]] | None = None,
    nodes: Sequence[Sequence[int]] | None = None,
    off: float = OFF,
    stray: float = STRAY,
) -> list[Fitted]:
    """The smooth cubics on which the vertices of polylines lie, as few as follow them within stray (mm).

    runs are polylines (m,) in mm whose chords lie within off (mm) of the curves that they stand for. corners number the
    vertices of each run at which its tangent breaks. Where they are not given (None), vertices that turn by more than 20° are
    corners, and those that turn quite differently from their neighbours, or further than a curve within off of its chords
    could. Vertices that turn by more than 60°, or join two straight lines at an angle, are corners in any case. nodes number
    vertices that are to stay nodes, smooth ones; they are passed over where every vertex of a run is one. A chord between
    two corners or nodes is a straight line; so are vertices on a line, and a chord that is long beside those next to it.
    Where chords stray by twice off and more, nothing smooth is made of them: polygons stay polygons.

    Raises ValueError for a coordinate that is not finite.
    """
    # Most processes never fit anything, and start the sooner.
    from notchwork.geometry.fitting.whole import fit_runs

    return fit_runs(runs, closed, corners, nodes, off, stray)
