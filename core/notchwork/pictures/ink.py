"""Marks on a picture as SVG: every mark has a kind that ``roles`` gives its look. Units are CSS px, y downward."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Literal

from notchwork.drawing.xml import quoted, words
from notchwork.findings import safe
from notchwork.pictures.lettering import clipped, isolated

Anchor = Literal["start", "mid", "end"]


def n(value: float) -> str:
    """A number to a hundredth of a px. Raises ValueError for one that is not finite."""
    text = f"{value:.2f}"
    if "n" in text:
        raise ValueError(f"a picture cannot hold the number {text}")
    text = text.rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def path(d: str, kind: str) -> str:
    """A line or area by its path data."""
    return f'<path class="{kind}" d="{d}"/>' if d else ""


def box(x: float, y: float, width: float, height: float, kind: str) -> str:
    """An upright box."""
    return f'<rect class="{kind}" x="{n(x)}" y="{n(y)}" width="{n(width)}" height="{n(height)}"/>'


def ring(x: float, y: float, radius: float, kind: str) -> str:
    """A circle."""
    return f'<circle class="{kind}" cx="{n(x)}" cy="{n(y)}" r="{n(radius)}"/>'


def text(x: float, y: float, said: str, kind: str = "", anchor: Anchor = "start", turned: float = 0.0) -> str:
    """One line of words on its base line; ``turned`` in degrees, clockwise. Names stay text whatever is in them."""
    looks = " ".join(part for part in (kind, anchor if anchor != "start" else "") if part)
    kinds = f' class="{looks}"' if looks else ""
    turn = f' transform="rotate({n(turned)} {n(x)} {n(y)})"' if turned else ""
    return f'<text{kinds} x="{n(x)}" y="{n(y)}"{turn}>{words(isolated(safe(said)))}</text>'


def group(parts: Iterable[str], says: str = "", data: Mapping[str, str] | None = None) -> str:
    """Marks that belong together. With ``says`` they say that when they are pointed at; a page makes buttons of them.

    ``data``: what it refers to ("edges": "front:side"), for a page that shows the same thing elsewhere.
    """
    facts = "".join(f" data-{key}={quoted(value)}" for key, value in (data or {}).items())
    label = isolated(clipped(safe(says)))
    hot = f" aria-label={quoted(label)}" if says else ""
    return f"<g{hot}{facts}>{''.join(parts)}</g>"


def moved(parts: Iterable[str], x: float, y: float) -> str:
    """The same marks further right and down."""
    return f'<g transform="translate({n(x)} {n(y)})">{"".join(parts)}</g>'
