"""Legends: swatches with words beside them."""

from __future__ import annotations

import numpy as np

from notchwork.recognise.aside.sheet import Sheet
from notchwork.recognise.measures import says_allowance
from notchwork.recognise.placed import Line
from notchwork.recognise.shape import Complexes

LARGEST = 80.0
"""mm: a swatch is no larger. Common practice, no source."""
BESIDE = 2.5
"""So many of its own widths the words of a swatch lie to its right, or left, at most."""
ALIKE = 0.1


def set_legend_aside(sheet: Sheet) -> dict[str, str]:
    """Take swatches away; what each filling stands for, in the legend's words."""
    boxes = np.array([text.box for text in sheet.texts], dtype=np.complex128).reshape(-1, 4)
    pairs = [(line, sheet.texts[k]) for line in sheet.closed if (k := _words_of(line, boxes)) is not None]
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


def _words_of(line: Line, boxes: Complexes) -> int | None:
    """Which of the texts with these corners (m, 4) stands beside a swatch and on a level with it, the nearest to its middle."""
    size = line.size
    if _filling(line) is None or max(size.real, size.imag) > LARGEST or not len(boxes):
        return None
    if line.area < 0.9 * size.real * size.imag:
        return None
    low, high = line.box
    gap = np.maximum(boxes.real.min(axis=1) - high.real, low.real - boxes.real.max(axis=1))
    off = np.abs(boxes.imag.mean(axis=1) - line.middle.imag)
    beside = (gap > 0.0) & (gap <= BESIDE * size.real) & (off <= 0.75 * size.imag)
    return int(np.where(beside, off, np.inf).argmin()) if beside.any() else None


def _stands_with(line: Line, other: Line) -> bool:
    if line is other:
        return True
    alike = abs(line.size - other.size) <= ALIKE * abs(line.size)
    step = other.middle - line.middle
    in_row = min(abs(step.real), abs(step.imag)) <= ALIKE * abs(line.size)
    return alike and in_row and abs(step) <= 4.0 * abs(line.size)
