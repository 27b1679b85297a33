"""One scale for all pieces, and pieces laid in rows without touching."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence

ROOM = 328.0
"""px: the width there is."""
ACROSS, DOWN = 12.0, 14.0
"""px between two pieces of a row, and between two rows."""
MARGIN, WORDS = 10.0, 84.0
"""px beside a piece for what stands beside its edges, and the width of words below it."""
BELOW = 45.0
"""px below a piece for its words."""
TALLEST = 330.0
"""px: no piece is taller."""
HEIGHT, A_PIECE, OF_MANY, MANY = 250.0, 75.0, 45.0, 12
"""px: all rows together are no taller than the first, and so much more for each piece; for each beyond MANY less."""
FINER = 1.04


def scale_for(boxes: Callable[[float], Sequence[complex]]) -> float:
    """N of the scale 1 : N at which pieces fill the width and no more height than is useful.

    ``boxes`` gives their extents (px, upright) at a scale 1 : N; from 1 : 1 on, so that nothing is drawn too large.
    """
    drawn = 1.0
    while True:
        found = [complex(max(box.real, WORDS) + MARGIN, box.imag + BELOW) for box in boxes(drawn)]
        if not found:
            return drawn
        over = max(max(box.real for box in found) / ROOM, (max(box.imag for box in found) - BELOW) / TALLEST)
        tall = sum(max(found[k].imag for k in row) + DOWN for row in rows(found))
        few = min(len(found), MANY)
        most = HEIGHT + A_PIECE * few + OF_MANY * (len(found) - few)
        if over <= 1.0 and tall <= most:
            return _rounded(drawn)
        drawn *= max(FINER, min(over, 1.5), min((tall / most) ** 0.3, 1.5))


def _rounded(drawn: float) -> float:
    """Up to a tenth, from 20 on to a whole number."""
    return math.ceil(drawn * 10 - 1e-9) / 10 if drawn < 20 else float(math.ceil(drawn - 1e-9))


def rows(boxes: Sequence[complex], room: float = ROOM) -> Iterator[list[int]]:
    """The numbers of the boxes (px) of each row, in their order."""
    row: list[int] = []
    filled = 0.0
    for number, box in enumerate(boxes):
        if row and filled + box.real > room:
            yield row
            row, filled = [], 0.0
        row.append(number)
        filled += box.real + ACROSS
    if row:
        yield row
