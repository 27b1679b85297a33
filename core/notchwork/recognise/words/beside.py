"""Which edge of a piece words stand beside."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from notchwork.drawing import Text
from notchwork.recognise.words.rim import Rim

REACH = 3.0
"""Heights of type within which words stand beside an edge."""
AT_LEAST = 12.0
"""mm within which small type does too."""
CLEARLY = 1.25
"""How many times further off any other edge must be."""
AT_AN_END = 1.6
"""What is nearest to an edge's end is rather beside the next one: its distance counts so much more."""
END = 0.5


@dataclass(frozen=True, slots=True)
class Beside:
    """The edge that words stand beside, how far off (mm) their middle is, and whether no other edge is as near."""

    edge: int
    distance: float
    clear: bool


def beside(text: Text, rims: Sequence[Rim]) -> Beside | None:
    """The edge nearest to a text in any size; None where the text stands away from every edge."""
    box = np.array(text.box)
    middle = box.mean()
    points = np.append(box, middle)
    far: list[tuple[float, float, int]] = []
    for edge in range(rims[0].count):
        best = (np.inf, np.inf)
        for rim in rims:
            spots = rim.near_edge(edge, points)
            gap, arc = float(spots.distance.min()), float(spots.arc[-1])
            at_end = rim.count > 1 and not END < arc < rim.length(edge) - END
            best = min(best, (float(spots.distance[-1]) * (AT_AN_END if at_end else 1.0), gap))
        far.append((*best, edge))
    far.sort()
    distance, gap, edge = far[0]
    if gap > max(REACH * text.height, AT_LEAST):
        return None
    clear = len(far) == 1 or far[1][0] > CLEARLY * distance + 0.5
    return Beside(edge, distance, clear)


def gap_to(text: Text, rim: Rim) -> float:
    """How far (mm) a text's box is from an outline; 0 where it reaches into the piece."""
    box = np.array([*text.box, sum(text.box) / 4])
    return 0.0 if rim.inside(box).any() else float(rim.near(box).distance.min())
