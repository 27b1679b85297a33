"""What is stated by size, in words: one figure where all sizes share it, else each with its size."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence

from notchwork.findings import Length, PersonUnit, worded
from notchwork.model import Sized

_UNBROKEN = "\u00a0"


def by_size(value: Sized | None, sizes: Sequence[str | None], shown: Callable[[float], str]) -> str:
    """ "20 mm", or "S 375.0 mm, M 395.0 mm"; nothing where nothing is stated."""
    if value is None:
        return ""
    if not isinstance(value, Mapping):
        return shown(value)
    stated = {size: value[size] for size in sizes if size is not None and size in value}
    return in_sizes({size: shown(number) for size, number in stated.items()})


def in_sizes(shown: Mapping[str, str]) -> str:
    """What is shown of each size; once where it is the same in all."""
    alike = set(shown.values())
    if len(alike) == 1:
        return alike.pop()
    return ", ".join(f"{size}{_UNBROKEN}{said}" for size, said in shown.items())


def length(mm: float, unit: PersonUnit) -> str:
    """A length (mm) with its unit, in one line."""
    return worded("{mm}", {"mm": Length(float(mm))}, unit).replace(" ", _UNBROKEN)


def count(number: float) -> str:
    """A number of things."""
    return f"{number:g}"


def joined(parts: Iterable[str]) -> str:
    """What there is of several parts, with commas between."""
    return ", ".join(part for part in parts if part)
