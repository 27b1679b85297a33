"""The data of paths as runs of cubics: all paths of a drawing at once, for segment by segment takes far longer.

Source: SVG 2, chapter 9. A path with a fault is read up to it, as the standard demands (9.5.2), and the fault is told.
"""

from __future__ import annotations

from array import array
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from notchwork_plugins.svg.arcs import arc
from notchwork_plugins.svg.grammar import ARITY, commands, sound_part
from notchwork_plugins.svg.numbers import MOST, Malformed

Complexes = NDArray[np.complex128]
Floats = NDArray[np.float64]
Ints = NDArray[np.intp]
Bools = NDArray[np.bool_]

_M, _Z, _H, _V, _C, _S, _Q, _T, _A = b"MZHVCSQTA"
_SMALL = 0x20
"""The bit that tells a small letter, which is a relative command, from a capital."""

_ARITY = np.zeros(128, np.intp)
for _letter, _count in ARITY.items():
    _ARITY[ord(_letter)] = _count


MOST_CUBICS = 600_000


class TooMany(Exception):
    """The paths have more cubics than a drawing of pieces has."""


class Run(NamedTuple):
    """Rows of cubics that follow each other. ``closed``: the path says that it closes."""

    start: int
    stop: int
    closed: bool


class Paths:
    """Paths as they are met, each by its number, and their cubics (n, 4) once all are there, each in its own units."""

    def __init__(self) -> None:
        self._letters: list[str] = []
        self._counts: list[int] = []
        self._numbers = array("d")
        self._firsts: list[int] = []
        self._units: list[float] = []

    @property
    def size(self) -> int:
        """How many numbers there are."""
        return len(self._numbers)

    def add(self, data: str, unit: float) -> Malformed | None:
        """The next path, whose unit is that many mm; gives why and where reading it ended early."""
        sound, fault = sound_part(data)
        letters, counts, numbers = commands(sound)
        self._firsts.append(len(self._letters))
        self._units.append(unit)
        self._letters += letters
        self._counts += counts
        self._numbers += numbers
        return fault

    def cubics(self) -> tuple[Complexes, list[list[Run]]]:
        """All cubics, and the runs of each path.

        A move that nothing follows gives no run. A closing line is a cubic of its own where it has a length. The cubics
        of a path with a number beyond all bounds are not finite. Raises TooMany.
        """
        if not self._letters:
            return np.empty((0, 4), np.complex128), [[] for _ in self._firsts]
        return _drawn(_segments(self._letters, self._counts, self._numbers, self._firsts), self._units)


@dataclass(slots=True)
class _Segments:
    """One of each for every segment: its kind, whether it is relative, the path it is of, where its numbers begin."""

    kind: NDArray[np.uint8]
    relative: Bools
    path: Ints
    offset: Ints
    arity: Ints
    begins: Bools
    """A subpath begins with it: by a move, or because it follows a closing."""
    opens: Bools
    """A path begins with it."""
    numbers: Floats
    lost: Ints
    """Paths that have a number beyond all bounds."""

    def pair(self, which: Ints, at: int) -> Complexes:
        """The pair of numbers that begins at a place among those of each segment."""
        where = self.offset[which] + at
        pairs: Complexes = self.numbers[where] + 1j * self.numbers[where + 1]
        return pairs


