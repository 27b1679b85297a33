"""A side that is to be eased (or drawn up by an amount) carries more or less than its maker states."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from notchwork.checks import check
from notchwork.checks.walk_rows import ease_row
from notchwork.checks.walk_words import with_grade_steps, worst_size
from notchwork.findings import Finding, Place, Rule, Tolerance
from notchwork.sewing import Nest, misfit

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
        for further in walk.others if walk.seam.role != "sleeve" else ():
            off = misfit(nest, walk, further)
            if not np.any(off.fullness):
                continue
            rows = tuple(ease_row(nest, walk, off, size) for size in range(len(nest.sizes)))
            worst = worst_size(nest, off.fullness)
            too_much = off.fullness[worst] > 0
            hint, steps = with_grade_steps(
                LESS_HINT if too_much else MORE_HINT, nest, walk, off.comparison, off.fullness, worst
            )
            yield Finding(
                EASE,
                rows[worst].place or Place(seam=walk.id),
                TOO_MUCH if too_much else SHORTER if (rows[worst].measured or 0.0) < 0 else TOO_LITTLE,
                hint,
                values=steps,
                rows=rows,
                pieces=off.comparison.pieces,
                tape=off.comparison.by_tape,
            )
