"""A casing in which its elastic or cord does not run, or whose allowance cannot make it."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from notchwork.checks import check
from notchwork.findings import Finding, Length, Place, Row, Rule, Tolerance, plain_name
from notchwork.sewing import GradedPiece, Nest
from notchwork.sewing.pieces.allowances import stated_allowance
from notchwork.sewing.pieces.amounts import by_size
from notchwork.sewing.pieces.lines import Floats

ROOM, ROOM_FOR_NARROW, NARROW = 2.0, 1.0, 4.0
"""mm that a casing is wider inside than its elastic; than a cord or an elastic up to ``NARROW`` wide."""

TURN_UNDER = 6.0
"""mm of allowance beyond the casing that are turned under and stitched (common practice, no source)."""

TOO_NARROW = Rule(
    id="openings/casing-too-narrow",
    title="A casing is too narrow for its elastic or cord",
    rationale="An elastic must run in its casing without curling: inside, the casing is at least 2 mm wider (1 mm for a cord or for "
    "elastic up to 4 mm). Elastic sewn on directly has no casing.",
    source="Common practice, no source (casing = elastic + 3 mm, never under + 2).",
    grade=Tolerance(warning=0.0),
)

NO_ROOM = Rule(
    id="openings/casing-allowance-too-small",
    title="The allowance is too small for the casing turned down from it",
    rationale="A casing that is turned down from the edge takes its own depth out of the allowance, and 6 mm more to be turned under "
    "and stitched.",
    source="Common practice, no source.",
    grade=Tolerance(warning=0.0),
)


@check(TOO_NARROW)
def casing_too_narrow(nest: Nest) -> Iterator[Finding]:
    for ident, notion in nest.pattern.notions.items():
        if notion.kind not in ("elastic", "cord") or notion.width is None or notion.serves is None:
            continue
        piece, _, line = notion.serves.partition(".")
        graded = nest.pieces.get(piece)
        inside = _inner_width(graded, line) if graded is not None else None
        if graded is None or inside is None:
            continue
        width = by_size(notion.width, nest.sizes)
        narrow = np.full(width.shape, notion.kind == "cord") | (width <= NARROW)
        needed = width + np.where(narrow, ROOM_FOR_NARROW, ROOM)
        rows = tuple(
            Row(
                size,
                max(0.0, n - have) if n == n and have == have else float("nan"),
                have,
                n,
                {"inside": Length(have), "width": Length(w), "needed": Length(n)},
            )
            for size, n, have, w in zip(
                nest.sizes, needed.tolist(), inside.tolist(), width.tolist(), strict=True
            )
        )
        yield Finding(
            TOO_NARROW,
            Place(piece=piece, line=line, notion=ident),
            "The casing at its {line} is {inside} wide inside; the {kind} of {width} needs {needed} to run in it without curling.",
            "Make the casing at least {needed} wide, or take a narrower {kind}.",
            {"line": plain_name(line), "kind": notion.kind},
            rows,
            (piece,),
        )


@check(NO_ROOM)
def casing_allowance_too_small(nest: Nest) -> Iterator[Finding]:
    for graded in nest.pieces.values():
        for edge in graded.edges:
            written = graded.written.edges.get(edge)
            finish = written.finish if written is not None else None
            if finish is None or finish.kind != "casing" or finish.with_ is not None:
                continue
            deep = by_size(finish.depth if finish.depth is not None else finish.width, nest.sizes)
            allowance = stated_allowance(graded, edge)
            rows = tuple(
                Row(
                    size,
                    max(0.0, d + TURN_UNDER - a) if a == a and d == d else float("nan"),
                    a,
                    d + TURN_UNDER,
                    {"allowance": Length(a), "deep": Length(d), "needed": Length(d + TURN_UNDER)},
                )
                for size, a, d in zip(nest.sizes, allowance.tolist(), deep.tolist(), strict=True)
            )
            yield Finding(
                NO_ROOM,
                Place(piece=graded.id, line=edge),
                "The casing at its {edge} is turned down {deep}, and {under} more are needed to turn the raw edge under: "
                "{needed} in all, but the allowance there is only {allowance}.",
                "Give the {edge} an allowance of at least {needed}, or make the casing narrower.",
                {"edge": plain_name(edge), "under": Length(TURN_UNDER)},
                rows,
                (graded.id,),
            )


def _inner_width(graded: GradedPiece, line: str) -> Floats | None:
    """The inner width (mm, sizes) of a casing along an edge or inner line; None where there is no casing."""
    edge = graded.written.edges.get(line)
    if edge is not None and edge.finish is not None and edge.finish.kind == "casing":
        finish = edge.finish
        return by_size(finish.width if finish.width is not None else finish.depth, graded.sizes)
    inner = graded.written.inner.get(line)
    if inner is not None and inner.width is not None and inner.use in (None, "casing"):
        return by_size(inner.width, graded.sizes)
    return None
