"""One further side on another: names above, a strip for each size, names below, and the scale bar."""

from __future__ import annotations

from collections.abc import Sequence

from notchwork.checks import Names
from notchwork.checks.walk_words import side_pair
from notchwork.findings import safe
from notchwork.pictures import ink
from notchwork.pictures.laid import Bay, Laid
from notchwork.pictures.lettering import fitting, lines, short
from notchwork.pictures.seam.axis import LEFT, RIGHT, Axis
from notchwork.pictures.seam.crossing import crossing
from notchwork.pictures.seam.drawn import THICK, THIN
from notchwork.pictures.seam.full import fullness_of
from notchwork.pictures.seam.labels import label_width, labels
from notchwork.pictures.seam.names import Part, numbered, parts_of
from notchwork.pictures.seam.pins import intakes
from notchwork.pictures.seam.places import edges_of
from notchwork.pictures.seam.sizes import Layers
from notchwork.pictures.seam.stack import layer_label, stack
from notchwork.pictures.seam.strip import Drawn, Strip, strip
from notchwork.pictures.seam.taped import tape_of
from notchwork.pictures.seam.words import interval_says, order_says
from notchwork.pictures.tokens import token
from notchwork.sewing import Nest
from notchwork.sewing.names import station_name
from notchwork.values import frozen

LINE = 14.0
"""px from one line of names to the next."""
GAP = 8.0
"""px between strips."""
APART = 7.0
"""px between what belongs together and what comes next."""


@frozen
class Block:
    """What is drawn: labelled sizes of sides that belong together, on an axis; ``column`` px are kept for the labels."""

    nest: Nest
    names: Names
    strips: Sequence[tuple[str, Layers]]
    axis: Axis
    column: float

    @property
    def first(self) -> Laid:
        return self.strips[0][1][0]

    @property
    def thick(self) -> float:
        return THICK if len(self.strips) == 1 else THIN

    def hot(self, laid: Laid, bay: Bay, marks: Sequence[str]) -> str:
        """The marks of a bay as a part that can be pointed at, and says what it is."""
        size = self.nest.sizes[laid.size]
        said = f"Size {size}: " if size is not None and len(self.nest.sizes) > 1 else ""
        said += interval_says(self.nest, laid, bay, self.names.unit)
        return ink.group(marks, said, {"edges": edges_of(laid, bay), "seam": token(laid.walk.id)})


def block(of: Block) -> tuple[list[str], float]:
    """The marks from y 0 down, and how high they are (px)."""
    if of.first.order != "right":
        marks, y = _crossed(of)
    else:
        marks, y = _pinned(of)
    for layer in range(len(of.strips[0][1])):
        measured, high = tape_of(
            [(label, layers[layer]) for label, layers in of.strips], of.names.unit, of.column
        )
        if measured:
            marks.append(ink.moved(measured, 0.0, y + APART))
            y += high + APART
    scale, high = fullness_of(of.nest, of.strips)
    if scale:
        marks.append(ink.moved(scale, 0.0, y + APART))
        y += high + APART
    return marks, y + 2.0


