"""Below its notches, where nothing may be eased, a sleeve cap differs from the armhole."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from notchwork.checks import check
from notchwork.checks.walk_rows import interval_row
from notchwork.findings import Finding, Place, Rule, Tolerance
from notchwork.sewing import Nest, misfit

BELOW = Rule(
    id="sleeves/unequal-below-notches",
    title="A sleeve cap differs from the armhole where nothing is to be eased",
    rationale="Ease belongs over the crown, between the notches for which it is stated. Under the arm cap and armhole are "
    "sewn plain and must be equally long, or the underarm puckers.",
    source="Ease between the notches over the crown, none below them: from memory of Joseph-Armstrong and Aldrich. Steps as "
    "for a length: Threads 200, Dec 2018/Jan 2019.",
    quiet="on seams without the role sleeve, and over the stretch in which the ease is stated to lie.",
    grade=Tolerance(0.5, 1.6, 3.2, "mm"),
    tape=Tolerance(3.0, 5.0, 8.0, "mm"),
    seam_tolerance=True,
)

TEXT = (
    "From {first} to {second} {longer} is {difference} longer than {shorter} ({more} against {less}; up to {fine} is "
    "fine), where nothing is to be eased in."
)
HINT = "Take {difference} off {longer} between {first} and {second}, or move the notch so that this cloth lies above it."


@check(BELOW)
def unequal_below_notches(nest: Nest) -> Iterator[Finding]:
    for walk in nest.walks.values():
        for further in walk.others if walk.seam.role == "sleeve" else ():
            off = misfit(nest, walk, further)
            if off.comparison.is_plain or not np.any(off.length):
                continue
            rows = tuple(
                interval_row(nest, walk, off, float(off.length[size]), size)
                for size in range(len(nest.sizes))
            )
            worst = max(rows, key=lambda row: abs(row.off))
            yield Finding(
                BELOW,
                worst.place or Place(seam=walk.id),
                TEXT,
                HINT,
                rows=rows,
                pieces=off.comparison.pieces,
                tape=off.comparison.by_tape,
            )
