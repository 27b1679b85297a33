"""SARIF 2.1.0 (OASIS, Static Analysis Results Interchange Format): one log, in it one run over all files.

Section numbers are those of the standard, from memory; the form is held against its schema in tests.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any

from notchwork import __version__
from notchwork.checks import Graded, Names, Verdict, hint, message
from notchwork.findings import NotchworkError, Place, Rule, Severity, safe
from notchwork.report.about_text import rule_text
from notchwork.report.as_json import finding_report, printed
from notchwork.report.outcome import Outcome, why
from notchwork.report.paper import Paper
from notchwork.report.sarif_places import Files, fingerprint, line_location, location
from notchwork.report.verdict_text import not_run, verdict_sentence

SCHEMA = "https://raw.githubusercontent.com/oasis-tcs/sarif-spec/master/Schemata/sarif-schema-2.1.0.json"

_LEVELS = {Severity.ERROR: "error", Severity.WARNING: "warning", Severity.INFO: "note"}

_MEASURES = ("where", "seam", "pieces", "at", "unit", "measured_in", "sizes")
"""What a result has in the report as JSON, and SARIF has no place for: its regions are lines of text, not geometry."""

_UNBROKEN = Paper(width=1_000_000)


def sarif(outcomes: Iterable[Outcome], checks: Iterable[Rule]) -> str:
    """The text of the log. ``checks`` are the rules of all checks: those that ran are listed, whether they found something or not.

    A sound file has no result. A file that could not be read is a notification, and then the run was not successful.
    """
    known = {rule.id: rule for rule in checks}
    files, ran, found = Files(), set[str](), dict[str, Rule]()
    results: list[dict[str, Any]] = []
    notes: list[dict[str, Any]] = []
    for outcome in outcomes:
        verdict = outcome.verdict
        files.location(outcome.name)
        if verdict is not None:
            files.describe(outcome.name, _about(verdict))
            ran.update(verdict.checked.checks if verdict.checked is not None else ())
            found |= {graded.rule.id: graded.rule for graded in verdict.findings}
            results += _results(outcome, verdict, files)
        notes += _notifications(outcome, files)
    rules = {ident: rule for ident, rule in known.items() if ident in ran} | found
    order = {ident: number for number, ident in enumerate(sorted(rules))}
    run = {
        "tool": {"driver": _driver([_rule(rules[ident], ident in known) for ident in order])},
        "invocations": [
            {
                "executionSuccessful": all(note["level"] != "error" for note in notes),
                "toolExecutionNotifications": notes,
            }
        ],
        "artifacts": files.listed(),
        "results": [result | {"ruleIndex": order[result["ruleId"]]} for result in results],
    }
    return printed({"$schema": SCHEMA, "version": "2.1.0", "runs": [run]}, one_line=False) + "\n"


def _driver(rules: list[dict[str, Any]]) -> dict[str, Any]:
    return {"name": "Notchwork", "version": __version__, "semanticVersion": __version__, "rules": rules}


def _rule(rule: Rule, is_check: bool) -> dict[str, Any]:
    """A rule with the words that ``explain`` has for it (3.49)."""
    return {
        "id": rule.id,
        "shortDescription": {"text": f"{rule.title}."},
        "fullDescription": {"text": rule.rationale},
        "help": {"text": rule_text(rule, is_check, _UNBROKEN)},
        "defaultConfiguration": {"level": _loudest(rule)},
        "properties": {"source": rule.source, "tags": [rule.family]},
    }


def _loudest(rule: Rule) -> str:
    """Every result states its own level; this is the one that it may reach."""
    if isinstance(rule.grade, Severity):
        return _kind_and_level(rule, rule.grade)[1]
    steps = {"error": rule.grade.error, "warning": rule.grade.warning}
    return next((level for level, step in steps.items() if step is not None), "note")


def _kind_and_level(rule: Rule, severity: Severity) -> tuple[str, str]:
    """What is only ever told as info is no problem, and what is no problem has no level (3.27.10)."""
    return ("informational", "none") if rule.grade is Severity.INFO else ("fail", _LEVELS[severity])


def _results(outcome: Outcome, verdict: Verdict, files: Files) -> Iterator[dict[str, Any]]:
    names = Names(verdict.pattern)
    seen: dict[str, int] = {}
    for graded in verdict.findings:
        kind, level = _kind_and_level(graded.rule, graded.severity)
        place = graded.finding.place
        also = [location(outcome, other, files) for other in graded.finding.also]
        report = finding_report(graded, names, outcome.line)
        yield {
            "ruleId": graded.rule.id,
            "kind": kind,
            "level": level,
            "message": {
                "text": " ".join(safe(part) for part in (message(graded, names), hint(graded, names)) if part)
            },
            "locations": [location(outcome, place, files)],
            "relatedLocations": [other for number, other in enumerate(also) if other not in also[:number]],
            "partialFingerprints": {"ruleAndPlace/v1": fingerprint(graded.rule.id, place, seen)},
            "suppressions": list(_suppressions(graded, outcome, verdict, files)),
            "properties": {key: report[key] for key in _MEASURES},
        }


def _suppressions(
    graded: Graded, outcome: Outcome, verdict: Verdict, files: Files
) -> Iterator[dict[str, Any]]:
    """What accepts it on purpose stands in the pattern itself (3.35). An empty list says that nothing does."""
    if graded.acceptance is not None:
        accepted = verdict.pattern.accepted
        number = next((k for k, known in enumerate(accepted) if known is graded.acceptance), None)
        place = Place(pointer=f"/accepted/{number}" if number is not None else "/accepted")
        yield {
            "kind": "inSource",
            "status": "accepted",
            "justification": safe(graded.acceptance.reason),
            "location": location(outcome, place, files),
        }


def _notifications(outcome: Outcome, files: Files) -> Iterator[dict[str, Any]]:
    """What kept the program from looking (3.20.21): a file that could not be read, pieces of which too little is known."""
    if outcome.error is not None:
        yield _unread(outcome, outcome.error, files)
    if outcome.verdict is not None:
        names = Names(outcome.verdict.pattern)
        for sentence in not_run(outcome.verdict, names):
            yield {
                "level": "note",
                "message": {"text": safe(sentence)},
                "locations": [line_location(outcome.name, None, None, files)],
            }


def _unread(outcome: Outcome, error: NotchworkError, files: Files) -> dict[str, Any]:
    return {
        "level": "error",
        "message": {"text": safe(why(outcome))},
        "locations": [line_location(outcome.name, error.line, error.column, files)],
    }


def _about(verdict: Verdict) -> dict[str, Any]:
    checked = verdict.checked
    return {
        "verdict": safe(verdict_sentence(verdict)),
        "seams": checked.seams if checked is not None else None,
        "sizes": list(checked.sizes) if checked is not None else [],
        "only": (list(checked.only) or None) if checked is not None else None,
    }
