"""Texts, line by line: where each begins, how high it is and how it is turned.

Source: SVG 2, chapter 11; flowed text as in the SVG 1.2 drafts, which editors wrote for years. No font is known here: what
follows on the same line is joined to it, and spaces are those between words.
"""

from __future__ import annotations

import cmath
import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from typing import Any

from lxml import etree

from notchwork.drawing import Text
from notchwork.drawing.drawing import ADVANCE, Anchor
from notchwork.geometry.affine import Affine
from notchwork_plugins.svg.lengths import Frame, length
from notchwork_plugins.svg.said import Said
from notchwork_plugins.svg.style import Style, Styles
from notchwork_plugins.svg.tree import XLINK, svg_tag

TEXTS = frozenset(("text", "flowRoot"))
_SPANS = frozenset(("tspan", "textPath", "tref", "a", "flowPara", "flowDiv", "flowSpan", "flowLine"))
_LINES = frozenset(("flowPara", "flowDiv", "flowLine"))
_ROLE = "{http://sodipodi.sourceforge.net/DTD/sodipodi-0.dtd}role"

_LINE_HEIGHT = 1.25
"""Of a line whose place is not stated, in sizes of its type; the usual default of editors."""
_NEW_LINE = 0.8
"""Letters moved down by as many sizes of their type stand on a line of their own; less is a raised or lowered letter."""

Begin = Callable[[str], tuple[complex, complex] | None]
"""Where a path begins and which way it runs there, by its id, in user units."""


@dataclass(slots=True)
class _Line:
    at: complex
    along: complex
    style: Style
    words: list[str] = field(default_factory=list)


class Words:
    """Reads the texts of a drawing."""

    def __init__(self, styles: Styles, begin: Begin) -> None:
        self._styles = styles
        self._begin = begin

    def texts(self, element: Any, style: Style, frame: Frame, place: Affine, said: Said) -> Iterator[Text]:
        """The lines of a text in this style; ``place`` takes its units to mm, y upward."""
        pen = _Pen(frame, self._begin)
        looks: list[Style | None] = []
        walk = etree.iterwalk(element, events=("start", "end"))
        for event, part in walk:
            if event == "end":
                looks.pop()
                if part is not element and looks[-1] is not None:
                    pen.write(part.tail, looks[-1])
                continue
            look = style if part is element else self._look(part, looks[-1], frame)
            looks.append(look)
            if look is None:
                walk.skip_subtree()
            else:
                pen.move(part, look)
                pen.write(part.text, look)
        for line in pen.lines:
            if words := " ".join("".join(line.words).split()):
                yield _text(line, words, place, said)

    def _look(self, part: Any, above: Style | None, frame: Frame) -> Style | None:
        tag = svg_tag(part)
        if above is None or tag not in _SPANS:
            return None
        declared = self._styles.declared(part, tag)
        return None if declared.get("display") == "none" else self._styles.derived(above, declared, frame)


class _Pen:
    """Where the next letter comes to stand, in the text's own units, y downward."""

    def __init__(self, frame: Frame, begin: Begin) -> None:
        self.lines: list[_Line] = []
        self._frame = frame
        self._begin = begin
        self._at = 0j
        self._along: complex | None = None
        self._is_new = True

    def move(self, part: Any, style: Style) -> None:
        """What an element says of where its letters stand."""
        tag = svg_tag(part)
        if tag == "flowRoot":
            self._at = self._flow_corner(part, style) + style.font_size * 1j
        elif tag == "textPath":
            self._along_path(part)
        elif tag in _LINES or (part.get(_ROLE) == "line" and part.get("x") is None and part.get("y") is None):
            self._next_line(style)
        x, y = self._first(part, "x", style), self._first(part, "y", style)
        if x is not None or y is not None:
            self._at = complex(self._at.real if x is None else x, self._at.imag if y is None else y)
            self._is_new, self._along = True, None
        dx, dy = self._first(part, "dx", style) or 0.0, self._first(part, "dy", style) or 0.0
        self._at += complex(dx, dy)
        if abs(dy) >= _NEW_LINE * style.font_size:
            self._is_new = True

    def write(self, words: str | None, style: Style) -> None:
        """Letters, where they show."""
        if not words or not style.visible or (self._is_new and not words.strip()):
            return
        along = self._along or (1j if style.vertical else 1 + 0j)
        if self._is_new:
            self.lines.append(_Line(self._at, along, style))
            self._is_new = False
        self.lines[-1].words.append(words)
        self._at += along * ADVANCE * style.font_size * len(" ".join(words.split()))

    def _next_line(self, style: Style) -> None:
        if self.lines:
            last = self.lines[-1]
            self._at = last.at + last.along * 1j * _LINE_HEIGHT * style.font_size
        self._is_new = True

    def _along_path(self, part: Any) -> None:
        link = (part.get("href") or part.get(f"{XLINK}href") or "").strip()
        begin = self._begin(link[1:]) if link.startswith("#") else None
        if begin is not None:
            self._at, self._along = begin
            self._is_new = True

    def _flow_corner(self, part: Any, style: Style) -> complex:
        for found in part.iter("{*}rect"):
            x, y = self._first(found, "x", style), self._first(found, "y", style)
            return complex(x or 0.0, y or 0.0)
        return 0j

    def _first(self, part: Any, name: str, style: Style) -> float | None:
        """The first of the numbers that an attribute gives to the letters."""
        text = part.get(name)
        words = text.replace(",", " ").split(None, 1) if text else ()
        return length(words[0], self._frame, "y" if "y" in name else "x", style.font_size) if words else None


def _text(line: _Line, words: str, place: Affine, said: Said) -> Text:
    along = place.direction(line.along)
    high = place.size**2 / abs(along) if along else 0.0
    anchor: Anchor = line.style.anchor
    return Text(
        place(line.at),
        words,
        line.style.font_size * high,
        said.meaning,
        anchor,
        math.degrees(cmath.phase(along)),
        said.facts,
    )
