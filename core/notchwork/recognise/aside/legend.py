"""Legends: swatches with words beside them."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from notchwork.drawing import Text
from notchwork.recognise.aside.sheet import Sheet
from notchwork.recognise.measures import says_allowance
from notchwork.recognise.placed import Line

LARGEST = 80.0
"""mm: a swatch is no larger. Common practice, no source."""
BESIDE = 2.5
"""So many of its own widths the words of a swatch lie to its right, or left, at most."""
ALIKE = 0.1


def set_legend_aside(sheet: Sheet) -> dict[str, str]:
    """Take swatches away; what each filling stands for, in the legend's words."""
    pairs = [(line, text) for line in sheet.closed if (text := _words_of(line, sheet.texts)) is not None]
    meant: dict[str, str] = {}
    for line, text in pairs:
        column = {_filling(other) for other, _ in pairs if _stands_with(line, other)}
        if len(column) < 2 and not says_allowance(text.words):
            continue
        if line.look is not None and line.look.filling is not None:
            meant.setdefault(line.look.filling, text.words)
        sheet.set_aside("legend", [line], [text])
    return meant


def _filling(line: Line) -> str | None:
    return None if line.look is None else line.look.filling


def _words_of(line: Line, texts: Sequence[Text]) -> Text | None:
    size = line.size
    if line.look is None or line.look.filling is None or max(size.real, size.imag) > LARGEST:
        return None
    if line.area < 0.9 * size.real * size.imag:
        return None
    low, high = line.box
    best: tuple[float, Text] | None = None
    for text in texts:
        xs, ys = np.real(text.box), np.imag(text.box)
        level = float(ys.mean())
        gap = max(float(xs.min()) - high.real, low.real - float(xs.max()))
        off = abs(level - line.middle.imag)
        if 0.0 < gap <= BESIDE * size.real and off <= 0.75 * size.imag and (best is None or off < best[0]):
            best = (off, text)
    return None if best is None else best[1]


def _stands_with(line: Line, other: Line) -> bool:
    if line is other:
        return True
    alike = abs(line.size - other.size) <= ALIKE * abs(line.size)
    step = other.middle - line.middle
    in_row = min(abs(step.real), abs(step.imag)) <= ALIKE * abs(line.size)
    return alike and in_row and abs(step) <= 4.0 * abs(line.size)
