"""Elliptical arcs as cubics."""

from __future__ import annotations

import cmath
import math

import numpy as np

from notchwork_plugins.svg.affine import Affine, Complexes

CLOSE = 2e-4
"""mm by which a cubic may lie beside the arc it stands for; lengths then differ by about as little."""

_ERROR_OF_QUARTER = 2.73e-4
"""Greatest radial error of the usual cubic for a quarter of a unit circle; it falls with the sixth power of the angle."""

_MOST_PARTS = 64

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
    wanted = abs(angle) / (math.pi / 2) * max(1.0, radius * _ERROR_OF_QUARTER / CLOSE) ** (1 / 6)
    # In this order, what is no number counts as too large.
    count = max(1, math.ceil(min(_MOST_PARTS, wanted) - 1e-9))
    step = angle / count
    handle = 4 / 3 * math.tan(step / 4)
    nodes = np.exp(1j * (first + step * np.arange(count + 1)))
    here, there = nodes[:-1], nodes[1:]
    return np.stack([here, here * (1 + 1j * handle), there * (1 - 1j * handle), there], axis=1)
