"""Cloth that is drawn up is a wave as long as the cloth: equal half waves, whose height is solved from that length."""

from __future__ import annotations

from functools import cache

import numpy as np

from notchwork.geometry import lengths
from notchwork.pictures.ink import n
from notchwork.sewing.pieces.lines import Floats
from notchwork.values import frozen

PERIOD = 11.0
"""px: how wide a whole wave is, where it does not get too tall for that."""
TALLEST = 34.0
"""px: a wave that would be taller is made narrower, as far as it can be told from the next one."""
NARROWEST = 3.5
"""px: a narrower wave could not be told from the next one."""
_LEAN = 0.3642
"""Where the handles of a half wave stand, as a share of its width: the nearest one cubic comes to a sine."""


@frozen
class Wave:
    """``count`` whole waves over a chord (px), each reaching ``height`` px above and below its middle."""

    chord: float
    count: int
    height: float

    def path(self) -> str:
        """The wave as path data relative to where it starts, on its middle line."""
        half = self.chord / self.count / 2.0
        up, lean = -self.height / 0.75, half * _LEAN
        wave = _half(half, lean, up) + _half(half, lean, -up)
        return wave * self.count


def _half(half: float, lean: float, up: float) -> str:
    return f"c{n(lean)} {n(up)} {n(half - lean)} {n(up)} {n(half)} 0"


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
    up = 2j * steep / 0.75
    halves = np.stack([0.0 * up, _LEAN + up, 1.0 - _LEAN + up, 1.0 + 0.0 * up], axis=1)
    return steep, lengths(halves)
