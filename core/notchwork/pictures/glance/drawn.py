"""A drawn piece: its marks about its own origin, where they reach, and what may be pointed at."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np

from notchwork.checks import Names
from notchwork.pictures import ink
from notchwork.pictures.glance.cloth import Complexes
from notchwork.pictures.glance.flags import Sign
from notchwork.pictures.glance.off import Off
from notchwork.pictures.glance.rings import Ring
from notchwork.pictures.glance.told import Told
from notchwork.pictures.glance.words import Line, base_lines, extent
from notchwork.sewing import Stretch


@dataclass(frozen=True, slots=True)
class Look:
    """What pieces are drawn with: letters by seam, the seams that do not fit, what is off by piece, the texture of the
    allowance by material, by piece what each seam takes of it, and what else is told of it."""

    names: Names
    letters: Mapping[str, str]
    fills: frozenset[str]
    off: Mapping[str, Sequence[Off]]
    textures: Mapping[str, str]
    sewn: Mapping[str, Sequence[tuple[str, Stretch]]]
    told: Mapping[str, Sequence[Told]]


@dataclass(slots=True)
class Drawn:
    """``outline`` is the stitch line (px, closed); ``low`` and ``high`` are the corners of the box about all marks in px, and
    ``foot`` is how far down the piece itself goes; ``words`` are the boxes about words.

    ``rings`` are the letters as they are placed, ``unplaced`` those that found no room, ``bands`` the boxes about what is off,
    and ``signs`` stand where anything else is to be looked at.
    """

    piece: str
    outline: Complexes
    marks: list[str] = field(default_factory=list)
    rings: list[Ring] = field(default_factory=list)
    unplaced: list[str] = field(default_factory=list)
    words: list[tuple[complex, complex]] = field(default_factory=list)
    bands: list[tuple[Off, Complexes]] = field(default_factory=list)
    signs: list[Sign] = field(default_factory=list)
    low: complex = complex(np.inf, np.inf)
    high: complex = complex(-np.inf, -np.inf)
    foot: float = 0.0

    def reaches(self, points: Complexes, by: float = 0.0) -> None:
        """Take points with so many px about them into the box."""
        x, y = points.real, points.imag
        self.low = complex(min(self.low.real, x.min() - by), min(self.low.imag, y.min() - by))
        self.high = complex(max(self.high.real, x.max() + by), max(self.high.imag, y.max() + by))

    def writes(self, block: Sequence[Line], middle: complex, box: tuple[float, float]) -> None:
        """A block of words in the middle of its box; every line is a box about words."""
        top = middle.imag - box[1] / 2
        for words, kind, base in base_lines(block, top):
            self.marks.append(ink.text(middle.real, base, words, kind, "mid"))
        for line in block:
            far, tall = extent([line])
            self.covers(complex(middle.real - far / 2, top), complex(middle.real + far / 2, top + tall))
            top += tall

    def covers(self, low: complex, high: complex) -> None:
        """Words from one corner to the other."""
        self.words.append((low, high))
        self.reaches(np.array([low, high]))
