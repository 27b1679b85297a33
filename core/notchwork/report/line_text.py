"""One line for each finding, as ``grep`` and editors read them: ``file:line: severity: message [check]``."""

from __future__ import annotations

from collections.abc import Iterator

from notchwork.checks import Graded, Names, message
from notchwork.findings import safe
from notchwork.report.outcome import Outcome, why
from notchwork.report.paper import Paper
from notchwork.report.told import speaks

_INDENT = 2


def line_text(outcome: Outcome, verbose: bool = False, paper: Paper | None = None) -> str:
    """The lines, nothing where there is nothing to tell; what is small or accepted on purpose only if ``verbose``.

    On ``paper``, where someone looks on, a line is broken between words and goes on below, further in.
    """
    return "".join(f"{_laid(line, paper)}\n" for line in _lines(outcome, verbose))


def _lines(outcome: Outcome, verbose: bool) -> Iterator[str]:
    if outcome.verdict is None:
        if outcome.error is not None:
            yield _line(outcome, (outcome.error.line, outcome.error.column), "error", why(outcome))
        return
    names = Names(outcome.verdict.pattern)
    for graded in outcome.verdict.findings:
        if verbose or speaks(graded):
            yield _line(outcome, (outcome.line_of(graded.finding.place),), *_said(graded, names))


def _said(graded: Graded, names: Names) -> tuple[str, str]:
    """How bad it is, by a word that no accepted finding shares with one that counts; and what."""
    rule = f"[{graded.rule.id}]"
    if graded.accepted is None:
        return graded.severity.word, f"{message(graded, names)} {rule}"
    return "accepted", f"{message(graded, names)} Accepted on purpose: {graded.accepted} {rule}"


def _line(outcome: Outcome, at: tuple[int | None, ...], word: str, said: str) -> str:
    place = ":".join([outcome.name, *(str(number) for number in at if number is not None)])
    return safe(f"{place}: {word}: {said}")


def _laid(line: str, paper: Paper | None) -> str:
    if paper is None:
        return line
    return ("\n" + " " * _INDENT).join(Paper(paper.width - _INDENT).wrapped(line))
