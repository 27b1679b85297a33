"""Which sizes get a strip of their own: all of a few; of many those that are off, and one for each run that sews alike."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby

from notchwork.pictures.seam.laid import Laid
from notchwork.sewing import Nest

FOLDED = 5
"""From so many sizes on, those that sew alike share a strip."""


def strips(nest: Nest, laid: Sequence[Laid]) -> list[tuple[str, Laid]]:
    """The sizes to be drawn, in order, each with the label that stands at its left (none where there is one size)."""
    known = [one for one in laid if one.known]
    if len(nest.sizes) == 1:
        return [("", one) for one in known]
    if len(nest.sizes) < FOLDED:
        return [(str(nest.sizes[one.size]), one) for one in known]
    found: list[tuple[str, Laid]] = []
    for sews, run in groupby(known, lambda one: one.sews):
        alike = list(run)
        if not sews:
            found += [(str(nest.sizes[one.size]), one) for one in alike]
            continue
        shown = next((one for one in alike if one.size == nest.base), alike[0])
        first, last = (str(nest.sizes[one.size]) for one in (alike[0], alike[-1]))
        found.append((first if len(alike) == 1 else f"{first}–{last}", shown))
    return found
