"""Gaps: stretches of edges that no seam, opening, fold or finish takes."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from notchwork.sewing.counts.accounts import NOTHING, Account, Interval
from notchwork.sewing.counts.openings import left_by_a_short_layer
from notchwork.sewing.pieces.graded import Bools
from notchwork.sewing.pieces.lines import Floats, Line

if TYPE_CHECKING:
    from notchwork.sewing.nest import Nest


@dataclass(frozen=True, slots=True, eq=False)
class Gap:
    """From ``low`` to ``high`` (mm, sizes) nothing takes a line, where ``bare`` (sizes,); of one hand, or of both (None)."""

    line: Line
    low: Floats
    high: Floats
    bare: Bools
    hand: bool | None

    @property
    def length(self) -> Floats:
        """mm of the outline in every size: 0 where the stretch is taken, NaN where the piece does not exist."""
        nothing = np.where(np.isfinite(self.line.length), 0.0, np.nan)
        return np.where(self.bare, self.high - self.low, nothing)

    @property
    def sewn_length(self) -> Floats:
        """mm that a seam along it would sew, in every size."""
        nothing = np.where(np.isfinite(self.line.length), 0.0, np.nan)
        return np.where(self.bare, self.line.sewn(self.high) - self.line.sewn(self.low), nothing)

    @property
    def whole(self) -> bool:
        """Whether it is all of the edge, in every size in which there is a gap."""
        length = self.length
        return bool(np.all((length == 0) | (np.abs(length - self.line.length) < 1.0) | np.isnan(length)))


def gaps_of(nest: Nest) -> tuple[Gap, ...]:
    """Every stretch that must be taken and is not, in the pattern's order.

    None of pieces that nothing sews at all, and not what an opening leaves open because one of its layers stops short.
    """
    return tuple(
        gap
        for account in nest.accounts.values()
        if not account.exempt and not left_out(account)
        for edge in account.graded.edges
        if account.must_be_taken(edge)
        for gap in _merged([g for hand in account.hands for g in _gaps(account, edge, hand)])
        if not left_by_a_short_layer(nest, gap)
    )


def left_out(account: Account) -> bool:
    """Whether no seam and no opening takes a piece, though several of its edges need one."""
    due = [edge for edge in account.graded.edges if account.must_be_taken(edge)]
    return not account.uses and len(due) > 1


def seams_are_unknown(nest: Nest) -> bool:
    """Whether nothing is said of how the pieces are sewn, so that no edge is left over either.

    A single piece most of whose edges are finished or folded (a scarf, a bib) says all there is to say.
    """
    if nest.pattern.seams:
        return False
    accounts = [account for account in nest.accounts.values() if not account.exempt]
    due = [[e for e in account.graded.edges if account.must_be_taken(e)] for account in accounts]
    left = [(edges, account) for edges, account in zip(due, accounts, strict=True) if edges]
    return not (len(left) == 1 and 2 * len(left[0][0]) <= len(left[0][1].graded.edges))


def _gaps(account: Account, edge: str, hand: bool | None) -> Iterator[Gap]:
    """The runs of intervals that nothing takes."""
    run: list[tuple[Interval, Bools]] = []
    for interval in account.intervals(edge):
        bare = interval.there & (interval.times(hand) == 0) & ~_in_an_intake(interval)
        if bool(np.any(bare)):
            run.append((interval, bare))
        elif bool(np.any(interval.there)) and run:
            yield _gap(run, hand)
            run = []
    if run:
        yield _gap(run, hand)


def _gap(run: list[tuple[Interval, Bools]], hand: bool | None) -> Gap:
    (first, _), (last, _) = run[0], run[-1]
    bare = np.any([bare for _, bare in run], axis=0)
    return Gap(first.line, first.low, last.high, bare, hand)


def _in_an_intake(interval: Interval) -> Bools:
    """The sizes in which the interval lies in a dart's mouth or a pleat, all of it but a millimetre: that takes it."""
    inside = np.zeros(interval.low.shape, dtype=bool)
    for intake in interval.line.intakes:
        inside |= (interval.low > intake.low - NOTHING) & (interval.high < intake.high + NOTHING)
    return inside


def _merged(gaps: list[Gap]) -> list[Gap]:
    """What is left over alike in both hands is one gap."""
    kept: list[Gap] = []
    for gap in gaps:
        twin = next((k for k, other in enumerate(kept) if _same(gap, other)), None)
        if twin is None:
            kept.append(gap)
        else:
            kept[twin] = Gap(gap.line, gap.low, gap.high, gap.bare | kept[twin].bare, None)
    return kept


def _same(a: Gap, b: Gap) -> bool:
    return bool(np.allclose(a.low, b.low, equal_nan=True) and np.allclose(a.high, b.high, equal_nan=True))
