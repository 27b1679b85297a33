"""The data of a path, read by SVG's grammar and nothing looser, as runs of cubics.

Source: SVG 2, chapter 9. A path with a fault is read up to it, as the standard demands (9.5.2), and the fault is told.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import accumulate
from typing import NamedTuple

from notchwork_plugins.svg.arcs import arc
from notchwork_plugins.svg.numbers import GAP, MOST, NUMBER, SPACE, Malformed, leading_numbers

_WHITE = " \t\r\n\f"
_COMMAND = re.compile(r"([MmZzLlHhVvCcSsQqTtAa])([^MmZzLlHhVvCcSsQqTtAa]*+)")
_SPACE = re.compile(SPACE)
_ARC = re.compile(
    rf"{SPACE}({NUMBER}){GAP}({NUMBER}){GAP}({NUMBER}){GAP}([01]){GAP}([01]){GAP}({NUMBER}){GAP}({NUMBER})"
    rf"{SPACE}(?:,{SPACE}(?=[-+.0-9]))?+"
)
_ARITY = {"M": 2, "L": 2, "H": 1, "V": 1, "C": 6, "S": 4, "Q": 4, "T": 2}


class Run(NamedTuple):
    """Cubics that follow each other: their control points, four for each. ``closed``: the path says that it closes."""

    points: list[complex]
    closed: bool


class Path(NamedTuple):
    """What came of a path's data; ``fault`` is why and where reading it ended early."""

    runs: list[Run]
    fault: Malformed | None


def read_path(data: str, unit: float, most: int) -> Path:
    """The runs of a path's data; ``unit`` is how many mm a unit is, ``most`` how many cubics there may be.

    A move that nothing follows gives no run. A closing line is a cubic of its own where it has a length.
    """
    pen = _Pen(unit, most)
    fault = None
    try:
        pen.follow(data)
    except Malformed as error:
        fault = error
    return Path(pen.finished(), fault)


def _commands(data: str) -> Iterator[tuple[str, str, int]]:
    """Each command, what follows it, and where that begins."""
    start = _SPACE.match(data)
    at = start.end() if start else 0
    for found in _COMMAND.finditer(data, at):
        if found.start() != at:
            break
        at = found.end()
        yield found[1], found[2], found.start(2)
    if at < len(data):
        raise Malformed(f"“{data[at : at + 12]}” is no command of a path", at)


