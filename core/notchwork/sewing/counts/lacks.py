"""Lacks: seams that need more copies of a piece than are cut."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from notchwork.sewing.counts.accounts import Account, Interval
from notchwork.sewing.pieces.lines import Floats

if TYPE_CHECKING:
    from notchwork.sewing.nest import Nest


@dataclass(frozen=True, slots=True, eq=False)
class Lack:
    """What one ``seam`` needs of one interval in either hand, and how many copies are lacking (sizes)."""

    interval: Interval
    seam: str
    one: Floats
    other: Floats
    lacking: Floats


def lacks_of(nest: Nest) -> Mapping[str, Lack]:
    """By piece, what the seam needs that lacks most; nothing of pieces without a cut order.

    A seam that runs the wrong way takes copies of the wrong hand; that is its own fault.
    """
    found: dict[str, Lack] = {}
    for ident, account in nest.accounts.items():
        lacks = [lack for lack in _lacks(account) if lack.seam not in nest.wrong_way]
        if lacks:
            found[ident] = max(lacks, key=lambda lack: float(np.max(lack.lacking)))
    return found


def _lacks(account: Account) -> Iterator[Lack]:
    if account.cut is None:
        return
    for edge in account.graded.edges:
        for interval in account.intervals(edge):
            one, other = interval.seams(False), interval.seams(True)
            for seam in dict.fromkeys((*one, *other)):
                nothing = np.zeros_like(interval.low)
                need = (one.get(seam, nothing), other.get(seam, nothing))
                lacking = account.cut.lacking(*need)
                if bool(np.any(lacking > 0)):
                    yield Lack(interval, seam, *need, lacking)
