"""An allowance in which the construction that is stated has no room."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from notchwork.checks import check
from notchwork.findings import Finding, Length, Place, Row, Rule, Tolerance, plain_name
from notchwork.sewing import Nest, Stretch, Walk
from notchwork.sewing.pieces.allowances import stated_allowance
from notchwork.sewing.pieces.lines import Floats

NARROW = Rule(
    id="seams/allowance-too-narrow",
    title="An allowance is too narrow for how the seam is made",
    rationale="A French seam is sewn twice within its allowance: under 9 mm in all there is no room. A seam whose allowances are bound "
    "needs 8 mm to be caught in the binding. A felled seam needs 12 mm on the side that is folded over the other. A seam that "
    "does not state its construction is left alone.",
    source="Common practice, no source; French seams on sheers are commonly 10 to 12 mm in all, and a flat-felled seam is sewn "
    "at 5/8 in (15.9 mm) with one side trimmed to 1/4 in (6.4 mm).",
    grade=Tolerance(warning=0.0),
)

NEEDED = {"french": 9.0, "bound": 8.0, "felled": 12.0}
"""mm of allowance: on every side of a French or bound seam, on one side of a felled one."""

TEXT = "{made} needs an allowance of {needed}{on}, but {edge} has {allowance}."
HINT = "Widen the allowance to at least {needed}, or make the seam in another way."
MADE = {"french": "A French seam", "bound": "A seam with bound allowances", "felled": "A felled seam"}


@check(NARROW)
def allowance_too_narrow(nest: Nest) -> Iterator[Finding]:
    for walk in nest.walks.values():
        made = walk.seam.construction
        stretches = [
            s
            for side in walk.sides
            for s in side.stretches
            if s.line.kind == "edge" and not s.graded.is_strip
        ]
        bound_with_strip = made == "bound" and any(
            s.graded.is_strip for side in walk.sides for s in side.stretches
        )
        if made not in NEEDED or bound_with_strip or not stretches:
            continue
        if made == "felled":
            yield from _felled(nest, walk, stretches)
        else:
            narrowest = min(stretches, key=lambda s: float(np.min(np.nan_to_num(_allowance(s), nan=np.inf))))
            yield _finding(nest, walk, made, narrowest, _allowance(narrowest))


def _felled(nest: Nest, walk: Walk, stretches: list[Stretch]) -> Iterator[Finding]:
    """Enough if one side is wide enough; unless every allowance is known nothing can be said."""
    widest = max(stretches, key=lambda s: float(np.max(np.nan_to_num(_allowance(s)))))
    if not any(bool(np.any(np.isnan(_allowance(s)))) for s in stretches):
        yield _finding(nest, walk, "felled", widest, _allowance(widest))


def _finding(nest: Nest, walk: Walk, made: str, stretch: Stretch, allowance: Floats) -> Finding:
    needed = NEEDED[made]
    rows = tuple(
        Row(
            size,
            max(0.0, needed - have) if have == have else have,
            have,
            needed,
            {"allowance": Length(have)},
        )
        for size, have in zip(nest.sizes, allowance.tolist(), strict=True)
    )
    return Finding(
        NARROW,
        Place(seam=walk.id, piece=stretch.graded.id, line=stretch.line.name),
        TEXT,
        HINT,
        {
            "made": MADE[made],
            "needed": Length(needed),
            "on": " on one side" if made == "felled" else "",
            "edge": f"{stretch.graded.name} ({plain_name(stretch.line.name)})",
        },
        rows,
        walk.pieces,
    )


def _allowance(stretch: Stretch) -> Floats:
    return stated_allowance(stretch.graded, stretch.line.name)
