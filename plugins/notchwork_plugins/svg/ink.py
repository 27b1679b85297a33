"""What is drawn, gathered in the drawing's own units and made into strokes, points and texts in mm at once."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from notchwork.drawing import Dot, Facts, Group, Look, Stroke, Text
from notchwork_plugins.svg.affine import Affine
from notchwork_plugins.svg.paths import Run
from notchwork_plugins.svg.said import Said

MOST_SEGMENTS = 500_000
FARTHEST = 1e6
"""mm; nothing that is cut from cloth lies a kilometre away."""

NO_LENGTH = 1e-6
"""A cubic smaller than this (mm) is a point; what a closing leaves over by rounding is smaller."""

Complexes = NDArray[np.complex128]
Bools = NDArray[np.bool_]


@dataclass(slots=True)
class GroupDraft:
    """A group as it is filled."""

    name: str
    within: tuple[str, ...]
    facts: Facts = field(default_factory=dict)
    shift: complex = 0j
    whole: bool = False
    """Groups inside it are mere layers."""
    strokes: list[Stroke] = field(default_factory=list)
    dots: list[Dot] = field(default_factory=list)
    texts: list[Text] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class _Drawn:
    run: Run
    place: Affine
    group: int
    said: Said
    look: Look
    element: Any


class Ink:
    """Runs and texts by group, in the order in which they are met."""

    def __init__(self) -> None:
        self._groups: list[GroupDraft] = []
        self._drawn: list[_Drawn] = []
        self.segments = 0

    def open_group(self, name: str, within: tuple[str, ...]) -> int:
        """A new group, by its number."""
        return self._open(GroupDraft(name, within))

    def open_whole(self, name: str, within: tuple[str, ...], facts: Facts, shift: complex) -> int:
        """A new group that takes in what lies in groups inside it; ``shift`` (mm) is where its own origin lies."""
        return self._open(GroupDraft(name, within, facts, shift, whole=True))

    def is_whole(self, group: int) -> bool:
        """Whether groups inside it are mere layers."""
        return self._groups[group].whole

    def _open(self, draft: GroupDraft) -> int:
        self._groups.append(draft)
        return len(self._groups) - 1

    def around(self, group: int) -> tuple[str, ...]:
        """The names that lie round what is in a group, its own with them."""
        draft = self._groups[group]
        return (*draft.within, draft.name) if draft.name else draft.within

    def draw(
        self, runs: Iterable[Run], place: Affine, group: int, said: Said, look: Look, element: Any
    ) -> None:
        """Runs in the units that ``place`` takes to mm, drawn by ``element``."""
        for run in runs:
            self.segments += len(run.points) // 4
            self._drawn.append(_Drawn(run, place, group, said, look, element))

    def write(self, text: Text, group: int) -> None:
        """A text in mm."""
        draft = self._groups[group]
        draft.texts.append(replace(text, at=text.at - draft.shift) if draft.shift else text)

    def groups(self) -> tuple[tuple[Group, ...], list[Any]]:
        """The groups that hold anything, and the elements that were left out because they lie beyond all bounds."""
        cubics = self._in_mm()
        # A number that is none compares as false.
        beyond = ~_all_in_row((np.abs(cubics.real) <= FARTHEST) & (np.abs(cubics.imag) <= FARTHEST))
        points = _all_in_row(~(np.abs(cubics - cubics[:, :1]) > NO_LENGTH))
        lost: list[Any] = []
        stop = 0
        for drawn in self._drawn:
            start, stop = stop, stop + len(drawn.run.points) // 4
            draft = self._groups[drawn.group]
            meaning, facts = drawn.said.meaning, drawn.said.facts
            still = points[start:stop]
            if beyond[start:stop].any():
                lost.append(drawn.element)
            elif still.all():
                draft.dots.append(Dot(complex(cubics[stop - 1, 3]) - draft.shift, meaning, facts))
            else:
                kept = cubics[start:stop][~still] if still.any() else cubics[start:stop]
                # How a line that has a meaning looks follows from it.
                look = drawn.look if meaning is None else None
                moved = kept - draft.shift if draft.shift else kept
                draft.strokes.append(Stroke(moved, meaning, drawn.run.closed, facts, look))
        filled = tuple(
            Group(g.name, tuple(g.strokes), tuple(g.dots), tuple(g.texts), g.shift, g.facts, g.within)
            for g in self._groups
            if g.strokes or g.dots or g.texts
        )
        return filled, lost

    def _in_mm(self) -> Complexes:
        if not self._drawn:
            return np.empty((0, 4), np.complex128)
        flat = np.array([z for drawn in self._drawn for z in drawn.run.points], np.complex128)
        counts = [len(drawn.run.points) for drawn in self._drawn]
        places = np.array([drawn.place for drawn in self._drawn], np.complex128)
        turn, flip, shift = np.repeat(places, counts, axis=0).T
        with np.errstate(all="ignore"):
            placed: Complexes = turn * flat + flip * flat.conj() + shift
        return placed.reshape(-1, 4)


def _all_in_row(flags: Bools) -> Bools:
    return np.asarray(flags.all(axis=1))
