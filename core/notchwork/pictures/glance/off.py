"""What does not fit in a size: the seams whose letter is filled, and the intervals that are off, on every edge concerned.

What is off is decided by the verdict alone; here it is only found again on the walks, by its amount.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from notchwork.checks import Graded, Verdict
from notchwork.findings import Length, Ratio, Severity, worded
from notchwork.model import Unit
from notchwork.sewing import Comparison, Interval, Misfit, Nest, SideWalk, Walk, misfit
from notchwork.sewing.pieces.lines import Floats
from notchwork.sewing.walks.fit import NOTHING

SAME = 1e-6
"""What is found again differs by no more."""
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
        if speaks(graded, size)
        for place in graded.places
        if place.seam is not None
    )


def off_parts(nest: Nest, verdict: Verdict, size: int) -> Iterator[Off]:
    """Every part of an interval that is off in a size.

    A seam that runs the wrong way, or whose stations cross, has none: its intervals mean nothing.
    """
    for ident, walk in nest.walks.items():
        told = [
            graded
            for graded in verdict.at_least(Severity.WARNING)
            if any(place.seam == ident for place in graded.places) and speaks(graded, nest.sizes[size])
        ]
        if told and ident not in nest.wrong_way:
            for comparison in walk.others:
                yield from _lengths(nest, walk, comparison, told, size, ("length", "slipped"))
                yield from _fullness(nest, walk, comparison, told, size)
            for comparison in walk.by_notches:
                yield from _lengths(nest, walk, comparison, told, size, ("slipped",))


def speaks(graded: Graded, size: str | None) -> bool:
    """Whether a finding holds at warning or above in a size; one without rows holds in all."""
    return not graded.rows or any(
        row.severity >= Severity.WARNING and row.row.size in (size, None) for row in graded.rows
    )


def _lengths(
    nest: Nest, walk: Walk, comparison: Comparison, told: Sequence[Graded], size: int, kinds: Sequence[str]
) -> Iterator[Off]:
    """The intervals that are to be equal and are not."""
    off = misfit(nest, walk, comparison)
    for kind in kinds if not comparison.pairing.crossed else ():
        teller = _teller(float(getattr(off, kind)[size]), "mm", told, nest.sizes[size])
        if teller is None:
            continue
        for interval in _unequal(off, _fine(teller), size):
            by = float(interval.difference[size])
            words = f"{_mm(abs(by), nest.pattern.unit)} longer"
            yield from _both(walk, comparison, interval, teller, by > 0, words, True, size)


def _fullness(
    nest: Nest, walk: Walk, comparison: Comparison, told: Sequence[Graded], size: int
) -> Iterator[Off]:
    """The intervals whose ease, gathers or stretch are not as is wanted."""
    off = misfit(nest, walk, comparison)
    wanted = comparison.wanted
    if wanted is None or comparison.pairing.crossed:
        return
    by = float(off.fullness[size])
    if (teller := _teller(by, "mm", told, nest.sizes[size])) is not None:
        words = f"{_mm(abs(by), nest.pattern.unit)} too {'much' if by > 0 else 'little'}"
        for number, interval in enumerate(comparison.full):
            yield from _both(walk, comparison, interval, teller, by > 0, "" if number else words, False, size)
    teller = _teller(float(off.ratio[size]), "percent", told, nest.sizes[size])
    if teller is None:
        return
    for interval in comparison.full:
        if float(wanted.off(interval.ratio)[size]) > _fine(teller):
            over = bool(interval.ratio[size] > wanted.most[size])
            times = worded("× {ratio}", {"ratio": Ratio(float(interval.ratio[size]))})
            words = f"{times} {'full' if over else 'flat'}"
            yield from _both(walk, comparison, interval, teller, over, words, False, size)


def _teller(amount: float, unit: str, told: Sequence[Graded], size: str | None) -> Graded | None:
    """The finding that tells of this amount; None where none does."""
    for graded in told:
        if graded.tolerance is None or graded.tolerance.unit != unit or not amount:
            continue
        if any(
            row.row.size == size
            and row.severity >= Severity.WARNING
            and abs(abs(row.row.off) - abs(amount)) <= SAME
            for row in graded.rows
        ):
            return graded
    return None


def _fine(teller: Graded) -> float:
    return (teller.tolerance.fine if teller.tolerance is not None else None) or 0.0


def _unequal(off: Misfit, fine: float, size: int) -> list[Interval]:
    """The plain intervals that are off; where only their sum is, every one that differs at all."""
    plain = [
        (interval, abs(by))
        for interval in off.comparison.intervals
        if not interval.full
        and np.isfinite(by := float(interval.difference[size]))
        and not (by and abs(by - float(off.levelled[size])) <= SAME)
    ]
    beyond = [interval for interval, by in plain if by > fine + SAME]
    return beyond or [interval for interval, by in plain if by >= NOTHING]


def _both(
    walk: Walk,
    comparison: Comparison,
    interval: Interval,
    teller: Graded,
    further: bool,
    words: str,
    on_longer: bool,
    size: int,
) -> Iterator[Off]:
    """An interval on both sides; ``further``: the further side is the longer one.

    The words stand on the longer side, or else on the further one, which is the side to be eased or gathered.
    """
    sides = (
        (comparison.one, interval.start.one, interval.stop.one, not further),
        (comparison.side, interval.start.other, interval.stop.other, further),
    )
    for number, (side, start, stop, longer) in enumerate(sides):
        parts = [
            Off(walk.id, *part, longer, teller)
            for part in _parts(side, float(start[size]), float(stop[size]), size)
        ]
        if parts and (longer if on_longer else number == 1):
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
