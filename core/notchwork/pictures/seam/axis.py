"""From mm of seam to px: one scale for everything in a card, so that lengths can be compared by eye."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import accumulate

from notchwork.findings import Length, worded
from notchwork.model import Unit
from notchwork.pictures import ink
from notchwork.pictures.laid import Bay, Laid
from notchwork.pictures.lettering import width
from notchwork.values import frozen

WIDTH = 344.0
"""px: a card's width, which is never scaled."""
LEFT, RIGHT = 8.0, 336.0
"""px: where a card's contents begin and end."""
RING = 10.0
"""px at either end of a ring, where it is shown to go on."""
LEAST = 1e-3
"""mm: a seam that is shorter has no length that could be drawn."""

_TENTHS = tuple(first * 10.0**power for power in range(-3, 7) for first in (1.0, 2.0, 5.0))
_HALVES = tuple(2.0**power for power in range(-6, 20))
_LONGEST = 80.0
"""px: a scale bar is no longer."""
_MM = {"in": 25.4, "cm": 10.0, "mm": 1.0}


@frozen
class Axis:
    """``scale``: px a mm of seam. Strips begin at ``left`` and end at ``right`` at most (px)."""

    scale: float
    left: float
    right: float

    def pins(self, bays: Sequence[Bay]) -> list[float]:
        """Where the pins stand (px), one more than there are bays."""
        return [*accumulate((bay.chord * self.scale for bay in bays), initial=self.left)]

    def bar(self, y: float, unit: Unit) -> str:
        """A scale bar of a round length that ends at the right, its words before it (y: its line)."""
        said, long = self._round(unit)
        return ink.text(RIGHT - long - 6.0, y, said, "muted", "end") + ink.path(
            f"M{ink.n(RIGHT - long)} {ink.n(y - 6.0)}v6h{ink.n(long)}v-6", "tick"
        )

    def bar_width(self, unit: Unit) -> float:
        """How much room that takes (px)."""
        said, long = self._round(unit)
        return width(said, 11.0) + 6.0 + long

    def _round(self, unit: Unit) -> tuple[str, float]:
        steps = _HALVES if unit == "in" else _TENTHS
        step = max((s for s in steps if s * _MM[unit] * self.scale <= _LONGEST), default=steps[0])
        said = (
            worded("{step:bare}", {"step": Length(step * _MM[unit])}, unit) if unit == "in" else f"{step:g}"
        )
        return f"seam: {said} {unit}", min(step * _MM[unit] * self.scale, _LONGEST)


def axis_of(laid: Iterable[Laid], ring: bool, column: float) -> Axis:
    """The scale by which the longest strip just fits; ``column``: px that are kept at the left for the size's name."""
    inset = RING if ring else 0.0
    left, right = LEFT + column + inset, RIGHT - inset
    longest = max((one.long for one in laid), default=0.0)
    return Axis((right - left) / max(longest, LEAST), left, right)
