"""What stands above and below a strip: the pieces of a side with their lengths, each over its own stretch."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from itertools import groupby

from notchwork.findings import plain_name
from notchwork.pictures.lettering import short
from notchwork.sewing import Comparison, SideWalk, Stretch
from notchwork.values import frozen


@frozen
class Part:
    """What one piece has of a side: from where to where, as sewn distances (mm) from the side's start."""

    name: str
    start: float
    stop: float
    by_tape: bool

    @property
    def length(self) -> float:
        return self.stop - self.start


def parts_of(comparison: Comparison, side: SideWalk, size: int) -> list[Part]:
    """The pieces of one of the two sides in walking order. Where a piece lies on both, its edges are named too.

    What follows itself is one part; copies of it are counted.
    """
    other = comparison.side if side is comparison.one else comparison.one
    across = frozenset(stretch.line.key for stretch in other.stretches)
    named = [(_name(stretch, across), stretch) for stretch in side.stretches]
    ends = [*(float(begins[size]) for begins in side.starts), float(side.length[size])]
    found, first = [], 0
    for name, run in groupby(named, lambda pair: pair[0]):
        stretches = [stretch for _, stretch in run]
        copies = max(Counter((s.line.name, s.span.mirrored) for s in stretches).values())
        stop = first + len(stretches)
        by_tape = any(s.line.by_tape for s in stretches)
        found.append(Part(f"{copies} × {name}" if copies > 1 else name, ends[first], ends[stop], by_tape))
        first = stop
    return found


def _name(stretch: Stretch, across: frozenset[tuple[str, str]]) -> str:
    """The piece; with its edge where the piece lies on both sides, and with its hand where that edge does."""
    piece, line = stretch.line.key
    name = short(stretch.graded.name)
    if all(piece != other for other, _ in across):
        return name
    name = f"{name} ({short(plain_name(line))})"
    return f"{name}, mirrored" if stretch.span.mirrored and (piece, line) in across else name


def numbered(parts: Sequence[Part]) -> str:
    """What the numbers of the parts stand for: "1, 4 Panel · 2, 3 Gore"."""
    by_name: dict[str, list[int]] = {}
    for number, part in enumerate(parts, 1):
        by_name.setdefault(part.name, []).append(number)
    return " · ".join(f"{_runs(numbers)} {name}" for name, numbers in by_name.items())


def _runs(numbers: Sequence[int]) -> str:
    """Numbers, those in a row as from the first to the last: "1–4, 6"."""
    runs = [[n for _, n in run] for _, run in groupby(enumerate(numbers), lambda pair: pair[1] - pair[0])]
    return ", ".join(f"{run[0]}–{run[-1]}" if len(run) > 2 else ", ".join(map(str, run)) for run in runs)
