"""A side that is to be eased (or drawn up by an amount) carries more or less than its maker states."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from notchwork.checks import check
from notchwork.checks.walk_words import place_of, side_pair, stretch_words, with_grade_steps, worst_size
from notchwork.findings import Finding, Length, Place, Row, Rule, Tolerance
from notchwork.sewing import Comparison, Misfit, Nest, Walk, misfit

EASE = Rule(
    id="seams/ease-not-as-stated",
    title="A seam carries more or less ease than is stated",
    rationale="Ease is cloth that is shrunk in without folds. How much of it a seam is to carry is for whoever drafts it to "
    "say; whether it does is measured here, between the notches it is to lie between. Handbooks give 25 to 40 mm for the "
    "cap of a blouse sleeve, 40 to 60 for a tailored one, none for leather or knits; others hold that a well-cut sleeve "
    "needs none. None of that is held against a pattern: only its own statement is.",
    source="Joseph-Armstrong, Patternmaking for Fashion Design, 2nd ed., p. 68 (average 1.5 in; second-hand); the steps are "
    "those of a length: Threads 200, Dec 2018/Jan 2019.",
    quiet="where nothing is stated (one remark says so), and about sleeves, of which their own family speaks.",
    grade=Tolerance(0.5, 1.6, 3.2, "mm"),
    tape=Tolerance(3.0, 5.0, 8.0, "mm"),
)

TOO_MUCH = (
    "{other} has {ease} more than {one}{where}; {least} to {most} is wanted, so {off} is too much to ease in."
)
TOO_LITTLE = "{other} has {ease} more than {one}{where}; {least} to {most} is wanted, so {off} is missing."
SHORTER = "{other} is {short} shorter than {one}{where}, where it should be {least} to {most} longer."
LESS_HINT = "Take {off} off {other}{where}, or state the ease that you want."
MORE_HINT = "Add {off} to {other}{where}, or state the ease that you want."


@check(EASE)
def ease_not_as_stated(nest: Nest) -> Iterator[Finding]:
    for walk in nest.walks.values():
        if walk.seam.role == "sleeve":
            continue
        yield from ease_findings(nest, walk, EASE)


def ease_findings(nest: Nest, walk: Walk, rule: Rule) -> Iterator[Finding]:
    """One finding for each further side whose ease lies outside what is stated."""
    for further in walk.others:
        off = misfit(nest, walk, further)
        comparison = off.comparison
        if not np.any(off.fullness):
            continue
        rows = tuple(_row(nest, walk, comparison, off, size) for size in range(len(nest.sizes)))
        worst = worst_size(nest, off.fullness)
        too_much = off.fullness[worst] > 0
        hint, steps = with_grade_steps(
            LESS_HINT if too_much else MORE_HINT, nest, walk, comparison, off.fullness, worst
        )
        yield Finding(
            rule,
            rows[worst].place or Place(seam=walk.id),
            TOO_MUCH if too_much else SHORTER if (rows[worst].measured or 0.0) < 0 else TOO_LITTLE,
            hint,
            values=steps,
            rows=rows,
            pieces=off.comparison.pieces,
            tape=off.comparison.by_tape,
        )


def _row(nest: Nest, walk: Walk, comparison: Comparison, off: Misfit, size: int) -> Row:
    assert comparison.wanted is not None
    by = float(off.fullness[size])
    ease = float(np.sum([interval.difference[size] for interval in comparison.full]))
    least, most = float(comparison.wanted.least[size]), float(comparison.wanted.most[size])
    one, other = side_pair(comparison)
    values = {
        "one": one,
        "other": other,
        "ease": Length(ease),
        "short": Length(-ease),
        "least": Length(least),
        "most": Length(most),
        "where": stretch_words(nest, walk, comparison),
    }
    middle = comparison.intervals.index(comparison.full[len(comparison.full) // 2])
    place = place_of(nest, walk, comparison, middle, True, size) if by else None
    return Row(nest.sizes[size], by, ease, least if by < 0 else most, values, place)
