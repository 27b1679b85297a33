"""One side is longer at an edge that is levelled after hanging."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from notchwork.checks import check
from notchwork.checks.walk_words import longer_and_shorter
from notchwork.findings import Finding, Length, Place, Row, Rule, Tolerance
from notchwork.sewing import Comparison, Misfit, Nest, misfit
from notchwork.sewing.walks.fit import LEVELLED

TO_LEVEL = Rule(
    id="seams/left-to-level",
    title="A seam's sides differ at an edge that is levelled after hanging",
    rationale="A skirt is hung for a night and its hem then cut level, because cloth on the bias drops. What is over at that "
    "end of a seam is cut away with it, so it is no fault; it is told so that it is known.",
    source="Common practice, no source; likewise the 15 mm up to which it is let pass.",
    quiet="about more than 15 mm, which counts as a difference of the seam.",
    grade=Tolerance(info=0.5, unit="mm"),
)

TEXT = "{longer} is {difference} longer than {shorter} at an edge that is levelled after hanging; up to {most} is fine there."
HINT = "Nothing needs doing: it goes when the edge is cut level."


@check(TO_LEVEL)
def left_to_level(nest: Nest) -> Iterator[Finding]:
    for walk in nest.walks.values():
        for further in walk.others:
            off = misfit(nest, walk, further)
            if np.any(off.levelled):
                rows = tuple(_row(off.comparison, off, size, name) for size, name in enumerate(nest.sizes))
                yield Finding(TO_LEVEL, Place(seam=walk.id), TEXT, HINT, rows=rows, pieces=further.pieces)


def _row(comparison: Comparison, off: Misfit, size: int, name: str | None) -> Row:
    by = float(off.levelled[size])
    longer, shorter = longer_and_shorter(comparison, by > 0)
    values = {"longer": longer, "shorter": shorter, "difference": Length(abs(by)), "most": Length(LEVELLED)}
    one, other = float(comparison.one.length[size]), float(comparison.side.length[size])
    return Row(name, by, other, one, values)
