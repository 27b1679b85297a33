"""What is still to be looked at on a drawing, while things are being set aside."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from notchwork.drawing import Text
from notchwork.geometry import groups
from notchwork.recognise.placed import Line, Placed, boxes_apart
from notchwork.recognise.shape import Aside, Complexes

Floats = NDArray[np.float64]


class Sheet:
    """The lines and texts left, and what was set aside. ``boxes`` are where words stand, also words drawn as shapes."""

    def __init__(self, drawn: Placed, tol: float) -> None:
        self.tol = tol
        self.lines: list[Line] = list(drawn.lines)
        self.dots = drawn.dots
        self.gaps = drawn.gaps
        self.texts: list[Text] = list(drawn.texts)
        self.boxes: list[tuple[Complexes, float]] = [
            (np.array(text.box), text.height) for text in drawn.texts
        ]
        self.aside: list[Aside] = []

    def set_aside(self, what: str, lines: Sequence[Line], texts: Sequence[Text] = ()) -> None:
        """Take lines and texts away under a name; nothing happens without any."""
        if not lines and not texts:
            return
        at = lines[0].middle if lines else texts[0].at
        numbers = tuple(sorted(line.number for line in lines))
        self.aside.append(Aside(what, complex(at), numbers, tuple(text.words for text in texts)))
        gone = set(numbers)
        self.lines = [line for line in self.lines if line.number not in gone]
        self.texts = [text for text in self.texts if not any(text is other for other in texts)]

    def set_aside_all(self, what: str, lines: Sequence[Line]) -> None:
        """Take several lines away, each by itself."""
        for line in lines:
            self.set_aside(what, [line])

    @property
    def open(self) -> list[Line]:
        return [line for line in self.lines if not line.closed]

    @property
    def closed(self) -> list[Line]:
        return [line for line in self.lines if line.closed]

    def words_near(self, z: complex, reach: float) -> bool:
        """Whether words stand within so many heights of type (at least 4 mm) of a point."""
        if not self.boxes:
            return False
        heights = np.array([height for _, height in self.boxes])
        far = box_distances(np.array([box for box, _ in self.boxes]), z)
        return bool((far <= np.maximum(reach * heights, 4.0)).any())


def box_distances(boxes: Complexes, z: complex) -> Floats:
    """How far (mm) a point lies from rectangles given by their corners in order (m, 4), 0 inside them."""
    origin = boxes[:, 0]
    far = np.zeros((2, len(boxes)))
    for axis, corner in enumerate((boxes[:, 1], boxes[:, 3])):
        side = corner - origin
        length = np.maximum(np.abs(side), 1e-9)
        along = ((z - origin) * side.conj()).real / length
        far[axis] = np.maximum(np.maximum(-along, along - length), 0.0)
    return np.asarray(np.hypot(far[0], far[1]))


def clusters(lines: Sequence[Line], reach: float) -> list[list[Line]]:
    """Lines whose boxes lie within reach (mm) of each other, put together."""
    order = sorted(lines, key=lambda line: line.box[0].real)
    pairs: list[tuple[int, int]] = []
    open_: list[int] = []
    for k, line in enumerate(order):
        open_ = [j for j in open_ if order[j].box[1].real + reach >= line.box[0].real]
        pairs += [(j, k) for j in open_ if boxes_apart(order[j].box, line.box) <= reach]
        open_.append(k)
    return [[order[k] for k in group] for group in groups(len(order), pairs)]
