"""Which side of a seam leaves its own steps from size to size: the first place to look when only some sizes are off."""

from __future__ import annotations

from itertools import pairwise
from statistics import median
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from notchwork.sewing.names import side_names
from notchwork.sewing.pieces.lines import Floats
from notchwork.sewing.walks.walk import Comparison, Walk

if TYPE_CHECKING:
    from notchwork.sewing.nest import Nest

REGULAR = 0.5
"""mm: steps that differ by no more are alike (common practice, no source)."""


class Leaver(NamedTuple):
    """A side that leaves its own grade steps in ``size``: the steps (mm) about it, each from one size to the next."""

    name: str
    size: str
    steps: tuple[tuple[str, str, float], ...]


def leaves_its_steps(nest: Nest, walk: Walk, comparison: Comparison, size: int) -> Leaver | None:
    """The one side whose step to or from this size is unlike its other steps; None where neither's or both's is."""
    sizes = nest.pattern.sizes
    if sizes is None or not sizes.ordered or len(sizes.names) < 3:
        return None
    if abs(float(comparison.difference[size] - comparison.difference[nest.base])) <= REGULAR:
        return None  # as wrong in the size that is drafted: not the grading's fault
    sides = (comparison.one, comparison.side)
    odd = [k for k, side in enumerate(sides) if _odd_steps(side.length, size)]
    if len(odd) != 1:
        return None
    name, side = side_names(*sides)[odd[0]], sides[odd[0]]
    steps = tuple(
        (a, b, float(side.length[k + 1] - side.length[k]))
        for k, (a, b) in enumerate(pairwise(sizes.names))
        if size - 2 <= k <= size + 1
    )
    return Leaver(name, sizes.names[size], steps)


def _odd_steps(length: Floats, size: int) -> bool:
    steps = np.diff(length)
    beside = [k for k in (size - 1, size) if 0 <= k < len(steps)]
    others = [k for k in range(len(steps)) if k not in beside]
    if not others:
        return len(beside) > 1 and bool(abs(steps[beside[0]] - steps[beside[1]]) > REGULAR)
    usual = median(float(steps[k]) for k in others)
    return bool(np.any(np.abs(steps[beside] - usual) > REGULAR))
