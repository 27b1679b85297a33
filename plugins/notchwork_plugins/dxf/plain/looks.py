"""What an entity looks like: colour, line type and width, its own or those of its layer or of the block that holds it.

Source: the DXF reference of Autodesk, common group codes 6, 48, 62, 370 and 420.
"""

from __future__ import annotations

from typing import NamedTuple

from notchwork.drawing import Look
from notchwork_plugins.dxf.file import Entity, File, Layer
from notchwork_plugins.dxf.plain.palette import INK, colour_of, true_colour

_BY_LAYER, _BY_BLOCK = 256, 0
_USUAL = {
    "DASHED": (0.5, -0.25),
    "HIDDEN": (0.25, -0.125),
    "CENTER": (1.25, -0.25, 0.25, -0.25),
    "DASHDOT": (0.5, -0.25, 0.0, -0.25),
    "PHANTOM": (1.25, -0.25, 0.25, -0.25, 0.25, -0.25),
    "DIVIDE": (0.5, -0.25, 0.0, -0.25, 0.0, -0.25),
    "BORDER": (0.5, -0.25, 0.5, -0.25, 0.0, -0.25),
    "DOT": (0.0, -0.25),
}
"""Line types that a file names without saying what they are (from memory of general CAD's standard list)."""
_NO_COLOUR = Layer("")


class Pen(NamedTuple):
    """What a block hands on to what it holds: colour, dashes in units of the drawing, and width in mm."""

    colour: str = INK
    dashes: tuple[float, ...] = ()
    width: float = 0.0


class Looks:
    """The looks of a file's entities; equal ones are one."""

    def __init__(self, file: File) -> None:
        self._file = file
        scale = file.header.get("$LTSCALE", ())
        self._dash_scale = abs(float(scale[0][1])) if scale else 1.0
        self._made: dict[tuple[Pen, float, bool], Look] = {}

    def pen(self, entity: Entity, layer: str, held: Pen) -> Pen:
        """The pen of an entity on a layer (in upper case) in what is drawn with ``held``."""
        codes = entity.codes
        of_layer = self._file.layers.get(layer, _NO_COLOUR)
        if 420 in codes:
            colour = true_colour(entity.flag(420))
        else:
            number = entity.flag(62, _BY_LAYER)
            if number == _BY_BLOCK:
                colour = held.colour
            else:
                colour = colour_of(abs(of_layer.colour) if number == _BY_LAYER else abs(number))
        named = entity.text(6, "BYLAYER").upper() if 6 in codes else "BYLAYER"
        if named == "BYBLOCK":
            dashes = held.dashes
        else:
            dashes = self._dashes(of_layer.line_type.upper() if named == "BYLAYER" else named)
            if dashes and 48 in codes:
                own = abs(entity.number(48, 1.0))
                dashes = tuple(dash * own for dash in dashes)
        wide = entity.flag(370, -1) if 370 in codes else -1
        return Pen(colour, dashes, wide / 100.0 if wide >= 0 else held.width if wide == -2 else 0.0)

    def look(self, pen: Pen, unit: float, filled: bool) -> Look:
        """How a stroke looks where a unit of the drawing is ``unit`` mm."""
        key = (pen, unit, filled)
        if key not in self._made:
            dashes = tuple(dash * unit for dash in pen.dashes)
            self._made[key] = Look(pen.colour, pen.colour if filled else None, pen.width, dashes)
        return self._made[key]

    def _dashes(self, name: str) -> tuple[float, ...]:
        """Drawn, left out, drawn ...: neighbours of one kind put together."""
        runs: list[float] = []
        for dash in self._file.line_types.get(name) or _USUAL.get(name, ()):
            is_drawn = dash >= 0.0
            if not runs and not is_drawn:
                runs.append(0.0)
            if len(runs) % 2 == (1 if is_drawn else 0) and runs:
                runs[-1] += abs(dash)
            else:
                runs.append(abs(dash))
        if len(runs) < 2 or sum(runs) <= 0.0:
            return ()
        if len(runs) % 2:
            runs[0] += runs.pop()
        return tuple(run * self._dash_scale for run in runs)
