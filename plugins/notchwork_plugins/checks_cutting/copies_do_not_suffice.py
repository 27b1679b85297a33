"""A piece is cut less often than its seams sew it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from notchwork.checks import check
from notchwork.findings import Count, Finding, Place, Row, Rule, Severity, plain_name
from notchwork.sewing import Nest
from notchwork.sewing.accounts import Account, Interval
from notchwork.sewing.lines import Floats
from notchwork.sewing.names import seam_name

LACKING = Rule(
    id="cutting/copies-do-not-suffice",
    title="Fewer copies are cut than are sewn",
    rationale="A seam is stated once and sewn on both halves of the garment, so a sleeve is needed twice, once in each hand. "
    "“mirrored” cuts half of its count in each hand; a copy on a fold gives one half of each; otherwise all copies are alike. "
    "A piece that falls on itself when it is turned over, or of a cloth without a right side, serves for either hand. Spare "
    "copies are fine.",
    source="Common practice, no source.",
    grade=Severity.ERROR,
)

TEXT = "{by} its {edge} {times} in all, but it is cut only {copies}."
HANDED = "{by} its {edge} on {need_one} and {need_other} of the other hand, but it is cut {cut_one} and {cut_other} mirrored."
HINT = "Cut more of it, or, where the seam belongs to one half of the garment only, say so in its “half”."
HANDED_HINT = "Cut it “mirrored” (so many in pairs), or, where the seam belongs to one half of the garment only, say so in its “half”."


@dataclass(frozen=True, slots=True, eq=False)
class _Lack:
    """What one ``seam`` needs of one interval in either hand, and how many copies are lacking (sizes)."""

    interval: Interval
    seam: str
    one: Floats
    other: Floats
    lacking: Floats


@check(LACKING)
def copies_do_not_suffice(nest: Nest) -> Iterator[Finding]:
    for account in nest.accounts.values():
        if account.cut is None:
            continue
        lacks = [lack for lack in _lacks(account) if bool(np.any(lack.lacking > 0))]
        if lacks:
            yield _finding(nest, account, max(lacks, key=lambda lack: float(np.max(lack.lacking))))


def _lacks(account: Account) -> Iterator[_Lack]:
    assert account.cut is not None
    for edge in account.graded.edges:
        for interval in account.intervals(edge):
            one, other = interval.seams(False), interval.seams(True)
            for seam in one.keys() | other.keys():
                nothing = np.zeros_like(interval.low)
                need = (one.get(seam, nothing), other.get(seam, nothing))
                yield _Lack(interval, seam, *need, account.cut.lacking(*need))


def _finding(nest: Nest, account: Account, lack: _Lack) -> Finding:
    cut = account.cut
    assert cut is not None
    enough = bool(np.all((lack.one + lack.other <= cut.total) | (lack.lacking == 0)))
    rows = tuple(
        Row(
            size,
            measured=float(cut.total[k]),
            expected=float(lack.one[k] + lack.other[k]),
            values={
                "times": _times(lack.one[k] + lack.other[k]),
                "copies": _times(cut.total[k]),
                "need_one": _copies(lack.one[k]),
                "need_other": Count(int(lack.other[k])),
                "cut_one": f"{_times(cut.as_drawn[k] + cut.either[k])} as drawn",
                "cut_other": Count(int(cut.mirrored[k])),
            },
        )
        for k, size in enumerate(nest.sizes)
        if lack.lacking[k] > 0
    )
    return Finding(
        LACKING,
        Place(piece=account.graded.id, line=lack.interval.line.name),
        HANDED if enough else TEXT,
        HANDED_HINT if enough else HINT,
        {
            "by": f"{seam_name(nest.pattern, lack.seam)} sews",
            "edge": plain_name(lack.interval.line.name),
        },
        rows,
        (account.graded.id,),
    )


def _times(count: float) -> str:
    words = {0: "not at all", 1: "once", 2: "twice"}
    return words.get(int(count), f"{int(count)} times")


def _copies(count: float) -> str:
    return "1 copy" if int(count) == 1 else f"{int(count)} copies"
