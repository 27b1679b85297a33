"""Templates and measures put into words: the last thing done to a finding."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import field
from fractions import Fraction
from string import Formatter
from typing import Literal

from notchwork.findings.measure import Angle, Count, Length, Measure, Percent, Ratio
from notchwork.values import frozen

PersonUnit = Literal["mm", "cm", "in"]

_MM_PER: Mapping[PersonUnit, float] = {"mm": 1.0, "cm": 10.0, "in": 25.4}
_DECIMALS: Mapping[PersonUnit, int] = {"mm": 1, "cm": 2, "in": 0}

_SIXTEENTHS = 16

_SAME = 1e-4
"""Lengths closer than this (mm) are one length: a document is written no finer."""

_NO_GARMENT = 1e9
"""Figures from here on say only that something is wrong; nobody reads all their digits."""

_MOST_DIGITS = 7
"""How often the precision of colliding measures is raised before they are taken as they are."""


@frozen
class Phrase:
    """A part of a sentence with measures of its own: a template and its values, usable as a value in another template."""

    template: str
    values: Mapping[str, object] = field(default_factory=dict)


def worded(template: str, values: Mapping[str, object], unit: PersonUnit = "mm") -> str:
    """A template in words, with every length in the unit asked for.

    ``{name}`` is a value: a measure, a text as it stands, a Phrase, or a tuple listed as "a, b and c". ``{name:bare}`` leaves the
    unit away. Names come from files: they are only values, so braces in them are harmless. Different measures of one
    kind that would print alike get as many digits as tell them apart; a length that rounds to nothing is "less than"
    the smallest step, never 0. Raises KeyError for a name that has no value and ValueError for a malformed template.
    """
    parts = list(Formatter().parse(template))
    stated = [values[name] for _, name, _, _ in parts if name is not None]
    digits = _digits(list(_measures(stated)), unit)
    words: list[str] = []
    for literal, name, spec, _ in parts:
        words.append(literal)
        if name is not None:
            words.append(_value(values[name], spec or "", unit, digits))
    return "".join(words)


def listed(names: Iterable[str], joint: str = "and") -> str:
    """Names as a person lists them: "a", "a and b", "a, b and c"."""
    *most, last = list(names) or [""]
    return f"{', '.join(most)} {joint} {last}" if most else last


def rounded(mm: float, unit: PersonUnit) -> float:
    """A length (mm) as it is usually shown: to the tenth of a mm, the hundredth of a cm, the sixteenth of an inch."""
    step = _MM_PER["in"] / _SIXTEENTHS if unit == "in" else _MM_PER[unit] / 10 ** _DECIMALS[unit]
    return round(mm / step) * step if math.isfinite(mm) else mm


def plain_name(ident: str) -> str:
    """An id as words: "neck_binding" is "neck binding"."""
    return ident.replace("_", " ").replace("-", " ").strip() or ident


def _measures(values: Iterable[object]) -> Iterator[Measure]:
    for value in values:
        if isinstance(value, Measure):
            yield value
        elif isinstance(value, tuple):
            yield from _measures(value)


def _value(value: object, spec: str, unit: PersonUnit, digits: Mapping[Measure, int]) -> str:
    if isinstance(value, Measure):
        return _measure(value, unit, digits[value], bare=spec == "bare")
    if isinstance(value, Phrase):
        return worded(value.template, value.values, unit)
    if isinstance(value, tuple):
        return listed(_value(entry, spec, unit, digits) for entry in value)
    return str(value)


def _digits(measures: list[Measure], unit: PersonUnit) -> dict[Measure, int]:
    """For each measure how far its precision must be raised so that no other of its kind prints like it."""
    digits = dict.fromkeys(measures, 0)
    for _ in range(_MOST_DIGITS):
        alike: dict[tuple[type, str], list[Measure]] = {}
        for measure, raised in digits.items():
            alike.setdefault((type(measure), _measure(measure, unit, raised)), []).append(measure)
        colliding = [group for group in alike.values() if _differ(group)]
        if not colliding:
            break
        for group in colliding:
            for measure in group:
                digits[measure] += 1
    return digits


def _differ(group: list[Measure]) -> bool:
    numbers = [_number(measure) for measure in group]
    return max(numbers) - min(numbers) > _SAME


def _number(measure: Measure) -> float:
    match measure:
        case Length(number) | Angle(number) | Ratio(number) | Percent(number) | Count(number):
            return float(number)


def _measure(measure: Measure, unit: PersonUnit, raised: int, bare: bool = False) -> str:
    match measure:
        case Length(mm) if unit == "in":
            return _with_unit(_inches(mm / 25.4, raised), "" if bare else " in")
        case Length(mm):
            number = _decimal(mm / _MM_PER[unit], _DECIMALS[unit] + raised, abs(mm) < _SAME)
            return _with_unit(number, "" if bare else f" {unit}")
        case Angle(degrees):
            return _with_unit(_decimal(degrees, 1 + raised), "°")
        case Ratio(times):
            return _decimal(times, 2 + raised)
        case Percent(percent):
            return _with_unit(_decimal(percent, 1 + raised), "" if bare else " %")
        case Count(number):
            return str(number)


def _with_unit(number: str, unit: str) -> str:
    return number + unit


def _decimal(value: float, decimals: int, nothing: bool | None = None) -> str:
    if not math.isfinite(value):
        return "unknown"
    if nothing if nothing is not None else value == 0:
        return "0"
    if abs(value) >= _NO_GARMENT:
        return f"{value:.1e}"
    text = f"{value:.{decimals}f}"
    if float(text) == 0:
        return f"less than {10.0**-decimals:.{decimals}f}"
    return text


def _inches(inches: float, raised: int) -> str:
    """Inches as a tape shows them: whole and sixteenths (then 32nds, 64ths, then decimals where those do not tell)."""
    if not math.isfinite(inches):
        return "unknown"
    if abs(inches) * 25.4 < _SAME:
        return "0"
    if raised > 2:
        return _decimal(inches, raised)
    steps = _SIXTEENTHS * 2**raised
    count = round(abs(inches) * steps)
    if count == 0:
        return f"less than 1/{steps}"
    whole, rest = divmod(count, steps)
    part = Fraction(rest, steps)
    words = [str(whole)] if whole else []
    if part:
        words.append(f"{part.numerator}/{part.denominator}")
    return ("-" if inches < 0 else "") + " ".join(words)
