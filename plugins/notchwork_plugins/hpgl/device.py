"""What a plotter or cutter can do, as its profile states it."""

from __future__ import annotations

import math
from typing import Literal

from notchwork.values import frozen

UNIT = 0.025
"""mm: one plotter unit (HP PCL 5 Technical Reference Manual, part II, p. 17-20)."""

Language = Literal["HP-GL", "HP-GL/2"]
Origin = Literal["lower left", "centre"]
Advance = Literal["file", "PG", "AF", "FR"]
Lettering = Literal["strokes", "labels", "none"]
Tool = Literal["cut", "draw"]


@frozen
class Device:
    """A kind of plotter or cutter.

    ``along`` and ``across`` are what it can reach, in mm: along a roll (or the longer side of a sheet) and across it; ``along``
    is infinite for a roll. ``x_along``: its x axis runs along, else across. ``largest`` is the largest number that it takes.
    ``advance`` is how it comes to the next sheet or frame. ``cut`` and ``draw`` are the numbers of its pens or tools; no
    ``draw`` where it can only cut. ``knife``: what is cut comes off, so that the order matters. ``speed`` (cm/s) and ``force`` (g)
    by tool, where they are to be set.
    """

    name: str
    title: str
    source: str
    language: Language
    along: float
    across: float
    x_along: bool
    origin: Origin
    largest: int
    advance: Advance
    text: Lettering
    knife: bool
    cut: int
    draw: int | None
    speed: tuple[float | None, float | None] = (None, None)
    force: tuple[float | None, float | None] = (None, None)

    @property
    def is_roll(self) -> bool:
        """Whether it draws on as far as the paper reaches."""
        return math.isinf(self.along)

    def pen(self, tool: Tool) -> int | None:
        """The number of the pen for a tool."""
        return self.cut if tool == "cut" else self.draw

    def reach(self, unit: float) -> float:
        """How far (mm) a side may be where one step of its numbers is ``unit`` mm."""
        return self.largest * unit * (2.0 if self.origin == "centre" else 1.0)
