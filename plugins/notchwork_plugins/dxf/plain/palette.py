"""Colours by their numbers, as #rrggbb.

The first nine are named; from 10 on there are 24 hues, ten to each, in five shades, pure and halfway to grey by turns; the
last are greys. Source: the AutoCAD Color Index, as general CAD programs and ezdxf show it.
"""

from __future__ import annotations

import colorsys

_NAMED = (
    "#000000",
    "#ff0000",
    "#ffff00",
    "#00ff00",
    "#00ffff",
    "#0000ff",
    "#ff00ff",
    "#000000",
    "#808080",
    "#c0c0c0",
)
"""7 is white on black and black on white; drawings are read as on paper. 0 is whatever holds it."""
_SHADES = (255, 165, 127, 76, 38)
_GREYS = ("#000000", "#656565", "#666666", "#999999", "#cccccc", "#ffffff")

INK = _NAMED[7]


def colour_of(number: int) -> str:
    """The colour of a number from 1 to 255; ink for any other."""
    if not 0 <= number <= 255:
        return INK
    if number < 10:
        return _NAMED[number]
    if number >= 250:
        return _GREYS[number - 250]
    hue, shade = divmod(number - 10, 10)
    light = _SHADES[shade // 2]
    shares = colorsys.hsv_to_rgb(hue / 24, 0.5 if shade % 2 else 1.0, 1.0)
    return "#" + "".join(f"{int(share * light):02x}" for share in shares)


def true_colour(number: int) -> str:
    """A colour of 24 bits."""
    return f"#{number & 0xFFFFFF:06x}"
