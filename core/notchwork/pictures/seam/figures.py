"""Placing figures and names so that no two of them touch: the later one gives way."""

from __future__ import annotations

from notchwork.findings import Severity
from notchwork.pictures import ink
from notchwork.pictures.lettering import width
from notchwork.pictures.signs import SMALL, small
from notchwork.values import frozen

APART = 4.0
"""px: figures keep at least this far apart."""
SIZES = {
    "figure": (14.0, True),
    "ease": (12.0, True),
    "strong": (12.0, True),
    "muted": (11.0, False),
    "": (12.0, False),
}
"""The size of type (px) of each kind of words, and whether it is bold: as ``roles.STYLE`` has them."""


def wide(said: str, kind: str) -> float:
    """How wide words of a kind are (px)."""
    size, bold = SIZES[kind]
    return width(said, size, bold)


@frozen
class Box:
    """What a line of words takes up (px)."""

    left: float
    top: float
    right: float
    bottom: float

    def touches(self, other: Box) -> bool:
        return (
            self.left < other.right + APART
            and other.left < self.right + APART
            and self.top < other.bottom
            and other.top < self.bottom
        )


class Figures:
    """Words about one seam line, at y 0. They are kept between ``left`` and ``right`` (px)."""

    def __init__(self, left: float, right: float) -> None:
        self._left, self._right = left, right
        self._taken: list[Box] = []
        self.parts: list[str] = []

    def put(
        self,
        middle: float,
        near: float,
        way: int,
        said: str,
        kind: str,
        sign: Severity | None = None,
    ) -> None:
        """Words about a middle, beyond ``near`` (px): below it with ``way`` +1, above with -1; further off where others stand.

        With ``sign``, what that stands for is drawn before them.
        """
        size = SIZES[kind][0]
        before = SMALL + 2.0 * APART if sign is not None else 0.0
        half = (wide(said, kind) + before) / 2.0
        x = min(max(middle, self._left + half), self._right - half)
        y = near + size if way > 0 else near - 0.3 * size
        box = _box(x, y, half, size)
        while any(box.touches(other) for other in self._taken):
            y += way * size * 0.5
            box = _box(x, y, half, size)
        self._taken.append(box)
        if sign is not None:
            self.parts.append(small(sign, complex(box.left + SMALL / 2.0, y - 0.35 * size)))
        self.parts.append(ink.text(x + before / 2.0, y, said, kind, "mid"))

    def keep_free(self, box: Box) -> None:
        """Nothing is put there."""
        self._taken.append(box)

    @property
    def top(self) -> float:
        """How far up words reach (px), 0 where there are none above."""
        return min((box.top for box in self._taken), default=0.0)

    @property
    def bottom(self) -> float:
        """How far down they reach."""
        return max((box.bottom for box in self._taken), default=0.0)


def _box(x: float, y: float, half: float, size: float) -> Box:
    return Box(x - half, y - 0.8 * size, x + half, y + 0.3 * size)
