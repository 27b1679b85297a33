"""Clashes: stretches of edges that several seams take, more often than there are copies of them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from notchwork.sewing.counts.accounts import Account, Interval
from notchwork.sewing.pieces.graded import Bools
from notchwork.sewing.pieces.lines import Floats

if TYPE_CHECKING:
    from notchwork.sewing.nest import Nest


@dataclass(frozen=True, slots=True, eq=False)
class Clash:
    """An interval that ``seams`` take ``times`` over where ``cut`` would do, in the sizes ``where``."""

    interval: Interval
    seams: frozenset[str]
    times: Floats
    cut: Floats
    where: Bools


def clashes_of(nest: Nest) -> Iterator[Clash]:
    """Every clash, in the pattern's order; none of a seam for which no copies suffice: that is stated too often itself."""
    lacking = {lack.seam for lack in nest.lacks.values()}
    for account in nest.accounts.values():
        yield from (clash for clash in _clashes(account) if not clash.seams & lacking)


def _clashes(account: Account) -> Iterator[Clash]:
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


def _clash(account: Account, interval: Interval, hand: bool | None, seams: frozenset[str]) -> Clash | None:
    """A clash, unless so many copies are needed for a single seam anyway, or nobody knows how many are cut."""
    available = account.available(hand)
    if available is None:
        return None
    cut = np.maximum(available, account.needed(hand))
    times = _times(interval, hand)
    where = interval.there & (times > cut)
    return Clash(interval, seams, times, cut, where) if bool(np.any(where)) else None


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
