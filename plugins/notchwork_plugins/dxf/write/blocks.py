"""Pieces as blocks: one for every size, or one in the sample size with a reference to a grade rule at every place."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

import numpy as np

from notchwork_plugins.dxf.convention import layers
from notchwork_plugins.dxf.write import tags
from notchwork_plugins.dxf.write.chords import CORNER, INNER
from notchwork_plugins.dxf.write.items import Line, Piece, Spot, Words
from notchwork_plugins.dxf.write.options import Choices
from notchwork_plugins.dxf.write.ruled import Rules

TYPE, LEADING = 6.0, 9.0
"""mm: height of a piece's texts, and from one to the next."""
REFERENCE = 1.0
"""mm: height of references to rules."""


@dataclass(slots=True)
class Sheet:
    """Turns places in mm into tags in the file's unit. ``cut_short`` collects words that had to be."""

    choices: Choices
    cut_short: list[str] = field(default_factory=list)

    def length(self, mm: float) -> str:
        return tags.number(mm * self.choices.unit.per_mm, self.choices.unit.digits)

    def at(self, z: complex, code: int = 10, height: float = 0.0) -> str:
        """The tags of a place; ``height`` (mm) is its third coordinate."""
        x, y, up = self.length(z.real), self.length(z.imag), self.length(height)
        return f"{code}\n{x}\n{code + 10}\n{y}\n{code + 20}\n{up}\n"

    def text(self, layer: int, z: complex, words: str, height: float, carried: Sequence[str] = ()) -> str:
        fitted = tags.fitted(words)
        if fitted.endswith(tags.ELLIPSIS) and not words.endswith("…"):
            self.cut_short.append(words)
        return tags.text(layer, self.at(z), self.length(height), fitted, carried)

    def polyline(self, line: Line, size: int) -> str:
        unit = self.choices.unit
        z = line.z[size] * unit.per_mm
        xy = [(tags.number(v.real, unit.digits), tags.number(v.imag, unit.digits)) for v in z.tolist()]
        return tags.polyline(line.layer, xy, line.closed)


def entities(
    piece: Piece, size: int, sheet: Sheet, carries_ids: bool, rules: Rules | None = None
) -> Iterator[str]:
    """What stands in the block of a piece in one size; with ``rules`` every place refers to one."""
    yield from _said(piece, size, sheet, carries_ids)
    for item in piece.items:
        if np.isnan(item.z[size]).any():
            continue
        match item:
            case Line():
                yield _line(item, size, sheet)
                yield from _points(item, size, sheet)
            case Spot():
                yield _spot(item, size, sheet)
            case Words():
                yield sheet.text(item.layer, item.z[size], item.words, item.height)
        if rules is not None and not isinstance(item, Words):
            yield from _references(item, size, sheet, rules)


def _said(piece: Piece, size: int, sheet: Sheet, carries_ids: bool) -> Iterator[str]:
    lines = [(f"{said.key}: {said.value}") for said in piece.said if size in said.holds]
    if (name := piece.sizes[size]) is not None:
        lines.insert(1, f"SIZE: {name}")
    for k, words in enumerate(lines):
        carried = [f"id={tags.escaped(piece.name)}"[: tags.MOST_LETTERS]] if carries_ids and k == 0 else ()
        yield sheet.text(layers.BOUNDARY, piece.at - 1j * LEADING * k, words, TYPE, carried)


def _line(line: Line, size: int, sheet: Sheet) -> str:
    z = line.z[size]
    if len(z) == 2 and not line.closed:
        return tags.line(line.layer, sheet.at(z[0]), sheet.at(z[1], 11))
    return sheet.polyline(line, size)


def _points(line: Line, size: int, sheet: Sheet) -> Iterator[str]:
    """A point at each corner and node of an outline. What lies between two nodes is interpolated and no curve point (terms of ASTM
    D6673-10, 3.1), though each vertex is graded for itself."""
    if line.kinds is None:
        return
    for z, kind in zip(line.z[size].tolist(), line.kinds.tolist(), strict=True):
        if kind != INNER:
            yield tags.point(kind, sheet.at(z))


def _spot(spot: Spot, size: int, sheet: Sheet) -> str:
    z = complex(spot.z[size])
    if spot.depth is None or spot.angle is None or not sheet.choices.notch_data:
        return tags.point(spot.layer, sheet.at(z))
    angle = float(spot.angle[size]) + (0.0 if sheet.choices.inward else 180.0)
    return tags.point(
        spot.layer,
        sheet.at(z, height=float(spot.depth[size])),
        f"{layers.NOTCH_ANGLE}\n{tags.number(angle % 360.0, 6)}\n",
    )


def _references(item: Line | Spot, size: int, sheet: Sheet, rules: Rules) -> Iterator[str]:
    """The number of its rule at every place."""
    places = item.z.reshape(len(item.z), -1)
    kinds = item.kinds if isinstance(item, Line) else None
    for k in range(places.shape[1]):
        # A place that is no vertex of an outline is an end, a corner, or a point of its own.
        layer = layers.CURVES if kinds is not None and kinds[k] != CORNER else layers.TURNS
        words = f"# {rules.number(places[:, k], size)}"
        yield tags.text(layer, sheet.at(places[size, k]), sheet.length(REFERENCE), words)
