"""An elastic that is longer than what it is to draw in."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from notchwork.checks import check
from notchwork.findings import Finding, Length, Place, Row, Rule, Tolerance, plain_name
from notchwork.model import Notion
from notchwork.sewing import Nest
from notchwork.sewing.counts.rounds import length_round
from notchwork.sewing.pieces.amounts import by_size

LONGER = Rule(
    id="openings/elastic-longer-than-edge",
    title="An elastic is longer than its edge",
    rationale="Elastic draws an edge in, so it is cut shorter than the edge, all the way round: over a fold and across the seams that "
    "join the edge to others of its kind. How much shorter is a matter of design.",
    source="Common practice, no source.",
    grade=Tolerance(warning=1.0),
)

TEXT = "The elastic for its {line} is {length} long, {difference} longer than the edge it draws in ({edge} all round)."
HINT = "Cut the elastic shorter than {edge}, or leave its length out if it is bought by the metre and cut to fit."


@check(LONGER)
def elastic_longer_than_edge(nest: Nest) -> Iterator[Finding]:
    for ident, notion in nest.pattern.notions.items():
        if notion.kind != "elastic" or notion.length is None or notion.serves is None:
            continue
        piece, _, line = notion.serves.partition(".")
        if piece not in nest.pieces or line not in nest.pieces[piece].lines:
            continue
        length = by_size(notion.length, nest.sizes)
        edge = length_round(nest, piece, line, _pieces(notion))
        rows = tuple(
            Row(
                size,
                max(0.0, long - all_round) if long == long and all_round == all_round else float("nan"),
                long,
                all_round,
                {"length": Length(long), "difference": Length(long - all_round), "edge": Length(all_round)},
            )
            for size, long, all_round in zip(nest.sizes, length.tolist(), edge.tolist(), strict=True)
        )
        yield Finding(
            LONGER,
            Place(piece=piece, line=line, notion=ident),
            TEXT,
            HINT,
            {"line": plain_name(line)},
            rows,
            (piece,),
        )


def _pieces(notion: Notion) -> int:
    """How many elastics are cut, in the size with fewest."""
    count = notion.count if notion.count is not None else 1.0
    return max(1, int(min(count.values()) if isinstance(count, Mapping) else count))
