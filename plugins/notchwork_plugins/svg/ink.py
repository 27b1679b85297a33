"""What is drawn, gathered in the drawing's own units and made into strokes, points and texts in mm at once."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from notchwork.drawing import Dot, Facts, Group, Look, Stroke, Text
from notchwork.geometry.affine import Affine
from notchwork.geometry.cubics import Complexes
from notchwork_plugins.svg.numbers import Malformed
from notchwork_plugins.svg.paths import MOST_CUBICS, Paths, Run, TooMany
from notchwork_plugins.svg.said import Said
from notchwork_plugins.svg.shapes import Shape

FARTHEST = 1e6
"""mm; nothing that is cut from cloth lies a kilometre away."""

NO_LENGTH = 1e-6
"""A cubic smaller than this (mm) is a point; what a closing leaves over by rounding is smaller."""

Bools = NDArray[np.bool_]


@dataclass(slots=True)
class _GroupDraft:
    name: str
    within: tuple[str, ...]
    facts: Facts = field(default_factory=dict)
    shift: complex = 0j
    whole: bool = False
    """Groups inside it are mere layers."""
    strokes: list[Stroke] = field(default_factory=list)
    dots: list[Dot] = field(default_factory=list)
    texts: list[Text] = field(default_factory=list)


class Mark(NamedTuple):
    """What is to be known of something drawn: the map of its units to mm, its group's number, what it says of itself, its
    look, and the element that draws it."""

    place: Affine
    group: int
    said: Said
    look: Look
    element: Any


class Ink:
    """What is drawn and written, by group, in the order in which it is met."""

    def __init__(self) -> None:
        self._groups: list[_GroupDraft] = []
        self._marks: list[Mark] = []
        self._shapes: dict[int, Shape] = {}
        self._size_of_shapes = 0
        self._paths = Paths()

    @property
    def size(self) -> int:
        """About how many numbers have been drawn."""
        return self._paths.size + self._size_of_shapes

    def open_group(self, name: str, within: tuple[str, ...]) -> int:
        """A new group, by its number."""
        return self._open(_GroupDraft(name, within))

    def open_whole(self, name: str, within: tuple[str, ...], facts: Facts, shift: complex) -> int:
        """A new group that takes in what lies in groups inside it; ``shift`` (mm) is where its own origin lies."""
        return self._open(_GroupDraft(name, within, facts, shift, whole=True))

    def is_whole(self, group: int) -> bool:
        """Whether groups inside it are mere layers."""
        return self._groups[group].whole

    def _open(self, draft: _GroupDraft) -> int:
        self._groups.append(draft)
        return len(self._groups) - 1

    def around(self, group: int) -> tuple[str, ...]:
        """The names that lie round what is in a group, its own with them."""
        draft = self._groups[group]
        return (*draft.within, draft.name) if draft.name else draft.within

    def path(self, data: str, mark: Mark) -> Malformed | None:
        """A path by its data; gives why and where reading it ended early."""
        self._marks.append(mark)
        return self._paths.add(data, mark.place.stretch)

    def shape(self, shape: Shape, mark: Mark) -> None:
        if len(shape.cubics):
            self._size_of_shapes += 2 * len(shape.cubics)
            self._shapes[len(self._marks)] = shape
            self._marks.append(mark)

    def write(self, text: Text, group: int) -> None:
        """A text in mm."""
        draft = self._groups[group]
        draft.texts.append(replace(text, at=text.at - draft.shift) if draft.shift else text)

    def groups(self) -> tuple[tuple[Group, ...], list[Any]]:
        """The groups that hold anything, and the elements that were left out because they lie beyond all bounds.

        Raises TooMany.
        """
        cubics, runs = self._in_mm()
        # What is no number at all is not near either.
        beyond = ~_near(cubics, FARTHEST)
        points = _near(cubics - cubics[:, :1], NO_LENGTH)
        # Counted before each row, so that a run is looked at closer only where it has any.
        beyond_before = np.append(0, np.cumsum(beyond)).tolist()
        points_before = np.append(0, np.cumsum(points)).tolist()
        lost: list[Any] = []
        for mark, own in zip(self._marks, runs, strict=True):
            draft = self._groups[mark.group]
            meaning, facts = mark.said.meaning, mark.said.facts
            # How a line that has a meaning looks follows from it.
            look = mark.look if meaning is None else None
            for start, stop, closed in own:
                still = points_before[stop] - points_before[start]
                if beyond_before[stop] > beyond_before[start]:
                    lost.append(mark.element)
                elif still == stop - start:
                    draft.dots.append(Dot(complex(cubics[start, 0]) - draft.shift, meaning, facts))
                else:
                    kept = cubics[start:stop][~points[start:stop]] if still else cubics[start:stop]
                    kept = kept - draft.shift if draft.shift else kept
                    draft.strokes.append(Stroke(kept, meaning, closed, facts, look))
        filled = tuple(
            Group(g.name, tuple(g.strokes), tuple(g.dots), tuple(g.texts), g.shift, g.facts, g.within)
            for g in self._groups
            if g.strokes or g.dots or g.texts
        )
        return filled, lost

    def _in_mm(self) -> tuple[Complexes, list[list[Run]]]:
        """The cubics of all paths, then of all shapes, and which rows are each mark's."""
        local, of_paths = self._paths.cubics()
        parts = [local]
        end = len(local)
        runs: list[list[Run]] = []
        paths = iter(of_paths)
        for number in range(len(self._marks)):
            shape = self._shapes.get(number)
            if shape is None:
                runs.append(next(paths))
            else:
                parts.append(shape.cubics)
                runs.append([Run(end, end + len(shape.cubics), shape.closed)])
                end += len(shape.cubics)
        if end > MOST_CUBICS:
            raise TooMany
        local = np.concatenate(parts)
        mark_of = np.zeros(end, np.intp)
        for number, own in enumerate(runs):
            if own:
                mark_of[own[0].start : own[-1].stop] = number
        places = np.array([mark.place for mark in self._marks], np.complex128).reshape(-1, 3)
        turn, flip, shift = places[mark_of].T[:, :, None]
        with np.errstate(all="ignore"):
            placed: Complexes = flip * local.conj()
            local *= turn
            placed += local
            placed += shift
        return placed, runs


def _near(rows: Complexes, most: float) -> Bools:
    """Whether every coordinate of a row is at most so far from 0."""
    near: Bools = np.logical_and.reduce(np.abs(rows.view(np.float64)) <= most, axis=1)
    return near
