"""Elliptical arcs as cubics."""

from __future__ import annotations

import cmath
import math
from collections.abc import Iterator

from notchwork_plugins.svg.affine import Affine

CLOSE = 1e-3
"""mm by which a cubic may lie beside the arc it stands for."""

_ERROR_OF_QUARTER = 2.73e-4
"""Greatest radial error of the usual cubic for a quarter of a unit circle; it falls with the sixth power of the angle."""

_MOST_PARTS = 64


def arc(
    start: complex, end: complex, radii: complex, degrees: float, large: bool, sweep: bool, unit: float
) -> list[complex]:
    """The control points after ``start`` of an SVG arc, three for each cubic; ``unit`` is how many mm a unit is.

    Out-of-range radii are put right as SVG 2 (B.2.5) says: taken without their sign, a line where one is nothing, scaled up
    where they do not reach. Nothing at all where the ends are the same.
    """
    if start == end:
        return []
    rx, ry = abs(radii.real), abs(radii.imag)
    if rx == 0.0 or ry == 0.0:
        return [start, end, end]
    turn = cmath.rect(1.0, math.radians(math.fmod(degrees, 360.0)))
    # In the ellipse's own frame, shrunk to a unit circle, the centre is found from the chord alone.
    half = (start - end) / 2 / turn
    half = complex(half.real / rx, half.imag / ry)
    reach = abs(half)
    if reach > 1.0:
        rx, ry, half = rx * reach, ry * reach, half / reach
        reach = 1.0
    if reach == 0.0:
        return [start, end, end]
    height = math.sqrt(max(0.0, 1.0 - reach * reach)) / reach
    centre = half * complex(0.0, height if large == sweep else -height)
    first, last = cmath.phase(half - centre), cmath.phase(-half - centre)
    angle = last - first
    if sweep and angle < 0.0:
        angle += 2 * math.pi
    elif not sweep and angle > 0.0:
        angle -= 2 * math.pi
    place = Affine(turn * (rx + ry) / 2, turn * (rx - ry) / 2)
    place = Affine(place.turn, place.flip, (start + end) / 2 + place(centre))
    points = [place(z) for z in _on_unit_circle(first, angle, max(rx, ry) * unit)]
    points[-1] = end
    return points


def full_ellipse(centre: complex, rx: float, ry: float, unit: float) -> list[complex]:
    """The control points of an ellipse, four for each cubic, from its rightmost point towards growing y."""
    place = Affine(complex((rx + ry) / 2), complex((rx - ry) / 2), centre)
    points = [place(1 + 0j), *(place(z) for z in _on_unit_circle(0.0, 2 * math.pi, max(rx, ry) * unit))]
    points[-1] = points[0]
    return [points[k + i] for k in range(0, len(points) - 1, 3) for i in range(4)]


def quarter(start: complex, corner: complex, end: complex, unit: float) -> list[complex]:
    """The control points after ``start`` of a quarter ellipse whose tangents at both ends meet in ``corner``."""
    across, along = start - corner, end - corner
    centre = start + along
    points: list[complex] = []
    for z in _on_unit_circle(0.0, math.pi / 2, max(abs(across), abs(along)) * unit):
        points.append(centre - along * z.real - across * z.imag)
    points[-1] = end
    return points


def _on_unit_circle(first: float, angle: float, radius: float) -> Iterator[complex]:
    """Control points after the first of cubics along a unit circle, close enough at this radius in mm."""
    step_at_most = (math.pi / 2) * min(1.0, (CLOSE / (_ERROR_OF_QUARTER * max(radius, 1e-9))) ** (1 / 6))
    count = min(_MOST_PARTS, max(1, math.ceil(abs(angle) / step_at_most - 1e-9)))
    step = angle / count
    handle = 4 / 3 * math.tan(step / 4)
    here = cmath.rect(1.0, first)
    for k in range(1, count + 1):
        there = cmath.rect(1.0, first + k * step)
        yield here * complex(1.0, handle)
        yield there * complex(1.0, -handle)
        yield there
        here = there
