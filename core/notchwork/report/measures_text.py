"""What was measured, for the terminal: a seam walked interval by interval, and pieces with their edges."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator

from notchwork.checks import Names
from notchwork.findings import Length, Ratio, listed, plain_name, worded
from notchwork.model import Join
from notchwork.report.figures import drawn_area, perimeter, unfolded_area
from notchwork.report.paper import Paper, table
from notchwork.sewing import Comparison, GradedPiece, Nest, Walk
from notchwork.sewing.names import side_names, station_name

_INDENT = 2
_SQUARE = {"mm": (100.0, "cm²"), "cm": (100.0, "cm²"), "in": (25.4**2, "sq in")}


def walk_text(name: str, nest: Nest, walks: Iterable[Walk], paper: Paper) -> str:
    """Every further side against side 1, interval by interval, in every size."""
    names = Names(nest.pattern)
    lines = [
        paper.heading(f"{name}: {nest.pattern.title}" if nest.pattern.title else name),
        *_sizes_line(nest),
    ]
    for walk in walks:
        lines += ["", paper.heading(names.seam(walk.id))]
        for other in walk.others:
            one, against = side_names(other.one, other.side)
            join = _join_words(other.join, names)
            lines += paper.wrapped(f"{one} against {against}{join}", _INDENT)
            for told in _not_in_order(nest, walk, other):
                lines += paper.wrapped(told, _INDENT)
            for k, size in enumerate(nest.sizes):
                lines += [
                    *([f"{' ' * _INDENT}size {size}"] if size is not None else []),
                    *_intervals(nest, walk, other, k, names),
                ]
    return "\n".join(lines) + "\n"


def describe_text(name: str, nest: Nest, paper: Paper) -> str:
    """Every piece with its edges in every size, and every seam with its sides."""
    names = Names(nest.pattern)
    lines = [
        paper.heading(f"{name}: {nest.pattern.title}" if nest.pattern.title else name),
        *_sizes_line(nest),
    ]
    header = [["", *(size or "" for size in nest.sizes)]] if nest.pattern.sizes is not None else []
    for piece in nest.pieces.values():
        lines += ["", paper.heading(piece.name)]
        lines += table([*header, *_piece_rows(nest, piece, names)], indent=_INDENT)
    for walk in nest.walks.values():
        lines += ["", paper.heading(names.seam(walk.id))]
        rows = [*header]
        for side in walk.sides:
            label = side_names(side, walk.sides[1 if side.number == 0 else 0])[0]
            rows.append([label, *(_length(value, names) for value in side.length)])
        lines += table(rows, indent=_INDENT)
    return "\n".join(lines) + "\n"


def _sizes_line(nest: Nest) -> list[str]:
    sizes = nest.pattern.sizes
    said = f"{len(nest.pieces)} pieces, {len(nest.pattern.seams)} seams"
    if sizes is not None:
        said += f", in {listed(sizes.names)} (drafted in {sizes.base})"
    return [f"{said}; lengths in {nest.pattern.unit}"]


def _piece_rows(nest: Nest, piece: GradedPiece, names: Names) -> Iterator[list[str]]:
    count = len(nest.sizes)
    for name in piece.edges:
        line = piece.lines[name]
        yield [plain_name(name), *(_length(value, names) for value in line.length)]
        if line.intakes:
            yield ["  as sewn", *(_length(value, names) for value in line.sewn_length)]
    yield ["all round", *(_length(perimeter(piece, k), names) for k in range(count))]
    per, unit = _SQUARE[names.unit]
    if piece.has_shape:
        yield [f"area ({unit})", *(_area(drawn_area(nest, piece, k) / per) for k in range(count))]
        if piece.folds:
            yield [f"unfolded ({unit})", *(_area(unfolded_area(nest, piece, k) / per) for k in range(count))]


def _not_in_order(nest: Nest, walk: Walk, other: Comparison) -> Iterator[str]:
    """What keeps stations out of the walk."""
    if walk.id in nest.wrong_way:
        yield "This seam is stated the wrong way round, so what lies between its ends means little."
    elif other.pairing.crossed:
        yield "Its stations stand in different order on the two sides; those that cross are left out."
    for kind, these, those in other.pairing.unequal:
        yield f"{len(these)} {kind} on one side and {len(those)} on the other: none of them is paired."


def _intervals(nest: Nest, walk: Walk, other: Comparison, size: int, names: Names) -> list[str]:
    rows = [["from", "to", "side 1", f"side {other.side.number + 1}", "difference", ""]]
    for interval in other.intervals if len(other.intervals) > 1 else ():
        rows.append(
            [
                station_name(nest, walk.id, interval.start),
                station_name(nest, walk.id, interval.stop),
                _length(interval.one[size], names),
                _length(interval.other[size], names),
                *_difference(interval.difference[size], interval.ratio[size], other, interval.full, names),
            ]
        )
    one, further = other.pairing.stations[-1].one[size], other.side.length[size]
    ratio = further / one if one else math.nan
    rows.append(
        [
            "whole seam",
            "",
            _length(one, names),
            _length(further, names),
            *_difference(
                other.difference[size],
                ratio,
                other,
                other.join is not None and other.join.between is None,
                names,
            ),
        ]
    )
    return table(rows, indent=2 * _INDENT, left=2)


def _difference(by: float, ratio: float, other: Comparison, full: bool, names: Names) -> list[str]:
    if not math.isfinite(by):
        return ["", ""]
    words = worded("{by}", {"by": Length(abs(by))}, names.unit)
    said = "same" if words.split()[0] == "0" else f"{words} {'longer' if by > 0 else 'shorter'}"
    times = full and other.kind in ("gathered", "stretched") and math.isfinite(ratio)
    return [said, worded("{times} times", {"times": Ratio(ratio)}) if times else ""]


def _join_words(join: Join | None, names: Names) -> str:
    if join is None or join.kind == "plain":
        return ""
    where = (
        f" between {listed(plain_name(name) for name in join.between)}" if join.between is not None else ""
    )
    return f", {join.kind}{where}"


def _length(value: float, names: Names) -> str:
    return (
        worded("{length:bare}", {"length": Length(float(value))}, names.unit) if math.isfinite(value) else "–"
    )


def _area(value: float) -> str:
    return f"{value:.1f}" if math.isfinite(value) else "–"
