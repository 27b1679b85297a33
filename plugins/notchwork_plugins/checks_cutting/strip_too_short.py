"""A strip that is shorter than the edges it is to finish."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from notchwork.checks import check
from notchwork.findings import Finding, Length, Place, Row, Rule, Tolerance, plain_name
from notchwork.model import Strip
from notchwork.sewing import GradedPiece, Nest
from notchwork.sewing.counts.rounds import rounds_along
from notchwork.sewing.pieces.amounts import by_size
from notchwork.sewing.pieces.lines import Line

OWN_ALLOWANCE = 6.0
"""mm at either end of a strip that states none (common practice, no source)."""

TOO_SHORT = Rule(
    id="cutting/strip-too-short",
    title="A strip is shorter than what it finishes",
    rationale="A binding or facing strip must reach along all the edges that are finished with it, with an allowance at either end "
    "(6 mm unless it states its own), and with what joining it from shorter strips takes up. Where a seam sews the strip to "
    "an edge, the seam's own lengths decide.",
    source="Common practice, no source.",
    grade=Tolerance(warning=0.5),
)

TEXT = "It is {length} long, but {edges} and its ends need {needed}{each}."
HINT = "Cut it at least {needed} long."


@check(TOO_SHORT)
def strip_too_short(nest: Nest) -> Iterator[Finding]:
    for strip in nest.pieces.values():
        if strip.written.strip is None or not strip.written.cut:
            continue  # nobody knows how many strips there are
        served = _served(nest, strip)
        if served:
            yield from _finding(nest, strip, strip.written.strip, served)


def _served(nest: Nest, strip: GradedPiece) -> list[tuple[GradedPiece, Line]]:
    """The edges that are finished with the strip, without those that a seam sews it to."""
    sewn = {
        stretch.line.key
        for sides in nest.sides.values()
        if any(strip.id in side.pieces for side in sides)
        for side in sides
        for stretch in side.stretches
    }
    return [
        (piece, piece.lines[name])
        for piece in nest.pieces.values()
        for name, edge in piece.written.edges.items()
        if edge is not None
        and edge.finish is not None
        and edge.finish.with_ == strip.id
        and name in piece.lines
        and (piece.id, name) not in sewn
    ]


def _finding(
    nest: Nest, strip: GradedPiece, written: Strip, served: list[tuple[GradedPiece, Line]]
) -> Iterator[Finding]:
    runs = rounds_along(nest, [line.key for _, line in served])
    if not runs:
        return
    copies = nest.accounts[strip.id].copies
    strips = np.maximum(copies.total, 1.0) if copies is not None else np.ones(len(nest.sizes))
    edges = np.sum(runs, axis=0) / strips
    ends = by_size(strip.written.allowance, nest.sizes)
    ends = np.where(np.isnan(ends), OWN_ALLOWANCE, ends)
    needed = edges + 2 * ends + np.nan_to_num(by_size(written.joins, nest.sizes))
    length = by_size(written.length, nest.sizes)
    rows = tuple(
        Row(
            size,
            max(0.0, n - have) if n == n and have == have else np.nan,
            have,
            n,
            {"length": Length(have), "needed": Length(n)},
        )
        for size, n, have in zip(nest.sizes, needed.tolist(), length.tolist(), strict=True)
    )
    if any(row.off > 0 for row in rows):
        each = " on each of its copies" if bool(np.any(strips > 1)) else ""
        names = dict.fromkeys(f"{piece.name} ({plain_name(line.name)})" for piece, line in served)
        pieces = (strip.id, *dict.fromkeys(piece.id for piece, _ in served))
        yield Finding(
            TOO_SHORT,
            Place(piece=strip.id),
            TEXT,
            HINT,
            {"edges": tuple(names), "each": each},
            rows,
            pieces,
        )
