"""The main job: a pattern goes in, every check runs, a verdict comes out."""

from __future__ import annotations

from collections.abc import Iterable

from notchwork.checks import Graded, Verdict, judged, run, selected
from notchwork.host import registry
from notchwork.jobs.load import Loaded
from notchwork.model import Pattern
from notchwork.sewing import Nest


def check(what: Loaded | Pattern, only: Iterable[str] = ()) -> Verdict:
    """Check a pattern in every size. ``only`` names checks or families of checks; all run if none is named.

    Of a document with faults the verdict holds those faults and ``checked`` is None. Raises UnknownName for a check that
    is not there.
    """
    everything = registry()
    chosen = selected(everything.checks, only)
    if isinstance(what, Pattern):
        pattern, before = what, everything.findings
    else:
        before = (*what.findings, *everything.findings)
        if what.pattern is None:
            nothing = Pattern()
            return Verdict(nothing, tuple(judged(before, nothing)))
        pattern = what.pattern
    return run(Nest(pattern).taken_whole(), chosen, before, everything.checks)


def faults(loaded: Loaded) -> tuple[Graded, ...]:
    """What is to be said of how a document is written, in the text's order."""
    return tuple(judged(loaded.findings, Pattern()))
