"""LINE, POINT, SOLID and TRACE, all of a drawing at once."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from notchwork.geometry.cubics import Floats
from notchwork_plugins.dxf.file.entity import Entity
from notchwork_plugins.dxf.plain.curve import NOTHING, Curves, straight
from notchwork_plugins.dxf.plain.planes import plane


def segments(entities: Sequence[Entity], _units: Floats) -> Curves:
    """LINE."""
    if not entities:
        return Curves(NOTHING, [], [], {})
    ends = np.array([(entity.point(10), entity.point(11)) for entity in entities], np.complex128)
    count = len(entities)
    return Curves(ends[:, [0, 0, 1, 1]], [1] * count, [False] * count, {})


def points(entities: Sequence[Entity], _units: Floats) -> Curves:
    """POINT: a cubic without length."""
    at = np.array([entity.point() for entity in entities], np.complex128)
    count = len(entities)
    return Curves(np.repeat(at[:, None], 4, axis=1), [1] * count, [False] * count, {})


def solids(entities: Sequence[Entity], _units: Floats) -> Curves:
    """SOLID and TRACE: their third and fourth corners stand crosswise; a triangle has the fourth on the third."""
    runs = [NOTHING]
    for entity in entities:
        a, b, c = (entity.point(code) for code in (10, 11, 12))
        d = entity.point(13) if 13 in entity.codes else c
        runs.append(straight(plane(entity).of(np.array([a, b, d, c, a]))))
    count = len(entities)
    return Curves(np.concatenate(runs), [4] * count, [True] * count, {})
