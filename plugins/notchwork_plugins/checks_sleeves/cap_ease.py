"""A sleeve's cap carries more or less ease than is stated for it."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from notchwork.checks import check
from notchwork.checks.walk_rows import ease_row
from notchwork.checks.walk_words import with_grade_steps, worst_size
from notchwork.findings import Finding, Place, Rule, Tolerance
from notchwork.sewing import Nest, misfit

CAP_EASE = Rule(
    id="sleeves/cap-ease",
    title="A sleeve cap carries more or less ease than is stated",
    rationale="The cap of a set-in sleeve is longer than its armhole by just the ease that its maker wants. Too much puckers, "
    "too little pulls across the arm. How much is right is for the maker to say: handbooks give about 25 to 40 mm for a "
    "blouse or dress, 40 to 60 for a tailored sleeve, up to 15 for a shirt, none for leather and knits, and some hold that "
    "a well-cut sleeve needs none. Only the pattern's own statement is held against it.",
    source="Joseph-Armstrong, Patternmaking for Fashion Design, 2nd ed., p. 68 (average 1.5 in; second-hand); the ranges for "
    "other sleeves: common practice, no source. Steps as for a length: Threads 200, Dec 2018/Jan 2019.",
    quiet="on seams without the role sleeve (raglan, kimono, a gathered head), and where no ease is stated.",
    grade=Tolerance(0.5, 1.6, 3.2, "mm"),
    tape=Tolerance(3.0, 5.0, 8.0, "mm"),
)

TOO_MUCH = "{other} has {ease} of ease over {one}{where}; {least} to {most} is wanted, so {off} is too much."
TOO_LITTLE = "{other} has {ease} of ease over {one}{where}; {least} to {most} is wanted, so {off} is missing."
SHORTER = "{other} is {short} shorter than {one}{where}, where {least} to {most} of ease is wanted."
LESS_HINT = "Take {off} off the cap{where} (lower or narrow it), or deepen the armhole, or state the ease that you want."
MORE_HINT = "Add {off} to the cap{where} (raise or widen it), or state the ease that you want."


@check(CAP_EASE)
def cap_ease(nest: Nest) -> Iterator[Finding]:
    for walk in nest.walks.values():
        for further in walk.others if walk.seam.role == "sleeve" else ():
            off = misfit(nest, walk, further)
            if not np.any(off.fullness):
                continue
            rows = tuple(ease_row(nest, walk, off, size) for size in range(len(nest.sizes)))
            worst = worst_size(nest, off.fullness)
            too_much = off.fullness[worst] > 0
            shorter = (rows[worst].measured or 0.0) < 0
            hint, steps = with_grade_steps(
                LESS_HINT if too_much else MORE_HINT, nest, walk, off.comparison, off.fullness, worst
            )
            yield Finding(
                CAP_EASE,
                rows[worst].place or Place(seam=walk.id),
                TOO_MUCH if too_much else SHORTER if shorter else TOO_LITTLE,
                hint,
                values=steps,
                rows=rows,
                pieces=off.comparison.pieces,
                tape=off.comparison.by_tape,
            )
