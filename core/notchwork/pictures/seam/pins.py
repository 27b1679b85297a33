"""What stands on a strip besides its cloth: pins at stations, notches in the bands, joints, pleats and darts."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator, Sequence
from itertools import accumulate

import numpy as np

from notchwork.pictures import ink
from notchwork.pictures.ink import n
from notchwork.pictures.laid import Laid
from notchwork.pictures.seam.drawn import Cloth
from notchwork.sewing import MarkOnSide, SideWalk
from notchwork.sewing.walks.marks import NOTCH_KINDS

NICK = 7.0
"""px from one nick of a notch to the next."""


class Along:
    """Where a sewn distance (mm) from a side's start lies on a strip."""

    def __init__(self, laid: Laid, cloths: Sequence[Cloth], further: bool) -> None:
        self._cloths, self._further = cloths, further
        lengths = [bay.other if further else bay.one for bay in laid.bays]
        self._starts = [*accumulate(lengths, initial=0.0)]

    def at(self, distance: float) -> complex:
        """The place (px, y downward) on the line along which this side's cloth is sewn."""
        bay = min(max(bisect_right(self._starts, distance) - 1, 0), len(self._cloths) - 1)
        long = self._starts[bay + 1] - self._starts[bay]
        return self._cloths[bay].at(
            self._further, (distance - self._starts[bay]) / long if long > 0.0 else 0.0
        )


def pin_marks(xs: Sequence[float], top: float, bottom: float) -> str:
    """Pins through everything from ``top`` to ``bottom`` (px), their heads above."""
    lines = ink.path("".join(f"M{n(x)} {n(top)}V{n(bottom)}" for x in xs), "pin")
    return lines + "".join(ink.ring(x, top - 1.0, 3.2, "pin-head") for x in xs)


def side_marks(laid: Laid, along: Along, further: bool, thick: float) -> Iterator[str]:
    """The joints, notches, pleats and darts of one side, drawn in its own band."""
    side = laid.comparison.side if further else laid.comparison.one
    way = 1 if further else -1
    lost = lost_marks(laid, further)
    gaps: list[str] = []
    folds: list[str] = []
    notches: list[str] = []
    hollow: list[str] = []
    for mark in side.marks:
        place = _place(along, mark, laid.size)
        if place is None:
            continue
        if mark.kind == "joint":
            gaps.append(f"M{n(place.real)} {n(place.imag + way)}v{n(way * (thick - 1.0))}")
        elif mark.kind in NOTCH_KINDS:
            nicks = NOTCH_KINDS.index(mark.kind) + 1
            to = hollow if mark in lost else notches
            for nick in range(nicks):
                tip = place.real + (nick - (nicks - 1) / 2.0) * NICK
                to.append(f"M{n(tip)} {n(place.imag + way)}l-3 {n(way * 5.0)}h6z")
    for kind, distance in intakes(side, laid.size):
        point = along.at(distance)
        x, y = n(point.real - 4.0), point.imag
        if kind == "pleat":
            folds.append(f"M{x} {n(y + way * 2.0)}h8l-8 {n(way * (thick - 4.0))}h8")
        else:
            folds.append(f"M{x} {n(y + way)}l4 {n(way * (thick - 3.0))}l4 {n(-way * (thick - 3.0))}")
    for lines, kind in ((gaps, "gap"), (folds, "pleat"), (notches, "notch"), (hollow, "lost")):
        yield ink.path("".join(lines), kind)


def lost_marks(laid: Laid, further: bool) -> list[MarkOnSide]:
    """The marks of a side that have no partner on the other, where both have notches."""
    return [
        mark
        for _, of_one, of_other in laid.comparison.pairing.unequal
        for mark in (of_other if further else of_one)
    ]


def intakes(side: SideWalk, size: int) -> Iterator[tuple[str, float]]:
    """The pleats and darts that are folded in along a side, by kind and sewn distance (mm) from its start in a size."""
    for stretch, begins in zip(side.stretches, side.starts, strict=True):
        for intake in stretch.line.intakes:
            if stretch.covers(intake.low) and stretch.covers(intake.high):
                distance = float((begins + stretch.sewn_from_start(intake.low))[size])
                if np.isfinite(distance):
                    yield intake.kind, distance


def _place(along: Along, mark: MarkOnSide, size: int) -> complex | None:
    distance = float(mark.at[size])
    return along.at(distance) if np.isfinite(distance) else None
