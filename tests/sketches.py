"""Small drawings as people make them: strokes without meanings, in named groups, with words."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from notchwork.drawing import Drawing, Group, Look, Stroke, Text
from notchwork.geometry import lines

BLACK = Look("#000000")


def polyline(*nodes: complex, closed: bool = False, look: Look = BLACK, name: str = "") -> Stroke:
    facts = {"name": name} if name else {}
    return Stroke(lines(np.array(nodes, dtype=complex), closed=closed), None, closed, facts, look)


def box(x: float, y: float, wide: float, tall: float, fill: str | None = None, name: str = "") -> Stroke:
    z = complex(x, y)
    return polyline(
        z,
        z + wide,
        z + complex(wide, tall),
        z + 1j * tall,
        closed=True,
        look=Look("#000000", fill),
        name=name,
    )


def words(x: float, y: float, said: str, height: float = 5.0) -> Text:
    return Text(complex(x, y), said, height)


def drawing(
    *strokes: Stroke, texts: Sequence[Text] = (), scale: float | None = 1.0, name: str = "Layer 1"
) -> Drawing:
    return Drawing((Group(name, strokes, (), tuple(texts)),), scale=scale)


def layers(**groups: Sequence[Stroke]) -> Drawing:
    return Drawing(tuple(Group(name, tuple(strokes)) for name, strokes in groups.items()))
