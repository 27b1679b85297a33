"""Which checks run: all, or those named."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from notchwork.checks.check import Check
from notchwork.findings import UnknownName


def selected(checks: Sequence[Check], only: Iterable[str] = ()) -> tuple[Check, ...]:
    """The checks named by id ("seams/unequal-length") or family ("seams" or "seams/"); all if none is named.

    Raises UnknownName for a name that is neither.
    """
    wanted = [name.rstrip("/") for name in only]
    if not wanted:
        return tuple(checks)
    known = {check.id for check in checks} | {check.rule.family for check in checks}
    for name in wanted:
        if name not in known:
            raise UnknownName("check", name, known)
    return tuple(check for check in checks if check.id in wanted or check.rule.family in wanted)


def named(checks: Sequence[Check], every: Sequence[Check]) -> tuple[str, ...]:
    """Checks in as few names as will do: a family where all its checks among ``every`` are there, else each by its id."""
    left_out = {check.rule.family for check in every if check not in checks}
    names = (check.id if check.rule.family in left_out else check.rule.family for check in checks)
    return tuple(dict.fromkeys(names))
