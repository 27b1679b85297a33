"""Lines as short path data: no point more than can be seen, to a tenth of a px."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Complexes = NDArray[np.complex128]

SEEN = 0.15
"""px: a line that runs on more nearly straight than this is straight."""


def trail(points: Complexes, closed: bool = False, within: float = SEEN) -> str:
    """Path data of a line through points (m,) in px, true ``within`` so many px; nothing for fewer than two points."""
    if len(points) < 2:
        return ""
    kept = thinned(np.append(points, points[0]) if closed else points, within)
    x, y = np.rint(kept.real * 10).astype(int), np.rint(kept.imag * 10).astype(int)
    steps = [
        _pair(dx, dy) for dx, dy in zip(np.diff(x).tolist(), np.diff(y).tolist(), strict=True) if dx or dy
    ]
    if closed and len(steps) > 1:
        steps = steps[:-1]
    line = "".join(f" {step}" if step[0] != "-" else step for step in steps or ["0 0"]).removeprefix(" ")
    return f"M{_pair(int(x[0]), int(y[0]))}l{line}{'z' if closed else ''}"


def thinned(points: Complexes, within: float = SEEN) -> Complexes:
    """The points without those that lie on the line through the others (Ramer 1972, Douglas and Peucker 1973)."""
    keep = np.zeros(len(points), dtype=bool)
    keep[[0, -1]] = True
    open_runs = [(0, len(points) - 1)]
    while open_runs:
        first, last = open_runs.pop()
        if last - first < 2:
            continue
        inner = points[first + 1 : last] - points[first]
        chord = points[last] - points[first]
        along = (
            np.clip((inner * np.conj(chord)).real / abs(chord) ** 2, 0, 1) if chord else np.zeros(len(inner))
        )
        off = np.abs(inner - along * chord)
        furthest = int(np.argmax(off))
        if off[furthest] > within:
            middle = first + 1 + furthest
            keep[middle] = True
            open_runs += [(first, middle), (middle, last)]
    kept: Complexes = points[keep]
    return kept


def _pair(x: int, y: int) -> str:
    """Two numbers in tenths; a minus needs no space before it (SVG 2, section 9.3.9, the grammar for path data)."""
    return f"{_tenths(x)}{'' if y < 0 else ' '}{_tenths(y)}"


def _tenths(number: int) -> str:
    whole, tenth = divmod(abs(number), 10)
    figure = f"{whole}.{tenth}" if tenth and whole else f".{tenth}" if tenth else str(whole)
    return f"-{figure}" if number < 0 else figure
