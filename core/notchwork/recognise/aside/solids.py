"""Lettering and hardware: small shapes filled with ink."""

from __future__ import annotations

import numpy as np

from notchwork.recognise.aside.sheet import Sheet, clusters
from notchwork.recognise.placed import Line, box_of

SMALL = 60.0
"""mm: a solid black shape smaller than this is lettering or hardware. Common practice, no source."""
LETTER = 30.0
"""mm: letters in another colour are no larger than this."""
FEWEST = 5
"""So many shapes of one colour without a line round them, close together, are a word."""
DARK = 0x40
"""No part of a black is lighter than this."""


def set_solids_aside(sheet: Sheet) -> None:
    """Small solid black shapes, and words drawn as filled shapes of another colour."""
    black = [line for line in sheet.lines if _is_small(line, SMALL) and _is_black(line)]
    for group in clusters(black, 0.2 * SMALL):
        sheet.set_aside("lettering or hardware", group)
    plain = [line for line in sheet.lines if _is_small(line, LETTER) and _is_inked(line)]
    colours = {line.look.filling for line in plain if line.look is not None}
    for colour in sorted(str(colour) for colour in colours):
        same = [line for line in plain if line.look is not None and line.look.filling == colour]
        for group in clusters(same, LETTER):
            if len(group) >= FEWEST:
                low, high = box_of(group)
                tall = float(np.median([line.size.imag for line in group]))
                corners = np.array([low, complex(high.real, low.imag), high, complex(low.real, high.imag)])
                sheet.boxes.append((corners, tall))
                sheet.set_aside("lettering", group)


def _is_small(line: Line, most: float) -> bool:
    return line.size.real < most and line.size.imag < most


def _is_black(line: Line) -> bool:
    filling = line.look.filling if line.look is not None else None
    if filling is None or len(line.cubics) < 2:
        return False
    return all(int(filling[k : k + 2], 16) < DARK for k in (1, 3, 5))


def _is_inked(line: Line) -> bool:
    look = line.look
    return (
        look is not None
        and look.filling is not None
        and look.line in (None, look.filling)
        and len(line.cubics) > 1
    )
