"""How areas lie to each other: one in the other, beside each other along a common stretch, or across each other."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np

from notchwork.geometry import ArcTable, points, to_chords
from notchwork.recognise.areas import Area
from notchwork.recognise.shape import Complexes

SPACING = 4.0
"""mm between the places that are looked at on a rim, or less: there are at least FEWEST on each."""
FEWEST, MOST = 48, 240


@dataclass(frozen=True, slots=True)
class Relations:
    """Of areas by their numbers. ``within``: those that an area lies in; ``beside``: mm of common stretch with those it abuts;
    ``across``: those it overlaps in part; ``same``: an earlier one with the same rim."""

    within: dict[int, set[int]] = field(default_factory=dict)
    beside: dict[int, dict[int, float]] = field(default_factory=dict)
    across: dict[int, set[int]] = field(default_factory=dict)
    same: dict[int, int] = field(default_factory=dict)


def relations(areas: Sequence[Area], tol: float) -> Relations:
    """How the areas lie to each other; places within tol (mm) of a rim count as on it."""
    found = Relations(
        {k: set() for k in range(len(areas))},
        {k: {} for k in range(len(areas))},
        {k: set() for k in range(len(areas))},
    )
    rims = [_rim(area) for area in areas]
    for i, j in _touching(areas, tol):
        a_in, a_out, a_on = _where(rims[i], areas[j], tol)
        b_in, b_out, b_on = _where(rims[j], areas[i], tol)
        if not (a_in or a_out or b_in or b_out):
            found.same.setdefault(j, i)
        elif not a_out and not b_in:
            found.within[i].add(j)
        elif not b_out and not a_in:
            found.within[j].add(i)
        elif not a_in and not b_in:
            common = min(a_on * areas[i].around, b_on * areas[j].around)
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


def _touching(areas: Sequence[Area], tol: float) -> list[tuple[int, int]]:
    if not areas:
        return []
    low, high = (np.array([area.box[k] for area in areas]) for k in (0, 1))
    pairs: list[tuple[int, int]] = []
    for i in range(len(areas) - 1):
        near = (
            (low[i + 1 :].real <= high[i].real + tol)
            & (low[i].real <= high[i + 1 :].real + tol)
            & (low[i + 1 :].imag <= high[i].imag + tol)
            & (low[i].imag <= high[i + 1 :].imag + tol)
        )
        pairs += [(i, i + 1 + int(j)) for j in np.flatnonzero(near)]
    return pairs


def _rim(area: Area) -> Complexes:
    """Places spread evenly along a rim."""
    table = ArcTable(area.cubics)
    running = np.concatenate([[0.0], np.cumsum(table.lengths)])
    count = int(np.clip(running[-1] / SPACING, FEWEST, MOST))
    asked = running[-1] * (np.arange(count) + 0.5) / count
    row = np.clip(np.searchsorted(running, asked, side="right") - 1, 0, len(area.cubics) - 1)
    return points(area.cubics, row, table.parameters(row, asked - running[row]))


def _where(rim: Complexes, other: Area, tol: float) -> tuple[bool, bool, float]:
    """Whether any place lies inside the other area, any outside, and the share that lies on its rim."""
    ring = other.polyline
    on = to_chords(rim, ring, np.roll(ring, -1)).min(axis=1) <= tol
    within = other.holds(rim)
    return bool((within & ~on).any()), bool((~within & ~on).any()), float(on.mean())
