"""Title frames: upright rectangles round everything."""

from __future__ import annotations

import re

from notchwork.recognise.aside.sheet import Sheet
from notchwork.recognise.placed import Line, boxes_apart

PAPER = (
    (210, 297),
    (297, 420),
    (420, 594),
    (594, 841),
    (841, 1189),
    (215.9, 279.4),
    (279.4, 431.8),
    (914, 1219),
)
"""Sheets (mm): ISO 216 A4 to A0; letter, tabloid and an architect's sheet of 36 by 48 in (from memory of ANSI Y14.1)."""
MARGIN = 25.0
"""mm that a frame's line lies inside its sheet, at most."""
FEWEST = 3
"""A rectangle of no sheet's size is a frame only round so many closed shapes that lie apart."""

_TITLE = re.compile(r"frame|border|title|rahmen|page|sheet", re.IGNORECASE)


def set_frames_aside(sheet: Sheet) -> list[Line]:
    """The outermost rectangle, and one inside it, as long as they are frames round pieces; those that were taken away."""
    frames: list[Line] = []
    while True:
        frame = next((line for line in sheet.closed if _is_frame(line, sheet)), None)
        if frame is None:
            return frames
        sheet.set_aside("title frame", [frame])
        frames.append(frame)


def _is_frame(line: Line, sheet: Sheet) -> bool:
    size = line.size
    if len(line.cubics) > 6 or line.area < 0.98 * size.real * size.imag or size.real < 100 or size.imag < 100:
        return False
    if line.look is not None and line.look.filling is not None:
        return False
    low, high = line.box
    others = [other for other in sheet.lines if other is not line]
    if not all(_within(other, low, high, sheet.tol) for other in others):
        return False
    inside = [other for other in others if other.closed or len(other.cubics) > 3]
    if _TITLE.search(str(line.stroke.facts.get("name", ""))) and inside:
        return True
    return len(inside) > 1 and (_is_paper(size) or (len(inside) >= FEWEST and _lie_apart(inside)))


def _within(other: Line, low: complex, high: complex, tol: float) -> bool:
    a, b = other.box
    return (
        a.real >= low.real - tol
        and a.imag >= low.imag - tol
        and b.real <= high.real + tol
        and b.imag <= high.imag + tol
    )


def _is_paper(size: complex) -> bool:
    short, long = sorted((size.real, size.imag))
    return any(0 <= a - short <= 2 * MARGIN and 0 <= b - long <= 2 * MARGIN for a, b in PAPER)


def _lie_apart(lines: list[Line]) -> bool:
    large = sorted(lines, key=lambda line: -line.area)[:FEWEST]
    return all(boxes_apart(a.box, b.box) > 0.0 for k, a in enumerate(large) for b in large[:k])
