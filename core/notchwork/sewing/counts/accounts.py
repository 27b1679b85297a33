"""Accounts: for every edge of a piece, interval by interval and hand by hand, what takes it and how often."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise, product
from typing import TYPE_CHECKING

import numpy as np

from notchwork.sewing.counts.copies import Copies, copies_of, cut_in_both_hands, only_interfacing
from notchwork.sewing.counts.uses import Use, uses_of
from notchwork.sewing.pieces.graded import Bools, GradedPiece
from notchwork.sewing.pieces.lines import Floats, Line

if TYPE_CHECKING:
    from notchwork.sewing.nest import Nest

NOTHING = 1.0
"""mm: what is shorter is neither left over nor taken twice: less than a stitch (common practice, no source)."""


@dataclass(frozen=True, slots=True, eq=False)
class Taken:
    """One use as it falls on a copy: ``other_hand`` tells the two hands of a piece apart, relative to each other."""

    use: Use
    line: str
    low: Floats
    high: Floats
    other_hand: bool


@dataclass(frozen=True, slots=True, eq=False)
class Interval:
    """From ``low`` to ``high`` (mm, sizes) on a line nothing changes: the uses that take it, in every size."""

    line: Line
    low: Floats
    high: Floats
    taken: tuple[tuple[Taken, Bools], ...]

    @property
    def there(self) -> Bools:
        """The sizes in which it is more than nothing."""
        return self.high - self.low > NOTHING

    def times(self, other_hand: bool | None = None, resting: bool = True, kind: str | None = None) -> Floats:
        """How many copies are taken here, of one hand or (None) of both. Without ``resting``, only those used up."""
        total: Floats | float = 0.0
        for taken, where in self.taken:
            if other_hand is not None and taken.other_hand != other_hand:
                continue
            if (resting or not taken.use.rests) and kind in (None, taken.use.kind):
                total = total + np.where(where, float(taken.use.count), 0.0)
        return np.where(self.there, total, 0.0)

    def seams(self, other_hand: bool | None = None) -> Mapping[str, Floats]:
        """How many copies each seam takes here."""
        found: dict[str, Floats] = {}
        for taken, where in self.taken:
            if taken.use.kind == "seam" and other_hand in (None, taken.other_hand):
                times = np.where(where & self.there, float(taken.use.count), 0.0)
                found[taken.use.ident] = found.get(taken.use.ident, 0.0) + times
        return found

    def using_up(self, other_hand: bool | None = None) -> set[str]:
        """The seams that use the edge up here in some size."""
        return {
            taken.use.ident
            for taken, where in self.taken
            if taken.use.kind == "seam"
            and not taken.use.rests
            and other_hand in (None, taken.other_hand)
            and bool((where & self.there).any())
        }


class Account:
    """What is cut of one piece, and what takes its edges.

    ``copies`` is None where no cut order tells. ``exempt``: its edges need not be accounted for (interfacing, strips,
    templates). ``by_hand``: the two hands are counted apart; otherwise a copy serves for either, or there is one hand.
    """

    def __init__(self, nest: Nest, graded: GradedPiece, uses: Sequence[Use]) -> None:
        self.graded = graded
        self.uses = tuple(uses)
        self.copies = copies_of(nest, graded)
        self.exempt = graded.is_strip or graded.written.use is not None or only_interfacing(nest, graded)
        self._two_hands = bool(cut_in_both_hands(graded))
        told = self._two_hands if self.copies is None else _in_both_hands(self.copies)
        self.by_hand = told and not graded.is_strip
        self._nest = nest

    @property
    def hands(self) -> tuple[bool | None, ...]:
        """The hands to be told apart: one and the other, or all together."""
        return (False, True) if self.by_hand else (None,)

    @property
    def cut(self) -> Copies | None:
        """The copies with ``as_drawn`` those of the one hand and ``mirrored`` those of the other; None if not told."""
        return self.copies.turned() if self.copies is not None and self._choice.exchanged else self.copies

    def available(self, other_hand: bool | None) -> Floats | None:
        """The copies that can be of a hand by size; None where no cut order tells."""
        if self.cut is None:
            return None
        if other_hand is None:
            return self.cut.total
        return (self.cut.mirrored if other_hand else self.cut.as_drawn) + self.cut.either

    def must_be_taken(self, line: str) -> bool:
        """Whether an edge needs a seam or an opening: it is no fold and nothing is said of its finish."""
        edge = self.graded.written.edges.get(line)
        return line in self.graded.edges and (edge is None or (not edge.fold and edge.finish is None))

    def intervals(self, line: str) -> tuple[Interval, ...]:
        """The intervals of one edge in the outline's order."""
        return self._choice.intervals.get(line, ())

    def needed(self, other_hand: bool | None) -> Floats:
        """The most copies (sizes) that any one seam takes of a hand."""
        counts = [
            times
            for by_line in self._choice.intervals.values()
            for interval in by_line
            for times in interval.seams(other_hand).values()
        ]
        return np.max(counts, axis=0, initial=0.0) if counts else np.zeros(len(self.graded.sizes))

    @cached_property
    def _choice(self) -> _Choice:
        """The reading of the hands in which the copies reach furthest: which hand an unmarked span means is not stated.

        That a seam's image falls on another edge of the same copy is believed only where the copies suffice by that alone.
        """
        plain = min(self._choices([None]), key=lambda choice: choice.cost)
        if plain.cost[0] == 0.0 or self._two_hands or not any(use.image for use in self.uses):
            return plain
        images = self._choices(self._nest.mirror_images[self.graded.id])
        return min((c for c in images if c.cost[0] == 0.0), key=lambda c: c.cost, default=plain)

    def _choices(self, images: Iterable[Mapping[str, str] | None]) -> Iterator[_Choice]:
        swaps = (False, True) if any(use.half == "none" for use in self.uses) else (False,)
        uneven = self.copies is not None and bool(np.any(self.copies.as_drawn != self.copies.mirrored))
        for image, swapped, exchanged in product(images, swaps, (False, True) if uneven else (False,)):
            yield self._read(image, swapped, exchanged)

    def _read(self, image: Mapping[str, str] | None, swapped: bool, exchanged: bool) -> _Choice:
        taken = [self._taken(use, image, swapped) for use in self.uses]
        intervals = {
            line.name: tuple(_cut_up(line, [t for t in taken if t.line == line.name]))
            for line in self.graded.lines.values()
            if line.kind != "inner"
        }
        lacking = left_over = 0.0
        for interval in (i for by_line in intervals.values() for i in by_line):
            if self.copies is not None:
                copies = self.copies.turned() if exchanged else self.copies
                one, other = (interval.times(hand, resting=False) for hand in (False, True))
                lacking += float(np.sum(copies.lacking(one, other)))
            for hand in self.hands if self.must_be_taken(interval.line.name) else ():
                bare = interval.there & (interval.times(hand) == 0)
                left_over += float(np.sum(np.where(bare, interval.high - interval.low, 0.0)))
        return _Choice(intervals, exchanged, (lacking, left_over))

    def _taken(self, use: Use, image: Mapping[str, str] | None, swapped: bool) -> Taken:
        hand = use.mirrored
        if self._two_hands:
            hand ^= swapped if use.half == "none" else use.half == "left"
        falls_on = image.get(use.line.name) if image is not None and use.image else None
        if falls_on is None or (falls_on != use.line.name and not self._waits(falls_on)):
            return Taken(use, use.line.name, use.low, use.high, hand)
        length = self.graded.lines[falls_on].length
        return Taken(use, falls_on, length - use.high, length - use.low, hand)

    def _waits(self, line: str) -> bool:
        """Whether an edge is there to be taken by the image of a seam: nothing else is stated of it."""
        stated = any(use.line.name == line and not use.image for use in self.uses)
        waiting = line in ("start", "end") if self.graded.is_strip else self.must_be_taken(line)
        return waiting and not stated


@dataclass(frozen=True, slots=True, eq=False)
class _Choice:
    """One reading of the hands: ``cost`` is how many copies it lacks, and how many mm it leaves over."""

    intervals: Mapping[str, tuple[Interval, ...]]
    exchanged: bool
    cost: tuple[float, float]


def accounts_of(nest: Nest) -> Mapping[str, Account]:
    """The account of every piece."""
    uses = uses_of(nest)
    return {ident: Account(nest, graded, uses[ident]) for ident, graded in nest.pieces.items()}


def _in_both_hands(copies: Copies) -> bool:
    return bool(np.any(copies.as_drawn > 0)) and bool(np.any(copies.mirrored > 0))


def _cut_up(line: Line, taken: Sequence[Taken]) -> Iterator[Interval]:
    """Cut a line where a use begins or ends."""
    zero = np.where(np.isfinite(line.length), 0.0, np.nan)
    ends = np.sort(np.stack([zero, line.length, *(e for t in taken for e in (t.low, t.high))]), axis=0)
    for low, high in pairwise(ends):
        if bool((high - low > NOTHING).any()):
            middle = (low + high) / 2.0
            yield Interval(line, low, high, tuple((t, (t.low < middle) & (middle < t.high)) for t in taken))
