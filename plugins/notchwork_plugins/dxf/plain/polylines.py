"""LWPOLYLINE and POLYLINE: corners with bulges between them, all of a drawing at once.

A bulge is the tangent of a quarter of the angle of the arc that leads to the next corner, negative where it runs clockwise.
Source: the DXF Reference, LWPOLYLINE (code 42).
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from notchwork.geometry.affine import IDENTITY, Affine
from notchwork.geometry.arcs import unit_arcs
from notchwork.geometry.cubics import Complexes, Floats, Ints
from notchwork_plugins.dxf.file.entity import Entity
from notchwork_plugins.dxf.file.vertices import FRAME, corners
from notchwork_plugins.dxf.plain.curve import NOTHING, Curves, straight
from notchwork_plugins.dxf.plain.planes import plane

_CLOSED, _SPATIAL, _MESH, _POLYFACE = 1, 8, 16, 64
_NO_BULGE = 1e-9


def is_mesh(entity: Entity) -> bool:
    """Whether a POLYLINE is a surface in space."""
    return entity.kind == "POLYLINE" and bool(entity.flag(70) & (_MESH | _POLYFACE))


def is_spatial(entity: Entity) -> bool:
    """Whether a polyline has corners at different heights, which seen from above come nearer to each other."""
    if entity.kind != "POLYLINE" or not entity.flag(70) & _SPATIAL:
        return False
    heights = [vertex.number(30) for vertex in entity.parts if not vertex.flag(70) & FRAME]
    return bool(heights) and max(heights) - min(heights) > 1e-9


def polylines(entities: Sequence[Entity], units: Floats) -> Curves:
    """LWPOLYLINE and POLYLINE. ``units`` (m,) says how many mm a unit will be for each."""
    runs: list[Complexes] = [np.empty(0, np.complex128)]
    bulges: list[Floats] = [np.empty(0)]
    counts: list[int] = []
    closed: list[bool] = []
    places: list[Affine] = []
    faults: dict[int, str] = {}
    for number, entity in enumerate(entities):
        at, bulge = corners(entity)
        closes = bool(entity.flag(70) & _CLOSED)
        if not len(at):
            faults[number] = "it has no corner"
        elif closes or len(at) == 1:
            # A corner alone goes on to itself: a point.
            at, bulge = np.append(at, at[0]), np.append(bulge, 0.0)
        runs.append(at)
        bulges.append(bulge)
        counts.append(len(at))
        closed.append(closes)
        places.append(_place(entity))
    at = np.concatenate(runs)
    if not len(at):
        return Curves(NOTHING, counts, closed, faults)
    each_corner = np.array(counts)
    # From the last corner of a polyline nothing leads on.
    leads = np.ones(len(at), bool)
    leads[np.cumsum(each_corner)[each_corner > 0] - 1] = False
    chords = straight(np.append(at, 0))[leads]
    owner = np.repeat(np.arange(len(counts)), np.maximum(each_corner - 1, 0))
    cubics, each = _bent(chords, np.concatenate(bulges)[leads], units[owner])
    owner = np.repeat(owner, each)
    turn, flip, shift = np.array(places, np.complex128)[owner].T[:, :, None]
    return Curves(
        turn * cubics + flip * cubics.conj() + shift,
        np.bincount(owner, minlength=len(counts)).tolist(),
        closed,
        faults,
    )


def _place(entity: Entity) -> Affine:
    if entity.kind == "LWPOLYLINE":
        return plane(entity, 38)
    return IDENTITY if entity.flag(70) & _SPATIAL else plane(entity)


def _bent(chords: Complexes, bulges: Floats, units: Floats) -> tuple[Complexes, Ints]:
    """Chords as arcs where they have a bulge, and how many cubics each has become."""
    bent = (np.abs(bulges) > _NO_BULGE) & (chords[:, 0] != chords[:, 3])
    if not bent.any():
        return chords, np.ones(len(chords), np.intp)
    start, end, bulge = chords[bent, 0], chords[bent, 3], bulges[bent]
    centre = (start + end) / 2 + 1j * (end - start) * (1 - bulge * bulge) / (4 * bulge)
    arcs, counts = unit_arcs(4 * np.arctan(bulge), np.abs(start - centre) * units[bent])
    arcs = np.repeat(centre, counts)[:, None] + np.repeat(start - centre, counts)[:, None] * arcs
    last = np.cumsum(counts) - 1
    # Rounding may not open what follows.
    arcs[last - counts + 1, 0], arcs[last, 3] = start, end
    each = np.ones(len(chords), np.intp)
    each[bent] = counts
    cubics = np.repeat(chords, each, axis=0)
    cubics[np.repeat(bent, each)] = arcs
    return cubics, each
