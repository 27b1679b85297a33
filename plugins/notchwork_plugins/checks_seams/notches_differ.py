"""The sides of a seam do not have the same notches."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from notchwork.checks import check
from notchwork.checks.walk_words import side_pair
from notchwork.findings import Finding, Place, Rule, Severity, listed, plain_name
from notchwork.sewing import Comparison, MarkOnSide, Nest, Walk
from notchwork.sewing.walks.marks import NOTCH_KINDS

DIFFER = Rule(
    id="seams/notches-differ",
    title="The two sides of a seam have different notches",
    rationale="Notches are there to be laid on each other: the first on the first, single on single, double on double. One "
    "that has no partner leaves the sewer guessing. A side without any notch is no fault.",
    source="Single notch in front, matching double notch behind: L. McConnell, patternmaking textbook, ch. Sleeves "
    "(abstract).",
    quiet="about a side without any notch (further sides are then compared with the first that has one), "
    "about notches that only mark a place, and about the two halves of one notch on a fold.",
    grade=Severity.WARNING,
)

TEXT = "{one} has {these} where {other} has {those}."
HINT = "Add the missing notch, take out the odd one, or state what each is to meet."


@check(DIFFER)
def notches_differ(nest: Nest) -> Iterator[Finding]:
    for walk in nest.walks.values():
        if walk.id in nest.wrong_way:
            continue
        for comparison in walk.by_notches or walk.others:
            if comparison.pairing.unequal:
                yield _finding(walk, comparison)


def _finding(walk: Walk, comparison: Comparison) -> Finding:
    unequal = comparison.pairing.unequal
    these = [mark for _, marks, _ in unequal for mark in marks]
    those = [mark for _, _, marks in unequal for mark in marks]
    name, other_name = side_pair(comparison)
    first = (these or those)[0]
    values = {"one": name, "other": other_name, "these": _told(these), "those": _told(those)}
    place = Place(seam=walk.id, piece=first.piece, notch=first.name)
    return Finding(DIFFER, place, TEXT, HINT, values, pieces=comparison.pieces)


def _told(marks: list[MarkOnSide]) -> str:
    """ "2 single notches (waist and hip)", or "none such"."""
    if not marks:
        return "none such"
    counts = Counter(mark.kind for mark in marks)
    parts = []
    for kind in NOTCH_KINDS:
        if counts[kind]:
            names = listed(plain_name(mark.name) for mark in marks if mark.kind == kind)
            parts.append(f"{counts[kind]} {kind} {'notch' if counts[kind] == 1 else 'notches'} ({names})")
    return listed(parts)
