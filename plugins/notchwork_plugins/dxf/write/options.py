"""What a person may choose of how the convention is written. Whatever the convention leaves open, or is known from memory only,
is an option here, with what this program takes when nothing is said."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import NamedTuple

from notchwork.formats import Option
from notchwork_plugins.dxf.settings import measure, one_of

OPTIONS = (
    Option("chord", "how far (mm) the straight lines that stand for a curve may lie beside it, 0.01 to 1", "0.05"),
    Option("nest", "how sizes are written: blocks (one for each piece and size), or rules (the base size and a rule file)", "blocks"),
    Option("units", "what the file counts in: metric (mm), or english (inches)", "metric"),
    Option("notches", "the layer of notches, and with it how they are cut: 4 slit or V, 80 T, 81 castle, 82 check, 83 U", "4"),
    Option("notch_data", "what a notch says beside its place: full (depth in z, angle), or none", "full"),
    Option("notch_angle", "which way the angle of a notch points: inward (into the piece), or outward", "inward"),
    Option("quantity", "how many are cut: pair (two numbers: as drawn, mirrored) of two and more, or total (one number)", "pair"),
)  # fmt: skip

BARE_OPTIONS = (
    *OPTIONS,
    Option("document", "how the pattern's document goes along: none, or comments (lines that readers skip)", "none"),
)  # fmt: skip
"""Those of a file of blocks and entities only."""

CAD_OPTIONS = (
    Option("curves", "how curves are written: splines (exact), or polylines for cutters that take no splines", "splines"),
    Option("chord", "how far (mm) the straight lines of polylines may lie beside the curves, 0.001 to 1", "0.01"),
)  # fmt: skip
"""Those of a plain drawing."""

_CHOICES = {
    "nest": ("blocks", "rules"),
    "units": ("metric", "english", "mm", "cm", "m", "in", "ft"),
    "notches": ("4", "80", "81", "82", "83"),
    "notch_data": ("full", "none"),
    "notch_angle": ("inward", "outward"),
    "quantity": ("pair", "total"),
    "document": ("none", "comments"),
}
_FINEST, _COARSEST = 0.01, 1.0


class Unit(NamedTuple):
    """What a file counts in: its name in the text UNITS, how many of it are a mm, and the decimals that are written."""

    word: str
    per_mm: float
    digits: int


METRIC, ENGLISH = Unit("METRIC", 1.0, 4), Unit("ENGLISH", 1 / 25.4, 6)
IN_INCHES = ("english", "in", "ft")
"""The convention has no other units; who states those of a file that is read, too, gets the nearer of the two."""


@dataclass(frozen=True, slots=True)
class Choices:
    """The options as they were chosen: ``chord`` in mm."""

    chord: float
    by_rules: bool
    unit: Unit
    notch_layer: int
    notch_data: bool
    inward: bool
    in_pairs: bool
    comments: bool


def chosen(options: Mapping[str, str]) -> Choices:
    """The choices, defaults filled in. Raises NotchworkError for a value that cannot be."""
    said = {option.name: option.default or "" for option in BARE_OPTIONS}
    for name, known in _CHOICES.items():
        said[name] = one_of(options, name, known) or said[name]
    return Choices(
        measure(options, "chord", said["chord"], _FINEST, _COARSEST),
        said["nest"] == "rules",
        ENGLISH if said["units"] in IN_INCHES else METRIC,
        int(said["notches"]),
        said["notch_data"] == "full",
        said["notch_angle"] == "inward",
        said["quantity"] == "pair",
        said["document"] == "comments",
    )


def carries_comments(options: Mapping[str, str]) -> bool:
    """Whether the document goes along in comments. Raises NotchworkError for a value that cannot be."""
    return one_of(options, "document", _CHOICES["document"]) == "comments"
