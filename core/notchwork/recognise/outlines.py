"""Which areas make a piece, and which of its lines is stitch and which is cut.

An allowance shows as a second outline at a steady distance, or as bands along the edges in a colour that says so; a turn as
bands inside. Areas that abut are one piece; those that overlap stay apart. What is left is an outline of which nothing says
what it is.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from notchwork.findings import Finding
from notchwork.geometry import groups
from notchwork.recognise.areas import Area, Key
from notchwork.recognise.bands import Band, as_band, lies_along
from notchwork.recognise.measures import says_allowance
from notchwork.recognise.nested import STEADY, nested
from notchwork.recognise.outlined import Outlined
from notchwork.recognise.relations import Relations, relations, without_same
from notchwork.recognise.tell import (
    allowance_bands,
    allowance_unclear,
    doubled,
    nothing_says,
    parts_together,
)
from notchwork.recognise.united import put_together
from notchwork.recognise.widths import widths_between

SHARED = 0.25
"""The share of the smaller area's rim that two areas have in common if they are parts of one; or else it is a whole edge of
both. A strap that ends on a panel has less. Common practice, no source."""
WHOLE = 0.9
"""A stretch that covers so much of an edge is the whole of it."""
BAND_SHARED = 0.3
"""The share of a band's rim along which it lies on what it is an allowance of."""


@dataclass(frozen=True, eq=False)
class Outlines:
    """All outlines, and what was inferred."""

    pieces: tuple[Outlined, ...]
    findings: tuple[Finding, ...] = ()


def outlines(areas: Sequence[Area], legend: Mapping[str, str], tol: float, words: bool = True) -> Outlines:
    """The pieces that areas make. ``legend`` tells what fillings stand for, in words.

    Where outlines cross and the drawing has no ``words``, nothing says what is a piece, and each stands for itself.
    """
    told: list[Finding] = []
    every = relations(areas, tol)
    told += doubled([complex(areas[k].polyline[0]) for k in sorted(every.same)])
    numbers, lie = without_same(every, len(areas))
    kept = [areas[k] for k in numbers]
    if not words and any(lie.across.values()):
        told.append(nothing_says(kept[0].polyline[0]))
        return Outlines(tuple(Outlined(area) for area in kept), tuple(told))
    bands = {k: band for k, area in enumerate(kept) if (band := as_band(area, tol)) is not None}
    allowances = _allowance_bands(kept, bands, lie, legend)
    units = _units(kept, set(allowances), lie, tol)
    found: list[Outlined] = []
    used: set[int] = set()
    homes = _homes(allowances, units, kept, lie)
    for number, (members, unit) in enumerate(units):
        around = homes.get(number, [])
        if around:
            whole = put_together([unit, *(kept[k] for k in around)], tol)
            if whole is not None:
                found.append(_with_cut(unit, whole, tol))
                used |= {*members, *around}
    left = [(members, unit) for members, unit in units if not used & set(members)]
    left += [([k], kept[k]) for k in allowances if k not in used]
    found += nested(left, lie, tol)
    count = {id(unit): len(members) for members, unit in units}
    pieces = tuple(_with_parts(piece, count.get(id(piece.area), 1)) for piece in found)
    return Outlines(pieces, tuple(told))


def _with_parts(piece: Outlined, number: int) -> Outlined:
    if number == 1:
        return piece
    return replace(piece, told=(*piece.told, parts_together(piece.area.polyline[0], number)))


def _allowance_bands(
    areas: Sequence[Area], bands: Mapping[int, Band], lie: Relations, legend: Mapping[str, str]
) -> dict[int, Band]:
    """The bands whose filling stands for allowance: by the legend, or because it is used for nothing else."""
    named = {colour for colour, words in legend.items() if says_allowance(words)}
    colours: dict[str, list[int]] = {}
    for k, area in enumerate(areas):
        if area.filling is not None:
            colours.setdefault(area.filling, []).append(k)
    for colour, some in colours.items():
        if len(some) > 1 and all(k in bands and _has_host(k, some, areas, lie) for k in some):
            named.add(colour)
    return {k: band for k, band in bands.items() if areas[k].filling in named}


def _has_host(k: int, alike: Sequence[int], areas: Sequence[Area], lie: Relations) -> bool:
    """Whether a band lies along something of another filling."""
    along = sum(common for j, common in lie.beside[k].items() if j not in alike)
    return along >= BAND_SHARED * areas[k].around


def _units(
    areas: Sequence[Area], bands: set[int], lie: Relations, tol: float
) -> list[tuple[list[int], Area]]:
    """Areas that abut and belong together as one, all others alone."""
    pairs = [
        (i, j)
        for i, others in lie.beside.items()
        for j, common in others.items()
        if i < j
        and i not in bands
        and j not in bands
        and _makes_one(areas[i], areas[j], common, tol)
        and _may_join(areas[i].within, areas[j].within)
    ]
    units: list[tuple[list[int], Area]] = []
    for group in groups(len(areas), pairs):
        if group[0] in bands:
            continue
        whole = put_together([areas[k] for k in group], tol)
        if whole is None:
            units += [([k], areas[k]) for k in group]
            continue
        units.append((group, whole))
    return units


def _makes_one(one: Area, other: Area, common: float, tol: float) -> bool:
    """Whether two areas with a common stretch (mm) are faces of one thing: a whole edge of both, or much of one's rim."""
    if common >= SHARED * min(one.around, other.around):
        return True
    sides = [
        [edge for edge, long in area.edges if common >= WHOLE * long >= WHOLE * WHOLE * common]
        for area in (one, other)
    ]
    return any(lies_along(a, b, tol) for a in sides[0] for b in sides[1])


def _may_join(one: Key, other: Key) -> bool:
    """Whether groups do not keep two things apart: one holds the other, or they are in the same."""
    shorter = min(len(one), len(other))
    return one[:shorter] == other[:shorter]


def _homes(
    bands: Iterable[int], units: Sequence[tuple[list[int], Area]], areas: Sequence[Area], lie: Relations
) -> dict[int, list[int]]:
    """For each unit that has any, the bands that lie along it more than along any other."""
    unit_of = {k: number for number, (members, _) in enumerate(units) for k in members}
    found: dict[int, list[int]] = {}
    for band in sorted(bands):
        common: Counter[int] = Counter()
        for k, mm in lie.beside[band].items():
            if k in unit_of:
                common[unit_of[k]] += mm  # type: ignore[assignment]  # a Counter of lengths
        if common:
            home, along = max(common.items(), key=lambda item: item[1])
            if along >= BAND_SHARED * areas[band].around:
                found.setdefault(home, []).append(band)
    return found


def _with_cut(unit: Area, whole: Area, tol: float) -> Outlined:
    """A stitch line with the bands drawn round it."""
    widths = _widths(unit, whole, tol)
    told = [allowance_bands(unit.polyline[0], widths)]
    if None in widths:
        told.append(allowance_unclear(unit.polyline[0]))
    return Outlined(unit, "stitch", widths, whole, tuple(told))


def _widths(unit: Area, whole: Area, tol: float) -> tuple[float | None, ...]:
    return tuple(
        (0.0 if width.middle <= tol else width.middle)
        if width.varies <= max(tol, STEADY * width.middle)
        else None
        for width in widths_between(unit.contour, whole.cubics)
    )
