"""What a stroke, point or text of a drawing stands for, and what else can be said of it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal, get_args

Meaning = Literal[
    "cut",
    "stitch",
    "fold",
    "opened",
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
    "match",
    "limit",
    "name",
    "note",
    "edge-name",
    "size-name",
    "legend",
]
"""A drawing that comes from elsewhere may leave it open: None.

match: the letter of a seam, in a ring; limit: where gathers, ease or an opening begin or end. opened: a fold along which the piece is drawn whole; the mirror images carry the fact ``copy``.
"""

Fact = Literal[
    "name",
    "piece",
    "edge",
    "size",
    "copy",
    "quantity",
    "material",
    "rule",
    "kind",
    "use",
    "depth",
    "width",
    "angle",
    "grain",
    "to",
    "seam",
    "states",
]
"""Everything that may be said of a group, stroke, point or text beside where it lies.

name: its maker's id, or what a piece is called; piece, edge: the ids it belongs to; size: the size it holds for, left out
where it holds for all; copy: which image or further copy of what is drawn, left out of what is none; quantity, material: a cut order, plies with a dot between them; rule: a grade rule; kind: which of
several (single, double); use: what it is for; depth, width: in mm, an edge's width being its allowance; angle: in degrees,
counter-clockwise from the right; grain: how the lengthwise thread is wanted; to: what it points to, or is laid towards;
seam: the seam whose letter it is; states: what no line or sign shows, as JSON in the open format's words with lengths in mm.
The letter of a seam states that seam in full; a line states an object with ``edge`` (the keys of its edge), ``openings`` (in
full, those that begin on it) and ``nodes`` (each as its share of the line's length and its keys; an edge is then said to start ``from`` the one before), a cut order one with
``materials``.
"""

Facts = Mapping[Fact, str | float]

MEANINGS: frozenset[str] = frozenset(get_args(Meaning))
FACTS: frozenset[str] = frozenset(get_args(Fact))
NUMBERS: frozenset[Fact] = frozenset({"copy", "quantity", "depth", "width", "angle"})
"""The facts that are numbers; all others are words."""
