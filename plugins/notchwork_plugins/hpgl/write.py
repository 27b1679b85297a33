"""Drawing -> HP-GL: what is drawn, where it lies, in which order, and what is told of it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from notchwork.draw.words import shortened
from notchwork.findings import NotchworkError
from notchwork.formats import Written
from notchwork.pages import Turning
from notchwork.pages.arrange import Shape, fits, shape_of
from notchwork.pages.grain import turned, turned_first
from notchwork_plugins.hpgl import knife, told
from notchwork_plugins.hpgl.commands import begun_at
from notchwork_plugins.hpgl.device import UNIT, Device
from notchwork_plugins.hpgl.frames import Frame, framed
from notchwork_plugins.hpgl.ink import Ink, inks, moved
from notchwork_plugins.hpgl.order import ordered, travel
from notchwork_plugins.hpgl.overcut import overcut
from notchwork_plugins.hpgl.plot import DOUBLED, Plot, texts
from notchwork_plugins.hpgl.settings import Settings, settings

if TYPE_CHECKING:
    from notchwork.drawing import Drawing
    from notchwork.pages import Paper

Complexes = NDArray[np.complex128]


def write_pages(drawing: Drawing, paper: Paper, options: Mapping[str, str]) -> Written:
    """One file, or one for each sheet where sheets are changed by hand. Raises NotchworkError."""
    stated = settings(paper, options)
    device = stated.device
    # On a cutter the legend and the test square would take cloth: it has pieces alone.
    on_it = [group for group in drawing.groups if not device.knife or "piece" in group.facts]
    every = [inks(group, drawing, device, stated.text) for group in on_it]
    kept = [tuple(ink for ink in some if device.pen(ink.tool) is not None) for some in every]
    drawn = [group for group, some in zip(on_it, kept, strict=True) if some]
    # Cloth must lie along the grain; paper may lie as it likes.
    first, turn = turned_first(drawn, paper.turn or ("grain" if device.knife else "free"))
    groups = [
        (
            shortened(str(group.facts.get("name", group.name))),
            tuple(moved(ink, way, 0j) for ink in some),
            turned(shape_of(group), way),
        )
        for group, some, way in zip(drawn, filter(None, kept), first, strict=True)
    ]
    if not groups:
        raise NotchworkError(
            device.title, "It has no pen, and nothing of the pattern is cut.", "Choose another device."
        )
    unit = _unit([shape for _, _, shape in groups], stated, turn)
    frames = list(framed(groups, *_cell(stated, unit), turn, stated.text if device.draw else None))
    as_drawn = [_laid(frame, stated) for frame in frames]
    plots = [replace(plot, inks=_in_order(plot.inks, device)) for plot in as_drawn]
    before, after = (sum(_travel(plot, device) for plot in some) for some in (as_drawn, plots))
    if stated.overcut:
        plots = [replace(plot, inks=tuple(overcut(plot.inks, stated.overcut))) for plot in plots]
    start, *more = texts(plots, device, unit)
    files = {".hpgl": start} | {f".{k}.hpgl": text for k, text in enumerate(more, 2)}
    findings = (
        *told.letters(drawing, stated),
        *knife.cut(drawing, stated, sum(len(a) - len(b) for a, b in zip(every, kept, strict=True))),
        *knife.off_grain(device, [(drawn[k], way * first[k]) for frame in frames for k, way in frame.laid]),
        *told.beyond_limit(stated, max(plot.along for plot in plots), unit),
        *told.in_parts(
            device, [(frame.name, frame.parts) for frame in frames if frame.part == 1 and frame.parts > 1]
        ),
        told.plotted(stated, plots, before, after),
    )
    return Written({suffix: text.encode("ascii") for suffix, text in files.items()}, findings)


def _unit(shapes: Sequence[Shape], stated: Settings, turn: Turning) -> float:
    """One step in mm: doubled only where some piece fits the paper, but not what plain steps reach."""
    plain, doubled = (_cell(stated, unit) for unit in (UNIT, DOUBLED))
    if plain == doubled:
        return UNIT
    return UNIT if all(fits(s, *plain, turn) or not fits(s, *doubled, turn) for s in shapes) else DOUBLED


def _cell(stated: Settings, unit: float) -> tuple[float, float]:
    """How wide and how long a frame may be: within the paper, and within what numbers reach."""
    reach = stated.device.reach(unit)
    return min(stated.across, reach), min(stated.along, reach)


def _laid(frame: Frame, stated: Settings) -> Plot:
    """The frame as the device's axes run, from its origin, nothing left free before it."""
    device = stated.device
    turn = -1j if device.x_along else 1 + 0j
    here = [moved(ink, turn, 0j) for ink in frame.inks]
    z = np.concatenate([line for ink in here for line in _points(ink)])
    low = complex(z.real.min(), z.imag.min())
    size = complex(z.real.max(), z.imag.max()) - low
    origin = complex(stated.along, stated.across) / 2 if device.origin == "centre" else 0j
    if not device.x_along:
        origin = complex(origin.imag, origin.real)
    inks = tuple(moved(ink, 1 + 0j, -low - origin) for ink in here)
    along, across = (size.real, size.imag) if device.x_along else (size.imag, size.real)
    return Plot(inks, along, across)


def _points(ink: Ink) -> Sequence[Complexes]:
    """What it draws; about, where the device letters."""
    return ink.lines if ink.text is None else [np.array([*ink.text.box, begun_at(ink.text)])]


def _ranks(inks: Sequence[Ink], device: Device) -> list[list[Ink]]:
    """What is drawn one after another: by the order of cutting, then by pen."""
    ranks: dict[tuple[int, int], list[Ink]] = {}
    for ink in inks:
        ranks.setdefault((ink.rank, -1 if ink.tool == "draw" else device.cut), []).append(ink)
    if device.draw == device.cut:
        return [list(inks)]
    return [ranks[key] for key in sorted(ranks)]


def _in_order(inks: Sequence[Ink], device: Device) -> tuple[Ink, ...]:
    result: list[Ink] = []
    at = 0j
    for some in _ranks(inks, device):
        result += ordered(some, at)
        at = complex(result[-1].lines[-1][-1]) if result[-1].lines else at
    return tuple(result)


def _travel(plot: Plot, device: Device) -> float:
    """With the pen up (mm), whatever the order within a rank."""
    return travel([ink for some in _ranks(plot.inks, device) for ink in some])
