"""A check: one rule and the generator that finds what breaks it."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING, Literal

from notchwork.findings import Finding, Rule
from notchwork.values import frozen

if TYPE_CHECKING:
    from notchwork.sewing import Nest

Needs = Literal["lengths", "shapes"]
Find = Callable[["Nest"], Iterator[Finding]]


@frozen
class Check:
    """A rule and how to find what breaks it.

    ``needs`` "shapes": the check can say nothing of a piece without a drawn outline, which the verdict then tells once
    per piece; the check itself passes over such pieces. "lengths": tape-measured edges are enough.
    """

    rule: Rule
    find: Find
    needs: Needs = "lengths"

    @property
    def id(self) -> str:
        return self.rule.id


def check(rule: Rule, needs: Needs = "lengths") -> Callable[[Find], Check]:
    """Make a generator over a nest into a check of ``rule``.

    ::

        @check(UNEQUAL)
        def unequal_length(nest: Nest) -> Iterator[Finding]:
            for seam, walk in nest.walks.items():
                yield Finding(UNEQUAL, Place(seam=seam), "{longer} is {difference} longer than {shorter}.", rows=...)

    It yields one finding per fault with a row for every size it looked at, right or wrong, and nothing else: it does not
    print, change the nest, format a number, decide a severity or catch what is not its own.
    """

    def declared(find: Find) -> Check:
        return Check(rule, find, needs)

    return declared
