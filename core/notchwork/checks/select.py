"""Which checks run: all, or those named."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from difflib import get_close_matches

from notchwork.checks.check import Check


class UnknownCheck(ValueError):
    """No check or family has this name. ``name`` is what was asked for, ``nearest`` a right name like it, or None."""

    def __init__(self, name: str, nearest: str | None) -> None:
        super().__init__(f"there is no check {name!r}" + (f"; did you mean {nearest!r}?" if nearest else ""))
        self.name = name
        self.nearest = nearest


def selected(checks: Sequence[Check], only: Iterable[str] = ()) -> tuple[Check, ...]:
    """The checks named by id ("seams/unequal-length") or family ("seams" or "seams/"); all if none is named.

    Raises UnknownCheck for a name that is neither.
    """
    wanted = [name.rstrip("/") for name in only]
    if not wanted:
        return tuple(checks)
    known = {check.id for check in checks} | {check.rule.family for check in checks}
    for name in wanted:
        if name not in known:
            raise UnknownCheck(name, next(iter(get_close_matches(name, sorted(known), 1)), None))
    return tuple(check for check in checks if check.id in wanted or check.rule.family in wanted)
