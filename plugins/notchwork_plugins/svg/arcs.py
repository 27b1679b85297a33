"""Elliptical arcs as cubics."""

from __future__ import annotations

import cmath
import math

import numpy as np

from notchwork.geometry.affine import Affine
from notchwork.geometry.arcs import unit_arcs
from notchwork.geometry.cubics import Complexes

_NO_CHORD = 1e-15
"""Ends of an arc that are nearer, in its radii, are one point: its centre could be anywhere."""


def arc(
    start: complex, end: complex, radii: complex, degrees: float, large: bool, sweep: bool, unit: float
) -> Complexes:
    """An SVG arc as cubics (n, 4); ``unit`` is how many mm a unit is.

    Out-of-range radii are put right as SVG 2 (B.2.5) says: taken without their sign, a line where one is nothing, scaled up
    where they do not reach. No cubic at all where the ends are the same.
    """
    if start == end:
        return np.empty((0, 4), np.complex128)
    rx, ry = abs(radii.real), abs(radii.imag)
    if rx == 0.0 or ry == 0.0:
        return np.array([[start, start, end, end]])
    turn = cmath.rect(1.0, math.radians(math.fmod(degrees, 360.0)))
    # In the ellipse's own frame, shrunk to a unit circle, the centre is found from the chord alone.
    half = (start - end) / 2 / turn
    half = complex(half.real / rx, half.imag / ry)
    reach = math.hypot(half.real, half.imag)
    if reach > 1.0:
        rx, ry, half, reach = rx * reach, ry * reach, half / reach, 1.0
    if reach < _NO_CHORD:
        return np.array([[start, start, end, end]])
    height = math.sqrt(max(0.0, 1.0 - reach * reach)) / reach
    centre = half * complex(0.0, height if large == sweep else -height)
    first, last = cmath.phase(half - centre), cmath.phase(-half - centre)
    angle = (last - first) % (2 * math.pi)
    if not sweep:
        angle -= 2 * math.pi
    if large and abs(angle) < 1.0:
        # Ends so near each other that rounding decides which comes first: nearly all of the ellipse.
        angle += 2 * math.pi if sweep else -2 * math.pi
    place = Affine(turn * (rx + ry) / 2, turn * (rx - ry) / 2)
    place = Affine(place.turn, place.flip, (start + end) / 2 + place(centre))
    cubics = place.of(_on_unit_circle(first, angle, max(rx, ry) * unit))
    cubics[0, 0], cubics[-1, 3] = start, end
    return cubics


def full_ellipse(centre: complex, rx: float, ry: float, unit: float) -> Complexes:
    """An ellipse as cubics (n, 4), quarter by quarter from its rightmost point towards growing y."""
    place = Affine(complex((rx + ry) / 2), complex((rx - ry) / 2), centre)
    quarter_turn = _on_unit_circle(0.0, math.pi / 2, max(rx, ry) * unit)
    cubics = place.of(np.concatenate([quarter_turn * turn for turn in (1, 1j, -1, -1j)]))
    cubics[-1, 3] = cubics[0, 0]
    return cubics


def quarter(start: complex, corner: complex, end: complex, unit: float) -> Complexes:
    """A quarter of an ellipse as cubics (n, 4), whose tangents at both ends meet in ``corner``."""
    back, on = start - corner, end - corner
    circle = _on_unit_circle(0.0, math.pi / 2, max(abs(back), abs(on)) * unit)
    cubics: Complexes = corner + back * (1.0 - circle.imag) + on * (1.0 - circle.real)
    cubics[0, 0], cubics[-1, 3] = start, end
    return cubics


def _on_unit_circle(first: float, angle: float, radius: float) -> Complexes:
    """Cubics along a unit circle, close enough at this radius in mm."""
    cubics: Complexes = unit_arcs(angle, radius)[0] * cmath.rect(1.0, first)
    return cubics
