"""A stretch of an edge that nothing is stated of."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from notchwork.checks import check
from notchwork.findings import Finding, Length, Place, Row, Rule, Tolerance, plain_name
from notchwork.sewing import Nest
from notchwork.sewing.accounts import Account, Interval
from notchwork.sewing.lines import Floats, Line
from notchwork.sewing.pieces import Bools
from notchwork.sewing.whereabouts import where_along

UNACCOUNTED = Rule(
    id="cutting/edge-unaccounted",
    title="Nothing is stated of an edge, or of a part of it",
    rationale="Every edge of a piece ends up in a seam, in an opening, on a fold, or is finished: hemmed, bound, faced, "
    "turned into a casing, or left raw on purpose. What none of these takes has been forgotten, and so has the allowance it "
    "needs. A millimetre is less than a stitch and is let pass.",
    source="Common practice, no source.",
    grade=Tolerance(warning=1.0),
)

WHOLE_PIECE = "No seam, opening, fold or finish takes any of its edges ({edges})."
WHOLE = "No seam, opening, fold or finish takes its {edge} ({gap})."
PART = "No seam, opening, fold or finish takes {gap} of its {edge}, from START to STOP."
HALF = " In the other half it is taken."
HINT = "State the seam that sews it, or its finish (hem, bound, faced, casing, overcast, raw)."


@dataclass(frozen=True, slots=True, eq=False)
class _Gap:
    """From ``low`` to ``high`` nothing takes a line, where ``bare`` (sizes,); of one hand, or of both (None)."""

    line: Line
    low: Floats
    high: Floats
    bare: Bools
    hand: bool | None


@check(UNACCOUNTED)
def edge_unaccounted(nest: Nest) -> Iterator[Finding]:
    if not nest.pattern.seams:
        return
    for account in nest.accounts.values():
        if account.exempt:
            continue
        due = [edge for edge in account.graded.edges if account.must_be_taken(edge)]
        if not account.uses and len(due) > 1:
            yield _forgotten_piece(nest, account, due)
            continue
        for edge in due:
            for gap in _merged([g for hand in account.hands for g in _gaps(account, edge, hand)]):
                yield _finding(nest, account, gap)


def _gaps(account: Account, edge: str, hand: bool | None) -> Iterator[_Gap]:
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


def _gap(run: list[tuple[Interval, Bools]], hand: bool | None) -> _Gap:
    (first, _), (last, _) = run[0], run[-1]
    bare = np.any([bare for _, bare in run], axis=0)
    return _Gap(first.line, first.low, last.high, bare, hand)


def _in_an_intake(interval: Interval) -> Bools:
    """The sizes in which the interval lies in a dart's mouth or a pleat: that takes it."""
    middle = (interval.low + interval.high) / 2.0
    inside = np.zeros(middle.shape, dtype=bool)
    for intake in interval.line.intakes:
        inside |= (intake.low < middle) & (middle < intake.high)
    return inside


def _merged(gaps: list[_Gap]) -> list[_Gap]:
    """What is left over alike in both hands is one gap."""
    kept: list[_Gap] = []
    for gap in gaps:
        twin = next((k for k, other in enumerate(kept) if _same(gap, other)), None)
        if twin is None:
            kept.append(gap)
        else:
            kept[twin] = _Gap(gap.line, gap.low, gap.high, gap.bare | kept[twin].bare, None)
    return kept


def _same(a: _Gap, b: _Gap) -> bool:
    return bool(np.allclose(a.low, b.low, equal_nan=True) and np.allclose(a.high, b.high, equal_nan=True))


def _finding(nest: Nest, account: Account, gap: _Gap) -> Finding:
    length = np.where(gap.bare, gap.high - gap.low, np.where(np.isfinite(gap.line.length), 0.0, np.nan))
    worst = int(np.nanargmax(length))
    whole = bool(np.all((length == 0) | (np.abs(length - gap.line.length) < 1.0) | np.isnan(length)))
    values: dict[str, object] = {"edge": plain_name(gap.line.name)}
    text = WHOLE
    if not whole:
        start, start_values = where_along(nest, gap.line, gap.low, worst, "start")
        stop, stop_values = where_along(nest, gap.line, gap.high, worst, "stop")
        text = PART.replace("START", start).replace("STOP", stop)
        values |= start_values | stop_values
    if gap.hand is not None:
        text += HALF
    rows = tuple(
        Row(size, by, by, 0.0, {"gap": Length(by)})
        for size, by in zip(nest.sizes, length.tolist(), strict=True)
    )
    return Finding(
        UNACCOUNTED,
        Place(piece=account.graded.id, line=gap.line.name, point=_middle(nest, gap, worst)),
        text,
        HINT,
        values,
        rows,
        (account.graded.id,),
        tape=gap.line.by_tape,
    )


def _middle(nest: Nest, gap: _Gap, size: int) -> complex | None:
    return None if gap.line.by_tape else nest.point(gap.line, (gap.low + gap.high) / 2.0, size)


def _forgotten_piece(nest: Nest, account: Account, due: list[str]) -> Finding:
    lines = [account.graded.lines[edge] for edge in due]
    total = np.sum([line.length for line in lines], axis=0).tolist()
    return Finding(
        UNACCOUNTED,
        Place(piece=account.graded.id),
        WHOLE_PIECE,
        "State the seams that sew it and the finishes of its other edges, or mark it as a template or guide.",
        {"edges": tuple(plain_name(edge) for edge in due)},
        tuple(Row(size, by, by, 0.0) for size, by in zip(nest.sizes, total, strict=True)),
        (account.graded.id,),
    )
