"""Pieces whose outline is not known to be the stitch line."""

from __future__ import annotations

from collections.abc import Iterator

from notchwork.checks import check
from notchwork.findings import Finding, Place, Rule, Severity
from notchwork.sewing import Nest

NOT_KNOWN = Rule(
    id="pieces/outline-not-known",
    title="Nothing says whether an outline is the stitch line",
    rationale="Seams are compared on stitch lines. On a cut line every curve and every corner that is not square has another length, so "
    "nothing that is measured on such a piece is judged, and of its seams it is not known whether they fit. Most outlines that people draw "
    "alone are cut lines.",
    source="Common practice, no source.",
    grade=Severity.WARNING,
    quiet="Templates and guides, which are not sewn.",
)

SHOWN = 6
"""Pieces that are named one by one."""


@check(NOT_KNOWN)
def outline_not_known(nest: Nest) -> Iterator[Finding]:
    doubtful = [
        graded
        for graded in nest.pieces.values()
        if graded.written.outline_is is not None and graded.written.use is None
    ]
    if not doubtful:
        return
    names = tuple(graded.name for graded in doubtful)
    shown = (*names[:SHOWN], f"{len(names) - SHOWN} more") if len(names) > SHOWN + 1 else names
    yield Finding(
        NOT_KNOWN,
        Place(),
        "Nothing says whether the one outline of {names} is the stitch line or the cut line: lengths are given, but not judged.",
        "Read a drawing with --outline stitch, or with --outline cut --allowance and its width; in the open format, draw the stitch line "
        "and take “outline_is” away.",
        {"names": shown},
        pieces=tuple(graded.id for graded in doubtful),
    )
