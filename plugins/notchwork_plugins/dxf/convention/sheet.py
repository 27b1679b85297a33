"""One block as it is read: lines, points and words with the numbers of their layers, in mm; nothing taken for anything yet."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from notchwork_plugins.dxf.convention import layers
from notchwork_plugins.dxf.convention.curved import KINDS, straightened
from notchwork_plugins.dxf.convention.keys import keyed, rule_number
from notchwork_plugins.dxf.convention.places import Ints, Places
from notchwork_plugins.dxf.convention.told import Told
from notchwork_plugins.dxf.file.entity import Block, Entity
from notchwork_plugins.dxf.file.vertices import corners

Complexes = NDArray[np.complex128]

SAME = 1e-3
"""mm: points of a line that lie no further apart are one; files keep three or four decimals."""
NOT_DRAWN = frozenset({"SEQEND", "ATTDEF", "ATTRIB"})
DRAWN = frozenset({"LINE", "POLYLINE", "LWPOLYLINE", *KINDS})


@dataclass(frozen=True, slots=True, eq=False)
class Line:
    """A polyline (n,) in mm, no point twice; a closed one goes on from its last point to its first. ``line`` is its place in
    the file."""

    z: Complexes
    closed: bool
    layer: int
    line: int


@dataclass(frozen=True, slots=True, eq=False)
class Spot:
    """A point in mm; of a notch also how deep and wide (mm) it is cut and in which direction (degrees), None where not said."""

    at: complex
    layer: int
    line: int
    depth: float | None = None
    width: float | None = None
    angle: float | None = None


@dataclass(frozen=True, slots=True)
class Words:
    """A text where it is anchored, mm."""

    at: complex
    words: str
    height: float
    layer: int
    line: int


@dataclass(frozen=True, slots=True, eq=False)
class Sheet:
    """A block. ``stated`` are the values of its keys, in order where one is repeated; ``rules`` the numbers of grade rules
    by where they stand."""

    name: str
    line: int
    lines: tuple[Line, ...]
    spots: tuple[Spot, ...]
    words: tuple[Words, ...]
    stated: Mapping[str, tuple[str, ...]]
    rules: tuple[tuple[complex, int, int], ...] = ()
    """Where, which rule, and on which line of the file."""
    ident: str | None = None
    laid: complex = 0j
    """mm: where the file lays it, by its INSERT; that moves the layout, and none of its lines."""

    def on(self, layer: int) -> list[Line]:
        return [line for line in self.lines if line.layer == layer]

    def marked(self, *where: int) -> Complexes:
        """The places of all points on some layers."""
        return np.array([spot.at for spot in self.spots if spot.layer in where], dtype=np.complex128)

    def marked_on(self, line: Line, *where: int) -> Ints:
        """The numbers of a line's vertices on which points of some layers stand, in order.

        Beside a line that runs near, as where nothing is added to an edge, a point belongs to the one that has it as a vertex.
        """
        marked = self.marked(*where)
        number, apart = Places(line.z).nearest(marked)
        every = Places(np.concatenate([one.z for one in self.lines])).nearest(marked)[1]
        own = (number >= 0) & (apart <= every + SAME)
        return np.unique(number[own])

    def value(self, key: str) -> str | None:
        """The first value of a key, None where it is missing or empty."""
        return next((value for value in self.stated.get(key, ()) if value), None)


def sheet_of(block: Block, mm: float, application: str, told: Told) -> Sheet:
    """A block whose unit is so many mm. What is no part of the convention is told."""
    lines: list[Line] = []
    spots: list[Spot] = []
    words: list[Words] = []
    stated: dict[str, tuple[str, ...]] = {}
    rules: list[tuple[complex, int, int]] = []
    ident = None
    for entity in block.entities:
        layer = layers.number_of(entity.layer)
        kind = entity.kind
        if kind in NOT_DRAWN:
            continue
        if kind == "TEXT":
            text = _text(entity, layer or 0, mm)
            pair = keyed(text.words) if layer != layers.ANNOTATION else None
            rule = rule_number(text.words)
            if rule is not None:
                rules.append((text.at, rule, entity.line))
            elif pair is not None:
                stated[pair[0]] = (*stated.get(pair[0], ()), pair[1])
                ident = ident or _ident(entity, application)
            elif layer in (layers.BOUNDARY, layers.ANNOTATION):
                words.append(text)
            elif layer in layers.LEFT_OUT:
                told.left_out(f"layer {layer}", layers.LEFT_OUT[layer], entity.line)
            else:
                told.unknown(f"text “{text.words}” on layer {entity.layer}", entity.line)
        elif layer in layers.LEFT_OUT:
            told.left_out(f"layer {layer}", layers.LEFT_OUT[layer], entity.line)
        elif kind in DRAWN and layer in layers.LINES:
            lines += _line(entity, layer, mm, told)
        elif kind == "POINT" and layer in layers.POINTS:
            spots.append(_spot(entity, layer, mm))
        else:
            told.unknown(f"{kind} on layer {entity.layer}", entity.line)
    return Sheet(
        block.name, block.line, tuple(lines), tuple(spots), tuple(words), stated, tuple(rules), ident
    )


def _text(entity: Entity, layer: int, mm: float) -> Words:
    # Words that are set otherwise than from the left of their base line are anchored at their second point.
    anchored = 11 if 11 in entity.codes and (entity.flag(72) or entity.flag(73)) else 10
    words = " ".join(entity.text(1).split())
    return Words(entity.point(anchored) * mm, words, entity.number(40) * mm, layer, entity.line)


def _ident(entity: Entity, application: str) -> str | None:
    said = (value for code, value in entity.extended(application) if code == 1000)
    return next((value[3:] for value in said if value.startswith("id=")), None)


def _spot(entity: Entity, layer: int, mm: float) -> Spot:
    if layer not in layers.NOTCH_SHAPES:
        return Spot(entity.point() * mm, layer, entity.line)

    def said(code: int) -> float | None:
        return entity.number(code) if code in entity.codes else None

    depth, width = said(layers.NOTCH_DEPTH), said(layers.NOTCH_WIDTH)
    return Spot(
        entity.point() * mm,
        layer,
        entity.line,
        abs(depth) * mm if depth else None,
        abs(width) * mm if width else None,
        said(layers.NOTCH_ANGLE),
    )


def _line(entity: Entity, layer: int, mm: float, told: Told) -> Iterator[Line]:
    z, closed, why = _corners(entity, mm)
    if why:
        told.broken(f"{entity.kind} on layer {entity.layer}", why, entity.line)
        return
    kept = without_twins(z)
    if len(kept) > 2 and abs(kept[-1] - kept[0]) <= SAME:
        kept, closed = kept[:-1], True
    if len(kept) < 2:
        told.left_out("a line of no length", "its points all lie in one place", entity.line)
        return
    yield Line(kept, closed and len(kept) > 2, layer, entity.line)


def _corners(entity: Entity, mm: float) -> tuple[Complexes, bool, str]:
    """The corners of an entity in mm, whether it is closed, and why it draws nothing, "" where it does."""
    if entity.kind == "LINE":
        return np.array([entity.point() * mm, entity.point(11) * mm], dtype=np.complex128), False, ""
    if entity.kind not in KINDS:
        z, bulges = corners(entity)
        if not bulges.any() and 230 not in entity.codes:
            return np.asarray(z * mm, dtype=np.complex128), bool(entity.flag(70) & 1), ""
    return straightened(entity, mm)


def without_twins(z: Complexes) -> Complexes:
    """A polyline without points that repeat the one before."""
    if not len(z):
        return z
    kept: Complexes = z[np.append(True, np.abs(np.diff(z)) > SAME)]
    return kept


def extents(sheets: Iterable[Sheet]) -> float:
    """The larger side (mm, or units of the file where those are not known) of the largest of some blocks."""
    sides = [0.0]
    for sheet in sheets:
        drawn = [line.z for line in sheet.lines]
        if drawn:
            z = np.concatenate(drawn)
            sides += [float(np.ptp(z.real)), float(np.ptp(z.imag))]
    return max(sides)
