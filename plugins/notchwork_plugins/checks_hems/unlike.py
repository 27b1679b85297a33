"""Two hems that meet at a seam are not equally deep."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from notchwork.checks import by_the_odd_one, check
from notchwork.findings import Finding, Length, Place, Row, Rule, Tolerance, plain_name
from notchwork.sewing import Nest
from notchwork.sewing.pieces.lines import Floats
from notchwork.sewing.shapes.hems import HemsMeeting, hems_meeting
from notchwork.sewing.ways.meeting import LineKey

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
    "Where it ends, the {edge} of {piece_a} is turned up {depth} and {others} {other_depth}: "
    "{off} apart (up to {fine} is fine)."
)
HINT = "Give both hems one depth, and allowances to match."


@check(UNLIKE)
def unlike(nest: Nest) -> Iterator[Finding]:
    pairs = [pair for pair in hems_meeting(nest) if bool(np.any(_off(pair) != 0.0))]
    for group in by_the_odd_one(pairs, _odd, _turned):
        yield _finding(nest, group)


def _odd(pair: HemsMeeting) -> tuple[LineKey, bytes, bytes]:
    """The hem in front with both depths: at the two side seams of one skirt it is one fault."""
    return (pair.one, np.round(pair.depth, 3).tobytes(), np.round(pair.other_depth, 3).tobytes())


def _turned(pair: HemsMeeting) -> HemsMeeting:
    return HemsMeeting(pair.seam, pair.other, pair.one, pair.other_depth, pair.depth)


def _off(pair: HemsMeeting) -> Floats:
    return np.nan_to_num(pair.depth - pair.other_depth)


def _finding(nest: Nest, group: list[HemsMeeting]) -> Finding:
    pair = group[0]
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
    others = dict.fromkeys(met.other for met in group)
    values = {
        "edge": plain_name(pair.one[1]),
        "piece_a": nest.pieces[pair.one[0]].name,
        "others": tuple(f"the {plain_name(edge)} of {nest.pieces[piece].name}" for piece, edge in others),
    }
    return Finding(
        STEP if meant else UNLIKE,
        Place(seam=pair.seam, piece=pair.one[0], line=pair.one[1]),
        TEXT,
        HINT,
        values,
        rows,
        tuple(dict.fromkeys((pair.one[0], *(piece for piece, _ in others)))),
        tuple(Place(seam=seam) for seam in dict.fromkeys(met.seam for met in group) if seam != pair.seam),
    )
