"""The letters of seams on a piece: the same one stands on every edge that a seam joins."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from notchwork.draw.places import places_on, reading_angle
from notchwork.draw.plate import Plate
from notchwork.draw.stating import seam_statement
from notchwork.draw.stretches import Taken
from notchwork.drawing import Fact, Stroke, Text
from notchwork.geometry import circle
from notchwork.sewing import GradedPiece, Nest

LETTER = 4.0
"""mm: the height of a letter."""
GAP = 1.5
"""mm between the edge and a letter's ring."""
STEP = 10.0
"""mm from one place that is tried to the next along the edge."""
TRIES = (0, 1, -1, 2, -2, 3, -3, 4, -4)
SHARES = (0.25, 0.75, 0.12, 0.88)
"""Further places, as shares of the stretch."""
DEPTHS = (0.0, 9.0)
"""mm further into the piece."""
ARCS = 4
"""Cubics of a ring."""


def match_labels(
    nest: Nest, graded: GradedPiece, taken: Sequence[Taken], size: int, plate: Plate, states: bool
) -> Iterator[Stroke | Text]:
    """The letter of every seam in a ring, just inside the middle of its stretch of an edge, or beside a line inside the piece.

    It keeps clear of what the plate holds, and is entered there. The first letter of a seam says in its facts what the seam
    is, where ``states``.
    """
    for one in taken:
        if not np.isfinite(one.low[size]) or not np.isfinite(one.high[size]):
            continue
        facts: dict[Fact, str | float] = {"seam": one.seam, "edge": one.line.name}
        if one.first and states:
            facts["states"] = seam_statement(nest, one.seam)
        radius = 0.75 * LETTER + 0.25 * LETTER * len(one.letter) ** 0.5 * (len(one.letter) > 1)
        middle, text = _best(nest, graded, one, size, radius, plate)
        yield Stroke(circle(middle, radius, ARCS), "match", True, {"seam": one.seam, "edge": one.line.name})
        yield Text(text.at, text.words, text.height, "match", "middle", text.angle, facts)


def _best(
    nest: Nest, graded: GradedPiece, one: Taken, size: int, radius: float, plate: Plate
) -> tuple[complex, Text]:
    """The middle of the ring and its letter, where they lie on least."""
    low, high = float(one.low[size]), float(one.high[size])
    middle, room = (low + high) / 2, (high - low) / 2 - radius
    arcs = [middle + STEP * k for k in TRIES if abs(STEP * k) <= max(room, 0.0)]
    arcs += [low + share * (high - low) for share in SHARES if room > STEP]
    whole = float(one.line.length[size])
    wrapped = [arc % whole if one.line.closed else arc for arc in arcs]
    at, outward = places_on(nest, graded, one.line, wrapped, size)
    least, best = np.inf, None
    for depth in DEPTHS:
        for z, out in zip(at - (GAP + radius + depth) * outward, outward, strict=True):
            corners = tuple(complex(z + radius * c) for c in (-1 - 1j, 1 - 1j, 1 + 1j, -1 + 1j))
            hits = plate.hits((corners[0], corners[1], corners[2], corners[3]))
            if hits < least:
                least, best = hits, (complex(z), complex(out), corners)
            if not hits:
                break
        if least == 0:
            break
    assert best is not None
    z, out, corners = best
    plate.write((corners[0], corners[1], corners[2], corners[3]))
    angle = reading_angle(out)
    down = -0.36 * LETTER * 1j * np.exp(1j * np.radians(angle))
    return z, Text(complex(z + down), one.letter, LETTER, angle=angle)
