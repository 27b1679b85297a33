"""One further side laid on another in one size, as a sewer would: bays between pins, and whether the cloth of each lies flat."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

import numpy as np

from notchwork.checks import Graded
from notchwork.pictures.ends import EndTold, told_at_ends
from notchwork.pictures.told import Told, is_of_the_order, is_of_the_way
from notchwork.sewing import Comparison, Interval, Misfit, Nest, Walk, fine_on, misfit
from notchwork.sewing.walks.fit import NOTHING, SHORTEST, by_total
from notchwork.values import frozen

WAVED = 1.3
"""Cloth that is so many times as long as its stretch, or more, is drawn as a wave: no arc hangs off so far."""
SAME = 0.05
"""mm: a difference below it is none."""
FINE_BY_TAPE = 5.0
"""mm: what is fine where a length was measured by tape and no finding says otherwise (common practice, no source)."""

Shape = Literal["flat", "bulge", "wave"]
Judged = Literal["fine", "off", "much", "little"]


@frozen
class Bay:
    """From one pin to the next: the lengths (mm) of the side laid on and of the further one, and how that is drawn.

    ``told`` is the finding by which it is not fine. ``wanted``: the least and the most (mm) that the further side should have
    here, where that is stated; of a sum that is stated for several bays, its share. ``full``: fullness may lie here.
    """

    interval: Interval
    one: float
    other: float
    full: bool
    shape: Shape
    judged: Judged
    wanted: tuple[float, float] | None
    told: Graded | None

    @property
    def difference(self) -> float:
        """How much longer (mm) the further side is."""
        return self.other - self.one

    @property
    def ratio(self) -> float:
        """The further side divided by the one it is laid on."""
        return self.other / self.one if self.one > SAME else np.inf

    @property
    def is_let_pass(self) -> bool:
        """Whether it is not as wanted, and yet fine."""
        if self.judged != "fine" or self.wanted is None:
            return False
        return not self.wanted[0] - SAME <= self.other <= self.wanted[1] + SAME

    @property
    def chord(self) -> float:
        """How much of the seam (mm) it takes: where a side is longer, the other lies straight."""
        return self.one if self.shape == "flat" else min(self.one, self.other)


@frozen
class Laid:
    """A comparison in one size. ``size`` is its number. ``order``: which order is wrong, that of the whole or of some pins.

    ``by`` (mm, signed as further side less the other) is how far the lengths are off where nothing may be eased, or with
    ``slipped`` how far the stations miss; ``told``: that is more than fine. ``ease`` is the fullness that is to be
    eased in, or whose amount is stated in mm; None where there is none, and ``fullness`` how far that lies outside what is
    wanted. ``fine`` is what is let pass. ``ends`` are told of the edges beyond its ends.
    """

    walk: Walk
    comparison: Comparison
    size: int
    bays: Sequence[Bay]
    order: Literal["right", "way", "stations"]
    by: float
    told: bool
    slipped: bool
    ease: float | None
    fullness: float
    fine: float
    ends: Sequence[EndTold]

    @property
    def sews(self) -> bool:
        """Whether nothing is drawn that is off."""
        return self.order == "right" and not self.ends and all(bay.judged == "fine" for bay in self.bays)

    @property
    def long(self) -> float:
        """How much of the seam (mm) it takes; where the order is wrong, both sides lie straight."""
        if self.order != "right":
            return float(max(self.comparison.one.length[self.size], self.comparison.side.length[self.size]))
        return sum(bay.chord for bay in self.bays)

    @property
    def drawn_up(self) -> bool:
        """Whether the further side is gathered to the other in every bay, so that it can be drawn in a row of its own."""
        return (
            self.order == "right"
            and self.comparison.kind == "gathered"
            and all(bay.other >= bay.one - SAME for bay in self.bays if bay.full)
        )

    @property
    def known(self) -> bool:
        """Whether both sides are there in this size."""
        return bool(np.isfinite(self.comparison.difference[self.size]))

    @property
    def about(self) -> str:
        """Before a figure that was measured by tape."""
        return "about " if self.comparison.by_tape else ""


def laid_in_sizes(nest: Nest, walk: Walk, comparison: Comparison, told: Told) -> list[Laid]:
    """A comparison in every size."""
    off = misfit(nest, walk, comparison)
    return [_laid(nest, walk, comparison, off, told, size) for size in range(len(nest.sizes))]


def laid_in_size(nest: Nest, walk: Walk, comparison: Comparison, told: Told, size: int) -> Laid:
    """A comparison in one size, by its number."""
    return _laid(nest, walk, comparison, misfit(nest, walk, comparison), told, size)


def _laid(nest: Nest, walk: Walk, comparison: Comparison, off: Misfit, told: Told, size: int) -> Laid:
    name = nest.sizes[size]
    length, slipped, fullness = (float(a[size]) for a in (off.length, off.slipped, off.fullness))
    said = told.telling(length, "mm", name) or told.telling(slipped, "mm", name)
    eased = told.telling(fullness, "mm", name)
    ratio = told.telling(float(off.ratio[size]), "percent", name)
    order: Literal["right", "way", "stations"] = "right"
    fault = nest.wrong_way.get(walk.id)
    if (
        fault is not None
        and fault.side == comparison.side.number
        and any(is_of_the_way(graded) for graded in told.loud)
    ):
        order = "way"
    elif comparison.pairing.crossed and any(is_of_the_order(graded) for graded in told.loud):
        order = "stations"
    fine = next(
        (
            graded.tolerance.fine
            for graded in (said, eased, *told.loud, *told.quiet)
            if graded is not None
            and graded.tolerance is not None
            and graded.tolerance.unit == "mm"
            and graded.tolerance.fine is not None
        ),
        FINE_BY_TAPE if comparison.by_tape else fine_on(walk.seam),
    )
    # A seam whose order is wrong is judged by its total: its pins mean nothing.
    judged = off.comparison
    unequal = _unequal(off, fine, size) if said is not None else frozenset()
    if said is not None and not unequal:
        # So much is spread so thinly that nothing of it shows: then the whole seam hangs off.
        judged, unequal = by_total(nest, walk, judged), frozenset([0])
    wanted = _shares(judged, size)
    bays = [
        _bay(
            judged,
            interval,
            size,
            wanted[number],
            said if number in unequal else None,
            eased,
            ratio,
            fullness,
        )
        for number, interval in enumerate(judged.intervals)
    ]
    in_mm = not judged.is_plain and (judged.wanted.unit == "mm" if judged.wanted else judged.kind == "eased")
    ease = float(np.sum([interval.difference[size] for interval in judged.full])) if in_mm else None
    return Laid(
        walk=walk,
        comparison=comparison,
        size=size,
        bays=bays,
        order=order,
        by=length or slipped,
        told=said is not None,
        slipped=bool(slipped) and not length,
        ease=ease,
        fullness=fullness if eased is not None else 0.0,
        fine=fine,
        ends=list(told_at_ends(nest, walk, comparison, told, size)),
    )


def _bay(
    comparison: Comparison,
    interval: Interval,
    size: int,
    wanted: tuple[float, float] | None,
    unequal: Graded | None,
    eased: Graded | None,
    ratio: Graded | None,
    fullness: float,
) -> Bay:
    """``unequal``, ``eased`` and ``ratio`` tell of lengths, of ease in mm (by ``fullness``), and of times as long."""
    one, other = float(interval.one[size]), float(interval.other[size])
    judged: Judged = "fine"
    told: Graded | None = None
    if not interval.full:
        judged, told = ("off", unequal) if unequal is not None else ("fine", None)
    elif comparison.wanted is not None and comparison.wanted.unit == "ratio":
        slack = ratio.tolerance.fine or 0.0 if ratio is not None and ratio.tolerance is not None else np.inf
        if one > SHORTEST and float(comparison.wanted.off(interval.ratio)[size]) > slack:
            judged = "much" if float(interval.ratio[size]) > comparison.wanted.most[size] else "little"
            told = ratio
    elif eased is not None and fullness and wanted is not None:
        beyond = other - wanted[1] if fullness > 0 else wanted[0] - other
        if other < one - SAME and fullness < 0:
            judged, told = "off", eased
        elif beyond > SAME:
            judged, told = ("much" if fullness > 0 else "little"), eased
    shape: Shape = "flat"
    longer, shorter = max(one, other), min(one, other)
    if judged != "fine" or (interval.full and longer - shorter > SAME):
        drawn_up = comparison.kind in ("gathered", "stretched") and interval.full
        shape = "wave" if drawn_up or longer >= WAVED * shorter else "bulge"
    return Bay(interval, one, other, interval.full, shape, judged, wanted, told)


def _unequal(off: Misfit, fine: float, size: int) -> frozenset[int]:
    """The plain intervals that are off; where only their sum is, every one that differs at all."""
    plain = np.abs(off.plain[:, size])
    beyond = np.flatnonzero(plain > fine + SAME / 100.0)
    found = beyond if len(beyond) else np.flatnonzero(plain >= NOTHING)
    return frozenset(int(number) for number in found)


def _shares(comparison: Comparison, size: int) -> list[tuple[float, float] | None]:
    """What the further side should have (mm, least and most) in every interval, where a figure is stated."""
    wanted = comparison.wanted
    if wanted is None or comparison.is_plain:
        return [None] * len(comparison.intervals)
    least, most = float(wanted.least[size]), float(wanted.most[size])
    ones = np.array([float(i.one[size]) if i.full else 0.0 for i in comparison.intervals])
    if wanted.unit == "ratio":
        low, high = least * ones, most * ones
    else:
        eases = np.maximum([float(i.difference[size]) if i.full else 0.0 for i in comparison.intervals], 0.0)
        basis = eases if eases.sum() > SAME else ones
        share = basis / basis.sum() if basis.sum() > 0 else basis
        low, high = ones + least * share, ones + most * share
    return [
        (float(a), float(b)) if interval.full else None
        for a, b, interval in zip(low, high, comparison.intervals, strict=True)
    ]
