"""One further side on another: names above, a strip for each size, names below, the tape and the scale bar."""

from __future__ import annotations

from collections.abc import Sequence

from notchwork.checks import Names
from notchwork.findings import safe
from notchwork.pictures import ink
from notchwork.pictures.lettering import fitting, lines
from notchwork.pictures.seam.axis import LEFT, RIGHT, Axis
from notchwork.pictures.seam.drawn import THICK, THIN
from notchwork.pictures.seam.labels import labels
from notchwork.pictures.seam.laid import Bay, Laid
from notchwork.pictures.seam.names import Part, numbered, parts_of
from notchwork.pictures.seam.places import edges_of
from notchwork.pictures.seam.strip import Strip, strip
from notchwork.pictures.seam.taped import tape_of
from notchwork.pictures.seam.words import interval_says
from notchwork.pictures.tokens import token
from notchwork.sewing import Nest
from notchwork.sewing.names import station_name
from notchwork.values import frozen

LINE = 14.0
"""px from one line of names to the next."""
GAP = 8.0
"""px between strips."""


@frozen
class Block:
    """What is drawn: the labelled sizes of one comparison, on an axis. ``several``: the seam has more than two sides."""

    nest: Nest
    names: Names
    strips: Sequence[tuple[str, Laid]]
    axis: Axis
    column: float
    several: bool


@frozen
class Marks:
    """Marks from y 0 down, and how high they are (px)."""

    parts: Sequence[str]
    height: float


def block(of: Block) -> Marks:
    """The marks of one comparison."""
    unit, first = of.names.unit, of.strips[0][1]
    comparison = first.comparison
    alone = len(of.strips) == 1
    sides = [parts_of(comparison, side, first.size) for side in (comparison.one, comparison.side)]
    start, end = _ends(of.nest, first)
    thick = THICK if alone else THIN
    drawn = [_strip(of, one, thick, ((), ())) for _, one in of.strips]
    above = labels(
        sides[0], drawn[0].one, unit, alone, f", from {start}" if start else "", f"to {end}" if end else ""
    )
    below = labels(sides[1], drawn[-1].other, unit, alone)
    if above is None or below is None:
        numbers = (sides[0] if above is None else (), sides[1] if below is None else ())
        drawn = [_strip(of, one, thick, numbers) for _, one in of.strips]
    y, marks = 0.0, []
    if len(sides[0]) > 1 and (start or end):
        y += LINE
        marks += [
            ink.text(of.axis.left, y, f"from {start}", "muted"),
            ink.text(RIGHT, y, f"to {end}", "muted", "end"),
        ]
    if above is not None:
        y += LINE
        marks.append(ink.moved(above, 0.0, y))
    y += 4.0
    for (label, _), one in zip(of.strips, drawn, strict=True):
        y += one.above
        marks.append(ink.moved(one.parts, 0.0, y))
        if label:
            marks.append(
                ink.text(LEFT, y + 4.0, fitting(safe(label), of.column - 4.0, 12.0, bold=True), "strong")
            )
        y += one.below + GAP
    y += LINE - GAP
    if below is not None:
        marks.append(ink.moved(below, 0.0, y))
        y += 0.0 if len(sides[1]) == 1 else LINE
    marks.append(of.axis.bar(y, unit))
    for parts, shown in zip(sides, (above, below), strict=True):
        for said in lines(safe(numbered(parts)), RIGHT - LEFT, 11.0) if shown is None else ():
            y += LINE
            marks.append(ink.text(LEFT, y, said, "muted"))
    measured, high = tape_of(of.strips, unit, of.column)
    if measured:
        marks.append(ink.moved(measured, 0.0, y + 4.0))
        y += high + 4.0
    return Marks(marks, y + 2.0)


def _strip(of: Block, laid: Laid, thick: float, numbers: tuple[Sequence[Part], Sequence[Part]]) -> Strip:
    name = of.nest.sizes[laid.size]
    size = f"Size {name}: " if name is not None and len(of.nest.sizes) > 1 else ""

    def hot(bay: Bay, marks: Sequence[str]) -> str:
        said = size + interval_says(of.nest, laid, bay, of.names.unit)
        return ink.group(marks, said, {"edges": edges_of(laid, bay), "seam": token(laid.walk.id)})

    return strip(laid, of.axis, thick, hot, of.names.unit, numbers)


def _ends(nest: Nest, laid: Laid) -> tuple[str, str]:
    """What lies at the ends of the seam; nothing where that has no name, or where it is a ring."""
    if laid.walk.seam.closed:
        return "", ""
    stations = laid.comparison.pairing.stations
    words = [
        station_name(nest, laid.walk.id, station).removeprefix("the ")
        for station in (stations[0], stations[-1])
    ]
    return ("" if words[0] == "start" else words[0], "" if words[1] == "end" else words[1])
