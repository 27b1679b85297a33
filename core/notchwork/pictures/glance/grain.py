"""The lengthwise thread as an arrow with two heads."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from notchwork.pictures import ink
from notchwork.pictures.glance.room import Room
from notchwork.pictures.trail import trail

SHARES = (1.0, 0.7, 0.45, 0.25)
"""How much of the line may be drawn, the best first."""
SHORTEST = 16.0
HEAD = 5.0
CLEAR = 4.0
"""px: how far an arrow stays from everything else."""


def grain_place(drawn: tuple[complex, complex], room: Room) -> tuple[complex, complex] | None:
    """Where the arrow has room: where it is drawn, or a shorter one beside; None where there is none."""
    a, b = drawn
    for share in SHARES:
        step = (b - a) * share
        if abs(step) < SHORTEST and share < 1.0:
            return None
        middle = room.nearest((a + b) / 2, abs(step.real), abs(step.imag), CLEAR)
        if middle is not None:
            return middle - step / 2, middle + step / 2
    return None


def grain_marks(a: complex, b: complex) -> Iterator[str]:
    """A shaft with a head at either end."""
    way = (b - a) / abs(b - a)
    head = min(HEAD, abs(b - a) / 3)
    d = trail(np.array([a, b]))
    for tip, along in ((b, way), (a, -way)):
        wings = [tip - head * along * np.exp(1j * side * np.radians(28)) for side in (1, -1)]
        d += trail(np.array([wings[0], tip, wings[1]]))
    yield ink.path(d, "grain")
