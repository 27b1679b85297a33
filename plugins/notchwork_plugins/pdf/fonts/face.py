"""One font: its letters by their numbers, and those that were used."""

from __future__ import annotations

import io
from collections.abc import Iterable
from dataclasses import dataclass, field
from functools import cached_property
from typing import Any

from fontTools.ttLib import TTFont


@dataclass(eq=False)
class Face:
    """A font of its bytes. ``name`` is what a page calls it; ``used`` holds the letters by glyph, as they are taken.

    Raises fontTools' TTLibError for bytes that are no font.
    """

    name: str
    data: bytes
    used: dict[int, str] = field(default_factory=dict)

    @cached_property
    def font(self) -> Any:
        """The font as its tables, with the dates it came with."""
        return TTFont(io.BytesIO(self.data), lazy=True, recalcTimestamp=False, recalcBBoxes=False)

    @cached_property
    def postscript_name(self) -> str:
        """What the font calls itself, in letters that a name of PDF may hold."""
        name = str(self.font["name"].getDebugName(6) or "Font") if "name" in self.font else "Font"
        return "".join(c for c in name if c.isascii() and (c.isalnum() or c in "-+"))[:60] or "Font"

    @cached_property
    def em(self) -> int:
        """Units of the font in its type's size."""
        return int(self.font["head"].unitsPerEm)

    @property
    def letters(self) -> Iterable[str]:
        """Every letter it draws."""
        return map(chr, self._glyphs)

    def has(self, letter: str) -> bool:
        """Whether it draws the letter."""
        return ord(letter) in self._glyphs

    def glyph(self, letter: str) -> int:
        """The letter's glyph, which is used from here on. Raises KeyError for a letter that it does not have."""
        found: int = self.font.getGlyphID(self._glyphs[ord(letter)])
        self.used.setdefault(found, letter)
        return found

    def width(self, letter: str) -> float:
        """How far the letter moves on, as a share of the type's size."""
        return float(self._widths[self._glyphs[ord(letter)]][0]) / self.em

    def width_of(self, glyph: int) -> float:
        """The same of a glyph."""
        return float(self._widths[self.font.getGlyphName(glyph)][0]) / self.em

    @cached_property
    def _glyphs(self) -> dict[int, str]:
        return self.font.getBestCmap() or {}

    @cached_property
    def _widths(self) -> Any:
        return self.font["hmtx"].metrics
