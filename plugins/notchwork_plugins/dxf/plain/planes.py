"""Where an entity's own plane lies: its coordinates as those of the block that holds it, seen from above.

Source: the DXF Reference, "Arbitrary Axis Algorithm". An entity in a plane that faces away (extrusion 0, 0, -1) is mirrored.
"""

from __future__ import annotations

import math

from notchwork.geometry.affine import IDENTITY, Affine, matrix
from notchwork_plugins.dxf.file.entity import Entity

_STEEP = 1 / 64
"""A normal nearer to the z axis than this has its x axis from y."""
_LEVEL = 1e-9
"""How far the normal of a level plane may be off."""

_FACING_AWAY = matrix(-1.0, 0.0, 0.0, 1.0, 0.0, 0.0)


def plane(entity: Entity, height: int = 30) -> Affine:
    """The map from an entity's own coordinates; ``height`` is the code of how far its plane lies from the origin."""
    x, y, z = normal(entity)
    if abs(x) <= _LEVEL and abs(y) <= _LEVEL:
        return IDENTITY if z > 0.0 else _FACING_AWAY
    if abs(x) < _STEEP and abs(y) < _STEEP:
        across = (z, 0.0, -x)
    else:
        across = (-y, x, 0.0)
    size = math.hypot(*across)
    ax, ay, az = (part / size for part in across)
    up = (y * az - z * ay, z * ax - x * az)
    far = entity.number(height)
    return matrix(ax, ay, *up, x * far, y * far)


def is_tilted(entity: Entity) -> bool:
    """Whether the plane is not level, so that what is drawn in it looks shorter from above."""
    if 210 not in entity.codes:
        return False
    x, y, _ = normal(entity)
    return abs(x) > _LEVEL or abs(y) > _LEVEL


def normal(entity: Entity) -> tuple[float, float, float]:
    """The unit vector at right angles to the entity's plane; straight up where none is stated."""
    if 210 not in entity.codes:
        return (0.0, 0.0, 1.0)
    x, y, z = entity.number(210), entity.number(220), entity.number(230, 1.0)
    size = math.hypot(x, y, z)
    return (x / size, y / size, z / size) if size > 0.0 and math.isfinite(size) else (0.0, 0.0, 1.0)
