"""Whether a piece falls on itself when mirrored, so that one copy serves for either hand."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING

import numpy as np

from notchwork.geometry import nearest, points
from notchwork.sewing.grading import Complex
from notchwork.sewing.pieces import GradedPiece

if TYPE_CHECKING:
    from notchwork.sewing.nest import Nest

ALIKE = 0.1
"""mm: how nearly a mirrored piece must fall on itself."""


def falls_on_itself(nest: Nest, graded: GradedPiece) -> bool:
    """Whether outline, corners and notches (with their kinds) fall on themselves when mirrored about some axis.

    Judged in the base size. A strip always does.
    """
    return next(mirror_images(nest, graded), None) is not None


def mirror_images(nest: Nest, graded: GradedPiece) -> Iterator[Mapping[str, str]]:
    """For every axis about which a piece falls on itself: each edge with the edge it falls on, walked the other way."""
    if graded.is_strip:
        yield {"lower": "lower", "upper": "upper", "start": "end", "end": "start"}
        yield {"lower": "upper", "upper": "lower", "start": "start", "end": "end"}
        return
    if not graded.has_shape or not graded.present[nest.base]:
        return
    corners = np.array([nest.cubics_of(graded.lines[e], nest.base)[0, 0] for e in graded.edges])
    notches = _notch_points(nest, graded)
    outline = nest.outline(graded.id, nest.base)
    n = len(corners)
    for shift in range(n):
        if _mirrors(corners, shift, n, outline, notches):
            yield {edge: graded.edges[(shift - k - 1) % n] for k, edge in enumerate(graded.edges)}


def _mirrors(corners: Complex, shift: int, n: int, outline: Complex, notches: dict[str, Complex]) -> bool:
    """Whether the reflection that sends corner k to corner shift - k does it."""
    t = np.linspace(0.0, 1.0, 9)[1:-1]
    drawn = points(outline, np.repeat(np.arange(len(outline)), len(t)), np.tile(t, len(outline)))
    partner = corners[(shift - np.arange(n)) % n]
    # An outline of one edge has one corner, which gives no axis: it is sought through the middle of what is drawn.
    centre, centre_image = (corners.mean(), partner.mean()) if n > 1 else (drawn.mean(), drawn.mean())
    spread = np.sum((corners - centre) * (partner - centre_image))
    if abs(spread) < 1e-9:
        return False
    turn = spread / abs(spread)

    def image(z: Complex) -> Complex:
        return np.asarray(centre_image + turn * np.conj(z - centre))

    if float(np.max(np.abs(image(corners) - partner))) > ALIKE:
        return False
    return _covers(image(drawn), outline) and all(
        len(at) == 0 or bool(np.all(np.min(np.abs(image(at)[:, None] - at[None, :]), axis=1) < ALIKE))
        for at in notches.values()
    )


def _covers(at: Complex, outline: Complex) -> bool:
    distance, _, _ = nearest(outline, at)
    return bool(np.all(distance < ALIKE))


def _notch_points(nest: Nest, graded: GradedPiece) -> dict[str, Complex]:
    found: dict[str, list[complex]] = {}
    for name, notch in graded.written.notches.items():
        if notch is not None and notch.use != "place":
            found.setdefault(notch.kind, []).append(
                nest.point(graded.lines[notch.edge], nest.notches[graded.id, name], nest.base)
            )
    return {kind: np.array(at) for kind, at in found.items()}
