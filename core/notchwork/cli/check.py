"""``notchwork check``."""

from __future__ import annotations

from argparse import Namespace
from collections.abc import Sequence

from notchwork import jobs
from notchwork.cli.complain import complain
from notchwork.cli.main import FAILED
from notchwork.cli.streams import say
from notchwork.cli.terminal import called, loaded, once, paper, with_progress
from notchwork.findings import NotchworkError, Severity
from notchwork.report import check_report, check_text, error_report, printed

_FINDINGS = 1


def run(arguments: Namespace) -> int:
    """Check every file; the worst of their exit codes."""
    several = len(arguments.files) > 1
    return max(_one(name, arguments, several) for name in with_progress(once(arguments.files)))


def _only(stated: Sequence[str]) -> list[str]:
    """The checks and families asked for, of which one option may name several."""
    names = [name.strip() for text in stated for name in text.split(",") if name.strip()]
    if stated and not names:
        raise NotchworkError(f"--only {stated[0]}", "This names no check.")
    return names


def _one(name: str, arguments: Namespace, several: bool) -> int:
    as_json = arguments.format == "json"
    try:
        source = loaded(name, arguments)
        verdict = jobs.check(source, _only(arguments.only))
    except NotchworkError as error:
        if as_json:
            say(printed(error_report("check", called(name), error), several))
        complain(str(error))
        return FAILED
    if as_json:
        say(printed(check_report(source.name, verdict, source.line), several))
    else:
        text = check_text(source.name, verdict, source.line, paper(), arguments.verbose)
        say(text, end="\n" if several else "")
    bad = verdict.checked is None or verdict.at_least(Severity[arguments.fail_on.upper()])
    return _FINDINGS if bad else 0
