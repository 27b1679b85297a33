"""How many mm one unit of a drawing is: as its header says ($INSUNITS), or as a person states it."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import NamedTuple

from notchwork.findings import NotchworkError
from notchwork_plugins.dxf.file import File, Unit, unit_of

OPTION = "units"
HELP = "what one unit of the drawing is: mm, cm, m, in, ft, or a measure such as 0.1mm"

_UNITS: Mapping[str, float] = {
    "mm": 1.0,
    "cm": 10.0,
    "dm": 100.0,
    "m": 1000.0,
    "in": 25.4,
    "ft": 304.8,
    "yd": 914.4,
}
_WORDS: Mapping[str, str] = {
    "millimetre": "mm", "millimeter": "mm", "centimetre": "cm", "centimeter": "cm", "metre": "m", "meter": "m",
    "inch": "in", "inche": "in", "foot": "ft", "feet": "ft", "yard": "yd", "metric": "mm", "english": "in",
}  # fmt: skip
_STATED = re.compile(r"(\d+(?:\.\d*)?|\.\d+)?\s*([a-z]+)")


class Scale(NamedTuple):
    """mm for one unit, what it is called, and whether the drawing says so, a person does, or nobody ("")."""

    mm: float
    name: str
    said_by: str


def stated(options: Mapping[str, str], name: str) -> Scale | None:
    """The option ``units``. Raises NotchworkError for what is no unit."""
    text = options.get(OPTION)
    if text is None:
        return None
    found = _STATED.fullmatch(text.strip().lower())
    if found is not None:
        word = (
            found[2]
            if found[2] in _UNITS
            else _WORDS.get(found[2].removesuffix("s"), _WORDS.get(found[2], ""))
        )
        mm = float(found[1] or 1.0) * _UNITS.get(word, 0.0)
        if 1e-6 <= mm <= 1e6:
            return Scale(mm, f"{found[1] or ''} {word}".strip(), "person")
    raise NotchworkError(
        name,
        f"The unit “{text[:40]}” is none that is known.",
        "Say mm, cm, m, in or ft, or a measure such as 0.1mm.",
    )


def scale_of(file: File, said: Scale | None) -> Scale:
    """The scale of a drawing; where nothing says it, a unit is taken as a mm."""
    if said is not None:
        return said
    unit: Unit | None = unit_of(file)
    return Scale(1.0, "mm", "") if unit is None else Scale(unit.mm, unit.name, "drawing")
