"""Cut lines: the stitch line of each piece moved outward, every edge by its own allowance."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from notchwork.geometry.offset import Corner, offset_outlines
from notchwork.sewing.pieces.allowances import allowance
from notchwork.sewing.pieces.graded import GradedPiece
from notchwork.sewing.pieces.grading import Complex
from notchwork.sewing.shapes.corners import corner_node

if TYPE_CHECKING:
    from notchwork.sewing.nest import Nest

STYLES = {"mitred": Corner.MITRED, "squared": Corner.SQUARED, "turned_up": Corner.TURNED_UP}
_BEYOND = 1e-6
"""mm beyond a fold that are arithmetic."""


@dataclass(frozen=True, slots=True, eq=False)
class CutLine:
    """The line the scissors follow round a piece as drawn, in one size.

    ``points`` (m,) in mm, closed: the last is joined to the first. ``edges`` names the edge each point belongs to, "" for
    a corner's construction. ``swallowed`` names the edges of which nothing is left: a nick narrower than its allowances.
    """

    points: Complex
    edges: tuple[str, ...]
    swallowed: tuple[str, ...]


def cut_lines(nest: Nest, pieces: Iterable[str] | None = None) -> Mapping[tuple[str, int], CutLine]:
    """The cut line of every drawn piece (or of those named) in every size it exists in, by (piece, number of the size).

    On a fold nothing is added: the cut line of half a piece ends on it.
    """
    keys: list[tuple[str, int]] = []
    outlines, widths, styles, whose = [], [], [], []
    for ident in nest.pieces if pieces is None else pieces:
        graded = nest.pieces[ident]
        if not graded.has_shape:
            continue
        turned = [_corner(graded, k) for k in range(len(graded.edges))]
        wide = [allowance(graded, edge) for edge in graded.edges]
        for size in range(len(nest.sizes)):
            if graded.present[size]:
                keys.append((ident, size))
                outlines.append([nest.cubics_of(graded.lines[edge], size) for edge in graded.edges])
                widths.append([float(width[size]) for width in wide])
                styles.append([style for style, _ in turned])
                whose.append([number for _, number in turned])
    found = offset_outlines(outlines, widths, styles, whose)
    lines: dict[tuple[str, int], CutLine] = {}
    for (ident, size), offset in zip(keys, found, strict=True):
        graded = nest.pieces[ident]
        names = graded.edges
        line = CutLine(
            offset.points,
            tuple(names[k] if k >= 0 else "" for k in offset.edges),
            tuple(names[k] for k in offset.swallowed),
        )
        for fold in graded.folds:
            line = _on_its_side(line, fold, nest.cubics_of(graded.lines[fold], size), graded.sense)
        lines[ident, size] = line
    return lines


def _on_its_side(line: CutLine, fold: str, along: Complex, sense: float) -> CutLine:
    """The line cut off along a fold: there is no cloth beyond one.

    An edge that meets its fold at more than a right angle would be cut square, across the fold.
    """
    here = np.flatnonzero(np.array(line.edges) == fold)
    way = complex(along[-1, 3] - along[0, 0])
    if not len(here) or way == 0:
        return line
    beyond = ((line.points - along[0, 0]) * way.conjugate()).imag / -abs(way) * sense
    points, edges = list(line.points), list(line.edges)
    count, gone = len(points), set[int]()
    ends = np.isin((here + 1) % count, here, invert=True), np.isin((here - 1) % count, here, invert=True)
    for end, step in ((here[ends[0]], 1), (here[ends[1]], -1)):
        if len(end) != 1:
            continue
        k = (int(end[0]) + step) % count
        while beyond[k] > _BEYOND and beyond[(k + step) % count] > _BEYOND and len(gone) < count - 3:
            gone.add(k)
            k = (k + step) % count
        if beyond[k] > _BEYOND:
            after = (k + step) % count
            share = beyond[k] / (beyond[k] - beyond[after])
            points[k], edges[k] = points[k] + share * (points[after] - points[k]), ""
    if not gone and points == list(line.points):
        return line
    kept = [k for k in range(count) if k not in gone]
    return CutLine(np.array([points[k] for k in kept]), tuple(edges[k] for k in kept), line.swallowed)


def _corner(graded: GradedPiece, number: int) -> tuple[Corner, int]:
    """How the cut line turns the corner where an edge begins, and the number of the edge that is turned up there.

    What the node says goes before what its edges say; -1 leaves it to the wider of the two edges.
    """
    node = corner_node(graded, graded.edges[number])
    if node is not None and node.cut_corner is not None:
        return STYLES[node.cut_corner], -1
    for edge in (number, (number - 1) % len(graded.edges)):
        written = graded.written.edges.get(graded.edges[edge])
        if written is not None and written.cut_corner is not None:
            return STYLES[written.cut_corner], edge
    return Corner.MITRED, -1
