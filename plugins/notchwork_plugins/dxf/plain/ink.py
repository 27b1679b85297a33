"""What is drawn and written, gathered in units of the drawing and made into strokes, points and texts in mm at once."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from notchwork.drawing import Dot, Facts, Group, Look, Stroke, Text
from notchwork.geometry.affine import Affine
from notchwork.geometry.cubics import Complexes, Floats
from notchwork_plugins.dxf.file import Entity
from notchwork_plugins.dxf.plain.curve import NOTHING, Curves
from notchwork_plugins.dxf.plain.polylines import polylines
from notchwork_plugins.dxf.plain.round import circles, ellipses
from notchwork_plugins.dxf.plain.simple import points, segments, solids
from notchwork_plugins.dxf.plain.smoothed import smoothed
from notchwork_plugins.dxf.plain.splines import splines
from notchwork_plugins.dxf.said import Chords, Said

FARTHEST = 1e6
"""mm; nothing that is cut from cloth lies a kilometre away."""
NO_LENGTH = 1e-6
"""A cubic smaller than this (mm) is a point."""
MOST_CURVES = 200_000
"""Stretches of line that a drawing has at most, every block placed: pieces in twenty sizes, digitised finely, have some ten thousand,
and finding pieces among so many takes seconds, among a million minutes."""

Converter = Callable[[Sequence[Entity], Floats], Curves]
CONVERTERS: Mapping[str, Converter] = {
    "LINE": segments,
    "POINT": points,
    "SOLID": solids,
    "TRACE": solids,
    "ARC": circles,
    "CIRCLE": circles,
    "ELLIPSE": ellipses,
    "SPLINE": splines,
    "LWPOLYLINE": polylines,
    "POLYLINE": polylines,
}

Bools = NDArray[np.bool_]


class TooMany(Exception):
    """More stretches of line than any pattern has; ``count`` is how many."""

    def __init__(self, count: int) -> None:
        super().__init__(count)
        self.count = count


_OWN = ("\0",)
"""What holds the groups of a drawing that was written here, until they say it themselves; no block is called so."""


class Mark(NamedTuple):
    """A curve that is drawn: its entity, the map of its units to mm, its group's number, its look, and what it says of itself
    where it was written here."""

    entity: Entity
    place: Affine
    group: int
    look: Look
    said: Said | None = None


class Drawn(NamedTuple):
    """The groups that hold anything; the entities that lie beyond all bounds; those that draw nothing, and why; and how far (mm)
    chords lay beside the curves that were made of them."""

    groups: tuple[Group, ...]
    lost: list[Entity]
    broken: list[tuple[Entity, str]]
    fine: float


@dataclass(slots=True)
class _GroupDraft:
    name: str
    within: tuple[str, ...]
    shift: complex = 0j
    facts: Facts = field(default_factory=dict)
    strokes: list[Stroke] = field(default_factory=list)
    dots: list[Dot] = field(default_factory=list)
    texts: list[Text] = field(default_factory=list)


class Ink:
    """What is drawn and written, by group, in the order in which it is met."""

    def __init__(self) -> None:
        self._groups: dict[tuple[tuple[str, ...], str], int] = {}
        self._drafts: list[_GroupDraft] = []
        self._marks: list[Mark] = []

    def group(self, name: str, within: tuple[str, ...]) -> int:
        """The group of a layer in what holds it, by its number."""
        key = (within, name)
        if key not in self._groups:
            self._groups[key] = len(self._drafts)
            self._drafts.append(_GroupDraft(name, within))
        return self._groups[key]

    def group_of(self, said: Said) -> int:
        """The group of a part that was written here, with what is said of the whole group."""
        known = self.group(said.group, _OWN)
        draft = self._drafts[known]
        draft.shift = said.shift
        if said.of_group:
            draft.facts = said.of_group
        if said.within:
            draft.within = said.within
        return known

    def draw(self, mark: Mark) -> None:
        self._marks.append(mark)

    def write(self, text: Text, group: int) -> None:
        """A text in mm."""
        draft = self._drafts[group]
        draft.texts.append(replace(text, at=text.at - draft.shift) if draft.shift else text)

    def drawn(self) -> Drawn:
        """Everything as it is in mm. Raises TooMany."""
        cubics, counts, closed, broken = self._in_mm()
        beyond = ~_near(cubics, FARTHEST)
        still = _near(cubics - cubics[:, :1], NO_LENGTH)
        beyond_before = np.append(0, np.cumsum(beyond)).tolist()
        still_before = np.append(0, np.cumsum(still)).tolist()
        lost: list[Entity] = []
        chorded: list[tuple[_GroupDraft, int, Chords]] = []
        start = 0
        for mark, count, closes in zip(self._marks, counts, closed, strict=True):
            stop = start + count
            draft = self._drafts[mark.group]
            points_in = still_before[stop] - still_before[start]
            if beyond_before[stop] > beyond_before[start]:
                lost.append(mark.entity)
            elif count and points_in == count:
                draft.dots.append(_dot(complex(cubics[start, 0]) - draft.shift, mark.said))
            elif count:
                own = cubics[start:stop] - draft.shift
                if mark.said is not None and mark.said.chords is not None:
                    chorded.append((draft, len(draft.strokes), mark.said.chords))
                draft.strokes.append(_stroke(own[~still[start:stop]] if points_in else own, closes, mark))
            start = stop
        curves, fine = smoothed([(draft.strokes[k], chords) for draft, k, chords in chorded])
        for (draft, k, _), curve in zip(chorded, curves, strict=True):
            draft.strokes[k] = curve
        filled = tuple(
            Group(
                draft.name,
                tuple(draft.strokes),
                tuple(draft.dots),
                tuple(draft.texts),
                draft.shift,
                draft.facts,
                () if draft.within == _OWN else draft.within,
            )
            for draft in self._drafts
            if draft.strokes or draft.dots or draft.texts
        )
        return Drawn(filled, lost, broken, fine)

    def _in_mm(self) -> tuple[Complexes, list[int], list[bool], list[tuple[Entity, str]]]:
        """The cubics of all marks one after the other, how many each has, which close, and what draws nothing. Raises TooMany."""
        slots: dict[int, int] = {}
        entities: list[Entity] = []
        slot_of: list[int] = []
        for mark in self._marks:
            slot = slots.setdefault(id(mark.entity), len(entities))
            if slot == len(entities):
                entities.append(mark.entity)
            slot_of.append(slot)
        places = np.array([mark.place for mark in self._marks], np.complex128).reshape(-1, 3)
        # However often a block is placed, its curves are made once, close enough for the largest of its copies.
        units = np.zeros(len(entities))
        np.maximum.at(units, slot_of, np.abs(places[:, 0]) + np.abs(places[:, 1]))
        local, counts, closed, broken = _converted(entities, np.maximum(units, 1e-9))
        starts = np.cumsum(counts) - counts
        own = np.array(slot_of, np.intp)
        each = counts[own]
        if (count := int(each.sum())) > MOST_CURVES:
            raise TooMany(count)
        ends = np.cumsum(each)
        rows = np.arange(ends[-1] if len(ends) else 0) + np.repeat(starts[own] - ends + each, each)
        turn, flip, shift = np.repeat(places, each, axis=0).T[:, :, None]
        cubics = local[rows]
        with np.errstate(all="ignore"):
            placed: Complexes = turn * cubics + flip * cubics.conj() + shift
        return placed, each.tolist(), closed[own].tolist(), broken


def _dot(at: complex, said: Said | None) -> Dot:
    return Dot(at) if said is None else Dot(at, said.meaning, said.facts)


def _stroke(cubics: Complexes, closes: bool, mark: Mark) -> Stroke:
    """What an entity says of itself goes before how it looks."""
    said = mark.said
    if said is None:
        return Stroke(cubics, None, closes, {}, mark.look)
    return Stroke(
        cubics, said.meaning, closes or said.closed, said.facts, None if said.meaning else mark.look
    )


def _converted(
    entities: Sequence[Entity], units: Floats
) -> tuple[Complexes, NDArray[np.intp], Bools, list[tuple[Entity, str]]]:
    """The curves of entities, kind by kind, put back into their order."""
    kinds: dict[Converter, list[int]] = {}
    for number, entity in enumerate(entities):
        kinds.setdefault(CONVERTERS[entity.kind], []).append(number)
    counts = np.zeros(len(entities), np.intp)
    closed = np.zeros(len(entities), bool)
    parts: list[Complexes] = [NOTHING]
    order: list[int] = []
    broken: list[tuple[Entity, str]] = []
    for convert, numbers in kinds.items():
        made = convert([entities[number] for number in numbers], units[numbers])
        counts[numbers], closed[numbers] = made.counts, made.closed
        parts.append(made.cubics)
        order += numbers
        broken += [(entities[numbers[number]], why) for number, why in made.faults.items()]
    cubics = np.concatenate(parts)
    own = counts[order]
    starts = np.zeros(len(entities), np.intp)
    starts[order] = np.cumsum(own) - own
    ends = np.cumsum(counts)
    rows = np.arange(len(cubics)) + np.repeat(starts - ends + counts, counts)
    return cubics[rows], counts, closed, broken


def _near(rows: Complexes, most: float) -> Bools:
    """Whether every coordinate of a row is at most so far from 0; what is no number is not."""
    near: Bools = np.logical_and.reduce(np.abs(rows.view(np.float64)) <= most, axis=1)
    return near
