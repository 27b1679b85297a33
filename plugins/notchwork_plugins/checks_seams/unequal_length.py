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
    worst_size,
)
from notchwork.findings import Finding, Length, Phrase, Place, Row, Rule, Tolerance
from notchwork.sewing import Comparison, Interval, Misfit, Nest, Walk, misfit
from notchwork.sewing.walks.fit import NOTHING

UNEQUAL = Rule(
    id="seams/unequal-length",
    title="The two sides of a seam are not equally long",
    rationale="Sides that are sewn together plain must be equally long on the stitch line, station by station; otherwise "
    "cloth is left over at the end, or is pulled and puckered in on the way. Lengths are taken on the stitch line less what "
    "darts and pleats take out, never on the cut line: on a curve the two differ.",
    source="1/16 in (1.6 mm) is what a professional keeps to, 1/8 in (3.2 mm) works for many sewers: Threads 200, "
    "Dec 2018/Jan 2019, “10 Patternwork Skills”. The steps for tape-measured lengths: common practice, no source.",
    quiet="at an end on an edge that is levelled after hanging (trim_when hung): up to 15 mm beyond the last "
    "notch is only a remark; where the sides are to be eased, gathered or stretched, which is judged by "
    "what is stated.",
    grade=Tolerance(0.5, 1.6, 3.2, "mm"),
    tape=Tolerance(3.0, 5.0, 8.0, "mm"),
    seam_tolerance=True,
)

TEXT = "{longer} is {difference} longer than {shorter} ({more} against {less}; up to {fine} is fine{levelled}){where}."
HINT = "Take {difference} off {too_long}{there}, or add it to {too_short}."


MOST_TOLD = 3
"""Intervals that are told one by one; more would be read by nobody."""


@check(UNEQUAL)
def unequal_length(nest: Nest) -> Iterator[Finding]:
    for walk in nest.walks.values():
        for further in walk.others:
            if walk.seam.role == "sleeve" and not further.is_plain:
                continue  # the sleeve's own checks speak
            off = misfit(nest, walk, further)
            comparison = off.comparison
            rows = tuple(_row(nest, walk, comparison, off, size) for size in range(len(nest.sizes)))
            worst = worst_size(nest, off.length)
            if rows[worst].off:
                hint, steps = with_grade_steps(HINT, nest, walk, comparison, off.length, worst)
                yield Finding(
                    UNEQUAL,
                    rows[worst].place or Place(seam=walk.id),
                    TEXT,
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
        return Row(name, 0.0 if other - one == other - one else float("nan"), other, one)
    hangs = float(off.levelled[size]) if comparison.is_plain else 0.0
    # What will be levelled is in neither length that is told, so that the difference is theirs.
    one, other = one + min(hangs, 0.0), other - max(hangs, 0.0)
    longer, shorter = longer_and_shorter(comparison, by > 0)
    number = off.where[size]
    where, there = _where(nest, walk, comparison, off, size)
    interval = comparison.intervals[number]
    too_long, too_short = longer_and_shorter(comparison, by > 0, interval if there else None)
    if not comparison.is_plain:
        longer, shorter = too_long, too_short
        one, other = float(interval.one[size]), float(interval.other[size])
    values: dict[str, object] = {
        "longer": longer,
        "shorter": shorter,
        "difference": Length(abs(by)),
        "more": Length(max(one, other)),
        "less": Length(min(one, other)),
        "levelled": Phrase(
            "; without {hanging} that is levelled after hanging", {"hanging": Length(abs(hangs))}
        )
        if abs(hangs) > NOTHING
        else "",
        "where": where,
        "there": there,
        "too_long": too_long,
        "too_short": too_short,
    }
    return Row(
        name,
        abs(by),
        max(one, other),
        min(one, other),
        values,
        place_of(nest, walk, comparison, number, by > 0, size),
    )


def _where(
    nest: Nest, walk: Walk, comparison: Comparison, off: Misfit, size: int
) -> tuple[Phrase | str, str]:
    """Where along the seam the difference lies, and the same for the hint, where it is one interval."""
    if len(comparison.intervals) == 1:
        return "", ""
    if not comparison.is_plain:
        first, last = interval_words(nest, walk, comparison.intervals[off.where[size]])
        what = "gathered" if comparison.kind == "gathered" else "eased in"
        return (
            Phrase(
                " from {first} to {last}, where nothing is to be {what}",
                {"first": first, "last": last, "what": what},
            ),
            f" between {first} and {last}",
        )
    by = float(off.length[size])
    parts = [
        (interval, difference)
        for interval in comparison.intervals
        if abs(difference := float(np.nan_to_num(interval.difference[size]))) > NOTHING
    ]
    rest = by - sum(difference for _, difference in parts)
    if not parts or len(parts) > MOST_TOLD or abs(rest) > NOTHING or any(d * by < 0 for _, d in parts):
        return "", ""
    told = tuple(_part(nest, walk, interval, difference) for interval, difference in parts)
    elsewhere = "; elsewhere on the seam both agree" if len(parts) < len(comparison.intervals) else ""
    if len(parts) > 1:
        return Phrase(": {told}{elsewhere}", {"told": told, "elsewhere": elsewhere}), ""
    first, last = interval_words(nest, walk, parts[0][0])
    return f", all of it from {first} to {last}{elsewhere}", f" between {first} and {last}"


def _part(nest: Nest, walk: Walk, interval: Interval, difference: float) -> Phrase:
    first, last = interval_words(nest, walk, interval)
    return Phrase(
        "{difference} from {first} to {last}",
        {"difference": Length(abs(difference)), "first": first, "last": last},
    )
