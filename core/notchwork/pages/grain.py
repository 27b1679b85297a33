"""Pieces turned so that their lengthwise thread runs along the paper, as it must on cloth."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from notchwork.drawing import Group
from notchwork.pages.arrange import Shape
from notchwork.pages.paper import Turn, Turning


def turned_first(groups: Sequence[Group], turn: Turn) -> tuple[tuple[complex, ...], Turning]:
    """How each group is turned before it is laid, and how it may be turned then.

    Along the grain a piece is turned as little as may be, so that what is upward on all pieces stays so: cloth with a nap or a
    print has one way only. A piece without a grainline stays as it is drawn.
    """
    if turn != "grain":
        return (1 + 0j,) * len(groups), turn
    return tuple(_upright(group) for group in groups), "drawn"


def turned(shape: Shape, way: complex) -> Shape:
    """The shape turned about its origin by a number of length one."""
    return Shape(tuple(way * ring for ring in shape.rings))


def _upright(group: Group) -> complex:
    angles = (stroke.facts.get("angle") for stroke in group.strokes if stroke.meaning == "grain")
    angle = next((angle for angle in angles if isinstance(angle, float | int)), None)
    if angle is None:
        return 1 + 0j
    # Both ends of the thread are alike, so that a quarter turn is the most.
    return complex(np.exp(1j * np.radians((90.0 - angle + 90.0) % 180.0 - 90.0)))
