"""Cloth that is drawn up is a wave as long as the cloth: equal half waves, whose height is solved from that length."""

from __future__ import annotations

from functools import cache

import numpy as np

from notchwork.geometry import lengths
from notchwork.sewing.pieces.lines import Floats
from notchwork.values import frozen

PERIOD = 11.0
"""px: how wide a whole wave is, where it does not get too tall for that."""
TALLEST = 34.0
"""px: a wave that would be taller is made narrower, as far as it can be told from the next one."""
NARROWEST = 3.5
"""px: a narrower wave could not be told from the next one."""


@frozen
class Wave:
    """``count`` whole waves over a chord (px), each reaching ``height`` px above and below its middle."""

    chord: float
    count: int
    height: float

    def path(self) -> str:
        """The wave as path data relative to where it starts, on its middle line: a parabola, mirrored again and again."""
        half = self.chord / self.count / 2.0
        return f"q{half / 2.0:.3f} {-2.0 * self.height:.3f} {half:.3f} 0" + f"t{half:.3f} 0" * (
            2 * self.count - 1
        )


def wave(chord: float, ratio: float) -> Wave:
    """The wave that is ``ratio`` times as long as its chord (px > 0)."""
    steep = steepness(ratio)
    period = PERIOD
    if steep * period > TALLEST / 2.0:
        period = max(TALLEST / 2.0 / steep, NARROWEST)
    count = max(1, round(chord / period))
    return Wave(chord, count, steep * chord / count)


def steepness(ratio: float) -> float:
    """The height of a wave above its middle as a share of its width, for its length as a multiple of its width."""
    steep, ratios = _table()
    return float(np.interp(ratio, ratios, steep))


@cache
def _table() -> tuple[Floats, Floats]:
    """Steepnesses, and the lengths of their waves, so close that between them a straight line will do."""
    steep = np.concatenate([np.linspace(0.0, 4.0, 1500), np.geomspace(4.0, 1000.0, 300)[1:]])
    # A parabola through 0 and 1 whose handle is twice as high as it is, as a cubic.
    handle = 1.0 / 3.0 + 8j * steep / 3.0
    halves = np.stack([0.0 * handle, handle, handle + 1.0 / 3.0, 1.0 + 0.0 * handle], axis=1)
    return steep, lengths(halves)
