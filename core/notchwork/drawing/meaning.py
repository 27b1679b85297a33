"""What a stroke, point or text of a drawing stands for, and what else can be said of it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal, get_args

Meaning = Literal[
    "cut",
    "stitch",
    "fold",
    "grain",
    "notch",
    "dart",
    "pleat",
    "mark",
    "casing",
    "fold-back",
    "placement",
    "topstitch",
    "slash",
    "inner",
    "name",
    "note",
    "edge-name",
    "size-name",
    "legend",
]
"""A drawing that comes from elsewhere may leave it open: None."""

Fact = Literal[
    "name", "piece", "edge", "size", "quantity", "material", "rule", "kind", "depth", "width", "angle", "to"
]
"""Everything that may be said of a group, stroke, point or text beside where it lies.

name: its maker's id; piece, edge: the ids it belongs to; size: the size it holds for; quantity, material: a cut order; rule: a
grade rule; kind: which of several (single, double); depth, width: in mm; angle: in degrees, counter-clockwise from the right;
to: what it points to.
"""

Facts = Mapping[Fact, str | float]

MEANINGS: frozenset[str] = frozenset(get_args(Meaning))
FACTS: frozenset[str] = frozenset(get_args(Fact))
