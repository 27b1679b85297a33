"""Two hems that meet at a seam are not equally deep."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from notchwork.checks import check
from notchwork.findings import Finding, Length, Place, Row, Rule, Tolerance, plain_name
from notchwork.sewing import Nest
from notchwork.sewing.hems import hems_meeting

DESIGN = 20.0
"""mm from which a difference is taken as meant."""

UNLIKE = Rule(
    id="hems/unlike-at-a-seam",
    title="Two hems that meet at a seam are not equally deep",
    rationale="Hems that run on across a seam are turned up in one go: with unlike depths the edge makes a step there. A vent, a "
    "step hem or a faced side is another matter.",
    source="Common practice, no source.",
    grade=Tolerance(warning=1.0),
)

STEP = replace(UNLIKE, grade=Tolerance(info=1.0))

TEXT = (
    "Where it ends, the {edge} of {piece_a} is turned up {depth} and the {other} of {piece_b} {other_depth}: "
    "{off} apart (up to {fine} is fine)."
)
HINT = "Give both hems one depth, and allowances to match."


@check(UNLIKE)
def unlike(nest: Nest) -> Iterator[Finding]:
    for pair in hems_meeting(nest):
        off = pair.depth - pair.other_depth
        meant = bool(np.all(np.abs(off) > DESIGN))
        rows = tuple(
            Row(
                size,
                float(by),
                float(a),
                float(b),
                {"depth": Length(float(a)), "other_depth": Length(float(b))},
            )
            for size, by, a, b in zip(nest.sizes, off, pair.depth, pair.other_depth, strict=True)
        )
        values = {
            "edge": plain_name(pair.one[1]),
            "other": plain_name(pair.other[1]),
            "piece_a": nest.pieces[pair.one[0]].name,
            "piece_b": nest.pieces[pair.other[0]].name,
        }
        place = Place(seam=pair.seam, piece=pair.one[0], line=pair.one[1])
        pieces = tuple(dict.fromkeys((pair.one[0], pair.other[0])))
        yield Finding(STEP if meant else UNLIKE, place, TEXT, HINT, values, rows, pieces)
