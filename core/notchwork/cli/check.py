"""``notchwork check``."""

from __future__ import annotations

import sys
from argparse import Namespace
from collections.abc import Iterator

from notchwork import jobs
from notchwork.cli.complain import complain
from notchwork.cli.main import FAILED
from notchwork.cli.streams import say
from notchwork.cli.terminal import called, checks_asked_for, loaded, once, paper, with_progress
from notchwork.findings import NotchworkError, Severity
from notchwork.report import Outcome, check_report, check_text, error_report, printed

_FINDINGS = 1


def run(arguments: Namespace) -> int:
    """Check every file; the worst of their exit codes."""
    codes: list[int] = []
    for text in _rendered(_outcomes(arguments, codes), arguments):
        say(text, end="")
    return max(codes)


def _outcomes(arguments: Namespace, codes: list[int]) -> Iterator[Outcome]:
    """What came of each file, one after another, with its exit code; what could not be done is told on standard error too."""
    only = checks_asked_for(arguments.only)
    for name in with_progress(once(arguments.files)):
        try:
            source = loaded(name, arguments)
            verdict = jobs.check(source, only)
        except NotchworkError as error:
            codes.append(FAILED)
            yield Outcome(called(name), error=error)
            complain(str(error))
        else:
            bad = verdict.checked is None or verdict.at_least(Severity[arguments.fail_on.upper()])
            codes.append(_FINDINGS if bad else 0)
            yield Outcome(source.name, verdict, line=source.line)


def _rendered(outcomes: Iterator[Outcome], arguments: Namespace) -> Iterator[str]:
    """The text to print: file by file, or one document over all of them. A rendering is imported when it is asked for."""
    several = len(arguments.files) > 1
    match arguments.format:
        case "json":
            return (printed(_report(outcome), several) + "\n" for outcome in outcomes)
        case "line":
            from notchwork.report.line_text import line_text

            sheet = paper() if sys.stdout.isatty() else None
            return (line_text(outcome, arguments.verbose, sheet) for outcome in outcomes)
        case "github":
            from notchwork.report.annotations import workflow_annotations

            return (workflow_annotations(outcome, arguments.verbose) for outcome in outcomes)
        case "sarif":
            from notchwork.report.sarif import sarif

            return iter([sarif(outcomes, (check.rule for check in jobs.checks()))])
        case "junit":
            from notchwork.report.junit import junit

            return iter([junit(outcomes, Severity[arguments.fail_on.upper()])])
        case _:
            return (_text(outcome, arguments.verbose, several) for outcome in outcomes)


def _report(outcome: Outcome) -> dict[str, object]:
    if outcome.verdict is not None:
        return check_report(outcome.name, outcome.verdict, outcome.line)
    assert outcome.error is not None
    return error_report("check", outcome.name, outcome.error)


def _text(outcome: Outcome, verbose: bool, several: bool) -> str:
    """Nothing for what could not be done, which is told on standard error."""
    if outcome.verdict is None:
        return ""
    text = check_text(outcome.name, outcome.verdict, outcome.line, paper(), verbose)
    return text + "\n" if several else text
