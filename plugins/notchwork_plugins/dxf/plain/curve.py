"""What an entity draws, and what keeps it from drawing anything."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from notchwork.geometry.cubics import Complexes

NOTHING: Complexes = np.empty((0, 4), np.complex128)


class Curves(NamedTuple):
    """The cubics (n, 4) of several entities one after the other, how many each of them has, and which of them close.

    They are in the units of the block that holds them. An entity that draws nothing has no cubics; ``faults`` says why, by
    its number.
    """

    cubics: Complexes
    counts: list[int]
    closed: list[bool]
    faults: dict[int, str]


def straight(corners: Complexes) -> Complexes:
    """Straight cubics from corner to corner."""
    return np.stack([corners[:-1], corners[:-1], corners[1:], corners[1:]], axis=1)
