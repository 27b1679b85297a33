"""Options of DXF as a person states them: one of several words, or a measure within bounds."""

from __future__ import annotations

import math
from collections.abc import Collection, Mapping

from notchwork.findings import NotchworkError, listed


def one_of(options: Mapping[str, str], name: str, known: Collection[str]) -> str | None:
    """The word that is stated, in small letters; None where none is. Raises NotchworkError for a word that is not known."""
    if name not in options:
        return None
    said = options[name].strip().lower()
    if said not in known:
        raise NotchworkError(
            f"Option {name}", f"It cannot be “{options[name][:40]}”.", f"Choose {listed(known, 'or')}."
        )
    return said


def measure(options: Mapping[str, str], name: str, default: str, least: float, most: float) -> float:
    """A measure in mm, least and most included. Raises NotchworkError for what is none, or lies beyond."""
    said = options.get(name, default)
    try:
        value = float(said.strip().removesuffix("mm"))
    except ValueError:
        value = math.nan
    if not least <= value <= most:
        raise NotchworkError(
            f"Option {name}",
            f"It cannot be “{said[:40]}”.",
            f"Give a number of mm from {least:g} to {most:g}, such as {default}.",
        )
    return value
