"""What does not fit in a size: the seams whose letter is filled, and the intervals that are off, on every edge concerned."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from notchwork.checks import Graded, Verdict
from notchwork.findings import Length, Ratio, Severity, worded
from notchwork.model import Unit
from notchwork.pictures.laid import Bay, Laid, laid_in_size
from notchwork.pictures.told import severity_in, told_of
from notchwork.sewing import Nest, SideWalk
from notchwork.sewing.pieces.lines import Floats

SAME = 1e-6
"""mm: a part of an edge that is no longer is none."""
STEP = 8.0
"""mm from one point of an interval to the next."""


@dataclass(frozen=True, slots=True, eq=False)
class Off:
    """A part of an interval that is off, on one line of one piece.

    ``arcs`` (m,) are positions in mm on the line, in walking order. ``longer``: this side has the cloth that is too much.
    ``words`` say by how much, on one part of each interval only. ``told`` is the finding that tells of it.
    """

    seam: str
    piece: str
    line: str
    arcs: Floats
    longer: bool
    told: Graded
    words: str = ""


def filled(verdict: Verdict, size: str | None) -> frozenset[str]:
    """The seams that have a finding at warning or above in a size, but for what was accepted on purpose."""
    return frozenset(
        place.seam
        for graded in verdict.at_least(Severity.WARNING)
        if severity_in(graded, size) is not None
        for place in graded.places
        if place.seam is not None
    )


def off_parts(nest: Nest, verdict: Verdict, size: int) -> Iterator[Off]:
    """Every part of an interval that is off in a size, as the seam's own picture has it.

    A seam that runs the wrong way, or whose stations cross, has none: its intervals mean nothing.
    """
    for ident, walk in nest.walks.items():
        told = told_of(nest, verdict, ident)
        if told.severity(nest.sizes[size]) is None or ident in nest.wrong_way:
            continue
        for number, comparison in enumerate((*walk.others, *walk.by_notches)):
            laid = laid_in_size(nest, walk, comparison, told, size)
            # Between further sides only notches are compared: their lengths are told of against side 1.
            if not comparison.pairing.crossed and (laid.slipped or number < len(walk.others)):
                yield from _off_parts(nest, laid)


def _off_parts(nest: Nest, laid: Laid) -> Iterator[Off]:
    """The words stand on the longer side, or else on the further one, which is the side to be eased or gathered."""
    unit, ease_is_told = nest.pattern.unit, False
    for bay in laid.bays:
        if bay.told is None:
            continue
        longer = bay.difference > 0.0
        if not bay.full:
            yield from _both(laid, bay, bay.told, longer, f"{_mm(abs(bay.difference), unit)} longer", longer)
        elif laid.fullness:
            over = laid.fullness > 0.0
            words = f"{_mm(abs(laid.fullness), unit)} too {'much' if over else 'little'}"
            yield from _both(laid, bay, bay.told, over, "" if ease_is_told else words, True)
            ease_is_told = True
        else:
            over = bay.judged == "much"
            times = worded("× {ratio}", {"ratio": Ratio(bay.ratio)})
            yield from _both(laid, bay, bay.told, over, f"{times} {'full' if over else 'flat'}", True)


def _both(laid: Laid, bay: Bay, told: Graded, further: bool, words: str, on_further: bool) -> Iterator[Off]:
    """An interval on both sides; ``further``: the further side is the longer one; ``on_further``: it has the words."""
    start, stop = bay.interval.start, bay.interval.stop
    sides = (
        (laid.comparison.one, start.one, stop.one, not further, not on_further),
        (laid.comparison.side, start.other, stop.other, further, on_further),
    )
    for side, first, last, longer, has_words in sides:
        parts = [
            Off(laid.walk.id, *part, longer, told)
            for part in _parts(side, float(first[laid.size]), float(last[laid.size]), laid.size)
        ]
        if parts and has_words:
            most = max(range(len(parts)), key=lambda k: float(np.ptp(parts[k].arcs)))
            parts[most] = replace(parts[most], words=words)
        yield from parts


def _parts(side: SideWalk, start: float, stop: float, size: int) -> Iterator[tuple[str, str, Floats]]:
    """The pieces and lines that lie between two sewn distances (mm) from a side's start, with the positions on each."""
    seen: set[tuple[str, str, float, float]] = set()
    for stretch, begins in zip(side.stretches, side.starts, strict=True):
        low = max(start - float(begins[size]), 0.0)
        high = min(stop - float(begins[size]), float(stretch.length[size]))
        if not high - low > SAME:
            continue
        walked = np.linspace(low, high, max(2, int((high - low) / STEP)))
        arcs = np.array([stretch.arc_at(float(at), size) for at in walked])
        key = (stretch.graded.id, stretch.line.name, *np.sort(np.round(arcs[[0, -1]], 2)).tolist())
        if key not in seen:
            seen.add(key)
            yield stretch.graded.id, stretch.line.name, arcs


def _mm(value: float, unit: Unit) -> str:
    return worded("{length}", {"length": Length(value)}, unit)


def by_piece(parts: Iterator[Off]) -> Mapping[str, Sequence[Off]]:
    """The parts of every piece."""
    found: dict[str, list[Off]] = {}
    for part in parts:
        found.setdefault(part.piece, []).append(part)
    return found
