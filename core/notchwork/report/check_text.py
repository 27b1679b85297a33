"""A verdict for the terminal: what is wrong first, grouped by seam, one finding a fault with a row for each size."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from itertools import groupby

from notchwork.checks import (
    Graded,
    Names,
    Verdict,
    alike,
    also_at,
    group_of,
    hint,
    in_size,
    right_in,
    sentence,
)
from notchwork.document import pointer_for
from notchwork.findings import MeasureUnit, Row, Severity, listed, measure_of, worded
from notchwork.model import Pattern
from notchwork.report.paper import Paper, table
from notchwork.report.verdict_text import verdict_sentence

_INDENT = 2
_TEXT = 11
MOST_NAMED = 6
"""Pieces that are named one by one."""


def check_text(
    name: str, verdict: Verdict, line: Callable[[str], int | None], paper: Paper, verbose: bool = False
) -> str:
    """The whole text; findings of info and those accepted on purpose only if ``verbose``."""
    names = Names(verdict.pattern)
    title = paper.heading(f"{name}: {verdict.pattern.title}" if verdict.pattern.title else name)
    shown = [graded for graded in verdict.findings if verbose or _speaks(graded)]
    grouped = [
        text
        for group, findings in groupby(shown, key=group_of)
        for text in ("", *_group(group, list(findings), names, line, paper))
    ]
    return "\n".join([title, *grouped, "", *_closing(verdict, names, paper, verbose)]) + "\n"


def faults_text(
    findings: Iterable[Graded],
    line: Callable[[str], int | None],
    paper: Paper,
    pattern: Pattern | None = None,
) -> str:
    """Findings by themselves: the faults of a document, or what a conversion left out."""
    names = Names(pattern or Pattern(version="1.0"))
    return "".join(f"{text}\n" for graded in findings for text in _finding(graded, names, line, paper))


def _group(
    group: tuple[str, str] | None,
    findings: list[Graded],
    names: Names,
    line: Callable[[str], int | None],
    paper: Paper,
) -> Iterator[str]:
    if group is not None:
        yield paper.heading(names.of(findings[0].finding.place))
    for graded in findings:
        yield from _finding(graded, names, line, paper)


def _finding(graded: Graded, names: Names, line: Callable[[str], int | None], paper: Paper) -> Iterator[str]:
    """One finding: what is wrong, what to do, the sizes, the rule and the line."""
    size = in_size(graded, names)
    opening = f"{size[:1].upper()}{size[1:]}: " if size else ""
    said = " ".join(
        part
        for part in (opening + sentence(graded, names), right_in(graded, names), also_at(graded, names))
        if part
    )
    first, *rest = paper.wrapped(said, _TEXT)
    word = " " * _INDENT + paper.severity(graded.severity)
    yield word + " " * (_TEXT - _INDENT - len(graded.severity.word)) + first.strip()
    yield from rest
    if graded.finding.hint:
        yield from paper.wrapped(hint(graded, names), _TEXT)
    if graded.accepted is not None:
        yield from paper.wrapped(f"Accepted on purpose: {graded.accepted}", _TEXT)
    yield from _sizes(graded, names)
    pointer = pointer_for(names.pattern, graded.finding.place)
    at = line(pointer) if pointer else None
    yield " " * _TEXT + paper.faint(graded.rule.id + (f", line {at}" if at is not None else ""))


def _sizes(graded: Graded, names: Names) -> list[str]:
    """A row for every size that is wrong, sizes with the same figures in one; nothing where the text says it all.

    Neither figure is called the right one: who is guilty is not presumed.
    """
    unit = graded.tolerance.unit if graded.tolerance is not None else None
    groups = _by_figures(graded)
    if unit is None or len(groups) < 2:
        return []
    with_figures = any(row.measured is not None and row.expected is not None for row in groups.values())
    off_by = {"mm": f"off by ({names.unit})", "percent": "off by (%)"}.get(unit, "off by")
    lines = [["size", "measured", "against", off_by] if with_figures else ["size", off_by]]
    for sizes, row in groups.items():
        figures = [row.measured, row.expected, abs(row.off)] if with_figures else [abs(row.off)]
        lines.append([sizes, *(_figure(figure, unit, names) for figure in figures)])
    return table(lines, indent=_TEXT)


def _by_figures(graded: Graded) -> dict[str, Row]:
    """The wrong sizes, those with the same figures together: "S, M" and the row that holds for both."""
    groups: list[tuple[list[str], Row]] = []
    for row in (graded_row.row for graded_row in graded.rows):
        for sizes, first in groups:
            if alike(first, row):
                sizes.append(row.size or "")
                break
        else:
            groups.append(([row.size or ""], row))
    return {", ".join(sizes): row for sizes, row in groups}


def _figure(value: float | None, unit: MeasureUnit, names: Names) -> str:
    return (
        worded("{figure:bare}", {"figure": measure_of(value, unit)}, names.unit) if value is not None else ""
    )


def _speaks(graded: Graded) -> bool:
    return graded.severity >= Severity.WARNING and graded.accepted is None


def _not_run(verdict: Verdict, names: Names) -> Iterator[str]:
    """A sentence for each reason why checks could say nothing of some pieces."""
    reasons: dict[tuple[str, int], list[str]] = {}
    for skipped in verdict.checked.not_run if verdict.checked is not None else ():
        reasons.setdefault((skipped.why, len(skipped.checks)), []).append(names.piece(skipped.piece))
    for (why, count), pieces in reasons.items():
        shown = (
            [*pieces[:MOST_NAMED], f"{len(pieces) - MOST_NAMED} more"]
            if len(pieces) > MOST_NAMED + 1
            else pieces
        )
        checks = f"{count} checks were" if count > 1 else "one check was"
        yield f"{listed(shown)}: {why}, so {checks} not run there."


def _closing(verdict: Verdict, names: Names, paper: Paper, verbose: bool) -> Iterator[str]:
    for line in _not_run(verdict, names):
        yield from paper.wrapped(line)
    hidden = sum(not _speaks(graded) and graded.accepted is None for graded in verdict.findings)
    accepted = sum(graded.accepted is not None for graded in verdict.findings)
    yield from paper.wrapped(verdict_sentence(verdict))
    if hidden and not verbose:
        yield from paper.wrapped(
            f"{hidden} small {'remark' if hidden == 1 else 'remarks'} more with --verbose."
        )
    if accepted and not verbose and not verdict.sews_together:
        yield from paper.wrapped(f"{accepted} accepted on purpose.")
