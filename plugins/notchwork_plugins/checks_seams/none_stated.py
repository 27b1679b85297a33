"""A pattern that says nothing about its seams."""

from __future__ import annotations

from collections.abc import Iterator

from notchwork.checks import check
from notchwork.findings import Finding, Place, Rule, Severity
from notchwork.sewing import Nest
from notchwork.sewing.counts.gaps import seams_are_unknown

NONE_STATED = Rule(
    id="seams/none-stated",
    title="No seams are stated",
    rationale="Whether pieces sew together can only be said once it is stated which edges meet. A drawing shows no such thing "
    "unless labels are written beside its edges. Of pieces that are finished all round nothing is missing, and of a single one that is so but for an edge, that edge is.",
    source="The program's own; no outside source.",
    grade=Severity.WARNING,
)

TEXT = "No seams are stated, so nothing can be said about whether the pieces sew together."
HINT = (
    "State which edges meet under “seams”; {first} could be the first. On a drawing, write one letter, such as A, beside both "
    "edges of a seam; or write the drawing out in the open format (convert) and state them there."
)


@check(NONE_STATED)
def none_stated(nest: Nest) -> Iterator[Finding]:
    if not seams_are_unknown(nest):
        return
    due = [
        (account.graded, edge)
        for account in nest.accounts.values()
        if not account.exempt
        for edge in account.graded.edges
        if account.must_be_taken(edge)
    ]
    if due:
        piece, edge = due[0]
        pieces = tuple(dict.fromkeys(graded.id for graded, _ in due))
        yield Finding(NONE_STATED, Place(), TEXT, HINT, {"first": f"{piece.id}.{edge}"}, pieces=pieces)
