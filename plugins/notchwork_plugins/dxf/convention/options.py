"""What a person may state of a file of the convention; every assumption that a file can settle otherwise is one of these."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final, cast, get_args

from notchwork_plugins.dxf.convention import keys
from notchwork_plugins.dxf.convention.rules.deltas import Deltas
from notchwork_plugins.dxf.settings import measure, one_of

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
    """The options as they were given. Raises NotchworkError for one that cannot be."""
    units, deltas = one_of(options, "units", UNITS), one_of(options, "deltas", get_args(Deltas))
    suffix = options.get("rules", ".rul").strip()
    rules = None if suffix.lower() == "none" else suffix if suffix.startswith(".") else f".{suffix}"
    mm = None if units is None else UNITS[units]
    return Choices(mm, cast(Deltas | None, deltas), rules, measure(options, "chord", "0.05", *_CHORDS))
