"""What lies along one side of a seam: notches, joints between spans, folds, by sewn distance from the side's start."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from notchwork.model import Place, Side
from notchwork.sewing.pieces.lines import Agreeing, Floats
from notchwork.sewing.pieces.places import NoSuchPlace, position
from notchwork.sewing.walks.spans import Spot, Stretch, stretches_of

if TYPE_CHECKING:
    from notchwork.sewing.nest import Nest

ONE_MARK = 0.5
"""mm: marks of one kind nearer than this on a side are one mark (the two halves of a notch on a fold)."""

NOTCH_KINDS = ("single", "double", "triple")


@dataclass(frozen=True, slots=True, eq=False)
class MarkOnSide:
    """A mark that a seam's side passes. ``at`` is its sewn distance (mm, sizes) from the side's start.

    ``kind``: single, double or triple for notches; joint or fold where two spans follow each other.
    """

    kind: str
    piece: str
    name: str
    at: Floats
    spots: tuple[Spot, ...]
    """The one spot of a notch; of a joint, where the first stretch stops and where the next one starts."""


@dataclass(frozen=True, slots=True, eq=False)
class SideWalk:
    """One side laid out straight: its stretches, where each starts (mm, sizes), and the marks in walking order."""

    side: Side
    number: int
    stretches: tuple[Stretch, ...]
    starts: tuple[Floats, ...]
    length: Floats
    marks: tuple[MarkOnSide, ...]

    @property
    def by_tape(self) -> bool:
        """Whether any part of it is known by a measured length only."""
        return any(stretch.line.by_tape for stretch in self.stretches)

    @property
    def pieces(self) -> tuple[str, ...]:
        """The pieces on this side, each once, in walking order."""
        return tuple(dict.fromkeys(stretch.graded.id for stretch in self.stretches))

    @property
    def notches(self) -> tuple[MarkOnSide, ...]:
        return tuple(mark for mark in self.marks if mark.kind in NOTCH_KINDS)

    def stretch_at(self, distance: float, size: int) -> tuple[Stretch, float]:
        """The stretch that a sewn distance (mm) from the start falls on in one size, and the arc position on its line."""
        found = len(self.stretches) - 1
        for k, start in enumerate(self.starts[1:]):
            if distance < float(start[size]):
                found = k
                break
        stretch = self.stretches[found]
        return stretch, stretch.arc_at(distance - float(self.starts[found][size]), size)

    def places(self, name: str) -> list[tuple[Floats, Spot]]:
        """Everywhere on this side that ``name`` (a place, or "piece.place") stands, in walking order."""
        piece, _, place = name.rpartition(".")
        return self._where(
            lambda stretch: [_position(stretch, place)] if not piece or stretch.graded.id == piece else []
        )

    def spots(self, wanted: frozenset[Spot]) -> list[tuple[Floats, Spot]]:
        """Everywhere on this side that one of the spots lies."""

        def candidates(stretch: Stretch) -> list[Floats | None]:
            found: list[Floats | None] = [
                end for end in (stretch.start, stretch.stop) if stretch.spot(end) in wanted
            ]
            return found + [
                np.full_like(stretch.line.length, spot.tenth / 10)
                for spot in wanted
                if spot.tenth is not None
                and (spot.piece, spot.line, spot.mirrored)
                == (stretch.graded.id, stretch.line.name, stretch.span.mirrored)
            ]

        return self._where(candidates)

    def _where(self, candidates: Callable[[Stretch], Sequence[Floats | None]]) -> list[tuple[Floats, Spot]]:
        found: list[tuple[Floats, Spot]] = []
        taken: Agreeing[None] = Agreeing()
        for stretch, start in zip(self.stretches, self.starts, strict=True):
            for arc in candidates(stretch):
                if arc is None or not stretch.covers(arc):
                    continue
                at = start + stretch.sewn_from_start(arc)
                if not taken.any_at(at):
                    taken.add(at, None)
                    found.append((at, stretch.spot(arc)))
        return found


def side_walk(nest: Nest, number: int, side: Side) -> SideWalk:
    """Lay one side of a seam out straight. Raises NoSuchPlace where a span names no place of its line."""
    stretches = tuple(stretch for span in side.spans for stretch in stretches_of(nest, span))
    starts, run = [], np.zeros(len(nest.sizes))
    for stretch in stretches:
        starts.append(run)
        run = run + stretch.length
    marks = sorted(
        _without_twins([*_notches(nest, stretches, starts), *_joints(stretches, starts)], run),
        key=lambda mark: float(np.nanmean(mark.at)) if np.any(np.isfinite(mark.at)) else 0.0,
    )
    return SideWalk(side, number, stretches, tuple(starts), run, tuple(marks))


def _position(stretch: Stretch, place: str) -> Floats | None:
    try:
        return position(stretch.graded, stretch.line, Place(place))
    except NoSuchPlace:
        return None


def _notches(nest: Nest, stretches: Sequence[Stretch], starts: Sequence[Floats]) -> Iterator[MarkOnSide]:
    for stretch, start in zip(stretches, starts, strict=True):
        for name, notch in stretch.graded.written.notches.items():
            if notch is None or notch.edge != stretch.line.name or notch.use == "place":
                continue
            arc = nest.notches[stretch.graded.id, name]
            if stretch.covers(arc):
                at = start + stretch.sewn_from_start(arc)
                yield MarkOnSide(notch.kind, stretch.graded.id, name, at, (stretch.spot(arc),))


def _joints(stretches: Sequence[Stretch], starts: Sequence[Floats]) -> Iterator[MarkOnSide]:
    for before, after, at in zip(stretches, stretches[1:], starts[1:], strict=False):
        spots = (before.stop_spot, after.start_spot)
        folded = spots[0] == spots[1].turned()
        yield MarkOnSide("fold" if folded else "joint", after.graded.id, after.line.name, at, spots)


def _without_twins(marks: Sequence[MarkOnSide], length: Floats) -> list[MarkOnSide]:
    """Drop a mark that stands at an end of the side, where all sides meet anyway, or a second time on one spot."""
    ends: Agreeing[None] = Agreeing(ONE_MARK)
    for end in (np.zeros_like(length), length):
        ends.add(end, None)
    kept: list[MarkOnSide] = []
    taken: dict[str, Agreeing[None]] = {}
    for mark in marks:
        of_its_kind = taken.setdefault(mark.kind, Agreeing(ONE_MARK))
        if not ends.any_at(mark.at) and not of_its_kind.any_at(mark.at):
            of_its_kind.add(mark.at, None)
            kept.append(mark)
    return kept
