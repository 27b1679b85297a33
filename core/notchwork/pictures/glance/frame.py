"""From a piece in mm to px on the picture: upright by its thread, at one scale, and torn where it runs on long and even."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from notchwork.pictures.picture import MM
from notchwork.sewing import GradedPiece, Nest
from notchwork.values import frozen

Complexes = NDArray[np.complex128]

NEAR_UPRIGHT = 30.0
"""Degrees: a thread that lies this near to upright or level is turned upright; on the bias a piece stays as it is drawn."""


@frozen
class Frame:
    """``turn`` is a unit factor, ``scale`` px a mm. ``tears`` are stretches (mm, from and to) that are left out across."""

    turn: complex
    scale: float
    tears: tuple[tuple[float, float], ...] = ()

    def of(self, z: Complexes) -> Complexes:
        """Points of the piece (mm, y upward) in px, y downward."""
        turned = z * self.turn
        left_out = sum((np.clip(turned.real - low, 0.0, high - low) for low, high in self.tears), 0.0)
        return np.asarray(np.conj(turned - left_out) * self.scale, dtype=complex)

    def direction(self, z: Complexes) -> Complexes:
        """Directions (mm) as they point on the picture."""
        turned: Complexes = np.conj(z * self.turn)
        return turned


def px_a_mm(drawn: float) -> float:
    """px a mm at the scale 1 : ``drawn``, on paper at 96 px to the inch."""
    return 1.0 / (MM * drawn)


def upright(nest: Nest, graded: GradedPiece) -> complex:
    """The turn that stands a piece's thread upright, never on its head; strips lie as they are."""
    if graded.grainline is None or graded.is_strip:
        return 1 + 0j
    start, stop = (complex(z) for z in graded.grainline[nest.base])
    if not np.isfinite(stop - start) or start == stop:
        return 1 + 0j
    by = (90.0 - float(np.degrees(np.angle(stop - start))) + 90.0) % 180.0 - 90.0
    if NEAR_UPRIGHT < abs(by) < 90.0 - NEAR_UPRIGHT:
        return 1 + 0j
    return complex(np.exp(1j * np.radians(by)))
