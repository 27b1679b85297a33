"""Two sides of a seam pinned together in one size: bands above and below the seam line, which is at y 0."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from notchwork.model import Unit
from notchwork.pictures import ink
from notchwork.pictures.ink import n
from notchwork.pictures.laid import Bay, Laid
from notchwork.pictures.seam.amounts import figure
from notchwork.pictures.seam.axis import LEFT, RIGHT, Axis
from notchwork.pictures.seam.drawn import Cloth, bottom_of, cloth, cloth_marks
from notchwork.pictures.seam.figures import Figures
from notchwork.pictures.seam.names import Part
from notchwork.pictures.seam.pins import Along, lost_marks, pin_marks, side_marks
from notchwork.values import frozen

HEAD = 9.0
"""px: how far a pin stands out above the bands, with its head."""
FOOT = 3.0
"""px: how far it stands out below."""

Hot = Callable[[Laid, Bay, Sequence[str]], str]
"""Marks of a bay as a part that can be pointed at."""


@frozen
class Drawn:
    """Marks about a seam line at y 0, and how far they reach up and down (px)."""

    parts: Sequence[str]
    above: float
    below: float


@frozen
class Strip(Drawn):
    """Bands pinned together; ``one`` and ``other`` say where a distance along either side lies."""

    one: Along
    other: Along


def strip(
    laid: Laid,
    axis: Axis,
    thick: float,
    hot: Hot,
    unit: Unit,
    numbers: tuple[Sequence[Part], Sequence[Part]] = ((), ()),
) -> Strip:
    """The strip of one size. ``numbers``: parts of either side that are numbered, because their names are too long."""
    xs = axis.pins(laid.bays)
    cloths = [
        cloth(bay, left, right, axis.scale, thick)
        for bay, left, right in zip(laid.bays, xs, xs[1:], strict=False)
    ]
    sides = (laid.comparison.one, laid.comparison.side)
    kinds = tuple(
        f"{kind} taped" if side.by_tape else kind for kind, side in zip(("one", "two"), sides, strict=True)
    )
    parts = [
        hot(laid, drawn.bay, [*cloth_marks(drawn, (kinds[0], kinds[1]), axis.scale), _hot_box(drawn)])
        for drawn in cloths
    ]
    along = (Along(laid, cloths, False), Along(laid, cloths, True))
    for further in (False, True):
        parts += side_marks(laid, along[further], further, thick)
    parts.append(_stitches(cloths))
    parts.append(pin_marks(xs, -thick - 4.0, thick + FOOT))
    if laid.walk.seam.closed:
        parts.append(_goes_on(xs[0], xs[-1], thick))
    figures = _figures(laid, cloths, along, thick, unit, numbers)
    reach = [(drawn.way, bottom_of(drawn)) for drawn in cloths]
    up = max((far for way, far in reach if way < 0), default=0.0)
    down = max((far for way, far in reach if way >= 0), default=0.0)
    return Strip(
        [*parts, *figures.parts],
        max(up, thick + HEAD, -figures.top),
        max(down, thick + FOOT, figures.bottom),
        *along,
    )


def _figures(
    laid: Laid,
    cloths: Sequence[Cloth],
    along: tuple[Along, Along],
    thick: float,
    unit: Unit,
    numbers: tuple[Sequence[Part], Sequence[Part]],
) -> Figures:
    placed = Figures(LEFT, RIGHT)
    near = {-1: thick + HEAD + 1.0, 1: thick + FOOT + 2.0}
    for further, way in ((False, -1), (True, 1)):
        for number, part in enumerate(numbers[further], 1):
            ends = [along[further].at(at).real for at in (part.start, part.stop)]
            over = [bottom_of(c) for c in cloths if c.way == way and c.left < ends[1] and c.right > ends[0]]
            placed.put(sum(ends) / 2.0, way * max(near[way], *over, 0.0), way, str(number), "muted")
        for mark in lost_marks(laid, further):
            distance = float(mark.at[laid.size])
            if distance == distance:
                placed.put(along[further].at(distance).real, way * near[way], way, "?", "strong")
    for drawn in cloths:
        told = figure(laid, drawn.bay, unit)
        if told is not None:
            way = drawn.way or 1
            placed.put(drawn.middle, way * max(near[way], bottom_of(drawn) + 2.0), way, *told)
    below = max([near[1], *(bottom_of(drawn) + 2.0 for drawn in cloths if drawn.way > 0)])
    put_ends(placed, laid, (cloths[0].left, cloths[-1].right), below, unit)
    return placed


def put_ends(placed: Figures, laid: Laid, ends: tuple[float, float], near: float, unit: Unit) -> None:
    """What is told of the edges beyond the ends of a seam, with its sign, below the pin at that end (px)."""
    for told in laid.ends:
        x = ends[0] if told.at_start else ends[1]
        placed.put(x, near, 1, told.words(unit), "figure", told.severity)


def _stitches(cloths: Sequence[Cloth]) -> str:
    """The seam is sewn wherever nothing is off that is to lie flat."""
    sewn = [drawn for drawn in cloths if drawn.bay.judged != "off" and drawn.right - drawn.left > 8.0]
    return ink.path("".join(f"M{n(drawn.left + 4.0)} 0H{n(drawn.right - 3.0)}" for drawn in sewn), "stitches")


def _goes_on(left: float, right: float, thick: float) -> str:
    """A ring goes on beyond both its ends."""
    return ink.path(
        "".join(
            f"M{n(x)} {n(-thick)}V{n(thick)}" for x in (left - 9.0, left - 5.0, right + 5.0, right + 9.0)
        ),
        "on",
    )


def _hot_box(drawn: Cloth) -> str:
    """Where a bay can be pointed at: at least 24 px high."""
    up = max(12.0, drawn.reach if drawn.way < 0 else drawn.thick)
    down = max(12.0, drawn.reach if drawn.way >= 0 else drawn.thick)
    return ink.box(drawn.left, -up, max(drawn.right - drawn.left, 0.0), up + down, "hot")
