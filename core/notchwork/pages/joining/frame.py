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


def cell_corners(cell: Cell, columns: int, rows: int, step: complex, reach: float) -> tuple[complex, complex]:
    """Lower left and upper right corner (mm) of a cell in its island's coordinates.

    At the rim of the grid, where nothing is joined, it holds the half strip beyond too.
    """
    column, row = cell
    left = column * step.real - (reach if column == 0 else 0.0)
    right = (column + 1) * step.real + (reach if column == columns - 1 else 0.0)
    below = row * step.imag - (reach if row == 0 else 0.0)
    above = (row + 1) * step.imag + (reach if row == rows - 1 else 0.0)
    return complex(left, below), complex(right, above)
