"""Dimensions: a figure with its unit on a straight line, with lines across at its ends."""

from __future__ import annotations

import numpy as np

from notchwork.drawing import Text
from notchwork.geometry import is_straight
from notchwork.recognise.aside.sheet import Sheet
from notchwork.recognise.measures import measure_alone, rounding
from notchwork.recognise.placed import Line
from notchwork.recognise.scale import Gauge

BESIDE = 3.0
"""So many heights of type a figure stands from its line at most."""
ACROSS = 0.1
"""Sine of the angle by which lines of a dimension may be off."""
ENDS = 1.2
"""So many heights of type lie between a dimension's line and those across at its ends, where its arrow heads are."""


def set_dimensions_aside(sheet: Sheet) -> list[Gauge]:
    """Take away figures with their lines; what each says and what is drawn."""
    gauges: list[Gauge] = []
    for text in list(sheet.texts):
        stated = measure_alone(text.words)
        if stated is None:
            continue
        lines, drawn = _lines_of(sheet, text)
        if not lines:
            continue
        sheet.set_aside("dimension", lines, [text])
        if drawn is not None and stated > 0:
            gauges.append(Gauge(stated, drawn, rounding(text.words), f"“{text.words}”", complex(text.at)))
    return gauges


def _lines_of(sheet: Sheet, text: Text) -> tuple[list[Line], float | None]:
    """The lines of a dimension and how far apart its ends are drawn (mm)."""
    middle = complex(np.mean(text.box))
    straight = [
        line
        for line in sheet.open
        if len(line.cubics) == 1 and bool(is_straight(line.cubics)[0]) and line.length > 0
    ]
    reach = BESIDE * text.height
    near = [
        line for line in straight if _distance(line, middle) <= reach + abs(text.box[1] - text.box[0]) / 2
    ]
    for line in sorted(near, key=lambda line: (_off_axis(line, middle), -line.length))[:6]:
        if _off_axis(line, middle) > reach:
            continue
        along = _way(line)
        # Words may break the line in two.
        same = [
            other
            for other in near
            if abs((along.conjugate() * _way(other)).imag) < ACROSS
            and _off_line(line, other) < max(0.5, 0.1 * text.height)
        ]
        found = _with_ends(straight, same, along, ENDS * text.height)
        if len(found) > len(same):
            return found, _span(found, same, along)
    return [], None


def _with_ends(straight: list[Line], run: list[Line], along: complex, reach: float) -> list[Line]:
    """The run with the lines that stand across its outer ends."""
    ends = np.array([z for line in run for z in (line.start, line.end)])
    far = (ends * np.conj(along)).real
    found = list(run)
    for tip in (complex(ends[far.argmin()]), complex(ends[far.argmax()])):
        for line in straight:
            if line in found or abs((along.conjugate() * _way(line)).real) > ACROSS:
                continue
            if abs(((line.middle - tip) * along.conjugate()).real) <= reach and _distance(line, tip) <= reach:
                found.append(line)
    return found


def _span(found: list[Line], run: list[Line], along: complex) -> float | None:
    across = [line for line in found if line not in run]
    at = [(line.middle * along.conjugate()).real for line in across]
    return None if len(at) < 2 or max(at) - min(at) < 1e-6 else float(max(at) - min(at))


def _way(line: Line) -> complex:
    return (line.end - line.start) / abs(line.end - line.start)


def _distance(line: Line, z: complex) -> float:
    along = _way(line)
    at = min(max(((z - line.start) * along.conjugate()).real, 0.0), line.length)
    return abs(line.start + at * along - z)


def _off_axis(line: Line, z: complex) -> float:
    return abs(((z - line.start) * _way(line).conjugate()).imag)


def _off_line(line: Line, other: Line) -> float:
    return max(_off_axis(line, other.start), _off_axis(line, other.end))
