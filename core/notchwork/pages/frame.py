"""A tile's place: how a page is divided into margin, strips that neighbours share, and the cell between the lines of joining."""

from __future__ import annotations

from typing import Literal

from notchwork.values import frozen

Side = Literal["left", "right", "below", "above"]
Cell = tuple[int, int]
"""Column from the left and row from below, in an island's grid."""


@frozen
class Frame:
    """A page in mm: its ``size``, the ``margin`` that is left free, and ``strip``, how far neighbours lie over each other.

    Neighbouring tiles meet along the middle of the strip; both show half of it beyond the line of joining. Without a strip
    they are trimmed at the line, which is then the edge of what is printed.
    """

    size: complex
    margin: float
    strip: float

    @property
    def low(self) -> complex:
        """Lower left corner of what is printed."""
        return complex(self.margin, self.margin)

    @property
    def high(self) -> complex:
        """Upper right corner of what is printed."""
        return self.size - self.low

    @property
    def usable(self) -> complex:
        """Width and height of what is printed."""
        return self.high - self.low

    @property
    def reach(self) -> float:
        """How far is printed beyond a line of joining."""
        return self.strip / 2

    @property
    def step(self) -> complex:
        """From one line of joining to the next, either way."""
        return self.usable - complex(self.strip, self.strip)

    @property
    def corner(self) -> complex:
        """On the page, where the lines of joining left and below cross: the lower left corner of the cell."""
        return self.low + complex(self.reach, self.reach)

    def shift(self, cell: Cell) -> complex:
        """What is added to a point of an island to have it on a cell's page."""
        column, row = cell
        return self.corner - complex(column * self.step.real, row * self.step.imag)
