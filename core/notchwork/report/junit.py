"""JUnit XML: a suite for each file, a case for each check that found nothing and for each check and thing where it did.

There is no official schema. The elements are those that test reports of continuous integration commonly have: testsuites >
testsuite > testcase > failure, error or skipped (common practice). No times are stated: none are taken.
"""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from collections.abc import Iterable, Iterator

from notchwork.checks import Graded, Names, Verdict, group_of, hint, message
from notchwork.findings import Severity, safe
from notchwork.report.outcome import Outcome, why
from notchwork.report.verdict_text import not_run, verdict_sentence

WHOLE = "whole pattern"
"""What a case is called that is about no one seam or piece."""

_NO_XML = re.compile("[\ud800-\udfff\ufffe\uffff]")
"""What no XML document may hold (XML 1.0, 2.2), besides what is made safe everywhere."""

_COUNTED = {"tests": "testcase", "failures": "failure", "errors": "error", "skipped": "skipped"}


def junit(outcomes: Iterable[Outcome], fail_on: Severity = Severity.WARNING) -> str:
    """One document over all files. A case fails at findings as bad as ``fail_on``; one accepted on purpose is skipped.

    Signs beyond ASCII are written as references, so that the text is the same in whatever encoding it is stored.
    """
    root = ET.Element("testsuites", name="notchwork check")
    for outcome in outcomes:
        suite = ET.SubElement(root, "testsuite", name=_clean(outcome.name))
        if outcome.verdict is not None:
            _checked(suite, outcome, outcome.verdict, fail_on)
        elif outcome.error is not None:
            case = ET.SubElement(suite, "testcase", classname="file", name="can be checked")
            _told(case, "error", why(outcome), type(outcome.error).__name__)
        _count(suite)
    _count(root)
    ET.indent(root)
    data: bytes = ET.tostring(root, encoding="us-ascii", xml_declaration=True)
    return data.decode("ascii") + "\n"


def _count(element: ET.Element) -> None:
    for key, tag in _COUNTED.items():
        element.set(key, str(sum(1 for _ in element.iter(tag))))


def _checked(suite: ET.Element, outcome: Outcome, verdict: Verdict, fail_on: Severity) -> None:
    names = Names(verdict.pattern)
    properties = ET.SubElement(suite, "properties")
    ET.SubElement(properties, "property", name="verdict", value=_clean(verdict_sentence(verdict)))
    found: dict[object, list[Graded]] = {}
    for graded in verdict.findings:
        found.setdefault((graded.rule.id, group_of(graded)), []).append(graded)
    for findings in found.values():
        _found(suite, outcome, findings, names, fail_on)
    told = {graded.rule.id for graded in verdict.findings}
    left_out = _left_out(verdict)
    for check in verdict.checked.checks if verdict.checked is not None else ():
        if check not in told:
            case = _case(suite, check, WHOLE)
            if check in left_out:
                ET.SubElement(case, "skipped", message=_clean(" ".join(not_run(verdict, names))))


def _left_out(verdict: Verdict) -> set[str]:
    """The checks that could say nothing of some piece: of the whole it is not known that they would find nothing."""
    skipped = verdict.checked.not_run if verdict.checked is not None else ()
    return {check for each in skipped for check in each.checks}


def _found(
    suite: ET.Element, outcome: Outcome, findings: list[Graded], names: Names, fail_on: Severity
) -> None:
    """The case of what one check found on one thing: several findings are paragraphs of one failure."""
    first = findings[0]
    case = _case(suite, first.rule.id, names.of(first.finding.place) or WHOLE)
    case.set("file", _clean(outcome.name))
    if (line := outcome.line_of(first.finding.place)) is not None:
        case.set("line", str(line))
    counted = [graded for graded in findings if graded.accepted is None]
    failed = [graded for graded in counted if graded.severity >= fail_on]
    if failed:
        worst = max(failed, key=lambda graded: graded.severity)
        said = "\n".join(part for graded in failed for part in _said(graded, names))
        _told(case, "failure", message(worst, names), worst.severity.word).text = said
    elif not counted:
        reasons = " ".join(dict.fromkeys(str(graded.accepted) for graded in findings))
        ET.SubElement(case, "skipped", message=_clean(f"Accepted on purpose: {reasons}"))
    rest = [graded for graded in findings if graded not in failed]
    if rest:
        lines = [f"{graded.severity.word}: {' '.join(_said(graded, names))}" for graded in rest]
        ET.SubElement(case, "system-out").text = "\n".join(lines)


def _said(graded: Graded, names: Names) -> Iterator[str]:
    yield _clean(message(graded, names))
    if graded.finding.hint:
        yield _clean(hint(graded, names))


def _case(suite: ET.Element, rule: str, name: str) -> ET.Element:
    """Readers take what stands before the last point of a class name as its package: the family of the check."""
    return ET.SubElement(suite, "testcase", classname=rule.replace("/", "."), name=_clean(name))


def _told(case: ET.Element, tag: str, text: str, kind: str) -> ET.Element:
    return ET.SubElement(case, tag, message=_clean(text), type=kind)


def _clean(text: str) -> str:
    return _NO_XML.sub("\ufffd", safe(text))
