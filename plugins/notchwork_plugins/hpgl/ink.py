"""What of a group is drawn or cut, by which tool, and when."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from notchwork.drawing import Dot, Drawing, Group, Stroke, Text, line_style
from notchwork.drawing.styles import SPOT
from notchwork.geometry import circle, flatten, inside
from notchwork_plugins.hpgl.dashes import dashed
from notchwork_plugins.hpgl.device import Device, Lettering, Tool
from notchwork_plugins.hpgl.joined import joined
from notchwork_plugins.hpgl.letters import strokes
from notchwork_plugins.hpgl.nicks import nicks

Complexes = NDArray[np.complex128]

CHORD = 0.01
"""mm: as near chords lie to the curve that they stand for."""
APART = 1e-6
"""mm: cubics further apart than this are two runs."""
DRAWN, INSIDE, OUTLINE = 0, 1, 2
"""The order on a cutter: what is drawn while the sheet is whole, then what is cut inside pieces, then what frees them."""


@dataclass(frozen=True, slots=True, eq=False)
class Ink:
    """Polylines (mm) that one tool draws one after another. ``closed``: one line that ends where it begins.

    ``text`` stands for words that the device letters itself; there are no lines then.
    """

    lines: tuple[Complexes, ...]
    tool: Tool
    rank: int = DRAWN
    closed: bool = False
    text: Text | None = None


def inks(group: Group, drawing: Drawing, device: Device, lettering: Lettering) -> tuple[Ink, ...]:
    """All of a group in its own coordinates, in the order in which it is held."""
    found = [*_holes_first(_lines(group, drawing, device)), *(_dot(dot) for dot in group.dots)]
    if device.knife and "piece" in group.facts:
        # The tick of a notch crosses the seam: it is drawn, and only a nick is cut.
        found += [Ink((nick,), "cut", INSIDE) for nick in nicks(group)]
    for text in group.texts if lettering != "none" else ():
        if lettering == "labels":
            found.append(Ink((), "draw", text=text))
        elif lines := strokes(text):
            found.append(Ink(lines, "draw"))
    return tuple(found)


def moved(ink: Ink, turn: complex, shift: complex) -> Ink:
    """The same at ``turn * z + shift``; ``turn`` is of length one."""
    text = ink.text
    if text is not None:
        angle = text.angle + float(np.degrees(np.angle(turn)))
        text = replace(text, at=turn * text.at + shift, angle=angle)
    return replace(ink, lines=tuple(turn * line + shift for line in ink.lines), text=text)


class _Way(NamedTuple):
    """What strokes that are drawn alike have in common."""

    tool: Tool
    rank: int = DRAWN
    dashes: tuple[float, ...] = ()
    meaning: str | None = None
    size: str | float | None = None


def _lines(group: Group, drawing: Drawing, device: Device) -> Iterator[tuple[_Way, Ink]]:
    """Strokes that are drawn alike and go on into each other are one; each with the way it is drawn."""
    alike: dict[_Way, list[Complexes]] = {}
    for stroke in group.strokes:
        alike.setdefault(_way(stroke, group, drawing, device), []).extend(_runs(stroke))
    for way, runs in alike.items():
        for line, closed in joined(runs):
            if way.dashes:
                yield way, Ink(tuple(dashed(line, way.dashes)), way.tool, way.rank)
            else:
                yield way, Ink((line,), way.tool, way.rank, closed)


def _way(stroke: Stroke, group: Group, drawing: Drawing, device: Device) -> _Way:
    size, of_piece = stroke.facts.get("size"), "piece" in group.facts
    if device.knife and of_piece and (rank := _rank(stroke, group)) != DRAWN:
        return _Way("cut", rank, size=size)
    tool: Tool = "cut" if not device.knife and of_piece and stroke.meaning in ("cut", "notch") else "draw"
    if stroke.look is not None:
        return _Way(tool, DRAWN, stroke.look.dashes, stroke.meaning, size)
    named = size if isinstance(size, str) else None
    style = line_style(stroke.meaning, named, drawing.sizes, drawing.base)
    return _Way(tool, DRAWN, style.dashes, stroke.meaning, size)


def _holes_first(inks: Iterable[tuple[_Way, Ink]]) -> Iterator[Ink]:
    """The inks; of outlines, those that lie inside another of their size, as the waist of a whole circle does, are cut
    inside the piece."""
    every = list(inks)
    outlines = [(way.size, ink.lines[0]) for way, ink in every if ink.rank == OUTLINE and ink.closed]
    for way, ink in every:
        z = ink.lines[0][:1] if ink.rank == OUTLINE and ink.closed else None
        hole = z is not None and any(
            size == way.size and line is not ink.lines[0] and bool(inside(line, z)[0])
            for size, line in outlines
        )
        yield replace(ink, rank=INSIDE) if hole else ink


def _rank(stroke: Stroke, group: Group) -> int:
    if stroke.facts.get("kind") == "cutout":
        return INSIDE
    # Without allowances the stitch line is what is cut; the paper ends at a fold too.
    has_cut = any(other.meaning == "cut" and other.facts.get("kind") != "cutout" for other in group.strokes)
    return OUTLINE if stroke.meaning in ("cut" if has_cut else "stitch", "fold") else DRAWN


def _runs(stroke: Stroke) -> Iterable[Complexes]:
    cubics = stroke.cubics
    if not len(cubics):
        return
    apart = np.flatnonzero(np.abs(cubics[1:, 0] - cubics[:-1, 3]) > APART) + 1
    for run in np.split(cubics, apart):
        line = flatten(run, CHORD).points
        if stroke.closed and len(apart) == 0 and line[0] != line[-1]:
            line = np.append(line, line[0])
        yield line


def _dot(dot: Dot) -> Ink:
    return Ink((flatten(circle(dot.at, SPOT), CHORD).points,), "draw", closed=True)
