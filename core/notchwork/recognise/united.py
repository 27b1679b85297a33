"""Areas that abut put together as one, with the lines between them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import numpy as np

from notchwork.geometry import faces, nearest, net, points, united
from notchwork.recognise.areas import Area, point_in
from notchwork.recognise.shape import Complexes, Ints


def put_together(areas: Sequence[Area], tol: float) -> Area | None:
    """One area that covers what several cover that abut; None where their rims do not enclose one.

    Stretches that two of them share become lines inside.
    """
    if len(areas) == 1:
        return areas[0]
    made = net([area.cubics for area in areas], [True] * len(areas), tol)
    found = faces(made)
    middles = np.array([point_in(face) for face in found])
    inside = np.logical_or.reduce([area.holds(middles) for area in areas])
    covered = [face for face, kept in zip(found, inside, strict=True) if kept]
    if not covered:
        return None
    rim = max(united(made, covered), key=lambda face: face.area)
    largest = max(areas, key=lambda area: area.size)
    steps = {step for face in covered for step in face.steps}
    inner = [step // 2 for step in sorted(steps) if step % 2 == 0 and step ^ 1 in steps]
    return Area(
        rim.cubics,
        sources_of(rim.cubics, areas),
        frozenset().union(*(area.lines for area in areas)),
        largest.within,
        largest.look,
        tuple(dict.fromkeys(name for area in areas for name in area.names)),
        (),
        (*(seam for area in areas for seam in area.seams), *(made.arcs[arc].cubics for arc in inner)),
    )


def sources_of(rim: Complexes, areas: Iterable[Area]) -> Ints:
    """For each row of a rim the stroke of the nearest rim it was made from."""
    some = list(areas)
    cubics = np.concatenate([area.cubics for area in some])
    numbers = np.concatenate([area.sources for area in some])
    middles = points(rim, np.arange(len(rim)), np.full(len(rim), 0.5))
    return np.asarray(numbers[nearest(cubics, middles).row], dtype=np.intp)
