"""How finely the numbers of a drawing were kept, told from how far its lines lie beside what was drawn before."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

import numpy as np
from numpy.typing import NDArray

from notchwork.drawing import Drawing, Group, Stroke

Floats = NDArray[np.float64]

LEAST = 0.001
"""mm: what moves by no more has not moved."""
HALF_DIGITS = (0.005, 0.05)
"""mm: half of the last decimal of a mm that a program may have kept; coarser ones are told as changes."""
ROUNDED = 1.2
"""Half digits that a rounded coordinate may be off, once what a group is shifted by is rounded too."""
MOST = 0.5
"""The share of the groups, or of the lines, that rounding moves at least; a person moves fewer by so little."""


def fineness(drawing: Drawing, before: Drawing) -> float:
    """By how much (mm) a coordinate may differ from what was drawn ``before`` and still be the same.

    0.001 mm; or half the last digit that a program kept when it saved the drawing again. Such rounding, to so many decimals or
    to so many digits in all, moves lines of all pieces by a little, many or few as the numbers happen to be round already; a
    person moves lines of some pieces by more.
    """
    groups = list(_offsets(drawing, before))
    coarsest = ROUNDED * HALF_DIGITS[-1]
    lines = [float(off.max()) for group in groups for off in group]
    small = [off for off in lines if LEAST < off <= coarsest]
    touched = sum(any(LEAST < off.max() <= coarsest for off in group) for group in groups)
    if len(small) < MOST * len(lines) and (touched < 2 or touched < MOST * len(groups)):
        return LEAST
    # What a group is shifted by was rounded as well: two halves of a digit add up to one.
    most = max(small, default=0.0)
    return next((ROUNDED * half for half in HALF_DIGITS if most <= 2.0 * ROUNDED * half), coarsest)


def _offsets(drawing: Drawing, before: Drawing) -> Iterator[list[Floats]]:
    """For each group how far (mm) the coordinates of each line lie beside those of the one that says the same in the drawing
    before."""
    then = {group.name: _by_facts(group) for group in before.groups}
    for group in drawing.groups:
        known = then.get(group.name, {})
        steps = [
            (stroke.cubics - other.cubics).ravel()
            for facts, stroke in _by_facts(group).items()
            if (other := known.get(facts)) is not None and stroke.cubics.shape == other.cubics.shape
        ]
        if steps:
            # A piece that was laid elsewhere as a whole is where it was.
            every = np.concatenate(steps)
            shift = complex(np.median(every.real), np.median(every.imag))
            yield [np.maximum(np.abs((step - shift).real), np.abs((step - shift).imag)) for step in steps]


def _by_facts(group: Group) -> Mapping[object, Stroke]:
    """The lines of a group that are told apart by what is said of them."""
    found: dict[object, Stroke] = {}
    for stroke in group.strokes:
        if stroke.meaning is not None and len(stroke.cubics):
            found.setdefault((stroke.meaning, frozenset(stroke.facts.items())), stroke)
    return found
