"""Findings judged: graded, accepted, merged with their likes, and put into the order in which they are read."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from difflib import get_close_matches

from notchwork.checks.grade import Graded, accept, grade
from notchwork.checks.merge import merged
from notchwork.findings import Finding, Place, Rule, Severity
from notchwork.model import Acceptance, Pattern

NO_MATCH = Rule(
    id="accepted/matches-nothing",
    title="An accepted finding does not occur",
    rationale="The pattern accepts a finding on purpose, with a reason, but no such finding is made any more. "
    "An acceptance that is left behind would hide the same fault when it comes back.",
    source="The program's own; no outside source.",
    grade=Severity.INFO,
)


def judged(
    found: Iterable[Finding], pattern: Pattern, left_out: Iterable[str] = (), known: Iterable[str] = ()
) -> list[Graded]:
    """Grade findings, apply the pattern's acceptances and merge those of like pieces; in the order found."""
    graded: list[Graded] = []
    used: set[int] = set()
    for finding in found:
        whole = grade(finding, pattern)
        for part, acceptance in accept(whole, pattern) if whole is not None else ():
            graded.append(part)
            if acceptance is not None:
                used.add(id(acceptance))
    for index, acceptance in enumerate(pattern.accepted):
        if id(acceptance) not in used and acceptance.check not in left_out:
            stale = grade(_matches_nothing(index, acceptance, known), pattern)
            graded.extend([stale] if stale is not None else [])
    return merged(graded, pattern)


def _matches_nothing(index: int, acceptance: Acceptance, known: Iterable[str]) -> Finding:
    place = Place(seam=acceptance.seam, piece=acceptance.piece, pointer=f"/accepted/{index}")
    nearest = next(iter(get_close_matches(acceptance.check, list(known), 1)), None)
    values = {"check": acceptance.check, "reason": acceptance.reason, "nearest": nearest}
    known_text = "{check} is accepted here (“{reason}”), but there is no such finding."
    unknown_text = "{check} is accepted here (“{reason}”), but there is no check of that name."
    if acceptance.check in known:
        return Finding(NO_MATCH, place, known_text, "Take the acceptance out of the pattern.", values)
    mend = "Did you mean {nearest}?" if nearest is not None else "Take the acceptance out of the pattern."
    return Finding(NO_MATCH, place, unknown_text, mend, values)


def sorted_for_reading(findings: list[Graded], pattern: Pattern) -> list[Graded]:
    """Counted before accepted, worst first; all findings of one seam together, at the place of its worst.

    Among equally bad ones what belongs to no seam or piece comes first, then the pattern's own order.
    """
    worst: dict[object, tuple[int, int]] = {}
    for graded in findings:
        group = group_of(graded)
        worst[group] = min(worst.get(group, (1, 0)), _rank(graded))
    order: dict[object, int] = {group: index for index, group in enumerate(_groups(pattern))}

    def key(graded: Graded) -> tuple[object, ...]:
        group = group_of(graded)
        return (*worst[group], order.get(group, -1), *_rank(graded), graded.rule.id)

    return sorted(findings, key=key)


def _rank(graded: Graded) -> tuple[int, int]:
    return (0 if graded.accepted is None else 1, -graded.severity)


def group_of(graded: Graded) -> tuple[str, str] | None:
    """What a finding is shown under: its seam, else its piece, else its opening or notion, else None."""
    place = graded.finding.place
    for kind in ("seam", "piece", "opening", "notion", "material"):
        if (ident := getattr(place, kind)) is not None:
            return (kind, ident)
    return None


def _groups(pattern: Pattern) -> Iterator[tuple[str, str]]:
    for kind, named in (
        ("seam", pattern.seams),
        ("piece", pattern.pieces),
        ("opening", pattern.openings),
        ("notion", pattern.notions),
        ("material", pattern.materials),
    ):
        for ident in named:
            yield kind, ident
