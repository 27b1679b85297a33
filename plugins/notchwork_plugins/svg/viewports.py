"""How a viewBox is fitted into its viewport.

Source: SVG 2, 8.2 and 8.6 (preserveAspectRatio; xMidYMid meet where nothing is said).
"""

from __future__ import annotations

from typing import NamedTuple

from notchwork.geometry.affine import Affine, scaling, translation
from notchwork_plugins.svg.numbers import Malformed, all_numbers

_SHARES = {"xMin": 0.0, "xMid": 0.5, "xMax": 1.0, "YMin": 0.0, "YMid": 0.5, "YMax": 1.0}


class Box(NamedTuple):
    """A rectangle by its upper left corner and its size."""

    corner: complex
    size: complex


class Aspect(NamedTuple):
    """Where a viewBox lies in a viewport of another shape (shares of what is left over), or None: it is stretched."""

    align: complex | None = 0.5 + 0.5j
    slice: bool = False


def view_box(text: str) -> Box:
    """A viewBox. Raises Malformed, also where it has no extent."""
    numbers = all_numbers(text)
    if len(numbers) != 4:
        raise Malformed(f"a viewBox has 4 numbers, here are {len(numbers)}", 0)
    x, y, wide, tall = numbers
    if wide <= 0.0 or tall <= 0.0:
        raise Malformed("it has no extent", 0)
    return Box(complex(x, y), complex(wide, tall))


def aspect(text: str | None) -> Aspect:
    """What preserveAspectRatio says; what it does not understand counts as not said."""
    words = [word for word in (text or "").split() if word != "defer"]
    if not words:
        return Aspect()
    if words[0] == "none":
        return Aspect(None)
    x, y = words[0][:4], words[0][4:]
    if x not in ("xMin", "xMid", "xMax") or y not in ("YMin", "YMid", "YMax"):
        return Aspect()
    return Aspect(complex(_SHARES[x], _SHARES[y]), words[1:] == ["slice"])


def factors(box: complex, viewport: complex, keeps: Aspect) -> tuple[float, float]:
    """By how much a viewBox of this size grows across and down."""
    x, y = viewport.real / box.real, viewport.imag / box.imag
    if keeps.align is None:
        return x, y
    both = max(x, y) if keeps.slice else min(x, y)
    return both, both


def fitted(box: Box, viewport: Box, keeps: Aspect) -> Affine:
    """The map from the viewBox's units to those that the viewport is given in."""
    x, y = factors(box.size, viewport.size, keeps)
    over = viewport.size - complex(x * box.size.real, y * box.size.imag)
    align = keeps.align or 0j
    to = viewport.corner + complex(align.real * over.real, align.imag * over.imag)
    return translation(to).after(scaling(x, y)).after(translation(-box.corner))
