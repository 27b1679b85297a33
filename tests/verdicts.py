"""What the checks say of shipped patterns and of documents written in a test."""

from __future__ import annotations

import json
from pathlib import Path

from patterns import CASES, Document

from notchwork import jobs
from notchwork.checks import Verdict
from notchwork.demo import __file__ as demo

SOUND = Path(demo).parent / "sound.pattern.json"
FAULTY = Path(demo).parent / "faulty.pattern.json"
FILES = [SOUND, FAULTY, *sorted(CASES.rglob("*.pattern.json"))]


def verdict_of(document: Document | Path, *only: str) -> Verdict:
    """What the checks (all, or those named) say of a document."""
    text = document.read_bytes() if isinstance(document, Path) else json.dumps(document).encode()
    return jobs.check(jobs.load(text, "test.pattern.json"), only)
