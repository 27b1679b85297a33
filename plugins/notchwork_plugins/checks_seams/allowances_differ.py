"""Two sides of a seam whose allowances are not equally wide."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import product

import numpy as np

from notchwork.checks import check
from notchwork.findings import Finding, Length, Place, Row, Rule, Tolerance, plain_name
from notchwork.sewing import Nest, SideWalk, Stretch, Walk
from notchwork.sewing.allowances import stated_allowance
from notchwork.sewing.amounts import by_size
from notchwork.sewing.lines import Floats

DIFFER = Rule(
    id="seams/allowances-differ",
    title="The allowances of a seam differ",
    rationale="Two pieces are laid edge on edge and sewn at one distance from it. If one allowance is wider than the other, the "
    "stitching does not lie on one of the two stitch lines. What is trimmed to a width later is compared at that width. Felled, "
    "lapped and bound seams, applied pieces, faced and bound edges, strips, and the edges under a zip have allowances of "
    "their own.",
    source="Common practice, no source.",
    grade=Tolerance(warning=1.0),
)

TEXT = "The allowance is {a} on {one} but {b} on {other}."
HINT = "Give both the same allowance; if one is trimmed later, say to what with “trim_to”."

UNLIKE_BY_NATURE = ("felled", "lapped", "bound", "applied")
SHORT = 5.0
"""mm: stretches that lie against each other for less are neighbours at a joint (common practice, no source)."""


@check(DIFFER)
def allowances_differ(nest: Nest) -> Iterator[Finding]:
    zipped = {
        (span.piece, span.line)
        for opening in nest.pattern.openings.values()
        if opening.kind == "zip"
        for group in opening.sections or opening.lips or ()
        for span in group
    }
    for walk in nest.walks.values():
        if walk.seam.construction in UNLIKE_BY_NATURE:
            continue
        told: set[frozenset[tuple[str, str]]] = set()
        for further in walk.others:
            for a, b in _facing(nest, walk, further.side):
                pair = frozenset((a.line.key, b.line.key))
                if pair not in told and not any(_has_its_own(s, zipped) for s in (a, b)):
                    finding = _finding(nest, walk, a, b)
                    if finding is not None:
                        told.add(pair)
                        yield finding


def _facing(nest: Nest, walk: Walk, other: SideWalk) -> Iterator[tuple[Stretch, Stretch]]:
    """The stretches of two sides that come to lie on each other, by their share of the side."""
    one = walk.sides[0]
    for (a, a_low, a_high), (b, b_low, b_high) in product(_shares(one), _shares(other)):
        common = np.minimum(a_high, b_high) - np.maximum(a_low, b_low)
        if bool(np.any(np.nan_to_num(common * one.length) > SHORT)):
            yield a, b


def _shares(side: SideWalk) -> list[tuple[Stretch, Floats, Floats]]:
    whole = np.where(side.length > 0, side.length, np.nan)
    return [
        (stretch, start / whole, (start + stretch.length) / whole)
        for stretch, start in zip(side.stretches, side.starts, strict=True)
    ]


def _has_its_own(stretch: Stretch, zipped: set[tuple[str, str]]) -> bool:
    """Whether the edge's allowance follows from something else than the seam."""
    if stretch.line.kind != "edge" or stretch.graded.is_strip or stretch.line.key in zipped:
        return True
    written = stretch.graded.written.edges.get(stretch.line.name)
    return written is not None and written.finish is not None and written.finish.kind in ("bound", "faced")


def _finding(nest: Nest, walk: Walk, a: Stretch, b: Stretch) -> Finding | None:
    one, other = _sewn_allowance(a), _sewn_allowance(b)
    rows = tuple(
        Row(size, wide - narrow, wide, narrow, {"a": Length(narrow), "b": Length(wide)})
        for size, narrow, wide in zip(nest.sizes, one.tolist(), other.tolist(), strict=True)
    )
    if not bool(np.any(np.nan_to_num(np.abs(one - other)) > 0)):
        return None
    return Finding(
        DIFFER,
        Place(seam=walk.id, piece=b.graded.id, line=b.line.name),
        TEXT,
        HINT,
        {"one": _name(a), "other": _name(b)},
        rows,
        tuple(dict.fromkeys((a.graded.id, b.graded.id))),
    )


def _sewn_allowance(stretch: Stretch) -> Floats:
    """What the allowance (mm, sizes) is when the seam is sewn: spare cloth is trimmed before, where that is stated."""
    written = stretch.graded.written.edges.get(stretch.line.name)
    trimmed = by_size(written.trim_to if written is not None else None, stretch.graded.sizes)
    return np.where(np.isnan(trimmed), stated_allowance(stretch.graded, stretch.line.name), trimmed)


def _name(stretch: Stretch) -> str:
    return f"{stretch.graded.name} ({plain_name(stretch.line.name)})"
