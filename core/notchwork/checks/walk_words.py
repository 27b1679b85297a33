"""Words that checks of seams share: which side, which interval, where on the piece."""

from __future__ import annotations

import numpy as np

from notchwork.findings import Length, Place
from notchwork.sewing import Comparison, Interval, Nest, SideWalk, Station, Walk
from notchwork.sewing.names import side_names, station_name
from notchwork.sewing.pieces.lines import Floats
from notchwork.sewing.walks.grade_steps import leaves_its_steps

IN_PASSING = 1.0
"""mm: what a piece has in an interval at least to be named there."""


def interval_words(nest: Nest, walk: Walk, interval: Interval) -> tuple[str, str]:
    """The names of the two stations between which an interval lies."""
    return _told_apart(nest, walk, interval.start, interval.stop)


def _told_apart(nest: Nest, walk: Walk, a: Station, b: Station) -> tuple[str, str]:
    """The names of two stations; where both are called alike, with the piece that each lies on."""
    first, second = station_name(nest, walk.id, a), station_name(nest, walk.id, b)
    if first == second and a.piece in nest.pieces and b.piece in nest.pieces:
        return f"{first} of {nest.pieces[a.piece].name}", f"{second} of {nest.pieces[b.piece].name}"
    return first, second


def place_of(
    nest: Nest, walk: Walk, comparison: Comparison, number: int, longer_is_other: bool, size: int
) -> Place:
    """The middle of an interval on the longer side, in one size."""
    interval = comparison.intervals[number]
    side: SideWalk = comparison.side if longer_is_other else comparison.one
    start, stop = (
        (interval.start.other, interval.stop.other)
        if longer_is_other
        else (interval.start.one, interval.stop.one)
    )
    middle = float(start[size] + stop[size]) / 2
    if middle != middle:
        return Place(seam=walk.id)
    stretch, arc = side.stretch_at(middle, size)
    line = stretch.line
    point = None if line.by_tape else nest.point(line, line.length * 0 + arc, size)
    return Place(seam=walk.id, piece=stretch.graded.id, line=line.name, point=point)


def longer_and_shorter(
    comparison: Comparison, other_is_longer: bool, interval: Interval | None = None
) -> tuple[str, str]:
    """The names of the two sides, the longer one first; of an interval only the pieces that lie in it."""
    one, other = side_names(comparison.one, comparison.side)
    if interval is not None:
        one_there = _pieces_there(comparison.one, interval.start.one, interval.stop.one)
        other_there = _pieces_there(comparison.side, interval.start.other, interval.stop.other)
        if one_there and other_there and one_there != other_there:
            one, other = one_there, other_there
    return (other, one) if other_is_longer else (one, other)


def _pieces_there(side: SideWalk, start: Floats, stop: Floats) -> str:
    """The pieces between two sewn distances (mm, sizes) from a side's start, as one length: "Front + Back"."""
    names = [
        stretch.graded.name
        for stretch, begins in zip(side.stretches, side.starts, strict=True)
        if bool(np.any(np.minimum(begins + stretch.length, stop) - np.maximum(begins, start) > IN_PASSING))
    ]
    return " + ".join(dict.fromkeys(names))


def with_grade_steps(
    hint: str, nest: Nest, walk: Walk, comparison: Comparison, off: Floats, size: int
) -> tuple[str, dict[str, object]]:
    """The hint with a sentence on the side that leaves its own grade steps in a size, if one does, and its values.

    Nothing is said of the grading where the size that is drafted is off as well.
    """
    if abs(float(off[nest.base])) > abs(float(off[size])) / 2:
        return hint, {}
    leaver = leaves_its_steps(nest, walk, comparison, size)
    if leaver is None:
        return hint, {}
    values: dict[str, object] = {"leaver": leaver.name, "leaves_in": leaver.size}
    told = []
    for number, (a, b, step) in enumerate(leaver.steps):
        values |= {f"from_{number}": a, f"to_{number}": b, f"step_{number}": Length(step)}
        told.append(f"{{from_{number}}} to {{to_{number}}} {{step_{number}}}")
    return (
        f"{hint} In {{leaves_in}}, {{leaver}} leaves its own grade steps ({', '.join(told)}).",
        values,
    )


def side_pair(comparison: Comparison) -> tuple[str, str]:
    """The names of the side compared with and of the further side."""
    return side_names(comparison.one, comparison.side)


def stretch_words(nest: Nest, walk: Walk, comparison: Comparison) -> str:
    """Where the ease may lie: " between the pitch notch and the back pitch notch"; empty where it is the whole seam."""
    full = comparison.full
    if not full or len(full) == len(comparison.intervals):
        return ""
    first, last = _told_apart(nest, walk, full[0].start, full[-1].stop)
    return f" between {first} and {last}"


def worst_size(nest: Nest, off: Floats) -> int:
    """The size that is furthest off; of several equally far the one that is drafted."""
    return max(range(len(off)), key=lambda size: (round(abs(float(off[size])), 3), size == nest.base))
