"""What stands on a sheet beside the pieces is drawn with one pen, so that all of it looks alike."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from notchwork.drawing import Group, Look, Stroke, Text
from notchwork.drawing.drawing import Anchor
from notchwork.geometry import lines

INK = "#000000"
FINE, LINE, STRONG = 0.2, 0.35, 0.7
"""mm: widths of lines."""


class Pen:
    """Gathers strokes and texts in a sheet's coordinates (mm). Every stroke states its own look, so that none depends on a writer.

    Words are bold where their meaning is "name", and plain where it is "legend".
    """

    def __init__(self) -> None:
        self.strokes: list[Stroke] = []
        self.texts: list[Text] = []

    def line(self, *nodes: complex, width: float = LINE, dashes: tuple[float, ...] = ()) -> None:
        """A run of straight lines."""
        self._draw(nodes, False, Look(INK, None, width, dashes))

    def shape(self, *nodes: complex, width: float = LINE, dashes: tuple[float, ...] = ()) -> None:
        """A closed outline: one stroke."""
        self._draw(nodes, True, Look(INK, None, width, dashes))

    def filled(self, *nodes: complex, colour: str = INK) -> None:
        """A closed shape that is filled and has no line."""
        self._draw(nodes, True, Look(None, colour))

    def box(self, low: complex, high: complex, width: float = LINE) -> None:
        """A rectangle as one closed stroke."""
        self.shape(low, complex(high.real, low.imag), high, complex(low.real, high.imag), width=width)

    def words(
        self,
        at: complex,
        words: str,
        height: float,
        bold: bool = False,
        anchor: Anchor = "start",
        angle: float = 0.0,
    ) -> None:
        """A line of words on a base line that begins, has its middle or ends at a point; ``angle`` in degrees."""
        self.texts.append(Text(at, words, height, "name" if bold else "legend", anchor, angle))

    def group(self, name: str = "marks") -> Group:
        """All that was drawn."""
        return Group(name, tuple(self.strokes), texts=tuple(self.texts))

    def _draw(self, nodes: Sequence[complex], closed: bool, look: Look) -> None:
        self.strokes.append(Stroke(lines(np.array(nodes), closed=closed), "legend", closed, look=look))
