"""Rows that checks of seams share: an interval whose sides differ, and the ease of a side against what is wanted."""

from __future__ import annotations

import numpy as np

from notchwork.checks.walk_words import interval_words, longer_and_shorter, place_of, side_pair, stretch_words
from notchwork.findings import Length, Row
from notchwork.sewing import Misfit, Nest, Walk


def interval_row(nest: Nest, walk: Walk, off: Misfit, by: float, size: int) -> Row:
    """One size of an interval that is ``by`` mm off, signed as further side less the other.

    Values: longer, shorter, difference, more, less, first, second.
    """
    comparison, number = off.comparison, off.where[size]
    interval = comparison.intervals[number]
    one, other = float(interval.one[size]), float(interval.other[size])
    longer, shorter = longer_and_shorter(comparison, by > 0, interval)
    first, second = interval_words(nest, walk, interval)
    values = {
        "longer": longer,
        "shorter": shorter,
        "difference": Length(abs(by)),
        "more": Length(max(one, other)),
        "less": Length(min(one, other)),
        "first": first,
        "second": second,
    }
    place = place_of(nest, walk, comparison, number, by > 0, size) if by else None
    return Row(nest.sizes[size], abs(by), max(one, other), min(one, other), values, place)


def ease_row(nest: Nest, walk: Walk, off: Misfit, size: int) -> Row:
    """One size of a side whose ease is held against the range that is stated in mm.

    Values: one, other, ease, short (the ease with its sign turned), least, most, where.
    """
    comparison = off.comparison
    assert comparison.wanted is not None
    by = float(off.fullness[size])
    ease = float(np.sum([interval.difference[size] for interval in comparison.full]))
    least, most = float(comparison.wanted.least[size]), float(comparison.wanted.most[size])
    one, other = side_pair(comparison)
    values = {
        "one": one,
        "other": other,
        "ease": Length(ease),
        "short": Length(-ease),
        "least": Length(least),
        "most": Length(most),
        "where": stretch_words(nest, walk, comparison),
    }
    middle = comparison.intervals.index(comparison.full[len(comparison.full) // 2])
    place = place_of(nest, walk, comparison, middle, True, size) if by else None
    return Row(nest.sizes[size], by, ease, least if by < 0 else most, values, place)
