"""What came of one file: its verdict, or why there is none. Every rendering of a check begins with it."""

from __future__ import annotations

from collections.abc import Callable

from notchwork.checks import Verdict
from notchwork.document import pointer_for
from notchwork.findings import NotchworkError, Place
from notchwork.values import frozen

Line = Callable[[str], int | None]
"""The line (from 1) on which a JSON pointer's value stands; None where the file has no lines or no such value."""


def no_line(pointer: str) -> int | None:
    """The lines of what has none."""
    return None


@frozen
class Outcome:
    """``name`` is what the file is called in messages. Either ``verdict`` or ``error`` is there."""

    name: str
    verdict: Verdict | None = None
    error: NotchworkError | None = None
    line: Line = no_line

    def pointer_of(self, place: Place) -> str | None:
        """The JSON pointer (RFC 6901) of what a place names; None where it names nothing of the pattern."""
        return (pointer_for(self.verdict.pattern, place) or None) if self.verdict is not None else None

    def line_of(self, place: Place) -> int | None:
        """The line of the file on which it stands."""
        pointer = self.pointer_of(place)
        return self.line(pointer) if pointer is not None else None


def why(outcome: Outcome) -> str:
    """Why there is no verdict, and what to do, without naming the file again; nothing where there is one."""
    error = outcome.error
    if error is None:
        return ""
    named = "" if error.what == outcome.name else f"{error.what}:"
    return " ".join(part for part in (named, error.why, error.repair) if part)
