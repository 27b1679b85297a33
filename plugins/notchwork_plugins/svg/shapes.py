"""The basic shapes as cubics, each starting and turning as SVG 2 (chapter 10) lays down."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import NamedTuple

import numpy as np

from notchwork.geometry.cubics import Complexes
from notchwork_plugins.svg.arcs import full_ellipse, quarter
from notchwork_plugins.svg.numbers import Malformed, leading_numbers

Reads = Callable[[str, str], float | None]
"""The value of a length attribute in user units: its name, and along what its percentages are measured ("x", "y" or "").
None where it is not given, "auto", or not understood."""


class Shape(NamedTuple):
    """Cubics (n, 4) that follow each other, none where there is nothing to draw."""

    cubics: Complexes
    closed: bool = True

    @property
    def middle(self) -> Shape:
        """The one point amid its nodes."""
        return Shape(
            np.full((min(1, len(self.cubics)), 4), self.cubics[:, 0].mean())
            if len(self.cubics)
            else self.cubics
        )


_NOTHING = Shape(np.empty((0, 4), np.complex128))


def rect(reads: Reads, unit: float) -> Shape:
    corner = complex(reads("x", "x") or 0.0, reads("y", "y") or 0.0)
    wide, tall = reads("width", "x") or 0.0, reads("height", "y") or 0.0
    if wide <= 0.0 or tall <= 0.0:
        return _NOTHING
    rx, ry = _radii(reads)
    rx, ry = min(rx, wide / 2), min(ry, tall / 2)
    corners = [corner, corner + wide, corner + complex(wide, tall), corner + tall * 1j]
    if rx <= 0.0 or ry <= 0.0:
        return Shape(_straight([*corners, corner]))
    parts: list[Complexes] = []
    at = corner + rx
    for bend, back, on in zip(
        (corners[1], corners[2], corners[3], corners[0]),
        (rx, ry * 1j, -rx, ry * -1j),
        (ry * 1j, -rx, ry * -1j, rx),
        strict=True,
    ):
        side = np.array([[at, at, bend - back, bend - back]])
        parts += [side[side[:, 0] != side[:, 3]], quarter(bend - back, bend, bend + on, unit)]
        at = bend + on
    cubics = np.concatenate(parts)
    cubics[-1, 3] = cubics[0, 0]
    return Shape(cubics)


def circle(reads: Reads, unit: float) -> Shape:
    r = reads("r", "") or 0.0
    return _ellipse(reads, r, r, unit)


def ellipse(reads: Reads, unit: float) -> Shape:
    rx, ry = _radii(reads)
    return _ellipse(reads, rx, ry, unit)


def line(reads: Reads, unit: float) -> Shape:
    start = complex(reads("x1", "x") or 0.0, reads("y1", "y") or 0.0)
    end = complex(reads("x2", "x") or 0.0, reads("y2", "y") or 0.0)
    return Shape(_straight([start, end]), closed=False)


SHAPES: Mapping[str, Callable[[Reads, float], Shape]] = {
    "rect": rect,
    "circle": circle,
    "ellipse": ellipse,
    "line": line,
}


def polyline(text: str, closed: bool) -> tuple[Shape, Malformed | None]:
    """The points of a polyline or polygon up to a fault, and the fault; an odd number at the end is one."""
    try:
        numbers, end = leading_numbers(text)
    except Malformed as error:
        return _NOTHING, error
    fault = None
    if end < len(text):
        fault = Malformed(f"“{text[end : end + 12]}” is no number", end)
    elif len(numbers) % 2:
        fault = Malformed("the last point has no second number", end)
    corners = list(map(complex, numbers[0 : len(numbers) - 1 : 2], numbers[1::2]))
    if closed and corners and corners[0] != corners[-1]:
        corners.append(corners[0])
    return (Shape(_straight(corners), closed) if len(corners) > 1 else _NOTHING), fault


def _straight(corners: list[complex]) -> Complexes:
    """Straight cubics from corner to corner."""
    z = np.array(corners, np.complex128)
    return np.stack([z[:-1], z[:-1], z[1:], z[1:]], axis=1)


def _ellipse(reads: Reads, rx: float, ry: float, unit: float) -> Shape:
    if rx <= 0.0 or ry <= 0.0:
        return _NOTHING
    return Shape(full_ellipse(complex(reads("cx", "x") or 0.0, reads("cy", "y") or 0.0), rx, ry, unit))


def _radii(reads: Reads) -> tuple[float, float]:
    """Both radii; one that is not given, or negative, is as the other."""
    rx, ry = (None if r is None or r < 0.0 else r for r in (reads("rx", "x"), reads("ry", "y")))
    return (rx if rx is not None else ry or 0.0), (ry if ry is not None else rx or 0.0)
