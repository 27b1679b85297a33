"""Sides that are gathered to another: a band, and under it a wave as long as its cloth for each, with pins through all."""

from __future__ import annotations

from collections.abc import Sequence

from notchwork.model import Unit
from notchwork.pictures import ink
from notchwork.pictures.ink import n
from notchwork.pictures.laid import Laid
from notchwork.pictures.seam.amounts import figure
from notchwork.pictures.seam.axis import LEFT, RIGHT, Axis
from notchwork.pictures.seam.drawn import Cloth, cloth, wave_marks
from notchwork.pictures.seam.figures import Box, Figures, wide
from notchwork.pictures.seam.names import Part
from notchwork.pictures.seam.pins import Along, lost_marks, pin_marks, side_marks
from notchwork.pictures.seam.strip import HEAD, Hot, Strip, put_ends
from notchwork.pictures.seam.wave import Wave

GAP = 8.0
"""px between the band and the first wave, and between a wave's figures and the next wave."""
LOWEST = 8.0
"""px: half the height that a row has at least."""


def layer_label(laid: Laid) -> str:
    """The number of a side, with letters where several copies of it lie on each other: "2", "2a–2c"."""
    number, layers = laid.comparison.side.number + 1, laid.comparison.side.side.layers
    return (
        f"{number}a–{number}{'abcdefghijklmnopqrstuvwxyz'[min(layers, 26) - 1]}"
        if layers > 1
        else str(number)
    )


def stack(
    layers: Sequence[Laid],
    axis: Axis,
    thick: float,
    hot: Hot,
    unit: Unit,
    label: str,
    numbers: Sequence[Part] = (),
) -> Strip:
    """One size of sides that are gathered to the same side and pinned alike. ``label`` stands beside the band.

    ``numbers``: the parts of the band, where they are numbered above it.
    """
    first = layers[0]
    xs = axis.pins(first.bays)
    band = [cloth(bay, a, b, axis.scale, thick) for bay, a, b in zip(first.bays, xs, xs[1:], strict=False)]
    along = Along(first, band, False)
    kind = "one taped" if first.comparison.one.by_tape else "one"
    parts = [
        ink.text(LEFT, 0.0, label, "strong"),
        ink.path(f"M{n(xs[0])} 0H{n(xs[-1])}v{n(-thick)}H{n(xs[0])}z", kind),
    ]
    placed, y = Figures(LEFT, RIGHT), GAP
    for number, part in enumerate(numbers, 1):
        middle = (along.at(part.start).real + along.at(part.stop).real) / 2.0
        placed.put(middle, -thick - HEAD - 1.0, -1, str(number), "muted")
    for laid in layers:
        cloths = [
            cloth(bay, a, b, axis.scale, thick) for bay, a, b in zip(laid.bays, xs, xs[1:], strict=False)
        ]
        half = max([LOWEST, *(c.hangs.height + 3.0 for c in cloths if isinstance(c.hangs, Wave))])
        y += half
        parts.append(ink.text(LEFT, y + 4.0, layer_label(laid), "strong"))
        parts += [hot(laid, c.bay, [*_row(c, y), _hot_box(c, y, half)]) for c in cloths]
        for mark in lost_marks(laid, further=True):
            distance = float(mark.at[laid.size])
            if distance == distance:
                x = Along(laid, cloths, True).at(distance).real
                placed.put(x, y + half, 1, "?", "strong")
        bottom = y + half
        placed.keep_free(Box(LEFT, y - half, RIGHT, y + half - 1.0))
        for drawn in cloths:
            told = figure(laid, drawn.bay, unit)
            if told is not None and (
                told[1] == "figure" or wide(told[0], told[1]) <= drawn.right - drawn.left
            ):
                placed.put(drawn.middle, y + half, 1, *told)
        put_ends(placed, laid, (xs[0], xs[-1]), y + half, unit)
        y = max(bottom + 14.0, placed.bottom) + GAP
    parts += side_marks(first, along, False, thick)
    parts.append(pin_marks(xs, -thick - 4.0, y - GAP - 12.0))
    return Strip([*parts, *placed.parts], max(thick + HEAD, -placed.top), y, along, along)


def _row(drawn: Cloth, y: float) -> list[str]:
    """The cloth of one bay as a line about a middle (px)."""
    if isinstance(drawn.hangs, Wave):
        return wave_marks(drawn, drawn.hangs, y, "wave")
    line = ink.path(f"M{n(drawn.left)} {n(y)}H{n(drawn.right)}", "wave")
    if drawn.bay.judged == "fine":
        return [line]
    width = max(drawn.right - drawn.left, 2.0)
    return [ink.box(drawn.left, y - LOWEST + 2.0, width, 2.0 * LOWEST - 4.0, "off pale"), line]


def _hot_box(drawn: Cloth, y: float, half: float) -> str:
    high = max(half, 12.0)
    return ink.box(drawn.left, y - high, max(drawn.right - drawn.left, 0.0), 2.0 * high, "hot")
