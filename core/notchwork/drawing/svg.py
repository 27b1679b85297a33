"""A drawing as SVG: at life size in mm, y turned downward, no other program needed.

What a reader finds in it, so that it can give the same drawing back (where it lies on the sheet apart):

- One user unit is a mm. The root names the drawing's ``data-sizes`` (a JSON list) and ``data-base``; its title is the drawing's.
- A ``g`` with ``data-group`` is one Group of that name, its other data attributes are its facts. ``data-shift`` ("x y", in user
  units of that ``g``) is where the group's own origin lies; a general editor that moves the group moves it too.
- A ``g`` inside it without ``data-group`` is a layer and no more (sizes, kinds of line): what it holds is the group's.
- ``path``: a Stroke, ``circle``: a Dot, ``text``: a Text, each with ``data-meaning`` and its facts as ``data-<fact>``. A path of
  the meaning "ground" is white below words, and nothing else.
- All text of ``document`` (of our own namespace) in ``metadata`` is the attached document: JSON in plain ASCII.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from notchwork.drawing.drawing import Dot, Drawing, Group, Stroke, Text
from notchwork.drawing.svgparts import Part, data, drawn
from notchwork.drawing.xml import DIGITS, Idents, ascii_json, number, quoted, words

MARGIN = 10.0
"""mm left free round the drawing."""
FONT = "system-ui, 'Segoe UI', 'Noto Sans', 'DejaVu Sans', sans-serif"
LAYERS = "http://www.inkscape.org/namespaces/inkscape"
"""The namespace of the attributes by which general editors tell a layer from any other group."""
OURS = "urn:notchwork:svg"
MOST_TEXT = 4_000_000
"""Letters of the document in one run."""
KINDS = ("cut line", "stitch line", "marks", "text")


def as_svg(drawing: Drawing) -> str:
    """The drawing as an SVG document; the same drawing gives the same text.

    Every group is a layer with its title, and holds a layer for each size, in which cut line, stitch line, marks and text
    have layers of their own. Raises ValueError for a number that is not finite.
    """
    low, high = drawing.bounds or (0j, 0j)
    corner = complex(low.real - MARGIN, high.imag + MARGIN)
    wide, tall = (number(v + 2 * MARGIN) for v in ((high - low).real, (high - low).imag))
    root = (
        f'<svg xmlns="http://www.w3.org/2000/svg" xmlns:inkscape="{LAYERS}" '
        f'xmlns:notchwork="{OURS}" '
        f'width="{wide}mm" height="{tall}mm" viewBox="0 0 {wide} {tall}"{_sizes(drawing)} '
        f'font-family="{FONT}" stroke-linecap="round" stroke-linejoin="round">'
    )
    lines = ['<?xml version="1.0" encoding="UTF-8"?>', root]
    if drawing.title:
        lines.append(f"<title>{words(drawing.title)}</title>")
    if drawing.attached is not None:
        document = "<notchwork:more/>".join(_chunks(ascii_json(drawing.attached).strip()))
        lines.append(f"<metadata><notchwork:document>{document}</notchwork:document></metadata>")
    idents = Idents()
    for group in drawing.groups:
        shift = group.shift - corner
        # Rounded alike, so that a group's own coordinates come back as they were.
        shift = complex(round(shift.real, DIGITS), round(shift.imag, DIGITS))
        lines += _group(group, shift, drawing, idents)
    return "\n".join([*lines, "</svg>", ""])


def _chunks(document: str) -> Iterator[str]:
    """The document in parts that end with a line: many readers of XML refuse a single text of more than 10 MB."""
    start = 0
    while (
        len(document) - start > MOST_TEXT and (end := document.rfind("\n", start, start + MOST_TEXT)) > start
    ):
        yield document[start:end]
        start = end
    yield document[start:]


def _sizes(drawing: Drawing) -> str:
    sizes = f" data-sizes={quoted(json.dumps(drawing.sizes))}" if drawing.sizes else ""
    return sizes + (f" data-base={quoted(drawing.base)}" if drawing.base is not None else "")


@dataclass(frozen=True, slots=True)
class _Layer:
    ident: str
    title: str
    facts: str = ""

    @property
    def opened(self) -> str:
        label = quoted(self.title)
        return (
            f'<g id="{self.ident}" inkscape:groupmode="layer" inkscape:label={label}{self.facts}>'
            f"<title>{words(self.title)}</title>"
        )


def _group(group: Group, shift: complex, drawing: Drawing, idents: Idents) -> Iterator[str]:
    title = str(group.facts.get("name", group.name))
    place = f"{number(shift.real)} {number(-shift.imag)}"
    facts = f' data-group={quoted(group.name)} data-shift="{place}"{data(None, group.facts)}'
    yield _Layer(idents.of(group.name), title, facts).opened
    parts: list[Part] = [*group.strokes, *group.dots, *group.texts]
    for size in _sizes_of(parts, drawing.sizes):
        here = [part for part in parts if _size_layer(part) == size]
        if size is None:
            yield from _kinds(here, (group.name,), shift, drawing, idents)
        elif here:
            yield _Layer(idents.of(group.name, size), size).opened
            yield from _kinds(here, (group.name, size), shift, drawing, idents)
            yield "</g>"
    yield "</g>"


def _size_layer(part: Part) -> str | float | None:
    """The size in whose layer a part lies; notes of all sizes stand together, as they are read."""
    return None if part.meaning == "note" else part.facts.get("size")


def _sizes_of(parts: Sequence[Part], sizes: Sequence[str]) -> Sequence[str | None]:
    """The sizes, known ones first and in their order, then what holds for all, so that words lie on top."""
    held = dict.fromkeys(size for part in parts if isinstance(size := _size_layer(part), str))
    return [*(size for size in sizes if size in held), *(size for size in held if size not in sizes), None]


def _kinds(
    parts: Sequence[Part], names: tuple[str, ...], shift: complex, drawing: Drawing, idents: Idents
) -> Iterator[str]:
    for kind in KINDS:
        here = [part for part in parts if _kind(part) == kind]
        if here:
            yield _Layer(idents.of(*names, kind.partition(" ")[0]), " ".join((*names[1:], kind))).opened
            yield from (drawn(part, shift, drawing) for part in here)
            yield "</g>"


def _kind(part: Part) -> str:
    match part:
        case Text():
            return "text"
        case Stroke(meaning="cut"):
            return "cut line"
        case Stroke(meaning="stitch" | "fold" | "opened"):
            return "stitch line"
        case Stroke() | Dot():
            return "marks"
