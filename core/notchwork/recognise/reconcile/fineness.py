"""How finely the numbers of a drawing were kept, told from the numbers themselves."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from notchwork.drawing import Drawing

LEAST = 0.001
"""mm: what moves by no more has not moved."""
MOST_DIGITS = 3
"""Decimals of a mm from which on rounding moves nothing by more than that."""
ENOUGH = 20
"""Fewer fine numbers than this say nothing of how they were kept."""
MOST = 0.5
"""Share of the fine numbers that must be gone: what was edited since may be fine again."""
ROUNDED = 1.2
"""Shares of half a digit that a rounded coordinate may be off, once what a group is shifted by is rounded too."""

Complexes = NDArray[np.complex128]
Floats = NDArray[np.float64]


def fineness(drawing: Drawing, before: Drawing) -> float:
    """By how much (mm) a coordinate may differ from what was drawn ``before`` and still be the same.

    0.001 mm; or half the last digit kept in the file, where numbers of more digits that were drawn before are gone: a
    program that saved the drawing again rounded them.
    """
    kept = min(_kept(now, then) for now, then in zip(_numbers(drawing), _numbers(before), strict=True))
    return LEAST if kept >= MOST_DIGITS else ROUNDED * 0.5 * 10.0**-kept


def _numbers(drawing: Drawing) -> Iterator[Floats]:
    """All coordinates without their signs: each group's own, and as placed. Which of them a file holds is its reader's affair."""
    for placed in (False, True):
        points = [
            (stroke.cubics + (group.shift if placed else 0j)).ravel()
            for group in drawing.groups
            for stroke in group.strokes
        ]
        z = np.concatenate([np.zeros(0, complex), *points])
        yield np.abs(np.concatenate([z.real, z.imag]))


def _kept(now: Floats, before: Floats) -> int:
    """How many decimals were kept, of numbers of the size that has fewest: programs round to so many decimals, or to so many
    digits in all."""
    kept = MOST_DIGITS
    for size in range(6):
        low, high = (0.0 if size == 0 else 10.0**size), 10.0 ** (size + 1)
        some, then = (numbers[(low <= numbers) & (numbers < high)] for numbers in (now, before))
        for digits in range(kept):
            fine = np.count_nonzero(_finer(then, digits))
            if fine >= ENOUGH and len(some) and np.mean(_finer(some, digits)) < MOST * fine / len(then):
                kept = digits
                break
    return kept


def _finer(numbers: Floats, digits: int) -> NDArray[np.bool_]:
    """Which numbers have more decimals than that."""
    scaled = numbers * 10.0**digits
    return np.abs(scaled - np.round(scaled)) > 1e-4
