"""Arcs, circles and ellipses, all of a drawing at once."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from notchwork.geometry.affine import Affine
from notchwork.geometry.arcs import unit_arcs
from notchwork.geometry.cubics import Complexes, Floats
from notchwork_plugins.dxf.file.entity import Entity
from notchwork_plugins.dxf.plain.curve import NOTHING, Curves
from notchwork_plugins.dxf.plain.planes import normal, plane

_FULL = 2 * math.pi
_SAME = 1e-9
"""Angles (radians) nearer than this are one; a whole turn lies between them."""


def circles(entities: Sequence[Entity], units: Floats) -> Curves:
    """CIRCLE and ARC. ``units`` (m,) says how many mm a unit will be for each."""
    found = _Round()
    for number, entity in enumerate(entities):
        radius = entity.number(40)
        if not radius > 0.0:
            # A negative radius turns up in old files: the circle is the same.
            radius = abs(radius)
        if radius == 0.0:
            found.faults[number] = "its radius is 0"
        first, angle = 0.0, _FULL
        if entity.kind == "ARC":
            first = math.radians(entity.number(50))
            angle = _forth(math.radians(entity.number(51)) - first)
        place = plane(entity)
        start = complex(math.cos(first), math.sin(first)) * radius
        at = entity.point()
        found.add(Affine(place.turn * start, place.flip * start.conjugate(), place(at)), angle, radius)
    return found.curves(units)


def ellipses(entities: Sequence[Entity], units: Floats) -> Curves:
    """ELLIPSE, whole or in part; its axes are stated in the coordinates of what holds it."""
    found = _Round()
    for number, entity in enumerate(entities):
        major = (entity.number(11), entity.number(21), entity.number(31))
        long, ratio = math.hypot(*major), abs(entity.number(40, 1.0))
        if long == 0.0:
            found.faults[number] = "its longer axis has no length"
        nx, ny, nz = normal(entity)
        across = complex(ny * major[2] - nz * major[1], nz * major[0] - nx * major[2]) * ratio
        along = complex(major[0], major[1])
        first, last = entity.number(41), entity.number(42, _FULL)
        angle = _forth(last - first)
        # The point at t is centre + along · cos t + across · sin t; the arc is turned so that it starts at t = first.
        turn, flip = (along - 1j * across) / 2, (along + 1j * across) / 2
        start = complex(math.cos(first), math.sin(first))
        found.add(
            Affine(turn * start, flip * start.conjugate(), entity.point()), angle, long * max(1.0, ratio)
        )
    return found.curves(units)


def _forth(angle: float) -> float:
    """How far it is counter-clockwise; a whole turn where both ends are one."""
    forth = angle % _FULL
    return _FULL if forth < _SAME or _FULL - forth < _SAME else forth


class _Round:
    """Arcs that are the unit circle's, moved."""

    def __init__(self) -> None:
        self._places: list[Affine] = []
        self._angles: list[float] = []
        self._radii: list[float] = []
        self.faults: dict[int, str] = {}

    def add(self, place: Affine, angle: float, radius: float) -> None:
        self._places.append(place)
        self._angles.append(angle)
        self._radii.append(radius)

    def curves(self, units: Floats) -> Curves:
        if not self._places:
            return Curves(NOTHING, [], [], {})
        angles = np.array(self._angles)
        cubics, counts = unit_arcs(angles, np.array(self._radii) * units)
        turn, flip, shift = np.repeat(np.array(self._places), counts, axis=0).T[:, :, None]
        placed: Complexes = turn * cubics + flip * cubics.conj() + shift
        whole = angles == _FULL
        last = np.cumsum(counts) - 1
        placed[last[whole], 3] = placed[(last - counts + 1)[whole], 0]
        if self.faults:
            there = np.ones(len(counts), bool)
            there[list(self.faults)] = False
            placed = placed[np.repeat(there, counts)]
            counts = np.where(there, counts, 0)
        return Curves(placed, counts.tolist(), whole.tolist(), self.faults)
