"""An area that lines enclose: its rim, the strokes it is made of, and what holds them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from notchwork.drawing import Look
from notchwork.geometry import Face, area, bounds, flatten, inside, lengths
from notchwork.recognise.contours import contour, counter_clockwise
from notchwork.recognise.placed import FINE, Line
from notchwork.recognise.rings import joined
from notchwork.recognise.shape import Complexes, Contour, Ints

Bools = NDArray[np.bool_]
Key = tuple[str, ...]


@dataclass(frozen=True, eq=False)
class Area:
    """An area with its rim, counter-clockwise: the cubics (k, 4), the stroke of each, the lines it is made of and what holds it.

    ``parts`` are the faces between open strokes of which it was put together, ``seams`` all lines between parts.
    """

    cubics: Complexes
    sources: Ints
    lines: frozenset[int]
    within: Key
    look: Look | None
    names: tuple[str, ...] = ()
    parts: tuple[Area, ...] = ()
    seams: tuple[Complexes, ...] = ()

    @cached_property
    def size(self) -> float:
        """mm² it covers."""
        return abs(area(self.cubics))

    @cached_property
    def around(self) -> float:
        """mm round it."""
        return float(lengths(self.cubics).sum())

    @cached_property
    def box(self) -> tuple[complex, complex]:
        return bounds(self.cubics)

    @cached_property
    def polyline(self) -> Complexes:
        return flatten(self.cubics, FINE).points[:-1]

    @cached_property
    def contour(self) -> Contour:
        return contour(self.cubics, self.sources)

    @cached_property
    def edges(self) -> tuple[tuple[Complexes, float], ...]:
        """Each edge with its length (mm)."""
        edges = [self.contour.edge(k) for k in range(len(self.contour.corners))]
        return tuple((edge, float(lengths(edge).sum())) for edge in edges)

    @property
    def filling(self) -> str | None:
        return None if self.look is None else self.look.filling

    def holds(self, z: Complexes) -> Bools:
        """Which points (m,) lie inside."""
        return inside(self.polyline, z)


def area_of(way: Sequence[tuple[Line, bool]]) -> Area:
    """What lines that follow each other enclose, some walked backwards (True)."""
    found = joined(way) if len(way) > 1 else None
    line = way[0][0]
    cubics = line.cubics if found is None else found.cubics
    sources = np.full(len(cubics), line.number, dtype=np.intp) if found is None else found.sources
    cubics, sources = counter_clockwise(cubics, sources)
    names = tuple(str(one.stroke.facts["name"]) for one, _ in way if "name" in one.stroke.facts)
    return Area(
        cubics,
        np.asarray(sources),
        frozenset(one.number for one, _ in way),
        line.within,
        line.look,
        names,
    )


def point_in(face: Face) -> complex:
    """A point inside a face, a little way off one of its longer rows."""
    ring = flatten(face.cubics, FINE).points[:-1]
    chord = np.roll(ring, -1) - ring
    for k in np.argsort(-np.abs(chord))[:6].tolist():
        for share in (0.1, 0.01, 0.001):
            z = ring[k] + chord[k] * (0.5 + 1j * share)
            if inside(ring, np.array([z]))[0]:
                return complex(z)
    return complex(ring.mean())
