"""Kinds of plain values that a pattern is written in.

Lengths are millimetres, points are complex numbers ``x + iy`` in millimetres with y upward. The annotations say which
numbers are lengths, so that one codec can turn a document in cm or inches into mm and back.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from typing import Annotated, Any, Literal

from notchwork.values import frozen

Length = Annotated[float, "length"]
"""A length in mm."""

Point = Annotated[complex, "point"]
"""A point x + iy in mm, y upward, as seen from the right side of the cloth."""

Sized = float | Mapping[str, float]
"""One number for every size, or one for each size by name."""

SizedLength = Annotated[Sized, "length"]
SizedNumber = Annotated[Sized, "number"]

LengthRange = Annotated[Sized | tuple[Sized, Sized], "length"]
"""A single length, or the least and the most."""

NumberRange = Annotated[Sized | tuple[Sized, Sized], "number"]
"""A single ratio or percentage, or the least and the most."""

Extra = Mapping[str, Any]
"""Keys that start with ``x-`` (and, in a newer 1.x document, keys this version does not know), kept untouched."""

Unit = Literal["mm", "cm", "in"]

MM_PER_UNIT: Mapping[Unit, float] = {"mm": 1.0, "cm": 10.0, "in": 25.4}


@frozen
class Stated:
    """What every object of a pattern remembers of how it was written down.

    ``written`` names the fields that were written out though leaving them out would mean the same, so that a document
    comes back as its maker wrote it. It takes no part in comparisons.

    A field's metadata may say: ``key``, its name in the document where that differs; ``bare``, a plain value stands for the
    object with this field alone; ``single``, a plain value stands for a list of one; ``required``, a document states it
    though the model has a default.
    """

    extra: Extra = field(default_factory=dict, kw_only=True)
    written: frozenset[str] = field(default=frozenset(), compare=False, repr=False, kw_only=True)


@frozen
class Place:
    """A place on an edge: a notch, a named node or the corner with the neighbouring edge, or that far from it.

    ``offset`` (mm, arc length with darts and pleats open) and ``percent`` (of the edge) exclude each other; neither
    means the named place itself. From a corner they run into the edge, from a place inside it + is the outline's order.
    """

    name: str
    offset: SizedLength | None = None
    percent: float | None = None


@frozen
class GradedPoint(Stated):
    """A point that is no node of an outline, with the grade rule that moves it from size to size, if any."""

    at: Point = field(metadata={"bare": True})
    grade: str | None = None


def in_size(value: Sized, size: str | None) -> float:
    """The number that holds in a size (``None`` where the pattern has one size only)."""
    if isinstance(value, Mapping):
        return value[size] if size is not None else next(iter(value.values()))
    return value
