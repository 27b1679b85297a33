"""On what a person wants a pattern printed."""

from __future__ import annotations

import math
from typing import Literal

from notchwork.values import frozen

Layout = Literal["tiles", "sheet", "projector"]
"""tiles: pages to be joined; sheet: one page that holds everything; projector: one page of light, without margins."""
Join = Literal["overlap", "butt"]
"""overlap: neighbouring tiles both show a strip and are laid over each other; butt: they are trimmed and joined edge to edge."""
Turning = Literal["free", "quarter", "drawn"]
"""How pieces may be turned to lie well: by any angle, by quarter turns, or not at all."""
Turn = Turning | Literal["grain"]
"""grain: so that the lengthwise thread runs along the paper, and not further."""


@frozen
class Size:
    """A size of paper as it is called, in mm, upright; ``tall`` is infinite for a roll, which is cut off where it ends."""

    name: str
    wide: float
    tall: float

    @property
    def is_roll(self) -> bool:
        """Whether it is as long as it needs to be."""
        return math.isinf(self.tall)


@frozen
class Paper:
    """What a person may choose of the paper; the same for every format that has pages.

    ``sizes``: one, or several whose common area is used, so that every page can be printed on each of them; none if the
    format or the pattern's unit decides. ``layout``: None if the size decides. ``margin`` and ``overlap`` are in mm, ``turn`` is how
    pieces may be turned: each None where the layout or the device decides. ``bold``: lines that can be seen from afar.
    """

    sizes: tuple[Size, ...] = ()
    layout: Layout | None = None
    join: Join = "overlap"
    margin: float | None = None
    overlap: float | None = None
    turn: Turn | None = None
    bold: bool = False
