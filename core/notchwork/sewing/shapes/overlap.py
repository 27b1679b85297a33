"""Pieces that lie on themselves once opened out, or leave no cloth for the allowances of a seam."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass
from itertools import combinations
from typing import TYPE_CHECKING

import numpy as np

from notchwork.geometry import bounds, nearest, points, tangents
from notchwork.sewing.pieces.allowances import allowance
from notchwork.sewing.pieces.graded import GradedPiece
from notchwork.sewing.pieces.grading import Complex
from notchwork.sewing.pieces.lines import Floats
from notchwork.sewing.shapes.facing import facing
from notchwork.sewing.shapes.inside import winding
from notchwork.sewing.shapes.unfold import Image, unfolded

if TYPE_CHECKING:
    from notchwork.sewing.nest import Nest

SAMPLES = 9
"""Places looked at on each cubic."""
TOUCHING = 1e-3
"""mm: edges that lie nearer than this lie on each other."""
MOST = 2000
"""Places beyond a fold that are looked at, so that a traced outline of thousands of nodes is told soon too."""
TELLING = 0.05
"""mm by which an edge must pass a fold's line before it is said to."""


@dataclass(frozen=True, slots=True, eq=False)
class Overlap:
    """A piece that lies on itself opened out.

    Either two edges that are sewn to each other (or an edge and its image: ``other`` is ``edge``) leave too little cloth:
    ``gap`` (mm, sizes) lies between them, negative where they lie on each other, infinite where nothing is near; ``need``
    (mm, sizes) are the allowances of both. Or an edge reaches across the fold on to the other half (``other`` is ""), by
    -``gap``.
    """

    piece: str
    edge: str
    other: str
    gap: Floats
    need: Floats


def overlaps(nest: Nest) -> Iterator[Overlap]:
    """The worst overlap of every piece."""
    sewn = _sewn_to_each_other(nest)
    for ident, graded in nest.pieces.items():
        if not graded.has_shape or graded.is_strip:
            continue
        pairs: Collection[frozenset[str]] = sewn.get(ident, ())
        widths = {edge: allowance(graded, edge) for pair in pairs for edge in pair if edge in graded.edges}
        found: dict[tuple[str, str], Floats] = {}
        for size in range(len(nest.sizes)):
            if graded.present[size]:
                for pair, gap in _gaps(nest, graded, pairs, widths, size):
                    known = found.setdefault(pair, np.full(len(nest.sizes), np.inf))
                    known[size] = min(known[size], gap)
        none = np.zeros(len(nest.sizes))
        wanted = {(one, other): widths[one] + widths[other] if other else none for one, other in found}
        if found:
            # Edges that are sewn to each other say more than whatever else lies across the fold.
            worst = max(found, key=lambda pair: (pair[1] != "", float(np.max(wanted[pair] - found[pair]))))
            yield Overlap(ident, *worst, found[worst], wanted[worst])


def _sewn_to_each_other(nest: Nest) -> dict[str, set[frozenset[str]]]:
    """By piece, the pairs of its edges (one alone: an edge and its image) that lie on each other in a seam."""
    found: dict[str, set[frozenset[str]]] = {}
    for sides in nest.sides.values():
        for one, other in combinations(sides, 2):
            for a, b in facing(one, other):
                if a.graded is b.graded:
                    found.setdefault(a.graded.id, set()).add(frozenset((a.line.name, b.line.name)))
    return found


def _gaps(
    nest: Nest,
    graded: GradedPiece,
    pairs: Collection[frozenset[str]],
    widths: Mapping[str, Floats],
    size: int,
) -> Iterator[tuple[tuple[str, str], float]]:
    """In one size: edges that leave too little cloth for their allowances, and edges that reach across a fold."""
    crossing = list(_across_folds(nest, graded, size))
    if not crossing and not _may_overlap(nest, graded, pairs, widths, size):
        return
    whole = unfolded(nest, graded, size)
    rings = [whole.outline(k) for k in range(len(whole.rings))]
    for edge, z, depth in crossing:
        if bool(np.any(winding(rings, z) > 1.5)):
            yield (edge, ""), -depth
    every = [(ring, k, image) for ring, images in enumerate(whole.rings) for k, image in enumerate(images)]
    for (ring, k, one), (other_ring, m, other) in combinations(every, 2):
        if frozenset((one.edge, other.edge)) not in pairs:
            continue
        count = len(whole.rings[ring])
        if ring == other_ring and (k - m) % count in (1, count - 1):
            continue
        gap = _gap(one, other, graded.sense, rings)
        if gap < float(widths[one.edge][size] + widths[other.edge][size]):
            yield (one.edge, other.edge), gap


