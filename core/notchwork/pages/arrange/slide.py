"""Pieces on a roll, slid down and left until they touch: what the raster's cells left between them is taken up."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from notchwork.geometry.cubics import Complexes, Floats
from notchwork.pages.arrange.filling import Laid
from notchwork.pages.arrange.placed import Placed
from notchwork.pages.arrange.raster import Raster

ROUNDS = 4
LEAST = 0.01
"""mm: it ends where no piece slides by more in a round."""
CLEAR = 1e-4
"""mm that slid pieces keep between them beyond the gap, so that rounding takes nothing of it."""


def slid(laid: Sequence[Laid], raster: Raster) -> list[Placed]:
    """The pieces placed, each slid as far down and left as the others and the roll's edges allow."""
    shifts = [each.corner - each.stamp.low for each in laid]
    outlines = [
        [each.stamp.turn * ring + shift for ring in each.piece.kind.solid.rings]
        for each, shift in zip(laid, shifts, strict=True)
    ]
    # The exact corner of what is drawn, with half the gap round it.
    corners = [_corner(each, shift, raster.gap / 2) for each, shift in zip(laid, shifts, strict=True)]
    edge = -complex(raster.gap, raster.gap) / 2
    for _ in range(ROUNDS):
        most = 0.0
        for way in (1j, 1 + 0j):
            # Seen so that all slide to the left.
            seen = [np.concatenate([_sides(ring / way) for ring in rings]) for rings in outlines]
            boxes = np.array([_box(sides) for sides in seen])
            for k in np.argsort(boxes[:, 0], kind="stable"):
                room = _along(corners[k], way) - _along(edge, way)
                far = min(room, _room(int(k), seen, boxes, room) - CLEAR)
                if far > LEAST:
                    seen[k] = seen[k] - far
                    boxes[k, :2] -= far
                    outlines[k] = [ring - far * way for ring in outlines[k]]
                    shifts[k] -= far * way
                    corners[k] -= far * way
                    most = max(most, far)
        if most <= LEAST:
            break
    return [each.piece.placed(each.stamp.turn, shift) for each, shift in zip(laid, shifts, strict=True)]


def _corner(laid: Laid, shift: complex, around: float) -> complex:
    z = laid.stamp.turn * laid.piece.kind.shape.points + shift
    return complex(z.real.min() - around, z.imag.min() - around)


def _along(z: complex, way: complex) -> float:
    return (z * way.conjugate()).real


def _sides(ring: Complexes) -> Complexes:
    """Start and end (m, 2) of each side, from its lower end up."""
    sides = np.stack([ring, np.roll(ring, -1)], axis=1)
    down = sides[:, 0].imag > sides[:, 1].imag
    sides[down] = sides[down, ::-1]
    return sides


def _box(sides: Complexes) -> tuple[float, float, float, float]:
    return (
        float(sides.real.min()),
        float(sides.real.max()),
        float(sides.imag.min()),
        float(sides.imag.max()),
    )


def _room(k: int, seen: Sequence[Complexes], boxes: Floats, room: float) -> float:
    """How far piece k can go to the left before it touches another, at most ``room``."""
    left, right, low, high = boxes[k]
    near = (boxes[:, 2] <= high) & (boxes[:, 3] >= low) & (boxes[:, 0] < right) & (boxes[:, 1] > left - room)
    near[k] = False
    others = np.flatnonzero(near)
    # The nearest first: those beyond what it leaves need no look.
    for other in others[np.argsort(-boxes[others, 1], kind="stable")].tolist():
        if left - boxes[other, 1] >= room:
            break
        room = min(room, _free(seen[k], seen[other]), _free(-seen[other][:, ::-1], -seen[k][:, ::-1]))
    return max(room, 0.0)


def _free(right: Complexes, left: Complexes) -> float:
    """How far the corners of what lies right can go to the left before they meet the sides of what lies left."""
    corners = np.unique(right)
    corners = corners[(corners.imag >= left[:, 0].imag.min()) & (corners.imag <= left[:, 1].imag.max())]
    if len(corners) == 0:
        return float("inf")
    left = left[(left[:, 0].imag <= corners.imag.max()) & (left[:, 1].imag >= corners.imag.min())]
    low, high = left[:, 0], left[:, 1]
    rise = high.imag - low.imag
    share = (corners.imag[:, None] - low.imag) / np.where(rise > 0.0, rise, 1.0)
    x = low.real + np.clip(share, 0.0, 1.0) * (high.real - low.real)
    x = np.where(rise > 0.0, x, np.maximum(low.real, high.real))
    between = (corners.imag[:, None] >= low.imag) & (corners.imag[:, None] <= high.imag)
    free = np.where(between, corners.real[:, None] - x, np.inf)
    # Where a side lies further right than the corner, the corner does not meet it; a little less than nothing is rounding.
    # A shape of several rings may have nothing at the height of these corners.
    return float(np.where(free < -_ROUNDING, np.inf, free).min(initial=np.inf))


_ROUNDING = 0.05
