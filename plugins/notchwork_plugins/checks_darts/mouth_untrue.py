"""The mouth of a dart, folded shut, falls short of the seam line."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from notchwork.checks import check
from notchwork.findings import Finding, Length, Place, Row, Rule, Tolerance, plain_name
from notchwork.sewing import Nest
from notchwork.sewing.pieces.allowances import allowance
from notchwork.sewing.shapes.darts import DartShape, darts_of, falls_short, pressed_towards

NARROW = 15.0
"""mm: a mouth narrower than this is not looked at."""
MOST = 3.0
"""mm"""

UNTRUE = Rule(
    id="darts/mouth-untrue",
    title="The mouth of a dart falls short of the seam when it is folded",
    rationale="Folded and pressed, the cloth between a dart's legs must reach the seam line, or the seam does not catch it. A "
    "straight mouth falls short by a·sin θ for a mouth 2a wide and an angle θ between the legs. The true mouth is the seam "
    "itself, traced through while the dart is folded.",
    source="Plane geometry. At most 3 mm or a third of the allowance: common practice, no source.",
    grade=Tolerance(warning=0.0),
)

TEXT = (
    "Folded shut and pressed{towards}, the mouth of the dart “{dart}” falls {short} short of the {edge} "
    "(up to {most} is fine)."
)
HINT = "Fold the dart on paper as it will be pressed, and cut or trace the {edge} across it."


@check(UNTRUE, needs="shapes")
def mouth_untrue(nest: Nest) -> Iterator[Finding]:
    for shape in darts_of(nest):
        if shape.line is None or shape.dart.slashed or shape.dart.open_from is not None:
            continue
        rows = tuple(_row(nest, shape, size) for size in range(len(nest.sizes)))
        place = Place(piece=shape.piece, line=shape.line.name, dart=shape.name)
        way = f" towards the {plain_name(shape.dart.press)}" if shape.dart.press else ""
        values = {"dart": plain_name(shape.name), "edge": plain_name(shape.line.name), "towards": way}
        yield Finding(UNTRUE, place, TEXT, HINT, values, rows, (shape.piece,))


def _row(nest: Nest, shape: DartShape, size: int) -> Row:
    if not shape.mouth[size] >= NARROW:
        return Row(nest.sizes[size])
    assert shape.line is not None
    stated = pressed_towards(nest, shape)
    # Where nothing says which way it is pressed, the better way counts.
    short = min(falls_short(nest, shape, size, way) for way in ((stated,) if stated else ("low", "high")))
    width = float(allowance(nest.pieces[shape.piece], shape.line.name)[size])
    most = min(MOST, width / 3.0) if width > 0 else MOST
    values = {"short": Length(short), "most": Length(most)}
    return Row(nest.sizes[size], float(np.maximum(short - most, 0.0)), short, most, values)
