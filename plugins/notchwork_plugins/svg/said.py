"""What a drawing that was written here says of its groups and lines, in data attributes (see ``notchwork.drawing.svg``)."""

from __future__ import annotations

import json
from dataclasses import dataclass, field
from typing import Any, cast

from notchwork.drawing import Facts, Meaning
from notchwork.drawing.meaning import FACTS, MEANINGS, NUMBERS
from notchwork_plugins.svg.numbers import Malformed, all_numbers
from notchwork_plugins.svg.tree import name_of

GROUND = "ground"
"""White below words: no line of the drawing."""
MOST_FACT = 1e6
"""mm, or degrees: no number that is said is larger. Nothing that is cut from cloth measures a kilometre."""


@dataclass(frozen=True, slots=True)
class Said:
    """What an element says of itself: facts, and a meaning where it was written here."""

    meaning: Meaning | None = None
    facts: Facts = field(default_factory=dict)


def said_of(element: Any) -> Said:
    """Of a line, point or text. Of one that has no meaning, its name is all that is known."""
    meaning = element.get("data-meaning")
    if meaning in MEANINGS:
        return Said(cast(Meaning, meaning), facts_of(element))
    name = name_of(element)
    return Said(None, {"name": name} if name else {})


def facts_of(element: Any) -> Facts:
    """The facts among an element's data attributes; a number that is none, or cannot be, is no fact."""
    found: dict[Any, str | float] = {}
    for key in FACTS:
        text = element.get(f"data-{key}")
        if text is None:
            continue
        if key not in NUMBERS:
            found[key] = text
        elif (value := _number(text)) is not None:
            found[key] = value
    return found


def origin_of(element: Any) -> complex | None:
    """Where the origin of a group that was written here lies, in the units of what it holds, y downward."""
    try:
        x, y = all_numbers(element.get("data-shift") or "")
    except (Malformed, ValueError):
        return None
    return complex(x, y)


def sizes_of(root: Any) -> tuple[str, ...]:
    """The sizes of the drawing in their order."""
    try:
        sizes = json.loads(root.get("data-sizes") or "[]")
    except (ValueError, RecursionError):
        return ()
    if not isinstance(sizes, list) or not all(isinstance(size, str) for size in sizes):
        return ()
    return tuple(dict.fromkeys(sizes))


def _number(text: str) -> float | None:
    try:
        value = float(text)
    except ValueError:
        return None
    return value if abs(value) <= MOST_FACT else None
