"""Cards of seams as they are drawn: their marks with the places they have on the card."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from lxml import etree

from notchwork.pictures import Picture
from notchwork.pictures.lettering import width

SVG = "{http://www.w3.org/2000/svg}"
SIZES = {"muted": 11.0, "head": 14.0, "figure": 14.0}
BOLD = {"head", "figure", "ease", "strong"}


@dataclass
class Mark:
    """A mark with its looks and the shift (px) of the groups that it stands in."""

    element: Any
    kinds: frozenset[str]
    x: float
    y: float

    @property
    def said(self) -> str:
        return "".join(self.element.itertext())

    @property
    def d(self) -> str:
        return str(self.element.get("d"))

    def number(self, name: str) -> float:
        return float(self.element.get(name))


def marks(picture: Picture, tag: str, kind: str = "") -> list[Mark]:
    """All marks of a tag, with a look."""
    root = etree.fromstring(f'<svg xmlns="http://www.w3.org/2000/svg">{picture.body}</svg>')
    return [m for m in _walk(root, 0.0, 0.0) if m.element.tag == SVG + tag and (not kind or kind in m.kinds)]


def _walk(element: Any, x: float, y: float) -> Iterator[Mark]:
    shift = element.get("transform")
    if shift and shift.startswith("translate("):
        dx, dy = (float(part) for part in shift.removeprefix("translate(").removesuffix(")").split())
        x, y = x + dx, y + dy
    yield Mark(element, frozenset((element.get("class") or "").split()), x, y)
    for inner in element:
        yield from _walk(inner, x, y)


def text_boxes(picture: Picture) -> list[tuple[float, float, float, float, str]]:
    """Left, top, right and bottom (px) of every line of words, by widths that are rather too large than too small."""
    found = []
    for mark in marks(picture, "text"):
        size = next((SIZES[kind] for kind in mark.kinds if kind in SIZES), 12.0)
        wide = width(mark.said, size, bool(mark.kinds & BOLD))
        x, y = mark.x + mark.number("x"), mark.y + mark.number("y")
        left = x - (wide if "end" in mark.kinds else wide / 2.0 if "mid" in mark.kinds else 0.0)
        found.append((left, y - 0.75 * size, left + wide, y + 0.22 * size, mark.said))
    return found
