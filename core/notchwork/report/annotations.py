"""Annotations of a GitHub workflow: commands on standard output that mark lines of the files of a change.

After "Workflow commands for GitHub Actions" (GitHub's documentation) and the escaping of its toolkit (``core/command.ts``), both
from memory.
"""

from __future__ import annotations

from collections.abc import Iterator

from notchwork.checks import Graded, Names, hint, message
from notchwork.findings import Severity, safe
from notchwork.report.outcome import Outcome, why
from notchwork.report.told import speaks

_COMMANDS = {Severity.ERROR: "error", Severity.WARNING: "warning", Severity.INFO: "notice"}

_IN_TEXT = {"%": "%25", "\r": "%0D", "\n": "%0A"}
_IN_PROPERTIES = {**_IN_TEXT, ":": "%3A", ",": "%2C"}

NOT_READ = "Could not be checked"


def workflow_annotations(outcome: Outcome, verbose: bool = False) -> str:
    """A command for each finding, each on a line; what is small or accepted on purpose only if ``verbose``, as a notice."""
    return "".join(f"{line}\n" for line in _commands(outcome, verbose))


def _commands(outcome: Outcome, verbose: bool) -> Iterator[str]:
    if outcome.verdict is None:
        error = outcome.error
        if error is not None:
            at = {"line": error.line, "col": error.column}
            yield _command("error", {"file": outcome.name, **at, "title": NOT_READ}, [why(outcome)])
        return
    names = Names(outcome.verdict.pattern)
    for graded in outcome.verdict.findings:
        if verbose or speaks(graded):
            command = _COMMANDS[graded.severity] if graded.accepted is None else "notice"
            at = {"line": outcome.line_of(graded.finding.place)}
            yield _command(
                command, {"file": outcome.name, **at, "title": graded.rule.title}, _paragraphs(graded, names)
            )


def _paragraphs(graded: Graded, names: Names) -> list[str]:
    said = [f"{message(graded, names)} [{graded.rule.id}]", hint(graded, names)]
    if graded.accepted is not None:
        said.append(f"Accepted on purpose: {graded.accepted}")
    return [part for part in said if part]


def _command(command: str, properties: dict[str, str | int | None], paragraphs: list[str]) -> str:
    """Names from files are made safe first, so that a line break is always one of our own."""
    stated = ",".join(
        f"{key}={_escaped(safe(str(value)), _IN_PROPERTIES)}"
        for key, value in properties.items()
        if value is not None
    )
    return f"::{command} {stated}::{_escaped(chr(10).join(map(safe, paragraphs)), _IN_TEXT)}"


def _escaped(text: str, signs: dict[str, str]) -> str:
    return "".join(signs.get(sign, sign) for sign in text)
