"""Of several copies alike one edge is sewn more often than another."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from notchwork.checks import check
from notchwork.findings import Count, Finding, Place, Row, Rule, Severity, plain_name
from notchwork.sewing import Nest
from notchwork.sewing.counts.accounts import Account
from notchwork.sewing.pieces.graded import Bools
from notchwork.sewing.pieces.lines import Floats

MISSING = Rule(
    id="cutting/seam-missing-on-some-copies",
    title="A seam is missing on some copies of a piece",
    rationale="Where more than two copies of one hand are cut (gores, layers of a flounce), each copy is sewn on all its edges. If "
    "one edge is sewn six times and another five, a seam is missing, or its “times” or “layers” is too small. An opening "
    "counts: the gore beside a zip is taken by the zip.",
    source="Common practice, no source.",
    grade=Severity.WARNING,
)

TEXT = "Its {most} is sewn {often} times, its {least} only {seldom} times."
HINT = "State the missing seam of {least}, or put its “times” or “layers” right."


@check(MISSING)
def seam_missing_on_some_copies(nest: Nest) -> Iterator[Finding]:
    for ident, account in nest.accounts.items():
        if account.exempt or account.cut is None or ident in nest.lacks:
            continue
        several = account.cut.of_one_hand > 2
        if bool(np.any(several)):
            finding = _finding(nest, account, several)
            if finding is not None:
                yield finding


def _finding(nest: Nest, account: Account, several: Bools) -> Finding | None:
    for hand in account.hands:
        sewn = {edge: _peak(account, edge, hand, resting=False, kind="seam") for edge in account.graded.edges}
        taken = {edge: _peak(account, edge, hand, resting=True, kind=None) for edge in sewn}
        opened = {edge: _peak(account, edge, hand, resting=True, kind="opening") for edge in sewn}
        all_opened = np.sum(list(opened.values()), axis=0)
        # An opening stated by its sections has a second lip that is not written down, on whichever other edge it is.
        have = {edge: taken[edge] + all_opened - opened[edge] for edge in sewn}
        pairs = [
            (a, b)
            for a in sewn
            for b in sewn
            if bool(np.any(taken[b] > opened[b])) and bool(np.any(several & (sewn[a] > have[b])))
        ]
        if pairs:
            most, least = max(pairs, key=lambda pair: float(np.max(sewn[pair[0]] - have[pair[1]])))
            rows = tuple(
                Row(
                    size,
                    measured=float(taken[least][k]),
                    expected=float(sewn[most][k]),
                    values={"often": Count(int(sewn[most][k])), "seldom": Count(int(taken[least][k]))},
                )
                for k, size in enumerate(nest.sizes)
                if several[k] and sewn[most][k] > have[least][k]
            )
            return Finding(
                MISSING,
                Place(piece=account.graded.id, line=least),
                TEXT,
                HINT,
                {"most": plain_name(most), "least": plain_name(least)},
                rows,
                (account.graded.id,),
            )
    return None


def _peak(account: Account, edge: str, hand: bool | None, resting: bool, kind: str | None) -> Floats:
    counts = [interval.times(hand, resting, kind) for interval in account.intervals(edge)]
    return np.max(counts, axis=0) if counts else np.zeros(len(account.graded.sizes))
