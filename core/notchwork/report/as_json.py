"""What the schema report-1 describes: a check, a description or a walk as one JSON document."""

from __future__ import annotations

import json
from collections.abc import Iterable
from typing import Any

from notchwork.checks import Graded, GradedRow, Names, Verdict, head, hint, message
from notchwork.document import pointer_for
from notchwork.findings import NotchworkError, Place, Severity
from notchwork.model import Pattern
from notchwork.report.figures import number, pieces_of, seams_of
from notchwork.report.outcome import Line, no_line
from notchwork.report.verdict_text import verdict_sentence
from notchwork.sewing import Nest, Walk

VERSION = "1.0"

_NOT_CHECKED: dict[str, Any] = {"sews_together": None, "verdict": None, "seams": [], "checked": None}


def printed(report: dict[str, Any], one_line: bool) -> str:
    """The text of a report, in one line where several follow each other."""
    return json.dumps(report, allow_nan=False, indent=None if one_line else 2)


def check_report(name: str, verdict: Verdict, line: Line) -> dict[str, Any]:
    """The report of ``check``."""
    names = Names(verdict.pattern)
    checked = verdict.checked
    return {
        **_head("check", name, verdict.pattern if checked is not None else None),
        "sews_together": _sews_together(verdict),
        "verdict": verdict_sentence(verdict),
        "findings": [finding_report(graded, names, line) for graded in verdict.findings],
        "seams": list(seams_of(verdict.nest.walks.values(), verdict.nest))
        if verdict.nest is not None
        else [],
        "checked": None
        if checked is None
        else {
            "seams": checked.seams,
            "sizes": list(checked.sizes),
            "checks": list(checked.checks),
            "only": list(checked.only) or None,
            "not_run": [
                {"piece": skipped.piece, "why": skipped.why, "checks": list(skipped.checks)}
                for skipped in checked.not_run
            ],
        },
    }


def _sews_together(verdict: Verdict) -> bool | None:
    """None where it cannot be known: nothing was checked, or not everything and no fault was met."""
    if verdict.complete or (verdict.checked is not None and verdict.at_least(Severity.WARNING)):
        return verdict.sews_together
    return None


def describe_report(name: str, nest: Nest) -> dict[str, Any]:
    """The report of ``describe``."""
    return {
        **_head("describe", name, nest.pattern),
        "findings": [],
        "pieces": list(pieces_of(nest)),
        "seams": list(seams_of(nest.walks.values(), nest)),
    }


def walk_report(name: str, nest: Nest, walks: Iterable[Walk]) -> dict[str, Any]:
    """The report of ``walk``."""
    return {**_head("walk", name, nest.pattern), "findings": [], "seams": list(seams_of(walks, nest))}


def error_report(
    kind: str, name: str, error: NotchworkError, faults: Iterable[Graded] = (), line: Line | None = None
) -> dict[str, Any]:
    """The report about a file that could not be read, or whose faults must be mended first."""
    names = Names(Pattern())
    empty = {"check": _NOT_CHECKED, "describe": {"pieces": [], "seams": []}, "walk": {"seams": []}}[kind]
    return {
        **_head(kind, name, None),
        **empty,
        "error": {
            "what": error.what,
            "why": error.why,
            "repair": error.repair or None,
            "line": error.line,
            "column": error.column,
        },
        "findings": [finding_report(graded, names, line or no_line) for graded in faults],
    }


def _head(kind: str, name: str, pattern: Pattern | None) -> dict[str, Any]:
    sizes = pattern.sizes if pattern is not None else None
    return {
        "notchwork_report": VERSION,
        "kind": kind,
        "file": name,
        "title": pattern.title if pattern is not None else None,
        "unit": pattern.unit if pattern is not None else None,
        "sizes": list(sizes.names) if sizes is not None else [],
        "base": sizes.base if sizes is not None else None,
        "error": None,
    }


def finding_report(graded: Graded, names: Names, line: Line) -> dict[str, Any]:
    """One finding: its words, its place, and its figures by size in mm, or in the unit that is stated."""
    place, worst = graded.finding.place, graded.worst
    shown = worst.row.place if worst is not None and worst.row.place is not None else place
    pointer = pointer_for(names.pattern, place) or None
    pieces = graded.finding.pieces or tuple(p.piece for p in graded.places if p.piece is not None)
    return {
        "check": graded.rule.id,
        "severity": graded.severity.word,
        "title": graded.rule.title,
        "where": head(graded, names) or None,
        "message": message(graded, names),
        "hint": hint(graded, names) or None,
        "pointer": pointer,
        "line": line(pointer) if pointer is not None else None,
        "seam": place.seam,
        "pieces": list(dict.fromkeys(pieces)),
        "at": {
            "piece": shown.piece or place.piece,
            "point": _point(shown),
            "size": worst.row.size if worst is not None else None,
        },
        "also": [{"seam": other.seam, "piece": other.piece} for other in graded.finding.also],
        "accepted": graded.accepted,
        "unit": graded.tolerance.unit if graded.tolerance is not None else None,
        "measured_in": (graded.rule.measured_in or graded.tolerance.unit)
        if graded.tolerance is not None
        else None,
        "sizes": [_row(row) for row in graded.rows],
    }


def _point(place: Place) -> list[float | None] | None:
    return [number(place.point.real), number(place.point.imag)] if place.point is not None else None


def _row(graded: GradedRow) -> dict[str, Any]:
    row = graded.row
    return {
        "size": row.size,
        "severity": graded.severity.word,
        "measured": number(row.measured),
        "expected": number(row.expected),
        "off": number(row.off),
    }
