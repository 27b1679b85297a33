"""A piece is cut less often than its seams sew it."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from notchwork.checks import check
from notchwork.findings import Count, Finding, Place, Row, Rule, Severity, plain_name
from notchwork.sewing import Nest
from notchwork.sewing.counts.accounts import Account
from notchwork.sewing.counts.copies import halves_drawn
from notchwork.sewing.counts.lacks import Lack
from notchwork.sewing.names import edge_name, seam_name

LACKING = Rule(
    id="cutting/copies-do-not-suffice",
    title="Fewer copies are cut than are sewn",
    rationale="A seam is stated once and sewn on both halves of the garment, so a sleeve is needed twice, once in each hand. "
    "“mirrored” cuts half of its count in each hand; a copy on a fold gives one half of each; otherwise all copies are alike. "
    "A piece that falls on itself when it is turned over, or of a cloth without a right side, serves for either hand. Spare "
    "copies are fine. Where each copy would do if a straight bare edge lay on the fold, half of the piece is drawn.",
    source="Common practice, no source.",
    grade=Severity.ERROR,
)

TEXT = "{needed} of it {are} sewn at {edge} ({seam}), but only {cut}."
HANDED = "{one} as drawn and {other} mirrored are sewn at {edge} ({seam}), but {cut_one} as drawn and {cut_other} mirrored."
HINT = "Cut {needed}{pairs}"
HANDED_HINT = "Cut it “mirrored”, so many in pairs"
OR_HALF = "; or, if {seam} belongs to one half of the garment only, say so in its “half”"

IN_BOTH = "Its seams need it in both hands, but it is cut in one hand only ({cut})."
IN_BOTH_HINT = "Cut it “mirrored”: one copy as drawn and one turned over make a pair."
IN_OTHER = "Its seams need its mirror image, but it is cut as drawn ({cut})."
IN_OTHER_HINT = "State “hand”: “mirrored” in its cut order, or draw it the other way round."

HALF = (
    "Half of it seems to be drawn: its seams need both halves, and nothing says what becomes of its {edge}."
)
HALF_HINT = "Say “fold” for its {edge}; or cut it in pairs (“mirrored”) and state the seam or the finish of its {edge}."


@check(LACKING)
def copies_do_not_suffice(nest: Nest) -> Iterator[Finding]:
    for ident, edge in nest.half_drawn.items():
        values: dict[str, object] = {"edge": plain_name(edge)}
        yield Finding(LACKING, Place(piece=ident, line=edge), HALF, HALF_HINT, values, pieces=(ident,))
    for ident, account in nest.accounts.items():
        if account.cut is None:
            continue
        if ident in nest.lacks:
            yield _finding(nest, account, nest.lacks[ident])
        elif ident in nest.wrongly_cut:
            yield _wrongly_cut(nest, account)


def _finding(nest: Nest, account: Account, lack: Lack) -> Finding:
    cut = account.cut
    assert cut is not None
    enough = bool(np.all((lack.one + lack.other <= cut.total) | (lack.lacking == 0)))
    folded = halves_drawn(nest, account.graded)
    needed, there = lack.one + lack.other, cut.total
    either = cut.either > 0
    if folded:  # a copy on the fold is both hands
        needed = np.ceil(np.maximum(needed / 2, np.maximum(lack.one, lack.other) * ~either) / folded)
        there = there / 2 / folded
    rows = tuple(
        Row(
            size,
            measured=float(there[k]),
            expected=float(needed[k]),
            values={
                "needed": _copies(needed[k]),
                "are": _are(needed[k]),
                "cut": f"{_copies(there[k])} {_are(there[k])} cut",
                "one": _copies(lack.one[k]),
                "other": Count(int(lack.other[k])),
                "cut_one": f"{_copies(cut.as_drawn[k] + cut.either[k])} {_are(cut.as_drawn[k] + cut.either[k])} cut",
                "cut_other": Count(int(cut.mirrored[k])),
            },
        )
        for k, size in enumerate(nest.sizes)
        if lack.lacking[k] > 0
    )
    in_pairs = not folded and bool(np.any(lack.one > 0)) and bool(np.any(lack.other > 0))
    hint = HANDED_HINT if enough and not folded else HINT
    return Finding(
        LACKING,
        Place(piece=account.graded.id, line=lack.interval.line.name),
        HANDED if enough and not folded else TEXT,
        hint + (OR_HALF if len(nest.sewn[lack.seam].passes) > 1 else "") + ".",
        {
            "seam": seam_name(nest.pattern, lack.seam),
            "edge": edge_name(lack.interval.line.name),
            "pairs": ", half of them mirrored" if in_pairs or account.graded.id in nest.wrongly_cut else "",
        },
        rows,
        (account.graded.id,),
    )


def _wrongly_cut(nest: Nest, account: Account) -> Finding:
    assert account.cut is not None
    both = nest.wrongly_cut[account.graded.id] == "both"
    rows = tuple(
        Row(size, measured=count, values={"cut": _copies(count)})
        for size, count in zip(nest.sizes, account.cut.total.tolist(), strict=True)
    )
    return Finding(
        LACKING,
        Place(piece=account.graded.id),
        IN_BOTH if both else IN_OTHER,
        IN_BOTH_HINT if both else IN_OTHER_HINT,
        rows=rows,
        pieces=(account.graded.id,),
    )


def _copies(count: float) -> str:
    return "1 copy" if int(count) == 1 else f"{int(count)} copies"


def _are(count: float) -> str:
    return "is" if int(count) == 1 else "are"
