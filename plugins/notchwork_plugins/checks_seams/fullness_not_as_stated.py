"""A gathered side is fuller or flatter, a stretched one looser or tighter, than its maker states."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from notchwork.checks import check
from notchwork.checks.walk_words import interval_words, longer_and_shorter, place_of
from notchwork.findings import Finding, Length, Percent, Phrase, Place, Ratio, Row, Rule, Tolerance
from notchwork.sewing import Comparison, Misfit, Nest, Walk, misfit

FULLNESS = Rule(
    id="seams/fullness-not-as-stated",
    title="Gathers or a stretched edge are not as full as stated",
    rationale="Cloth that is drawn up is as many times as long as the seam as its maker states, in every stretch between "
    "two pins: too much in one and too little in the next shows. The same holds for elastic, bands and bias strips that are "
    "stretched on, which are shorter than the seam.",
    source="Usual gathers are 1.5 to 3 times the seam, 2.5 to 3 in sheer cloth (Stitch Coach, 2017); only the pattern's own "
    "statement is held against it. The steps of 5, 10 and 20 %: common practice, no source.",
    quiet="where nothing is stated (one remark says so), and on stretches of less than 5 mm.",
    grade=Tolerance(5.0, 10.0, 20.0, "percent"),
    measured_in="ratio",
)

TEXT = (
    "{other} is {ratio} times as long as {one}{where} ({long} on {short}); {least} to {most} times is wanted, "
    "{so}."
)
HINT = "Make {other} {least_length} to {most_length} long{where}, or state the fullness that you want."

_SO = {
    "gathered": ("so there is {by} too little to gather", "so there is {by} too much to gather"),
    "pleated": ("so there is {by} too little to lay in pleats", "so there is {by} too much to lay in pleats"),
    "stretched": ("so it is {by} too tight", "so it is {by} too loose"),
}
"""What it comes to, by the kind of join: under what is wanted, and over it."""


@check(FULLNESS)
def fullness_not_as_stated(nest: Nest) -> Iterator[Finding]:
    for walk in nest.walks.values():
        for further in walk.others:
            off = misfit(nest, walk, further)
            comparison = off.comparison
            if not np.any(off.ratio):
                continue
            rows = tuple(_row(nest, walk, comparison, off, size) for size in range(len(nest.sizes)))
            worst = max(rows, key=lambda row: abs(row.off))
            yield Finding(
                FULLNESS, worst.place or Place(seam=walk.id), TEXT, HINT, rows=rows, pieces=comparison.pieces
            )


def _row(nest: Nest, walk: Walk, comparison: Comparison, off: Misfit, size: int) -> Row:
    assert comparison.wanted is not None
    by = float(off.ratio[size])
    number = off.full_where[size]
    interval = comparison.intervals[number]
    least, most = float(comparison.wanted.least[size]), float(comparison.wanted.most[size])
    short, long = float(interval.one[size]), float(interval.other[size])
    first, second = interval_words(nest, walk, interval)
    other, one = longer_and_shorter(comparison, True, interval)
    values = {
        "one": one,
        "other": other,
        "ratio": Ratio(float(interval.ratio[size])),
        "long": Length(long),
        "short": Length(short),
        "least": Ratio(least),
        "most": Ratio(most),
        "so": Phrase(_SO.get(comparison.kind, _SO["gathered"])[by > 0], {"by": Percent(abs(by))}),
        "where": f" from {first} to {second}" if len(comparison.intervals) > 1 else "",
        "least_length": Length(least * short),
        "most_length": Length(most * short),
    }
    place = place_of(nest, walk, comparison, number, True, size) if by else None
    return Row(nest.sizes[size], by, float(interval.ratio[size]), least if by < 0 else most, values, place)
