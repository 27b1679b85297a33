"""A group as a content stream in mm, its sizes in layers."""

from __future__ import annotations

import cmath
import math
from dataclasses import dataclass, field, replace

import numpy as np

from notchwork.drawing import Drawing, Group, LineStyle, Stroke, Text, line_style, text_style
from notchwork.drawing.drawing import Dot
from notchwork.drawing.styles import HAIRLINE, INK, SPOT
from notchwork.geometry import bounds
from notchwork_plugins.pdf.fonts import Faces
from notchwork_plugins.pdf.fonts.faces import width
from notchwork_plugins.pdf.ink import Ink
from notchwork_plugins.pdf.layers import Layers, Part, parts_of, size_of
from notchwork_plugins.pdf.numbers import matrix, mm

GROUND = "#ffffff"
_LOW, _HIGH = -0.25, 0.85
"""How far letters reach below and above their base line, as a share of the type's size."""


@dataclass(eq=False)
class Content:
    """A stream, what it needs, and the corners (mm) of what it covers."""

    data: bytes
    faces: tuple[str, ...]
    sizes: tuple[str, ...]
    low: complex
    high: complex


@dataclass(eq=False)
class Writer:
    """Writes groups of one drawing. ``bold`` is how much wider lines are; dashes and points grow alike."""

    drawing: Drawing
    faces: Faces
    layers: Layers
    bold: float = 1.0
    _ink: Ink = field(default_factory=Ink)
    _faces: dict[str, None] = field(default_factory=dict)
    _corners: list[complex] = field(default_factory=list)

    def content(self, group: Group, shift: complex = 0j) -> Content:
        """The group, moved by ``shift`` (mm). Raises ValueError for a number that is not finite."""
        self._ink, self._faces, self._corners = Ink(), {}, []
        held: dict[str | None, list[Part]] = {}
        for part in parts_of(group):
            held.setdefault(size_of(part), []).append(part)
        sizes = [size for size in self.layers if size in held]
        for size in sizes:
            self._ink.say(f"/OC /{self.layers.name(size)} BDC")
            self._draw(held.pop(size), shift)
            self._ink.say("EMC")
        # What holds for all sizes comes last, so that it lies on top.
        for parts in held.values():
            self._draw(parts, shift)
        z = np.array(self._corners or [0j])
        low, high = complex(z.real.min(), z.imag.min()), complex(z.real.max(), z.imag.max())
        return Content(self._ink.data, tuple(self._faces), tuple(sizes), low, high)

    def _draw(self, parts: list[Part], shift: complex) -> None:
        for part in parts:
            match part:
                case Stroke():
                    self._stroke(part, shift)
                case Dot():
                    self._dot(part, shift)
                case Text():
                    self._text(part, shift)

    def _stroke(self, stroke: Stroke, shift: complex) -> None:
        if not len(stroke.cubics):
            return
        look, filled, style = stroke.look, False, None
        if look is None:
            style = line_style(stroke.meaning, size_of(stroke), self.drawing.sizes, self.drawing.base)
        else:
            if look.line is not None:
                style = LineStyle(look.width or HAIRLINE, look.dashes, look.line)
            if look.filling is not None:
                self._ink.filling(look.filling)
                filled = True
        if style is not None:
            style = self._bolder(style)
            self._ink.line(style)
        paint = {(True, True): "B", (True, False): "f", (False, True): "S", (False, False): "n"}
        self._ink.path(stroke.cubics, stroke.closed, shift, paint[filled, style is not None])
        reach = 0.0 if style is None else style.width / 2
        low, high = bounds(stroke.cubics)
        self._corners += [low + shift - complex(reach, reach), high + shift + complex(reach, reach)]

    def _dot(self, dot: Dot, shift: complex) -> None:
        self._ink.filling(INK)
        radius = SPOT * self.bold
        self._ink.spot(dot.at + shift, radius)
        self._corners += [dot.at + shift + complex(x, x) for x in (-radius, radius)]

    def _text(self, text: Text, shift: complex) -> None:
        style = text_style(text.meaning)
        runs = self.faces.runs(text.words, style.bold)
        wide = text.height * width(runs)
        begin = {"start": 0.0, "middle": -wide / 2, "end": -wide}[text.anchor]
        turn = cmath.rect(1.0, math.radians(text.angle))
        at = text.at + shift
        low, high = _LOW * text.height, _HIGH * text.height
        box = [
            at + turn * complex(x, y)
            for x, y in ((begin, low), (begin + wide, low), (begin + wide, high), (begin, high))
        ]
        self._corners += box
        if style.on_line:
            self._ink.filling(GROUND)
            corners = np.array(box)
            sides = np.stack([corners, corners, np.roll(corners, -1), np.roll(corners, -1)], axis=1)
            self._ink.path(sides, True, 0j, "f")
        if not runs:
            return
        self._ink.filling(style.colour)
        self._ink.say("BT", f"{matrix(turn, at + turn * begin)} Tm")
        for face, letters in runs:
            self._faces[face.name] = None
            codes = "".join(f"{face.glyph(letter):04X}" for letter in letters)
            self._ink.say(f"/{face.name} {mm(text.height)} Tf <{codes}> Tj")
        self._ink.say("ET")

    def _bolder(self, style: LineStyle) -> LineStyle:
        if self.bold == 1.0:
            return style
        return replace(
            style, width=style.width * self.bold, dashes=tuple(dash * self.bold for dash in style.dashes)
        )
