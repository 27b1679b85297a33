"""An edge too short to be sewn."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from notchwork.checks import check
from notchwork.findings import Finding, Length, Place, Row, Rule, Tolerance, plain_name
from notchwork.sewing import Line, Nest
from notchwork.sewing.pieces.lines import Floats
from notchwork_plugins.checks_pieces.encloses_nothing import NARROWEST, mean_width

SHORTEST = 1.0

TINY = Rule(
    id="pieces/edge-tiny",
    title="An edge or line is too short to be one",
    rationale="An edge shorter than a millimetre is nearly always a stray corner: two nodes where one was meant. Seams and "
    "allowances beside it come out wrong. An inner line or cut-out so short marks nothing.",
    source="Common practice, no source.",
    quiet="Edges of an outline that encloses nothing at all, of which that is told.",
    grade=Tolerance(warning=0.0),
)

TEXT = "Its {edge} is only {length} long, from corner to corner."
HINT = "Take one of its two corners away, or draw the edge where it should be."
INNER = "Its {kind} “{edge}” is only {length} long."
INNER_HINT = "Look at the coordinates of its nodes."


@check(TINY, needs="shapes")
def edge_tiny(nest: Nest) -> Iterator[Finding]:
    for graded in nest.pieces.values():
        short = [
            line
            for line in graded.lines.values()
            if not line.by_tape and (line.length < SHORTEST).any() and graded.has_shape
        ]
        if not short:
            continue
        cloth = mean_width(nest, graded) >= NARROWEST
        for line in short:
            length = np.where(cloth, line.length, np.nan) if line.kind == "edge" else line.length
            if (length < SHORTEST).any():
                yield _finding(nest, line, length)


def _finding(nest: Nest, line: Line, length: Floats) -> Finding:
    rows = tuple(
        Row(size, max(SHORTEST - float(mm), 0.0), float(mm), SHORTEST, {"length": Length(float(mm))})
        for size, mm in zip(nest.sizes, length, strict=True)
        if mm == mm
    )
    place = Place(piece=line.piece, line=line.name)
    values = {"edge": plain_name(line.name)}
    if line.kind == "edge":
        return Finding(TINY, place, TEXT, HINT, values, rows, pieces=(line.piece,))
    values["kind"] = "cut-out" if line.kind == "cutout" else "inner line"
    return Finding(TINY, place, INNER, INNER_HINT, values, rows, pieces=(line.piece,))
