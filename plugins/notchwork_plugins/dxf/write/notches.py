"""Notches where they are cut: on the boundary, beside the place that they mark on the sew line."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from notchwork.drawing import Stroke

Complexes = NDArray[np.complex128]

BEHIND = 0.1
"""mm: a boundary this far inside the sew line still lies on it."""


class Nick(NamedTuple):
    """A place on the boundary, mm; how deep (mm) it is cut, and the angle (degrees, counter-clockwise from the right) inward."""

    at: complex
    depth: float
    angle: float


def nick(tick: Stroke, ring: Complexes) -> Nick:
    """The nick of a tick across the sew line, in a boundary of vertices (n,): straight out from its place on the sew line.

    It is cut as deep as the tick reaches outward, and never past half of the allowance: it must not show at the seam. From memory of
    ASTM D6673-10: place, depth and angle; half the allowance: common practice, no source.
    """
    inner, outer = complex(tick.cubics[0, 0]), complex(tick.cubics[-1, 3])
    way = (outer - inner) / abs(outer - inner)
    reach = float(tick.facts.get("depth", 0.0))
    sewn = outer - reach * way
    wide = _distance(sewn, way, ring)
    at = sewn + wide * way if wide is not None else _nearest(sewn, ring)
    # Where there is no allowance, a nick would be cut into the piece.
    depth = min(reach, abs(at - sewn) / 2) if wide is not None else 0.0
    return Nick(complex(at), depth, float(np.degrees(np.angle(-way))))


def _distance(z: complex, way: complex, ring: Complexes) -> float | None:
    """How far a ring lies from a point in a direction; None where it lies nowhere in it."""
    seen = (ring - z) * way.conjugate()
    after = np.roll(seen, -1)
    across = after.imag - seen.imag
    crosses = (
        (np.minimum(seen.imag, after.imag) <= 0) & (np.maximum(seen.imag, after.imag) >= 0) & (across != 0)
    )
    share = np.divide(-seen.imag, across, out=np.zeros_like(across), where=crosses)
    far = (seen.real + share * (after.real - seen.real))[crosses]
    ahead = far[far >= -BEHIND]
    return float(ahead.min()) if len(ahead) else None


def _nearest(z: complex, ring: Complexes) -> complex:
    chord = np.roll(ring, -1) - ring
    square = np.abs(chord) ** 2
    share = np.divide(((z - ring) * chord.conj()).real, square, out=np.zeros(len(ring)), where=square > 0)
    on = ring + np.clip(share, 0.0, 1.0) * chord
    return complex(on[int(np.abs(on - z).argmin())])
