"""Findings judged: graded, accepted, merged with their likes, and put into the order in which they are read."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from notchwork.checks.check import Check
from notchwork.checks.grade import Graded, accept, grade
from notchwork.checks.merge import merged
from notchwork.checks.statements import without_effect
from notchwork.findings import Finding
from notchwork.model import Pattern


def judged(
    found: Iterable[Finding], pattern: Pattern, ran: Sequence[Check] = (), every: Sequence[Check] = ()
) -> list[Graded]:
    """Grade findings, apply the pattern's acceptances and merge those of like pieces; in the order found.

    Where checks ``ran``, of all that there are (``every``), what the pattern states of checks to no effect is added.
    """
    graded = [
        part
        for finding in found
        if (whole := grade(finding, pattern)) is not None
        for part in accept(whole, pattern)
    ]
    if every:
        idle = without_effect(pattern, graded, ran, every)
        graded += [told for finding in idle if (told := grade(finding, pattern)) is not None]
    return merged(graded, pattern)


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
