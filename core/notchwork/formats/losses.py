"""What a conversion leaves out: what the pattern uses less what the format carries, computed once for all formats."""

from __future__ import annotations

from collections.abc import Iterator

from notchwork.findings import Count, Finding, Place, Rule, Severity
from notchwork.formats.features import uses
from notchwork.formats.format import Format
from notchwork.model import Pattern

NOT_CARRIED = Rule(
    id="losses/not-carried",
    title="The format cannot carry it",
    rationale="The file that was written holds less than the pattern: its format has no place for what is named. "
    "Keep the pattern in the open format too, which carries everything.",
    source="What each format declares that it carries.",
    grade=Severity.WARNING,
)

RULES = (NOT_CARRIED,)


def losses(pattern: Pattern, target: Format) -> Iterator[Finding]:
    """One finding for each kind of thing the pattern uses and the format cannot carry."""
    for feature, count in uses(pattern).items():
        if feature not in target.carries:
            yield Finding(
                NOT_CARRIED,
                Place(),
                "{format} cannot carry {things}: {count} left out.",
                "Keep the pattern in the open format too.",
                {"format": target.title, "things": str(feature), "count": Count(count)},
            )
