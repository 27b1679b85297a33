"""An inner line or cut-out that does not lie on its piece."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from notchwork.checks import check
from notchwork.findings import Finding, Length, Place, Row, Rule, Tolerance, plain_name
from notchwork.geometry import points
from notchwork.model import in_size
from notchwork.sewing import GradedPiece, Line, Nest
from notchwork.sewing.shapes.inside import outside_by
from notchwork.sewing.shapes.unfold import unfolded

LOOKS = np.linspace(0.05, 0.95, 10)
"""Where each cubic is looked at."""

OUTSIDE = Rule(
    id="pieces/line-outside",
    title="An inner line or cut-out lies outside its piece",
    rationale="A line that is drawn on a piece is marked on its cloth. Where most of it lies beyond the allowance there is none: "
    "it follows an edge at a distance greater than the piece is wide, or was left behind when the piece was moved or graded.",
    source="Follows from what an inner line is; no outside source.",
    quiet="Lines in the allowance, lines half of which lie on the piece, and those on the other half of a piece on a fold.",
    grade=Tolerance(error=0.5),
)

TEXT = "Most of its {kind} “{line}” lies outside the piece, {out} from it and more."
FAR = "Its inner line “{line}”, {distance} inside the {edge}, lies outside the piece: the piece is not so wide there."
HINT = "Move it on to the piece; if it is right in the size that was drafted, give its nodes grade rules."
FAR_HINT = "Give it a smaller distance."


@check(OUTSIDE, needs="shapes")
def line_outside(nest: Nest) -> Iterator[Finding]:
    for graded in nest.pieces.values():
        lines = [line for line in graded.lines.values() if line.kind != "edge" and line.rows is not None]
        if not graded.has_shape or not lines:
            continue
        off = np.full((len(lines), len(nest.sizes)), np.nan)
        for size in np.flatnonzero(graded.present):
            off[:, size] = _outside(nest, graded, lines, int(size))
        for line, by in zip(lines, off, strict=True):
            if (by > 0).any():
                yield _finding(nest, graded, line, np.maximum(by, 0.0))


def _outside(nest: Nest, graded: GradedPiece, lines: list[Line], size: int) -> list[float]:
    """How far (mm) the middle one of the places on each line lies beyond the widest allowance."""
    outline = unfolded(nest, graded, size).outline() if graded.folds else nest.outline(graded.id, size)
    written = graded.written
    stated = [written.allowance, *(edge.allowance for edge in written.edges.values() if edge is not None)]
    widest = max((in_size(value, nest.sizes[size]) for value in stated if value is not None), default=0.0)
    found = []
    for line in lines:
        cubics = nest.cubics_of(line, size)
        rows = np.repeat(np.arange(len(cubics)), len(LOOKS))
        at = points(cubics, rows, np.tile(LOOKS, len(cubics)))
        by = np.sort(outside_by(outline, at))
        found.append(float(by[(len(by) - 1) // 2]) - widest if len(by) else np.nan)
    return found


def _finding(nest: Nest, graded: GradedPiece, line: Line, off: np.ndarray) -> Finding:
    inner = graded.written.inner.get(line.name)
    rows = []
    for size, by in zip(nest.sizes, off, strict=True):
        values: dict[str, object] = {"out": Length(float(by))}
        if inner is not None and inner.distance is not None:
            values["distance"] = Length(in_size(inner.distance, size))
        rows.append(Row(size, float(by), values=values))
    kind = "cut-out" if line.kind == "cutout" else "inner line"
    values = {"kind": kind, "line": plain_name(line.name)}
    place = Place(piece=graded.id, line=line.name)
    if inner is None or inner.parallel_to is None:
        return Finding(OUTSIDE, place, TEXT, HINT, values, tuple(rows), (graded.id,))
    values["edge"] = plain_name(inner.parallel_to)
    return Finding(OUTSIDE, place, FAR, FAR_HINT, values, tuple(rows), (graded.id,))