def _pinned(of: Block) -> tuple[list[str], float]:
    unit, first, layers = of.names.unit, of.first, of.strips[0][1]
    comparison = first.comparison
    alone, stacked = (
        len(of.strips) == 1,
        first.drawn_up and all(one.drawn_up for _, s in of.strips for one in s),
    )
    sides = [parts_of(comparison, side, first.size) for side in (comparison.one, comparison.side)]
    start, end = _ends(of.nest, first)

    def drawn(numbers: tuple[Sequence[Part], Sequence[Part]]) -> list[Strip]:
        if stacked:
            return [
                stack(of_size, of.axis, of.thick, of.hot, unit, label or "1", numbers[0])
                for label, of_size in of.strips
            ]
        return [strip(of_size[0], of.axis, of.thick, of.hot, unit, numbers) for _, of_size in of.strips]

    strips = drawn(((), ()))
    above = labels(
        sides[0], strips[0].one, unit, alone, f", from {start}" if start else "", f"to {end}" if end else ""
    )
    below = [ink.text(LEFT, 0.0, said, "muted") for said in _keys(layers)] if stacked else None
    below = below or labels(sides[1], strips[-1].other, unit, alone)
    if above is None or below is None:
        strips = drawn((sides[0] if above is None else (), sides[1] if below is None else ()))
    y, marks = 0.0, []
    if len(sides[0]) > 1 and (start or end):
        y += LINE
        marks += _from_to(of, start, end)
    if above is not None:
        y += LINE
        marks.append(ink.moved(above, 0.0, y))
    y += APART
    for (label, _), one in zip(of.strips, strips, strict=True):
        y += one.above
        marks.append(ink.moved(one.parts, 0.0, y))
        if label and not stacked:
            said = fitting(safe(label), of.column - 4.0, 12.0, bold=True)
            marks.append(ink.text(LEFT, y + 4.0, said, "strong"))
        y += one.below + GAP
    y += LINE - GAP
    if stacked:
        for said in lines(
            safe(" · ".join(_keys(layers))) + ": each line is as long as its cloth.", RIGHT - LEFT, 11.0
        ):
            marks.append(ink.text(LEFT, y, said, "muted"))
            y += LINE
    elif below is not None:
        marks.append(ink.moved(below, 0.0, y))
        wide = label_width(sides[1], unit, alone)
        beside = wide is not None and of.axis.left + wide + GAP <= RIGHT - of.axis.bar_width(unit)
        y += 0.0 if beside else LINE
    marks.append(of.axis.bar(y, unit))
    both = above is None and below is None
    for parts, shown, where in zip(sides, (above, below), ("above: ", "below: "), strict=True):
        key = (where if both else "") + numbered(parts)
        for said in lines(safe(key), RIGHT - LEFT, 11.0) if shown is None else ():
            y += LINE
            marks.append(ink.text(LEFT, y, said, "muted"))
    folded = {kind for side in (comparison.one, comparison.side) for kind, _ in intakes(side, first.size)}
    if folded:
        y += LINE
        marks.append(ink.text(LEFT, y, " · ".join(_FOLDED[kind] for kind in sorted(folded)), "muted"))
    return marks, y


_FOLDED = {"dart": "V: a dart, shut", "pleat": "Z: a pleat, folded in"}


def _keys(layers: Layers) -> list[str]:
    return [f"{layer_label(one)} {short(side_pair(one.comparison)[1])}" for one in layers]


def _from_to(of: Block, start: str, end: str) -> list[str]:
    y = LINE
    return [
        ink.text(of.axis.left, y, f"from {start}" if start else "", "muted"),
        ink.text(RIGHT, y, f"to {end}" if end else "", "muted", "end"),
    ]


def _crossed(of: Block) -> tuple[list[str], float]:
    laid = of.first

    def hot(marks: Sequence[str]) -> str:
        data = {"edges": " ".join(edges_of(laid, bay) for bay in laid.bays), "seam": token(laid.walk.id)}
        return ink.group(marks, order_says(of.nest, laid), data)

    one, other = (short(said) for said in side_pair(laid.comparison))
    drawn: Drawn = crossing(laid, of.axis, THICK, hot, (one, other))
    y = drawn.above
    marks = [ink.moved(drawn.parts, 0.0, y)]
    y += drawn.below + LINE
    return [*marks, of.axis.bar(y, of.names.unit)], y


def _ends(nest: Nest, laid: Laid) -> tuple[str, str]:
    """What lies at the ends of the seam; nothing where that has no name, or where it is a ring."""
    if laid.walk.seam.closed:
        return "", ""
    stations = laid.comparison.pairing.stations
    words = [
        short(station_name(nest, laid.walk.id, station).removeprefix("the "))
        for station in (stations[0], stations[-1])
    ]
    return ("" if words[0] == "start" else words[0], "" if words[1] == "end" else words[1])
