"""Pieces that lie on themselves once opened out, with the allowances of edges that are sewn."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations
from typing import TYPE_CHECKING

import numpy as np

from notchwork.geometry import bounds, nearest, points, tangents
from notchwork.sewing.allowances import allowance
from notchwork.sewing.grading import Complex
from notchwork.sewing.inside import winding
from notchwork.sewing.lines import Floats
from notchwork.sewing.pieces import GradedPiece
from notchwork.sewing.unfold import Image, Unfolded, unfolded

if TYPE_CHECKING:
    from notchwork.sewing.nest import Nest

SAMPLES = 9
"""Places looked at on each cubic."""
TOUCHING = 1e-3
"""mm: edges that lie nearer than this lie on each other."""


@dataclass(frozen=True, slots=True, eq=False)
class Overlap:
    """Two edges of a piece, or an edge and its image (``edge`` = ``other``), that are too near to each other opened out.

    ``gap`` (mm, sizes) is what lies between them, negative where they lie on each other, infinite where nothing is near;
    ``need`` (mm, sizes) the allowances of both.
    """

    piece: str
    edge: str
    other: str
    gap: Floats
    need: Floats


def overlaps(nest: Nest) -> Iterator[Overlap]:
    """The worst such pair of every piece. Only edges that a seam or opening takes are looked at."""
    sewn = {
        (span.piece, span.line)
        for seam in nest.pattern.seams.values()
        for s in seam.sides
        for span in s.spans
    }
    sewn |= {
        (span.piece, span.line)
        for opening in nest.pattern.openings.values()
        for spans in opening.sections or opening.lips or ()
        for span in spans
    }
    for ident, graded in nest.pieces.items():
        edges = [edge for edge in graded.edges if (ident, edge) in sewn]
        if not graded.has_shape or graded.is_strip or not edges:
            continue
        widths = {edge: allowance(graded, edge) for edge in edges}
        found: dict[tuple[str, str], Floats] = {}
        for size in range(len(nest.sizes)):
            if graded.present[size] and _may_overlap(nest, graded, widths, size):
                for pair, gap in _gaps(unfolded(nest, graded, size), graded.sense, widths, size):
                    known = found.setdefault(pair, np.full(len(nest.sizes), np.inf))
                    known[size] = min(known[size], gap)
        if found:
            one, other = max(found, key=lambda p: float(np.max(widths[p[0]] + widths[p[1]] - found[p])))
            yield Overlap(ident, one, other, found[one, other], widths[one] + widths[other])


def _may_overlap(nest: Nest, graded: GradedPiece, widths: dict[str, Floats], size: int) -> bool:
    """A cheap look: whether any edge comes near a fold's line, or the boxes about two edges near each other."""
    edges = {edge: nest.cubics_of(graded.lines[edge], size) for edge in widths}
    widest = max(float(width[size]) for width in widths.values())
    for fold in graded.folds:
        line = nest.cubics_of(graded.lines[fold], size)
        a, b = complex(line[0, 0]), complex(line[-1, 3])
        beside = (graded.lines[fold].before, graded.lines[fold].after)
        for edge, cubics in edges.items():
            if edge not in beside and a != b:
                far = ((cubics - a) * np.conj(b - a)).imag / abs(b - a) * graded.sense
                if float(far.min()) < widest:
                    return True
    boxes = {edge: bounds(cubics) for edge, cubics in edges.items()}
    return any(
        not _neighbours(graded, one, other) and _boxes_apart(boxes[one], boxes[other]) < 2 * widest
        for one, other in combinations(edges, 2)
    )


def _neighbours(graded: GradedPiece, one: str, other: str) -> bool:
    return other in (graded.lines[one].before, graded.lines[one].after)


def _boxes_apart(one: tuple[complex, complex], other: tuple[complex, complex]) -> float:
    (a, b), (c, d) = one, other
    across = max(a.real - d.real, c.real - b.real, 0.0)
    up = max(a.imag - d.imag, c.imag - b.imag, 0.0)
    return float(np.hypot(across, up))


def _gaps(
    whole: Unfolded, sense: int, widths: dict[str, Floats], size: int
) -> Iterator[tuple[tuple[str, str], float]]:
    """Pairs of edges nearer to each other, outside the cloth, than their allowances."""
    rings = [whole.outline(k) for k in range(len(whole.rings))]
    every = [(ring, k, image) for ring, images in enumerate(whole.rings) for k, image in enumerate(images)]
    sewn = [entry for entry in every if entry[2].edge in widths]
    for (ring, k, one), (other_ring, m, other) in combinations(sewn, 2):
        count = len(whole.rings[ring])
        if ring == other_ring and (k - m) % count in (1, count - 1):
            continue
        need = float(widths[one.edge][size] + widths[other.edge][size])
        if _boxes_apart(bounds(one.cubics), bounds(other.cubics)) < need:
            gap = _gap(one, other, sense, rings)
            if gap < need:
                yield (one.edge, other.edge), gap


def _gap(one: Image, other: Image, sense: int, rings: list[Complex]) -> float:
    t = np.linspace(0.0, 1.0, SAMPLES)
    rows = np.repeat(np.arange(len(one.cubics)), SAMPLES)
    at = np.tile(t, len(one.cubics))
    z = points(one.cubics, rows, at)
    outward = -1j * sense * tangents(one.cubics, rows, at)
    found = nearest(other.cubics, z)
    sight = points(other.cubics, found.row, found.t) - z
    back = -1j * sense * tangents(other.cubics, found.row, found.t)
    facing = ((sight * np.conj(outward)).real >= 0) & ((sight * np.conj(back)).real <= 0)
    touching = found.distance < TOUCHING
    gaps = np.where(facing | touching, found.distance, np.inf)
    lying = winding(rings, z + 0.05 * outward) > 0.5
    gaps = np.where(lying & ~touching, -found.distance, gaps)
    return float(gaps.min())
