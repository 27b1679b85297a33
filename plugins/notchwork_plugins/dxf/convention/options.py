"""What a person may state of a file of the convention; every assumption that a file can settle otherwise is one of these."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from notchwork.findings import NotchworkError, UnknownName
from notchwork_plugins.dxf.convention import keys
from notchwork_plugins.dxf.convention.rules.deltas import Deltas

UNITS: Final = {
    **{name.lower(): mm for name, mm in keys.UNITS.items()},
    "mm": 1.0,
    "cm": 10.0,
    "m": 1000.0,
    "in": 25.4,
    "ft": 304.8,
}
"""mm in one unit, by what it may be called."""
_CHORDS = 0.001, 5.0


@dataclass(frozen=True, slots=True)
class Choices:
    """The options: ``mm`` a unit of the file is, None for what the file says; ``rules`` the suffix of the rule file, None for none."""

    mm: float | None = None
    deltas: Deltas | None = None
    rules: str | None = ".rul"
    chord: float = 0.05


def choices(options: Mapping[str, str]) -> Choices:
    """The options as they were given. Raises UnknownName or NotchworkError for one that cannot be."""
    units, deltas = options.get("units"), options.get("deltas")
    mm = None if units is None else UNITS.get(units.strip().lower())
    if units is not None and mm is None:
        raise UnknownName("value of the option units", units, UNITS)
    stated: Deltas | None = None
    if deltas is not None:
        stated = _deltas(deltas)
    suffix = options.get("rules", ".rul").strip()
    rules = None if suffix.lower() == "none" else suffix if suffix.startswith(".") else f".{suffix}"
    return Choices(mm, stated, rules, _chord(options.get("chord", "0.05")))


def _deltas(value: str) -> Deltas:
    match value.strip().lower():
        case "cumulative":
            return "cumulative"
        case "stepwise":
            return "stepwise"
        case _:
            raise UnknownName("value of the option deltas", value, ("cumulative", "stepwise"))


def _chord(value: str) -> float:
    try:
        chord = float(value)
    except ValueError:
        chord = math.nan
    if not _CHORDS[0] <= chord <= _CHORDS[1]:
        raise NotchworkError(
            f"Option chord={value}", "This is no length that a chord may stray.", "State 0.001 to 5 (mm)."
        )
    return chord
