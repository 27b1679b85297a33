"""How areas lie to each other: one in the other, beside each other along a common stretch, or across each other."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

import numpy as np

from notchwork.geometry import to_chords
from notchwork.recognise.areas import Area
from notchwork.recognise.bounds import check_meetings
from notchwork.recognise.shape import Complexes
from notchwork.recognise.widths import spread

SPACING = 4.0
"""mm between the places that are looked at on a rim, or less: there are at least FEWEST on each."""
FEWEST, MOST = 48, 240
COPIED = 1e-6
"""mm: rims whose rows agree to this are copies."""


@dataclass(frozen=True, slots=True)
class Relations:
    """Of areas by their numbers. ``within``: those that an area lies in; ``beside``: mm of common stretch with those it abuts;
    ``across``: those it overlaps in part; ``same``: an earlier one with the same rim."""

    within: dict[int, set[int]] = field(default_factory=dict)
    beside: dict[int, dict[int, float]] = field(default_factory=dict)
    across: dict[int, set[int]] = field(default_factory=dict)
    same: dict[int, int] = field(default_factory=dict)


def relations(areas: Sequence[Area], tol: float) -> Relations:
    """How the areas lie to each other; places within tol (mm) of a rim count as on it. Raises TooMuchDrawn.

    Copies of an earlier area are the same as that, and nothing else is said of them.
    """
    found = Relations(
        {k: set() for k in range(len(areas))},
        {k: {} for k in range(len(areas))},
        {k: set() for k in range(len(areas))},
    )
    found.same.update(_copies(areas))
    pairs = _touching(areas, [k for k in range(len(areas)) if k not in found.same], tol)
    seen = _seen(areas, pairs, tol)
    for i, j in pairs:
        a, b = seen[i, j], seen[j, i]
        if not (a.inside or a.outside or b.inside or b.outside):
            found.same.setdefault(j, i)
        elif not a.outside and not b.inside:
            found.within[i].add(j)
        elif not b.outside and not a.inside:
            found.within[j].add(i)
        elif not a.inside and not b.inside:
            common = min(a.on * areas[i].around, b.on * areas[j].around)
            if common > 0.0:
                found.beside[i][j] = found.beside[j][i] = common
        else:
            found.across[i].add(j)
            found.across[j].add(i)
    return found


def without_same(lie: Relations, count: int) -> tuple[list[int], Relations]:
    """Which areas are left once each rim counts once, and how those lie, numbered anew."""
    kept = [k for k in range(count) if k not in lie.same]
    new = {old: k for k, old in enumerate(kept)}
    return kept, Relations(
        {new[k]: {new[j] for j in lie.within[k] if j in new} for k in kept},
        {new[k]: {new[j]: common for j, common in lie.beside[k].items() if j in new} for k in kept},
        {new[k]: {new[j] for j in lie.across[k] if j in new} for k in kept},
    )


def _copies(areas: Sequence[Area]) -> Iterator[tuple[int, int]]:
    """Areas with the very rim of an earlier one, and which that is: copied drawings may hold hundreds."""
    first: dict[bytes, int] = {}
    for k, area in enumerate(areas):
        # From its lowest left corner on, since copies may begin elsewhere.
        steps = np.round(area.cubics / COPIED)
        start = int(np.lexsort((steps[:, 0].real, steps[:, 0].imag))[0])
        # The sum makes -0 a 0.
        earlier = first.setdefault((np.roll(steps, -start, axis=0) + 0.0).tobytes(), k)
        if earlier != k:
            yield k, earlier


def _touching(areas: Sequence[Area], some: Sequence[int], tol: float) -> list[tuple[int, int]]:
    """Pairs of some of the areas whose boxes touch, the earlier first."""
    if not some:
        return []
    numbers = np.array(some)
    low, high = (np.array([areas[k].box[end] for k in some]) for end in (0, 1))
    pairs: list[tuple[int, int]] = []
    for i in range(len(some) - 1):
        near = (
            (low[i + 1 :].real <= high[i].real + tol)
            & (low[i].real <= high[i + 1 :].real + tol)
            & (low[i + 1 :].imag <= high[i].imag + tol)
            & (low[i].imag <= high[i + 1 :].imag + tol)
        )
        pairs += [(some[i], int(k)) for k in numbers[i + 1 :][near]]
        check_meetings(len(pairs), 0.0)
    return pairs


def _rim(area: Area) -> Complexes:
    """Places spread evenly along a rim."""
    count = int(np.clip(area.around / SPACING, FEWEST, MOST))
    return spread(area.cubics, (np.arange(count) + 0.5) / count)


class _Where(NamedTuple):
    """Whether any place of a rim lies inside another area, any outside, and the share that lies on its rim."""

    inside: bool
    outside: bool
    on: float


def _seen(
    areas: Sequence[Area], pairs: Sequence[tuple[int, int]], tol: float
) -> dict[tuple[int, int], _Where]:
    """For both areas of each pair, where the rim of the first lies in the second."""
    rims = [_rim(area) for area in areas]
    asking: dict[int, list[int]] = {}
    for i, j in pairs:
        asking.setdefault(j, []).append(i)
        asking.setdefault(i, []).append(j)
    lines = {k: len(areas[k].polyline) for k in asking}
    check_meetings(
        len(pairs),
        float(sum(lines[other] * sum(len(rims[k]) for k in some) for other, some in asking.items())),
    )
    found: dict[tuple[int, int], _Where] = {}
    for other, some in asking.items():
        ring = areas[other].polyline
        z = np.concatenate([rims[k] for k in some])
        on = to_chords(z, ring, np.roll(ring, -1)).min(axis=1) <= tol
        within = areas[other].holds(z)
        starts = np.cumsum([0, *(len(rims[k]) for k in some[:-1])])
        inside = np.logical_or.reduceat(within & ~on, starts)
        outside = np.logical_or.reduceat(~within & ~on, starts)
        share = np.add.reduceat(on.astype(float), starts) / [len(rims[k]) for k in some]
        for k, *where in zip(some, inside.tolist(), outside.tolist(), share.tolist(), strict=True):
            found[k, other] = _Where(*where)
    return found
