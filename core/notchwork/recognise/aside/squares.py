"""Test squares and scale bars, where a text names them as such, or the drawing's own facts. A square alone is a piece."""

from __future__ import annotations

import re

from notchwork.drawing import Text
from notchwork.recognise.aside.sheet import Sheet
from notchwork.recognise.measures import measures, rounding
from notchwork.recognise.placed import Line, boxes_apart
from notchwork.recognise.scale import Gauge

_NAMED = re.compile(
    r"\b(test|control|check|calibration|print|gauge|prüf|kontroll|mass|maß)\w*[\s-]*(square|box|bar|quadrat|feld)\b|"
    r"\bthis (square|box|bar|line) (is|should|must)\b|\bscale\b(?!\s*[:=]?\s*\d+\s*[:=])|\bscale (bar|for)\b|\bcarré (test|de contrôle)",
    re.IGNORECASE,
)
BESIDE = 6.0
"""So many heights of type a square lies from the words that name it."""
LINE = 2.0
"""From one line of a paragraph to the next, at most, in heights of type."""
BAR = 15.0
"""mm: boxes of a scale bar are no higher."""


def names_square(words: str) -> bool:
    """Whether a text says that something beside it is there to be measured."""
    return _NAMED.search(words) is not None


def set_squares_aside(sheet: Sheet) -> list[Gauge]:
    """Take away named squares and bars; what each says and how it is drawn."""
    gauges = _of_its_own(sheet)
    for text in [text for text in sheet.texts if names_square(text.words)]:
        reach = max(BESIDE * text.height, 15.0)
        beside = sorted((line for line in sheet.closed if _is_box(line)), key=lambda line: _apart(text, line))
        beside = [line for line in beside if _apart(text, line) <= reach]
        stated, said = _stated(sheet, text)
        fitting = next((line for line in beside if stated and _fits(line, stated)), None)
        if fitting is not None:
            drawn = (abs(fitting.size.real), abs(fitting.size.imag))
            wide = max(drawn) if max(stated) == stated[0] or len(stated) == 1 else drawn[0]
            gauges.append(Gauge(max(stated), wide, rounding(said.words), f"“{text.words}”", text.at, True))
            sheet.set_aside("test square", [fitting], [text] if said is text else [text, said])
            continue
        bar = _bar(sheet, [line for line in beside if min(line.size.real, line.size.imag) <= BAR])
        if bar:
            sheet.set_aside("scale bar", bar, [text])
    return gauges


def _stated(sheet: Sheet, text: Text) -> tuple[list[float], Text]:
    """The size that words state, or the line below them, and the line that does."""
    below = [
        other
        for other in sheet.texts
        if abs(other.at.real - text.at.real) < text.height
        and 0.0 < (text.at - other.at).imag <= LINE * text.height
    ]
    return next(((found, line) for line in (text, *below) if (found := measures(line.words))), ([], text))


def _of_its_own(sheet: Sheet) -> list[Gauge]:
    """Squares that say by their facts that they are there to be measured, and how wide they are."""
    gauges: list[Gauge] = []
    for line in [line for line in sheet.closed if line.stroke.facts.get("kind") == "test-square"]:
        stated = line.stroke.facts.get("width")
        if isinstance(stated, float | int) and stated > 0 and _is_box(line) and _fits(line, [float(stated)]):
            wide = abs(line.size.real)
            gauges.append(Gauge(float(stated), wide, 0.5, "The test square", line.middle, True, own=True))
            sheet.set_aside("test square", [line])
    return gauges


def _is_box(line: Line) -> bool:
    size = line.size
    return size.real > 0 and size.imag > 0 and line.area > 0.97 * size.real * size.imag


def _fits(line: Line, stated: list[float]) -> bool:
    """Whether a box has the shape the words state: a square for one figure or two equal ones, else their ratio."""
    long, short = max(line.size.real, line.size.imag), min(line.size.real, line.size.imag)
    ratio = max(stated[:2]) / min(stated[:2]) if len(stated) > 1 and min(stated[:2]) > 0 else 1.0
    return abs(long / short - ratio) <= 0.03 * ratio


def _apart(text: Text, line: Line) -> float:
    xs, ys = [z.real for z in text.box], [z.imag for z in text.box]
    return boxes_apart((complex(min(xs), min(ys)), complex(max(xs), max(ys))), line.box)


def _bar(sheet: Sheet, first: list[Line]) -> list[Line]:
    """The boxes of a bar: from the first on, those that lie end to end with it in one row."""
    found = list(first[:1])
    flat = [line for line in sheet.closed if _is_box(line) and min(line.size.real, line.size.imag) <= BAR]
    grown = True
    while grown and found:
        grown = False
        for line in flat:
            if line not in found and any(
                boxes_apart(line.box, other.box) <= BAR
                and abs(line.middle.imag - other.middle.imag) <= BAR / 2
                for other in found
            ):
                found.append(line)
                grown = True
    return found
