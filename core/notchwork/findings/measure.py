"""Measures that are put into words last, in the unit of the person who reads them."""

from __future__ import annotations

from notchwork.findings.rule import MeasureUnit
from notchwork.values import frozen


@frozen
class Length:
    """A length in mm."""

    mm: float


@frozen
class Angle:
    """An angle in degrees."""

    degrees: float


@frozen
class Ratio:
    """How many times."""

    times: float


@frozen
class Percent:
    """So many of a hundred."""

    percent: float


@frozen
class Count:
    """A number of things."""

    number: int


Measure = Length | Angle | Ratio | Percent | Count


def measure_of(value: float, unit: MeasureUnit) -> Measure:
    """A number in a tolerance's unit as a measure."""
    match unit:
        case "mm":
            return Length(value)
        case "deg":
            return Angle(value)
        case "ratio":
            return Ratio(value)
        case "percent":
            return Percent(value)
        case "count":
            return Count(round(value))
