"""Outlines one in the other: allowances drawn as a second outline, and turns drawn as strips inside."""

from __future__ import annotations

from collections.abc import Sequence

from notchwork.recognise.areas import Area
from notchwork.recognise.bands import WIDEST, as_band, lies_along
from notchwork.recognise.outlined import Outlined
from notchwork.recognise.relations import Relations
from notchwork.recognise.tell import allowance_beside, turn_inside
from notchwork.recognise.widths import widths_between

NARROW = 0.5
"""An allowance is at most so many times as wide as the smaller side of what it surrounds."""
FULL = 0.4
"""The share of the outer outline that an inner one fills, if it is its stitch line."""
STEADY = 0.03
"""The share of a width by which it may vary along an edge, or the tolerance if that is more."""
SHALLOW = 0.125
"""A turn is at most so many times as wide as the smaller side of the piece. Common practice, no source."""


def nested(units: Sequence[tuple[list[int], Area]], lie: Relations, tol: float) -> list[Outlined]:
    """Outlines one in the other at a steady distance, then those with turns inside, then all others."""
    found: list[Outlined] = []
    gone: set[int] = set()
    order = sorted(range(len(units)), key=lambda k: -units[k][1].size)
    held = _held(units, order, lie)
    for outer in order:
        if outer in gone:
            continue
        whole = units[outer][1]
        inner = [k for k in held.get(outer, ()) if k not in gone]
        for k in inner:
            unit = units[k][1]
            widths = steady_inside(unit, whole, tol)
            if widths is not None:
                told = (allowance_beside(unit.polyline[0], widths),)
                found.append(Outlined(unit, "stitch", widths, whole, told))
                gone |= {outer, k}
                break
        else:
            turned, turns = _turns(whole, [(k, units[k][1]) for k in inner], tol)
            if turns:
                found.append(turned)
                gone |= {outer, *turns}
    singles = [Outlined(units[k][1]) for k in range(len(units)) if k not in gone]
    return [*found, *singles]


def _held(
    units: Sequence[tuple[list[int], Area]], order: Sequence[int], lie: Relations
) -> dict[int, list[int]]:
    """For each unit those that lie in it, each of their areas in one of its own; the largest first."""
    unit_of = {k: number for number, (members, _) in enumerate(units) for k in members}
    found: dict[int, list[int]] = {}
    for k in order:
        around = [{unit_of[j] for j in lie.within[m] if j in unit_of} for m in units[k][0]]
        for outer in set.intersection(*around) - {k}:
            found.setdefault(outer, []).append(k)
    return found


def steady_inside(inner: Area, outer: Area, tol: float) -> tuple[float, ...] | None:
    """The width of the allowance at each edge of an outline inside another, if that is what lies between them; else None."""
    if inner.size < FULL * outer.size:
        return None
    widths = widths_between(inner.contour, outer.cubics)
    size = inner.box[1] - inner.box[0]
    most = min(WIDEST, NARROW * min(size.real, size.imag))
    if any(width.middle > most or width.varies > max(tol, STEADY * width.middle) for width in widths):
        return None
    if all(width.middle <= tol for width in widths):
        return None
    back = widths_between(outer.contour, inner.cubics)
    if any(width.middle > most + tol for width in back):
        return None
    return tuple(0.0 if width.middle <= tol else width.middle for width in widths)


def _turns(whole: Area, inner: Sequence[tuple[int, Area]], tol: float) -> tuple[Outlined, list[int]]:
    """The outline with the widths of bands inside that lie along its edges, one after the other; and which bands those are."""
    outline = whole.contour
    lines = [outline.edge(k) for k in range(len(outline.corners))]
    size = whole.box[1] - whole.box[0]
    most = SHALLOW * min(size.real, size.imag)
    widths = [0.0] * len(lines)
    candidates = [(number, band) for number, area in inner if (band := as_band(area, tol)) is not None]
    candidates += [(-1, band) for part in whole.parts if (band := as_band(part, tol)) is not None]
    candidates = [(number, band) for number, band in candidates if band.width <= most]
    used: list[int] = []
    grown = True
    while grown:
        grown = False
        for place, (number, band) in enumerate(candidates):
            for k, line in enumerate(lines):
                near = next((e for e in (0, 1) if lies_along(band.edges[e], line, tol)), None)
                if near is not None:
                    widths[k] += band.width
                    lines[k] = band.edges[1 - near]
                    used.append(number)
                    candidates.pop(place)
                    grown = True
                    break
            if grown:
                break
    stated = tuple(width or None for width in widths)
    told = (turn_inside(whole.polyline[0], stated),) if used else ()
    strips = tuple(area for number, area in inner if number in used)
    return Outlined(whole, "cut", stated, told=told, strips=strips), used
