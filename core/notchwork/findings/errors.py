"""The one base of all errors that are not a mistake in the program."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from difflib import get_close_matches

from notchwork.findings.wording import listed


class NotchworkError(Exception):
    """What could not be done, where, why, and how to repair it; each in plain words, ready to be shown.

    ``what`` is the file or thing concerned, by the name it was given; ``line`` and ``column`` count from 1 and are None
    where there is no such place.
    """

    def __init__(
        self, what: str, why: str, repair: str = "", line: int | None = None, column: int | None = None
    ) -> None:
        super().__init__(what, why, repair, line, column)
        self.what = what
        self.why = why
        self.repair = repair
        self.line = line
        self.column = column

    @property
    def where(self) -> str:
        """The place in words: "line 12, column 3", or nothing."""
        if self.line is None:
            return ""
        return f"line {self.line}" + (f", column {self.column}" if self.column is not None else "")

    def __str__(self) -> str:
        return " ".join(
            part
            for part in (": ".join(p for p in (self.what, self.where) if p) + ":", self.why, self.repair)
            if part
        )


_FEW = 12
"""As many names are listed where none is like the one asked for, before the rest is only counted."""


class UnknownName(NotchworkError):
    """A name was asked for that nothing has. ``name`` is that name, ``nearest`` the right one most like it, or None.

    ``known`` are the names that are told where none is like it; ``also`` are further ones that may be meant.
    """

    def __init__(self, kind: str, name: str, known: Iterable[str], also: Iterable[str] = ()) -> None:
        self.name = name
        names = sorted(known)
        self.nearest = next(iter(get_close_matches(name, [*names, *also], 1)), None)
        repair = f"Did you mean {self.nearest}?" if self.nearest else _known(name, names)
        super().__init__(name, f"There is no {kind} of this name.", repair)


def _known(name: str, names: Sequence[str]) -> str:
    """The names there are, as far as a person would read on: of ids such as "seams/wrong-way" the families, or one's own."""
    if not names:
        return "There is none at all."
    families: dict[str, list[str]] = {}
    for known in names:
        family, inside, flaw = known.partition("/")
        if inside:
            families.setdefault(family, []).append(flaw)
    own = families.get(name.partition("/")[0])
    if own is not None:
        return f"The family {name.partition('/')[0]} has {listed(own)}."
    if families:
        return f"The families are {listed(families)}."
    more = len(names) - _FEW
    if more > 1:
        return f"Known are {', '.join(names[:_FEW])} and {more} more."
    return f"Known {'is' if len(names) == 1 else 'are'} {listed(names)}."
