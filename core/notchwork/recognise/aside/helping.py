"""Layers whose names say that they only help to draw, or tell measures."""

from __future__ import annotations

import re

from notchwork.recognise.aside.sheet import Sheet

_HELPING = re.compile(
    r"(?:.*[\W_])?(?:dims?|dimension(?:s|ing)?|annotations?|constructions?|construction[\s_-]*lines?|guides?|guide[\s_-]*lines?"
    r"|help(?:er|ing)?[\s_-]*lines?|helpers?|hulp(?:lijn(?:en)?)?|hilfs(?:linien?|geometrie|konstruktion)"
    r"|bema(?:ß|ss)ung(?:en)?|ma(?:ß|ss)linien?|cotes?|cotations?)",
    re.IGNORECASE,
)
"""In the languages in which such layers were met; common practice, no source."""


def set_helping_lines_aside(sheet: Sheet) -> None:
    """Take away the lines on such layers, unless all lines are; words on them stay, for they may name pieces."""
    helping = [line for line in sheet.lines if _HELPING.fullmatch(line.within[-1].strip())]
    if len(helping) == len(sheet.lines):
        return
    for name in dict.fromkeys(line.within[-1] for line in helping):
        sheet.set_aside_all(
            f"line on the layer {name}", [line for line in helping if line.within[-1] == name]
        )
