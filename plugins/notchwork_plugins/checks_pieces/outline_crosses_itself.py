"""The stitch line of a piece crosses itself."""

from __future__ import annotations

from collections.abc import Iterator

from notchwork.checks import check
from notchwork.findings import Finding, Place, Row, Rule, Severity, plain_name
from notchwork.geometry import first_crossings
from notchwork.sewing import GradedPiece, Nest

CROSSES = Rule(
    id="pieces/outline-crosses-itself",
    title="The outline of a piece crosses itself",
    rationale="An outline that crosses itself encloses no cloth that could be cut: it has a loop, or its edges stand in the "
    "wrong order, or a size was graded through another.",
    source="Follows from what an outline is; no outside source.",
    grade=Severity.ERROR,
)

ITSELF = "Its {edge} crosses itself."
OTHER = "Its {edge} crosses its {other}."
HINT = "Look at the nodes and handles there: a handle may be too long, or two nodes may be exchanged."


@check(CROSSES, needs="shapes")
def outline_crosses_itself(nest: Nest) -> Iterator[Finding]:
    for piece, rows in _crossings(nest).items():
        first = rows[0].values
        text = ITSELF if first["edge"] == first["other"] else OTHER
        assert rows[0].place is not None
        yield Finding(CROSSES, rows[0].place, text, HINT, first, tuple(rows), (piece,))


def _crossings(nest: Nest) -> dict[str, list[Row]]:
    """For each piece a row for every size in which its outline crosses itself."""
    drawn = [
        (graded, size)
        for graded in nest.pieces.values()
        if graded.has_shape
        for size in range(len(nest.sizes))
    ]
    crossed = first_crossings([nest.outline(graded.id, size) for graded, size in drawn])
    found: dict[str, list[Row]] = {}
    for (graded, size), crossing in zip(drawn, crossed, strict=True):
        if crossing is not None:
            edge, other = (_edge_of(graded, row, size) for row in (crossing.row, crossing.other_row))
            place = Place(piece=graded.id, line=edge, point=crossing.point)
            values = {"edge": plain_name(edge), "other": plain_name(other)}
            found.setdefault(graded.id, []).append(Row(nest.sizes[size], values=values, place=place))
    return found


def _edge_of(graded: GradedPiece, row: int, size: int) -> str:
    """The edge to which a cubic of the outline belongs."""
    for edge in graded.edges:
        rows = graded.lines[edge].rows
        row -= rows[size].stop - rows[size].start if rows is not None else 0
        if row < 0:
            return edge
    raise IndexError(row)
