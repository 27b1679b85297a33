"""Open lines put end to end until they close."""

from __future__ import annotations

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
    left = list(lines[1:])
    here = lines[0].end
    while True:
        home = abs(here - lines[0].start)
        best: tuple[float, int, bool] | None = None
        for k, line in enumerate(left):
            if line.closed:
                continue
            for turned, near in ((False, line.start), (True, line.end)):
                far = abs(near - here)
                # Ends that meet up to rounding are equal: the order in which they stand decides.
                if far <= tol and (best is None or far < best[0] - 1e-3):
                    best = (far, k, turned)
        if home <= tol and (best is None or home <= best[0] + 1e-3):
            return joined(way)
        if best is None:
            return None
        line = left.pop(best[1])
        way.append((line, best[2]))
        here = line.start if best[2] else line.end


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
