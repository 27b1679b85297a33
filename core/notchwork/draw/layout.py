"""Groups laid side by side in rows."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

import numpy as np

from notchwork.drawing import Group

GAP = 30.0
"""mm between two groups."""
WIDER_THAN_TALL = 1.5


def in_rows(groups: Sequence[Group]) -> Iterator[Group]:
    """The groups in their order, in rows from the top left, no row much wider than the whole is tall."""
    boxes = [group.bounds or (0j, 0j) for group in groups]
    sizes = [high - low for low, high in boxes]
    area = sum((size.real + GAP) * (size.imag + GAP) for size in sizes)
    widest = max([np.sqrt(WIDER_THAN_TALL * area), *(size.real for size in sizes)], default=0.0)
    x = y = 0.0
    tallest = 0.0
    for group, (low, _), size in zip(groups, boxes, sizes, strict=True):
        if x > 0.0 and x + size.real > widest:
            x, y, tallest = 0.0, y - tallest - GAP, 0.0
        # Pieces of a row stand on a common upper edge.
        place = complex(x - low.real, y - size.imag - low.imag)
        yield replace(group, shift=group.shift + place)
        x += size.real + GAP
        tallest = max(tallest, size.imag)
