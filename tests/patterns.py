"""Patterns for tests: the shipped cases, and nests of documents that are written in a test."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from notchwork import jobs
from notchwork.checks import Names, hint, message
from notchwork.document import read_pattern
from notchwork.sewing import Nest

Document = dict[str, Any]
CASES = Path(__file__).parent / "cases"


def case(name: str) -> Document:
    """A shipped case by the stem of its file name."""
    document: Document = json.loads((CASES / f"{name}.pattern.json").read_text("utf-8"))
    return document


def nest_of(document: Document) -> Nest:
    """The nest of a document; fails with its faults where it cannot be read."""
    result = read_pattern(json.dumps(document).encode(), "test")
    assert result.pattern is not None, result.faults
    return Nest(result.pattern)


def said(document: Document, *only: str) -> list[tuple[str, str, str]]:
    """What the checks (all, or those named) say of a document: rule, severity, and the message with its hint."""
    verdict = jobs.check(jobs.load(json.dumps(document).encode(), "test.pattern.json"), only)
    names = Names(verdict.pattern)
    return [
        (graded.rule.id, graded.severity.word, f"{message(graded, names)} {hint(graded, names)}")
        for graded in verdict.findings
    ]


def loud(document: Document, *only: str) -> dict[str, str]:
    """The rules that speak above info, each with its severity."""
    return {rule: severity for rule, severity, _ in said(document, *only) if severity != "info"}
