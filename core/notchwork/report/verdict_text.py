"""The verdict in one plain sentence."""

from __future__ import annotations

from notchwork.checks import Graded, Verdict
from notchwork.findings import Severity, listed


def verdict_sentence(verdict: Verdict) -> str:
    """ "Sews together: 9 seams walked in S, M and L; nothing to mend." or what stands against it."""
    faults = verdict.at_least(Severity.WARNING)
    if verdict.checked is None:
        return f"Could not be checked: {_counted(faults)} in how the pattern is written."
    walked = _times(verdict.checked.seams, "seam") + " walked"
    if verdict.checked.sizes:
        walked += f" in {listed(verdict.checked.sizes)}"
    if not faults:
        accepted = sum(graded.accepted is not None for graded in verdict.findings)
        rest = f"{_times(accepted, 'finding')} accepted on purpose" if accepted else "nothing to mend"
        return f"Sews together: {walked}; {rest}."
    opening = "Does not sew together" if verdict.at_least(Severity.ERROR) else "Look again before cutting"
    return f"{opening}: {_counted(faults)}; {walked}{_concerned(faults)}."


def _counted(faults: tuple[Graded, ...]) -> str:
    errors = sum(graded.severity is Severity.ERROR for graded in faults)
    warnings = len(faults) - errors
    return " and ".join(
        _times(count, word) for count, word in ((errors, "error"), (warnings, "warning")) if count
    )


def _concerned(faults: tuple[Graded, ...]) -> str:
    seams = {graded.finding.place.seam for graded in faults if graded.finding.place.seam is not None}
    return f", {len(seams)} with findings" if seams else ""


def _times(count: int, word: str) -> str:
    return f"{count} {word}{'' if count == 1 else 's'}"
