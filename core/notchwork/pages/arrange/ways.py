"""How a piece may be turned, and whether it fits a page so."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np

from notchwork.geometry.cubics import Complexes, Floats
from notchwork.pages.arrange.shape import Shape
from notchwork.pages.paper import Turning

QUARTERS = (1 + 0j, 1j, -1 + 0j, -1j)
CLOSE = 1e-6
"""mm: rounding makes no piece too large."""
_SMALLER = 0.97
"""A slanting turn must need less than this share of the area that quarter turns need: pieces as drawn are read more easily."""


def fits(shape: Shape, wide: float, tall: float, turn: Turning = "free") -> bool:
    """Whether a piece fits a page of wide x tall mm whole, at a turn that is allowed."""
    return not shape.rings or bool(whole_ways(shape, wide, tall, turn))


def whole_ways(shape: Shape, wide: float, tall: float, turn: Turning) -> tuple[complex, ...]:
    """Turns at which a piece fits a page whole, the ones to prefer first; none if there is none."""
    z = hull(shape.points)
    straight = [way for way in QUARTERS[: 1 if turn == "drawn" else 4] if _fits(way * z, wide, tall)]
    if turn != "free":
        return tuple(straight)
    angles = np.exp(1j * _angles(z, wide, tall))
    slanting = [complex(way) for way in angles if _fits(way * z, wide, tall)]
    if not slanting:
        return tuple(straight)
    best = min(slanting, key=lambda way: round(_box(way * z), 3))
    if straight and _box(best * z) > _SMALLER * _box(z):
        return tuple(straight)
    return (*straight, *(way for quarter in QUARTERS if _fits((way := quarter * best) * z, wide, tall)))


def hull(z: Complexes) -> Complexes:
    """The corners of the smallest convex polygon round points, counter-clockwise."""
    ordered = sorted(set(zip(z.real.tolist(), z.imag.tolist(), strict=True)))
    if len(ordered) < 3:
        return np.array([complex(*p) for p in ordered])

    def chain(points: list[tuple[float, float]]) -> list[tuple[float, float]]:
        kept: list[tuple[float, float]] = []
        for x, y in points:
            while len(kept) > 1:
                (ax, ay), (bx, by) = kept[-2:]
                if (bx - ax) * (y - ay) - (by - ay) * (x - ax) > 0.0:
                    break
                kept.pop()
            kept.append((x, y))
        return kept[:-1]

    return np.array([complex(*p) for p in chain(ordered) + chain(ordered[::-1])])


def flush_ways(z: Complexes, most: int) -> Iterator[complex]:
    """Turns that lay the longest sides of a hull level."""
    sides = np.roll(z, -1) - z
    for k in np.argsort(-np.round(np.abs(sides), 3), kind="stable")[:most]:
        yield complex(abs(sides[k]) / sides[k])


def _angles(z: Complexes, wide: float, tall: float) -> Floats:
    """Angles (radians) among which there is one that fits the page, if any does.

    Between two angles at which a side of the hull lies level or upright, width and height belong to the same corners: each is
    the length of a line between two of them, times a cosine. So what fits is bounded by those angles and by the ones at which
    such a line is as long as the page is wide or tall.
    """
    sides = np.roll(z, -1) - z
    level = np.unique(np.mod(-np.angle(sides[np.abs(sides) > 0.0]), math.pi / 2))
    if len(level) == 0:
        return np.zeros(1)
    middle = (level + np.append(level[1:], level[0] + math.pi / 2)) / 2
    middle = np.concatenate([middle, middle + math.pi / 2])
    turned = np.exp(1j * middle)[:, None] * z
    found = [level, level + math.pi / 2]
    # Seen along the page's width; its height is the width a quarter turn further.
    line = z[turned.real.argmax(axis=1)] - z[turned.real.argmin(axis=1)]
    rise = z[turned.imag.argmax(axis=1)] - z[turned.imag.argmin(axis=1)]
    for across, room, lies in ((line, wide, 0.0), (rise, tall, math.pi / 2)):
        long = np.abs(across) > room
        bend = np.arccos(room / np.abs(across[long])) if long.any() else np.zeros(0)
        for sign in (-1.0, 1.0):
            found.append(lies - np.angle(across[long]) + sign * bend)
    return np.unique(np.round(np.mod(np.concatenate(found), math.pi), 12))


def _fits(z: Complexes, wide: float, tall: float) -> bool:
    return bool(np.ptp(z.real) <= wide + CLOSE and np.ptp(z.imag) <= tall + CLOSE)


def _box(z: Complexes) -> float:
    return float(np.ptp(z.real) * np.ptp(z.imag))
