"""What a join wants of a stretch of seam, in numbers: the least and the most, in every size."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np

from notchwork.model import Join, Seam, Sized, in_size
from notchwork.sewing.pieces.lines import Floats

FINE = 1.6
"""mm: the difference that is fine on a seam that states nothing else: 1/16 in (Threads 200, 2018, "10 Patternwork Skills")."""

RATIO_SLACK = 0.10
"""A single ratio means that ratio ± 10 % (common practice, no source)."""


@dataclass(frozen=True, slots=True, eq=False)
class Wanted:
    """The range that a join states. ``unit`` "mm": of the difference (further side less side 1); "ratio": of the quotient."""

    unit: Literal["mm", "ratio"]
    least: Floats
    most: Floats

    def off(self, value: Floats) -> Floats:
        """How far (≥ 0) a value lies outside; for ratios in percent of the bound that it passes."""
        below, above = self.least - value, value - self.most
        if self.unit == "ratio":
            with np.errstate(divide="ignore", invalid="ignore"):
                below, above = 100.0 * below / self.least, 100.0 * above / self.most
        return np.maximum(np.maximum(below, above), 0.0)


def is_plain(join: Join | None) -> bool:
    """Whether a join makes both sides equal (a pleated side is, once its pleats are folded)."""
    return join is None or join.kind in ("plain", "pleated")


def fine_on(seam: Seam) -> float:
    """The difference (mm) that is fine on a seam."""
    return seam.tolerance if seam.tolerance is not None else FINE


def wanted(join: Join | None, seam: Seam, sizes: Sequence[str | None], one: Floats) -> Wanted | None:
    """What the join asks of a stretch whose side 1 is ``one`` (mm, sizes) long; None where it states no figure."""
    if join is None or is_plain(join):
        nothing = np.zeros(len(sizes))
        return Wanted("mm", nothing, nothing)
    if join.amount is not None:
        return Wanted("mm", *_bounds(join.amount, sizes, fine_on(seam)))
    if join.percent is not None:
        least, most = _bounds(join.percent, sizes, 0.0)
        slack = 0.0 if isinstance(join.percent, tuple) else fine_on(seam)
        return Wanted("mm", least / 100.0 * one - slack, most / 100.0 * one + slack)
    if join.ratio is not None:
        least, most = _bounds(join.ratio, sizes, 0.0)
        if not isinstance(join.ratio, tuple):
            least, most = least * (1 - RATIO_SLACK), most * (1 + RATIO_SLACK)
        return Wanted("ratio", least, most)
    return None


def _bounds(
    value: Sized | tuple[Sized, Sized], sizes: Sequence[str | None], slack: float
) -> tuple[Floats, Floats]:
    if isinstance(value, tuple):
        low, high = (np.array([in_size(v, size) for size in sizes], dtype=float) for v in value)
        return low, high
    single = np.array([in_size(value, size) for size in sizes], dtype=float)
    return single - slack, single + slack
