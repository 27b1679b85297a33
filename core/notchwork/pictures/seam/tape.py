"""A difference at life size: a bar on a tape measure with a tick a mm (or a sixteenth of an inch), as long as on paper."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from itertools import groupby

from notchwork.model import Unit
from notchwork.pictures import ink
from notchwork.pictures.ink import n
from notchwork.pictures.lettering import lines
from notchwork.pictures.seam.axis import LEFT, RIGHT
from notchwork.pictures.seam.figures import wide
from notchwork.values import frozen

PX = 96.0 / 25.4
"""px a mm at life size."""
ROW, TALL = 14.0, 17.0
"""px: how high a row above the tape is, and the tape."""
TEAR = 12.0
"""px between the two halves of a torn tape."""
HEAD_MM = 30.0
"""mm of a torn tape before the tear."""
LINE = 14.0
"""px from one line of the heading to the next."""


@frozen
class Bar:
    """From where to where (mm), and its look."""

    start: float
    stop: float
    kind: str


@frozen
class Row:
    """One size: its label (empty where there is one only), its bars, and the figure beside them with its kind.

    ``zone``: what is fine or wanted in it (mm).
    """

    label: str
    bars: Sequence[Bar]
    said: str
    kind: str
    zone: tuple[float, float]

    @property
    def stop(self) -> float:
        """How far its bars and its zone reach (mm)."""
        return max(self.zone[1], *(bar.stop for bar in self.bars), 0.0)


@frozen
class Scale:
    """Which ticks a tape has: ``step`` (mm), and after how many steps they are longer.

    Every ``numbered`` steps a number stands, ``each`` more than the one before. A tape is ``least`` mm long or the next
    multiple of ``round_to``.
    """

    step: float
    heights: Sequence[tuple[int, float]]
    numbered: int
    each: int
    least: float
    round_to: float


_METRIC = Scale(1.0, ((1, 4.0), (5, 7.0), (10, 9.0)), 10, 10, 10.0, 5.0)
_CENTI = Scale(1.0, _METRIC.heights, 10, 1, 10.0, 5.0)
_INCH = Scale(25.4 / 16.0, ((1, 4.0), (4, 6.5), (8, 9.0), (16, 11.0)), 16, 1, 25.4 / 2.0, 25.4 / 4.0)


def tape(what: str, remark: str, rows: Sequence[Row], unit: Unit, column: float) -> tuple[list[str], float]:
    """The tape with its heading and its rows from y 0 down, and how high that is (px).

    The heading says ``what`` is measured, with a ``remark`` in brackets. ``column``: px that are kept at the left for the labels. A tape that does not fit is
    torn once, and its numbers go on behind the tear.
    """
    scale = {"in": _INCH, "cm": _CENTI, "mm": _METRIC}[unit]
    left = LEFT + column
    beside = max(wide(row.said, row.kind) for row in rows) + 12.0
    longest = max(row.stop for row in rows)
    if len(rows) == 1 and left + longest * PX + beside > RIGHT:
        what, beside = f"{what}: {rows[0].said}", 0.0
    length = max(scale.least, longest)
    length = math.ceil(length / scale.round_to - 1e-9) * scale.round_to
    room = (RIGHT - left - (beside if len(rows) > 1 else 0.0)) / PX
    head = length if length <= room else min(HEAD_MM, room / 2.0)
    behind = length if length <= room else length - math.floor(room - head - TEAR / PX)
    place = _placer(left, head, behind)
    marks, y = [], 0.0
    for said in lines(f"{what} ({remark})", RIGHT - LEFT, 11.0):
        y += LINE
        marks.append(ink.text(LEFT, y - 3.0, said, "muted"))
    y += 2.0
    top = y + ROW * len(rows)
    spans = [(0.0, length)] if head == length else [(0.0, head), (behind, length)]
    for start, stop in spans:
        marks.append(ink.box(place(start), top, place(stop) - place(start), TALL, "tape"))
        marks += _zones(rows, start, stop, place, y)
    for number, row in enumerate(rows):
        middle = y + ROW * number + 3.0
        for bar in row.bars:
            for start, stop in spans:
                marks += _in_span(bar, start, stop, place, middle, 9.0)
        if row.label:
            marks.append(ink.text(left - 6.0, middle + 9.0, row.label, "strong", "end"))
        if beside:
            x = place(row.stop)
            marks.append(ink.text(x + 6.0, middle + 9.0, row.said, row.kind))
    for start, stop in spans:
        marks += _ticks(start, stop, scale, place, top)
    if len(spans) > 1:
        marks.append(_tear(place(head), place(behind), y, top + TALL))
    marks.append(ink.path(f"M{n(left)} {n(y - 2.0)}V{n(top + TALL)}", "pin"))
    return marks, top + TALL + 1.0


def _placer(left: float, head: float, behind: float) -> Callable[[float], float]:
    """Where a mm of the tape stands (px); ``behind`` the tear it goes on."""

    def place(mm: float) -> float:
        if mm <= head:
            return left + mm * PX
        return left + head * PX + (TEAR + (mm - behind) * PX if mm >= behind else 0.0)

    return place


def _in_span(
    bar: Bar, start: float, stop: float, place: Callable[[float], float], y: float, high: float
) -> list[str]:
    """What of a bar lies on a part of the tape."""
    low, top = max(bar.start, start), min(bar.stop, stop)
    return [ink.box(place(low), y, place(top) - place(low), high, bar.kind)] if top > low else []


def _zones(
    rows: Sequence[Row], start: float, stop: float, place: Callable[[float], float], y: float
) -> list[str]:
    """What is fine or wanted, beside the rows that it holds for; if it holds for all, on the tape too."""
    marks: list[str] = []
    first = 0
    for zone, run in groupby(rows, lambda row: row.zone):
        count = len(list(run))
        high = ROW * count + (TALL if count == len(rows) else 0.0)
        marks += _in_span(Bar(zone[0], zone[1], "fine"), start, stop, place, y + ROW * first, high)
        first += count
    return marks


def _ticks(start: float, stop: float, scale: Scale, place: Callable[[float], float], y: float) -> list[str]:
    first, last = math.ceil(start / scale.step - 1e-9), math.floor(stop / scale.step + 1e-9)
    marks = []
    for every, high in scale.heights:
        steps = [k for k in range(max(first, 1), last + 1) if k % every == 0]
        if steps:
            apart = f"m{n(every * scale.step * PX)} {n(-high)}v{n(high)}"
            marks.append(f"M{n(place(steps[0] * scale.step))} {n(y)}v{n(high)}" + apart * (len(steps) - 1))
    numbers = [
        ink.text(
            place(k * scale.step) - 2.0,
            y + TALL - 2.5,
            str(k // scale.numbered * scale.each),
            "muted",
            "end",
        )
        for k in range(max(first, 1), last + 1)
        if k % scale.numbered == 0
        and place(k * scale.step) - place(start) > wide(str(k // scale.numbered * scale.each), "muted") + 3.0
    ]
    return [ink.path("".join(marks), "tick"), *numbers]


def _tear(left: float, right: float, top: float, bottom: float) -> str:
    """Two zigzags between which the tape is left out."""
    count = max(2, round((bottom - top) / 8.0))
    step = (bottom - top) / count / 2.0
    zigzag = f"l3 {n(step)}l-3 {n(step)}" * count
    return ink.path(f"M{n(left)} {n(top)}{zigzag}M{n(right - 3.0)} {n(top)}{zigzag}", "tick")
