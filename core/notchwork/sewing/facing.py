"""Which stretches of two sides of a seam come to lie on each other."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import product

import numpy as np

from notchwork.sewing.lines import Floats
from notchwork.sewing.marks import SideWalk
from notchwork.sewing.spans import Stretch

SHORT = 5.0
"""mm: stretches that lie against each other for less are neighbours at a joint (common practice, no source)."""


def facing(one: SideWalk, other: SideWalk) -> Iterator[tuple[Stretch, Stretch]]:
    """The stretches of two sides that come to lie on each other, by their share of the side."""
    for (a, a_low, a_high), (b, b_low, b_high) in product(_shares(one), _shares(other)):
        common = np.minimum(a_high, b_high) - np.maximum(a_low, b_low)
        if bool(np.any(np.nan_to_num(common * one.length) > SHORT)):
            yield a, b


def _shares(side: SideWalk) -> list[tuple[Stretch, Floats, Floats]]:
    whole = np.where(side.length > 0, side.length, np.nan)
    return [
        (stretch, start / whole, (start + stretch.length) / whole)
        for stretch, start in zip(side.stretches, side.starts, strict=True)
    ]
