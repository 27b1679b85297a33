"""A verdict for the terminal: what is wrong first, grouped by seam, one finding a fault with a row for each size."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from itertools import groupby

from notchwork.checks import (
    Graded,
    Names,
    Verdict,
    also_at,
    also_in,
    group_of,
    hint,
    in_sizes,
    right_in,
    sentence,
)
from notchwork.document import pointer_for
from notchwork.findings import MeasureUnit, Row, Severity, listed, measure_of, worded
from notchwork.model import Pattern
from notchwork.report.paper import Paper, table
from notchwork.report.verdict_text import verdict_sentence
from notchwork.sewing.names import capital

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
    names = Names(pattern or Pattern())
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
    by_sizes = _by_sizes(graded, names)
    figures = _table(graded, by_sizes, names)
    head = in_sizes(graded, names, unequal=len({off for *_, off in by_sizes.values()}) > 1)
    parts = (
        (f"{capital(head)}: " if head else "") + sentence(graded, names),
        also_in(graded, names) if not figures and not head.startswith("every") else "",
        right_in(graded, names),
        also_at(graded, names),
    )
    said = " ".join(part for part in parts if part)
    first, *rest = paper.wrapped(said, _TEXT)
    word = " " * _INDENT + paper.severity(graded.severity)
    yield word + " " * (_TEXT - _INDENT - len(graded.severity.word)) + first.strip()
    yield from rest
    if graded.finding.hint:
        yield from paper.wrapped(hint(graded, names), _TEXT)
    if graded.accepted is not None:
        yield from paper.wrapped(f"Accepted on purpose: {graded.accepted}", _TEXT)
    yield from figures
    pointer = pointer_for(names.pattern, graded.finding.place)
    at = line(pointer) if pointer else None
    yield " " * _TEXT + paper.faint(graded.rule.id + (f", line {at}" if at is not None else ""))


def _table(graded: Graded, by_sizes: Mapping[str, Sequence[str]], names: Names) -> list[str]:
    """A row for every size that is wrong, sizes with the same figures in one; nothing where the text says it all.

    Neither figure is called the right one: who is guilty is not presumed.
    """
    if graded.tolerance is None or len(by_sizes) < 2:
        return []
    off_by = {"mm": f"off by ({names.unit})", "percent": "off by (%)"}.get(graded.tolerance.unit, "off by")
    with_figures = any(measured and expected for measured, expected, _ in by_sizes.values())
    heads = ["size", "measured", "against", off_by] if with_figures else ["size", off_by]
    lines = [[sizes, *(figures if with_figures else figures[-1:])] for sizes, figures in by_sizes.items()]
    return table([heads, *lines], indent=_TEXT)


def _by_sizes(graded: Graded, names: Names) -> dict[str, list[str]]:
    """The figures of the wrong sizes, those that look the same together: what "S, M" measure, against what, how far off."""
    if graded.tolerance is None:
        return {}
    sizes: dict[tuple[str, ...], list[str]] = {}
    for row in (graded_row.row for graded_row in graded.rows):
        figures = _figures(row, graded.tolerance.unit, graded.rule.measured_in, names)
        sizes.setdefault(figures, []).append(row.size or "")
    return {", ".join(alike): list(figures) for figures, alike in sizes.items()}


def _figures(row: Row, unit: MeasureUnit, measured_in: MeasureUnit | None, names: Names) -> tuple[str, ...]:
    """Worded together, so that what differs looks different."""
    stated = (row.measured, measured_in or unit), (row.expected, measured_in or unit), (abs(row.off), unit)
    known = {str(k): measure_of(value, of) for k, (value, of) in enumerate(stated) if value is not None}
    template = "|".join(f"{{{k}:bare}}" if str(k) in known else "" for k in range(len(stated)))
    return tuple(worded(template, known, names.unit).split("|"))


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
