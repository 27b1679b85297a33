"""What the program knows, for the terminal: a rule explained, and the lists of checks and formats."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from notchwork.checks import Check
from notchwork.findings import Rule, Tolerance, measure_of, worded
from notchwork.formats import Format
from notchwork.report.paper import Paper, table

_NEVER = 9999

_OF_SEAMS = ("seams", "sleeves")
"""The families whose findings are accepted on a seam; all others on a piece."""


def rule_text(rule: Rule, is_check: bool, paper: Paper) -> str:
    """A rule's own words: why, where from, how loudly, and how to have it otherwise."""
    lines = [paper.heading(rule.id), *paper.wrapped(rule.title + "."), "", *paper.wrapped(rule.rationale), ""]
    for line in _speaks(rule):
        lines += paper.wrapped(line)
    if rule.quiet:
        lines += ["", *paper.wrapped(f"It stays quiet: {rule.quiet}")]
    lines += ["", *paper.wrapped(f"Source: {rule.source}")]
    if is_check:
        lines += ["", *_otherwise(rule, paper)]
    return "\n".join(lines) + "\n"


def checks_text(checks: Iterable[Check], paper: Paper) -> str:
    """Every check with its title, family by family."""
    rows = [[check.id, check.rule.title] for check in checks]
    return "\n".join(table(rows, left=2) if rows else ["No checks are installed."]) + "\n"


def formats_text(formats: Iterable[Format], paper: Paper) -> str:
    """Every format with its suffixes and what can be done with it."""
    rows = [["name", "suffixes", "can be", "what it is"]]
    for known in formats:
        does = " and ".join(
            word for word, able in (("read", known.read), ("written", known.write)) if able is not None
        )
        rows.append([known.name, " ".join(known.suffixes), does, known.title])
    return "\n".join(table(rows, left=4)) + "\n"


def _speaks(rule: Rule) -> Iterator[str]:
    if not isinstance(rule.grade, Tolerance):
        yield f"It is always told as {_article(rule.grade.word)}."
        return
    yield f"What is off is told {_steps(rule.grade)}."
    if rule.tape is not None:
        yield f"Where a length was taken with a tape: {_steps(rule.tape)}."


def _steps(tolerance: Tolerance) -> str:
    steps = (("info", tolerance.info), ("a warning", tolerance.warning), ("an error", tolerance.error))
    return ", ".join(
        worded(f"as {word} beyond {{step}}", {"step": measure_of(step, tolerance.unit)})
        for word, step in steps
        if step is not None
    )


def _article(word: str) -> str:
    return {"info": "info", "warning": "a warning", "error": "an error"}[word]


def _otherwise(rule: Rule, paper: Paper) -> Iterator[str]:
    if isinstance(rule.grade, Tolerance):
        yield from paper.wrapped(
            "To have other limits, state info, warning and error in the pattern or on one seam:"
        )
        yield f'  "tolerances": {{"{rule.id}": {_stated(rule.grade)}}}'
        if rule.grade.error is None:
            yield from paper.wrapped(f"({_NEVER} stands for never.)")
    yield from paper.wrapped("To accept a finding on purpose:")
    where = "seam" if rule.family in _OF_SEAMS else "piece"
    yield f'  "accepted": [{{"check": "{rule.id}", "{where}": "…", "reason": "…"}}]'


def _stated(tolerance: Tolerance) -> list[float]:
    """The steps as a pattern states them, which always are three; one that is left out is never reached."""
    steps = (tolerance.info, tolerance.warning, tolerance.error)
    return [next((step for step in steps[index:] if step is not None), _NEVER) for index in range(3)]