class _Pen:
    """Where the pen is while it follows a path, and what it has drawn."""

    def __init__(self, unit: float, most: int) -> None:
        self._unit = unit
        self._left = most
        self._at = 0j
        self._start = 0j
        self._handle = 0j
        self._points: list[complex] = []
        self._runs: list[Run] = []

    def finished(self) -> list[Run]:
        self._lift(closed=False)
        return self._runs

    def follow(self, data: str) -> None:
        before = ""
        for command, text, offset in _commands(data):
            kind = command.upper()
            if not before and kind != "M":
                raise Malformed("a path begins with a move (M)", offset - 1)
            if kind == "Z":
                self._close()
                if text.strip(_WHITE):
                    raise Malformed(f"“{text[:12]}” follows a closing (Z)", offset)
            elif kind == "A":
                self._arcs(text, offset, command == "a")
            else:
                numbers, fault = _arguments(command, text, offset)
                self._spend(len(numbers) // _ARITY[kind], offset)
                self._draw(kind, numbers, command != kind, before)
                if fault is not None:
                    raise fault
            before = kind

    def _spend(self, count: int, offset: int) -> None:
        self._left -= count
        if self._left < 0:
            raise Malformed("the drawing has too many segments", offset)

    def _draw(self, kind: str, numbers: list[float], relative: bool, before: str) -> None:
        if kind == "H" or kind == "V":
            self._straight_along(kind, numbers, relative)
            return
        ends = list(map(complex, numbers[::2], numbers[1::2]))
        if kind == "M":
            self._move(ends, relative)
        elif kind == "L":
            self._lines(ends, relative)
        elif kind == "C":
            self._cubics(ends, relative)
        elif kind == "S":
            self._smooth_cubics(ends, relative, before)
        elif kind == "Q":
            self._quadratics(ends, relative)
        else:
            self._smooth_quadratics(ends, relative, before)

    def _move(self, ends: list[complex], relative: bool) -> None:
        if ends:
            self._lift(closed=False)
            self._at = self._start = ends[0] + (self._at if relative else 0j)
            self._lines(ends[1:], relative)

    def _lines(self, ends: list[complex], relative: bool) -> None:
        at, points = self._at, self._points
        for end in list(accumulate(ends, initial=at))[1:] if relative else ends:
            points += (at, at, end, end)
            at = end
        self._at = at

    def _straight_along(self, kind: str, numbers: list[float], relative: bool) -> None:
        at = self._at
        if relative:
            ends = [complex(n, 0.0) if kind == "H" else complex(0.0, n) for n in numbers]
        else:
            ends = [complex(n, at.imag) if kind == "H" else complex(at.real, n) for n in numbers]
        self._lines(ends, relative)

    def _cubics(self, ends: list[complex], relative: bool) -> None:
        at, points = self._at, self._points
        triples = iter(ends)
        for a, b, end in zip(triples, triples, triples, strict=True):
            if relative:
                points += (at, at + a, at + b, at + end)
            else:
                points += (at, a, b, end)
            at = points[-1]
        self._at = at
        self._handle = points[-2] if ends else at

    def _smooth_cubics(self, ends: list[complex], relative: bool, before: str) -> None:
        handle = self._handle if before in ("C", "S") else self._at
        pairs = iter(ends)
        for b, end in zip(pairs, pairs, strict=True):
            at = self._at
            base = at if relative else 0j
            handle, self._at, first = base + b, base + end, 2 * at - handle
            self._points += (at, first, handle, self._at)
        self._handle = handle

    def _quadratics(self, ends: list[complex], relative: bool) -> None:
        pairs = iter(ends)
        for handle, end in zip(pairs, pairs, strict=True):
            base = self._at if relative else 0j
            self._quadratic(base + handle, base + end)

    def _smooth_quadratics(self, ends: list[complex], relative: bool, before: str) -> None:
        if before not in ("Q", "T"):
            self._handle = self._at
        for end in ends:
            self._quadratic(2 * self._at - self._handle, end + (self._at if relative else 0j))

    def _quadratic(self, handle: complex, end: complex) -> None:
        at = self._at
        self._points += (at, (at + 2 * handle) / 3, (end + 2 * handle) / 3, end)
        self._at, self._handle = end, handle

    def _arcs(self, text: str, offset: int, relative: bool) -> None:
        done = 0
        while found := _ARC.match(text, done):
            rx, ry, degrees, large, sweep, x, y = found.groups()
            numbers = list(map(float, (rx, ry, degrees, x, y)))
            if max(map(abs, numbers)) > MOST:
                raise Malformed("a number is far too large", offset + done)
            end = complex(numbers[3], numbers[4]) + (self._at if relative else 0j)
            radii = complex(numbers[0], numbers[1])
            points = arc(self._at, end, radii, numbers[2], large == "1", sweep == "1", self._unit)
            self._spend(max(1, len(points) // 3), offset + done)
            for k in range(0, len(points), 3):
                self._points += (self._at, *points[k : k + 3])
                self._at = points[k + 2]
            done = found.end()
        if not done or done < len(text):
            raise Malformed(
                "an arc takes two radii, an angle, two flags that are 0 or 1, and a point; "
                f"“{text[done : done + 24].strip()}” is not that",
                offset + done,
            )

    def _close(self) -> None:
        if self._at != self._start:
            self._points += (self._at, self._at, self._start, self._start)
        self._at = self._start
        self._lift(closed=True)

    def _lift(self, closed: bool) -> None:
        if self._points:
            self._runs.append(Run(self._points, closed))
            self._points = []


def _arguments(command: str, text: str, offset: int) -> tuple[list[float], Malformed | None]:
    """The numbers of as many whole segments as there are, and what is wrong after them."""
    try:
        numbers, end = leading_numbers(text)
    except Malformed as error:
        return [], Malformed(error.why, offset + error.offset)
    arity = _ARITY[command.upper()]
    over = len(numbers) % arity
    fault = None
    if end < len(text):
        fault = Malformed(f"“{text[end : end + 12]}” is no number", offset + end)
    elif over or not numbers:
        each = f"{arity} numbers each" if arity > 1 else "numbers"
        fault = Malformed(f"{command} takes {each}, and here are {len(numbers)}", offset)
    return numbers[: len(numbers) - over], fault
