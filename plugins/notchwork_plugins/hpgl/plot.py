"""Frames -> the text of a plot."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from notchwork_plugins.hpgl.commands import begun_at, label, stroke
from notchwork_plugins.hpgl.device import UNIT, Device, Tool
from notchwork_plugins.hpgl.ink import Ink

Complexes = NDArray[np.complex128]

DOUBLED = 2.0 * UNIT
"""mm: a step of the numbers where scaling doubles what they reach."""
_POINT = 16_000
"""Plotter units to the scaling point, where the device takes such a number."""


@dataclass(frozen=True, slots=True, eq=False)
class Plot:
    """``inks`` in the order in which they are drawn, in mm from the device's origin; ``along`` and ``across`` is what it takes
    of the paper."""

    inks: tuple[Ink, ...]
    along: float
    across: float


def texts(plots: Sequence[Plot], device: Device, unit: float) -> tuple[str, ...]:
    """The plots, one step of their numbers being ``unit`` mm: one text, or one each where sheets are changed by hand."""
    bodies = ["".join(_body(plot, device, unit)) for plot in plots]
    lead = f"IN;{_paper(plots, device)}\n"
    if device.advance == "file":
        return tuple(f"{lead}{body}{_END}" for body in bodies)
    # On PG a plotter of HP-GL/2 begins to draw, and cuts the paper off.
    last = "PG;\n" if device.language == "HP-GL/2" else ""
    advance = f"PU;{device.advance};\n"
    return (f"{lead}{advance.join(bodies)}{_END}{last}",)


_END = "PU;PA0,0;SP0;\n"


def _paper(plots: Sequence[Plot], device: Device) -> str:
    """The size of the plot in plotter units, always; left out where the device could not take the number."""
    sides = [math.ceil(max(side) / UNIT) for side in zip(*((p.along, p.across) for p in plots), strict=True)]
    if device.language == "HP-GL" or max(sides) > device.largest:
        return ""
    return f"PS{sides[0]},{sides[1]};"


def _body(plot: Plot, device: Device, unit: float) -> Iterator[str]:
    if unit != UNIT:
        steps = int(min(_POINT, device.largest) * UNIT / unit)
        point = round(steps * unit / UNIT)
        low = (-point, -steps) if device.origin == "centre" else (0, 0)
        yield f"IP{low[0]},{low[0]},{point},{point};SC{low[1]},{steps},{low[1]},{steps};\n"
    tool: Tool | None = None
    for ink in plot.inks:
        if ink.tool != tool:
            if tool is None or device.pen(ink.tool) != device.pen(tool):
                yield f"PU;SP{device.pen(ink.tool)};\n"
            yield _set(device, ink.tool)
            tool = ink.tool
        for places in _places(ink.lines, unit):
            yield stroke(places, device.largest)
        if ink.text is not None:
            at = begun_at(ink.text) / unit
            yield label(ink.text, round(at.real), round(at.imag))


def _places(lines: Sequence[Complexes], unit: float) -> Iterator[list[list[int]]]:
    """The corners of each line, rounded to steps."""
    if lines:
        z = np.concatenate(lines)
        every = np.rint(np.stack([z.real, z.imag], axis=1) / unit).astype(np.int64).tolist()
        first = 0
        for line in lines:
            yield every[first : first + len(line)]
            first += len(line)


def _set(device: Device, tool: Tool) -> str:
    """Speed and force, where they are to be set."""
    k = 0 if tool == "cut" else 1
    said = [
        f"{name}{value[k]:g};"
        for name, value in (("VS", device.speed), ("FS", device.force))
        if value[k] is not None
    ]
    return "".join(said) + ("\n" if said else "")
