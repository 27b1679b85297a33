"""Two sides that are to be equal are not."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from notchwork.checks import check
from notchwork.checks.walk_words import (
    interval_words,
    longer_and_shorter,
    place_of,
    with_grade_steps,
)
from notchwork.findings import Finding, Length, Place, Row, Rule, Tolerance
from notchwork.sewing import Comparison, Misfit, Nest, Walk, misfit

UNEQUAL = Rule(
    id="seams/unequal-length",
    title="The two sides of a seam are not equally long",
    rationale="Sides that are sewn together plain must be equally long on the stitch line, station by station; otherwise "
    "cloth is left over at the end, or is pulled and puckered in on the way. Lengths are taken on the stitch line less what "
    "darts and pleats take out, never on the cut line: on a curve the two differ.",
    source="1/16 in (1.6 mm) is what a professional keeps to, 1/8 in (3.2 mm) works for many sewers: Threads 200, "
    "Dec 2018/Jan 2019, “10 Patternwork Skills”. The steps for tape-measured lengths: common practice, no source.",
    grade=Tolerance(0.5, 1.6, 3.2, "mm"),
    tape=Tolerance(3.0, 5.0, 8.0, "mm"),
    seam_tolerance=True,
)

WHOLE = "{longer} is {difference} longer than {shorter} ({more} against {less}; up to {fine} is fine)."
PART = (
    "From {first} to {second} {longer} is {difference} longer than {shorter} ({more} against {less}; "
    "up to {fine} is fine). Elsewhere on the seam both agree."
)
EASED = (
    "From {first} to {second} {longer} is {difference} longer than {shorter} ({more} against {less}; up to {fine} is "
    "fine), where nothing is to be {worked_in}."
)
HINT = "Take {difference} off {longer}{where}, or add it to {shorter}."


@check(UNEQUAL)
def unequal_length(nest: Nest) -> Iterator[Finding]:
    for walk in nest.walks.values():
        for further in walk.others:
            if walk.seam.role == "sleeve" and further.kind == "eased":
                continue  # the sleeve's own checks speak
            off = misfit(nest, walk, further)
            comparison = off.comparison
            rows = tuple(_row(nest, walk, comparison, off, size) for size in range(len(nest.sizes)))
            worst = int(np.argmax([abs(row.off) for row in rows]))
            if rows[worst].off:
                hint, steps = with_grade_steps(HINT, nest, walk, comparison, worst)
                yield Finding(
                    UNEQUAL,
                    rows[worst].place or Place(seam=walk.id),
                    _template(comparison, off, worst),
                    hint,
                    values=steps,
                    rows=rows,
                    pieces=comparison.pieces,
                    tape=comparison.by_tape,
                )


def _row(nest: Nest, walk: Walk, comparison: Comparison, off: Misfit, size: int) -> Row:
    by = float(off.length[size])
    name = nest.sizes[size]
    one, other = float(comparison.one.length[size]), float(comparison.side.length[size])
    if not by:
        return Row(name, by if one == one and other == other else float("nan"), other, one)
    longer, shorter = longer_and_shorter(comparison, by > 0)
    values: dict[str, object] = {
        "longer": longer,
        "shorter": shorter,
        "difference": Length(abs(by)),
        "where": "",
    }
    number = off.where[size]
    interval = comparison.intervals[number]
    if len(comparison.intervals) > 1:
        first, second = interval_words(nest, walk, interval)
        values |= {"first": first, "second": second, "where": f" between {first} and {second}"}
    if _template(comparison, off, size) is not WHOLE:
        one, other = float(interval.one[size]), float(interval.other[size])
    values |= {
        "more": Length(max(one, other)),
        "less": Length(min(one, other)),
        "worked_in": "gathered" if comparison.kind == "gathered" else "eased in",
    }
    if not _is_alone(comparison, off, size):
        values["where"] = ""
    return Row(name, by, other, one, values, place_of(nest, walk, comparison, number, by > 0, size))


def _template(comparison: Comparison, off: Misfit, size: int) -> str:
    if not comparison.is_plain:
        return EASED
    return PART if len(comparison.intervals) > 1 and _is_alone(comparison, off, size) else WHOLE


def _is_alone(comparison: Comparison, off: Misfit, size: int) -> bool:
    """Whether one interval carries the whole difference and all others agree."""
    differences = [
        0.0 if interval.full else float(np.nan_to_num(interval.difference[size]))
        for interval in comparison.intervals
    ]
    rest = [abs(d) for k, d in enumerate(differences) if k != off.where[size]]
    return all(d <= 0.5 for d in rest) and abs(differences[off.where[size]] - float(off.length[size])) < 1.0
