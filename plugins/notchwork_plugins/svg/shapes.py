"""The basic shapes as runs of cubics, each starting and turning as SVG 2 (chapter 10) lays down."""

from __future__ import annotations

from collections.abc import Callable

from notchwork_plugins.svg.arcs import full_ellipse, quarter
from notchwork_plugins.svg.numbers import Malformed, leading_numbers
from notchwork_plugins.svg.paths import Path, Run

Reads = Callable[[str, str], float | None]
"""The value of a length attribute in user units: its name, and along what its percentages are measured ("x", "y" or "").
None where it is not given, "auto", or not understood."""

NOTHING = Path([], None)


def rect(reads: Reads, unit: float) -> Path:
    x, y = reads("x", "x") or 0.0, reads("y", "y") or 0.0
    wide, tall = reads("width", "x") or 0.0, reads("height", "y") or 0.0
    if wide <= 0.0 or tall <= 0.0:
        return NOTHING
    rx, ry = _radius(reads("rx", "x")), _radius(reads("ry", "y"))
    rx, ry = rx if rx is not None else ry or 0.0, ry if ry is not None else rx or 0.0
    rx, ry = min(rx, wide / 2), min(ry, tall / 2)
    corner = complex(x, y)
    if rx <= 0.0 or ry <= 0.0:
        corners = [corner, corner + wide, corner + complex(wide, tall), corner + tall * 1j]
        return Path([Run(polygon_points(corners, closed=True), True)], None)
    points: list[complex] = []
    at = corner + rx
    for side, bend, exit_ in (
        (complex(wide - 2 * rx, 0), complex(rx, 0), complex(0, ry)),
        (complex(0, tall - 2 * ry), complex(0, ry), complex(-rx, 0)),
        (complex(2 * rx - wide, 0), complex(-rx, 0), complex(0, -ry)),
        (complex(0, 2 * ry - tall), complex(0, -ry), complex(rx, 0)),
    ):
        points += (at, at, at + side, at + side)
        at += side
        for k, z in enumerate(quarter(at, at + bend, at + bend + exit_, unit)):
            if k % 3 == 0:
                points.append(points[-1])
            points.append(z)
        at = points[-1]
    points[-1] = points[0]
    return Path([Run(points, True)], None)


def circle(reads: Reads, unit: float) -> Path:
    r = reads("r", "") or 0.0
    return _ellipse(reads, r, r, unit)


def ellipse(reads: Reads, unit: float) -> Path:
    rx, ry = _radius(reads("rx", "x")), _radius(reads("ry", "y"))
    return _ellipse(reads, rx if rx is not None else ry or 0.0, ry if ry is not None else rx or 0.0, unit)


def line(reads: Reads, unit: float) -> Path:
    start = complex(reads("x1", "x") or 0.0, reads("y1", "y") or 0.0)
    end = complex(reads("x2", "x") or 0.0, reads("y2", "y") or 0.0)
    return Path([Run([start, start, end, end], False)], None)


def polyline(text: str, closed: bool) -> Path:
    """The points of a polyline or polygon, up to a fault; an odd number at the end is one."""
    try:
        numbers, end = leading_numbers(text)
    except Malformed as error:
        return Path([], error)
    fault = None
    if end < len(text):
        fault = Malformed(f"“{text[end : end + 12]}” is no number", end)
    elif len(numbers) % 2:
        fault = Malformed("the last point has no second number", end)
    corners = list(map(complex, numbers[0 : len(numbers) - 1 : 2], numbers[1::2]))
    runs = [Run(polygon_points(corners, closed), closed)] if len(corners) > 1 else []
    return Path(runs, fault)


def polygon_points(corners: list[complex], closed: bool) -> list[complex]:
    """Straight cubics from corner to corner."""
    ends = corners[1:]
    if closed and corners[0] != corners[-1]:
        ends = [*ends, corners[0]]
    points: list[complex] = []
    at = corners[0]
    for end in ends:
        points += (at, at, end, end)
        at = end
    return points


def _ellipse(reads: Reads, rx: float, ry: float, unit: float) -> Path:
    if rx <= 0.0 or ry <= 0.0:
        return NOTHING
    centre = complex(reads("cx", "x") or 0.0, reads("cy", "y") or 0.0)
    return Path([Run(full_ellipse(centre, rx, ry, unit), True)], None)


def _radius(value: float | None) -> float | None:
    """A negative radius counts as not given."""
    return None if value is None or value < 0.0 else value
