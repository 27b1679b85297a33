"""What one unit of a drawing is.

Source: the DXF reference of Autodesk, $INSUNITS. $MEASUREMENT only chooses hatches and line types, and settles nothing.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from notchwork_plugins.dxf.file.entity import File


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit of length by its sign or name, and what it is in mm."""

    name: str
    mm: float


UNITS: Mapping[int, Unit] = {
    1: Unit("in", 25.4),
    2: Unit("ft", 304.8),
    3: Unit("mi", 1_609_344.0),
    4: Unit("mm", 1.0),
    5: Unit("cm", 10.0),
    6: Unit("m", 1000.0),
    7: Unit("km", 1e6),
    8: Unit("microinches", 25.4e-6),
    9: Unit("mils", 25.4e-3),
    10: Unit("yd", 914.4),
    11: Unit("Å", 1e-7),
    12: Unit("nm", 1e-6),
    13: Unit("µm", 1e-3),
    14: Unit("dm", 100.0),
    15: Unit("dam", 1e4),
    16: Unit("hm", 1e5),
    21: Unit("US survey ft", 1200.0 / 3937.0 * 1000.0),
    22: Unit("US survey in", 100.0 / 3937.0 * 1000.0),
    23: Unit("US survey yd", 3600.0 / 3937.0 * 1000.0),
}
"""By the number of $INSUNITS. Those that measure the sky, and 0 for none, are left out."""


def unit_of(file: File) -> Unit | None:
    """The unit that the header states; None where it states none, or none that a pattern is drawn in."""
    stated = file.header.get("$INSUNITS", ())
    return UNITS.get(int(float(stated[0][1]))) if stated and stated[0][0] == 70 else None
