"""The verdict in one plain sentence, and what was not looked at."""

from __future__ import annotations

from collections.abc import Iterator

from notchwork.checks import Checked, Graded, Names, Verdict
from notchwork.document import MORE_FAULTS
from notchwork.findings import Severity, listed
from notchwork.report.about_pattern import counted

MOST_NAMED = 6
"""Pieces that are named one by one."""


def verdict_sentence(verdict: Verdict) -> str:
    """ "Sews together: 9 seams walked in S, M and L; nothing to mend." or what stands against it."""
    faults = verdict.at_least(Severity.WARNING)
    if verdict.checked is None:
        more = any(graded.rule.id == MORE_FAULTS.id for graded in verdict.findings)
        return f"Could not be checked: {'more than ' if more else ''}{_faults(faults)} in how the pattern is written."
    if not verdict.complete:
        return _in_part(verdict.checked.only, faults)
    walked = _walked(verdict.checked)
    if not faults:
        accepted = sum(graded.accepted is not None for graded in verdict.findings)
        rest = f"{counted(accepted, 'finding')} accepted on purpose" if accepted else "nothing to mend"
        opening = "Sews together" if verdict.checked.seams else "Nothing to sew together"
        return f"{opening}: {walked}; {rest}."
    opening = "Does not sew together" if verdict.at_least(Severity.ERROR) else "Look again before cutting"
    return f"{opening}: {_faults(faults)}; {walked}{_concerned(faults)}."


def not_run(verdict: Verdict, names: Names) -> Iterator[str]:
    """A sentence for each reason why checks could say nothing of some pieces."""
    reasons: dict[tuple[str, int], list[str]] = {}
    for skipped in verdict.checked.not_run if verdict.checked is not None else ():
        reasons.setdefault((skipped.why, len(skipped.checks)), []).append(names.piece(skipped.piece))
    for (why, count), pieces in reasons.items():
        shown = (
            [*pieces[:MOST_NAMED], f"{len(pieces) - MOST_NAMED} more"]
            if len(pieces) > MOST_NAMED + 1
            else pieces
        )
        checks = f"{count} checks were" if count > 1 else "one check was"
        yield f"{listed(shown)}: {why}, so {checks} not run there."


def _in_part(only: tuple[str, ...], faults: tuple[Graded, ...]) -> str:
    """What was not looked at may hold anything, so nothing is said of the whole."""
    found = _faults(faults) or "nothing found there"
    return f"Only {listed(only)} {'was' if len(only) == 1 else 'were'} looked at: {found}."


def _walked(checked: Checked) -> str:
    if not checked.seams:
        return "no seam is stated"
    walked = counted(checked.seams, "seam") + " walked"
    return f"{walked} in {listed(checked.sizes)}" if checked.sizes else walked


def _faults(faults: tuple[Graded, ...]) -> str:
    errors = sum(graded.severity is Severity.ERROR for graded in faults)
    warnings = len(faults) - errors
    return " and ".join(
        counted(count, word) for count, word in ((errors, "error"), (warnings, "warning")) if count
    )


def _concerned(faults: tuple[Graded, ...]) -> str:
    seams = {place.seam for graded in faults for place in graded.places if place.seam is not None}
    return f", {len(seams)} with findings" if seams else ""
