"""A seam walked, for the terminal: interval by interval both sides and how they differ, in every size."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence

from notchwork.checks import Names
from notchwork.findings import Ratio, listed, plain_name, rounded, worded
from notchwork.model import Join
from notchwork.report.about_pattern import NOT_THERE, length_text, opening_lines
from notchwork.report.grid import Row, grid
from notchwork.report.paper import Paper
from notchwork.sewing import Comparison, Nest, Walk
from notchwork.sewing.names import side_names, station_name

_INDENT = 2


def walk_text(name: str, nest: Nest, walks: Iterable[Walk], paper: Paper) -> str:
    """Every further side against side 1, interval by interval, in every size."""
    names = Names(nest.pattern)
    lines = opening_lines(name, nest, paper)
    for walk in walks:
        lines += ["", *paper.headings(names.seam(walk.id))]
        for other in walk.others:
            one, against = side_names(other.one, other.side)
            against += _join_words(other.join)
            lines += paper.terms([("side 1", one), (_side(other), against)], _INDENT)
            for told in _not_in_order(nest, walk, other):
                lines += paper.wrapped(told, _INDENT)
            rows = list(_rows(nest, walk, other, names))
            lines += grid([size or "" for size in nest.sizes], rows, paper, _INDENT)
    return "\n".join(lines) + "\n"


def _side(other: Comparison) -> str:
    return f"side {other.side.number + 1}"


def _not_in_order(nest: Nest, walk: Walk, other: Comparison) -> Iterator[str]:
    """What keeps stations out of the walk."""
    if walk.id in nest.wrong_way:
        yield "This seam is stated the wrong way round, so what lies between its ends means little."
    elif other.pairing.crossed:
        yield "Its stations stand in different order on the two sides; those that cross are left out."
    for kind, these, those in other.pairing.unequal:
        yield f"{len(these)} {kind} on one side and {len(those)} on the other: none of them is paired."


def _rows(nest: Nest, walk: Walk, other: Comparison, names: Names) -> Iterator[Row]:
    """The rows of each interval and of the whole seam, which needs no heading where it is one interval."""
    full = other.join is not None and other.join.between is None
    whole = _compared(other.one.length, other.side.length, other, full, names)
    if len(other.intervals) < 2:
        yield from whole
        return
    for interval in other.intervals:
        start, stop = (station_name(nest, walk.id, at) for at in (interval.start, interval.stop))
        rows = _compared(interval.one, interval.other, other, interval.full, names)
        yield from _under(f"{start} to {stop}", rows)
    yield from _under("whole seam", whole)


def _under(heading: str, rows: Iterable[Row]) -> Iterator[Row]:
    yield heading, ()
    for label, cells in rows:
        yield f"  {label}", cells


def _compared(
    one: Iterable[float], further: Iterable[float], other: Comparison, full: bool, names: Names
) -> Iterator[Row]:
    """Both lengths and their difference, which is that of the lengths as they are shown; one row where they are the same."""
    these = [rounded(float(length), names.unit) for length in one]
    those = [rounded(float(length), names.unit) for length in further]
    by = [b - a for a, b in zip(these, those, strict=True)]
    if not any(_differs(difference) for difference in by) and any(map(math.isfinite, by)):
        yield "both sides", [length_text(length, names.unit) for length in these]
        return
    yield "side 1", [length_text(length, names.unit) for length in these]
    yield _side(other), [length_text(length, names.unit) for length in those]
    yield _difference(by, other, names)
    if full and other.kind in ("gathered", "stretched"):
        yield "times as long", [_times(a, b) for a, b in zip(one, further, strict=True)]


def _difference(by: Sequence[float], other: Comparison, names: Names) -> Row:
    """In words where the same side is longer in all sizes, else by signs."""
    signs = {difference > 0 for difference in by if _differs(difference)}
    word = (
        "longer by" if signs == {True} else "shorter by" if signs == {False} else "longer (+), shorter (-) by"
    )
    return f"{_side(other)} {word}", [_by(difference, len(signs) > 1, names) for difference in by]


def _by(difference: float, signed: bool, names: Names) -> str:
    if math.isfinite(difference) and not _differs(difference):
        return "same"
    sign = ("+" if difference > 0 else "-") if signed and math.isfinite(difference) else ""
    return sign + length_text(abs(difference), names.unit)


def _differs(difference: float) -> bool:
    """Lengths that are shown as different differ by a tenth of a mm at least."""
    return abs(difference) > _SHOWN_ALIKE


_SHOWN_ALIKE = 0.01


def _times(one: float, further: float) -> str:
    return worded("{times}", {"times": Ratio(further / one)}) if one > 0 else NOT_THERE


def _join_words(join: Join | None) -> str:
    if join is None or join.kind == "plain":
        return ""
    where = (
        f" between {listed(plain_name(name) for name in join.between)}" if join.between is not None else ""
    )
    return f", {join.kind}{where}"
