"""Patterns for tests: the shipped cases, and nests of documents that are written in a test."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

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
