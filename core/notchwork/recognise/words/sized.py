"""One piece in several sizes: figures and points that hold for all of them or for each."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from notchwork.model import Sized

SAME = 5e-4
"""mm: figures nearer than this are one."""

BySize = Mapping[str | None, float]
Points = Mapping[str | None, complex]


def sized(values: BySize, digits: int = 6) -> Sized:
    """One number where all sizes have it, else one for each size by name."""
    numbers = {size: round(value, digits) for size, value in values.items()}
    if max(numbers.values()) - min(numbers.values()) <= SAME or None in numbers:
        return next(iter(numbers.values()))
    return {str(size): number for size, number in numbers.items()}


@dataclass(slots=True)
class Shifts:
    """Grade rules for points that move from size to size and are no nodes of an outline.

    A rule is made where none that the drawing brings shifts the same way in every size.
    """

    sizes: Sequence[str]
    base: str | None
    rules: dict[str, Mapping[str, complex]] = field(default_factory=dict)

    def rule(self, at: Points, wanted: str) -> str | None:
        """The rule by which a point lies where it does in each size; None where it stays, or is drawn in one size only."""
        if self.base is None or self.base not in at or len(at) < len(self.sizes):
            return None
        shifts = {size: at[size] - at[self.base] for size in self.sizes if size != self.base}
        if all(abs(shift) <= SAME for shift in shifts.values()):
            return None
        for name, rule in self.rules.items():
            if all(abs(rule.get(size, 0j) - shift) <= SAME for size, shift in shifts.items()):
                return name
        name = wanted
        while name in self.rules:
            name += "_"
        self.rules[name] = shifts
        return name
