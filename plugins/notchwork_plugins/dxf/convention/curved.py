"""What the convention draws with straight lines alone, drawn with arcs and splines all the same: made into straight lines.

The convention knows lines and polylines (from memory of ASTM D6673-10), but general programs that save its files write arcs,
splines and bulges, and planes that face away. What they draw is not in doubt, so it is read as in any drawing.
"""

from __future__ import annotations

from typing import Final

import numpy as np

from notchwork.geometry.measures import chords_needed, flatten
from notchwork_plugins.dxf.convention.places import Complexes
from notchwork_plugins.dxf.file.entity import Entity

KINDS: Final = frozenset({"ARC", "CIRCLE", "ELLIPSE", "SPLINE"})
FINE = 0.02
"""mm that the straight lines lie beside the curve at most, which is less than files of the convention allow themselves."""
FARTHEST = 1e7
"""mm: no curve reaches further, and its lines can be counted."""
MOST = 200_000
"""Straight lines that stand for one curve."""


def straightened(entity: Entity, mm: float) -> tuple[Complexes, bool, str]:
    """The corners (n,) in mm of straight lines along an entity, and whether it is closed; why there are none, else ""."""
    # Most files have nothing of the kind.
    from notchwork_plugins.dxf.plain.ink import CONVERTERS

    nothing: Complexes = np.zeros(0, dtype=np.complex128)
    with np.errstate(all="ignore"):
        made = CONVERTERS[entity.kind]([entity], np.array([mm]))
    cubics = made.cubics * mm
    if not len(cubics):
        return nothing, False, made.faults.get(0, "it draws nothing")
    if not (np.abs(cubics) <= FARTHEST).all() or chords_needed(cubics, FINE).sum() > MOST:
        return nothing, False, "it is larger than any piece"
    closes = made.closed[0] or entity.kind == "CIRCLE"
    return flatten(cubics, FINE).points, closes, ""
