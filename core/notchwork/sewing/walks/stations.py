"""Which marks of two sides meet: the stations of a seam."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from notchwork.model import Seam
from notchwork.sewing.pieces.lines import SAME_SPOT, Agreeing, Floats, agree
from notchwork.sewing.walks.joins import is_plain
from notchwork.sewing.walks.marks import NOTCH_KINDS, MarkOnSide, SideWalk
from notchwork.sewing.walks.spans import Spot

FAR_APART = 30.0
"""mm: joints on two plain sides that lie further apart than this were not meant to meet (common practice, no source)."""

MOST_CROSSED = 1000
"""Crossed pairs of one pairing that are kept."""


@dataclass(frozen=True, slots=True, eq=False)
class Station:
    """A place where two sides are pinned together, at ``one`` on the first and ``other`` on the second (mm, sizes)."""

    kind: str
    one: Floats
    other: Floats
    piece: str
    name: str
    other_piece: str
    other_name: str
    meeting: tuple[tuple[Spot, Spot], ...] = ()
    """The spots that are brought together here."""


@dataclass(frozen=True, slots=True, eq=False)
class Pairing:
    """The stations of two sides in walking order, and what speaks against it.

    ``unequal``: kinds of notches whose counts differ, with the marks of either side. ``crossed``: pairs of stations that
    stand in one order on one side and in the other order on the other.
    """

    stations: tuple[Station, ...]
    unequal: tuple[tuple[str, tuple[MarkOnSide, ...], tuple[MarkOnSide, ...]], ...]
    crossed: tuple[tuple[Station, Station], ...]


def pair(seam: Seam, one: SideWalk, other: SideWalk, ends: dict[str, frozenset[Spot]]) -> Pairing:
    """Pair the marks of two sides: by the seam's ``meet`` rows, then the k-th of a kind with the k-th of that kind.

    ``ends``: for each seam the spots of its ends, for rows that name a seam.
    """
    zero = np.zeros_like(one.length)
    start = Station("start", zero, zero, "", "start", "", "start")
    stop = Station("end", one.length, other.length, "", "end", "", "end")
    stated, taken_one, taken_other = _stated(seam, one, other, ends)
    free_one = [mark for mark in one.marks if not taken_one.any_at(mark.at)]
    free_other = [mark for mark in other.marks if not taken_other.any_at(mark.at)]
    counted, unequal = _counted(seam, one, other, free_one, free_other)
    inner = [s for s in [*stated, *counted] if not _is(s, start) and not _is(s, stop)]
    inner.sort(key=lambda s: (_mean(s.one), _mean(s.other)))
    kept = _once(inner)
    crossed = _crossings(kept)
    return Pairing((start, *_in_order(kept), stop), tuple(unequal), tuple(crossed))


def resolve(
    entry: str, side: SideWalk, ends: Mapping[str, frozenset[Spot]], bare_places: bool = False
) -> list[tuple[Floats, Spot]]:
    """Everywhere on a side that an entry of a ``meet`` row, or of ``between``, stands; several where it is not unique.

    A name with a dot is "piece.place", without one a seam; with ``bare_places`` first a place of any piece on the side.
    "#k" picks the k-th.
    """
    name, _, ordinal = entry.partition("#")
    found = side.places(name) if "." in name or bare_places else []
    if not found and "." not in name:
        found = side.spots(ends.get(name, frozenset()))
    found.sort(key=lambda hit: _mean(hit[0]))
    if ordinal.isdigit():
        return found[int(ordinal) - 1 : int(ordinal)]
    return found


def _stated(
    seam: Seam, one: SideWalk, other: SideWalk, ends: dict[str, frozenset[Spot]]
) -> tuple[list[Station], Agreeing[None], Agreeing[None]]:
    """The stations of the meet rows, and what any row takes on either side, paired or quiet."""
    stations: list[Station] = []
    taken_one: Agreeing[None] = Agreeing()
    taken_other: Agreeing[None] = Agreeing()
    for row in seam.meet:
        hits = []
        for side, taken in ((one, taken_one), (other, taken_other)):
            entry = row[side.number] if side.number < len(row) else None
            found = resolve(entry, side, ends) if entry is not None else []
            for at, _ in found:
                taken.add(at, None)
            hits.append((entry, found))
        (name_one, found_one), (name_other, found_other) = hits
        if len(found_one) == 1 and len(found_other) == 1:
            (at, spot), (at_other, spot_other) = found_one[0], found_other[0]
            stations.append(
                Station(
                    "meet",
                    at,
                    at_other,
                    spot.piece,
                    str(name_one),
                    spot_other.piece,
                    str(name_other),
                    ((spot, spot_other),),
                )
            )
    return stations, taken_one, taken_other


def _counted(
    seam: Seam,
    one: SideWalk,
    other: SideWalk,
    free_one: Sequence[MarkOnSide],
    free_other: Sequence[MarkOnSide],
) -> tuple[list[Station], list[tuple[str, tuple[MarkOnSide, ...], tuple[MarkOnSide, ...]]]]:
    """Pair marks of a kind in walking order where both sides have as many of them."""
    stations: list[Station] = []
    unequal = []
    both_notched = bool(one.notches) and bool(other.notches)
    for kind in (*NOTCH_KINDS, "joint", "fold"):
        of_one = tuple(mark for mark in free_one if mark.kind == kind)
        of_other = tuple(mark for mark in free_other if mark.kind == kind)
        if len(of_one) != len(of_other):
            if kind in NOTCH_KINDS and both_notched:
                unequal.append((kind, of_one, of_other))
            continue
        for a, b in zip(of_one, of_other, strict=True):
            if kind in ("joint", "fold") and _never_meant(seam, other, a, b):
                continue
            meeting = tuple(zip(a.spots, b.spots, strict=True))
            stations.append(Station(kind, a.at, b.at, a.piece, a.name, b.piece, b.name, meeting))
    return stations, unequal


def _never_meant(seam: Seam, other: SideWalk, a: MarkOnSide, b: MarkOnSide) -> bool:
    """Joints far apart on plain sides: a panel seam above, a side seam below."""
    return is_plain(other.side.join) and not agree(a.at, b.at, FAR_APART)


def _crossings(stations: Sequence[Station]) -> list[tuple[Station, Station]]:
    """Pairs that stand in unlike order on the two sides, up to MOST_CROSSED."""
    if not stations:
        return []
    one, other = np.stack([s.one for s in stations]), np.stack([s.other for s in stations])
    found: list[tuple[Station, Station]] = []
    for k, station in enumerate(stations):
        later = _unlike(one[k], other[k], one[k + 1 :], other[k + 1 :])
        found += [(station, stations[k + 1 + m]) for m in np.flatnonzero(later).tolist()]
        if len(found) >= MOST_CROSSED:
            break
    return found[:MOST_CROSSED]


def _unlike(one: Floats, other: Floats, ones: Floats, others: Floats) -> NDArray[np.bool_]:
    """Which of the places (n, sizes) lie behind the first on one side and before it on the other, in any size."""
    unlike: NDArray[np.bool_] = np.any((ones - one > SAME_SPOT) & (other - others > SAME_SPOT), axis=1)
    return unlike


def _in_order(stations: Sequence[Station]) -> list[Station]:
    """The longest run of stations that stand in one order on both sides."""
    if not stations:
        return []
    one, other = np.stack([s.one for s in stations]), np.stack([s.other for s in stations])
    count = np.ones(len(stations), dtype=np.intp)
    before = np.full(len(stations), -1)
    for k in range(1, len(stations)):
        fitting = np.flatnonzero(~_unlike(-one[k], -other[k], -one[:k], -other[:k]))
        if len(fitting):
            best = fitting[np.argmax(count[fitting])]
            count[k], before[k] = count[best] + 1, best
    run = [int(np.argmax(count))]
    while before[run[-1]] >= 0:
        run.append(int(before[run[-1]]))
    return [stations[k] for k in reversed(run)]


def _once(stations: Sequence[Station]) -> list[Station]:
    """The stations without those that pin the same places together as an earlier one."""
    kept: list[Station] = []
    known: Agreeing[Station] = Agreeing()
    for station in stations:
        if not any(agree(station.other, twin.other) for twin in known.at(station.one)):
            known.add(station.one, station)
            kept.append(station)
    return kept


def _is(a: Station, b: Station) -> bool:
    """Whether two stations pin the same places together."""
    return agree(a.one, b.one) and agree(a.other, b.other)


def _mean(at: Floats) -> float:
    finite = at[np.isfinite(at)]
    return float(finite.mean()) if len(finite) else 0.0
