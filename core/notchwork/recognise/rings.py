"""Open lines put end to end until they close."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from notchwork.geometry import reverse
from notchwork.recognise.placed import Line
from notchwork.recognise.shape import Complexes, Ints


@dataclass(frozen=True, eq=False)
class Ring:
    """Lines that follow each other all the way round: where each begins among the rows, and the widest gap (mm) closed."""

    cubics: Complexes
    sources: Ints
    lines: tuple[Line, ...]
    starts: tuple[int, ...]
    gap: float
    gap_at: complex


def ring(lines: Sequence[Line], tol: float) -> Ring | None:
    """A ring of the lines, from the first one on and in its direction; None where they do not close within tol (mm).

    Where several go on from one place, the line that stands next in the list is taken first. Lines that are not needed are
    left over.
    """
    if not lines:
        return None
    if lines[0].closed:
        return joined([(lines[0], False)])
    way = [(lines[0], False)]
    ends = _Ends(lines, tol)
    ends.take(0)
    here = lines[0].end
    while True:
        home = abs(here - lines[0].start)
        best: tuple[float, int, bool] | None = None
        for far, k, turned in ends.near(here):
            # Ends that meet up to rounding are equal: the order in which they stand decides.
            if best is None or far < best[0] - 1e-3:
                best = (far, k, turned)
        if home <= tol and (best is None or home <= best[0] + 1e-3):
            return joined(way)
        if best is None:
            return None
        ends.take(best[1])
        line = lines[best[1]]
        way.append((line, best[2]))
        here = line.start if best[2] else line.end


class _Ends:
    """The ends of open lines that are not taken yet, by the square of a grid in which they lie."""

    def __init__(self, lines: Sequence[Line], tol: float) -> None:
        self._tol = tol
        self._side = max(tol, 1e-6)
        self._taken = [line.closed for line in lines]
        self._cells: dict[tuple[int, int], list[tuple[int, bool, complex]]] = {}
        for k, line in enumerate(lines):
            for turned, z in ((False, line.start), (True, line.end)):
                self._cells.setdefault(self._cell(z), []).append((k, turned, z))

    def take(self, number: int) -> None:
        self._taken[number] = True

    def near(self, z: complex) -> list[tuple[float, int, bool]]:
        """How far (mm) each end within tol is, of which line, and whether it is that line's last; in the order of the lines."""
        across, up = self._cell(z)
        found = [
            (k, turned, abs(at - z))
            for x in (across - 1, across, across + 1)
            for y in (up - 1, up, up + 1)
            for k, turned, at in self._cells.get((x, y), ())
            if not self._taken[k] and abs(at - z) <= self._tol
        ]
        return [(far, k, turned) for k, turned, far in sorted(found)]

    def _cell(self, z: complex) -> tuple[int, int]:
        return math.floor(z.real / self._side), math.floor(z.imag / self._side)


def joined(way: Sequence[tuple[Line, bool]]) -> Ring:
    """Lines that follow each other, some walked backwards (True), as one closed line; gaps are closed by moving the ends."""
    runs = [reverse(line.cubics).copy() if turned else line.cubics.copy() for line, turned in way]
    gap, gap_at = 0.0, complex(runs[0][0, 0])
    for k, run in enumerate(runs):
        before = runs[k - 1]
        end, start = complex(before[-1, 3]), complex(run[0, 0])
        if end == start:
            continue
        if abs(start - end) > gap:
            gap, gap_at = abs(start - end), start
        meet = start if abs(start - end) < 1e-3 else (start + end) / 2
        _move_end(before, meet)
        _move_start(run, meet)
    sizes = [len(run) for run in runs]
    sources = np.repeat(np.array([line.number for line, _ in way], dtype=np.intp), sizes)
    starts = tuple(int(k) for k in np.cumsum([0, *sizes[:-1]]))
    return Ring(np.concatenate(runs), sources, tuple(line for line, _ in way), starts, gap, gap_at)


def _move_start(run: Complexes, z: complex) -> None:
    straight = run[0, 0] == run[0, 1] and run[0, 2] == run[0, 3]
    run[0, 1] = z if straight else run[0, 1] + z - run[0, 0]
    run[0, 0] = z


def _move_end(run: Complexes, z: complex) -> None:
    straight = run[-1, 0] == run[-1, 1] and run[-1, 2] == run[-1, 3]
    run[-1, 2] = z if straight else run[-1, 2] + z - run[-1, 3]
    run[-1, 3] = z
