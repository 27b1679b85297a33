"""An order that is wrong: both sides lie straight and apart, and the lines between what is pinned together cross."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from notchwork.pictures import ink
from notchwork.pictures.ink import n
from notchwork.pictures.laid import Laid
from notchwork.pictures.lettering import short
from notchwork.pictures.seam.axis import RIGHT, Axis
from notchwork.pictures.seam.figures import wide
from notchwork.pictures.seam.pins import NICK
from notchwork.pictures.seam.strip import Drawn
from notchwork.sewing import SideWalk, Station
from notchwork.sewing.names import edge_name
from notchwork.sewing.walks.marks import NOTCH_KINDS
from notchwork.sewing.ways.meeting import beyond

APART = 62.0
"""px between the two bands."""
CHEVRON = 26.0
"""px from one sign of the direction to the next."""


def crossing(
    laid: Laid, axis: Axis, thick: float, hot: Callable[[Sequence[str]], str], names: tuple[str, str]
) -> Drawn:
    """The two sides of a comparison whose order is wrong; ``names`` is what they are called. The upper band ends at y 0.

    Both pieces lie right side up, each with its cloth away from the seam, and the signs on them show which way each is
    walked: a side that runs the wrong way goes against the other. A line joins each two places that are stated to meet.
    """
    size, turned = laid.size, laid.order == "way"
    sides = (laid.comparison.one, laid.comparison.side)
    ends = [axis.left + float(side.length[size]) * axis.scale for side in sides]
    scale = axis.scale

    def upper(distance: float) -> float:
        return axis.left + distance * scale

    def lower(distance: float) -> float:
        return ends[1] - distance * scale if turned else axis.left + distance * scale

    bands = [
        ink.box(axis.left, -thick, ends[0] - axis.left, thick, "one"),
        ink.box(axis.left, APART, ends[1] - axis.left, thick, "two"),
        _chevrons(axis.left, ends[0], -thick / 2.0, 1),
        _chevrons(axis.left, ends[1], APART + thick / 2.0, -1 if turned else 1),
        ink.box(axis.left, -thick, max(ends) - axis.left, APART + 2.0 * thick, "hot"),
    ]
    parts = [hot(bands)]
    parts.append(_notches(sides[0], size, upper, -1.0, -1))
    parts.append(_notches(sides[1], size, lower, APART + 1.0, 1))
    crossed = {id(station) for pair in laid.comparison.pairing.crossed for station in pair}
    for station in _stations(laid):
        a, b = upper(float(station.one[size])), lower(float(station.other[size]))
        if a != a or b != b:
            continue
        wrong = turned or id(station) in crossed
        parts.append(ink.path(f"M{n(a)} 0L{n(b)} {n(APART)}", "cross" if wrong else "pin"))
        parts += [ink.ring(a, 0.0, 3.2, "pin-head"), ink.ring(b, APART, 3.2, "pin-head")]
    if turned:
        middle = (upper(0.0) + ends[0] + axis.left + ends[1]) / 4.0
        parts.append(ink.moved([_turning_arrow()], middle, APART / 2.0))
    parts += _end_names(sides[0], names[0], axis.left, -thick - 6.0, reverse=False)
    parts += _end_names(sides[1], names[1], axis.left, APART + thick + 15.0, reverse=turned)
    return Drawn(parts, thick + 20.0, APART + thick + 20.0)


def _stations(laid: Laid) -> Iterator[Station]:
    pairing = laid.comparison.pairing
    once = {id(station): station for station in pairing.stations}
    once.update((id(station), station) for pair in pairing.crossed for station in pair)
    yield from once.values()


def _chevrons(left: float, right: float, y: float, way: int) -> str:
    count = max(1, int((right - left) / CHEVRON))
    apart = (right - left) / count
    tips = (left + (k + 0.5) * apart for k in range(count))
    return ink.path(
        "".join(f"M{n(x - 2.0 * way)} {n(y - 3.5)}l{4 * way} 3.5l{-4 * way} 3.5" for x in tips), "pleat"
    )


def _notches(side: SideWalk, size: int, place: Callable[[float], float], y: float, way: int) -> str:
    marks = []
    for mark in side.marks:
        distance = float(mark.at[size])
        if mark.kind in NOTCH_KINDS and distance == distance:
            nicks = NOTCH_KINDS.index(mark.kind) + 1
            for nick in range(nicks):
                x = place(distance) + (nick - (nicks - 1) / 2.0) * NICK
                marks.append(f"M{n(x)} {n(y)}l-3 {5 * way}h6z")
    return ink.path("".join(marks), "notch")


def _turning_arrow() -> str:
    """A ring in which an arrow turns: one of the two has to be turned round."""
    return ink.ring(0.0, 0.0, 13.0, "turn") + ink.path(
        "M-6 0A6 6 0 1 1 1 5.9M4.5 2.5L0.5 6L5 9", "sign-look-mark"
    )


def _end_names(side: SideWalk, name: str, left: float, y: float, reverse: bool) -> list[str]:
    """What lies at both ends of a side, and what the side is called."""
    words = [_end(side, at_start) for at_start in ((False, True) if reverse else (True, False))]
    first = f"{name}: {words[0]}" if words[0] else name
    room = RIGHT - left - wide(words[1], "muted") - 8.0
    first = first if wide(first, "muted") <= room else name
    return [ink.text(left, y, first, "muted"), ink.text(RIGHT, y, words[1], "muted", "end")]


def _end(side: SideWalk, at_start: bool) -> str:
    neighbour = beyond(side.stretches[0 if at_start else -1], at_start)
    return short(edge_name(neighbour[1]).removeprefix("the ")) if neighbour is not None else ""
