"""An edge that grows from one size to the next and shrinks again, or the other way round."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from notchwork.checks import check
from notchwork.findings import Finding, Length, Place, Row, Rule, Tolerance, plain_name
from notchwork.sewing import GradedPiece, Line, Nest
from notchwork.sewing.pieces.lines import Floats

TURNS_BACK = Rule(
    id="sizes/grows-then-shrinks",
    title="An edge grows from size to size and then shrinks",
    rationale="In one ordered run of sizes an edge grows all the way, shrinks all the way, or stays as it is. One that turns back "
    "has usually been given a wrong grade rule at one of its ends, even where the seam still matches.",
    source="Common practice, no source; the step is the 1/16 in (1.6 mm) to which seams are kept.",
    grade=Tolerance(warning=1.6),
)

TEXT = "Its {edge} {first} from {low} to {middle} ({before} to {at}), but {then} from {middle} to {high} ({at} to {after})."
HINT = "Look at the grade rules at both ends of its {edge} in {middle}."


@check(TURNS_BACK)
def grows_then_shrinks(nest: Nest) -> Iterator[Finding]:
    sizes = nest.pattern.sizes
    if sizes is None or not sizes.ordered or len(sizes.names) < 3:
        return
    for piece in nest.pieces.values():
        turns = [
            (turn, piece.lines[edge])
            for edge in piece.edges
            if (turn := _turn(piece.lines[edge].sewn_length))
        ]
        if turns:
            turns.sort(key=lambda pair: -pair[0][0])
            yield _finding(nest, piece, turns)


_Turn = tuple[float, int, int, int]
"""By how much (mm) a run of lengths turns back, and the sizes before, at and after the turn."""


def _turn(length: Floats) -> _Turn | None:
    """The worst turn in a run of lengths: the smaller of what it rises and falls by on either side of a size."""
    there = np.flatnonzero(np.isfinite(length))
    steps = np.diff(length[there])
    if bool(np.all(steps >= 0)) or bool(np.all(steps <= 0)):
        return None
    best: _Turn | None = None
    for middle in there[1:-1]:
        before, after = there[there < middle], there[there > middle]
        for sign in (1.0, -1.0):
            rise, fall = sign * (length[middle] - length[before]), sign * (length[middle] - length[after])
            by = min(float(np.max(rise)), float(np.max(fall)))
            if by > 0 and (best is None or by > best[0] + 1e-9):
                best = (by, int(before[np.argmax(rise)]), int(middle), int(after[np.argmax(fall)]))
    return best if best is not None and best[0] > 1e-6 else None


def _finding(nest: Nest, piece: GradedPiece, turns: list[tuple[_Turn, Line]]) -> Finding:
    (by, low, middle, high), line = turns[0]
    length = line.sewn_length
    grows = length[middle] > length[low]
    names = [str(size) for size in nest.sizes]
    values = {
        "edge": plain_name(line.name),
        "first": "grows" if grows else "shrinks",
        "then": "shrinks" if grows else "grows",
        "low": names[low],
        "middle": names[middle],
        "high": names[high],
        "before": Length(float(length[low])),
        "at": Length(float(length[middle])),
        "after": Length(float(length[high])),
    }
    return Finding(
        TURNS_BACK,
        Place(piece=piece.id, line=line.name),
        TEXT,
        HINT,
        values,
        (Row(nest.sizes[middle], by, float(length[middle]), float(length[low])),),
        (piece.id,),
        tuple(Place(piece=piece.id, line=other.name) for turn, other in turns[1:] if turn[0] > 1.6),
        tape=line.by_tape,
    )
