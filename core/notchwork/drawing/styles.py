"""How strokes and texts look, by meaning and size: told apart by width and dashes, so that they hold in black and white."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from notchwork.drawing.meaning import Meaning

INK = "#000000"
MUTED = "#444444"


@dataclass(frozen=True, slots=True)
class LineStyle:
    """A stroke's width and dashes (drawn, left out, ...) in mm, and its colour."""

    width: float
    dashes: tuple[float, ...] = ()
    colour: str = INK


@dataclass(frozen=True, slots=True)
class TextStyle:
    """Whether words are bold, their colour, and whether they stand on a line, which is then interrupted."""

    bold: bool = False
    colour: str = INK
    on_line: bool = False


LINES: Mapping[Meaning | None, LineStyle] = {
    "cut": LineStyle(0.5),
    "stitch": LineStyle(0.35, (4.0, 2.0)),
    "fold": LineStyle(0.8, (9.0, 3.0, 2.0, 3.0)),
    "opened": LineStyle(0.25, (9.0, 2.0, 1.0, 2.0)),
    "grain": LineStyle(0.35),
    "notch": LineStyle(0.6),
    "dart": LineStyle(0.35, (6.0, 2.0)),
    "pleat": LineStyle(0.35, (6.0, 2.0, 1.0, 2.0)),
    "mark": LineStyle(0.35),
    "casing": LineStyle(0.3, (2.0, 2.0)),
    "fold-back": LineStyle(0.35, (9.0, 3.0, 2.0, 3.0)),
    "placement": LineStyle(0.3, (1.0, 1.5)),
    "topstitch": LineStyle(0.3, (2.0, 1.0)),
    "slash": LineStyle(0.35, (6.0, 1.0)),
    "inner": LineStyle(0.3, (1.0, 1.5)),
    "match": LineStyle(0.3),
    "limit": LineStyle(0.5),
    "legend": LineStyle(0.35),
    None: LineStyle(0.35),
}

TEXTS: Mapping[Meaning | None, TextStyle] = {
    "name": TextStyle(bold=True),
    "size-name": TextStyle(bold=True, on_line=True),
    "match": TextStyle(bold=True),
    "note": TextStyle(),
    "edge-name": TextStyle(colour=MUTED),
}

SPOT = 0.8
"""Radius (mm) of a drawn point."""

SMALLER: tuple[tuple[float, ...], ...] = ((0.5, 1.5), (0.5, 1.5, 3.0, 1.5))
LARGER: tuple[tuple[float, ...], ...] = ((8.0, 2.5), (8.0, 2.0, 1.0, 2.0))
HAIRLINE = 0.15
MOST_TOLD_APART = 5
"""With more sizes than this, dashes do not tell them apart: all but the drafted one are hairlines with their names."""


def line_style(
    meaning: Meaning | None,
    size: str | None = None,
    sizes: Sequence[str] = (),
    base: str | None = None,
) -> LineStyle:
    """How a stroke looks. Where several sizes lie one on another the drafted one is solid, smaller ones are dotted, larger
    ones long-dashed, and the stitch line is known by being thin."""
    style = LINES.get(meaning, LINES[None])
    if (
        len(sizes) < 2
        or size not in sizes
        or meaning not in ("cut", "stitch", "fold", "opened", "casing", "dart")
    ):
        return style
    if meaning in ("fold", "opened"):
        # Folds of all sizes lie on one line: dashes over dashes would make it solid.
        return style if size == base else LineStyle(HAIRLINE)
    if meaning == "stitch":
        style = LineStyle(0.2, colour=MUTED)
    step = sizes.index(size) - (sizes.index(base) if base in sizes else 0)
    if step == 0:
        return replace(style, dashes=())
    if len(sizes) > MOST_TOLD_APART:
        return LineStyle(HAIRLINE, colour=style.colour)
    kinds = SMALLER if step < 0 else LARGER
    return replace(style, dashes=kinds[(abs(step) - 1) % len(kinds)])


def text_style(meaning: Meaning | None) -> TextStyle:
    """How words look."""
    return TEXTS.get(meaning, TextStyle())
