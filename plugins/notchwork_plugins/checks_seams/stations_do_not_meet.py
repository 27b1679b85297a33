"""A seam has the right total, and yet its notches do not meet."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from notchwork.checks import check
from notchwork.checks.walk_rows import interval_row
from notchwork.findings import Finding, Place, Row, Rule, Tolerance
from notchwork.sewing import Misfit, Nest, Walk, misfit
from notchwork.sewing.walks.joins import is_plain

NOT_MEETING = Rule(
    id="seams/stations-do-not-meet",
    title="Notches that should meet do not, though the seam's ends do",
    rationale="A seam can have the right total and still be wrong: too much before the notch, too little after it. Whoever "
    "pins it at the notches finds one stretch puckered and the other pulled. Most often a notch slipped along its edge.",
    source="Walking a seam from notch to notch: Threads 200, Dec 2018/Jan 2019, “10 Patternwork Skills” (1/16 in, 1/8 in).",
    quiet="about notches that only mark a place; inside a stretch that is eased or gathered and whose range "
    "covers it; about joints of two plain sides more than 30 mm apart, which were not meant to meet.",
    grade=Tolerance(0.5, 1.6, 3.2, "mm"),
    tape=Tolerance(3.0, 5.0, 8.0, "mm"),
    seam_tolerance=True,
)

TEXT = (
    "The ends meet, but from {first} to {second} {longer} is {difference} longer than {shorter} "
    "({more} against {less}; up to {fine} is fine), and as much shorter elsewhere."
)
HINT = "Compare where {moved} stands on both sides, and move it by {difference} along one of them."


@check(NOT_MEETING)
def stations_do_not_meet(nest: Nest) -> Iterator[Finding]:
    for walk in nest.walks.values():
        among_notched = [c for c in walk.by_notches if c.is_plain and is_plain(c.one.side.join)]
        for further in (*walk.others, *among_notched):
            off = misfit(nest, walk, further)
            comparison = off.comparison
            if not np.any(off.slipped):
                continue
            rows = tuple(_row(nest, walk, off, size) for size in range(len(nest.sizes)))
            worst = max(rows, key=lambda row: abs(row.off))
            yield Finding(
                NOT_MEETING,
                worst.place or Place(seam=walk.id),
                TEXT,
                HINT,
                rows=rows,
                pieces=comparison.pieces,
                tape=comparison.by_tape,
            )


def _row(nest: Nest, walk: Walk, off: Misfit, size: int) -> Row:
    row = interval_row(nest, walk, off, float(off.slipped[size]), size)
    stop = off.comparison.intervals[off.where[size]].stop
    return replace(
        row, values={**row.values, "moved": row.values["second" if stop.kind != "end" else "first"]}
    )
