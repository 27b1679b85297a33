"""Every seam in every size: how far its sides differ, and where that is out of tolerance."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np

from notchwork.checks import Graded
from notchwork.findings import Length, Ratio, Severity, rounded, worded
from notchwork.report.about_pattern import NOT_THERE, length_text
from notchwork.report.page.markup import Section, el, sign, table, wide, words
from notchwork.report.page.subject import Subject
from notchwork.sewing import Comparison, Nest, Walk
from notchwork.sewing.names import side_names

_OF_LENGTH = frozenset(
    [
        "seams/unequal-length",
        "seams/stations-do-not-meet",
        "seams/ease-not-as-stated",
        "seams/fullness-not-as-stated",
        "sleeves/cap-ease",
        "sleeves/unequal-below-notches",
    ]
)
"""The rules by which the lengths of a seam's sides are judged."""

_HOW = "How much longer (+) or shorter (−) the side named first is, in {unit}; where it is gathered or stretched, how many times as long."

_UNITS = {"mm": "mm", "cm": "cm", "in": "inches"}
_SHOWN_ALIKE = 0.01


def differences(subject: Subject, nest: Nest) -> Section:
    """A row for every further side of every seam, a column for every size."""
    rows = [
        [
            _heading(subject, walk, other),
            *(_cell(subject, nest, walk, other, k) for k in range(len(nest.sizes))),
        ]
        for walk in nest.walks.values()
        for other in walk.others
    ]
    heads = ["Seam", *(subject.named(size) if size is not None else "difference" for size in nest.sizes)]
    body = wide(table(heads, rows), "Differences by seam and size") if rows else ""
    how = _HOW.format(unit=_UNITS[subject.names.unit])
    return Section(
        "differences", "Every seam in every size", el("p", words(how), kind="how") + body if body else ""
    )


def _heading(subject: Subject, walk: Walk, other: Comparison) -> str:
    one, further = side_names(other.one, other.side)
    against = f"{subject.named(further)} against {subject.named(one)}{words(_wanted(subject, other))}"
    return f"{subject.seam_link(walk.id)} <small>{against}</small>"


def _wanted(subject: Subject, other: Comparison) -> str:
    """What the join asks for, in the size that is drafted."""
    if other.is_plain:
        return ""
    if other.wanted is None:
        return f", {other.kind}"
    sizes = subject.pattern.sizes
    at = sizes.names.index(sizes.base) if sizes is not None else 0
    least, most = float(other.wanted.least[at]), float(other.wanted.most[at])
    if not (math.isfinite(least) and math.isfinite(most)):
        return f", {other.kind}"
    of = Ratio if other.wanted.unit == "ratio" else Length
    said = worded("{least:bare} to {most:bare}", {"least": of(least), "most": of(most)}, subject.names.unit)
    return f", {other.kind}: {said} wanted"


def _cell(subject: Subject, nest: Nest, walk: Walk, other: Comparison, size: int) -> str:
    if walk.id in nest.wrong_way:
        return _marked("wrong way", subject.severity_of(walk.id))
    told = list(_judgements(subject, nest, walk, other, size))
    worst = max((severity for severity, _ in told), default=None)
    accepted = any(graded.accepted is not None for _, graded in told)
    shown = _shown(subject, other, size)
    if any(graded.rule.id == "seams/stations-do-not-meet" for _, graded in told):
        shown += " in all"
    if accepted:
        return words(f"{shown} accepted")
    return _marked(shown, worst)


def _marked(shown: str, severity: Severity | None) -> str:
    """Out of tolerance in words and with a sign, so that it needs no colour."""
    if severity is None:
        return words(shown)
    return el("strong", words(f"{shown} "), sign(severity), words(" off"), kind="bad")


def _judgements(
    subject: Subject, nest: Nest, walk: Walk, other: Comparison, size: int
) -> Iterator[tuple[Severity, Graded]]:
    """What is said above info of the lengths of one side in one size."""
    for graded in subject.concerning(walk.id):
        ours = len(walk.others) == 1 or set(graded.finding.pieces) == set(other.pieces)
        if graded.rule.id in _OF_LENGTH and (ours or graded.finding.place.seam != walk.id):
            for row in graded.rows:
                if row.row.size == nest.sizes[size] and row.severity >= Severity.WARNING:
                    yield row.severity, graded


def _shown(subject: Subject, other: Comparison, size: int) -> str:
    if not other.is_plain and other.kind in ("gathered", "stretched"):
        return _times(subject, other, size)
    unit = subject.names.unit
    parts = other.intervals if other.is_plain else other.full
    one, further = (float(np.sum([getattr(i, side)[size] for i in parts])) for side in ("one", "other"))
    # The difference itself, as its picture and its finding say it, and not that of two rounded lengths, which are not shown here.
    by = rounded(further - one, unit)
    if not math.isfinite(by):
        return NOT_THERE
    if abs(by) < _SHOWN_ALIKE:
        return "same"
    return f"{'+' if by > 0 else '−'}{length_text(abs(by), unit)}"


def _times(subject: Subject, other: Comparison, size: int) -> str:
    """How many times as long: the least and the most of all intervals that are gathered."""
    ratios = [float(interval.ratio[size]) for interval in other.full]
    known = [ratio for ratio in ratios if math.isfinite(ratio)]
    if not known:
        return NOT_THERE
    least, most = (worded("{times}", {"times": Ratio(ratio)}) for ratio in (min(known), max(known)))
    return f"× {least}" if least == most else f"× {least}–{most}"
