"""Runs that go on into each other are drawn without lifting the pen."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np
from numpy.typing import NDArray

Complexes = NDArray[np.complex128]

NEAR = 0.03
"""mm: ends as near as this are one; a little more than a cut line may end beside its fold, and no wider than a step of 0.025 mm."""


def joined(runs: Sequence[Complexes]) -> Iterator[tuple[Complexes, bool]]:
    """Polylines made of the runs, each with whether it closes. Every run is in one of them, whole; gaps are not widened."""
    left = list(runs)
    while left:
        chain = [left.pop(0)]
        while not _closes(chain) and (found := _next(chain[-1][-1], left)) is not None:
            chain.append(found)
        while not _closes(chain) and (found := _next(chain[0][0], left)) is not None:
            chain.insert(0, found[::-1])
        closed = _closes(chain)
        line = np.concatenate(chain)
        if closed and line[0] != line[-1]:
            line = np.append(line, line[0])
        keep = np.concatenate([[True], line[1:] != line[:-1]])
        yield line[keep], closed


def _closes(chain: Sequence[Complexes]) -> bool:
    long = sum(len(run) for run in chain) > 2
    return long and abs(chain[-1][-1] - chain[0][0]) <= (NEAR if len(chain) > 1 else 0.0)


def _next(end: complex, left: list[Complexes]) -> Complexes | None:
    """The run that begins nearest to the end, taken out of those left and turned to begin there."""
    ends = np.array([(run[0], run[-1]) for run in left]).reshape(-1)
    if not len(ends):
        return None
    far = np.abs(ends - end)
    k = int(far.argmin())
    if far[k] > NEAR:
        return None
    run = left.pop(k // 2)
    return run if k % 2 == 0 else run[::-1]
