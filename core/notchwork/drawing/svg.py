"""A drawing as SVG: at life size in mm, y turned downward, no other program needed."""

from __future__ import annotations

from collections.abc import Iterator
from xml.sax.saxutils import escape, quoteattr

import numpy as np

from notchwork.drawing.drawing import Complexes, Dot, Drawing, Group, Stroke, Text
from notchwork.drawing.meaning import Facts, Meaning
from notchwork.drawing.styles import line_style, text_style
from notchwork.geometry import is_straight

MARGIN = 10.0
"""mm left free round the drawing."""
DIGITS = 3
"""Decimals of a mm that are written."""
FONT = "system-ui, 'Segoe UI', 'Noto Sans', 'DejaVu Sans', sans-serif"
SPOT = 0.8
"""Radius (mm) of a drawn point."""


def as_svg(drawing: Drawing) -> str:
    """The drawing as an SVG document: one user unit is one mm, the upper left corner is the origin.

    Names are escaped; what a stroke, point or text means and holds for stands in its data attributes.
    """
    low, high = drawing.bounds or (0j, 0j)
    corner = complex(low.real - MARGIN, high.imag + MARGIN)
    wide, tall = (_number(v + 2 * MARGIN) for v in ((high - low).real, (high - low).imag))
    lines = [
        '<?xml version="1.0" encoding="UTF-8"?>',
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{wide}mm" height="{tall}mm" viewBox="0 0 {wide} {tall}">',
    ]
    if drawing.title:
        lines.append(f"<title>{_words(drawing.title)}</title>")
    lines.append(f'<g fill="none" stroke-linecap="round" stroke-linejoin="round" font-family="{FONT}">')
    for group in drawing.groups:
        lines += _group(group, corner, drawing)
    return "\n".join([*lines, "</g>", "</svg>", ""])


def _group(group: Group, corner: complex, drawing: Drawing) -> Iterator[str]:
    yield f"<g{_data(None, {'name': group.name, **group.facts})}>"
    shift = group.shift - corner
    for stroke in group.strokes:
        yield _stroke(stroke, shift, drawing)
    for dot in group.dots:
        yield _dot(dot, shift)
    for text in group.texts:
        yield _text(text, shift)
    yield "</g>"


def _stroke(stroke: Stroke, shift: complex, drawing: Drawing) -> str:
    size = stroke.facts.get("size")
    style = line_style(stroke.meaning, size if isinstance(size, str) else None, drawing.sizes, drawing.base)
    dashes = f' stroke-dasharray="{" ".join(_number(d) for d in style.dashes)}"' if style.dashes else ""
    # Round caps would close short gaps and make dots of dashes.
    caps = ' stroke-linecap="butt"' if style.dashes and min(style.dashes) >= 1.0 else ""
    return (
        f'<path{_data(stroke.meaning, stroke.facts)} stroke="{style.colour}" stroke-width="{_number(style.width)}"'
        f'{dashes}{caps} d="{_path(stroke.cubics, stroke.closed, shift)}"/>'
    )


def _path(cubics: Complexes, closed: bool, shift: complex) -> str:
    if not len(cubics):
        return ""
    z = cubics + shift
    xy = np.round(np.stack([z.real, -z.imag], axis=-1), DIGITS) + 0.0
    straight = is_straight(cubics)
    parts = [f"M{_pair(xy[0, 0])}"]
    for k, row in enumerate(xy):
        if k and abs(cubics[k, 0] - cubics[k - 1, 3]) > 1e-6:
            parts.append(f"M{_pair(row[0])}")
        parts.append(f"L{_pair(row[3])}" if straight[k] else f"C{' '.join(_pair(p) for p in row[1:])}")
    return "".join(parts) + ("Z" if closed else "")


def _dot(dot: Dot, shift: complex) -> str:
    z = dot.at + shift
    return (
        f'<circle{_data(dot.meaning, dot.facts)} cx="{_number(z.real)}" cy="{_number(-z.imag)}" '
        f'r="{_number(SPOT)}" fill="#000000"/>'
    )


def _text(text: Text, shift: complex) -> str:
    style = text_style(text.meaning)
    z = text.at + shift
    x, y = _number(z.real), _number(-z.imag)
    turn = f' transform="rotate({_number(-text.angle)} {x} {y})"' if text.angle else ""
    anchor = f' text-anchor="{text.anchor}"' if text.anchor != "start" else ""
    bold = ' font-weight="700"' if style.bold else ""
    words = (
        f'<text{_data(text.meaning, text.facts)} x="{x}" y="{y}" font-size="{_number(text.height)}" '
        f'fill="{style.colour}"{bold}{anchor}{turn}>{_words(text.words)}</text>'
    )
    return f"{_ground(text, shift)}{words}" if style.on_line else words


def _ground(text: Text, shift: complex) -> str:
    """White below words that stand on a line."""
    corners = [corner + shift for corner in text.box]
    path = "L".join(f"{_number(z.real)} {_number(-z.imag)}" for z in corners)
    return f'<path fill="#ffffff" d="M{path}Z"/>'


def _data(meaning: Meaning | None, facts: Facts) -> str:
    every: dict[str, str] = {} if meaning is None else {"meaning": meaning}
    every |= {key: v if isinstance(v, str) else _number(v) for key, v in facts.items()}
    return "".join(f" data-{key}={quoteattr(_clean(value))}" for key, value in every.items())


def _words(text: str) -> str:
    return escape(_clean(text))


def _clean(text: str) -> str:
    """Without the control characters that XML cannot hold."""
    return "".join(
        c if c in "\t\n" or (c >= " " and not "\ud800" <= c <= "\udfff" and c not in "\ufffe\uffff") else " "
        for c in text
    )


def _pair(xy: Complexes) -> str:
    return f"{_number(float(xy[0]))} {_number(float(xy[1]))}"


def _number(value: float) -> str:
    """A number with no more digits than it needs, never in exponents."""
    text = f"{value:.{DIGITS}f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text
