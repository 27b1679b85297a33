"""What a pattern states of checks to no effect: findings accepted that do not occur, tolerances of no check."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from difflib import get_close_matches

from notchwork.checks.check import Check
from notchwork.checks.grade import Graded
from notchwork.document.pointers import pointer
from notchwork.findings import Finding, Place, Rule, Severity, Tolerance
from notchwork.model import Pattern

NO_MATCH = Rule(
    id="accepted/matches-nothing",
    title="An accepted finding does not occur",
    rationale="The pattern accepts a finding on purpose, with a reason, but no such finding is made any more. "
    "An acceptance that is left behind would hide the same fault when it comes back.",
    source="The program's own; no outside source.",
    grade=Severity.INFO,
)

NO_STEPS = Rule(
    id="tolerances/of-no-check",
    title="A tolerance is stated for a check that has none",
    rationale="The pattern states other limits for a check that is not there, or that has no limits. They have no effect: "
    "what they were meant for is judged by the usual ones, or not at all.",
    source="The program's own; no outside source.",
    grade=Severity.WARNING,
)


def without_effect(
    pattern: Pattern, graded: Iterable[Graded], ran: Sequence[Check], every: Sequence[Check]
) -> Iterator[Finding]:
    """One finding for each such statement. An acceptance of a check that was left out of this run is not judged."""
    known = {check.id: check for check in every}
    used = {id(finding.acceptance) for finding in graded if finding.acceptance is not None}
    left_out = set(known) - {check.id for check in ran}
    for index, acceptance in enumerate(pattern.accepted):
        if id(acceptance) not in used and acceptance.check not in left_out:
            place = Place(seam=acceptance.seam, piece=acceptance.piece, pointer=pointer("accepted", index))
            text = "{check} is accepted here (“{reason}”), but there is no such finding."
            yield _idle(NO_MATCH, place, text, acceptance.check, known, acceptance.reason)
    yield from _tolerances(pattern.tolerances, Place(), pointer("tolerances"), known)
    for ident, seam in pattern.seams.items():
        yield from _tolerances(
            seam.tolerances, Place(seam=ident), pointer("seams", ident, "tolerances"), known
        )


def _tolerances(
    stated: Iterable[str], place: Place, above: str, known: dict[str, Check]
) -> Iterator[Finding]:
    for name in stated:
        there = known.get(name)
        if there is None or not isinstance(there.rule.grade, Tolerance):
            at = Place(seam=place.seam, pointer=above + pointer(name))
            yield _idle(NO_STEPS, at, "Limits are stated for {check}, which has none.", name, known)


def _idle(
    rule: Rule, place: Place, text: str, name: str, known: dict[str, Check], reason: str | None = None
) -> Finding:
    """The finding about one statement; where its check is not there, with the nearest name that is."""
    values = {"check": name, "reason": reason, "nearest": next(iter(get_close_matches(name, known, 1)), None)}
    if name in known:
        return Finding(rule, place, text, "Take it out of the pattern.", values)
    hint = "Did you mean {nearest}?" if values["nearest"] is not None else "Take it out of the pattern."
    return Finding(rule, place, "There is no check {check}.", hint, values)
