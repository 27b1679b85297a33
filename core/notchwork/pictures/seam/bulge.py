"""Cloth that is too long for its stretch hangs off as an arc of a circle that is as long as the cloth."""

from __future__ import annotations

import cmath
import math

from notchwork.pictures.ink import n
from notchwork.values import frozen

TALLEST = 34.0
"""px: a taller bulge is laid as several equal ones."""


@frozen
class Bulge:
    """Equal arcs side by side over a chord, together as long as the cloth (px).

    ``angle``: half of what each arc turns through (rad), 0 for cloth that is no longer than its chord.
    """

    chord: float
    angle: float
    count: int

    @property
    def radius(self) -> float:
        """Of every arc (px); infinite where it is straight."""
        return self.chord / self.count / 2.0 / math.sin(self.angle) if self.angle else math.inf

    @property
    def height(self) -> float:
        """How far it hangs off (px)."""
        return self.chord / self.count / 2.0 * math.tan(self.angle / 2.0)

    def path(self, way: int, back: bool = False) -> str:
        """The arcs as path data relative to where they start; ``way`` +1 bulges down, -1 up; ``back`` from right to left."""
        each = (-1.0 if back else 1.0) * self.chord / self.count
        if not self.angle:
            return f"h{n(each * self.count)}"
        large, sweep = int(self.angle > math.pi / 2.0), int((way < 0) != back)
        radius = _fine(self.radius)
        return f"a{radius} {radius} 0 {large} {sweep} {_fine(each)} 0" * self.count

    def at(self, share: float, way: int) -> complex:
        """Where a share of the cloth's length lies, from its start (px, y downward)."""
        if not self.angle:
            return complex(share * self.chord)
        run = min(max(share, 0.0), 1.0) * self.count
        arc = min(int(run), self.count - 1)
        turn = (2.0 * (run - arc) - 1.0) * self.angle
        point = cmath.rect(self.radius, turn - math.pi / 2.0) + 1j * self.radius * math.cos(self.angle)
        each = self.chord / self.count
        return complex((arc + 0.5) * each + point.real, -way * point.imag)


def bulge(chord: float, length: float) -> Bulge:
    """The arcs as long as ``length`` over a chord (px > 0), in as many as keep each below TALLEST."""
    if length <= chord * (1.0 + 1e-9):
        return Bulge(chord, 0.0, 1)
    angle = half_angle(length / chord)
    return Bulge(chord, angle, max(1, math.ceil(chord / 2.0 * math.tan(angle / 2.0) / TALLEST)))


def _fine(px: float) -> str:
    """With more digits than elsewhere: near a half circle the height hangs on them."""
    return f"{px:.4f}".rstrip("0").rstrip(".")


def half_angle(ratio: float) -> float:
    """The half angle a (rad) of an arc that is ``ratio`` times its chord: a / sin a = ratio, by bisection."""
    low, high = 0.0, math.pi
    for _ in range(52):
        middle = (low + high) / 2.0
        if middle < ratio * math.sin(middle):
            low = middle
        else:
            high = middle
    return low
