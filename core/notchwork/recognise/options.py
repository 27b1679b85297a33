"""How a drawing is to be read, where the drawing itself leaves it open."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal


@dataclass(frozen=True, slots=True)
class Options:
    """What a person may state of a drawing; the same on every command.

    ``tolerance`` (mm of the drawing): strokes this near touch. ``outline``: what a piece's only outline is, None where that is
    not known; a cut line takes ``allowance`` (mm), the width added outside the stitch line. ``scale``: mm of cloth for a
    mm of the drawing, None to take it from the drawing. Raises ValueError for widths or scales that cannot be.
    """

    tolerance: float = 0.5
    outline: Literal["stitch", "cut"] | None = None
    allowance: float | None = None
    scale: float | None = None

    def __post_init__(self) -> None:
        if not 0.0 < self.tolerance < 100.0:
            raise ValueError("a tolerance lies between 0 and 100 mm")
        if self.scale is not None and not 0.0 < self.scale < 1e6:
            raise ValueError("a scale is a number above 0")
        if self.allowance is not None and not 0.0 <= self.allowance < 1000.0:
            raise ValueError("an allowance lies between 0 and 1000 mm")
        if self.outline == "cut" and self.allowance is None:
            raise ValueError("where the outlines are cut lines, the allowance must be stated too")
