"""Strokes, points and texts as elements of SVG."""

from __future__ import annotations

import numpy as np

from notchwork.drawing.drawing import Complexes, Dot, Drawing, Stroke, Text
from notchwork.drawing.meaning import Facts, Meaning
from notchwork.drawing.styles import INK, SPOT, LineStyle, line_style, text_style
from notchwork.drawing.xml import DIGITS, number, quoted, words
from notchwork.geometry import is_straight

Part = Stroke | Dot | Text

BREAK = 1e-6
"""mm: a cubic that begins further than this from where the one before it ends is a new run."""


def drawn(part: Part, shift: complex, drawing: Drawing) -> str:
    """One part, moved by ``shift`` (mm, y upward)."""
    match part:
        case Stroke():
            return _stroke(part, shift, drawing)
        case Dot():
            return _dot(part, shift)
        case Text():
            return _text(part, shift)


def data(meaning: Meaning | None, facts: Facts) -> str:
    """Meaning and facts as data attributes."""
    every: dict[str, str] = {} if meaning is None else {"meaning": meaning}
    every |= {key: v if isinstance(v, str) else number(v) for key, v in facts.items()}
    return "".join(f" data-{key}={quoted(value)}" for key, value in every.items())


def _stroke(stroke: Stroke, shift: complex, drawing: Drawing) -> str:
    path = _path(stroke.cubics, stroke.closed, shift)
    return f'<path{data(stroke.meaning, stroke.facts)}{_look(stroke, drawing)} d="{path}"/>'


def _look(stroke: Stroke, drawing: Drawing) -> str:
    if stroke.look is not None:
        look = stroke.look
        filling = look.filling or "none"
        if look.line is None:
            return f" fill={quoted(filling)}"
        return f" fill={quoted(filling)}{_line(LineStyle(look.width, look.dashes, look.line))}"
    size = stroke.facts.get("size")
    style = line_style(stroke.meaning, size if isinstance(size, str) else None, drawing.sizes, drawing.base)
    return f' fill="none"{_line(style)}'


def _line(style: LineStyle) -> str:
    dashes = f' stroke-dasharray="{" ".join(number(d) for d in style.dashes)}"' if style.dashes else ""
    # Round caps would close short gaps and make dots of dashes.
    caps = ' stroke-linecap="butt"' if style.dashes and min(style.dashes) >= 1.0 else ""
    return f' stroke={quoted(style.colour)} stroke-width="{number(style.width)}"{dashes}{caps}'


def _path(cubics: Complexes, closed: bool, shift: complex) -> str:
    if not len(cubics):
        return ""
    z = cubics + shift
    xy = np.round(np.stack([z.real, -z.imag], axis=-1), DIGITS).tolist()
    straight = is_straight(cubics, 0.5 * 10.0**-DIGITS).tolist()
    apart = np.concatenate([[True], np.abs(cubics[1:, 0] - cubics[:-1, 3]) > BREAK]).tolist()
    last = len(xy) - 1
    parts: list[str] = []
    for k, (start, out, into, end) in enumerate(xy):
        if apart[k]:
            parts.append(f"M{_pair(start)}")
        if straight[k]:
            # The last side of a polygon is what closing draws.
            if not (closed and k == last and end == xy[0][0] and not any(apart[1:])):
                parts.append(f"L{_pair(end)}")
        else:
            parts.append(f"C{_pair(out)} {_pair(into)} {_pair(end)}")
    return "".join(parts) + ("Z" if closed else "")


def _dot(dot: Dot, shift: complex) -> str:
    z = dot.at + shift
    return (
        f'<circle{data(dot.meaning, dot.facts)} cx="{number(z.real)}" cy="{number(-z.imag)}" '
        f'r="{number(SPOT)}" fill="{INK}"/>'
    )


def _text(text: Text, shift: complex) -> str:
    style = text_style(text.meaning)
    z = text.at + shift
    x, y = number(z.real), number(-z.imag)
    turn = f' transform="rotate({number(-text.angle)} {x} {y})"' if text.angle else ""
    anchor = f' text-anchor="{text.anchor}"' if text.anchor != "start" else ""
    bold = ' font-weight="700"' if style.bold else ""
    element = (
        f'<text{data(text.meaning, text.facts)} x="{x}" y="{y}" font-size="{number(text.height)}" '
        f'fill="{style.colour}"{bold}{anchor}{turn}>{words(text.words)}</text>'
    )
    return f"{_ground(text, shift)}{element}" if style.on_line else element


def _ground(text: Text, shift: complex) -> str:
    """White below words that stand on a line."""
    path = "L".join(f"{number(z.real)} {number(-z.imag)}" for z in (corner + shift for corner in text.box))
    return f'<path data-meaning="ground" fill="#ffffff" d="M{path}Z"/>'


def _pair(xy: list[float]) -> str:
    return f"{number(xy[0])} {number(xy[1])}"
