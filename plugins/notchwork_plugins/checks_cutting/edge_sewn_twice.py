"""A stretch of an edge that several seams take, more often than there are copies of it."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from notchwork.checks import check
from notchwork.findings import Finding, Length, Place, Row, Rule, Severity, plain_name
from notchwork.sewing import Nest
from notchwork.sewing.counts.clashes import Clash, clashes_of
from notchwork.sewing.names import seam_name

SEWN_TWICE = Rule(
    id="cutting/edge-sewn-twice",
    title="Several seams take the same stretch of an edge",
    rationale="An edge that lies in a seam is used up. If a second seam takes the same stretch of it on the same copy, one of "
    "the two names the wrong edge, or is stated twice, or is sewn over the other (a lining along an armhole already sewn) and "
    "does not say so. Basted layers use nothing up.",
    source="Common practice, no source.",
    grade=Severity.ERROR,
)

TEXT = "{seams} take the same {length} of {edges}: there it is sewn {times}, but {cut}."
HINT = (
    "If one seam names the wrong edge or is stated twice, mend that; if it is sewn over the other, "
    "say so in its “over”"
)
OR_HALF = "; if {whole} belongs to one half of the garment only, say so in its “half”"


@check(SEWN_TWICE)
def edge_sewn_twice(nest: Nest) -> Iterator[Finding]:
    by_seams: dict[frozenset[str], list[Clash]] = {}
    for clash in clashes_of(nest):
        by_seams.setdefault(clash.seams, []).append(clash)
    order = {ident: k for k, ident in enumerate(nest.pattern.seams)}
    for seams, clashes in by_seams.items():
        yield _finding(nest, sorted(seams, key=order.__getitem__), clashes)


def _finding(nest: Nest, seams: list[str], clashes: list[Clash]) -> Finding:
    first = clashes[0]
    lines = list(dict.fromkeys(clash.interval.line.key for clash in clashes))
    where = np.any([clash.where for clash in clashes], axis=0)
    both = [seam for seam in seams if nest.pattern.seams[seam].half is None]
    half_forgotten = len(both) == 1 and len(seams) == 2
    length = first.interval.high - first.interval.low
    rows = tuple(
        Row(
            size,
            measured=float(first.times[k]),
            expected=float(first.cut[k]),
            values={
                "length": Length(float(length[k])),
                "times": "twice" if first.times[k] == 2 else f"{int(first.times[k])} times",
                "cut": "there is only one copy"
                if first.cut[k] == 1
                else f"there are only {int(first.cut[k])} copies",
            },
        )
        for k, size in enumerate(nest.sizes)
        if where[k]
    )
    return Finding(
        SEWN_TWICE,
        Place(seam=seams[-1], piece=lines[0][0], line=lines[0][1]),
        TEXT,
        HINT + (OR_HALF if half_forgotten else "") + ".",
        {
            "seams": tuple(seam_name(nest.pattern, seam) for seam in seams),
            "whole": tuple(seam_name(nest.pattern, seam) for seam in both),
            "edges": tuple(f"{nest.pieces[piece].name} ({plain_name(line)})" for piece, line in lines),
        },
        rows,
        tuple(dict.fromkeys(piece for piece, _ in lines)),
    )
