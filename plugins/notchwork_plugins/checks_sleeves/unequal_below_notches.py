"""Below its notches, where nothing may be eased, a sleeve cap differs from the armhole."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from notchwork.checks import check
from notchwork.checks.walk_words import interval_words, longer_and_shorter, place_of
from notchwork.findings import Finding, Length, Place, Row, Rule, Tolerance
from notchwork.sewing import Misfit, Nest, Walk, misfit

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
            rows = tuple(_row(nest, walk, off, size) for size in range(len(nest.sizes)))
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


def _row(nest: Nest, walk: Walk, off: Misfit, size: int) -> Row:
    comparison = off.comparison
    by = float(off.length[size])
    interval = comparison.intervals[off.where[size]]
    one, other = float(interval.one[size]), float(interval.other[size])
    longer, shorter = longer_and_shorter(comparison, by > 0, interval)
    first, second = interval_words(nest, walk, interval)
    values = {
        "longer": longer,
        "shorter": shorter,
        "difference": Length(abs(by)),
        "more": Length(max(one, other)),
        "less": Length(min(one, other)),
        "first": first,
        "second": second,
    }
    place = place_of(nest, walk, comparison, off.where[size], by > 0, size) if by else None
    return Row(nest.sizes[size], abs(by), max(one, other), min(one, other), values, place)
