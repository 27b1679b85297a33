"""What stands above and below a strip: the pieces of a side with their lengths, each over its own stretch."""

from __future__ import annotations

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
    """The pieces of one of the two sides in walking order. Where a piece lies on both, its edges are named too."""
    other = comparison.side if side is comparison.one else comparison.one
    return [
        Part(
            _name(stretch, side, other),
            start := float(begins[size]),
            start + float(stretch.length[size]),
            stretch.line.by_tape,
        )
        for stretch, begins in zip(side.stretches, side.starts, strict=True)
    ]


def _name(stretch: Stretch, side: SideWalk, other: SideWalk) -> str:
    """The piece; with its edge where that is needed to tell it from another stretch, and its hand where that is too."""
    twins = [
        s for s in (*side.stretches, *other.stretches) if s is not stretch and s.graded is stretch.graded
    ]
    if not any(twin in other.stretches or twin.line is not stretch.line for twin in twins):
        return stretch.graded.name
    name = f"{stretch.graded.name} ({plain_name(stretch.line.name)})"
    alike = any(twin.line is stretch.line and twin in other.stretches for twin in twins)
    return f"{name}, mirrored" if alike and stretch.span.mirrored else name


def numbered(parts: Sequence[Part]) -> str:
    """What the numbers of the parts stand for: "1, 4 Panel · 2, 3 Gore"."""
    by_name: dict[str, list[int]] = {}
    for number, part in enumerate(parts, 1):
        by_name.setdefault(part.name, []).append(number)
    return " · ".join(f"{_runs(numbers)} {short(name)}" for name, numbers in by_name.items())


def _runs(numbers: Sequence[int]) -> str:
    """Numbers, those in a row as from the first to the last: "1–4, 6"."""
    runs = [[n for _, n in run] for _, run in groupby(enumerate(numbers), lambda pair: pair[1] - pair[0])]
    return ", ".join(f"{run[0]}–{run[-1]}" if len(run) > 2 else ", ".join(map(str, run)) for run in runs)
