"""Which of many small boxes lie near each other, by the squares of a grid they fall into."""

from __future__ import annotations

import numpy as np

from notchwork.geometry.cubics import Complexes, Floats, Ints


class TooManyPairs(Exception):
    """More pairs lie near each other than may be looked at."""


def near_boxes(start: Complexes, end: Complexes, reach: float, most: int | None = None) -> tuple[Ints, Ints]:
    """Pairs (m,) of chords, the earlier first, whose upright boxes come within reach (mm) of each other.

    The work grows with the number of pairs and of chords, as long as no chord is much longer than the others. Raises
    TooManyPairs where more than ``most`` squares or pairs in one square would have to be looked at.
    """
    if len(start) < 2:
        none = np.zeros(0, dtype=np.intp)
        return none, none
    half = reach / 2.0
    left, right = np.minimum(start.real, end.real) - half, np.maximum(start.real, end.real) + half
    low, high = np.minimum(start.imag, end.imag) - half, np.maximum(start.imag, end.imag) + half
    side = max(float(np.maximum(right - left, high - low).mean()) * 2.0, 1e-9)
    boxes, columns, rows = _squares(left, right, low, high, side, most)
    order = np.lexsort((boxes, rows, columns))
    boxes, columns, rows = boxes[order], columns[order], rows[order]
    new = np.concatenate([[True], (columns[1:] != columns[:-1]) | (rows[1:] != rows[:-1])])
    stops = np.append(np.flatnonzero(new)[1:], len(boxes))[np.cumsum(new) - 1]
    count = stops - np.arange(1, len(boxes) + 1)
    if most is not None and int(count.sum()) > most:
        raise TooManyPairs
    first = np.repeat(np.arange(len(boxes)), count)
    second = first + 1 + np.arange(len(first)) - (np.cumsum(count) - count)[first]
    i, j = boxes[first], boxes[second]
    keep = (left[i] <= right[j]) & (left[j] <= right[i]) & (low[i] <= high[j]) & (low[j] <= high[i])
    pairs = np.sort(i[keep] * len(start) + j[keep])
    pairs = pairs[np.diff(pairs, prepend=-1) > 0]  # np.unique would import numpy.ma, longer than this takes
    return pairs // len(start), pairs % len(start)


def _squares(
    left: Floats, right: Floats, low: Floats, high: Floats, side: float, most: int | None
) -> tuple[Ints, Ints, Ints]:
    """Every square that each box touches: the box's number, the square's column and row."""
    x0, x1 = (np.floor(edge / side).astype(np.intp) for edge in (left, right))
    y0, y1 = (np.floor(edge / side).astype(np.intp) for edge in (low, high))
    wide, tall = x1 - x0 + 1, y1 - y0 + 1
    count = wide * tall
    # In floats: a box may touch more squares than whole numbers count.
    if most is not None and float((wide * 1.0 * tall).sum()) > most:
        raise TooManyPairs
    box = np.repeat(np.arange(len(left)), count)
    step = np.arange(len(box)) - (np.cumsum(count) - count)[box]
    return box, x0[box] + step % wide[box], y0[box] + step // wide[box]
