"""Which stretches of two sides of a seam come to lie on each other."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from notchwork.sewing.pieces.lines import Floats
from notchwork.sewing.walks.marks import SideWalk
from notchwork.sewing.walks.spans import Stretch

SHORT = 5.0
"""mm: stretches that lie against each other for less are neighbours at a joint (common practice, no source)."""


def facing(one: SideWalk, other: SideWalk) -> Iterator[tuple[Stretch, Stretch]]:
    """The stretches of two sides that come to lie on each other, by their share of the side."""
    if not one.stretches or not other.stretches:
        return
    (a_low, a_high), (b_low, b_high) = _shares(one), _shares(other)
    for k, stretch in enumerate(one.stretches):
        common = np.minimum(a_high[k], b_high) - np.maximum(a_low[k], b_low)
        with np.errstate(invalid="ignore"):
            lying = np.any(common * one.length > SHORT, axis=1)
        for m in np.flatnonzero(lying).tolist():
            yield stretch, other.stretches[m]


def _shares(side: SideWalk) -> tuple[Floats, Floats]:
    """Where each stretch starts and stops (stretches, sizes), as shares of the side."""
    whole = np.where(side.length > 0, side.length, np.nan)
    starts = np.stack(side.starts)
    return starts / whole, (starts + np.stack([stretch.length for stretch in side.stretches])) / whole
