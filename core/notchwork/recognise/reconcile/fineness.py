"""How finely the numbers of a drawing were kept, told from how far all its lines lie beside what was drawn before."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np
from numpy.typing import NDArray

from notchwork.drawing import Drawing, Group, Stroke

Complexes = NDArray[np.complex128]
Floats = NDArray[np.float64]

LEAST = 0.001
"""mm: what moves by no more has not moved."""
HALF_DIGITS = (0.005, 0.05)
"""mm: half of the last decimal of a mm that a program may have kept."""
MANY = 0.2
"""The share of the coordinates that rounding moves at least; a person moves fewer."""
MOST = 0.75
"""The share of those that must lie within half a digit: what was edited since lies elsewhere."""
ENOUGH = 20
"""Fewer coordinates than this say nothing of how numbers were kept."""
ROUNDED = 1.2
"""Half digits that a rounded coordinate may be off, once what a group is shifted by is rounded too."""


def fineness(drawing: Drawing, before: Drawing) -> float:
    """By how much (mm) a coordinate may differ from what was drawn ``before`` and still be the same.

    0.001 mm; or half the last digit that a program kept when it saved the drawing again. Such rounding moves all lines a
    little, a person moves few of them by more. Programs round to so many decimals or to so many digits in all: then the
    largest numbers are the coarsest.
    """
    off, size = _offsets(drawing, before)
    decade = np.floor(np.log10(np.maximum(size, 1.0)))
    return max((_needed(off[decade == k]) for k in np.unique(decade)), default=LEAST)


def _needed(off: Floats) -> float:
    """The half digit within which most of the coordinates lie that are off; 0.001 mm where that is no rounding."""
    moved = off[off > LEAST]
    if len(moved) >= max(ENOUGH, MANY * len(off)):
        for half in HALF_DIGITS:
            if np.mean(moved <= ROUNDED * half) >= MOST:
                return ROUNDED * half
    return LEAST


def _offsets(drawing: Drawing, before: Drawing) -> tuple[Floats, Floats]:
    """How far (mm) each coordinate lies beside that of the line that says the same in the drawing before, and how large it is
    on the sheet."""
    then = {group.name: _by_facts(group) for group in before.groups}
    off: list[Complexes] = [np.zeros(0, complex)]
    placed: list[Complexes] = [np.zeros(0, complex)]
    for group in drawing.groups:
        known = then.get(group.name, {})
        pairs = [
            (stroke.cubics.ravel(), other.cubics.ravel())
            for facts, stroke in _by_facts(group).items()
            if (other := known.get(facts)) is not None and stroke.cubics.shape == other.cubics.shape
        ]
        if pairs:
            now, was = (np.concatenate(column) for column in zip(*pairs, strict=True))
            step = now - was
            # A piece that was laid elsewhere as a whole is where it was.
            off.append(step - complex(np.median(step.real), np.median(step.imag)))
            placed.append(now + group.shift)
    apart, at = np.concatenate(off), np.concatenate(placed)
    return np.abs(np.concatenate([apart.real, apart.imag])), np.abs(np.concatenate([at.real, at.imag]))


def _by_facts(group: Group) -> Mapping[object, Stroke]:
    """The lines of a group that are told apart by what is said of them."""
    found: dict[object, Stroke] = {}
    for stroke in group.strokes:
        if stroke.meaning is not None and len(stroke.cubics):
            found.setdefault((stroke.meaning, frozenset(stroke.facts.items())), stroke)
    return found