def _across_folds(nest: Nest, graded: GradedPiece, size: int) -> Iterator[tuple[str, Complex, float]]:
    """Edges that pass the line of a fold: places just inside them beyond it, and how far (mm) they pass it."""
    for fold in graded.folds:
        line = nest.cubics_of(graded.lines[fold], size)
        a, b = complex(line[0, 0]), complex(line[-1, 3])
        if a == b:
            continue
        towards = np.conj(b - a) / abs(b - a) * graded.sense
        for edge in graded.edges:
            cubics = nest.cubics_of(graded.lines[edge], size)
            if edge == fold or float(((cubics - a) * towards).imag.min()) > -TELLING:
                continue
            z, outward = _along(cubics, graded.sense)
            past = -((z - a) * towards).imag
            if float(past.max()) > TELLING:
                beyond = (z - 0.02 * outward)[past > TELLING]
                yield edge, beyond[:: -(-len(beyond) // MOST)], float(past.max())


def _may_overlap(
    nest: Nest,
    graded: GradedPiece,
    pairs: Collection[frozenset[str]],
    widths: Mapping[str, Floats],
    size: int,
) -> bool:
    """A cheap look: whether an edge sewn to its image comes near a fold, or two edges sewn to each other come near."""
    edges = {edge: nest.cubics_of(graded.lines[edge], size) for edge in widths}
    for pair in pairs:
        one, other = (*pair, *pair)[:2]
        if one not in edges or other not in edges:
            continue
        need = float(widths[one][size] + widths[other][size])
        if one != other and _boxes_apart(bounds(edges[one]), bounds(edges[other])) < need:
            return True
        for fold in graded.folds:
            line = nest.cubics_of(graded.lines[fold], size)
            a, b = complex(line[0, 0]), complex(line[-1, 3])
            near = [np.abs(((edges[e] - a) * np.conj(b - a)).imag).min() / abs(b - a) for e in pair if a != b]
            if near and min(near) < need:
                return True
    return False


def _boxes_apart(one: tuple[complex, complex], other: tuple[complex, complex]) -> float:
    (a, b), (c, d) = one, other
    across = max(a.real - d.real, c.real - b.real, 0.0)
    up = max(a.imag - d.imag, c.imag - b.imag, 0.0)
    return float(np.hypot(across, up))


def _along(cubics: Complex, sense: int) -> tuple[Complex, Complex]:
    """Places along an edge between its corners, and the unit vectors that point off the cloth there.

    At a corner itself, off the cloth of one edge may lie on the line of the next: nothing could be told there.
    """
    rows = np.repeat(np.arange(len(cubics)), SAMPLES)
    t = np.tile((np.arange(SAMPLES) + 0.5) / SAMPLES, len(cubics))
    return points(cubics, rows, t), -1j * sense * tangents(cubics, rows, t)


def _gap(one: Image, other: Image, sense: int, rings: list[Complex]) -> float:
    """What lies between two edges (mm) off the cloth; negative where one lies on the cloth of the other."""
    z, outward = _along(one.cubics, sense)
    found = nearest(other.cubics, z)
    sight = points(other.cubics, found.row, found.t) - z
    back = -1j * sense * tangents(other.cubics, found.row, found.t)
    facing = ((sight * np.conj(outward)).real >= 0) & ((sight * np.conj(back)).real <= 0)
    touching = found.distance < TOUCHING
    lying = ~touching & (winding(rings, z + 0.02 * outward) > 0.5)
    if lying.any():
        return -float(found.distance[lying].min())
    return float(np.where(facing | touching, found.distance, np.inf).min())
