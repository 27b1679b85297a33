"""What recognition may tell a person: every inference of its own, with its place on the drawing."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from notchwork.findings import Count, Finding, Length, Place, Rule, Severity
from notchwork.recognise.placed import Line

MENDED = 0.05
"""Gaps up to this (mm) are closed without a word."""

OWN = "The program's own; no outside source."


def inference(
    name: str, title: str, rationale: str, source: str = OWN, grade: Severity = Severity.INFO
) -> Rule:
    """A rule of this family."""
    return Rule(f"recognised/{name}", title, rationale, source, grade)


GAP = inference(
    "gap-closed",
    "Ends that nearly meet were brought together",
    "Strokes drawn one by one seldom meet exactly. Ends that lie within the tolerance of each other, or of another stroke, are taken "
    "as meeting there.",
    "Common practice, no source: 0.5 mm unless another tolerance is stated.",
)
OPEN = inference(
    "outline-open",
    "An outline does not close",
    "A piece is what a closed line encloses. Where the ends of a line that looks like an outline lie further apart than the "
    "tolerance, nothing says how it goes on between them.",
    grade=Severity.ERROR,
)
STEP = inference(
    "step-straightened",
    "A small step in an outline was straightened",
    "A step shorter than the tolerance is a slip of the pen, and no corner; left in, it would cut an edge in two.",
)
DOUBLED = inference(
    "stroke-doubled",
    "A stroke that is drawn twice counts once",
    "Two strokes with the same ends that run along each other are one line, drawn twice by copying or by tracing.",
)


def mended(at: complex, width: float) -> Finding:
    """A gap that was closed."""
    return Finding(
        GAP, Place(point=at), "Ends {width} apart were brought together.", values={"width": Length(width)}
    )


def straightened_at(at: complex) -> Finding:
    """A step that was straightened."""
    return Finding(STEP, Place(point=at), "A step smaller than the tolerance was straightened.")


def outline_open(name: str, lines: Sequence[Line]) -> Finding:
    """An outline whose lines do not close, with the widest gap between ends that have no partner."""
    ends = np.array([z for line in lines if not line.closed for z in (line.start, line.end)])
    far = np.abs(ends[:, None] - ends[None, :])
    np.fill_diagonal(far, np.inf)
    worst = int(far.min(axis=1).argmax()) if len(ends) > 1 else 0
    gap = float(far.min(axis=1)[worst]) if len(ends) > 1 else 0.0
    return Finding(
        OPEN,
        Place(point=complex(ends[worst]) if len(ends) else None),
        "The outline of “{name}” does not close: {gap} are missing ({count} strokes).",
        "Draw it closed, or read the drawing with a larger tolerance.",
        {"name": name, "gap": Length(gap), "count": Count(len(lines))},
    )
