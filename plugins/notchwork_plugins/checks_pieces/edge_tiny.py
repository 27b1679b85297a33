"""An edge too short to be sewn."""

from __future__ import annotations

from collections.abc import Iterator

from notchwork.checks import check
from notchwork.findings import Finding, Length, Place, Row, Rule, Tolerance, plain_name
from notchwork.sewing import Nest

SHORTEST = 1.0

TINY = Rule(
    id="pieces/edge-tiny",
    title="An edge is too short to be one",
    rationale="An edge shorter than a millimetre is nearly always a stray corner: two nodes where one was meant. Seams and "
    "allowances beside it come out wrong.",
    source="Common practice, no source.",
    grade=Tolerance(warning=0.0),
)

TEXT = "Its {edge} is only {length} long, from corner to corner."
HINT = "Take one of its two corners away, or draw the edge where it should be."


@check(TINY, needs="shapes")
def edge_tiny(nest: Nest) -> Iterator[Finding]:
    for graded in nest.pieces.values():
        for name in graded.edges if graded.has_shape else ():
            length = graded.lines[name].length
            if (length < SHORTEST).any():
                rows = tuple(
                    Row(
                        size,
                        max(SHORTEST - float(mm), 0.0),
                        float(mm),
                        SHORTEST,
                        {"length": Length(float(mm))},
                    )
                    for size, mm in zip(nest.sizes, length, strict=True)
                    if mm == mm
                )
                place = Place(piece=graded.id, line=name)
                yield Finding(TINY, place, TEXT, HINT, {"edge": plain_name(name)}, rows, pieces=(graded.id,))
