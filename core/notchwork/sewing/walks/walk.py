"""Walking a seam: one side laid along another from the start, stopping at every station, in all sizes at once."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from notchwork.model import Join, Seam, Side
from notchwork.sewing.counts.copies import has_spare_copies
from notchwork.sewing.counts.halves import other_copy, repeats_a_side
from notchwork.sewing.pieces.lines import SAME_SPOT, Floats, agree
from notchwork.sewing.pieces.symmetry import falls_on_itself
from notchwork.sewing.walks.joins import Wanted, is_plain, wanted
from notchwork.sewing.walks.marks import SideWalk, side_walk
from notchwork.sewing.walks.spans import Spot
from notchwork.sewing.walks.stations import Pairing, Station, pair, resolve

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
    """A further side against another, which is side 1 but for ``Walk.by_notches``.

    ``lost`` names the entries of ``between`` that are no station.
    """

    one: SideWalk
    side: SideWalk
    join: Join | None
    pairing: Pairing
    intervals: tuple[Interval, ...]
    lost: tuple[str, ...]
    difference: Floats
    wanted: Wanted | None

    @property
    def kind(self) -> str:
        return self.join.kind if self.join is not None else "plain"

    @property
    def is_plain(self) -> bool:
        """Whether both sides are to be equal (a pleated side is, once its pleats are folded)."""
        return is_plain(self.join)

    @property
    def pieces(self) -> tuple[str, ...]:
        """The pieces on both sides, each once."""
        return tuple(dict.fromkeys((*self.one.pieces, *self.side.pieces)))

    @property
    def by_tape(self) -> bool:
        """Whether any part of either side is known by a measured length only."""
        return self.one.by_tape or self.side.by_tape

    @property
    def full(self) -> tuple[Interval, ...]:
        """The intervals in which the join's fullness may lie."""
        return tuple(interval for interval in self.intervals if interval.full)


@dataclass(frozen=True, slots=True, eq=False)
class Walk:
    """One seam in every size: its sides, and every further side against side 1.

    ``by_notches``: where side 1 has no notch, further sides against the first side that has any.
    """

    id: str
    seam: Seam
    sides: tuple[SideWalk, ...]
    others: tuple[Comparison, ...]
    by_notches: tuple[Comparison, ...]

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
    """Every side of a seam laid out straight.

    A side that is word for word the one before it, of pieces with several copies of a hand or whose hand is all the same,
    means other copies (collar to collar): it is read as mirrored, but where layers lie on each other.
    """
    sides = [
        other_copy(side) if repeats_a_side(seam, number) and _spare(nest, side) else side
        for number, side in enumerate(seam.sides)
    ]
    return tuple(side_walk(nest, number, side) for number, side in enumerate(sides))


def _spare(nest: Nest, side: Side) -> bool:
    pieces = [nest.pieces[span.piece] for span in side.spans]
    return all(
        has_spare_copies(nest, piece) or (not piece.folds and falls_on_itself(nest, piece))
        for piece in pieces
    )


def walk_seam(nest: Nest, ident: str, seam: Seam) -> Walk:
    """Walk one seam in every size. Raises NoSuchPlace where it names what does not exist."""
    sides = nest.sides[ident]
    notched = next((side for side in sides if side.notches), sides[0])
    return Walk(
        id=ident,
        seam=seam,
        sides=sides,
        others=tuple(_compare(nest, seam, sides[0], further) for further in sides[1:]),
        by_notches=tuple(_compare(nest, seam, notched, further) for further in sides[notched.number + 1 :])
        if notched.number
        else (),
    )


def _compare(nest: Nest, seam: Seam, one: SideWalk, further: SideWalk) -> Comparison:
    join = further.side.join
    pairing = pair(seam, one, further, nest.seam_ends)
    full, lost = _full_stretch(nest, seam, join, further, pairing)
    intervals = tuple(
        Interval(a, b, b.one - a.one, b.other - a.other, _lies_in(a, b, full))
        for a, b in zip(pairing.stations, pairing.stations[1:], strict=False)
    )
    eased = sum((i.one for i in intervals if i.full), np.zeros_like(one.length))
    return Comparison(
        one=one,
        side=further,
        join=join,
        pairing=pairing,
        intervals=intervals,
        lost=lost,
        difference=further.length - one.length,
        wanted=wanted(join, seam, nest.sizes, eased),
    )


def _full_stretch(
    nest: Nest, seam: Seam, join: Join | None, side: SideWalk, pairing: Pairing
) -> tuple[list[tuple[Floats, Floats]], tuple[str, ...]]:
    """Where on the further side the join's fullness may lie, and which ends of ``between`` are no station."""
    whole = [(np.zeros_like(side.length), side.length)]
    if join is None or is_plain(join):
        return [], ()
    if join.between is None:
        return whole, ()
    ends: list[Floats] = []
    lost: list[str] = []
    for name in join.between:
        hit = next(
            (
                station.other
                for at, _ in resolve(name, side, nest.seam_ends, bare_places=True)
                for station in pairing.stations
                if agree(at, station.other)
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
        not bool((low - a.other >= SAME_SPOT).any()) and not bool((b.other - high >= SAME_SPOT).any())
        for low, high in full
    )
