"""A group as a content stream in µm, its sizes in layers."""

from __future__ import annotations

import cmath
import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import lru_cache

import numpy as np

from notchwork.drawing import (
    Dot,
    Drawing,
    Group,
    LineStyle,
    Look,
    Meaning,
    Stroke,
    Text,
    line_style,
    text_style,
)
from notchwork.drawing.styles import HAIRLINE, INK, SPOT
from notchwork_plugins.pdf.fonts import Faces
from notchwork_plugins.pdf.fonts.faces import width
from notchwork_plugins.pdf.ink import Ink
from notchwork_plugins.pdf.layers import Layers, Part, parts_of, size_of
from notchwork_plugins.pdf.numbers import matrix, pair, um
from notchwork_plugins.pdf.paths import paths, spot

GROUND = "#ffffff"
_LOW, _HIGH = -0.25, 0.85
"""How far letters reach below and above their base line, as a share of the type's size."""


@dataclass(eq=False, slots=True)
class Content:
    """A stream as it grows, with the fonts and the sizes it needs; ``boxes`` are corners (mm) that words lie between."""

    ink: Ink = field(default_factory=Ink)
    faces: dict[str, None] = field(default_factory=dict)
    sizes: list[str] = field(default_factory=list)
    boxes: list[complex] = field(default_factory=list)

    @property
    def data(self) -> bytes:
        """The stream."""
        return self.ink.data


class Writer:
    """Writes groups of one drawing. ``bold`` is how much wider lines are; dashes and points grow alike."""

    def __init__(self, drawing: Drawing, faces: Faces, layers: Layers, bold: float = 1.0) -> None:
        self._drawing, self._faces, self._layers, self._bold = drawing, faces, layers, bold
        self._by_meaning = lru_cache(maxsize=4096)(self._styled)
        self._by_look = lru_cache(maxsize=256)(self._looking)

    def content(self, group: Group, shift: complex = 0j) -> Content:
        """The group, moved by ``shift`` (mm). Raises ValueError for a number that is not finite."""
        content = Content()
        drawn = dict(zip(map(id, group.strokes), paths(group.strokes, shift), strict=True))
        by_size: dict[str | None, list[Part]] = {}
        for part in parts_of(group):
            size = size_of(part)
            by_size.setdefault(size if size in self._layers else None, []).append(part)
        # What holds for all sizes comes last, so that it lies on top.
        rest = by_size.pop(None, [])
        for size in self._layers:
            if size in by_size:
                content.sizes.append(size)
                content.ink.say(f"/OC /{self._layers.name(size)} BDC")
                self._draw(content, by_size[size], drawn, shift)
                content.ink.say("EMC")
        self._draw(content, rest, drawn, shift)
        return content

    def covered(self, group: Group, content: Content) -> tuple[complex, complex]:
        """Corners (mm) between which all of a group lies that was not moved, its lines' widths too."""
        reach, z = 0.0, [complex(z) for z in content.boxes]
        for stroke in group.strokes:
            z += stroke.cubics.ravel().tolist()
            _, style = self._look(stroke)
            reach = max(reach, style.width / 2 if style is not None else 0.0)
        if group.dots:
            reach = max(reach, SPOT * self._bold)
            z += [dot.at for dot in group.dots]
        every, room = np.array(z or [0j]), complex(reach, reach)
        low, high = complex(every.real.min(), every.imag.min()), complex(every.real.max(), every.imag.max())
        return low - room, high + room

    def _draw(self, content: Content, parts: list[Part], drawn: Mapping[int, str], shift: complex) -> None:
        ink = content.ink
        for part in parts:
            match part:
                case Stroke():
                    filling, style = self._look(part)
                    if filling is not None:
                        ink.filling(filling)
                    if style is not None:
                        ink.line(style)
                    paint = "n" if style is None and filling is None else "S" if filling is None else "f"
                    if path := drawn[id(part)]:
                        ink.say(path + ("B" if style is not None and filling is not None else paint))
                case Dot():
                    ink.filling(INK)
                    ink.say(f"{spot(part.at + shift, SPOT * self._bold)}f")
                case Text():
                    self._text(content, part, shift)

    def _text(self, content: Content, text: Text, shift: complex) -> None:
        style, ink = text_style(text.meaning), content.ink
        runs = self._faces.runs(text.words, style.bold)
        wide = text.height * width(runs)
        begin = {"start": 0.0, "middle": -wide / 2, "end": -wide}[text.anchor]
        turn = cmath.rect(1.0, math.radians(text.angle))
        at = text.at + shift + turn * begin
        low, high = 1j * _LOW * text.height, 1j * _HIGH * text.height
        box = [at + turn * z for z in (low, wide + low, wide + high, high)]
        content.boxes += box
        if style.on_line:
            ink.filling(GROUND)
            ink.say(" ".join(f"{pair(z)} {'l' if k else 'm'}" for k, z in enumerate(box)) + " h f")
        if not runs:
            return
        ink.filling(style.colour)
        ink.say(f"BT {matrix(turn, at)} Tm")
        for face, letters in runs:
            content.faces[face.name] = None
            codes = "".join(f"{face.glyph(letter):04X}" for letter in letters)
            ink.say(f"/{face.name} {um(text.height)} Tf <{codes}> Tj")
        ink.say("ET")

    def _look(self, stroke: Stroke) -> tuple[str | None, LineStyle | None]:
        """The colour a stroke is filled with, and how its line looks."""
        if stroke.look is not None:
            return stroke.look.filling, self._by_look(stroke.look)
        return None, self._by_meaning(stroke.meaning, size_of(stroke))

    def _looking(self, look: Look) -> LineStyle | None:
        return None if look.line is None else self._bolder(look.width or HAIRLINE, look.dashes, look.line)

    def _styled(self, meaning: Meaning | None, size: str | None) -> LineStyle:
        style = line_style(meaning, size, self._drawing.sizes, self._drawing.base)
        return self._bolder(style.width, style.dashes, style.colour)

    def _bolder(self, width: float, dashes: tuple[float, ...], colour: str) -> LineStyle:
        return LineStyle(width * self._bold, tuple(dash * self._bold for dash in dashes), colour)
