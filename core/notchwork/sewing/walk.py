"""Walking a seam: one side laid along another from the start, stopping at every station, in all sizes at once."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from notchwork.model import Join, Seam
from notchwork.sewing.joins import Wanted, wanted
from notchwork.sewing.lines import SAME_SPOT, Floats
from notchwork.sewing.marks import SideWalk, side_walk
from notchwork.sewing.spans import Spot
from notchwork.sewing.stations import Pairing, Station, pair

if TYPE_CHECKING:
    from notchwork.sewing.nest import Nest


@dataclass(frozen=True, slots=True, eq=False)
class Interval:
    """From one station to the next: the lengths (mm, sizes) of side 1 and of the further side.

    ``full``: the join's ease, gathers or stretch may lie here; elsewhere the sides are plain.
    """

    start: Station
    stop: Station
    one: Floats
    other: Floats
    full: bool

    @property
    def difference(self) -> Floats:
        """How much longer (mm, sizes) the further side is."""
        return self.other - self.one

    @property
    def ratio(self) -> Floats:
        """The further side divided by side 1."""
        with np.errstate(divide="ignore", invalid="ignore"):
            return np.where(self.one > SAME_SPOT, self.other / self.one, np.nan)


@dataclass(frozen=True, slots=True, eq=False)
class Comparison:
    """A further side against side 1. ``lost`` names the entries of ``between`` that are no station.

    ``notched`` is the pairing with the side whose notches this one's are compared with, where that is not side 1.
    """

    side: SideWalk
    join: Join | None
    pairing: Pairing
    intervals: tuple[Interval, ...]
    lost: tuple[str, ...]
    difference: Floats
    wanted: Wanted | None
    notched: tuple[SideWalk, Pairing] | None

    @property
    def kind(self) -> str:
        return self.join.kind if self.join is not None else "plain"

    @property
    def is_plain(self) -> bool:
        """Whether both sides are to be equal (a pleated side is, once its pleats are folded)."""
        return self.kind in ("plain", "pleated")

    @property
    def full(self) -> tuple[Interval, ...]:
        """The intervals in which the join's fullness may lie."""
        return tuple(interval for interval in self.intervals if interval.full)


@dataclass(frozen=True, slots=True, eq=False)
class Walk:
    """One seam in every size: its sides, and every further side against side 1."""

    id: str
    seam: Seam
    sides: tuple[SideWalk, ...]
    others: tuple[Comparison, ...]

    @property
    def by_tape(self) -> bool:
        return any(side.by_tape for side in self.sides)

    @property
    def pieces(self) -> tuple[str, ...]:
        return tuple(dict.fromkeys(piece for side in self.sides for piece in side.pieces))

    @property
    def end_spots(self) -> tuple[frozenset[Spot], frozenset[Spot]]:
        """The corners that the seam brings together at its start and at its end."""
        return (
            frozenset(side.stretches[0].start_spot for side in self.sides),
            frozenset(side.stretches[-1].stop_spot for side in self.sides),
        )


def lay_out(nest: Nest, seam: Seam) -> tuple[SideWalk, ...]:
    """Every side of a seam laid out straight."""
    return tuple(side_walk(nest, number, side) for number, side in enumerate(seam.sides))


def walk_seam(nest: Nest, ident: str, seam: Seam) -> Walk:
    """Walk one seam in every size. Raises NoSuchPlace where it names what does not exist."""
    sides = nest.sides[ident]
    return Walk(ident, seam, sides, tuple(_compare(nest, seam, sides, further) for further in sides[1:]))


def _compare(nest: Nest, seam: Seam, sides: tuple[SideWalk, ...], further: SideWalk) -> Comparison:
    one = sides[0]
    join = further.side.join
    pairing = pair(seam, one, further, nest.seam_ends)
    full, lost = _full_stretch(seam, join, further, pairing)
    intervals = tuple(
        Interval(a, b, b.one - a.one, b.other - a.other, _lies_in(a, b, full))
        for a, b in zip(pairing.stations, pairing.stations[1:], strict=False)
    )
    eased = sum((i.one for i in intervals if i.full), np.zeros_like(one.length))
    notched = next((side for side in sides[: further.number] if side.notches), one)
    return Comparison(
        side=further,
        join=join,
        pairing=pairing,
        intervals=intervals,
        lost=lost,
        difference=further.length - one.length,
        wanted=wanted(join, seam, nest.sizes, eased),
        notched=(notched, pair(seam, notched, further, nest.seam_ends)) if notched is not one else None,
    )


def _full_stretch(
    seam: Seam, join: Join | None, side: SideWalk, pairing: Pairing
) -> tuple[list[tuple[Floats, Floats]], tuple[str, ...]]:
    """Where on the further side the join's fullness may lie, and which ends of ``between`` are no station."""
    whole = [(np.zeros_like(side.length), side.length)]
    if join is None or join.kind in ("plain", "pleated"):
        return [], ()
    if join.between is None:
        return whole, ()
    ends: list[Floats] = []
    lost: list[str] = []
    for name in join.between:
        hit = next(
            (
                station.other
                for at, _ in side.places(name)
                for station in pairing.stations
                if bool(np.all(np.nan_to_num(np.abs(at - station.other)) < SAME_SPOT))
            ),
            None,
        )
        if hit is None:
            lost.append(name)
        else:
            ends.append(hit)
    if lost:
        return whole, tuple(lost)
    low, high = ends
    if float(np.nansum(low - high)) <= 0:
        return [(low, high)], ()
    if seam.closed:
        return [(low, side.length), (np.zeros_like(high), high)], ()
    return [(high, low)], ()


def _lies_in(a: Station, b: Station, full: list[tuple[Floats, Floats]]) -> bool:
    return any(
        bool(np.all(np.nan_to_num(low - a.other) < SAME_SPOT))
        and bool(np.all(np.nan_to_num(b.other - high) < SAME_SPOT))
        for low, high in full
    )
