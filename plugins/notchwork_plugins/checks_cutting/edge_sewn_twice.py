"""A stretch of an edge that several seams take, more often than there are copies of it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from notchwork.checks import check
from notchwork.findings import Finding, Length, Place, Row, Rule, Severity, plain_name
from notchwork.sewing import Nest
from notchwork.sewing.counts.accounts import Account, Interval
from notchwork.sewing.names import seam_name
from notchwork.sewing.pieces.graded import Bools
from notchwork.sewing.pieces.lines import Floats

SEWN_TWICE = Rule(
    id="cutting/edge-sewn-twice",
    title="Several seams take the same stretch of an edge",
    rationale="An edge that lies in a seam is used up. If a second seam takes the same stretch of it on the same copy, one of "
    "the two names the wrong edge, or is stated twice, or is sewn over the other (a lining along an armhole already sewn) and "
    "does not say so. Basted layers use nothing up.",
    source="Common practice, no source.",
    grade=Severity.ERROR,
)

TEXT = "{seams} take the same {length} of {edges}: there it is sewn {times}, but {cut}."
HINT = (
    "If one seam names the wrong edge or is stated twice, mend that; if it is sewn over the other, "
    "say so in its “over”"
)
OR_HALF = "; if {whole} belongs to one half of the garment only, say so in its “half”"


@dataclass(frozen=True, slots=True, eq=False)
class _Clash:
    """An interval that ``seams`` take ``times`` over where ``cut`` would do, in the sizes ``where``."""

    interval: Interval
    seams: frozenset[str]
    times: Floats
    cut: Floats
    where: Bools


@check(SEWN_TWICE)
def edge_sewn_twice(nest: Nest) -> Iterator[Finding]:
    by_seams: dict[frozenset[str], list[_Clash]] = {}
    lacking = {lack.seam for lack in nest.lacks.values()}
    for account in nest.accounts.values():
        for clash in _clashes(account):
            if not clash.seams & lacking:  # a seam for which no copies suffice is stated too often itself
                by_seams.setdefault(clash.seams, []).append(clash)
    order = {ident: k for k, ident in enumerate(nest.pattern.seams)}
    for seams, clashes in by_seams.items():
        yield _finding(nest, sorted(seams, key=order.__getitem__), clashes)


def _clashes(account: Account) -> Iterator[_Clash]:
    for edge in account.graded.edges:
        written = account.graded.written.edges.get(edge)
        if written is not None and written.finish is not None and written.finish.kind == "caught":
            continue
        for interval in account.intervals(edge):
            for hand in account.hands:
                seams = interval.using_up(hand)
                if len(seams) > 1:
                    clash = _clash(account, interval, hand, frozenset(seams))
                    if clash is not None:
                        yield clash
                        break


def _clash(account: Account, interval: Interval, hand: bool | None, seams: frozenset[str]) -> _Clash | None:
    """A clash, unless so many copies are needed for a single seam anyway, or nobody knows how many are cut."""
    available = account.available(hand)
    if available is None:
        return None
    cut = np.maximum(available, account.needed(hand))
    times = _times(interval, hand)
    where = interval.there & (times > cut)
    return _Clash(interval, seams, times, cut, where) if bool(np.any(where)) else None


def _times(interval: Interval, hand: bool | None) -> Floats:
    """How often the interval is used up; of seams stated for the left and for the right half, the more frequent count."""
    stated = {"left": np.zeros_like(interval.low), "right": np.zeros_like(interval.low)}
    both = np.zeros_like(interval.low)
    for taken, where in interval.taken:
        use = taken.use
        if use.rests or use.kind != "seam" or hand not in (None, taken.other_hand):
            continue
        times = np.where(where, float(use.count), 0.0)
        if use.half in stated and use.half_stated:
            stated[use.half] = stated[use.half] + times
        else:
            both = both + times
    return both + np.maximum(stated["left"], stated["right"])


def _finding(nest: Nest, seams: list[str], clashes: list[_Clash]) -> Finding:
    first = clashes[0]
    lines = list(dict.fromkeys(clash.interval.line.key for clash in clashes))
    where = np.any([clash.where for clash in clashes], axis=0)
    both = [seam for seam in seams if nest.pattern.seams[seam].half is None]
    half_forgotten = len(both) == 1 and len(seams) == 2
    length = first.interval.high - first.interval.low
    rows = tuple(
        Row(
            size,
            measured=float(first.times[k]),
            expected=float(first.cut[k]),
            values={
                "length": Length(float(length[k])),
                "times": "twice" if first.times[k] == 2 else f"{int(first.times[k])} times",
                "cut": "there is only one copy"
                if first.cut[k] == 1
                else f"there are only {int(first.cut[k])} copies",
            },
        )
        for k, size in enumerate(nest.sizes)
        if where[k]
    )
    return Finding(
        SEWN_TWICE,
        Place(seam=seams[-1], piece=lines[0][0], line=lines[0][1]),
        TEXT,
        HINT + (OR_HALF if half_forgotten else "") + ".",
        {
            "seams": tuple(seam_name(nest.pattern, seam) for seam in seams),
            "whole": tuple(seam_name(nest.pattern, seam) for seam in both),
            "edges": tuple(f"{nest.pieces[piece].name} ({plain_name(line)})" for piece, line in lines),
        },
        rows,
        tuple(dict.fromkeys(piece for piece, _ in lines)),
    )
