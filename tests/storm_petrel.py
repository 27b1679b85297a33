"""The demo in tests: its documents, the table of its faults, and what the checks say of a document."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from patterns import Document

from notchwork import jobs
from notchwork.checks import Graded, Verdict
from notchwork.demo import example
from notchwork.findings import Severity

FAULTS: dict[str, Document] = json.loads(
    (Path(__file__).parent / "cases" / "storm_petrel_faults.json").read_text()
)
"""By name: ``pointer`` and the ``sound`` and ``faulty`` value there (either may be absent), and the check that ``speaks`` ``of`` what."""


def sound() -> Document:
    """A copy of the sound demo, free to be damaged."""
    document: Document = json.loads(example("sound.pattern.json"))
    return document


def faulty() -> Document:
    """A copy of the faulty demo."""
    document: Document = json.loads(example("faulty.pattern.json"))
    return document


def put(document: Document, pointer: str, value: Any = None, absent: bool = False) -> None:
    """Set what a JSON pointer leads to, or take it away; objects on the way are made."""
    *way, last = pointer.split("/")[1:]
    at: Any = document
    for key in way:
        at = at[int(key)] if isinstance(at, list) else at.setdefault(key, {})
    if absent:
        del at[last]
    else:
        at[int(last) if isinstance(at, list) else last] = value


def with_fault(document: Document, name: str) -> None:
    """Enter one fault of the table."""
    put(document, FAULTS[name]["pointer"], FAULTS[name].get("faulty"), absent="faulty" not in FAULTS[name])


def without_fault(document: Document, name: str) -> None:
    """Undo one fault of the table."""
    put(document, FAULTS[name]["pointer"], FAULTS[name].get("sound"), absent="sound" not in FAULTS[name])


def verdict(document: Document, only: tuple[str, ...] = ()) -> Verdict:
    """What the checks say of a document."""
    loaded = jobs.load(json.dumps(document).encode(), name="test.pattern.json")
    return jobs.check(loaded, only)


def loud(verdict: Verdict) -> tuple[Graded, ...]:
    """What is said above info."""
    return verdict.at_least(Severity.WARNING)
