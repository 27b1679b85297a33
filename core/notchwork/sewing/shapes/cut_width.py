"""How wide a piece lies on the cloth, from selvage to selvage."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from notchwork.geometry import area, points
from notchwork.sewing.pieces.allowances import stated_allowance
from notchwork.sewing.pieces.graded import GradedPiece
from notchwork.sewing.pieces.grading import Complex
from notchwork.sewing.pieces.lines import Floats
from notchwork.sewing.shapes.unfold import Unfolded, unfolded

if TYPE_CHECKING:
    from notchwork.sewing.nest import Nest

SAMPLES = 16
"""Points on each cubic: on a garment's curves the extent is then short by less than 0.1 mm."""

ONE_SPOT = 0.1
"""mm: points of a grainline nearer than this show no direction."""

GRAINLESS = ("felt", "leather", "net")


def may_be_turned(graded: GradedPiece) -> bool:
    """Whether a piece may lie on the cloth at any angle."""
    free = bool(graded.materials) and all(material.kind in GRAINLESS for material in graded.materials)
    return graded.grainline is None or graded.written.grain == "any" or free


def cut_width(nest: Nest, graded: GradedPiece) -> Floats:
    """The width (mm, sizes) of the opened piece with its allowances across the grain, or the least one if it may be turned.

    Corners are taken without the point that a mitre adds: never more than is needed. NaN where no shape is known.
    """
    width = np.full(len(nest.sizes), np.nan)
    if not graded.has_shape:
        return width
    for size in np.flatnonzero(graded.present):
        at = _cut_points(graded, unfolded(nest, graded, int(size)), int(size))
        thread = None if may_be_turned(graded) else thread_of(graded, int(size))
        width[size] = _least_extent(at) if thread is None else _extent(at, np.array([thread]))[0]
    return width


def thread_of(graded: GradedPiece, size: int) -> complex | None:
    """The direction of the lengthwise thread in one size; None where its two points lie on one spot."""
    assert graded.grainline is not None
    start, stop = graded.grainline[size]
    return complex(stop - start) if abs(stop - start) >= ONE_SPOT else None


def width_at_most(nest: Nest, graded: GradedPiece) -> float:
    """A bound (mm) that is quickly found: what is drawn is nowhere wider, however it is turned and opened out."""
    drawn = [nest.outline(graded.id, int(size)).ravel() for size in np.flatnonzero(graded.present)]
    spans = [complex(np.ptp(at.real), np.ptp(at.imag)) for at in drawn if len(at)]
    allowances = [
        float(np.nanmax(a))
        for edge in graded.edges
        if np.any(np.isfinite(a := stated_allowance(graded, edge)))
    ]
    drawn_at_most: float = max((abs(span) for span in spans), default=0.0)
    return drawn_at_most * float(2 ** len(graded.folds)) + 2 * max(allowances, default=0.0)


def _least_extent(at: Complex) -> float:
    return float(np.min(_extent(at, np.exp(1j * np.radians(np.arange(0.0, 180.0))))))


def _extent(at: Complex, along: Complex) -> list[float]:
    """How far points reach to both sides of each direction."""
    across = (at[None, :] * np.conj(along / np.abs(along))[:, None]).imag
    found: list[float] = np.ptp(across, axis=1).tolist()
    return found


def _cut_points(graded: GradedPiece, opened: Unfolded, size: int) -> Complex:
    """Points of all edges moved outward by their allowances."""
    t = np.linspace(0.0, 1.0, SAMPLES + 1)
    found = []
    for ring, images in enumerate(opened.rings):
        outward = -1j if area(opened.outline(ring)) >= 0 else 1j
        for image in images:
            rows = np.repeat(np.arange(len(image.cubics)), len(t))
            at = points(image.cubics, rows, np.tile(t, len(image.cubics)))
            allowance = float(np.nan_to_num(stated_allowance(graded, image.edge)[size]))
            chords = np.gradient(at) if len(at) > 1 else at
            normal = outward * chords / np.where(np.abs(chords) > 0, np.abs(chords), 1.0)
            found += [at, at + allowance * normal]
    return np.concatenate(found)
