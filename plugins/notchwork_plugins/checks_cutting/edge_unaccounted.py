"""A stretch of an edge that nothing is stated of."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from notchwork.checks import check
from notchwork.findings import (
    Finding,
    Length,
    Phrase,
    Place,
    Row,
    Rule,
    Tolerance,
    plain_name,
)
from notchwork.sewing import Nest
from notchwork.sewing.counts.accounts import Account
from notchwork.sewing.counts.forgotten import Forgotten
from notchwork.sewing.counts.gaps import Gap, left_out, seams_are_unknown
from notchwork.sewing.names import seam_name
from notchwork.sewing.pieces.lines import Floats
from notchwork.sewing.pieces.whereabouts import where_along

UNACCOUNTED = Rule(
    id="cutting/edge-unaccounted",
    title="Nothing is stated of an edge, or of a part of it",
    rationale="Every edge of a piece ends up in a seam, in an opening, on a fold, or is finished: hemmed, bound, faced, "
    "turned into a casing, or left raw on purpose. What none of these takes has been forgotten, and so has the allowance it "
    "needs. Edges that belong to each other by their ends and lengths are told as the one seam that would join them. A "
    "millimetre is less than a stitch and is let pass.",
    source="Common practice, no source.",
    grade=Tolerance(warning=1.0),
)

WHOLE_PIECE = "No seam, opening, fold or finish takes any of its edges ({edges})."
WHOLE = "No seam, opening, fold or finish takes its {edge} ({gap})."
SEVERAL = "No seam, opening, fold or finish takes {edges}, {gap}."
PART = "No seam, opening, fold or finish takes {gap} of its {edge}"
SEAM = "No seam joins {sides}, {gap}."
HALF = " In the other half it is taken."
IN_HALF = " In the other half they are joined."
HINT = (
    "State the seam that sews it, or its finish (hem, bound, faced, casing, overcast, raw); on a drawing, write the seam's "
    "letter or the finish beside it."
)
JOIN = (
    "State that seam, or the finish of the edges (hem, bound, faced, casing, overcast, raw); on a drawing, write the seam's "
    "letter, such as A, or the finish beside each."
)
NEEDED = " {seams} cannot be sewn without it."

ALIKE = 0.5
"""mm: lengths that differ by less are given as one."""


@check(UNACCOUNTED)
def edge_unaccounted(nest: Nest) -> Iterator[Finding]:
    if seams_are_unknown(nest):
        return
    for account in nest.accounts.values():
        if not account.exempt and account.graded.written.cut and left_out(account):
            yield _forgotten_piece(nest, account)
    for forgotten in nest.forgotten:
        yield _finding(nest, forgotten)


def _finding(nest: Nest, forgotten: Forgotten) -> Finding:
    gaps = forgotten.gaps
    first = gaps[0]
    sides = forgotten.sides if len(forgotten.sides) > 1 else [[gap] for gap in gaps]
    lengths = np.array([np.sum([_length(gap, gaps) for gap in side], axis=0) for side in sides])
    worst = int(np.argmax(np.nan_to_num(first.length)))
    values: dict[str, object] = {}
    if len(forgotten.sides) > 1:
        text = SEAM
        values["sides"] = tuple(_side(nest, side, first, worst) for side in forgotten.sides)
    elif len(gaps) > 1:
        text = SEVERAL
        values["edges"] = tuple(_name(nest, gap, first, worst) for gap in gaps)
    elif first.whole:
        text = WHOLE
        values["edge"] = plain_name(first.line.name)
    else:
        between, places = _between(nest, first, worst)
        text = f"{PART},{between}."
        values |= {"edge": plain_name(first.line.name)} | places
    if all(gap.hand is not None for gap in gaps):
        text += HALF if len(forgotten.sides) == 1 else IN_HALF
    waiting = dict.fromkeys(joint.seam for joint in forgotten.joints if joint.seam is not None)
    if waiting:
        text += NEEDED
        values["seams"] = tuple(seam_name(nest.pattern, seam) for seam in waiting)
    return Finding(
        UNACCOUNTED,
        Place(piece=first.line.piece, line=first.line.name, point=_middle(nest, first, worst)),
        text,
        HINT if len(forgotten.sides) == 1 else JOIN,
        values,
        tuple(_row(size, of_each) for size, of_each in zip(nest.sizes, lengths.T.tolist(), strict=True)),
        tuple(dict.fromkeys(gap.line.piece for gap in gaps)),
        tape=first.line.by_tape,
    )


def _length(gap: Gap, gaps: Sequence[Gap]) -> Floats:
    """What a seam would sew, where several gaps are told; of one alone, what is left over of the outline."""
    return gap.sewn_length if len(gaps) > 1 else gap.length


def _row(size: str | None, of_each: list[float]) -> Row:
    there = [by for by in of_each if by == by]
    longest = max(there, default=np.nan)
    measures = tuple(Length(by) for by in there)
    alike = len(there) > 1 and longest - min(there) < ALIKE
    gap: object = Phrase("{each} each", {"each": measures[0]}) if alike else measures
    return Row(size, longest, longest, 0.0, {"gap": gap})


def _side(nest: Nest, side: Sequence[Gap], first: Gap, size: int) -> Phrase:
    """ "its armhole + Back (armhole)"."""
    names = {f"part{k}": _name(nest, gap, first, size) for k, gap in enumerate(side)}
    return Phrase(" + ".join(f"{{{key}}}" for key in names), names)


def _name(nest: Nest, gap: Gap, first: Gap, size: int) -> Phrase:
    """ "its side" of the piece that the finding is told of, else "Back (side)"; of a part, from where to where."""
    own = gap.line.piece == first.line.piece
    values: dict[str, object] = {
        "piece": nest.pieces[gap.line.piece].name,
        "edge": plain_name(gap.line.name),
    }
    text = "its {edge}" if own else "{piece} ({edge})"
    if not gap.whole:
        between, places = _between(nest, gap, size)
        text, values = text + between, values | places
    return Phrase(text, values)


def _between(nest: Nest, gap: Gap, size: int) -> tuple[str, dict[str, object]]:
    """ " from the zip end to the hem"."""
    start, start_values = where_along(nest, gap.line, gap.low, size, "start")
    stop, stop_values = where_along(nest, gap.line, gap.high, size, "stop")
    return f" from {start} to {stop}", start_values | stop_values


def _middle(nest: Nest, gap: Gap, size: int) -> complex | None:
    return None if gap.line.by_tape else nest.point(gap.line, (gap.low + gap.high) / 2.0, size)


def _forgotten_piece(nest: Nest, account: Account) -> Finding:
    due = [edge for edge in account.graded.edges if account.must_be_taken(edge)]
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
