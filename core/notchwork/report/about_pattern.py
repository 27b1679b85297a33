"""What a report on a pattern's measures opens with, and how it shows a length."""

from __future__ import annotations

import math

from notchwork.findings import Length, PersonUnit, listed, worded
from notchwork.report.paper import Paper
from notchwork.sewing import Nest

NOT_THERE = "–"

_UNITS = {"mm": "mm", "cm": "cm", "in": "inches"}


def opening_lines(name: str, nest: Nest, paper: Paper) -> list[str]:
    """The file, the pattern's title, how much there is of what, and the unit of all lengths that follow."""
    pattern = nest.pattern
    said = f"{counted(len(nest.pieces), 'piece')}, {counted(len(pattern.seams), 'seam')}"
    if pattern.sizes is not None:
        said += f", in {listed(pattern.sizes.names)} (drafted in {pattern.sizes.base})"
    return [
        *paper.headings(f"{name}: {pattern.title}" if pattern.title else name),
        *paper.wrapped(f"{said}; lengths in {_UNITS[pattern.unit]}"),
    ]


def counted(count: int, word: str) -> str:
    """ "1 seam", "2 seams"."""
    return f"{count} {word}{'' if count == 1 else 's'}"


def length_text(mm: float, unit: PersonUnit) -> str:
    """A length (mm) in the person's unit, without naming it; a dash for what does not exist in a size."""
    return worded("{length:bare}", {"length": Length(float(mm))}, unit) if math.isfinite(mm) else NOT_THERE