def _segments(letters: list[str], counts: list[int], numbers: array[float], firsts: list[int]) -> _Segments:
    letter = np.frombuffer("".join(letters).encode(), np.uint8)
    count = np.array(counts, np.intp)
    arity = _ARITY[letter]
    sets = np.where(arity > 0, count // np.maximum(arity, 1), 1)
    if sets.sum() > MOST_CUBICS:
        raise TooMany
    command = np.repeat(np.arange(len(letter)), sets)
    within = np.arange(len(command)) - np.repeat(np.cumsum(sets) - sets, sets)
    path_of_command = np.searchsorted(np.array(firsts), np.arange(len(letter)), side="right") - 1
    values = np.array(numbers)
    number_starts = np.cumsum(count) - count
    large = np.abs(values) > MOST
    lost = path_of_command[np.searchsorted(number_starts, np.flatnonzero(large), side="right") - 1]
    values[large] = 0.0
    kind = letter[command] & ~np.uint8(_SMALL)
    # Further points of a move are lines.
    kind[(kind == _M) & (within > 0)] = ord("L")
    path = path_of_command[command]
    follows_closing = np.zeros(len(kind), bool)
    follows_closing[1:] = kind[:-1] == _Z
    opens = np.zeros(len(kind), bool)
    opens[np.flatnonzero(np.diff(path, prepend=-1))] = True
    return _Segments(
        kind,
        (letter[command] & _SMALL) > 0,
        path,
        (number_starts[command] + within * arity[command]),
        arity[command],
        (kind == _M) | follows_closing,
        opens,
        np.append(values, (0.0, 0.0)),
        np.unique(lost),
    )


def _along(seg: _Segments, value: Floats, absolute: Bools) -> tuple[Floats, Bools]:
    """Where segments end on one axis, and whether that counts from where the subpath starts."""
    forth = np.where(absolute | (seg.kind == _M) | (seg.kind == _Z), 0.0, value)
    total = np.cumsum(forth)
    anchors = absolute & (seg.kind != _M)
    last = np.maximum.accumulate(np.where(anchors | seg.begins, np.arange(len(value)), 0))
    fixed = anchors[last]
    before = total[last] - np.where(fixed, 0.0, forth[last])
    return total - before + np.where(fixed, value[last], 0.0), ~fixed


def _ends(seg: _Segments) -> tuple[Complexes, Complexes]:
    """Where every segment ends, and where the subpath that it is in starts."""
    n = len(seg.kind)
    where = seg.offset + np.maximum(seg.arity - 2, 0)
    x, y = seg.numbers[where], seg.numbers[where + (seg.arity > 1)]
    across, down = seg.kind == _H, seg.kind == _V
    u, u_counts = _along(seg, np.where(down, 0.0, x), ~seg.relative & ~down & (seg.kind != _Z))
    v, v_counts = _along(seg, np.where(across, 0.0, y), ~seg.relative & ~across & (seg.kind != _Z))
    firsts = np.flatnonzero(seg.begins)
    subpath = np.cumsum(seg.begins) - 1
    is_move = seg.kind[firsts] == _M
    starts = np.where(is_move, x[firsts] + 1j * y[firsts], 0j)
    # A subpath without a point of its own depends on the one before it; these are few.
    for j in np.flatnonzero(~is_move | (seg.relative[firsts] & ~seg.opens[firsts])):
        last = firsts[j] - 1
        ended = starts[j - 1]
        if seg.kind[last] != _Z:
            ended = complex(u[last] + ended.real * u_counts[last], v[last] + ended.imag * v_counts[last])
        starts[j] += ended
    start = starts[subpath]
    ends = np.empty(n, np.complex128)
    ends.real = u + np.where(u_counts, start.real, 0.0)
    ends.imag = v + np.where(v_counts, start.imag, 0.0)
    closing = seg.kind == _Z
    ends[closing] = start[closing]
    return ends, start


def _drawn(seg: _Segments, units: list[float]) -> tuple[Complexes, list[list[Run]]]:
    end, start = _ends(seg)
    begin = np.roll(end, 1)
    begin[seg.begins] = start[seg.begins]
    rows = np.stack([begin, begin, end, end], axis=1)
    base = np.where(seg.relative, begin, 0j)
    which = np.flatnonzero(seg.kind == _C)
    rows[which, 1] = seg.pair(which, 0) + base[which]
    rows[which, 2] = seg.pair(which, 2) + base[which]
    which = np.flatnonzero(seg.kind == _S)
    rows[which, 2] = seg.pair(which, 0) + base[which]
    smooth = which[np.isin(seg.kind[which - 1], (_C, _S))]
    rows[smooth, 1] = 2 * begin[smooth] - rows[smooth - 1, 2]
    _quadratics(seg, rows, base)
    counts = np.where((seg.kind == _M) | ((seg.kind == _Z) & (begin == end)), 0, 1)
    arcs: dict[int, Complexes] = {}
    total = int(counts.sum())
    for k in np.flatnonzero(seg.kind == _A).tolist():
        arcs[k] = _arc(seg, k, rows[k], units[seg.path[k]])
        counts[k] = len(arcs[k])
        total += len(arcs[k])
        if total > MOST_CUBICS:
            raise TooMany
    stops = np.cumsum(counts)
    cubics = np.repeat(rows, counts, axis=0)
    for k, points in arcs.items():
        cubics[stops[k] - counts[k] : stops[k]] = points
    if len(seg.lost):
        cubics[np.isin(np.repeat(seg.path, counts), seg.lost)] = complex("nan")
    return cubics, _runs(seg, stops, len(units))


def _quadratics(seg: _Segments, rows: Complexes, base: Complexes) -> None:
    handle = rows[:, 0].copy()
    which = np.flatnonzero(seg.kind == _Q)
    handle[which] = seg.pair(which, 0) + base[which]
    # Each smooth one mirrors the handle before it, one after another.
    for k in np.flatnonzero(seg.kind == _T):
        if seg.kind[k - 1] in (_Q, _T):
            handle[k] = 2 * rows[k, 0] - handle[k - 1]
    which = np.flatnonzero((seg.kind == _Q) | (seg.kind == _T))
    rows[which, 1] = (rows[which, 0] + 2 * handle[which]) / 3
    rows[which, 2] = (rows[which, 3] + 2 * handle[which]) / 3


def _arc(seg: _Segments, k: int, row: Complexes, unit: float) -> Complexes:
    rx, ry, degrees, large, sweep = seg.numbers[seg.offset[k] : seg.offset[k] + 5].tolist()
    return arc(complex(row[0]), complex(row[3]), complex(rx, ry), degrees, large == 1.0, sweep == 1.0, unit)


def _runs(seg: _Segments, stops: Ints, paths: int) -> list[list[Run]]:
    """The runs of each path: its subpaths that have any cubic."""
    runs: list[list[Run]] = [[] for _ in range(paths)]
    firsts = np.flatnonzero(seg.begins)
    lasts = np.append(firsts[1:], len(seg.kind)) - 1
    row_starts = np.where(firsts > 0, stops[firsts - 1], 0)
    closed = seg.kind[lasts] == _Z
    for path, start, stop, closes in zip(
        seg.path[firsts].tolist(), row_starts.tolist(), stops[lasts].tolist(), closed.tolist(), strict=True
    ):
        if stop > start:
            runs[path].append(Run(start, stop, closes))
    return runs
