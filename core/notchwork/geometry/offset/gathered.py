"""Outlines put together, so that each step of the work is one pass over all of them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike

from notchwork.geometry.cubics import NO_LENGTH, Bools, Complexes, Floats, Ints, as_cubics, is_straight
from notchwork.geometry.measures import swept
from notchwork.geometry.offset.corners import Corner

STRAIGHT = 1e-6
"""A row whose handles are this near (mm) to its chord is straight."""


class Rows(NamedTuple):
    """The rows of all outlines in walking order.

    The outlines that run clockwise are mirrored, so that outward is on the right of every walk.
    """

    start: Complexes
    end: Complexes
    edge: Ints
    """The number of each row's edge."""
    curve: Ints
    """The numbers of the rows that are not straight."""
    cubics: Complexes
    """These rows, (c, 4)."""


@dataclass(frozen=True, slots=True, eq=False)
class Outlines:
    """What is known of the edges and of the outlines, one after the other."""

    widths: Floats
    corners: Ints
    after: Bools
    """At the start of which edges that edge is squared off or turned up; else the one before it is."""
    outline: Ints
    """The number of each edge's outline."""
    first_edge: Ints
    mirrored: Bools
    """The outlines that run clockwise."""


def gather(
    outlines: Sequence[Sequence[Complexes]],
    widths: Sequence[ArrayLike],
    corners: Sequence[Sequence[Corner]] | None,
    whose: Sequence[Sequence[int]] | None,
) -> tuple[Rows, Outlines]:
    """The outlines that offset_outlines is given, as one; rows without any length are left out."""
    counts = np.array([len(outline) for outline in outlines], dtype=np.intp)
    first_edge = np.cumsum(counts) - counts
    outline = np.repeat(np.arange(len(outlines)), counts)
    width = np.concatenate([np.asarray(w, dtype=np.float64).ravel() for w in widths])
    if not (np.isfinite(width) & (width >= 0.0)).all():
        raise ValueError("a width is a finite number of mm and not negative")
    every = [edge for edges in outlines for edge in edges]
    edge = np.repeat(np.arange(len(every)), [len(rows) for rows in every])
    cubics = as_cubics(np.concatenate(every))
    closed = np.flatnonzero(np.abs(cubics[:, 3] - cubics[:, 0]) <= NO_LENGTH)
    nothing = closed[np.abs(cubics[closed] - cubics[closed, :1]).max(axis=1, initial=0.0) <= NO_LENGTH]
    if nothing.size:
        cubics, edge = np.delete(cubics, nothing, axis=0), np.delete(edge, nothing)

    line = outline[edge]
    begin = np.flatnonzero(np.append(True, line[1:] != line[:-1])[: len(line)])
    mirrored = np.zeros(len(outlines), dtype=bool)
    mirrored[line[begin]] = np.add.reduceat(swept(cubics), begin) < 0.0 if len(begin) else False
    if mirrored.any():
        turned = mirrored[line]
        cubics[turned] = cubics[turned].conj()
    curve = np.flatnonzero(~is_straight(cubics, STRAIGHT))
    # What is read from here on is small enough to stay near the processor.
    rows = Rows(cubics[:, 0].copy(), cubics[:, 3].copy(), edge, curve, cubics[curve])

    style = np.zeros(len(every), dtype=np.intp)
    if corners is not None:
        style[:] = [corner for row in corners for corner in row]
    chosen = np.full(len(every), -1, dtype=np.intp)
    if whose is not None:
        chosen[:] = [number for row in whose for number in row]
    here = np.arange(len(every)) - first_edge[outline]
    before = first_edge[outline] + (here - 1) % counts[outline]
    after = np.where(chosen >= 0, chosen == here, width > width[before])
    return rows, Outlines(width, style, after, outline, first_edge, mirrored)
