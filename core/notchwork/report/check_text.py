"""A verdict for the terminal: what is wrong first, grouped by seam, one finding a fault with a row for each size."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from itertools import groupby

from notchwork.checks import Graded, Names, Verdict, group_of
from notchwork.document import pointer_for
from notchwork.model import Pattern
from notchwork.report.paper import Paper, figures
from notchwork.report.told import speaks, told
from notchwork.report.verdict_text import not_run, verdict_sentence

_INDENT = 2
_TEXT = 11
_ROOMY, _NARROW = 60, 4
"""On paper narrower than the one, all lines of a finding but its first stand under each other from the other on."""


def check_text(
    name: str, verdict: Verdict, line: Callable[[str], int | None], paper: Paper, verbose: bool = False
) -> str:
    """The whole text; findings of info and those accepted on purpose only if ``verbose``."""
    names = Names(verdict.pattern)
    title = paper.headings(f"{name}: {verdict.pattern.title}" if verdict.pattern.title else name)
    shown = [graded for graded in verdict.findings if verbose or speaks(graded)]
    grouped = [
        text
        for group, findings in groupby(shown, key=group_of)
        for text in ("", *_group(group, list(findings), names, line, paper))
    ]
    return "\n".join([*title, *grouped, "", *_closing(verdict, names, paper, verbose)]) + "\n"


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
        yield from paper.headings(names.of(findings[0].finding.place))
    for graded in findings:
        yield from _finding(graded, names, line, paper)


def _finding(graded: Graded, names: Names, line: Callable[[str], int | None], paper: Paper) -> Iterator[str]:
    """One finding: what is wrong, what to do, the sizes, the rule and the line."""
    finding = told(graded, names)
    indent = _TEXT if paper.width >= _ROOMY else _NARROW
    first, *rest = paper.wrapped("\u00a0" * (_TEXT - indent) + finding.text, indent)
    word = " " * _INDENT + paper.severity(graded.severity)
    yield word + " " * (_TEXT - _INDENT - len(graded.severity.word)) + first[_TEXT:]
    yield from rest
    if graded.finding.hint:
        yield from paper.wrapped(finding.hint, indent)
    if graded.accepted is not None:
        yield from paper.wrapped(f"Accepted on purpose: {graded.accepted}", indent)
    yield from figures(finding.table, paper, indent)
    pointer = pointer_for(names.pattern, graded.finding.place)
    at = line(pointer) if pointer else None
    for part in paper.wrapped(graded.rule.id + (f", line {at}" if at is not None else "")):
        yield " " * indent + paper.faint(part)


def _closing(verdict: Verdict, names: Names, paper: Paper, verbose: bool) -> Iterator[str]:
    for line in not_run(verdict, names):
        yield from paper.wrapped(line)
    hidden = sum(not speaks(graded) and graded.accepted is None for graded in verdict.findings)
    accepted = sum(graded.accepted is not None for graded in verdict.findings)
    yield from paper.wrapped(verdict_sentence(verdict))
    if hidden and not verbose:
        yield from paper.wrapped(
            f"{hidden} small {'remark' if hidden == 1 else 'remarks'} more with --verbose."
        )
    if accepted and not verbose and not verdict.sews_together:
        yield from paper.wrapped(f"{accepted} accepted on purpose.")
