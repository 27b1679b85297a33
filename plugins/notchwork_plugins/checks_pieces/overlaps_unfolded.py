"""A piece that lies on itself once it is opened out."""

from __future__ import annotations

from collections.abc import Iterator

from notchwork.checks import check
from notchwork.findings import Finding, Length, Place, Row, Rule, Tolerance, plain_name
from notchwork.sewing import Nest
from notchwork.sewing.shapes.overlap import overlaps

OVERLAPS = Rule(
    id="pieces/unfolded-overlaps-itself",
    title="The unfolded piece overlaps itself",
    rationale="Two edges of one piece that are sewn to each other need cloth for the allowances of both between them. A full "
    "circle cut in one piece with a seam has none: its radius must be (W + 2a)/2π for a waist W and an allowance a.",
    source="Plane geometry (the waist line of W plus both allowances is one full circle); no outside source.",
    grade=Tolerance(warning=0.5),
)

TEXT = "Opened out, {edge} and {other} lie {gap} apart, but their allowances need {need} between them."
LIES_ON = "Opened out, {edge} and {other} lie on each other by {depth}, and their allowances need {need} between them."
ACROSS = "Its {edge} reaches {depth} across the line of the fold, and lies on the other half when the piece is opened out."
ACROSS_HINT = "Move the {edge} back to its own side of the fold, or cut the piece in two."
HINT = (
    "Make the inner line longer by {missing} and take the allowances out of it (the radius of a full circle is the waist "
    "plus both allowances, divided by 2π), or cut the piece in two."
)


@check(OVERLAPS, needs="shapes")
def unfolded_overlaps_itself(nest: Nest) -> Iterator[Finding]:
    for overlap in overlaps(nest):
        rows = tuple(
            Row(
                size,
                max(float(need - gap), 0.0),
                float(gap),
                float(need),
                {
                    "gap": Length(max(float(gap), 0.0)),
                    "depth": Length(-float(gap)),
                    "need": Length(float(need)),
                    "missing": Length(float(need - gap)),
                },
            )
            for size, gap, need in zip(nest.sizes, overlap.gap, overlap.need, strict=True)
        )
        edge = plain_name(overlap.edge)
        if overlap.other:
            other = "its mirror image" if overlap.edge == overlap.other else plain_name(overlap.other)
            values = {"edge": f"its {edge}", "other": other}
            text, hint = LIES_ON if (overlap.gap < -0.05).any() else TEXT, HINT
        else:
            values, text, hint = {"edge": edge}, ACROSS, ACROSS_HINT
        place = Place(piece=overlap.piece, line=overlap.edge)
        yield Finding(OVERLAPS, place, text, hint, values, rows, (overlap.piece,))
