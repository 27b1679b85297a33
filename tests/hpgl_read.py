"""A reader of HP-GL for tests, written from the language's own rules and sharing nothing with the writer.

HP PCL 5 Technical Reference Manual, part II, chapters 17 to 23: two letters and numbers, a unit of 0.025 mm, PA and PR decide
what PD means, IP and SC scale; LB goes on to ETX.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

Complexes = NDArray[np.complex128]

UNIT = 0.025
ETX = "\x03"
_COMMAND = re.compile(r"\s*;*\s*([A-Z]{2})([-+0-9., ]*)")


@dataclass
class Page:
    """What stands on a sheet: (pen, points in mm) in the order in which it is drawn, and (place in mm, words)."""

    lines: list[tuple[int, Complexes]] = field(default_factory=list)
    labels: list[tuple[complex, str]] = field(default_factory=list)

    def of(self, *pens: int) -> list[Complexes]:
        return [line for pen, line in self.lines if pen in pens]

    @property
    def travel(self) -> float:
        """mm with the pen up, from the origin on."""
        at, far = 0j, 0.0
        for _, line in self.lines:
            far, at = far + abs(line[0] - at), complex(line[-1])
        return far


@dataclass
class Plot:
    """A file: its sheets, its commands with their numbers, and where the pen ended, with which pen."""

    pages: list[Page]
    commands: list[tuple[str, tuple[float, ...]]]
    ended: tuple[complex, int] = (0j, 0)

    @property
    def numbers(self) -> list[float]:
        return [number for _, numbers in self.commands for number in numbers]


def read(text: str, clamp: float = np.inf) -> Plot:
    """What a device draws that clamps every number. Raises ValueError for what is not in the language."""
    plot = Plot([Page()], [])
    at = corner = 0j
    pen, down, relative = 0, False, False
    p1, p2, scale = 0j, 1 + 1j, 1.0
    line: list[complex] = []
    place = 0

    def lift() -> None:
        nonlocal line
        if line:
            plot.pages[-1].lines.append((pen, np.array(line) * UNIT))
        line = []

    text = text.rstrip(" ;\r\n")
    while place < len(text):
        found = _COMMAND.match(text, place)
        if found is None:
            raise ValueError(f"no command: {text[place : place + 20]!r}")
        name, place = found[1], found.end()
        if name == "LB":
            end = text.index(ETX, found.end(1))
            plot.pages[-1].labels.append(((corner + at * scale) * UNIT, text[found.end(1) : end]))
            plot.commands.append((name, ()))
            place = end + 1
            continue
        numbers = tuple(min(max(float(n), -clamp), clamp) for n in re.split("[, ]+", found[2].strip()) if n)
        plot.commands.append((name, numbers))
        match name:
            case "IN":
                at = corner = 0j
                pen, down, relative, scale = 0, False, False, 1.0
            case "IP":
                p1, p2 = complex(*numbers[:2]), complex(*numbers[2:])
            case "SC":
                x1, x2, y1, y2 = numbers
                scale = (p2 - p1).real / (x2 - x1)
                assert scale == (p2 - p1).imag / (y2 - y1), "stretched"
                corner = p1 - scale * complex(x1, y1)
            case "SP":
                lift()
                pen = int(numbers[0])
            case "PA" | "PR" | "PU" | "PD":
                if name in ("PA", "PR"):
                    relative = name == "PR"
                else:
                    if name == "PU":
                        lift()
                    down = name == "PD"
                    if down and not line:
                        line = [corner + scale * at]
                for x, y in zip(numbers[::2], numbers[1::2], strict=True):
                    at = at + complex(x, y) if relative else complex(x, y)
                    if down:
                        line.append(corner + scale * at)
            case "PG" | "FR" | "AF":
                lift()
                plot.pages.append(Page())
            case "PS" | "VS" | "FS" | "SI" | "DI":
                pass
            case _:
                raise ValueError(f"no command of a plot: {name}")
    lift()
    if not plot.pages[-1].lines and not plot.pages[-1].labels:
        plot.pages.pop()
    plot.ended = ((corner + scale * at) * UNIT, pen)
    return plot
